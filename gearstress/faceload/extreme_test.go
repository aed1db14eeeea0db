package faceload

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

// Any stiffness from 10 to 10⁹ N/mm², any force from 10⁻³ to 10⁶ N, shafts from near rigid to very soft, with a
// housing that gives way as a whole, also for two meshes whose forces differ up to a million times: all
// solve, and keep the conditions to the stated residual.
func TestExtremesSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.SampledFrom([]int{4, 11, 21, 41}).Draw(t, "slices")
		p := &Problem{}
		force := rapid.Float64Range(-3, 6).Draw(t, "force")
		for range rapid.IntRange(1, 2).Draw(t, "meshes") {
			face := math.Pow(10, rapid.Float64Range(0, 2.5).Draw(t, "face"))
			p.Meshes = append(p.Meshes, Mesh{
				Slices: count, Face: face,
				Stiffness: math.Pow(10, rapid.Float64Range(1, 9).Draw(t, "stiffness")),
				Force:     math.Pow(10, force),
				Gap: Gap(count, face, Crowning(face, rapid.Float64Range(-0.05, 0.05).Draw(t, "crowning")),
					LeadError(face, rapid.Float64Range(-0.1, 0.1).Draw(t, "lead"))),
			})
		}
		if len(p.Meshes) == 2 {
			ratio := rapid.Float64Range(-6, 6).Draw(t, "ratio of forces")
			p.Meshes[1].Force = math.Pow(10, min(6, max(-3, force+ratio)))
		}
		n := count * len(p.Meshes)
		p.Compliance = make([]float64, n*n)
		whole := math.Pow(10, rapid.Float64Range(-8, -3).Draw(t, "housing"))
		lean := math.Pow(10, rapid.Float64Range(-8, -3).Draw(t, "lean"))
		bend := math.Pow(10, rapid.Float64Range(-9, -4).Draw(t, "bend"))
		x := Stations(count, 2)
		for i := range n {
			for j := range n {
				a, b := x[i%count], x[j%count]
				p.Compliance[i*n+j] = whole + lean*a*b + bend*a*a*b*b
			}
		}
		r := solve(t, p)
		for m := range p.Meshes {
			if k := r.FaceLoadFactor(m); math.IsNaN(k) || k < 1 {
				t.Fatalf("K %v", k)
			}
		}
		if r.Steps > 4*n {
			t.Fatalf("%d steps for %d stations", r.Steps, n)
		}
	})
}

// Numbers beyond all sense end in an error or in a solution that keeps its conditions, never in a panic or a NaN.
func TestNonsenseIsRefusedOrSolved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		power := func(name string) float64 { return math.Pow(10, rapid.Float64Range(-150, 150).Draw(t, name)) }
		p := &Problem{}
		meshes := rapid.IntRange(1, 2).Draw(t, "meshes")
		for range meshes {
			m := Mesh{Slices: 4, Face: power("face"), Stiffness: power("stiffness"), Force: power("force"), Gap: make([]float64, 4)}
			for i := range m.Gap {
				m.Gap[i] = power("gap")
			}
			p.Meshes = append(p.Meshes, m)
		}
		n := 4 * meshes
		p.Compliance = make([]float64, n*n)
		for i := range n {
			p.Compliance[i*n+i] = power("compliance")
		}
		var s Solver
		r, err := s.Solve(p)
		if err != nil {
			return
		}
		if r.Steps > 4*n {
			t.Fatalf("%d steps for %d stations", r.Steps, n)
		}
		for m := range p.Meshes {
			if k, share := r.FaceLoadFactor(m), r.ContactFraction(m); !(k >= 1) || !(share >= 0 && share <= 1) {
				t.Fatalf("K %v, contact %v", k, share)
			}
		}
	})
}

// Strips that touch without load, strips with the same gap, gaps far from zero: the degenerate cases.
func TestDegenerateContacts(t *testing.T) {
	// Six stations 1 mm apart, straight gap of 1 µm per mm on teeth of 1000 N/mm²: with δ = 3 µm the fourth strip just
	// touches. Loads by hand: 5/12·3, 13/12·2, 1·1 N.
	for _, off := range []float64{0, 7, -7} {
		gap := make([]float64, 6)
		for i := range gap {
			gap[i] = off + float64(i)/1000
		}
		m := Mesh{Slices: 6, Face: 5, Stiffness: 1000, Force: 15.0/12 + 26.0/12 + 1, Gap: gap}
		r := solve(t, one(m, nil))
		for i, want := range []float64{15.0 / 12, 26.0 / 12, 1, 0, 0, 0} {
			near(t, "load", r.Load[0][i], want, 1e-11)
		}
		near(t, "approach", r.Approach[0], off+0.003, 1e-14)
		near(t, "separation", r.Separation[0][5], 0.002, 1e-14)
		near(t, "contact", r.ContactFraction(0), 0.6, 1e-11)
	}
	// One deep dent beside it: load on both sides of strips that carry none.
	gap := make([]float64, 9)
	gap[4] = 1
	r := solve(t, one(Mesh{Slices: 9, Face: 8, Stiffness: 1000, Force: 70, Gap: gap}, nil))
	near(t, "dent", r.Load[0][4], 0, 0)
	near(t, "beside the dent", r.Load[0][3], 10, 1e-12)
	near(t, "contact", r.ContactFraction(0), 0.75, 0.005)
}

// The same solver on problems of other sizes, in any order, gives what a new one gives.
func TestSolverCanBeReused(t *testing.T) {
	var s Solver
	for _, count := range []int{21, 5, 41, 4, 21} {
		p := one(Mesh{Slices: count, Face: 20, Stiffness: 15000, Force: 5000, Gap: Gap(count, 20, LeadError(20, 0.1))}, stocky)
		r, err := s.Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		fresh := solve(t, p)
		for i := range count {
			near(t, "load", r.Load[0][i], fresh.Load[0][i], 0)
		}
		if r.Steps != fresh.Steps || r.Approach[0] != fresh.Approach[0] {
			t.Errorf("reused: %d steps, approach %v; fresh: %d, %v", r.Steps, r.Approach[0], fresh.Steps, fresh.Approach[0])
		}
	}
}

func TestNoMemoryBeyondTheResult(t *testing.T) {
	p := pairOf(21, 0.05)
	var s Solver
	if _, err := s.Solve(p); err != nil {
		t.Fatal(err)
	}
	// The result itself: the struct, its rows and its values.
	if got := testing.AllocsPerRun(20, func() { s.Solve(p) }); got > 3 {
		t.Errorf("%v allocations a solve, want 3", got)
	}
}

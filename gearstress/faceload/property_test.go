package faceload

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

var sizes = [][]int{{4}, {9}, {21}, {7, 12}, {21, 21}, {5, 6, 7}}

func closeTo(t *rapid.T, what string, got, want, tolerance float64) {
	if !(math.Abs(got-want) <= tolerance) {
		t.Fatalf("%s: got %.12g, want %.12g ± %.1g", what, got, want, tolerance)
	}
}

// The contact conditions, taken from the problem alone.
func TestConditionsOfContact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems(sizes, true).Draw(t, "problem")
		r := solve(t, p)
		q, w := p.plain(), flat(r)
		open := slices.Concat(r.Separation...)
		sums := make([]float64, len(p.Meshes))
		for k := range w {
			u := q.g[k] - r.Approach[q.owner[k]]
			for l := range w {
				u += q.a[k][l] * w[l]
			}
			sums[q.owner[k]] += w[k]
			switch {
			case w[k] < 0 || open[k] < 0 || w[k]*open[k] != 0:
				t.Fatalf("station %d: load %v N and separation %v mm", k+1, w[k], open[k])
			case math.Abs(u-open[k]) > 1e-10:
				t.Fatalf("station %d: separation %v mm, from the loads %v mm", k+1, open[k], u)
			}
		}
		for m, f := range q.force {
			closeTo(t, "sum of loads", sums[m], f, 1e-9*f)
		}
		if r.Residual > accepted {
			t.Fatalf("residual %v", r.Residual)
		}
		// Work of the forces is the work stored in teeth and shafts twice over and what closes the gaps.
		given, taken := 0.0, 0.0
		for m, f := range q.force {
			given += f * r.Approach[m]
		}
		size := 0.0
		for k := range w {
			for l := range w {
				taken += w[k] * q.a[k][l] * w[l]
			}
			taken += w[k] * q.g[k]
			size += w[k] * (q.a[k][k]*w[k] + math.Abs(q.g[k]))
		}
		closeTo(t, "energy", given, taken, 1e-9*size)
	})
}

// Shares of the face, centroid and factor keep to their bounds.
func TestResultsStayInTheirBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems(sizes, true).Draw(t, "problem")
		r := solve(t, p)
		for m, mesh := range p.Meshes {
			k, share, c := r.FaceLoadFactor(m), r.ContactFraction(m), r.Centroid(m)
			widest := Widths(mesh.Slices, mesh.Face)[0]
			if k < 1 || k > mesh.Face/widest*(1+1e-9) || share < 0 || share > 1 || math.Abs(c) > mesh.Face/2*(1+1e-12) {
				t.Fatalf("mesh %d: K %v, contact %v, centroid %v of %v", m+1, k, share, c, mesh.Face)
			}
			if (share == 1) == slices.Contains(r.Load[m], 0) {
				t.Fatalf("mesh %d: contact %v with loads %v", m+1, share, r.Load[m])
			}
		}
	})
}

func TestMirroredGapGivesMirroredLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems(sizes, true).Draw(t, "problem")
		r := solve(t, p)
		// Every mesh is turned end for end, with the rows and columns of the compliance.
		var order []int
		mirrored := &Problem{Meshes: slices.Clone(p.Meshes)}
		n := 0
		for m := range p.Meshes {
			mirrored.Meshes[m].Gap = slices.Clone(p.Meshes[m].Gap)
			slices.Reverse(mirrored.Meshes[m].Gap)
			for i := range p.Meshes[m].Slices {
				order = append(order, n+p.Meshes[m].Slices-1-i)
			}
			n += p.Meshes[m].Slices
		}
		if p.Compliance != nil {
			for _, i := range order {
				for _, j := range order {
					mirrored.Compliance = append(mirrored.Compliance, p.Compliance[i*n+j])
				}
			}
		}
		w, want := solve(t, mirrored), flat(r)
		turned := make([]float64, n)
		for i, k := range order {
			turned[i] = want[k]
		}
		compare(t, p, w, turned, 1e-8)
		for m := range p.Meshes {
			closeTo(t, "centroid", w.Centroid(m), -r.Centroid(m), 1e-7*p.Meshes[m].Face)
			closeTo(t, "contact", w.ContactFraction(m), r.ContactFraction(m), 1e-7)
		}
	})
}

func TestLoadAndGapScaleTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems(sizes, true).Draw(t, "problem")
		scale := math.Pow(10, rapid.Float64Range(-6, 6).Draw(t, "scale"))
		lift := rapid.Float64Range(-1, 1).Draw(t, "lift")
		scaled := &Problem{Meshes: slices.Clone(p.Meshes), Compliance: p.Compliance}
		for m := range scaled.Meshes {
			q := &scaled.Meshes[m]
			q.Force *= scale
			q.Gap = slices.Clone(q.Gap)
			for i := range q.Gap {
				q.Gap[i] = (q.Gap[i] + lift) * scale
			}
		}
		r, s := solve(t, p), solve(t, scaled)
		w := flat(r)
		for k := range w {
			w[k] *= scale
		}
		compare(t, scaled, s, w, 1e-7)
		for m := range p.Meshes {
			closeTo(t, "approach", s.Approach[m], (r.Approach[m]+lift)*scale, 1e-9*scale)
		}
	})
}

// On rigid shafts the load is that of water filling a vessel: pour until the force is reached.
func TestRigidShaftsFillTheGapLikeWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(4, 60).Draw(t, "slices")
		m := Mesh{Slices: count, Face: 20, Stiffness: math.Pow(10, rapid.Float64Range(1, 9).Draw(t, "stiffness")), Force: math.Pow(10, rapid.Float64Range(-3, 6).Draw(t, "force")),
			Gap: rapid.SliceOfN(rapid.Float64Range(-0.1, 0.1), count, count).Draw(t, "gap")}
		r := solve(t, one(m, nil))
		order := make([]int, count)
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(a, b int) int { return int(math.Copysign(1, m.Gap[a]-m.Gap[b])) })
		width, level := Widths(count, m.Face), 0.0
		floor := m.Gap[order[0]]
		springs, lifted := 0.0, 0.0
		for i, k := range order {
			springs += m.Stiffness * width[k]
			lifted += m.Stiffness * width[k] * (m.Gap[k] - floor)
			level = (m.Force + lifted) / springs
			if i+1 == count || level <= m.Gap[order[i+1]]-floor {
				break
			}
		}
		want := make([]float64, count)
		for k := range want {
			want[k] = m.Stiffness * width[k] * max(0, level-(m.Gap[k]-floor))
		}
		// A stiff tooth turns the last digit of the gap into load.
		rounding := 1e-15 * m.Stiffness * m.Face / m.Force
		compare(t, one(m, nil), r, want, 1e-9+rounding)
	})
}

// With more force the gears come nearer to one another, and each load changes by a bounded share of the change of the
// force: nothing jumps where a strip comes into contact. At the smallest force one strip carries it all.
func TestLoadIsContinuousInTheForce(t *testing.T) {
	const slicesOfFace, face = 21, 20.0
	gap := Gap(slicesOfFace, face, Crowning(face, 0.02), LeadError(face, 0.05))
	for name, k := range map[string]kernel{"rigid": nil, "shaft": stocky} {
		var s Solver
		var last *Solution
		before, most := 0.0, 0.0
		parts := 0
		for force := 1e-3; force < 1e6; force *= 1.02 {
			p := one(Mesh{Slices: slicesOfFace, Face: face, Stiffness: 15000, Force: force, Gap: gap}, k)
			r, err := s.Solve(p)
			if err != nil {
				t.Fatalf("%s, %v N: %v", name, force, err)
			}
			if last == nil {
				loaded := 0
				for _, w := range r.Load[0] {
					if w > 0 {
						loaded++
					}
				}
				if loaded != 1 {
					t.Errorf("%s: %d strips carry 1e-3 N, want 1", name, loaded)
				}
			} else {
				if !(r.Approach[0] > last.Approach[0]) {
					t.Errorf("%s, %v N: approach %v mm after %v mm", name, force, r.Approach[0], last.Approach[0])
				}
				for i, w := range r.Load[0] {
					most = max(most, math.Abs(w-last.Load[0][i])/(force-before))
				}
				if r.ContactFraction(0) > last.ContactFraction(0)+1e-9 {
					parts++
				}
			}
			last, before = r, force
		}
		if most > 1+1e-6 {
			t.Errorf("%s: a load changed by %v of the change of the force", name, most)
		}
		near(t, name+", contact at 1e6 N", last.ContactFraction(0), 1, 0)
		if parts < 100 {
			t.Errorf("%s: contact grew in only %d steps of force: it should grow smoothly", name, parts)
		}
	}
}

func TestLoadEvensOutAsTheGapVanishes(t *testing.T) {
	const face = 20.0
	for _, size := range []float64{1e-3, 1e-4, 1e-5, 1e-9, 0} {
		m := Mesh{Slices: 21, Face: face, Stiffness: 15000, Force: 15000, Gap: Gap(21, face, LeadError(face, size))}
		near(t, "K", solve(t, one(m, nil)).FaceLoadFactor(0), 1+size*15000/(2*750), 1e-9)
	}
	r := solve(t, one(Mesh{Slices: 21, Face: face, Stiffness: 15000, Force: 15000}, nil))
	near(t, "approach", r.Approach[0], 15000/(15000*face), 1e-12)
	near(t, "centroid", r.Centroid(0), 0, 1e-12)
}

// Meshes that share nothing don't feel one another.
func TestUncoupledMeshesAreSolvedAsIfAlone(t *testing.T) {
	a := Mesh{Slices: 9, Face: 18, Stiffness: 15000, Force: 4000, Gap: Gap(9, 18, LeadError(18, 0.06))}
	b := Mesh{Slices: 21, Face: 30, Stiffness: 17000, Force: 20000, Gap: Gap(21, 30, Crowning(30, 0.05))}
	both := &Problem{Meshes: []Mesh{a, b}, Compliance: make([]float64, 30*30)}
	pa, pb := one(a, stocky), one(b, stocky)
	for i := range 9 {
		copy(both.Compliance[i*30:], pa.Compliance[i*9:i*9+9])
	}
	for i := range 21 {
		copy(both.Compliance[(9+i)*30+9:], pb.Compliance[i*21:i*21+21])
	}
	r, ra, rb := solve(t, both), solve(t, pa), solve(t, pb)
	for i := range 9 {
		near(t, "first mesh", r.Load[0][i], ra.Load[0][i], 1e-8)
	}
	for i := range 21 {
		near(t, "second mesh", r.Load[1][i], rb.Load[0][i], 1e-8)
	}
}

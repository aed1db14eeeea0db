package faceload

import (
	"fmt"
	"math"
	"testing"
)

// Closed form of ISO 6336-1 method C, recalled and checked by own calculation against a slice model with rigid
// misalignment. Status: computed. Stiffness there in N/(mm·µm), misalignment in µm.
var regimes = []struct{ misalignment, stiffness, lineLoad, want float64 }{
	{8, 17, 200, 1.34},
	{8, 17, 68, 2.0},
	{25, 17, 150, 2.38048},
	{40, 17, 150, 3.01109},
}

func TestMisalignmentFormulaMatchesOwnFigures(t *testing.T) {
	for _, c := range regimes {
		got, _ := FromMisalignment(c.misalignment/1000, c.stiffness*1000, c.lineLoad)
		near(t, fmt.Sprint(c), got, c.want, 5e-6)
		back, _ := FromMisalignment(-c.misalignment/1000, c.stiffness*1000, c.lineLoad)
		near(t, "other sign", back, got, 0)
	}
	// The two regimes meet at q = 1 with the whole face just in contact.
	for _, q := range []float64{1 - 1e-12, 1, 1 + 1e-12} {
		k, contact := FromMisalignment(q, 2, 1)
		near(t, "K at q = 1", k, 2, 1e-11)
		near(t, "contact at q = 1", contact, 1, 1e-11)
	}
}

// The solver on rigid shafts against the same figures: to rounding while the whole face is in contact, within the error
// of 401 strips where the edge of the contact lies between two stations.
func TestSolverMatchesMisalignmentFormula(t *testing.T) {
	const face = 20.0
	for _, c := range regimes {
		for _, slices := range []int{4, 5, 21, 401} {
			m := Mesh{Slices: slices, Face: face, Stiffness: c.stiffness * 1000, Force: c.lineLoad * face,
				Gap: Gap(slices, face, LeadError(face, c.misalignment/1000))}
			r := solve(t, one(m, nil))
			want, contact := FromMisalignment(c.misalignment/1000, m.Stiffness, c.lineLoad)
			name := fmt.Sprintf("%v with %d strips", c, slices)
			switch {
			case want <= 2:
				near(t, name, r.FaceLoadFactor(0), want, 1e-6)
				near(t, name+", contact", r.ContactFraction(0), contact, 1e-6)
				// A straight load K at one end and 2 − K at the other acts (K − 1) b/6 from the middle; the strips make
				// ∫ξ² dξ larger by 2/(n−1)³ of it (see TestStripsIntegrate).
				n := float64(slices)
				near(t, name+", centroid", r.Centroid(0), -(want-1)*face/6*(1+2/math.Pow(n-1, 3)), 1e-9*face)
			case slices == 401:
				near(t, name, r.FaceLoadFactor(0), want, 2e-5*want)
				near(t, name+", contact", r.ContactFraction(0), contact, 2e-5)
				near(t, name+", centroid", r.Centroid(0), -face/2+contact*face/3, 1e-4*face)
			case slices == 21:
				near(t, name, r.FaceLoadFactor(0), want, 4e-3*want)
			}
		}
	}
}

// A solid pinion wound up by torque from one end against a rigid wheel: own derivation, exact: L = (b/d) √(8 c/(π G)),
// K_Hβ = L coth L. Status: computed; tolerance as stated with the figures.
func TestTwistedPinionMatchesExactFigures(t *testing.T) {
	for _, c := range []struct{ face, diameter, stiffness, length, want float64 }{
		{50, 50, 20000, 0.80175, 1.20561},
		{40, 60, 15000, 0.46289, 1.07042},
		{75, 50, 20000, 1.20262, 1.44121},
	} {
		shear := 206000 / (2 * 1.3)
		l := c.face / c.diameter * math.Sqrt(8*c.stiffness/(math.Pi*shear))
		near(t, "L", l, c.length, 5e-6)
		exact := l / math.Tanh(l)
		near(t, "L coth L", exact, c.want, 5e-6)
		for _, s := range []struct {
			slices    int
			tolerance float64
		}{{11, 0.0009}, {21, 0.0003}, {31, 0.0002}, {101, 0.00002}} {
			m := Mesh{Slices: s.slices, Face: c.face, Stiffness: c.stiffness, Force: 7000}
			r := solve(t, one(m, twisted(c.diameter, c.face, shear)))
			near(t, fmt.Sprintf("b %v, %d strips", c.face, s.slices), r.FaceLoadFactor(0), exact, s.tolerance)
			if r.LineLoad[0][0] < r.LineLoad[0][s.slices-1] {
				t.Errorf("b %v: the load crowds to the end away from the torque", c.face)
			}
		}
	}
}

// N_F = 9/13 at b/h = 3 and 100/111 at b/h = 10 by hand from the formula (ISO 6336-1:2006, from memory).
// The accuracy with few strips that the package comment tells, against the closed form or against many strips.
func TestFewStripsAreEnough(t *testing.T) {
	const face, many = 20.0, 601
	straight := func(q float64) Profile { return LeadError(face, 2*q*750/15000) }
	even := func(face float64) func(int) Mesh {
		return func(count int) Mesh { return Mesh{Slices: count, Face: face, Stiffness: 15000, Force: 16900} }
	}
	gapped := func(p Profile) func(int) Mesh {
		return func(count int) Mesh {
			return Mesh{Slices: count, Face: face, Stiffness: 15000, Force: 15000, Gap: Gap(count, face, p)}
		}
	}
	for _, c := range []struct {
		name  string
		mesh  func(slices int) Mesh
		give  kernel
		exact float64 // 0: as with many strips
		error [3]float64
	}{
		{"shaft bent", even(18), stocky, 0, [3]float64{0.4e-4, 0.05e-4, 0.01e-4}},
		{"shaft bent strongly", even(40), stocky, 0, [3]float64{6e-4, 0.8e-4, 0.1e-4}},
		{"two thirds in contact", gapped(straight(2.3)), nil, 2 * math.Sqrt(2.3), [3]float64{30e-4, 2e-4, 2e-4}},
		{"a third in contact", gapped(straight(9.5)), nil, 2 * math.Sqrt(9.5), [3]float64{50e-4, 62e-4, 30e-4}},
		{"crowned, two thirds in contact", gapped(Crowning(face, 0.3)), nil, 0, [3]float64{80e-4, 30e-4, 15e-4}},
		{"end relief from a station on", gapped(EndRelief(face, Relief{Length: 2, Amount: 0.02}, Relief{Length: 2, Amount: 0.02})), stocky, 0, [3]float64{70e-4, 20e-4, 5e-4}},
		{"end relief from between stations on", gapped(EndRelief(face, Relief{Length: 3.3, Amount: 0.02}, Relief{Length: 3.3, Amount: 0.02})), stocky, 0, [3]float64{250e-4, 250e-4, 80e-4}},
	} {
		want := c.exact
		if want == 0 {
			want = solve(t, one(c.mesh(many), c.give)).FaceLoadFactor(0)
		}
		for i, count := range []int{11, 21, 41} {
			near(t, fmt.Sprintf("%s, %d strips", c.name, count), solve(t, one(c.mesh(count), c.give)).FaceLoadFactor(0), want, c.error[i])
		}
	}
}

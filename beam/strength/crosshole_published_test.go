package strength

import (
	"math"
	"testing"
)

// A published worksheet on a radial hole through a tube of 100 mm with a bore of 80 mm, r = 5 mm: 3.16 in tension, 2.85
// in bending, 3.76 in torsion; τ_nom 0.86 and σ_max 3.24 MPa at 100 N·m.
func TestCrossHole(t *testing.T) {
	n := Notch{Kind: CrossHole, Outer: 100, Bore: 80, Hole: 10}
	c := n.Concentration(800)
	if len(c.Outside) != 0 {
		t.Error(c.Outside)
	}
	torsion := HoleTorsion(0.1, 0.8)
	near(t, "tension", c.Tension, 3.16, 0.005)
	near(t, "bending", c.Bending, 2.85, 0.005)
	near(t, "torsion", torsion, 3.76, 0.005)
	same(t, "tension, all digits", c.Tension, 3.163275, 1e-6)
	same(t, "bending, all digits", c.Bending, 2.850818, 1e-6)
	same(t, "torsion, all digits", torsion, 3.757749, 1e-6)
	nominal := n.Nominal().Under(Load{Moment: 1e5, Torque: 1e5})
	same(t, "σ_nom", nominal.Bending, 1.725257, 1e-6)
	same(t, "τ_nom", nominal.Torsion, 0.8626284, 1e-6)
	near(t, "σ_max", torsion*nominal.Torsion, 3.24, 0.005)
	// The fibre at the hole is pulled: the equivalent stress under torsion alone is that tension.
	same(t, "equivalent stress", Nominal{Torsion: nominal.Torsion}.times(c.Factors).VonMises(), torsion*nominal.Torsion, 1e-12)
	for _, m := range []Notch{{Kind: CrossHole, Outer: 30, Hole: 14}, {Kind: CrossHole, Outer: 30, Bore: 28, Hole: 3}} {
		if out := m.Concentration(800).Outside; len(out) != 1 {
			t.Errorf("%v: %v", m, out)
		}
	}
}

// The strip that a hole takes out of a section, against a sum over thin slices.
func TestDrilledSection(t *testing.T) {
	outer, bore, hole := 30.0, 10.0, 2.0
	inertia := 0.0
	const slices = 200000
	for i := range slices {
		y := outer / 2 * (2*(float64(i)+0.5)/slices - 1)
		chord := func(d float64) float64 { return 2 * math.Sqrt(max(0, d*d/4-y*y)) }
		solid := chord(outer) - chord(bore)
		inertia += solid * y * y * outer / slices
	}
	// Where the strip runs along y it is as long as the ring is thick, twice.
	strip := hole * (math.Pow(outer, 3) - math.Pow(bore, 3)) / 12
	same(t, "whole ring", Ring(outer, bore).Bending*outer/2, inertia, 1e-6)
	same(t, "drilled", drilled(outer, bore, hole).Bending*outer/2, inertia-strip, 1e-6)
}

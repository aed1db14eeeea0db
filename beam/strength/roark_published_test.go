package strength

import "testing"

// Roark, Formulas for Stress and Strain, 5th ed., Table 37, cases 17a and 17b, as a published sheet has them worked out:
// a shoulder of 6.35 to 10 mm with r = 1.5 mm, M = 7.85 N·mm, P = 31 N.
func TestRoarkShoulder(t *testing.T) {
	depth := (10 - 6.35) / 2
	bending, _ := olderBending.read(depth, 1.5, 10)
	tension, _ := olderTension.read(depth, 1.5, 10)
	near(t, "K, bending", bending, 1.398, 0.0005)
	near(t, "K, tension", tension, 1.515, 0.0005)
	same(t, "K, bending, all digits", bending, 1.398359, 1e-6)
	same(t, "K, tension, all digits", tension, 1.514961, 1e-6)
	n := Ring(6.35, 0).Under(Load{Moment: 7.85, Normal: 31}).times(Factors{Bending: bending, Tension: tension})
	near(t, "σ_b", n.Bending, 0.4367, 0.0001)
	near(t, "σ_t", n.Axial, 1.483, 0.0005)
}

// Roark, 7th ed., Table 17.1, groove with a round bottom: all digits of a recomputation.
func TestRoarkGroove(t *testing.T) {
	for _, c := range []struct{ bottom, outer, radius, bending, torsion float64 }{
		{32, 40, 2, 2.420296, 1.75032}, {36.4, 40, 1.7, 2.505258, 1.754559}, {38, 40, 0.5, 3.287582, 2.335916},
	} {
		got, _ := grooveBendingRoark.read((c.outer-c.bottom)/2, c.radius, c.outer)
		same(t, "bending", got, c.bending, 1e-6)
		got, _ = grooveTorsionRoark.read((c.outer-c.bottom)/2, c.radius, c.outer)
		same(t, "torsion", got, c.torsion, 1e-6)
	}
}

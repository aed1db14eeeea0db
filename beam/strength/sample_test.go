package strength

import (
	"math"
	"testing"
)

// near fails unless a figure lies within a tolerance of what was printed.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %.7g, want %.7g within %.2g", what, got, want, tolerance)
	}
}

// same is near with a share of the figure as its tolerance.
func same(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	near(t, what, got, want, share*math.Abs(want))
}

// swings is the amplitude and mean of a solid section with factors on both, of bending and torsion that each have an
// amplitude and a mean.
func swings(diameter float64, felt Factors, ma, ta, mm, tm float64) Swing {
	m := Ring(diameter, 0)
	a, b := m.Under(Load{Moment: ma, Torque: ta}).times(felt), m.Under(Load{Moment: mm, Torque: tm}).times(felt)
	return Swing{math.Hypot(a.Bending, math.Sqrt(3)*a.Torsion), math.Hypot(b.Bending, math.Sqrt(3)*b.Torsion)}
}

// diameterFor is the diameter at which a section is just safe n times, by halving.
func diameterFor(c Criterion, felt Factors, ma, ta, mm, tm float64, s Steel, endurance, n float64) float64 {
	low, high := 1e-3, 1e3
	for range 200 {
		d := math.Sqrt(low * high)
		if c.Used(swings(d, felt, ma, ta, mm, tm), s, endurance) > 1/n {
			low = d
		} else {
			high = d
		}
	}
	return low
}

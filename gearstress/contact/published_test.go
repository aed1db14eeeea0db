package contact

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}

// ISO 6336-2 (from memory): steel on steel Z_E = 189.8 √MPa with E = 206 000 MPa and
// ν = 0.3; 30·10⁶ psi gives 2290.6 √psi, which AGMA practice rounds up to 2300.
func TestElasticCoefficientOfSteel(t *testing.T) {
	near(t, "Z_E", ElasticCoefficient(206000, 0.3, 206000, 0.3), 189.8, 0.05)
	near(t, "C_p", ElasticCoefficient(30e6, 0.3, 30e6, 0.3), 2290.6, 0.05)
}

// Juvinall and Marshek, problem 9.30: steel teeth of radii 10 and 15 mm, 20 mm
// wide, 250 N (statement seen, result computed independently).
func TestTwoRadii10And15(t *testing.T) {
	ze := ElasticCoefficient(207000, 0.3, 207000, 0.3)
	peak, half := Line(250.0/20, RelativeRadius(10, 15), ze)
	near(t, "p_max", peak, 274.6, 274.6*0.001)
	near(t, "half width", half, 0.0290, 0.0290*0.001)
}

// ISO 6336-2 (from memory): Z_H = 2.495 for spur gears of 20° without shift.
func TestZoneFactorOfStandardSpurGears(t *testing.T) {
	p := pair(t, involute.Spec{Module: 3, Teeth: [2]int{20, 40}, ShiftKnown: [2]bool{true, true}})
	near(t, "Z_H", ZoneFactor(p), 2.495, 0.0005)
}

// Public course-design document, z = 35/117, m_n = 2, a = 155 (seen: it uses 2.45
// and once prints 2.421; two decimals).
func TestZoneFactorOfHelicalPair35And117(t *testing.T) {
	p := pair(t, involute.Spec{Module: 2, Helix: math.Acos(304.0 / 310), Teeth: [2]int{35, 117}, ShiftKnown: [2]bool{true, true}, CentreDistance: 155})
	near(t, "Z_H", ZoneFactor(p), 2.45, 0.0055)
}

// Pair of ISO/TR 6336-30 example 1 geometry, independent calculation (computed).
func TestZoneFactorOfPair17And103(t *testing.T) {
	p := pair(t, involute.Spec{Module: 8, Helix: 15.8 * math.Pi / 180, Teeth: [2]int{17, 103}, ShiftKnown: [2]bool{false, true}, CentreDistance: 500})
	near(t, "Z_H", ZoneFactor(p), 2.3953, 0.0001)
}

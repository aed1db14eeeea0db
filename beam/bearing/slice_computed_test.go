package bearing

import (
	"math"
	"testing"
)

// A roller that leans: with the approach m + g t along it (t from −1/2 to 1/2 of its length) load and
// couple are integrals of a power, known in closed form. The slices keep to them within 1 % of the
// load that the roller would have at its deeper end, also where part of it has lost contact.
func TestSlicesFollowTheIntegral(t *testing.T) {
	// One roller can be seen alone: three with clearance, the ring moved on to the first.
	e := Elements{Kind: Cylindrical, Count: 3, Diameter: 8, Length: 10, Pitch: 40, Clearance: 0.1}
	const n = 10. / 9
	worst := 0.0
	for _, lean := range []float64{0, 0.0005, 0.001, 0.0019, 0.0021, 0.003, 0.005, 0.01, 0.02} { // mm over the length
		const middle = 0.001
		force, couple, err := e.Force([3]float64{0, 0.05 + middle}, [2]float64{0, lean / e.Length})
		if err != nil {
			t.Fatal(err)
		}
		whole := LineLoad(1, e.Length)
		wantForce, wantCouple := whole*math.Pow(middle, n), 0.0
		if lean > 0 {
			// ∫ u^n dt and ∫ u^n t dt with u = middle + lean t, t = (u − middle)/lean.
			primitive := func(u float64) (f, m float64) {
				u = max(u, 0)
				f = math.Pow(u, n+1) / (n + 1) / lean
				return f, math.Pow(u, n+2)/(n+2)/lean/lean - f*middle/lean
			}
			f1, m1 := primitive(middle + lean/2)
			f0, m0 := primitive(middle - lean/2)
			wantForce, wantCouple = whole*(f1-f0), whole*(m1-m0)*e.Length
		}
		deepest := LineLoad(middle+lean/2, e.Length)
		worst = max(worst, math.Abs(force[1]-wantForce)/deepest, math.Abs(couple[1]-wantCouple)/deepest/e.Length)
		if math.Abs(force[1]-wantForce) > 0.01*deepest || math.Abs(couple[1]-wantCouple) > 0.01*deepest*e.Length {
			t.Errorf("leaning %g mm: %g N, %g N·mm, want %g, %g", lean, force[1], couple[1], wantForce, wantCouple)
		}
	}
	t.Logf("largest difference %.2g of the load at the deeper end", worst)
}

// Against small tilts a row of rollers is as stiff as its radial stiffness times l²/12 in the plane
// of the load, with each roller weighted alike: both come from the same rollers.
func TestTiltStiffnessFromRadial(t *testing.T) {
	r := must[RadialState](t)(crb.Radial(5000))
	s := Stance{Across: [2]float64{r.Displacement, 0}}
	_, tangent, err := crb.Hold(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "radial stiffness", tangent[0][0], r.Tangent, 1e-9)
	near(t, "tilting stiffness", tangent[3][3], r.Tangent*10*10/12, 1e-6)
	// And a small tilt calls up the same, in slices.
	s.Tilt[1] = 1e-6
	h, _, err := crb.Hold(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "couple of a small tilt", h.Couple[1], r.Tangent*10*10/12*1e-6, 1e-3)
}

// The pressure centre: a radial force there, on a tapered row, tilts nothing, and a thrust neither.
func TestPressureCentre(t *testing.T) {
	e := Elements{Kind: Tapered, Count: 18, Diameter: 8, Length: 12, Pitch: 52, ContactAngle: 0.26}
	near(t, "place", e.PressureCentre(), -26*math.Tan(0.26), 1e-15)
	e.ContactAngle = -0.26
	near(t, "place", e.PressureCentre(), 26*math.Tan(0.26), 1e-15)
	_, couple, err := e.Force([3]float64{-0.003, 0.01, 0.004}, [2]float64{})
	if err != nil || math.Abs(couple[0])+math.Abs(couple[1]) > 1e-9 {
		t.Errorf("a movement along gives a couple of %v N·mm (%v)", couple, err)
	}
}

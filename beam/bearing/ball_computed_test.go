package bearing

import (
	"math"
	"testing"
)

// A deep groove ball bearing whose rings are pushed apart axially until the balls touch has moved
// √(A² − (A − clearance/2)²), A = (2f − 1) D the distance of the groove centres: plain geometry.
// The end play of a radial bearing is twice that. With 12 mm balls, f = 0.52 and 0.02 mm it is 0.195 mm.
func TestEndPlayOfDeepGroove(t *testing.T) {
	for _, clearance := range []float64{0.005, 0.02, 0.05} {
		e := Elements{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60, Clearance: clearance}
		a := 0.04 * 12.
		want := math.Sqrt(a*a - (a-clearance/2)*(a-clearance/2))
		for _, thrust := range []float64{1e-6, -1e-6} {
			d, _, err := e.Displacement([3]float64{thrust}, [2]float64{})
			if err != nil {
				t.Fatal(err)
			}
			near(t, "axial play", d[0], math.Copysign(want, thrust), 1e-4)
		}
	}
	near(t, "formula", 2*math.Sqrt(0.48*0.48-0.47*0.47), 0.195, 0.003)
}

// An angular contact row under thrust alone: the contact angle rises from α0 to α with
//
//	F_a = Z sin α · Q(A (cos α0/cos α − 1)),  δ_a = A sin(α − α0)/cos α
//
// Source: T. A. Harris, Rolling Bearing Analysis, from memory (plain geometry).
func TestContactAngleRisesWithThrust(t *testing.T) {
	e := Elements{Kind: Ball, Count: 14, Diameter: 11, Pitch: 60, ContactAngle: 25 * math.Pi / 180, Groove: 0.525}
	reach := 0.05 * 11.
	for _, degrees := range []float64{25.5, 27, 30} {
		alpha := degrees * math.Pi / 180
		force := 14 * math.Sin(alpha) * BallLoad(reach*(math.Cos(e.ContactAngle)/math.Cos(alpha)-1), 11)
		push := reach * math.Sin(alpha-e.ContactAngle) / math.Cos(alpha)
		d, tilt, err := e.Displacement([3]float64{force}, [2]float64{})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "push", d[0], push, 1e-7)
		if math.Abs(tilt[0])+math.Abs(tilt[1]) > 1e-9 {
			t.Errorf("thrust alone tilts the ring by %v rad", tilt)
		}
		// The ring that stands straight comes to rest at the same place.
		h, _, err := e.Hold(Stance{}, force)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "push of the ring at rest", h.Axial, push, 1e-7)
	}
}

// A small couple tilts a deep groove row with two balls in its plane until these have moved, to
// opposite sides, by the axial play: by the play over the radius of the inner groove centres.
func TestTiltPlayOfDeepGroove(t *testing.T) {
	e := Elements{Kind: Ball, Count: 10, Diameter: 12, Pitch: 60, Clearance: 0.02}
	play := math.Sqrt(0.48*0.48 - 0.47*0.47)
	lever := 30 + 0.02*12.
	_, tilt, err := e.Displacement([3]float64{}, [2]float64{0, 1e-3})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tilt", tilt[1], play/lever, 1e-3)
}

package scuffing

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

// Two turning circles and a line of action in the plane: the driver's axis at (0, 0), the
// driven one's at (a, 0), the line of action through the pitch point, at α_wt to the vertical.
func TestSlidingFromVelocitiesInThePlane(t *testing.T) {
	for _, spec := range []involute.Spec{spurSpec(), helicalSpec()} {
		p := pairOf(t, spec)
		r := screen(t, inputOf(p))
		sin, cos := math.Sincos(p.WorkingPressureAngle)
		w1 := 300.0
		w2 := -w1 * float64(p.Teeth[0]) / float64(p.Teeth[1])
		// Driver counter-clockwise: the pitch point moves up, and contact goes up along (−sin, cos)
		// or (sin, cos); the one that pushes the driven gear runs off tangent to both base circles.
		line := [2]float64{sin, cos}
		for _, s := range r.Flash.Stations {
			x, y := p.Working[0]/2+s.Distance*line[0], s.Distance*line[1]
			v1 := [2]float64{-w1 * y, w1 * x}
			v2 := [2]float64{-w2 * y, w2 * (x - p.Centre)}
			along := func(v [2]float64) float64 { return v[0]*line[0] + v[1]*line[1] }
			across := func(v [2]float64) float64 { return v[0]*-line[1] + v[1]*line[0] }
			near(t, "both run along the line of action alike", along(v1), along(v2), 1e-8*math.Abs(along(v1)))
			near(t, "sliding", math.Abs(s.Sliding), math.Abs(across(v1)-across(v2)), 1e-8*r.PitchSpeed)
			near(t, "distance to the driver's axis", math.Hypot(x, y), math.Hypot(p.Base[0]/2, s.Radius[0]), 1e-9*p.Centre)
			near(t, "sliding as a difference", s.Speed[0]-s.Speed[1], s.Sliding, 1e-9*r.PitchSpeed)
			near(t, "specific sliding, driver", s.Specific[0], 1-s.Speed[1]/s.Speed[0], 1e-9)
			near(t, "specific sliding, driven", s.Specific[1], 1-s.Speed[0]/s.Speed[1], 1e-9)
		}
	}
}

func TestPathAgainstContactRatioAndTips(t *testing.T) {
	for _, spec := range []involute.Spec{spurSpec(), helicalSpec()} {
		p := pairOf(t, spec)
		r := screen(t, inputOf(p))
		pitch := math.Pi * p.Module * math.Cos(p.TransversePressureAngle) / math.Cos(p.Helix)
		near(t, "AE", r.E.Distance-r.A.Distance, p.TransverseContactRatio*pitch, 1e-9)
		near(t, "AD", r.D.Distance-r.A.Distance, pitch, 1e-9)
		near(t, "BE", r.E.Distance-r.B.Distance, pitch, 1e-9)
		near(t, "line of action", r.C.Radius[0]+r.C.Radius[1], p.Centre*math.Sin(p.WorkingPressureAngle), 1e-9)
		// ISO 21771:2007 by tip circles: contact runs to both tips here.
		near(t, "driver's tip at E", 2*math.Hypot(p.Base[0]/2, r.E.Radius[0]), p.Tip[0], 1e-9)
		near(t, "driven gear's tip at A", 2*math.Hypot(p.Base[1]/2, r.A.Radius[1]), p.Tip[1], 1e-9)
		w, err := newPath(p, 1)
		if err != nil {
			t.Fatal(err)
		}
		for i, e := range w.addendum() {
			tip := math.Tan(math.Acos(p.Base[i] / p.Tip[i]))
			near(t, "addendum contact ratio", e, float64(p.Teeth[i])*(tip-math.Tan(p.WorkingPressureAngle))/(2*math.Pi), 1e-9)
		}
		if !(r.A.Sliding < 0 && r.E.Sliding > 0 && r.A.Specific[0] < 0 && r.A.Specific[1] > 0 && r.E.Specific[1] < 0) {
			t.Errorf("signs of sliding: %+v, %+v", r.A, r.E)
		}
	}
}

func TestNoSlidingAndNoFlashAtThePitchPoint(t *testing.T) {
	r := screen(t, inputOf(pairOf(t, helicalSpec())))
	found := false
	for _, s := range r.Flash.Stations {
		if s.Distance == 0 {
			found = true
			if s.Sliding != 0 || s.Flash != 0 || s.Specific != [2]float64{} {
				t.Errorf("at the pitch point: %+v", s)
			}
		} else if !(s.Flash > 0) {
			t.Errorf("no flash %v mm off the pitch point", s.Distance)
		}
	}
	if !found {
		t.Error("no station at the pitch point")
	}
}

// A station's flash is zero at C also by Blok's formula itself, from both sides.
func TestFlashFallsToZeroTowardsThePitchPoint(t *testing.T) {
	w, err := newPath(pairOf(t, spurSpec()), 300)
	if err != nil {
		t.Fatal(err)
	}
	c := &mesh{path: w, load: 300, thermal: [2]float64{13.8, 13.8}, ze: steelOnSteel}
	for _, s := range []float64{-1e-6, 1e-6} {
		if f := c.station(s, 1, 1, 0.06).Flash; !(f > 0 && f < 1e-4) {
			t.Errorf("flash %v K at %v mm", f, s)
		}
	}
	if f := FlashTemperature(0.06, 300, [2]float64{500, 500}, [2]float64{13.8, 13.8}, 0.2); f != 0 {
		t.Errorf("equal speeds: %v K", f)
	}
}

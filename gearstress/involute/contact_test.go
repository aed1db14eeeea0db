package involute_test

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
	"layshaft/gearstress/scuffing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

func drawPair(t *rapid.T) *involute.Pair {
	p, err := involute.New(involute.Spec{
		Module: rapid.Float64Range(1, 5).Draw(t, "module"), Helix: rapid.Float64Range(0, 0.6).Draw(t, "helix"), Rack: involute.StandardRack,
		Teeth: [2]int{rapid.IntRange(14, 60).Draw(t, "z1"), rapid.IntRange(14, 60).Draw(t, "z2")},
		Shift: [2]float64{rapid.Float64Range(0.1, 0.6).Draw(t, "x1"), rapid.Float64Range(0.1, 0.6).Draw(t, "x2")}, ShiftKnown: [2]bool{true, true}, Face: 20,
	})
	if err != nil {
		t.Skip(err.Error())
	}
	return p
}

func agree(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.12g, want %.12g ± %.2g", what, got, want, tolerance)
	}
}

// The ends of the path lie on the circles where contact starts and on the tips, one base pitch of contact is between
// A and D and between B and E, and the whole makes the contact ratio.
func TestPathJoinsTips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPair(t)
		w := p.Path()
		small := 1e-9 * p.Centre
		pitch := math.Pi * p.Base[1] / float64(p.Teeth[1])
		agree(t, "A, driver", w.A.Diameter[0], p.Start[0], small)
		agree(t, "E, driven gear", w.E.Diameter[1], p.Start[1], small)
		agree(t, "C, driver", w.C.Diameter[0], p.Working[0], small)
		agree(t, "C, driven gear", w.C.Diameter[1], p.Working[1], small)
		agree(t, "A to D", w.D.Distance-w.A.Distance, pitch, small)
		agree(t, "B to E", w.E.Distance-w.B.Distance, pitch, small)
		agree(t, "A to E", (w.E.Distance-w.A.Distance)/pitch, p.TransverseContactRatio, 1e-9)
		if p.Form[0] < p.Start[0]-1e-6 {
			agree(t, "A, driven gear", w.A.Diameter[1], p.Tip[1], small)
		}
		if p.Form[1] < p.Start[1]-1e-6 {
			agree(t, "E, driver", w.E.Diameter[0], p.Tip[0], small)
		}
		if w.C.Sliding != 0 || w.C.Specific != [2]float64{} {
			t.Errorf("sliding %v, %v at the pitch point", w.C.Sliding, w.C.Specific)
		}
	})
}

// Specific sliding by its meaning: while both gears turn through a little, contact runs over a length of each flank;
// the arc of an involute is r_b ξ²/2. What one flank has more than the other was slid. Nothing of the formulas but
// the roll angle is used, which grows with the angle turned.
func TestSpecificSlidingIsTheDifferenceOfArcs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPair(t)
		w := p.Path()
		s := w.A.Distance + rapid.Float64Range(0.05, 0.95).Draw(t, "place")*(w.E.Distance-w.A.Distance)
		at := p.ContactAt(s)
		const turn = 1e-5 // of the driver, rad
		arc := func(i int) float64 {
			step, sign := turn, 1.0
			if i == 1 {
				step, sign = turn*float64(p.Teeth[0])/float64(p.Teeth[1]), -1
			}
			after := at.Roll[i] + sign*step
			before := at.Roll[i] - sign*step
			return math.Abs(after*after-before*before) * p.Base[i] / 4
		}
		one, two := arc(0), arc(1)
		agree(t, "ζ_1", at.Specific[0], (one-two)/one, 1e-6*math.Max(1, math.Abs(at.Specific[0])))
		agree(t, "ζ_2", at.Specific[1], (two-one)/two, 1e-6*math.Max(1, math.Abs(at.Specific[1])))
		// Both gears turned by turn each way: the pitch line moved by d_w1 turn.
		agree(t, "K_g", at.Sliding, (one-two)/(p.Working[0]*turn), 1e-6)
		agree(t, "curvatures together", at.Curvature[0]+at.Curvature[1], p.Centre*math.Sin(p.WorkingPressureAngle), 1e-9*p.Centre)
	})
}

// Package scuffing finds the path and its sliding for itself.
func TestPathIsThatOfScuffing(t *testing.T) {
	for _, s := range []involute.Spec{
		{Module: 3, Rack: involute.StandardRack, Teeth: [2]int{20, 37}, Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 25},
		{Module: 2.5, Helix: 0.384, Rack: involute.StandardRack, Teeth: [2]int{38, 17}, Shift: [2]float64{0.1, 0.3}, ShiftKnown: [2]bool{true, true}, Face: 20},
	} {
		p, err := involute.New(s)
		if err != nil {
			t.Fatal(err)
		}
		const speed = 300
		r, err := scuffing.Screen(scuffing.Input{Pair: p, Torque: 180000, Speed: speed, Roughness: [2]float64{0.0005, 0.0005}, TipRelief: [2]float64{1, 1}, OilTemperature: 90, Viscosity: 100, OilScuffing: 10})
		if err != nil {
			t.Fatal(err)
		}
		w := p.Path()
		theirs := [5]scuffing.Place{r.A, r.B, r.C, r.D, r.E}
		for k, c := range [5]involute.Contact{w.A, w.B, w.C, w.D, w.E} {
			name := string(rune('A' + k))
			agree(t, name+", distance", c.Distance, theirs[k].Distance, 1e-12*p.Centre)
			agree(t, name+", K_g", c.Sliding, theirs[k].Sliding/(speed*p.Working[0]/2), 1e-12)
			for i := range 2 {
				agree(t, name+", curvature", c.Curvature[i], theirs[k].Radius[i], 1e-12*p.Centre)
				agree(t, name+", ζ", c.Specific[i], theirs[k].Specific[i], 1e-12)
			}
		}
	}
}

// On the base circle the flank stands still: specific sliding has no bound.
func TestSlidingAtTheBaseCircleHasNoBound(t *testing.T) {
	p, err := involute.New(involute.Spec{Module: 2, Rack: involute.StandardRack, Teeth: [2]int{20, 40}, ShiftKnown: [2]bool{true, true}, Face: 20})
	if err != nil {
		t.Fatal(err)
	}
	if z := p.ContactAt(-p.ContactAt(0).Curvature[0]).Specific[0]; !math.IsInf(z, -1) {
		t.Errorf("ζ_1 = %v, want −Inf", z)
	}
}

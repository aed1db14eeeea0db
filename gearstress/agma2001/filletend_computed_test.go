package agma2001

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

// Teeth whose parabola touches above the fillet: on the outline that package involute draws, made by other code, the
// narrowest parabola of the fillet is at its upper end, and the flank above has a narrower one still. The section at that
// end is the one that is taken, and said. Tip loaded spur teeth, where the apex lies highest.
func TestCriticalSectionAtTheEndOfTheDrawnFillet(t *testing.T) {
	for _, c := range []struct {
		angle, tipRadius, shift float64
		teeth                   int
	}{{14.5, 0.3, 1.5, 60}, {17.5, 0.1, 1, 150}, {17.5, 0.3, 1.5, 150}} {
		rack := involute.Rack{PressureAngle: c.angle * deg, Addendum: 1, Dedendum: 1.1, TipRadius: c.tipRadius}
		if c.angle < 15 {
			rack.Dedendum = 1.25
		}
		p, err := involute.New(involute.Spec{Module: 2, Rack: rack, Teeth: [2]int{c.teeth, 40}, Shift: [2]float64{c.shift, 0},
			ShiftKnown: [2]bool{true, true}, Face: 20})
		if err != nil {
			t.Fatal(err)
		}
		f, err := NewTipLoadedForm(p, ToolOf(rack))
		if err != nil {
			t.Fatal(err)
		}
		got := f.Tooth[0]
		if !got.AtFilletEnd || len(f.Notes) == 0 {
			t.Errorf("%+v: at the end of the fillet %v, notes %q", c, got.AtFilletEnd, f.Notes)
			continue
		}
		outline, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		apex := outline.Base / 2 / math.Cos(got.LoadAngle)
		narrowest := func(curve func(float64) involute.Point) (least float64, at involute.Point) {
			least = math.Inf(1)
			for k := range 4001 {
				q := curve(float64(k) / 4000)
				if w := q.X * q.X / (apex - q.Y); q.Y < apex && w < least {
					least, at = w, q
				}
			}
			return least, at
		}
		onFillet, end := narrowest(outline.Fillet)
		if onFlank, _ := narrowest(outline.Flank); !(onFlank < onFillet) {
			t.Errorf("%+v: the flank has no narrower parabola than the fillet", c)
		}
		near(t, "diameter of the section", 2*math.Hypot(end.X, end.Y), outline.Form, 1e-6)
		near(t, "s_F", got.Thickness, 2*end.X, 1e-6)
		near(t, "h_F", got.Height, apex-end.Y, 1e-6)
	}
}

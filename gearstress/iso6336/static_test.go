package iso6336

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A static strength that is known apart from the limits of fatigue lifts what is borne once, and no life that they
// give: the curve has all of its corners, and in front of the first goes on at the slope of the life factor.
func TestStaticStrengthOfItsOwn(t *testing.T) {
	f := formOf(t, helicalSpec(), Edition2019)
	rapid.Check(t, func(rt *rapid.T) {
		in := inputOf(t)
		in.Torque = rapid.Float64Range(5e4, 6e5).Draw(rt, "torque")
		in.Turns = math.Exp(rapid.Float64Range(0, math.Log(1e9)).Draw(rt, "turns"))
		more := rapid.Float64Range(0.5, 2).Draw(rt, "more")
		given := in
		for i := range given.Gear {
			s := &given.Gear[i].Strength
			s.StaticBending, s.StaticContact = more*s.Bending, more*s.Contact
		}
		plain, known := rate(t, f, in), rate(t, f, given)
		for i := range sides {
			for _, o := range []struct {
				what  string
				a, b  Outcome
				life  float64 // life factor of a single load
				slope float64 // of the life curve, from its corners as the tables have them
				first float64 // load cycles at its first corner
			}{
				{"root", plain.Root[i].Outcome, known.Root[i].Outcome, 2.5, math.Log(2.5) / math.Log(3e6/1e3), 1e3},
				{"flank", plain.Flank[i].Outcome, known.Flank[i].Outcome, 1.6, math.Log(1.6) / math.Log(5e7/1e5), 1e5},
			} {
				lift := max(1, more)
				if math.Abs(o.b.Static-lift*o.a.Static) > 1e-9*o.b.Static {
					rt.Errorf("%s: static strength %g, want %g times %g", o.what, o.b.Static, lift, o.a.Static)
				}
				if o.a.Cycles >= o.first && o.a.Limit != o.b.Limit {
					rt.Errorf("%s: the limit at %g load cycles went from %g to %g", o.what, o.a.Cycles, o.a.Limit, o.b.Limit)
				}
				switch stress := o.a.Stress; {
				case stress <= o.a.Static && o.a.Life != o.b.Life:
					rt.Errorf("%s: the life at %g MPa went from %g to %g", o.what, stress, o.a.Life, o.b.Life)
				case stress > o.a.Static && stress < o.b.Static:
					want := o.first * math.Pow(stress/o.a.Static, -1/o.slope)
					if math.Abs(o.b.Life-want) > 1e-9*want {
						rt.Errorf("%s: %g load cycles at %g MPa, above the static strength by the limit of fatigue; want %g", o.what, o.b.Life, stress, want)
					}
				case stress > o.b.Static && o.b.Life != 0:
					rt.Errorf("%s: a life of %g above all strength", o.what, o.b.Life)
				}
			}
		}
	})
}

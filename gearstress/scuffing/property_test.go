package scuffing

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"

	"pgregory.net/rapid"

	"layshaft/testdata/draws"
)

// Any pair that package involute accepts, under any load, gives finite numbers or an error with words.
// With driver and driven gear changed over the path is its own mirror image.
func TestAnyPairGivesNumbersOrAnError(t *testing.T) {
	refused, screened, integrals := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		f64 := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		spec := involute.Spec{
			Module: f64("module", 0.3, 30),
			Helix:  radians(rapid.SampledFrom([]float64{0, 1e-6, 8, 15, 23, 31, 45}).Draw(t, "helix")),
			Rack: involute.Rack{PressureAngle: radians(f64("pressure angle", 14, 30)), Addendum: f64("addendum", 0.6, 1.4),
				Dedendum: f64("dedendum", 1, 1.7), TipRadius: f64("tip radius", 0, 0.4)},
			Teeth:      [2]int{rapid.IntRange(5, 200).Draw(t, "z1"), rapid.IntRange(5, 200).Draw(t, "z2")},
			Shift:      [2]float64{f64("x1", -0.8, 1.2), f64("x2", -0.8, 1.2)},
			ShiftKnown: [2]bool{true, true},
		}
		spec.Face = spec.Module * f64("b/m", 1, 30)
		p, err := involute.New(spec)
		if err != nil {
			return
		}
		in := Input{
			Pair: p, Torque: math.Pow(10, f64("log torque", -3, 12)), Speed: rapid.SampledFrom([]float64{0, 1e-9, 1, 100, 3000, 1e5}).Draw(t, "speed"),
			KA: f64("K_A", 0.5, 2), KHb: f64("K_Bβ", 1, 5),
			Roughness:      [2]float64{f64("Ra 1", 1e-5, 0.05), f64("Ra 2", 1e-5, 0.05)},
			TipRelief:      [2]float64{f64("C_a1", 0, 0.1), f64("C_a2", 0, 0.1)},
			Grade:          rapid.IntRange(0, 12).Draw(t, "grade"),
			OilTemperature: f64("oil", 1, 250), Viscosity: f64("ν", 1, 1e4),
			OilScuffing: rapid.IntRange(0, 14).Draw(t, "stage"), Spray: rapid.Bool().Draw(t, "spray"), RunIn: rapid.Bool().Draw(t, "run in"),
		}
		r, err := Screen(in)
		if err != nil {
			refused++
			if len(err.Error()) < 30 {
				t.Fatalf("error without words: %v", err)
			}
			return
		}
		screened++
		check := func(what string, values ...float64) {
			for _, v := range values {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s: %v", what, values)
				}
			}
		}
		last := math.Inf(-1)
		for _, s := range r.Flash.Stations {
			check("station", s.Gamma, s.Speed[0], s.Speed[1], s.Specific[0], s.Specific[1], s.Share, s.Approach, s.Pressure, s.Temperature)
			if !(s.Distance >= last && s.Flash >= 0 && s.Share > 0 && s.Share <= 1.3 && s.Approach >= 1 && s.Temperature >= in.OilTemperature) {
				t.Fatalf("station %+v after %v mm", s, last)
			}
			last = s.Distance
		}
		first := r.Flash.Stations[0].Distance
		if math.Abs(first-r.A.Distance)+math.Abs(last-r.E.Distance) > 1e-8*p.Module {
			t.Fatalf("stations from %v to %v, path from %v to %v", first, last, r.A.Distance, r.E.Distance)
		}
		if math.Abs(r.ContactRatio-p.TransverseContactRatio) > 1e-9 {
			t.Fatalf("contact ratio %v, pair has %v", r.ContactRatio, p.TransverseContactRatio)
		}
		check("flash", r.Flash.Contact, r.Flash.Mean, r.Flash.Bulk, r.Flash.Safety, r.Flash.Limit, r.FrictionPower, r.FrictionShare)
		if n := r.Integral; n != nil {
			integrals++
			check("integral", n.Friction, n.Tip, n.XE, n.XQ, n.XCa, n.XEps, n.Mean, n.Contact, n.Safety, n.Limit)
			if !(n.XEps > 0 && n.XQ >= 0.6 && n.XQ <= 1 && n.XCa >= 1 && n.XE >= 1 && n.KBg >= 1 && n.KBg <= 1.3) {
				t.Fatalf("integral %+v", *n)
			}
		}
		mirror(t, in, r)
	})
	if draws.Full() && (screened < 5 || integrals < 5) {
		t.Errorf("only %d pairs screened, %d with the integral method, %d refused", screened, integrals, refused)
	}
	t.Logf("%d screened, %d with the integral method, %d refused", screened, integrals, refused)
}

// mirror lets the driven gear drive. Approach becomes recess, so X_J is kept out by full relief and
// X_Q taken out; all else must be as before.
func mirror(t *rapid.T, in Input, r *Result) {
	if in.Speed == 0 || in.Pair.Teeth[0] == in.Pair.Teeth[1] {
		return
	}
	p, ratio := *in.Pair, float64(in.Pair.Teeth[0])/float64(in.Pair.Teeth[1])
	swap := func(v *[2]float64) { v[0], v[1] = v[1], v[0] }
	for _, v := range []*[2]float64{&p.Base, &p.Working, &p.Tip, &p.Start, &p.Form, &p.Reference} {
		swap(v)
	}
	p.Teeth[0], p.Teeth[1] = p.Teeth[1], p.Teeth[0]
	back := in
	back.Pair, back.Torque, back.Speed = &p, in.Torque/ratio, in.Speed*ratio
	if back.Torque > mostTorque || back.Speed > mostSpeed {
		return
	}
	in.TipRelief, back.TipRelief = [2]float64{1, 1}, [2]float64{1, 1}
	forth, err := Screen(in)
	if err != nil {
		t.Fatal(err)
	}
	other, err := Screen(back)
	if err != nil {
		t.Fatal(err)
	}
	if forth.NeededRelief > 1 {
		return
	}
	same := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Fatalf("%s is %v when the driven gear drives, %v before", what, got, want)
		}
	}
	same("mean flash", other.Flash.Mean, forth.Flash.Mean)
	same("highest flash", other.Flash.Hottest.Flash, forth.Flash.Hottest.Flash)
	same("friction power", other.FrictionPower, forth.FrictionPower)
	same("sliding at the end", -other.A.Sliding, forth.E.Sliding)
	if forth.Integral != nil {
		same("integral method without X_Q", other.Integral.Mean*other.Integral.XQ, forth.Integral.Mean*forth.Integral.XQ)
	}
}

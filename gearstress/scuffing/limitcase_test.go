package scuffing

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func TestStandingGearsMakeNoHeat(t *testing.T) {
	in := inputOf(pairOf(t, helicalSpec()))
	in.Speed = 0
	r := screen(t, in)
	for _, s := range r.Flash.Stations {
		if s.Sliding != 0 || s.Flash != 0 || s.Speed != [2]float64{} || s.Specific != [2]float64{} || !(s.Pressure > 0) {
			t.Fatalf("standing: %+v", s)
		}
	}
	if r.Flash.Contact != 90 || r.Integral.Contact != 90 || r.Flash.Friction != 0 || r.Integral.Friction != 0 || r.FrictionPower != 0 || r.FrictionShare != 0 {
		t.Errorf("standing: flash %+v, integral %+v", r.Flash.Contact, *r.Integral)
	}
	if r.Flash.Verdict != NoHeat || r.Integral.Verdict != NoHeat || r.Flash.Safety != 0 || !noted(r, "stand still") {
		t.Errorf("verdicts %v and %v, notes %q", r.Flash.Verdict, r.Integral.Verdict, r.Notes)
	}
}

func noted(r *Result, words string) bool {
	return slices.ContainsFunc(r.Notes, func(n string) bool { return strings.Contains(n, words) })
}

func TestEqualGearsAreSymmetricAboutThePitchPoint(t *testing.T) {
	for _, helix := range []float64{0, 22} {
		spec := spurSpec()
		spec.Helix, spec.Teeth, spec.Shift = radians(helix), [2]int{25, 25}, [2]float64{0.2, 0.2}
		r := screen(t, inputOf(pairOf(t, spec)))
		n := len(r.Flash.Stations)
		for i, s := range r.Flash.Stations {
			m := r.Flash.Stations[n-1-i]
			near(t, "place", s.Distance, -m.Distance, 1e-9)
			near(t, "flash", s.Flash, m.Flash, 1e-9*r.Flash.Hottest.Flash)
			near(t, "specific sliding", s.Specific[0], m.Specific[1], 1e-9)
		}
	}
}

// At a given friction coefficient Θ_fl ∝ w^¾ v^½; friction itself goes with w^0.2 v^−0.2. So
// with X_J = 1 the flash goes with T^0.95 v^0.3, along the whole path and in the integral method.
func TestFlashScalesWithLoadAndSpeed(t *testing.T) {
	for _, base := range []Input{inputOf(pairOf(t, spurSpec())), inputOf(pairOf(t, helicalSpec()))} {
		r := screen(t, base)
		for _, row := range []struct {
			torque, speed float64
		}{{2, 1}, {1, 2}, {1.7, 0.6}} {
			in := base
			in.Torque *= row.torque
			in.Speed *= row.speed
			// Relief is counted up to C_eff only; keep X_Ca out of it.
			in.TipRelief[0], base.TipRelief[0] = 0, 0
			r = screen(t, base)
			q := screen(t, in)
			f := math.Pow(row.torque, 0.95) * math.Pow(row.speed, 0.3)
			for i, s := range r.Flash.Stations {
				near(t, "flash", q.Flash.Stations[i].Flash, f*s.Flash, 1e-9*f*s.Flash)
			}
			near(t, "friction", q.Flash.Friction, r.Flash.Friction*math.Pow(row.torque, 0.2)/math.Pow(row.speed, 0.2), 1e-12)
			near(t, "integral", q.Integral.Mean, f*r.Integral.Mean, 1e-9*f*r.Integral.Mean)
			near(t, "sliding", q.A.Sliding, row.speed*r.A.Sliding, 1e-9*q.PitchSpeed)
		}
		in := base
		in.KA, in.KV, in.KHb, in.KHa, in.Torque = 1, 1, 1, 1, base.Torque*1.25*1.1*1.3*1.1
		near(t, "load factors act as torque", screen(t, in).Flash.Contact, r.Flash.Contact, 1e-9*r.Flash.Contact)
	}
}

// Blok and Hertz alone: similar gears of twice the size at the same pressure and rolling speeds
// have twice the strip and twice the load per length, so √2 times the flash.
func TestFlashOfSimilarGears(t *testing.T) {
	b := [2]float64{13.8, 13.8}
	v := [2]float64{5000, 3000}
	near(t, "flash", FlashTemperature(0.05, 400, v, b, 0.3), math.Sqrt2*FlashTemperature(0.05, 200, v, b, 0.15), 1e-9)
}

// The bulk is heated by 0.47 X_S X_mp of the mean flash, or 0.7 of it and X_S on all.
func TestBulkTemperature(t *testing.T) {
	in := inputOf(pairOf(t, spurSpec()))
	in.Spray, in.Mates = true, 2
	r := screen(t, in)
	near(t, "bulk, flash method", r.Flash.Bulk, 90+0.47*1.2*1.5*r.Flash.Mean, 1e-9)
	near(t, "bulk, integral method", r.Integral.Bulk, (90+0.7*1.5*r.Integral.Mean)*1.2, 1e-9)
	near(t, "contact, integral method", r.Integral.Contact, r.Integral.Bulk+1.5*r.Integral.Mean, 1e-9)
	near(t, "contact, flash method", r.Flash.Contact, r.Flash.Bulk+r.Flash.Hottest.Flash, 1e-9)
}

// What makes a contact worse must make it hotter, in both methods.
func TestDirections(t *testing.T) {
	base := inputOf(pairOf(t, spurSpec()))
	base.TipRelief = [2]float64{}
	r := screen(t, base)
	for _, row := range []struct {
		what   string
		change func(*Input)
	}{
		{"rougher flanks", func(in *Input) { in.Roughness[0] = 0.002 }},
		{"thinner oil", func(in *Input) { in.OilViscosity = 3 }},
		{"hotter oil", func(in *Input) { in.OilTemperature = 120 }},
		{"worse heat flow", func(in *Input) { in.Material[1] = Steel; in.Material[1].Conductivity = 15 }},
		{"more torque", func(in *Input) { in.Torque *= 1.1 }},
		{"more speed", func(in *Input) { in.Speed *= 1.1 }},
	} {
		in := base
		row.change(&in)
		if q := screen(t, in); !(q.Flash.Contact > r.Flash.Contact && q.Integral.Contact > r.Integral.Contact && q.Flash.Safety < r.Flash.Safety && q.Integral.Safety < r.Integral.Safety) {
			t.Errorf("%s: %.2f and %.2f °C after %.2f and %.2f", row.what, q.Flash.Contact, q.Integral.Contact, r.Flash.Contact, r.Integral.Contact)
		}
	}
	in := base
	in.RunIn = false
	near(t, "new flanks", screen(t, in).Integral.XE, 1+30*0.5/(base.Pair.Working[0]*base.Pair.Working[1]/(base.Pair.Working[0]+base.Pair.Working[1])/2*math.Sin(base.Pair.WorkingPressureAngle)), 1e-9)
	in = base
	in.OilFactor = 0.8
	near(t, "oil with less friction", screen(t, in).Flash.Friction, 0.8*r.Flash.Friction, 1e-12)
}

func TestSafetyAndVerdict(t *testing.T) {
	in := inputOf(pairOf(t, spurSpec()))
	r := screen(t, in)
	near(t, "S_B", r.Flash.Safety, (r.Flash.Limit-90)/(r.Flash.Contact-90), 1e-9)
	near(t, "S_intS", r.Integral.Safety, r.Integral.Limit/r.Integral.Contact, 1e-9)
	in.OilScuffing = 0
	q := screen(t, in)
	if q.Flash.Margin != (Margin{}) || q.Integral.Margin != (Margin{}) || q.Flash.Verdict.String() != "no limit given" || !noted(q, "no load stage") {
		t.Errorf("without a stage: %+v, %+v", q.Flash.Margin, q.Integral.Margin)
	}
	for _, row := range []struct {
		safety float64
		want   Verdict
	}{{0.99, Likely}, {-3, Likely}, {1, Uncertain}, {2, Uncertain}, {2.01, Unlikely}, {1e9, Unlikely}} {
		if m := margin(300, row.safety); m.Verdict != row.want || m.Safety > mostSafety {
			t.Errorf("safety %v: %+v", row.safety, m)
		}
	}
	// Stage 12, mineral oil of 100 mm²/s, X_W = 1: 80 + 536.5 · (0.23 + 0.30), by hand.
	near(t, "Θ_intS", integralLimit(12, 1, 1, 100), 364.4, 0.05)
	if flashLimit(12, 1.25, 1, 100) <= flashLimit(12, 1, 1, 100) || integralLimit(12, 1.5, 1, 100) <= integralLimit(12, 1, 1, 100) {
		t.Error("a better structure doesn't raise the limit")
	}
}

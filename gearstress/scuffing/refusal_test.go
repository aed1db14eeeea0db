package scuffing

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearstress/involute"
)

func TestEverythingWrongIsSaidAtOnce(t *testing.T) {
	_, err := Screen(Input{})
	if err == nil {
		t.Fatal("an empty input is accepted")
	}
	for _, words := range []string{"no pair", "torque", "driver: roughness", "driven gear: roughness", "oil temperature", "viscosity at 40 °C"} {
		if !strings.Contains(err.Error(), words) {
			t.Errorf("%q is not in: %v", words, err)
		}
	}
}

func TestOneWrongValueIsRefusedByName(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		words  string
		change func(*Input)
	}{
		{"torque on the driver is -1", func(in *Input) { in.Torque = -1 }},
		{"torque on the driver is NaN", func(in *Input) { in.Torque = nan }},
		{"speed of the driver is -3", func(in *Input) { in.Speed = -3 }},
		{"K_A is -1", func(in *Input) { in.KA = -1 }},
		{"K_v is 0.5", func(in *Input) { in.KV = 0.5 }},
		{"K_Bβ is NaN", func(in *Input) { in.KHb = nan }},
		{"K_Bα is +Inf", func(in *Input) { in.KHa = math.Inf(1) }},
		{"driven gear: Young's modulus is 0", func(in *Input) { in.Material[1] = Steel; in.Material[1].Young = 0 }},
		{"driver: Poisson's ratio is 0.7", func(in *Input) { in.Material[0] = Steel; in.Material[0].Poisson = 0.7 }},
		{"driver: density is 7800", func(in *Input) { in.Material[0] = Steel; in.Material[0].Density = 7800 }},
		{"driver: heat conductivity is 0", func(in *Input) { in.Material[0] = Steel; in.Material[0].Conductivity = 0 }},
		{"driver: specific heat is 490 ", func(in *Input) { in.Material[0] = Steel; in.Material[0].SpecificHeat = 490 }},
		{"driven gear: roughness Ra of the flank is 0.4", func(in *Input) { in.Roughness[1] = 0.4 }},
		{"driver: tip relief is -0.1", func(in *Input) { in.TipRelief[0] = -0.1 }},
		{"X_W is 9", func(in *Input) { in.Structure = 9 }},
		{"accuracy grade is 13", func(in *Input) { in.Grade = 13 }},
		{"c_γ is 20 ", func(in *Input) { in.Stiffness = 20 }},
		{"gears in mesh at once are -1", func(in *Input) { in.Mates = -1 }},
		{"oil temperature is 500", func(in *Input) { in.OilTemperature = 500 }},
		{"viscosity at 40 °C is 0", func(in *Input) { in.Viscosity = 0 }},
		{"dynamic viscosity of the oil is -5", func(in *Input) { in.OilViscosity = -5 }},
		{"X_L is 50", func(in *Input) { in.OilFactor = 50 }},
		{"load stage of the oil is 15", func(in *Input) { in.OilScuffing = 15 }},
		{"the pair of gears is incomplete", func(in *Input) { in.Pair = &involute.Pair{} }},
		{"driver: contact begins at diameter", func(in *Input) { p := *in.Pair; p.Start[0] = p.Base[0]; in.Pair = &p }},
		{"contact ratio is", func(in *Input) { p := *in.Pair; p.Start = p.Working; in.Pair = &p }},
		{"the pair of gears is incomplete", func(in *Input) { p := *in.Pair; p.Start[0] = math.NaN(); in.Pair = &p }},
		{"the pair of gears is incomplete", func(in *Input) { p := *in.Pair; p.Base[0] = math.Inf(1); in.Pair = &p }},
		{"comes out as", func(in *Input) { p := *in.Pair; p.Face = 1e-300; in.Pair = &p }},
	} {
		in := inputOf(pairOf(t, spurSpec()))
		row.change(&in)
		_, err := Screen(in)
		if err == nil || !strings.Contains(err.Error(), row.words) {
			t.Errorf("error is %v; expected it to say %q", err, row.words)
		} else if strings.Count(err.Error(), "\n") > 0 {
			t.Errorf("one slip gives more than one error: %v", err)
		}
	}
}

// What leaves a range is worked out all the same, and said.
func TestLeavingARangeIsNoted(t *testing.T) {
	shifted := func(x1, x2 float64) *involute.Pair {
		spec := spurSpec()
		spec.Teeth, spec.Shift = [2]int{20, 90}, [2]float64{x1, x2}
		spec.Rack.Addendum = 0.8
		return pairOf(t, spec)
	}
	tall := spurSpec()
	tall.Rack.Addendum, tall.Rack.Dedendum, tall.Rack.TipRadius, tall.Teeth = 1.35, 1.6, 0.2, [2]int{60, 70}
	for _, row := range []struct {
		words    string
		integral bool
		change   func(*Input)
	}{
		{"K_Bβ is not given", true, func(in *Input) { in.KHb = 0 }},
		{"is estimated as", true, func(*Input) {}},
		{"a screen only", true, func(*Input) {}},
		{"below about 1 m/s", true, func(in *Input) { in.Speed = 1 }},
		{"above 50 m/s", true, func(in *Input) { in.Speed = 5000 }},
		{"counts it as 150 N/mm", true, func(in *Input) { in.Torque = 1000 }},
		{"more than lubricated steel shows", true, func(in *Input) { in.Torque, in.Speed = 1e7, 1 }},
		{"slide one way all along", false, func(in *Input) { in.Pair = shifted(1.1, -1.1) }},
		{"the integral temperature is not given", false, func(in *Input) { in.Pair = shifted(1.1, -1.1) }},
		{"at most two thirds of the load", true, func(in *Input) { in.Pair = pairOf(t, tall) }},
		{"from its base circle", true, func(in *Input) { p := *in.Pair; p.Start[0] = math.Nextafter(p.Base[0], 1e3) + 1e-4; in.Pair = &p }},
		{"the two methods disagree", true, func(in *Input) { in.RunIn, in.Roughness = false, [2]float64{0.002, 0.002} }},
	} {
		in := inputOf(pairOf(t, spurSpec()))
		row.change(&in)
		r := screen(t, in)
		if !noted(r, row.words) {
			t.Errorf("%q is not in the notes %q", row.words, r.Notes)
		}
		if (r.Integral != nil) != row.integral {
			t.Errorf("%q: integral method %v", row.words, r.Integral)
		}
	}
	in := inputOf(pairOf(t, spurSpec()))
	in.OilViscosity = 14
	if r := screen(t, in); noted(r, "taken as 1") || noted(r, "estimated") || noted(r, "extrapolated") || len(r.Notes) != 1 {
		t.Errorf("a usual pair, all given: %q", r.Notes)
	}
}

package iso6336

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
	"layshaft/material"

	"pgregory.net/rapid"
)

// Any pair that package involute accepts, under any load, gives finite positive numbers or an error with words.
func TestAnyPairGivesNumbersOrAnError(t *testing.T) {
	refused, rated := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		f, err := drawForm(t)
		switch {
		case f == nil && err == nil:
			return // no pair
		case err != nil:
			refused++
			t.Logf("%v", err)
			if len(err.Error()) < 30 {
				t.Fatalf("error without words: %v", err)
			}
			return
		}
		rated++
		in := drawInput(t)
		r, err := f.Rate(in)
		if err != nil {
			t.Fatalf("refused: %v", err)
		}
		for _, factor := range r.Factors() {
			for i := range sides {
				if v := factor.Value[i]; !(v > 0) || !finite(v) {
					t.Fatalf("%s = %v", factor.Symbol, v)
				}
			}
		}
		for i := range sides {
			for _, o := range []Outcome{r.Flank[i].Outcome, r.Root[i].Outcome} {
				for _, v := range []float64{o.Stress, o.Limit, o.Permissible, o.Safety, o.Static} {
					if !(v > 0) || !finite(v) {
						t.Fatalf("outcome %+v", o)
					}
				}
				if !(o.Life >= 0) || o.Limit > o.Static*(1+1e-12) {
					t.Fatalf("outcome %+v", o)
				}
				// What is rated to last must last: the life is beyond the cycles just when the limit is above the stress.
				if o.Cycles > o.Curve.Corners()[0].Cycles && o.Cycles < longLife && math.Abs(o.Safety-1) > 1e-9 && (o.Life > o.Cycles) != (o.Safety > 1) {
					t.Fatalf("life %g at %g cycles with safety %g", o.Life, o.Cycles, o.Safety)
				}
			}
		}
	})
	t.Logf("%d rated, %d refused", rated, refused)
	if rated == 0 {
		t.Error("no pair was rated")
	}
}

// drawForm is any pair and its tooth form: nil where the geometry makes no pair, an error where the form is refused.
func drawForm(t *rapid.T) (*Form, error) {
	f64 := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	spec := involute.Spec{
		Module: f64("module", 0.3, 30),
		Helix:  radians(rapid.SampledFrom([]float64{0, 1e-6, 8, 15, 23, 31, 45}).Draw(t, "helix")),
		Rack: involute.Rack{PressureAngle: radians(f64("pressure angle", 12, 30)), Addendum: f64("addendum", 0.6, 1.4),
			Dedendum: f64("dedendum", 0.8, 1.7), TipRadius: f64("tip radius", 0, 0.5)},
		Teeth:      [2]int{rapid.IntRange(5, 200).Draw(t, "z1"), rapid.IntRange(5, 200).Draw(t, "z2")},
		Shift:      [2]float64{f64("x1", -0.8, 1.2), f64("x2", -0.8, 1.2)},
		ShiftKnown: [2]bool{true, true},
	}
	spec.Face = spec.Module * f64("b/m", 1, 30)
	p, err := involute.New(spec)
	if err != nil {
		return nil, nil
	}
	return NewForm(p, Edition(rapid.IntRange(0, 1).Draw(t, "edition")), [2]float64{})
}

// drawInput is any load on any two materials.
func drawInput(t *rapid.T) Input {
	f64 := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	gear := func(name string) Gear {
		group := material.Group(rapid.IntRange(int(material.GroupNormalised), int(material.GroupNitrocarburised)).Draw(t, name))
		return Gear{
			Strength: Strength{Group: group, Contact: f64("σ_Hlim", 200, 1700), Bending: f64("σ_Flim", 50, 550), Yield: f64("yield", 100, 1500),
				Hardness: f64("HB", 0, 700), Young: 206000, Poisson: 0.3, Density: 7.83e-6},
			FlankRoughness: f64("flank", 1e-4, 0.05), RootRoughness: f64("root", 1e-4, 0.05),
			Grade:    rapid.IntRange(1, 11).Draw(t, "grade"),
			Body:     Body{Rim: rapid.SampledFrom([]float64{0, 0.01, 3, 100}).Draw(t, "rim"), Web: rapid.SampledFrom([]float64{0, 2, 50}).Draw(t, "web")},
			Reversal: Reversal{Share: f64("share", 0, 1)},
		}
	}
	return Input{
		Torque: math.Pow(10, f64("log torque", 0, 8)), Speed: rapid.SampledFrom([]float64{0, 1, 100, 3000}).Draw(t, "speed"),
		Turns: rapid.SampledFrom([]float64{0, 1, 1e4, 1e7, 1e12}).Draw(t, "turns"),
		KA:    f64("K_A", 0.5, 2), KHb: f64("K_Hβ", 1, 5), KHbOrigin: "a draw",
		Gear: [2]Gear{gear("driver"), gear("driven")}, Viscosity: f64("ν", 10, 500),
		LimitedPitting: rapid.Bool().Draw(t, "pitting"),
	}
}

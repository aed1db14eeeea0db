package iso6336

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
	"layshaft/material"
)

func radians(deg float64) float64 { return deg * math.Pi / 180 }

// near fails when got is further than tol from want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", what, got, want, tol)
	}
}

func pairOf(t testing.TB, s involute.Spec) *involute.Pair {
	t.Helper()
	p, err := involute.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func formOf(t testing.TB, s involute.Spec, e Edition) *Form {
	t.Helper()
	f, err := NewForm(pairOf(t, s), e, [2]float64{})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func rate(t testing.TB, f *Form, in Input) *Rating {
	t.Helper()
	r, err := f.Rate(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// steel has the limits of its group in quality MQ at a hardness (HV).
func steel(t testing.TB, g material.Group, hardness float64) Strength {
	t.Helper()
	at := func(line material.Line, err error) float64 {
		if err != nil {
			t.Fatal(err)
		}
		v, err := line.At(hardness)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	return Strength{Group: g, Contact: at(material.FlankLine(g, material.Typical)), Bending: at(material.RootLine(g, material.Typical)),
		Yield: 700, Young: 206000, Poisson: 0.3, Density: 7.83e-6, Source: "the test"}
}

// spurSpec and helicalSpec are invented pairs.
func spurSpec() involute.Spec {
	return involute.Spec{Module: 3, Rack: involute.StandardRack, Teeth: [2]int{20, 40}, ShiftKnown: [2]bool{true, true}, Face: 30}
}

func helicalSpec() involute.Spec {
	return involute.Spec{Module: 2.5, Helix: radians(22), Rack: involute.StandardRack, Teeth: [2]int{17, 38},
		Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 20}
}

// inputOf is a case-hardened pair under an invented load.
func inputOf(t testing.TB) Input {
	g := Gear{Strength: steel(t, material.GroupCaseHardened, 700), FlankRoughness: 0.004, RootRoughness: 0.012, Grade: 7}
	return Input{
		Torque: 180000, Speed: 300, Turns: 2e6, KA: 1.25, KHb: 1.3, KHbOrigin: "the test",
		Gear: [2]Gear{g, g}, Viscosity: 100,
	}
}

func compiled(t testing.TB, s involute.Spec, in Input) *Compiled {
	t.Helper()
	c, err := formOf(t, s, Edition2019).Compile(in)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

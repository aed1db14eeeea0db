package scuffing

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
)

func radians(deg float64) float64 { return deg * math.Pi / 180 }

// near fails when got is further than tol from want.
func near(t testing.TB, what string, got, want, tol float64) {
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

func screen(t testing.TB, in Input) *Result {
	t.Helper()
	r, err := Screen(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// steelOnSteel is Z_E of E = 206000 MPa and ν = 0.3, √MPa.
var steelOnSteel = math.Sqrt(206000 / 0.91 / (2 * math.Pi))

// spurSpec and helicalSpec are invented pairs.
func spurSpec() involute.Spec {
	return involute.Spec{Module: 3, Rack: involute.StandardRack, Teeth: [2]int{20, 37}, Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 25}
}

func helicalSpec() involute.Spec {
	return involute.Spec{Module: 2.5, Helix: radians(22), Rack: involute.StandardRack, Teeth: [2]int{17, 38},
		Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 20}
}

// inputOf is an invented load on a pair; the tips are relieved by more than any load
// here asks for, so that X_J = 1.
func inputOf(p *involute.Pair) Input {
	return Input{
		Pair: p, Torque: 180000, Speed: 300, KA: 1.25, KV: 1.1, KHb: 1.3, KHa: 1.1,
		Roughness: [2]float64{0.0004, 0.0006}, TipRelief: [2]float64{1, 1}, RunIn: true,
		OilTemperature: 90, Viscosity: 100, OilScuffing: 10,
	}
}

package bearing

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s: got %.8g, want %.8g to %.1g (off by %.2g)", what, got, want, relative, got/want-1)
	}
}

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// A cylindrical roller row of 14 rollers, effective length 10 mm, no clearance, 5000 N.
// Source: computed outside this program from the line law 7.68e-5 Q^0.9/l^0.8 (from memory), in
// the limit of many rollers (n = 10/9), and by direct sums over 14 rollers with one roller under
// the load and with the load between two. Tolerance 1e-3.
var crb = Elements{Kind: Cylindrical, Count: 14, Diameter: 9, Length: 10, Pitch: 52}

func TestCylindricalRowDeflects(t *testing.T) {
	jr, _ := LoadIntegrals(10./9, 0.5)
	q := 5000 / (14 * jr)
	near(t, "heaviest roller, N", q, 1458.93, 1e-3)
	d := LineApproach(q, 10)
	near(t, "deflection, mm", d, 8.5702e-3, 1e-3)
	near(t, "secant, N/mm", 5000/d, 583.4e3, 1e-3)
	near(t, "tangent, N/mm", 10./9*5000/d, 648.2e3, 1e-3)

	on := must[RadialState](t)(crb.Radial(5000))
	turned := crb
	turned.Turn = math.Pi / 14
	between := must[RadialState](t)(turned.Radial(5000))
	near(t, "roller under the load, mm", on.Displacement, 8.5722e-3, 1e-4)
	near(t, "load between two rollers, mm", between.Displacement, 8.5677e-3, 1e-4)
	near(t, "heaviest", on.Heaviest, 1458.93, 1e-3)
	near(t, "secant", on.Secant, 583.4e3, 1e-3)
	near(t, "tangent", on.Tangent, 648.2e3, 1e-3)
}

// A pair of equal tapered rows, 17 rollers of effective length 12 mm at 14°, against preload.
// Source: computed outside this program, n = 10/9. Tolerance 1e-3.
func TestPairStiffensWithPreload(t *testing.T) {
	e := Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: 14 * math.Pi / 180}
	for _, c := range []struct{ preload, push, stiffness float64 }{ // N, µm, N/µm
		{500, 3.2712, 339.668},
		{1000, 6.1042, 364.048},
		{2000, 11.3909, 390.177},
		{4000, 21.2561, 418.181},
		{8000, 39.6653, 448.195},
	} {
		for _, arrangement := range []Arrangement{FaceToFace, BackToBack} {
			p := Pair{Arrangement: arrangement, A: e, B: e}
			p.Setting = must[float64](t)(p.PreloadSetting(c.preload))
			near(t, "setting", p.Setting, -2e-3*c.push, 1e-4)
			s := must[PairState](t)(p.Settle(0, 0, 0))
			near(t, "preload", s.AxialA, c.preload, 1e-6)
			near(t, "pair tangent", s.Tangent, 1000*c.stiffness, 1e-4)
			// At 2.16 times the preload the eased row lets go.
			k := UnloadForce(Tapered, c.preload)
			s = must[PairState](t)(p.Settle(0, 0, arrangement.sign()*k*0.9999))
			if !(s.AxialB > 0) {
				t.Errorf("%v: preload lost before %g N", arrangement, k)
			}
			s = must[PairState](t)(p.Settle(0, 0, arrangement.sign()*k*1.0001))
			near(t, "all on A", s.AxialA, 1.0001*k, 1e-9)
			if s.AxialB != 0 {
				t.Errorf("%v: B still carries %g N", arrangement, s.AxialB)
			}
		}
	}
	near(t, "unload force, line", UnloadForce(Tapered, 1), 2.1601, 1e-4)
	near(t, "unload force, ball", UnloadForce(Ball, 1), 2.8284, 1e-4)
}

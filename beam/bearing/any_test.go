package bearing

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"layshaft/testdata/draws"
)

// Whatever is put in, the answer is an error or finite numbers.
func TestAnyElementsGiveErrorOrNumbers(t *testing.T) {
	answered, calls := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		// Ordinary values, but for one field or two in many cases. (Small draws are the commoner.)
		wild := [2]int{rapid.IntRange(0, 30).Draw(t, "wild") - 15, rapid.IntRange(0, 30).Draw(t, "wild too") - 15}
		field := 0
		odd := func(t *rapid.T, name string, low, high float64) float64 {
			field++
			if field == wild[0] || field == wild[1] {
				return rapid.OneOf(rapid.Float64(), rapid.Just(math.NaN()), rapid.Just(math.Inf(1)), rapid.Just(0.)).Draw(t, name)
			}
			return between(t, name, low, high)
		}
		e := Elements{
			Kind: rapid.SampledFrom([]Kind{Tapered, Ball, Cylindrical, Needle, Ball - 1, Tapered + 1}).Draw(t, "kind"), Count: 20 - rapid.IntRange(0, 20).Draw(t, "fewer"),
			Diameter: odd(t, "diameter", 1, 20), Pitch: odd(t, "pitch", 60, 200),
			Clearance: odd(t, "clearance", -0.1, 0.2), Turn: odd(t, "turn", -9, 9),
		}
		if e.Kind != Ball {
			e.Length = odd(t, "length", 1, 50)
		} else {
			e.Groove = odd(t, "groove", 0.505, 0.6)
		}
		if e.Kind == Ball || e.Kind == Tapered {
			e.ContactAngle = odd(t, "angle", 0, 1)
		}
		f := [3]float64{odd(t, "Fx", -5e3, 3e4), odd(t, "Fy", -2e4, 2e4), odd(t, "Fz", -2e4, 2e4)}
		m := [2]float64{odd(t, "My", -1e4, 1e4), odd(t, "Mz", -1e4, 1e4)}
		if e.Kind == Cylindrical || e.Kind == Needle {
			f[0] = 0
		}
		calls += 7
		finite := func(what string, err error, numbers ...float64) {
			if err != nil {
				if err.Error() == "" {
					t.Error("an error without words")
				}
				return
			}
			answered++
			for _, x := range numbers {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Errorf("%s gives %v", what, numbers)
				}
			}
		}
		at := Stance{[2]float64{f[1] / 1e6, f[2] / 1e6}, [2]float64{m[0] / 1e6, m[1] / 1e6}}
		h, tangent, err := e.Hold(at, f[0])
		finite("hold", err, append(append(h.Force[:], h.Axial, h.Couple[0], h.Couple[1], h.Total), tangent[0][0], tangent[2][3], tangent[3][3])...)
		d, tilt, err := e.Displacement(f, m)
		finite("displacement", err, d[0], d[1], d[2], tilt[0], tilt[1])
		r, err := e.Radial(f[1])
		finite("radial", err, r.Force, r.Displacement, r.Heaviest, r.Zone, r.Secant, r.Tangent)
		r, err = e.RadialAt(f[1] / 1e6)
		finite("radial at", err, r.Force, r.Displacement, r.Heaviest, r.Zone, r.Secant, r.Tangent)
		e.Clearance = 0
		p := Pair{Arrangement: rapid.SampledFrom([]Arrangement{FaceToFace, BackToBack, 2, -1}).Draw(t, "arrangement"), A: e, B: e, Setting: odd(t, "setting", -0.1, 0.3)}
		g, err := p.Settle(math.Abs(f[1]), math.Abs(f[2]), f[0])
		finite("pair", err, g.AxialA, g.AxialB, g.Displacement, g.Tangent)
		ha, hb, ta, tb, cross, err := p.Hold(at, Stance{}, f[0])
		finite("pair's hold", err, ha.Force[0], ha.Force[1], ha.Couple[1], hb.Force[0], hb.Force[2], hb.Axial, ta[0][0], tb[3][3], cross[0][1])
		x, err := p.PreloadSetting(math.Abs(f[0]))
		finite("preload", err, x)
	})
	t.Logf("%d answers to %d questions", answered, calls)
	if draws.Full() && answered < calls/10 {
		t.Errorf("hardly anything was answered: %d answers to %d questions", answered, calls)
	}
}

// Ordinary rows under ordinary loads always find their balance.
func TestOrdinaryRowsAlwaysSettle(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 3000 {
		e := Elements{Kind: Ball, Count: 7 + r.IntN(6), Diameter: 12, Pitch: 62, Clearance: -0.005 + 0.03*r.Float64(), Turn: r.Float64()}
		f := [3]float64{6000 * (r.Float64() - 0.5), 9000 * (r.Float64() - 0.5), 9000 * (r.Float64() - 0.5)}
		m := [2]float64{40000 * (r.Float64() - 0.5), 40000 * (r.Float64() - 0.5)}
		if _, _, err := e.Displacement(f, m); err != nil {
			t.Errorf("%+v under %v %v: %v", e, f, m, err)
		}
	}
}

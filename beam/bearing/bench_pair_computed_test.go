package bearing

import (
	"math"
	"testing"
)

// benched is a pair of which numbers were worked out outside this program, from the line law of both raceways (from
// memory) and equilibrium. Diameters and pitch don't move them.
func benched(x Arrangement) Bench {
	angle := func(degrees float64) float64 { return degrees * math.Pi / 180 }
	return Bench{Case: math.Inf(1), Pair: Pair{Arrangement: x,
		A: Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 55, ContactAngle: angle(14)},
		B: Elements{Kind: Tapered, Count: 19, Diameter: 8, Length: 14, Pitch: 60, ContactAngle: angle(12)}}}
}

// Tolerance 1e-5. An outside force sees the rows side by side, a shim sees them one behind the other: about a quarter.
func TestTwoStiffnessesOfAPair(t *testing.T) {
	b := benched(FaceToFace)
	for i, preload := range []float64{500, 1000, 2000, 4000} {
		play := must[float64](t)(b.Play(preload))
		near(t, "setting", -play, []float64{6.760025e-3, 12.61465e-3, 23.53977e-3, 43.92677e-3}[i], 1e-5)
		s := must[AtRest](t)(b.At(play))
		near(t, "preload", s.Preload, preload, 1e-9)
		near(t, "k_A", s.Rows[0], []float64{169834.2, 182023.8, 195088.3, 209090.4}[i], 1e-5)
		near(t, "k_B", s.Rows[1], []float64{159237.0, 170665.9, 182915.2, 196043.7}[i], 1e-5)
		near(t, "outside", s.Outside, []float64{329071.2, 352689.7, 378003.5, 405134.1}[i], 1e-5)
		near(t, "shim", s.Shim, []float64{82182.47, 88080.99, 94402.87, 101178.5}[i], 1e-5)
		// Moved by hand: a shim of 10 nm, and a force of 1 N from outside.
		more := must[AtRest](t)(b.At(play - 1e-5))
		near(t, "shim, moved", (more.Preload-s.Preload)/1e-5, s.Shim, 1e-4)
		b.Setting = play
		there, back := must[PairState](t)(b.Settle(0, 0, 10)), must[PairState](t)(b.Settle(0, 0, -10))
		b.Setting = 0
		near(t, "outside, moved", 20/math.Abs(there.Displacement-back.Displacement), s.Outside, 1e-4)
	}
}

// 55 µm of play without a shim, a rigid case; tolerance 1e-4. Below zero play nothing, above it as (shim − play)^(1/0.9).
func TestShimTable(t *testing.T) {
	b := benched(BackToBack)
	last := -1.0
	for i, shim := range []float64{40, 55, 60, 65, 70, 80, 100} {
		s := must[AtRest](t)(b.At((55 - shim) / 1e3))
		want := []float64{0, 0, 357.6338, 772.5317, 1212.197, 2138.316, 4108.734}[i]
		near(t, "preload", s.Preload, want, 1e-4)
		if s.Preload < last {
			t.Errorf("a thicker shim gives less: %g N after %g N", s.Preload, last)
		}
		last = s.Preload
	}
	near(t, "shim for 1500 N", 55-1e3*must[float64](t)(b.Play(1500)), 73.1701, 1e-4)
}

// Tolerance 1e-6; the cup radius as a trade magazine's column on bearings prints it.
func TestPlayFromColdToHot(t *testing.T) {
	w := Warmth{Span: 200, Case: AluminiumGrowth, Shaft: SteelGrowth, CaseRise: 60, ShaftRise: 60}
	near(t, "X", benched(FaceToFace).PlayChange(w), 0.144, 1e-6)
	near(t, "O", benched(BackToBack).PlayChange(w), -0.144, 1e-6)
	w.Case = SteelGrowth
	for _, x := range []Arrangement{FaceToFace, BackToBack} {
		if got := benched(x).PlayChange(w); got != 0 {
			t.Errorf("%v: equal growth changes the play by %g mm", x, got)
		}
	}
	cups := Pair{A: Elements{ContactAngle: 20.05 * math.Pi / 180}, B: Elements{ContactAngle: 20.05 * math.Pi / 180}}
	near(t, "growth of two cups", cups.PlayChange(Warmth{Cup: 0.010}), 2*0.0274, 0.1/27.4)
}

// A cold setting for 1500 N hot, face to face in an aluminium case, asks for far more cold than anybody sets; tolerance 1e-4.
func TestColdSettingForHotLeavesTheRange(t *testing.T) {
	b := benched(FaceToFace)
	hot := must[float64](t)(b.Play(1500))
	near(t, "hot", -hot, 18.1701e-3, 1e-4)
	cold := hot - b.PlayChange(Warmth{Span: 200, Case: AluminiumGrowth, Shaft: SteelGrowth, CaseRise: 60, ShaftRise: 60})
	near(t, "cold", -cold, 162.1701e-3, 1e-4)
	s := must[AtRest](t)(b.At(cold))
	near(t, "rigid", s.Preload, 17073.73, 1e-4)
	soft := b
	soft.Case = 250e3
	soften := must[AtRest](t)(soft.At(cold))
	near(t, "case of 250 N/µm", soften.Preload, 11696.92, 1e-4)
	soft.Case = 100e3
	near(t, "there and back", must[AtRest](t)(soft.At(must[float64](t)(soft.Play(1500)))).Preload, 1500, 1e-9)
	if !s.Beyond() || !soften.Beyond() {
		t.Error("such a preload is taken as one that is set on a bench")
	}
	if usual := must[AtRest](t)(b.At(hot)); usual.Beyond() {
		t.Errorf("1500 N is refused: %g MPa", usual.Pressure)
	}
}

// Tolerance 1e-6.
func TestTorqueOfAPair(t *testing.T) {
	for i, force := range []float64{500, 1000, 2000, 4000} {
		near(t, "row", RibTorque(4, 0.15, force, 2*math.Pi/180), []float64{299.8172, 599.6345, 1199.269, 2398.538}[i], 1e-6)
	}
	for i, turns := range []float64{0.28, 1, 3.6} {
		near(t, "seen", SeenThrough(0.4, 1.8, turns, 0.98), []float64{0.9142857, 2.236735, 7.012245}[i], 1e-6)
		near(t, "behind", BehindIt(1, 0.4, turns, 0.98), []float64{2.1, 0.588, 0.1633333}[i], 1e-6)
		near(t, "there and back", BehindIt(SeenThrough(0.4, 1.8, turns, 0.98), 0.4, turns, 0.98), 1.8, 1e-12)
	}
	near(t, "oil, at the branch", OilTorque(5, 20, 100.001, 55), OilTorque(5, 20, 99.999, 55), 0.01)
	near(t, "oil, d³", OilTorque(5, 20, 3000, 110), 8*OilTorque(5, 20, 3000, 55), 1e-12)
}

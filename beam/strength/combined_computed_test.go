package strength

import "testing"

// Bending that turns with torsion that stays, and that comes and goes, reckoned independently (equivalent amplitude and
// mean after von Mises). Goodman calls steady torsion the worse of the two, Gerber and the ellipse the pulsating one.
func TestSteadyAgainstPulsatingTorsion(t *testing.T) {
	steel := Steel{Tensile: 950, Yield: 780}
	f := &Fatigue{Felt: Factors{Bending: 1.9, Torsion: 1.6, Tension: 1}, Endurance: 310, nominal: Ring(32, 0), steel: steel}
	load := Load{Moment: 180e3, Torque: 240e3}
	for _, c := range []struct {
		torsion                                      Torsion
		amplitude, mean                              float64
		goodman, gerber, elliptic, soderberg, yields float64
	}{
		{Steady, 106.3105, 103.3742, 2.213603, 2.669869, 2.719939, 2.10319, 5.260176},
		{Pulsating, 118.2095, 51.68708, 2.295008, 2.571144, 2.58374, 2.234205, 5.260176},
	} {
		f.rules.Torsion = c.torsion
		w := f.Swing(load)
		same(t, "amplitude", w.Amplitude, c.amplitude, 1e-6)
		same(t, "mean", w.Mean, c.mean, 1e-6)
		for by, want := range map[Criterion]float64{Goodman: c.goodman, Gerber: c.gerber, Elliptic: c.elliptic, Soderberg: c.soderberg} {
			f.rules.Criterion = by
			same(t, string(by), 1/f.Used(w), want, 1e-6)
		}
		same(t, "yield in the first cycle", 780/f.nominal.Under(load).times(f.Felt).VonMises(), c.yields, 1e-6)
	}
}

// A shaft under five loads, most of them beyond its endurance, reckoned independently (S = a N^b, elementary Miner).
func TestLaunches(t *testing.T) {
	const endurance = 310.0
	curve, err := Cycles(950, endurance, 0.82)
	if err != nil {
		t.Fatal(err)
	}
	f := &Fatigue{Endurance: endurance, steel: Steel{Tensile: 950, Yield: 780}, rules: UsualRules, curve: curve}
	bins := []Bin{{Swing{620, 0}, 400}, {Swing{500, 0}, 3000}, {Swing{400, 0}, 40000}, {Swing{330, 0}, 250000}, {Swing{290, 0}, 3e6}}
	sum := 0.0
	for _, b := range bins {
		sum += f.Damage(b.Swing, b.Turns)
	}
	same(t, "damage", sum, 0.8500929, 1e-6)
	same(t, "repeats to a damage of 1", 1/sum, 1.176342, 1e-6)
	same(t, "amplitude that does the same in 10⁵ cycles", endurance*curve.At(1e5/sum), 412.425, 1e-6)
	// The load that uses up the rest is a little larger, and with it the sum is 1 or jumps over it.
	k := 1 / f.UsedUp(bins)
	at := func(k float64) (sum float64) {
		for _, b := range bins {
			sum += f.Damage(Swing{Amplitude: b.Amplitude * k}, b.Turns)
		}
		return sum
	}
	if !(at(k) <= 1+1e-12 && at(k*(1+1e-12)) >= 1-1e-9) || k < 1 || k > 1.05 {
		t.Errorf("grown by %g the sum is %g, a little more %g", k, at(k), at(k*(1+1e-12)))
	}
}

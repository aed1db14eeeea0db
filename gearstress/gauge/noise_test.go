package gauge

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"layshaft/gearstress/involute"
)

// A thousand gears with readings as wide as their instruments say: the true flank lies in its stated interval in 93
// to 97 of 100 cases, the true label among the
// candidates in at least 99 of 100.
func TestNoisyReadings(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 26))
	const gears = 1000
	var helical, pitch, helix, base, thick, listed, first int
	for range gears {
		g := anyGear(random)
		readings := g.bench(Span, OverBalls, Tip, Root, TipHelix)
		for i := range readings {
			readings[i].Value += random.NormFloat64() * readings[i].Width() / wide
		}
		group := alone(t, g.gear(readings)).Groups[0]
		if !group.Fixed {
			t.Fatalf("not fixed: %+v", g)
		}
		f := g.flank()
		in := func(v Value, want float64) int {
			if math.Abs(v.Value-want) <= v.Tolerance {
				return 1
			}
			return 0
		}
		pitch += in(group.BasePitch, f.pitch)
		base += in(group.Flanks[0].Base, f.base())
		thick += in(group.Flanks[0].Thickness, f.transverseThick())
		if g.Helix > 0 {
			helical++
			helix += in(group.BaseHelix, f.helix)
		}
		if slices.ContainsFunc(group.Labels, func(l Label) bool { return l.holds(g) && (l.Snapped || g.Helix == 0) }) {
			listed++
		}
		if len(group.Labels) > 0 && group.Labels[0].holds(g) {
			first++
		}
	}
	for what, share := range map[string]float64{
		"base pitch": float64(pitch) / gears, "base diameter": float64(base) / gears,
		"base thickness": float64(thick) / gears, "base helix": float64(helix) / float64(helical),
	} {
		t.Logf("%s inside its interval: %.1f of 100", what, 100*share)
		if share < 0.93 || share > 0.97 {
			t.Errorf("%s inside its interval in %.1f of 100 cases, want 93 to 97", what, 100*share)
		}
	}
	t.Logf("true label listed: %.1f of 100, first: %.1f of 100", 100*float64(listed)/gears, 100*float64(first)/gears)
	if listed < 990 {
		t.Errorf("the true label is among the candidates in %d of 1000 cases, want 990", listed)
	}
}

// Pairs with noise: their joint flank lies inside its interval in 93 to 97 of 100 cases, and the true label is
// listed, first in nearly all.
func TestNoisyPairs(t *testing.T) {
	random := rand.New(rand.NewPCG(54, 80))
	const pairs = 1000
	var helix, pitch, thick, listed, first, shift int
	for range pairs {
		m := []float64{2, 2.25, 2.5, 2.75, 3}[random.IntN(5)]
		spec := involute.Spec{Module: m, Helix: float64(15+random.IntN(16)) * degree, Rack: involute.StandardRack,
			Teeth: [2]int{13 + random.IntN(15), 28 + random.IntN(30)},
			Shift: [2]float64{0.1 + 0.3*random.Float64(), 0.2 * random.Float64()}, ShiftKnown: [2]bool{true, true},
			Face: 20, Thinning: [2]float64{0.03 + 0.05*random.Float64(), 0.03 + 0.05*random.Float64()}}
		p, err := involute.New(spec)
		if err != nil {
			t.Fatal(err)
		}
		spec.CentreDistance = p.Centre
		if p, err = involute.New(spec); err != nil {
			t.Fatal(err)
		}
		noisy := func(r Reading) Reading {
			r.Value += random.NormFloat64() * r.Width() / wide
			return r
		}
		set := Set{Centres: []Centre{{Name: "shafts", Reading: noisy(Reading{Kind: Distance, Value: p.Centre, By: Plugs})}}}
		for i := range 2 {
			g := truth{p.Gauge(i), p.GeneratingShift(i), p.Tip[i], p.Root[i], 0}
			readings := g.bench(Span, OverBalls, Tip, TipHelix)
			for k := range readings {
				readings[k] = noisy(readings[k])
			}
			set.Gears = append(set.Gears, g.gear(readings))
		}
		along := p.Backlash / math.Cos(p.WorkingPressureAngle) / math.Cos(p.BaseHelix)
		set.Pairs = []Pair{{Name: "pair", Gears: [2]int{0, 1}, Backlash: noisy(Reading{Kind: Backlash, Value: along})}}
		r, err := Solve(set)
		if err != nil {
			t.Fatal(err)
		}
		group, f := r.Groups[0], flankOf(p.Gauge(1), p.GeneratingShift(1))
		in := func(v Value, want float64) int { return boolInt(math.Abs(v.Value-want) <= v.Tolerance) }
		pitch += in(group.BasePitch, f.pitch)
		helix += in(group.BaseHelix, f.helix)
		thick += in(group.Flanks[1].Thickness, f.transverseThick())
		true0 := truth{Gauge: p.Gauge(0)}
		listed += boolInt(slices.ContainsFunc(group.Labels, func(l Label) bool { return l.holds(true0) && l.Snapped }))
		if len(group.Labels) > 0 && group.Labels[0].holds(true0) && group.Labels[0].Snapped {
			first++
			shift += in(group.Labels[0].Gears[0].Shift, p.X[0])
		}
	}
	for what, n := range map[string]int{"base pitch": pitch, "base helix": helix, "base thickness": thick} {
		t.Logf("%s inside its interval: %.1f of 100", what, float64(n)/pairs*100)
		if n < 930 || n > 970 {
			t.Errorf("%s inside its interval in %.1f of 100 cases, want 93 to 97", what, float64(n)/pairs*100)
		}
	}
	t.Logf("true label listed: %.1f of 100, first: %.1f of 100", float64(listed)/pairs*100, float64(first)/pairs*100)
	if listed < 990 {
		t.Errorf("the true label is among the candidates in %d of 1000 cases, want 990", listed)
	}
	// How the two gears share the backlash is not known, and counts in full: the shift lies inside oftener.
	if t.Logf("profile shift inside its interval: %.1f of 100", float64(shift)/float64(first)*100); float64(shift) < 0.95*float64(first) {
		t.Errorf("the profile shift lies inside its interval in %d of %d cases", shift, first)
	}
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

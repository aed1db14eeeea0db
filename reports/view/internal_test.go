package view

import (
	"math"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"

	_ "layshaft/testdata/draws"
)

func TestSideOnWhichTheLoadActs(t *testing.T) {
	for middle, want := range map[float64]string{0.74: "right", -0.74: "left", 0.004: "neither", -0.004: "neither", 0: "neither"} {
		if got := sideOf(middle); got != want {
			t.Errorf("a load %v mm off the middle acts to the %q, want %q", middle, got, want)
		}
	}
	if got := sideOf(math.NaN()); got != Absent {
		t.Errorf("a load at no known place acts to the %q, want %q", got, Absent)
	}
}

// What leaves least torque need not be what the duty wears out first.
func TestShortestLifeIsTold(t *testing.T) {
	margin := func(kind gearbox.Kind, item string, margin, life float64) gearbox.Margin {
		return gearbox.Margin{Kind: kind, Item: item, Margin: margin, Life: life}
	}
	r := &gearbox.Result{Speeds: []gearbox.SpeedResult{
		{Margins: []gearbox.Margin{margin(gearbox.FlankFatigue, "tight", 0.9, 180000), margin(gearbox.FlankFatigue, "short-lived", 1.2, 33000), margin(gearbox.RootFatigue, "root", 2, math.Inf(1))}},
		{Margins: []gearbox.Margin{margin(gearbox.FlankFatigue, "other", 1, 47000), margin(gearbox.ShaftYield, "shaft", 0.1, 0)}},
	}}
	if got, want := lifeWords(r), "What the duty wears out first at this torque, and after how many repeats, by calculation with steel at the low end of its range and 1 failure in 100: "+
		"tooth root fatigue endless; flank fatigue of short-lived after 33\u00a0000. "+LifeOrMargin(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := lifeWords(&gearbox.Result{}); got != "" {
		t.Errorf("without a duty the life is told as %q", got)
	}
}

// Per cent of a number with a sign, or of one too small to matter, misleads: the difference is told instead.
func TestChange(t *testing.T) {
	g := &group{dimension: quantity.Deflection}
	add := func(from, to float64) *study.Difference {
		d := &study.Difference{Values: []float64{from, to}, Change: []float64{0, to/from - 1}}
		if from*to < 0 {
			d.Change[1] = math.NaN()
		}
		g.rows = append(g.rows, groupRow{difference: d})
		return d
	}
	for _, c := range []struct {
		d    *study.Difference
		want string
	}{
		{add(0.0400, 0.0500), "+25.0"},
		{add(0.0400, 0.0400), "0.0"},
		{add(-0.00213, -0.00470), "-2.57 µm"},
		{add(-0.001, 0.003), "+4.00 µm"},
		{add(0.0005, 0.0015), "+1.00 µm"}, // less than a twentieth of the largest, 50 µm
		{add(0.0041, 0.0500), "×12.2"},
		{add(math.NaN(), 0.0500), Absent},
	} {
		if got := g.change(c.d, 1, Options{}); got != c.want {
			t.Errorf("%v: %q, want %q", c.d.Values, got, c.want)
		}
	}
}

package view

import (
	"testing"

	"layshaft/gearbox"
	"layshaft/material"
)

func limit(kind gearbox.Kind, item string, margin float64) gearbox.Margin {
	return gearbox.Margin{Kind: kind, Item: item, Margin: margin, Level: material.Low}
}

func TestCounterpartIsOfTheSameGearAndQuestion(t *testing.T) {
	s := &gearbox.SpeedResult{
		Meshes: []gearbox.MeshResult{{Name: "first", Gears: [2]string{"pinion", "wheel"}}, {Name: "final", Gears: [2]string{"other pinion", "other wheel"}}},
		Margins: []gearbox.Margin{
			limit(gearbox.FlankFatigue, "other wheel", -0.3), limit(gearbox.FlankFatigue, "wheel", 0.1), limit(gearbox.RootPeak, "wheel", 0.15),
			limit(gearbox.FlankFatigue, "pinion", 0.2), limit(gearbox.RootFatigue, "pinion", 0.4), limit(gearbox.RootFatigue, "wheel", 0.5),
		},
	}
	for _, c := range []struct {
		kind gearbox.Kind
		item string
		want float64 // margin of the counterpart; 0 = there is none
	}{
		{gearbox.RootAGMA, "pinion", 0.4},
		{gearbox.RootAGMA, "wheel", 0.5},
		{gearbox.FlankAGMA, "pinion", 0.2},
		{gearbox.RootLewis, "wheel", 0.15},
		{gearbox.RootLewis, "pinion", 0},
		{gearbox.FlankHertz, "mesh first", 0.1}, // of its two gears the one that runs out first
		{gearbox.FlankHertz, "mesh final", -0.3},
		{gearbox.FlankHertz, "mesh third", 0},
	} {
		m := limit(c.kind, c.item, 1)
		got := counterpart(s, &m)
		if (got == nil) != (c.want == 0) || got != nil && got.Margin != c.want {
			t.Errorf("%v of %s: %+v, want the margin %g", c.kind, c.item, got, c.want)
		}
	}
}

func TestEveryReferenceKindHasACounterpart(t *testing.T) {
	for _, k := range gearbox.Kinds() {
		other, known := beside[k]
		if known != k.Reference() || known && (other.Reference() || other.Dimension() != k.Dimension()) {
			t.Errorf("%v stands beside %v (known: %v)", k, other, known)
		}
	}
}

// Of one or two speeds everything is told, of more only the one that runs out first.
func TestExplainedSpeeds(t *testing.T) {
	speed := func(name string, margin float64) gearbox.SpeedResult {
		return gearbox.SpeedResult{Name: name, Margins: []gearbox.Margin{limit(gearbox.RootPeak, "pinion", margin)}}
	}
	bare := gearbox.SpeedResult{Name: "direct"}
	for _, c := range []struct {
		speeds []gearbox.SpeedResult
		want   []string
	}{
		{[]gearbox.SpeedResult{speed("1st", 0.1)}, []string{"1st"}},
		{[]gearbox.SpeedResult{speed("1st", 0.1), bare}, []string{"1st", "direct"}},
		{[]gearbox.SpeedResult{bare, speed("1st", 0.3), speed("2nd", -0.1), speed("3rd", 0.1)}, []string{"2nd"}},
		{[]gearbox.SpeedResult{bare, bare, bare}, nil},
	} {
		got := Explained(&gearbox.Result{Speeds: c.speeds})
		if len(got) != len(c.want) {
			t.Errorf("%d speeds, want %q", len(got), c.want)
			continue
		}
		for i, s := range got {
			if s.Name != c.want[i] {
				t.Errorf("%s, want %s", s.Name, c.want[i])
			}
		}
	}
}

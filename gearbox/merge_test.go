package gearbox

import (
	"math"
	"strings"
	"testing"

	"layshaft/material"
)

func made(variant string, torques ...float64) *Result {
	r := &Result{Box: &Box{Variant: variant}, Case: torques[0]}
	for _, t := range torques {
		s := SpeedResult{First: FirstLimit{Torque: t, Item: variant}}
		for level := range s.Ends {
			s.Ends[level] = FirstLimit{Item: variant, Torque: t * float64(level+1)}
		}
		s.Asked = []FirstLimit{{Torque: 1000 - t}}
		r.Speeds = append(r.Speeds, s)
	}
	r.Lives = []GearLife{{Gear: variant, Root: Life{Asked: torques[0]}}}
	return r
}

func TestMerge(t *testing.T) {
	a, b, c := made("a", 200, 90, 300), made("b", 100, 250, math.Inf(1)), made("c", 150, 120, 300)
	a.Speeds[0].Ends[material.High].Torque = 50 // another limit is the first at that end
	m := merge([]*Result{a, b, c})
	for i, want := range []struct {
		item        string
		least, most float64
		high, asked float64
	}{{"b", 100, 200, 50, 800}, {"a", 90, 250, 270, 750}, {"a", 300, math.Inf(1), 900, math.Inf(-1)}} {
		s := m.Speeds[i]
		if s.First.Item != want.item || s.First.Torque != want.least || s.Tried.Least != want.least || s.Tried.Most != want.most || s.Allowable(material.High) != want.high || s.Asked[0].Torque != want.asked ||
			s.Tried.Boxes != 3 || s.Tried.Variant != want.item {
			t.Errorf("speed %d: %+v, tried %+v, want %+v", i, s, s.Tried, want)
		}
	}
	if m.Case != a.Case {
		t.Error("the whole box is told by another than the one that allows the least, 90")
	}
	if m.Lives[0].Gear != "b" {
		t.Errorf("life of %s, want the shortest, that of b", m.Lives[0].Gear)
	}
	if said := strings.Join(m.Speeds[2].Checks, ""); !strings.Contains(said, "0.3 N·m or more, up to no limit") {
		t.Errorf("said %q", said)
	}
	if a.Speeds[0].Tried != nil || len(a.Speeds[0].Checks) > 0 {
		t.Error("a result that went in was changed")
	}
	if alone := merge([]*Result{a}); len(alone.Speeds[0].Checks) > 0 {
		t.Error("a range of one box is told")
	}
}

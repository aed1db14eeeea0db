package gearbox_test

import (
	"math"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// A solution in brief finds the very limit that a full one shows first.
func TestBriefFindsTheFirstLimit(t *testing.T) {
	t.Parallel()
	for _, file := range []string{"../testdata/alder.yaml", "../testdata/birch.yaml"} {
		box, _, found := boxfile.ReadFile(file)
		if found.HasErrors() {
			t.Fatal(found)
		}
		for _, c := range []struct {
			name   string
			torque float64
			change func(*gearbox.Box)
		}{
			{"as it is", 0, func(*gearbox.Box) {}},
			{"near the limit", 240e3, func(*gearbox.Box) {}},
			{"far below", 60e3, func(*gearbox.Box) {}},
			{"coast", -190e3, func(*gearbox.Box) {}},
			{"no duty", 0, func(b *gearbox.Box) { b.Duty = nil }},
			{"a duty that coasts", 0, func(b *gearbox.Box) {
				b.Limits.Slope, b.Limits.MeshTilt = 1, 1
				b.Duty = &gearbox.Duty{Passes: 4000, Steps: []gearbox.DutyStep{{Speed: "1st", Turns: 30, Share: 1}, {Speed: "1st", Turns: 3000, Share: -1.1}}}
			}},
			{"any slope borne", 0, func(b *gearbox.Box) { b.Limits.Slope, b.Limits.MeshTilt = 1, 1 }},
			{"high end of the bands", 0, func(b *gearbox.Box) { b.Limits.Strength = 2 }},
			{"angle not known", 0, func(b *gearbox.Box) { b.Side, b.Centres = nil, b.Centres[:2] }},
		} {
			b := *box
			c.change(&b)
			full, err := gearbox.Solve(&b, gearbox.Load{Torque: c.torque})
			if err != nil {
				t.Fatal(err)
			}
			brief, err := gearbox.Solve(&b, gearbox.Load{Torque: c.torque, Brief: true})
			if err != nil {
				t.Fatal(err)
			}
			leastIsThatOfAll(t, &b, brief, c.torque)
			for i := range full.Speeds {
				want, got := full.Speeds[i].First, brief.Speeds[i].First
				const digits = 1e-8
				if got.Kind != want.Kind || got.Item != want.Item || !(math.Abs(got.Torque-want.Torque) <= digits*want.Torque) {
					t.Errorf("%s, %s, %s: first %v %q at %.9g N·mm, in full %v %q at %.9g", b.Name, c.name, full.Speeds[i].Name, got.Kind, got.Item, got.Torque, want.Kind, want.Item, want.Torque)
				}
				// The search for the load starts from what was solved before, which shows in the last digit.
				if a, b := full.Speeds[i].Meshes[0].FaceFactor, brief.Speeds[i].Meshes[0].FaceFactor; math.Abs(a-b) > 1e-12*a {
					t.Errorf("K_Hβ %v in brief, %v in full", b, a)
				}
			}
		}
	}
}

// leastIsThatOfAll holds the one first limit of a box against those of all speeds: it is the least of them, and where another speed has one at all it is not below its own.
func leastIsThatOfAll(t *testing.T, b *gearbox.Box, brief *gearbox.Result, torque float64) {
	t.Helper()
	r, err := gearbox.Solve(b, gearbox.Load{Torque: torque, Brief: true, Least: true})
	if err != nil {
		t.Fatal(err)
	}
	least := func(all []gearbox.SpeedResult) (at int) {
		for i := range all {
			if all[i].First.Torque < all[at].First.Torque {
				at = i
			}
		}
		return at
	}
	at := least(brief.Speeds)
	want, got := brief.Speeds[at].First, r.Speeds[least(r.Speeds)].First
	if got.Kind != want.Kind || got.Item != want.Item || math.Abs(got.Torque-want.Torque) > 1e-9*want.Torque {
		t.Errorf("%s: least of all %v %q at %.12g N·mm, want %v %q at %.12g", b.Name, got.Kind, got.Item, got.Torque, want.Kind, want.Item, want.Torque)
	}
	for i := range r.Speeds {
		if one, own := r.Speeds[i].First.Torque, brief.Speeds[i].First.Torque; !(one >= own*(1-1e-9)) {
			t.Errorf("%s, %s: %g N·mm, by itself %g", b.Name, r.Speeds[i].Name, one, own)
		}
	}
}

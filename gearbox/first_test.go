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

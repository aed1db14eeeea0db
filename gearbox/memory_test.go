package gearbox_test

import (
	"reflect"
	"testing"

	"layshaft/gearbox"
	"layshaft/material"
)

// A box that is solved with what others left in memory is solved to the last digit as it is alone, whatever they had in common with it: all of its mechanics, or all but one gear, one shaft, one bearing.
func TestMemoryChangesNoDigit(t *testing.T) {
	memory := new(gearbox.Memory)
	for name, change := range map[string]func(*gearbox.Box){
		"as it is":        func(*gearbox.Box) {},
		"without a duty":  func(b *gearbox.Box) { b.Duty = nil },
		"more shock":      func(b *gearbox.Box) { b.Shock = 2 },
		"the best steel":  func(b *gearbox.Box) { b.Limits.Strength = material.High },
		"another torque":  func(b *gearbox.Box) { b.Torque *= 1.25 },
		"more crowning":   func(b *gearbox.Box) { b.Gears[0].Crowning = 0.02 },
		"a thinner shaft": func(b *gearbox.Box) { b.Shafts[1].Sections[2].Outer -= 1 },
		"a softer case":   func(b *gearbox.Box) { b.Housing.Radial = 3e5 },
		"another grade":   func(b *gearbox.Box) { b.Gears[2].Grade = 9 },
		"a shorter seat":  func(b *gearbox.Box) { b.Gears[1].Seat.Length -= 1 },
	} {
		box := alder(t)
		change(box)
		alone, err := gearbox.Solve(box, gearbox.Load{})
		if err != nil {
			t.Fatal(err)
		}
		for range 2 {
			again, err := gearbox.Solve(box, gearbox.Load{Memory: memory})
			if err != nil {
				t.Fatal(err)
			}
			for i := range alone.Speeds {
				one, two := &alone.Speeds[i], &again.Speeds[i]
				if one.First != two.First || one.Ends != two.Ends || !reflect.DeepEqual(one.Margins, two.Margins) || !reflect.DeepEqual(one.Guides, two.Guides) {
					t.Errorf("%s, %s: limits differ", name, one.Name)
				}
				for k := range one.Meshes {
					if !reflect.DeepEqual(one.Meshes[k].LineLoad, two.Meshes[k].LineLoad) || one.Meshes[k].Counted != two.Meshes[k].Counted {
						t.Errorf("%s, %s: the load along the face differs", name, one.Name)
					}
				}
			}
		}
	}
}

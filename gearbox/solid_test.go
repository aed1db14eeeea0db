package gearbox

import (
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox/diag"
)

// Each row makes a sound box into one that can't be built, or hardly, in one place. Depths are worked out by hand beside the row.
func TestSolidsInOnePlace(t *testing.T) {
	for _, c := range []struct {
		name     string
		spoil    func(*Box)
		severity diag.Severity
		path     string
		words    string
	}{
		// The shaft "in" is 180 mm long: 175 + 10 is 5 mm beyond.
		{"face beyond the right end", func(b *Box) {
			b.Gears[0].At = 175
			b.Gears[1].At = 175
			b.Gears[2].At = 40
			b.Shafts[2].Start = 40 - 65
		}, diag.Error, "gears.p1.at", "5 mm of it have no shaft"},
		{"face beyond the left end", func(b *Box) { b.Gears[0].At = 6; b.Gears[1].At = 16 }, diag.Error, "gears.p1.at", "from -4 to 16 mm"},
		{"face wider than the shaft", func(b *Box) { b.Gears[0].Face = 200 }, diag.Error, "gears.p1.face", "25 mm of it have no shaft"},
		// 75 ± 10 and 90 ± 14 share 76 to 85.
		{"two gears in one place", func(b *Box) { b.Gears[2].At = 90; b.Shafts[2].Start = 90 - 65 }, diag.Error, "gears.p2.at", "overlap by 9 mm"},
		// (100 + 36)/2 − 66
		{"shafts that touch", func(b *Box) { b.Shafts[0].Sections[0].Outer = 100 }, diag.Error, "shafts.in.sections.0.outer", "overlap by 2 mm"},
		// Without shift w1 has tips of 2·39/cos 24° + 4 = 89.38 mm. The axes stand 66 − 60/cos 24° = 0.324 mm wider than without shift, half of which each tip gains: 89.70 mm.
		// From 80 mm on, where its own gear has ended, the shaft "in" has 44 mm: (89.70 + 44)/2 − 66.
		{"shaft in the way of a gear's tips that nobody measured", func(b *Box) {
			b.Gears[0].Face = 10
			b.Shafts[0].Sections = []Section{{80, 36, 0}, {100, 44, 10}}
		}, diag.Warning, "shafts.in.sections.1.outer", "overlap by 0.8"},
		{"shaft in the way of a gear's measured tips", func(b *Box) {
			b.Gears[0].Face = 10
			b.Gears[1].TipDiameter = 89.38
			b.Shafts[0].Sections = []Section{{80, 36, 0}, {100, 44, 10}}
		}, diag.Error, "shafts.in.sections.1.outer", "overlap by 0.69"},
		{"shaft deep in a gear", func(b *Box) {
			b.Gears[0].Face = 10
			b.Shafts[0].Sections = []Section{{80, 36, 0}, {100, 60, 10}}
		}, diag.Error, "shafts.in.sections.1.outer", "overlap by 8.8"},
		// Root of p1: 2·21/cos 24° − 5 + 2·2·x; x closes 66 mm: a little above 41.
		{"section thicker than the root", func(b *Box) { b.Shafts[0].Sections[0].Outer = 43 }, diag.Warning, "shafts.in.sections.0.outer", "43 mm thick, but the teeth of gear \"p1\""},
		{"section thicker than the tips", func(b *Box) { b.Shafts[0].Sections[0].Outer = 52 }, diag.Error, "shafts.in.sections.0.outer", "no teeth would be left"},
		{"bearing inside a gear", func(b *Box) { b.Shafts[0].Bearings[0].At = 70 }, diag.Warning, "shafts.in.bearings.left.at", "centre at 70 mm"},
		// x reaches from 80 to 100 mm, w1 from 65 to 85, and both have tips of 89.70 mm: 89.70 − 66.
		{"gears in one another", func(b *Box) {
			b.Gears[0].Face = 10
			b.Gears = append(b.Gears, Gear{Name: "x", Shaft: "in", At: 90, Teeth: 39, Face: 20}, Gear{Name: "y", Shaft: "out", At: 95, Teeth: 21, Face: 10})
			more := b.Meshes[0]
			more.Name, more.Driver, more.Driven = "c", "x", "y"
			b.Meshes = append(b.Meshes, more)
		}, diag.Warning, "gears.w1.at", "23.7 mm too far"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := threeShafts()
			c.spoil(b)
			found := Validate(b)
			for _, d := range found {
				if d.Severity == c.severity && d.Path == c.path && strings.Contains(d.Detail, c.words) {
					return
				}
			}
			t.Errorf("found\n%swant %s: …%s…", all(found), c.path, c.words)
		})
	}
}

// What can be built is let be.
func TestSolidsSideBySide(t *testing.T) {
	for _, c := range []struct {
		name  string
		build func(*Box)
	}{
		{"faces that touch", func(b *Box) { b.Gears[2].At = 75 + 10 + 14; b.Shafts[2].Start = b.Gears[2].At - 65 }},
		{"a face flush with the end", func(b *Box) {
			b.Gears[0].At, b.Gears[1].At = 170, 170
			b.Gears[2].At, b.Shafts[2].Start = 40, 40-65
			b.Shafts[0].Bearings[1].At = 150
		}},
		{"thick shafts beside each other's gap", func(b *Box) {
			// 110/2 + 36/2 is more than 66, but "out" begins where the thick section has ended.
			b.Shafts[0].Sections = []Section{{30, 110, 10}, {150, 36, 10}}
			b.Shafts[1].Start = 30
			b.Gears[1].At, b.Gears[2].At = 45, 142
		}},
	} {
		b := threeShafts()
		c.build(b)
		found := slices.DeleteFunc(Validate(b), func(d diag.Diagnostic) bool { return d.Summary == "unusual proportions" }) // of so thick a shaft
		if len(found) > 0 {
			t.Errorf("%s: found\n%s", c.name, all(found))
		}
	}
}

// A shaft that sits in another has its axis, so that their outlines can't tell anything; and what nobody could build may be solved when it is asked for.
func TestCoaxialAndLoose(t *testing.T) {
	sound := inline()
	sound.Gears[3].Seat = &Seat{Length: 18, Clearance: 0.03}
	if found := Validate(sound); len(found) > 0 { // from 85 to 100 mm the mainshaft runs inside the input shaft
		t.Errorf("found\n%s", all(found))
	}
	b := threeShafts()
	b.Gears[2].At, b.Shafts[2].Start = 90, 90-65
	if _, err := Solve(b, Load{}); err == nil {
		t.Error("two gears in one place are solved")
	}
	mustSolve(t, b, Load{Loose: true})
}

// Two bearings of tapered rollers hold a shaft as a pair; two of other kinds clamp it.
func TestShaftHeldTwice(t *testing.T) {
	for kind, want := range map[BearingType]int{TaperedRoller: 0, DeepGrooveBall: 1} {
		b := threeShafts()
		for j := range b.Shafts[0].Bearings {
			b.Shafts[0].Bearings[j].Type, b.Shafts[0].Bearings[j].Axial = kind, rigid
		}
		if found := Validate(b); len(found) != want {
			t.Errorf("%s: found\n%s", kind, all(found))
		}
	}
}

// One distance that suits none of the gears on it is told once, with the names of all.
func TestOneDistanceIsToldOnce(t *testing.T) {
	b := threeShafts()
	b.Gears = append(b.Gears, Gear{Name: "p3", Shaft: "in", At: 120, Teeth: 25, Face: 20}, Gear{Name: "w3", Shaft: "out", At: 120, Teeth: 35, Face: 20})
	more := b.Meshes[0]
	more.Name, more.Driver, more.Driven = "c", "p3", "w3"
	b.Meshes = append(b.Meshes, more)
	b.Shafts[1].Axis[0], b.Shafts[2].Axis[0] = 64, b.Shafts[2].Axis[0]-2 // 65.68 mm without shift
	found := Validate(b)
	if len(found) != 1 || found[0].Path != "meshes.a" || !strings.Contains(found[0].Detail, "would stand 65.68 mm apart without profile shift; the file says 64.00 mm") || !strings.Contains(found[0].Detail, "doesn't suit c either") {
		t.Errorf("found\n%s", all(found))
	}
}

package gearbox

import (
	"strings"
	"testing"
)

// A speed out of order is named; a file in no order, a reverse gear among the others, and two speeds are let be. Ratios are those of pairs of 60 and 60·ratio teeth
// in tenths.
func TestARatioOutOfOrder(t *testing.T) {
	for _, c := range []struct {
		name    string
		tenths  []int // of the ratios; negative over an idler; 0 = direct
		odd     string
		swapped bool
	}{
		{"falling", []int{40, 25, 15, 11, 8}, "", false},
		{"rising", []int{8, 11, 15, 25, 40}, "", false},
		{"falling to a direct speed and an overdrive", []int{40, 20, 0, 8}, "", false},
		{"reverse among them", []int{40, -38, 25, 15}, "", false},
		{"swapped in the middle", []int{40, 5, 15, 11, 8}, "b", true}, // 0.5 swapped is 2.0
		{"the first is the odd one", []int{5, 25, 15, 11}, "a", false},
		{"the last is the odd one", []int{40, 25, 15, 50}, "d", false},
		{"in no order", []int{11, 40, 8, 25, 15}, "", false},
		{"two speeds", []int{11, 40}, "", false},
		{"two alike", []int{40, 25, 25, 11}, "", false},
	} {
		b := &Box{Input: Port{Shaft: "in"}, Output: Port{Shaft: "out"}, Shafts: []Shaft{{Name: "in"}, {Name: "out"}}}
		for i, r := range c.tenths {
			name := string(rune('a' + i))
			if r == 0 {
				b.Speeds = append(b.Speeds, Speed{Name: name, Direct: true})
				continue
			}
			b.Gears = append(b.Gears, Gear{Name: name + "1", Teeth: 600}, Gear{Name: name + "i", Teeth: 300}, Gear{Name: name + "2", Teeth: 60 * max(r, -r)})
			if r < 0 {
				b.Meshes = append(b.Meshes, Mesh{Name: name, Driver: name + "1", Driven: name + "2"})
				b.Speeds = append(b.Speeds, Speed{Name: name, Path: []string{name}})
				continue
			}
			// Over an idler, so that most speeds turn the way of the direct one.
			b.Meshes = append(b.Meshes, Mesh{Name: name + "i", Driver: name + "1", Driven: name + "i"}, Mesh{Name: name, Driver: name + "i", Driven: name + "2"})
			b.Speeds = append(b.Speeds, Speed{Name: name, Path: []string{name + "i", name}})
		}
		p := &prepared{box: b, mesh: map[string]int{}, pairs: make([]pair, len(b.Meshes))}
		for i, m := range b.Meshes {
			p.mesh[m.Name] = i
			for k, name := range []string{m.Driver, m.Driven} {
				for g := range b.Gears {
					if b.Gears[g].Name == name {
						p.pairs[i].gears[k] = g
					}
				}
			}
		}
		p.checkRatios()
		switch {
		case c.odd == "" && len(p.found) > 0, c.odd != "" && (len(p.found) != 1 || p.found[0].Path != "speeds."+c.odd):
			t.Errorf("%s: want %q, found\n%s", c.name, c.odd, all(p.found))
		case c.odd != "" && strings.Contains(p.found[0].Detail, "the other way round") != c.swapped:
			t.Errorf("%s: %s", c.name, p.found[0].Detail)
		}
	}
}

// A mainshaft written from the wrong end would put its thick end into the hole of the input shaft; and a limit of the slope that only a self-aligning bearing has is
// asked about elsewhere.
func TestSpigotsAndSlopes(t *testing.T) {
	b := inline()
	b.Gears[3].Seat = &Seat{Length: 18, Clearance: 0.03}
	b.Shafts[1].Sections = []Section{{80, 35, 0}, {120, 40, 0}, {20, 24, 0}}
	b.Shafts[0].Sections[1].Bore = 26
	if found := all(Validate(b)); !strings.Contains(found, `shafts.main.sections: sections from the wrong end. On shaft "main" the spigot at bearing "pilot" is thicker than the hole in shaft "input".`) {
		t.Errorf("found\n%s", found)
	}
	b.Shafts[1].Sections = []Section{{20, 24, 0}, {120, 40, 0}, {80, 35, 0}}
	if found := Validate(b); len(found) > 0 {
		t.Errorf("found\n%s", all(found))
	}
	b.Shafts[1].Sections[0].Outer = 26.5
	if found := all(Validate(b)); !strings.Contains(found, `shaft "main" is 26.5 mm thick, but the hole in shaft "input" in which it turns is 26 mm wide there`) {
		t.Errorf("found\n%s", found)
	}
	b.Shafts[1].Sections[0].Outer = 24
	inside := 70.
	b.Gears[3].EngagesAt = &inside
	if found := all(Validate(b)); !strings.Contains(found, `gears.third.engages_at: a hub inside a gear. The hub sits at 70 mm of shaft "main", but there is gear "third", with face and seat from 66 to 84 mm.`) {
		t.Errorf("found\n%s", found)
	}
	b.Gears[3].EngagesAt = nil
	b.Shafts[0].Bearings[1].SlopeLimit = 0.02
	if found := all(Validate(b)); !strings.Contains(found, `may slope by 20 mrad by the file; a deep groove ball bearing bears a few`) {
		t.Errorf("found\n%s", found)
	}
	b.Shafts[0].Bearings[1].Type = SelfAligning
	if found := Validate(b); len(found) > 0 {
		t.Errorf("found\n%s", all(found))
	}
}

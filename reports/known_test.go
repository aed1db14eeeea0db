package reports_test

import (
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Pairs of boxes that differ in one thing, and the sentence about the torque of their limit. The words are the only true
// ones: a direction only where every dimension that differs goes that way, a number only where it differs alone.
func TestSentencesOfKnownAnswers(t *testing.T) {
	read := func(name string) *gearbox.Box {
		b, _, found := boxfile.ReadFile("../gearbox/study/testdata/" + name + ".yaml")
		if found.HasErrors() {
			t.Fatal(found)
		}
		return b
	}
	for _, w := range []struct {
		name   string
		change func(*gearbox.Box)
		cause  string // as the sentence names it; "none" = that torque is the same; "" = nothing is shared out
		words  string // among those on what differs
	}{
		{"spans", func(b *gearbox.Box) { b.Shafts[0].Bearings[1].At, b.Shafts[1].Bearings[1].At = 155, 155 },
			"increased by shorter spans ", "What differs in bearing span: input shaft and output shaft: span 170 → 140 mm"},
		{"one span", func(b *gearbox.Box) { b.Shafts[0].Bearings[1].At = 155 },
			" by the shorter span of the input shaft (170 → 140 mm) ", "What differs in bearing span: input shaft: span 170 → 140 mm"},
		{"spans of both directions", func(b *gearbox.Box) { b.Shafts[0].Bearings[1].At, b.Shafts[1].Bearings[1].At = 155, 190 },
			" by bearing span ", "output shaft: span 170 → 175 mm"},
		{"spans and positions", func(b *gearbox.Box) {
			b.Shafts[0].Bearings[1].At, b.Shafts[1].Bearings[1].At = 155, 155
			b.Gears[0].At, b.Gears[1].At = 75, 75
		}, "shorter spans, with gears moved along, ", "What differs in gear positions: pinion and wheel: place 60 → 75 mm"},
		{"one diameter", func(b *gearbox.Box) { b.Shafts[0].Sections[1].Outer = 30 },
			" by the thinner input shaft (section 2: 32 → 30 mm) ", "input shaft: section 2 diameter 32 → 30 mm"},
		{"one bore", func(b *gearbox.Box) { b.Shafts[0].Sections[1].Bore = 16 },
			" by the wider bore of the input shaft (section 2: 0 → 16 mm) ", "section 2 bore 0 → 16 mm"},
		{"three thicker, one thinner", func(b *gearbox.Box) {
			b.Shafts[0].Sections[0].Outer, b.Shafts[0].Sections[1].Outer = 28, 36
			b.Shafts[1].Sections[0].Outer, b.Shafts[1].Sections[1].Outer = 34, 34
		}, " by shaft sections, notches and joints ", "output shaft: section 2 diameter 38 → 34 mm"},
		{"all thicker", func(b *gearbox.Box) {
			b.Shafts[0].Sections[1].Outer, b.Shafts[1].Sections[0].Outer = 36, 34
		}, " by thicker shafts ", "output shaft: section 1 diameter 30 → 34 mm"},
		{"one face", func(b *gearbox.Box) { b.Gears[0].Face = 16 }, "reduced by the narrower face of pinion (20 → 16 mm) ", "What differs in face widths: pinion: face 20 → 16 mm"},
		{"steel", func(b *gearbox.Box) { b.Gears[0].Steel = "nitrided" },
			" by the steel of pinion (case-carburised → nitrided) ", "What differs in steel: pinion: case-carburised → nitrided."},
		{"housing", func(b *gearbox.Box) { b.Housing.Radial = 2e5 }, " by the softer housing (rigid → 200 N/µm) ", "What differs in housing: stiffness rigid → 200 N/µm"},
		{"efficiency", func(b *gearbox.Box) { b.Meshes[0].Efficiency = 0.9 }, "none", // behind the pinion
			"What differs in efficiency: mesh only pair: 1 → 0.9."},
		{"crowning", func(b *gearbox.Box) { b.Gears[0].Crowning = 0.01 }, " by the crowning of pinion (0 → 10 µm) ", "What differs in tooth geometry: pinion: crowning 0 → 10 µm."},
		{"two crownings", func(b *gearbox.Box) { b.Gears[0].Crowning, b.Gears[1].Crowning = 0.01, 0.01 },
			" by tooth geometry ", "pinion and wheel: crowning 0 → 10 µm"},
		{"one place", func(b *gearbox.Box) { b.Input.At = 6 }, "none", "What differs in gear positions: input: place 0 → 6 mm"},
		{"places of both gears", func(b *gearbox.Box) { b.Gears[0].At, b.Gears[1].At = 70, 70 }, " by gear positions ", "pinion and wheel: place 60 → 70 mm"},
		{"stiffness of a bearing", func(b *gearbox.Box) { b.Shafts[0].Bearings[0].Radial = 8e4 },
			" by the softer bearing left of the input shaft (rigid → 80 N/µm) ", "What differs in bearings and gear seats: bearing left of the input shaft: stiffness rigid → 80 N/µm"},
		{"a bearing of another type and stiffness", func(b *gearbox.Box) {
			b.Shafts[0].Bearings[0].Radial, b.Shafts[0].Bearings[0].Type = 8e4, gearbox.SelfAligning
		}, " by bearings and gear seats ", "stiffness rigid → 80 N/µm; bearing left of the input shaft: type deep groove ball → self-aligning."},
		{"sense of rotation", func(b *gearbox.Box) { b.Turns = -1 }, "none", "What differs in sense of rotation: clockwise → anticlockwise."},
		{"what is unknown", func(b *gearbox.Box) { b.Unknown = map[string]bool{"housing": true} },
			"none", "What differs in housing: stiffness rigid → unknown."},
		{"sections of one shaft", func(b *gearbox.Box) { b.Shafts[0].Sections[0].Outer, b.Shafts[0].Sections[1].Outer = 28, 36 },
			" by the thicker input shaft ", "What differs in shaft sections, notches and joints: input shaft: section 2 diameter 32 → 36 mm, section 1 diameter 25 → 28 mm"},
		{"a hub", func(b *gearbox.Box) { hub := 40.0; b.Gears[1].EngagesAt = &hub }, "none",
			"What differs in gear positions: wheel: hub (engages_at) not given → 40 mm."},
		{"a start", func(b *gearbox.Box) {
			s := &b.Shafts[1]
			s.Start, s.Bearings[0].At, s.Bearings[1].At, b.Gears[1].At, b.Output.At = 4, 11, 181, 56, 196
		}, " by the start of the output shaft (0 → 4 mm) ", "What differs in shaft sections, notches and joints: output shaft: start 0 → 4 mm"},
		{"name alone", func(b *gearbox.Box) { b.Gears[0].Name, b.Meshes[0].Driver = "gear B", "gear B" },
			"", "Under another name: pinion is called gear B in other."},
		{"sections cut", func(b *gearbox.Box) {
			b.Shafts[0].Sections = slices.Insert(b.Shafts[0].Sections, 0, gearbox.Section{Length: 20, Outer: 25})
			b.Shafts[0].Sections[1].Length = 30
		}, "", "Nothing does: in what both boxes have, all dimensions are the same."},
		{"a speed more", func(b *gearbox.Box) {
			b.Speeds = append(b.Speeds, gearbox.Speed{Name: "spare", Path: b.Speeds[0].Path})
		},
			"", "Not shared out: spare (Pair long has no speed of that name)"},
	} {
		var results []*gearbox.Result
		for i, b := range []*gearbox.Box{read("pair-long"), read("pair-long")} {
			if i == 1 {
				b.Name = "other"
				w.change(b)
			}
			r, err := gearbox.Solve(b, gearbox.Load{})
			if err != nil {
				t.Fatal(w.name, err)
			}
			results = append(results, r)
		}
		c, err := study.SplitCauses(t.Context(), results[0], results[1], gearbox.Load{}, nil)
		if err != nil {
			t.Fatal(w.name, err)
		}
		if text := view.SameBlank(strings.Join(view.SplitWords(&study.Split{Causes: c}, view.Options{}), "\n")); !strings.Contains(text, w.words) {
			t.Errorf("%s: %q isn't in\n%s", w.name, w.words, text)
		}
		if w.cause == "" {
			if c.Mixed > 0 {
				t.Errorf("%s: something is shared out", w.name)
			}
			continue
		}
		text := view.SameBlank(view.SplitSentence(c, 0, 0, view.Options{}))
		if w.cause == "none" {
			if text != "" {
				t.Errorf("%s: %q is said of what is the same", w.name, text)
			}
			continue
		}
		if lower := strings.ReplaceAll(strings.ReplaceAll(text, "Increased", "increased"), "Reduced", "reduced"); !strings.Contains(lower, w.cause) {
			t.Errorf("%s: %q isn't in %q", w.name, w.cause, text)
		}
	}
}

package reports_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"layshaft/gearbox"
	"layshaft/reports/text"

	"pgregory.net/rapid"
)

// A drawing of any box fits 80 columns, names every shaft and gear, and says every sense in words.
func TestDrawingFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[a-z]{1,60}`)
		number := rapid.Float64Range(-400, 400)
		a := &gearbox.Arrangement{Box: &gearbox.Box{Name: name.Draw(t, "box"), Turns: 1}}
		for range rapid.IntRange(1, 5).Draw(t, "shafts") {
			from := number.Draw(t, "from")
			s := gearbox.ShaftPlace{Name: name.Draw(t, "shaft"), Y: number.Draw(t, "y"), Z: number.Draw(t, "z"),
				From: from, To: from + rapid.Float64Range(1, 300).Draw(t, "length"), Axis: len(a.Shafts),
				Known: rapid.Bool().Draw(t, "known")}
			s.Bearings = []gearbox.BearingPlace{{X: s.From}, {X: s.To, Pilot: true}}
			a.Box.Shafts = append(a.Box.Shafts, gearbox.Shaft{Name: s.Name,
				Sections: []gearbox.Section{{Length: s.To - s.From, Outer: 30}}})
			a.Shafts = append(a.Shafts, s)
		}
		for range rapid.IntRange(0, 8).Draw(t, "gears") {
			at := number.Draw(t, "at")
			a.Gears = append(a.Gears, gearbox.GearPlace{Name: name.Draw(t, "gear"), Shaft: rapid.IntRange(0,
				len(a.Shafts)-1).Draw(t, "on"), Teeth: 20, From: at, To: at + rapid.Float64Range(0.1, 40).Draw(t, "face"),
				Pitch: rapid.Float64Range(0, 250).Draw(t, "pitch"),
				Hand: rapid.SampledFrom([]gearbox.Hand{gearbox.Spur, gearbox.Left, gearbox.Right}).Draw(t,
					"hand"), Free: rapid.Bool().Draw(t, "free"), Hub: at})
		}
		m := gearbox.Moves{Name: "1st", Ratio: 2, Sense: map[int]float64{0: 1}}
		if n := len(a.Gears); n > 1 {
			m.Steps = []gearbox.MeshMove{{Name: "first", Gears: [2]int{0, n - 1}, Sense: [2]float64{1, -1}, Thrust: [2]float64{-5, 5}}}
			a.Box.Meshes = []gearbox.Mesh{{Name: "first", Driver: a.Gears[0].Name, Driven: a.Gears[n-1].Name}}
		}
		a.Moves = []gearbox.Moves{m, {Name: "top", Ratio: 1, Direct: true, Sense: map[int]float64{0: 1}}}
		var b bytes.Buffer
		if err := text.Drawing(&b, a, text.Options{}); err != nil {
			t.Fatal(err)
		}
		said := b.String()
		for line := range strings.Lines(said) {
			if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
				t.Errorf("a line of %d columns: %s", n, line)
			}
		}
		if strings.Contains(said, "↻") && !strings.Contains(said, "clockwise") {
			t.Error("a sense is shown by its sign alone")
		}
		if strings.Contains(said, "\x1b") {
			t.Error("a drawing is coloured")
		}
	})
	if text.Drawing(nil, nil, text.Options{}) == nil {
		t.Error("nothing is drawn")
	}
}

package reports_test

import (
	"bytes"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

var ansi = regexp.MustCompile("\x1b\\[[0-9;]*m")

// Numbers of any size, and such as a gearbox may have in inner units.
var (
	anySize        = rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0}))
	ordinarySize   = rapid.OneOf(rapid.Float64Range(-0.099, 0.099), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), 0, 9}))
	ordinaryTorque = rapid.OneOf(rapid.Float64Range(1e4, 999e3), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1)}))
)

// anyBox is a box with any names and notes.
func anyBox(t *rapid.T, size, torque, ratio *rapid.Generator[float64]) *gearbox.Result {
	factor, share := size, size
	if size == ordinarySize {
		factor, share = rapid.Float64Range(1, 30), rapid.Float64Range(0, 1)
	}
	name := rapid.OneOf(rapid.String(), rapid.StringMatching(`[a-z ]{0,120}`))
	notes := rapid.SliceOfN(name, 0, 6)
	unit := rapid.Float64Range(0, 0.01)
	r := &gearbox.Result{
		Box:    &gearbox.Box{Name: name.Draw(t, "box"), About: name.Draw(t, "about"), Limits: gearbox.Limits{Reserve: unit.Draw(t, "reserve")}},
		Torque: torque.Draw(t, "torque"), Notes: notes.Draw(t, "box notes"),
	}
	for range rapid.IntRange(0, 3).Draw(t, "speeds") {
		s := gearbox.SpeedResult{Name: name.Draw(t, "speed"), Ratio: ratio.Draw(t, "ratio"), Notes: notes.Draw(t, "speed notes")}
		for range rapid.IntRange(0, 4).Draw(t, "margins") {
			m := gearbox.Margin{
				Kind: rapid.SampledFrom(gearbox.Kinds()).Draw(t, "kind"), Item: name.Draw(t, "item"), Demand: size.Draw(t, "demand"),
				Limit: flat(size.Draw(t, "limit"), name.Draw(t, "source")), Level: material.Level(rapid.IntRange(0, 2).Draw(t, "level")),
				Allowable: [3]float64{torque.Draw(t, "low"), torque.Draw(t, "typical"), torque.Draw(t, "high")}, Margin: size.Draw(t, "margin"),
				State: gearbox.State(rapid.IntRange(0, 2).Draw(t, "state")), Notes: notes.Draw(t, "notes"),
			}
			sort := rapid.IntRange(0, 4).Draw(t, "sort")
			switch {
			case m.Kind.Reference():
				s.References = append(s.References, m)
			case sort == 3:
				s.Guides = append(s.Guides, m)
			case sort == 4:
				m.Turns = size.Draw(t, "turns")
				s.Endless = append(s.Endless, m)
			default:
				m.Own, m.Mesh, m.Step = rapid.Bool().Draw(t, "own"), name.Draw(t, "in mesh"), name.Draw(t, "step")
				m.Bad = [2]float64{torque.Draw(t, "from"), torque.Draw(t, "to")}
				s.Margins = append(s.Margins, m)
			}
		}
		if rapid.Bool().Draw(t, "transmits") {
			come := func() gearbox.Reached { return gearbox.Reached{Torque: torque.Draw(t, "comes"), By: gearbox.ByClutch} }
			s.Reach = &gearbox.Reach{Shocked: torque.Draw(t, "peak"), Clutch: torque.Draw(t, "clutch"), Tyres: torque.Draw(t, "tyres"), Peak: come(), Running: come(), First: len(s.Margins) - 1}
			for i := range s.Margins {
				m := &s.Margins[i]
				m.Comes, m.Reached, m.ReachedState = torque.Draw(t, "comes to it"), size.Draw(t, "reached"), gearbox.Thin
			}
		}
		for range rapid.IntRange(0, 2).Draw(t, "meshes") {
			s.Meshes = append(s.Meshes, gearbox.MeshResult{
				Name: name.Draw(t, "mesh"), Tilt: size.Draw(t, "tilt"), TiltInAction: size.Draw(t, "in action"), FaceGap: size.Draw(t, "gap"),
				Separation: size.Draw(t, "separation"), Notes: notes.Draw(t, "mesh notes"), LineLoad: []float64{size.Draw(t, "left load"), size.Draw(t, "right load")},
				FaceFactor: factor.Draw(t, "face factor"), InContact: share.Draw(t, "in contact"),
				Causes: []gearbox.Cause{{Name: name.Draw(t, "cause"), Tilt: size.Draw(t, "part of tilt")}, {Name: "case", Tilt: size.Draw(t, "tilt of the case")}},
			})
			if rapid.Bool().Draw(t, "rated") {
				m := &s.Meshes[len(s.Meshes)-1]
				m.Geometry = pair()
				m.Rating, m.Peak, m.AGMA = rating(size.Draw(t, "root"), size.Draw(t, "flank")), rating(1, 1), agma()
				m.Rating.ZH, m.Rating.Tangential = size.Draw(t, "factor"), size.Draw(t, "force")
			}
		}
		for range rapid.IntRange(0, 2).Draw(t, "shafts") {
			sh := shaft(name.Draw(t, "shaft"), size.Draw(t, "deflection"), unit.Draw(t, "left"), size.Draw(t, "right"), notes.Draw(t, "shaft notes")...)
			sh.MaxAt = size.Draw(t, "at")
			sh.Bearings[0].Name = name.Draw(t, "bearing")
			s.Shafts = append(s.Shafts, sh)
		}
		r.Speeds = append(r.Speeds, s)
	}
	return r
}

// Whatever the names and numbers: no line is too long, and nothing but colours of our own drives the terminal.
func TestTextFitsAndIsHarmless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ordinary := rapid.Bool().Draw(t, "ordinary")
		size, torque, ratio := anySize, anySize, anySize
		if ordinary {
			size, torque, ratio = ordinarySize, ordinaryTorque, rapid.Float64Range(-20, -0.1)
		}
		results := []*gearbox.Result{anyBox(t, size, torque, ratio), anyBox(t, size, torque, ratio), anyBox(t, size, torque, ratio)}[:rapid.IntRange(1, 3).Draw(t, "boxes")]
		o := text.Options{
			Colour: rapid.Bool().Draw(t, "colour"), Width: rapid.SampledFrom([]int{0, 1, 80, 91, 100, 300}).Draw(t, "width"),
			Options: view.Options{Units: rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.US}).Draw(t, "units")},
		}
		most := 100
		if ordinary && o.Width == 1 {
			most = 80
		} else if ordinary && o.Width > 1 {
			most = min(o.Width, 100)
		}
		c := &study.Comparison{Results: results}
		for i := range results[0].Speeds {
			row := study.SpeedRow{Name: results[0].Speeds[i].Name, Boxes: make([]*gearbox.SpeedResult, len(results))}
			row.Boxes[0] = &results[0].Speeds[i]
			d := study.Difference{Name: rapid.String().Draw(t, "quantity"), Dimension: quantity.Torque}
			for range results {
				d.Values = append(d.Values, torque.Draw(t, "value"))
				d.Change = append(d.Change, size.Draw(t, "change"))
			}
			row.Items = []study.Difference{d}
			c.Speeds = append(c.Speeds, row)
		}
		if rapid.Bool().Draw(t, "shared out") {
			shared(c)
		}
		if rapid.Bool().Draw(t, "weighed") {
			withCase(c)
		}
		for name, report := range map[string]func(io.Writer) error{
			"check":   func(w io.Writer) error { return text.Check(w, results, o) },
			"compare": func(w io.Writer) error { return text.Compare(w, c, o) },
			"weigh":   func(w io.Writer) error { return text.Weigh(w, weighed(results...), o) },
		} {
			var b bytes.Buffer
			if err := report(&b); err != nil {
				t.Fatal(err)
			}
			text := b.String()
			if o.Colour {
				text = ansi.ReplaceAllString(text, "")
			}
			for _, line := range strings.Split(text, "\n") {
				if n := utf8.RuneCountInString(line); n > most {
					t.Fatalf("%s: %d columns, at most %d wanted: %q", name, n, most, line)
				}
				for _, r := range line {
					if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
						t.Fatalf("%s: control character %U in %q", name, r, line)
					}
				}
			}
		}
	})
}

// Colour adds to the text and changes nothing else: the same characters stand in the same columns.
func TestColourChangesNoColumn(t *testing.T) {
	var plain, coloured bytes.Buffer
	results := []*gearbox.Result{birch(), alder()}
	if err := text.Check(&plain, results, text.Options{}); err != nil {
		t.Fatal(err)
	}
	if err := text.Check(&coloured, results, text.Options{Colour: true}); err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(plain.Bytes(), []byte("\x1b")) {
		t.Error("a report without colour holds an escape")
	}
	if bytes.Count(coloured.Bytes(), []byte("\x1b")) < 12 {
		t.Error("a report with colour holds too few escapes")
	}
	if d := difference(plain.String(), ansi.ReplaceAllString(coloured.String(), "")); d != "" {
		t.Error(d)
	}
}

// Every remark of every part is listed once: what is to be checked before what was assumed, each numbered in the order in which its mark appears from top to bottom,
// and what several meshes share named with all of them.
func TestRemarksAreNumberedInOrderOfAppearance(t *testing.T) {
	r := birch()
	r.Notes, r.Checks, r.Speeds[0].Checks = []string{"A box note."}, []string{"The third distance is a guess."}, nil
	other := alder()
	other.Checks, other.Speeds[0].Checks = nil, nil
	r.Speeds[1].Notes = []string{"A note of the second speed.", "A box note."}
	r.Speeds[1].Margins[0].Notes = []string{"A note of a limit."}
	second := r.Speeds[0].Meshes[0]
	second.Name, second.Checks, second.Notes, second.Scuffing = "second", []string{"the driver is undercut."}, []string{"The oil is a guess.", "The mate is not."}, nil
	r.Speeds[1].Meshes = []gearbox.MeshResult{second}
	var b bytes.Buffer
	if err := text.Check(&b, []*gearbox.Result{r, other}, text.Options{}); err != nil {
		t.Fatal(err)
	}
	body, list, found := strings.Cut(b.String(), "\nCheck these\n")
	if !found {
		t.Fatal("no list of what to check")
	}
	list, _, _ = strings.Cut(list, "\nLimits come from\n")
	want := []string{
		"  1  The third distance is a guess.", "  2  Mesh first: carries on 96 % of its face only.", "  3  Meshes first and second: the driver is undercut.",
		"", "Assumptions",
		"  4  A box note.", "  5  The steel is not known: its band is wide.", "  6  A note of the second speed.", "  7  A note of a limit.",
		"  8  The notch at the circlip is left out.", "  9  The shoulder at 70 mm is sharp.", " 10  Mesh first: first pinion: the Lewis table ends at 12 teeth.",
		" 11  Meshes first and second: The oil is a guess.", " 12  Mesh second: The mate is not.", " 13  Mesh first: scuffing: viscosity is estimated.",
		" 14  Without a table for this tooth.", " 15  The case is rigid.", " 16  Gear bodies are solid.", "",
	}
	lines := strings.Split(list, "\n")
	for i, line := range lines {
		if len(lines) != len(want) || strings.TrimSpace(line) != strings.TrimSpace(want[i]) {
			t.Fatalf("the remarks are\n%s\nwant\n%s", list, strings.Join(want, "\n"))
		}
	}
	for _, marked := range []string{"── Birch¹,⁴ ─", "1st⁵", "2nd⁴,⁶", "flank fatigue of second pinion⁷", "yield of output shaft, section 2⁸", "output⁹", "first²,³,¹⁰,¹¹", "second³,¹¹,¹²", "first¹³", "tooth root of first pinion, AGMA¹⁴", "── Alder¹⁵,¹⁶ ─"} {
		if !strings.Contains(body, marked) {
			t.Errorf("%q is nowhere in\n%s", marked, body)
		}
	}
}

func TestCautionStandsInEveryText(t *testing.T) {
	words := strings.Join(strings.Fields(view.Caution()), " ")
	for name, report := range map[string]func(io.Writer) error{
		"check":     func(w io.Writer) error { return text.Check(w, []*gearbox.Result{birch()}, text.Options{}) },
		"compare":   func(w io.Writer) error { return text.Compare(w, compared(alder(), birch()), text.Options{}) },
		"materials": func(w io.Writer) error { return text.Materials(w, steels(), text.Options{}) },
	} {
		var b bytes.Buffer
		if err := report(&b); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.Join(strings.Fields(b.String()), " "), words) {
			t.Errorf("%s: the caution is missing", name)
		}
	}
}

package boxfile

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

// findings are those of the reader and, when it gives a box, those of the box as a whole.
func findings(text string) diag.List {
	box, list := Read("box.yaml", []byte(text))
	if box != nil {
		list = append(list, gearbox.Validate(box)...)
	}
	return list
}

// One slip of the pen in the starter each. It would make the box look better, or at least no worse, if nobody said a word; the finding stands at the
// value and tells the numbers.
func TestSlipsInTheStarter(t *testing.T) {
	for _, c := range []struct {
		name      string
		old, with string
		severity  diag.Severity
		at        string // text at which the finding stands
		words     string
	}{
		{"a shaft ten times too thick", "outer: 32 mm,", "outer: 320 mm,", diag.Error, "320 mm,", "axes 67.5 mm apart, so that they overlap by 111.5 mm"},
		{"a shaft through its pinion", "outer: 32 mm,", "outer: 45 mm,", diag.Warning, "45 mm,", "root diameter of 38.75 mm"},
		{"a shaft as thick as its pinion", "outer: 32 mm,", "outer: 50 mm,", diag.Error, "50 mm,", "no teeth would be left"},
		{"a bearing inside a gear", "right: {at: 105 mm, type: cylindrical roller, radial", "right: {at: 58 mm, type: cylindrical roller, radial", diag.Warning, "58 mm,", `gear "pinion" runs from 49 to 71 mm`},
		{"a face longer than the shaft", "face: 20 mm}", "face: 200 mm}", diag.Error, "200 mm}", "80 mm of it have no shaft"},
		{"a gear half in the air", "wheel:  {shaft: output, at: 60 mm", "wheel:  {shaft: output, at: 118 mm", diag.Error, "118 mm", "8 mm of it have no shaft"},
		{"inches for millimetres along the shaft", "{length: 60 mm, outer: 32 mm", "{length: 60 in, outer: 32 mm", diag.Warning, "60 in", "nothing sits beyond 105 mm"},
		{"newtons per millimetre", "radial: 250 N/µm}", "radial: 250 N/mm}", diag.Warning, "250 N/mm", "Were N/µm meant?"},
		{"a tolerance in inches", "distance: 67.5 mm", "distance: 67.5 mm ± 1 in", diag.Warning, "67.5 mm ± 1 in", "The ± is 25.4 mm on 67.5 mm, 38 %"},
		{"a distance too short", "distance: 67.5 mm", "distance: 65.8 mm", diag.Warning, "only pair:", "would stand 67.50 mm apart without profile shift; the file says 65.80 mm"},
		{"a distance too long", "distance: 67.5 mm", "distance: 77.5 mm", diag.Error, "only pair:", `Mesh "only pair": 18 and 36 teeth of module 2.5 mm would stand 67.50 mm apart without profile shift; the file says 77.50 mm (+14.8 %)`},
		{"teeth of another pair", "teeth: 36", "teeth: 33", diag.Warning, "only pair:", "would stand 63.75 mm apart"},
		{"two gears in one place", "meshes:", "  spare: {shaft: output, at: 70 mm, teeth: 20, face: 20 mm}\nmeshes:", diag.Error, "70 mm, teeth", "overlap by 10 mm"},
		{"a face of 0.4 modules", "face: 20 mm}", "face: 1 mm}", diag.Warning, "1 mm}", `The face of gear "wheel" is 1 mm, 0.4 times its module of 2.5 mm`},
		{"revs with a digit too many", "revs: 4000 rpm", "revs: 40000 rpm", diag.Warning, "40000 rpm", "100 to 20000 rpm is usual for an input shaft. A tenth of it would be usual"},
		{"a shaft held twice", "right: {at: 105 mm, type: cylindrical roller}", "right: {at: 105 mm, type: cylindrical roller, axial: fixed}", diag.Warning, "fixed}", `Bearings "left" and "right" of shaft "output" are both fixed`},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(string(Starter()), c.old, c.with, 1)
			if text == string(Starter()) {
				t.Fatalf("the starter has no %q", c.old)
			}
			// The place of the words is looked for behind the place of the change, where it is the first.
			from := strings.Index(string(Starter()), c.old)
			if strings.HasSuffix(c.at, ":") {
				from = strings.Index(text, "\nmeshes:")
			}
			offset := from + strings.Index(text[from:], c.at)
			line := 1 + strings.Count(text[:offset], "\n")
			column := 1 + len([]rune(text[strings.LastIndexByte(text[:offset], '\n')+1:offset]))
			var seen strings.Builder
			for _, d := range findings(text) {
				if d.Severity == c.severity && d.Place.Line == line && d.Place.Column == column && strings.Contains(d.Detail, c.words) {
					return
				}
				fmt.Fprintf(&seen, "%d:%d %s. %s\n", d.Place.Line, d.Place.Column, d.Summary, d.Detail)
			}
			t.Errorf("want %d:%d: …%s…; found\n%s", line, column, c.words, seen.String())
		})
	}
}

// Slips in a whole gearbox, the demonstration box Alder: each is found at its place, with what is usual and what to do.
func TestSlipsInAWholeBox(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "alder.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	whole := string(data)
	if list := findings(whole); len(list) > 0 {
		t.Fatal(list)
	}
	turn := func(shaft string) func(string) string { // the sections of a shaft written from the other end
		return func(text string) string {
			lines := strings.Split(text, "\n")
			at := slices.Index(lines, "  "+shaft+":")
			from := at + slices.Index(lines[at:], "    sections:") + 1
			to := from + slices.IndexFunc(lines[from:], func(s string) bool { return !strings.HasPrefix(s, "      - ") })
			slices.Reverse(lines[from:to])
			return strings.Join(lines, "\n")
		}
	}
	put := func(pairs ...string) func(string) string {
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(whole, pairs[i]) {
				t.Fatalf("no %q", pairs[i])
			}
		}
		return strings.NewReplacer(pairs...).Replace
	}
	for _, c := range []struct {
		name     string
		slip     func(string) string
		severity diag.Severity
		path     string
		words    []string
	}{
		{"teeth of one speed swapped", put("teeth: 18, face: 23 mm, shift: 0.26", "teeth: 36, face: 23 mm", "teeth: 36, face: 22 mm", "teeth: 18, face: 22 mm"), diag.Warning, "speeds.2nd",
			[]string{"a ratio of 1.938, beside 12.22 of \"1st\" and 5.425 of \"3rd\"", `the teeth of "second pinion" and "second wheel" the other way round it would be 7.75`}},
		{"teeth of the last speed swapped", put("teeth: 33, face: 19 mm, shift: 0.00", "teeth: 20, face: 19 mm", "teeth: 27, face: 19 mm", "teeth: 40, face: 19 mm"), diag.Warning, "speeds.5th",
			[]string{`beside 4.142 of "4th"`}},
		{"a pair fast on both shafts", put(", seat: {length: 24 mm, clearance: 0.03 mm, stiffness: 400 N/µm}, dogs: *dogs", ""), diag.Warning, "meshes.second",
			[]string{`no gear of mesh "second" turn freely`, `Which of its gears turns freely until it is engaged, "second pinion" or "second wheel"?`, "seat: unknown"}},
		{"a seat that rattles", put("clearance: 0.03 mm, stiffness: 400 N/µm}, dogs: *dogs}\n  third", "clearance: 0.4 mm, stiffness: 400 N/µm}, dogs: *dogs}\n  third"), diag.Warning, "gears.second wheel.seat.clearance",
			[]string{"0.005 to 0.15 mm is usual for the play of a gear on its shaft"}},
		{"sections of the input shaft from the wrong end", turn("input"), diag.Warning, "shafts.input.sections",
			[]string{`the section under gear "first pinion" is thicker than its root`, "With the sections in the opposite order all of it would fit"}},
		{"sections of the output shaft from the wrong end", turn("output"), diag.Warning, "shafts.output.sections",
			[]string{`gears "first wheel"`, "sit astride steps"}},
		{"all limits and strengths a thousand times too large", put("limits:\n", "limits:\n  bearing_slope: 1 rad\n"), diag.Error, "limits.bearing_slope",
			[]string{"to 300 mrad", "A thousandth of it would be usual"}},
		{"a hub on another shaft's scale", put("shaft: output, at: 70 mm, teeth: 41,", "shaft: output, at: 70 mm, engages_at: 830 mm, teeth: 41,"), diag.Error, "gears.first wheel.engages_at",
			[]string{`The hub of gear "first wheel" sits at 830 mm, but shaft "output" runs from 0 to 252 mm`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := c.slip(whole)
			if text == whole {
				t.Fatal("nothing was changed")
			}
			var seen strings.Builder
			for _, d := range findings(text) {
				missing := slices.ContainsFunc(c.words, func(w string) bool { return !strings.Contains(d.Detail, w) })
				if d.Severity == c.severity && d.Path == c.path && d.Place.Line > 1 && !missing {
					return
				}
				fmt.Fprintf(&seen, "%d:%d %s %s. %s\n", d.Place.Line, d.Place.Column, d.Path, d.Summary, d.Detail)
			}
			t.Errorf("found\n%s", seen.String())
		})
	}
}

// A distance in inches with a slip in it: the teeth still go together, by shifts that nobody would cut.
func TestUnlikelyDistance(t *testing.T) {
	text := string(Starter())
	for old, with := range map[string]string{"teeth: 18": "teeth: 15", "teeth: 36": "teeth: 58", "module: 2.5 mm ": "diametral_pitch: 8 /in\n    helix: 15°\n    hand: right\n", "distance: 67.5 mm": "distance: 4.6 in", "outer: 32 mm,": "outer: 30 mm,"} {
		changed := strings.Replace(text, old, with, 1)
		if changed == text {
			t.Fatalf("the starter has no %q", old)
		}
		text = changed
	}
	// 73/(2·8) in/cos 15° = 119.98 mm; 4.6 in = 116.84 mm; cos β = 73/(2·8·4.6), β = 7.3°.
	for _, d := range findings(text) {
		if d.Severity == diag.Warning && d.Place.Line > 0 && strings.Contains(d.Detail, `15 and 58 teeth of pitch 8 and helix 15° would stand 119.98 mm apart without profile shift; the file says 116.84 mm`) &&
			strings.Contains(d.Detail, "add up to -0.89") && strings.Contains(d.Detail, "by the distance alone a helix of about 7.3° would fit") {
			return
		}
	}
	t.Errorf("found %v", findings(text))
}

// What is measured every day is asked about by nobody.
func TestTolerancesThatAreLetBe(t *testing.T) {
	for _, text := range []string{
		"face: 22 ± 0.1 mm|face: 22 ± 0.4 mm",
		"{shaft: input, at: 60 mm|{shaft: input, at: 60 ± 1 mm",
		"output, at: 120 mm}|output, at: 20 ± 0.8 mm}",
		"face: 20 mm}|face: 20 mm, thinning: 0.05 ± 0.01 mm}",
		"module: 2.5 mm|module: 2.5 ± 0.05 mm",
	} {
		old, with, _ := strings.Cut(text, "|")
		changed := strings.Replace(string(Starter()), old, with, 1)
		if list := findings(changed); changed == string(Starter()) || len(list) > 0 {
			t.Errorf("%s: %v", with, list)
		}
	}
}

// The boxes of testdata can be built.
func TestBoxesCanBeBuilt(t *testing.T) {
	for _, file := range []string{"five-speed.yaml", "inline.yaml", "reverse.yaml"} {
		for _, d := range gearbox.Validate(read(t, file)) {
			if d.Summary != "no rating by ISO 6336" { // their steels don't tell
				t.Errorf("%s: %s. %s", file, d.Summary, d.Detail)
			}
		}
	}
	if list := gearbox.Validate(starterBox(t)); len(list) > 0 {
		t.Errorf("starter: %v", list)
	}
}

func starterBox(t *testing.T) *gearbox.Box {
	t.Helper()
	box, list := Read("starter.yaml", Starter())
	if box == nil {
		t.Fatal(list)
	}
	return box
}

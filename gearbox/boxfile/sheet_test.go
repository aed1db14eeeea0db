package boxfile

import (
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/gauge"
)

// found reads a sheet and lets the gauge look at it.
func found(t *testing.T, name string, data []byte) (*Sheet, *gauge.Result) {
	t.Helper()
	sheet, list := ReadSheet(name, data)
	if len(list) > 0 {
		t.Fatal(list)
	}
	result, err := gauge.Solve(sheet.Set)
	if err != nil {
		t.Fatal(err)
	}
	return sheet, result
}

// The sheet of Birch was made from its box file, with noise: the gauge finds every value of that file again within its ±.
func TestBirchFromTheBench(t *testing.T) {
	data, err := os.ReadFile("../../testdata/birch-bench.yaml")
	if err != nil {
		t.Fatal(err)
	}
	sheet, result := found(t, "birch-bench.yaml", data)
	text, list := sheet.Box(result)
	if list.HasErrors() {
		t.Fatal(list)
	}
	got, list := Read("made.yaml", text)
	if len(list) > 0 {
		t.Errorf("%v\n%s", list, text)
	}
	source, err := os.ReadFile("../../testdata/birch.yaml")
	if err != nil {
		t.Fatal(err)
	}
	want, list := Read("birch.yaml", source)
	if len(list) > 0 {
		t.Fatal(list)
	}
	within := func(path string, got, want float64, tolerances map[string]float64) {
		if room := tolerances[path]; !(math.Abs(got-want) <= room+1e-12) {
			t.Errorf("%s: %.6g ± %.2g, want %.6g", path, got, room, want)
		}
	}
	for i, m := range want.Meshes {
		g := got.Meshes[i]
		if g.Module != m.Module || math.Abs(g.Rack.PressureAngle-m.Rack.PressureAngle) > 1e-12 || g.Hand != m.Hand || g.Name != m.Name || g.Driver != m.Driver || g.Driven != m.Driven {
			t.Errorf("mesh %s: %+v, want %+v", m.Name, g, m)
		}
		within("meshes."+m.Name+".helix", g.Helix, m.Helix, got.Tolerances)
		if got.Tolerances["meshes."+m.Name+".helix"] == 0 {
			t.Errorf("the helix of %s has no ±", m.Name)
		}
	}
	for i, g := range want.Gears {
		if g.Shift != nil {
			if got.Gears[i].Shift == nil {
				t.Errorf("%s has no shift", g.Name)
				continue
			}
			within("gears."+g.Name+".shift", *got.Gears[i].Shift, *g.Shift, got.Tolerances)
		}
		if got.Tolerances["gears."+g.Name+".shift"] == 0 || got.Tolerances["gears."+g.Name+".tip_diameter"] == 0 || got.Tolerances["gears."+g.Name+".thinning"] == 0 {
			t.Errorf("a derived value of %s has no ±", g.Name)
		}
		within("gears."+g.Name+".at", got.Gears[i].At, g.At, got.Tolerances)
		within("gears."+g.Name+".face", got.Gears[i].Face, g.Face, got.Tolerances)
	}
	for i, c := range want.Centres {
		within("centres."+[]string{"0", "1", "2"}[i]+".distance", got.Centres[i].Distance, c.Distance, got.Tolerances)
	}
	// All else is taken over as it is.
	if !reflect.DeepEqual(got.Shafts, want.Shafts) || !reflect.DeepEqual(got.Speeds,
		want.Speeds) || !reflect.DeepEqual(got.Duty, want.Duty) {
		t.Error("shafts, speeds or duty differ")
	}
	solved, err := gearbox.Solve(got, gearbox.Load{})
	if err != nil {
		t.Fatalf("the box made can't be solved: %v", err)
	}
	if len(solved.Warnings) > 0 || len(solved.Measured) < 24 {
		t.Errorf("the box made is asked about: %v; %d sizes measured", solved.Warnings, len(solved.Measured))
	}
}

// The sheet to start from is sound, makes a box file, and finds the gears it was made of: module 2.5 mm, 20°, 22°.
func TestBenchToStartFrom(t *testing.T) {
	sheet, result := found(t, "bench.yaml", Bench())
	best := result.Groups[0].Labels[0]
	if best.Module != 2.5 || math.Abs(best.PressureAngle-20*degree) > 1e-9 || math.Abs(best.Helix.Value-22*degree) > 1e-9 {
		t.Errorf("found module %g, %.4g°, %.4g°", best.Module, best.PressureAngle/degree, best.Helix.Value/degree)
	}
	text, list := sheet.Box(result)
	if len(list) > 0 {
		t.Fatal(list)
	}
	box, list := Read("made.yaml", text)
	if len(list) > 0 {
		t.Fatalf("%v\n%s", list, text)
	}
	if _, err := gearbox.Solve(box, gearbox.Load{}); err != nil {
		t.Error(err)
	}
}

// A mistake in a sheet, and where it is found.
func TestSheetMistakes(t *testing.T) {
	for _, m := range []struct{ old, with, place, says string }{
		{"teeth: 17", "teeth: 17.5", "x.yaml:14:12", "not a whole number"},
		{"teeth: 17", "tooth: 17", "x.yaml:14:5", `unknown key "tooth"`},
		{"51.83 mm by caliper", "51.83 by caliper", "x.yaml:20:10", "missing unit"},
		{"51.83 mm by caliper", "51.83 mm by calliper", "x.yaml:20:22", "unknown instrument"},
		{"51.83 mm by caliper", "51,83 mm", "x.yaml:20:10", "a comma in a number"},
		{"{3: 19.52 mm by micrometer, 4:", "{3: 19.52 mm by micrometer, 11:", "x.yaml:24:5", "a span over too many teeth"},
		{"{3: 19.52", "{3.5: 19.52", "x.yaml:24:13", "value out of range"},
		{"{3: 19.52", "{three: 19.52", "x.yaml:24:13", "not a key here"},
		{"4.5 mm: 52.98", "4.5: 52.98", "x.yaml:26:13", "not a key here"},
		{"    driven: wheel", "    driven: weel", "x.yaml:49:13", `unknown gear "weel"`},
		{"    hand: left", "    hand: right", "x.yaml:47:3", "two gears of one hand"},
		{"    # spur: yes  ", "    spur: yes    ", "x.yaml:16:11", "a helix of straight teeth"},
		{"bench: 1", "bench: 2", "x.yaml:9:8", "unknown version"},
		{"bench: 1", "layshaft: 1", "x.yaml:9:1", "a box file"},
		{"name: Single pair\n", "", "x.yaml:9:1", `missing key "name"`},
	} {
		text := string(Bench())
		if !strings.Contains(text, m.old) {
			t.Fatalf("the sheet does not hold %q", m.old)
		}
		sheet, list := ReadSheet("x.yaml", []byte(strings.Replace(text, m.old, m.with, 1)))
		if sheet != nil || !list.HasErrors() {
			t.Errorf("%q is not refused", m.with)
			continue
		}
		found := false
		for _, d := range list {
			found = found || d.Place.String() == m.place && d.Summary == m.says
		}
		if !found {
			t.Errorf("%q: %v, want %s at %s", m.with, list, m.says, m.place)
		}
	}
}

// What is wrong with the box that is made is shown in the sheet.
func TestSheetMakesNoBox(t *testing.T) {
	for _, m := range []struct{ old, with, says, line string }{
		{"  output: {shaft: output, at: 120 mm}", "  output: {shaft: outptu, at: 120 mm}", `unknown shaft "outptu"`,
			"  output: {shaft: outptu"},
		{"axial: fixed}\n        right: {at: 105 mm, type: cylindrical roller}\n  speeds",
			"axial: fixd}\n        right: {at: 105 mm, type: cylindrical roller}\n  speeds", `unknown word "fixd"`, "axial: fixd"},
		{"box: {at: 60 mm}\n\n", "box: {at: 60 mm, teeth: 12}\n\n", "said twice", "teeth: 12"},
		{"    shaft: input\n", "", `missing key "shaft"`, "  pinion:"},
	} {
		text := strings.Replace(string(Bench()), m.old, m.with, 1)
		if text == string(Bench()) {
			t.Fatalf("the sheet does not hold %q", m.old)
		}
		sheet, list := ReadSheet("x.yaml", []byte(text))
		if list.HasErrors() {
			t.Fatal(list)
		}
		result, err := gauge.Solve(sheet.Set)
		if err != nil {
			t.Fatal(err)
		}
		_, list = sheet.Box(result)
		lines := strings.Split(text, "\n")
		ok := false
		for _, d := range list {
			ok = ok || d.Summary == m.says && d.Place.Line > 0 && strings.Contains(lines[d.Place.Line-1], m.line)
		}
		if !ok {
			t.Errorf("%q: %v", m.with, list)
		}
	}
}

// FuzzReadSheet: whatever the bytes, ReadSheet gives a sheet that the gauge takes or refuses in words, and a box file
// that can be read, or an error with a place in the file.
func FuzzReadSheet(f *testing.F) {
	f.Add(Bench())
	f.Add([]byte("bench: 1\nname: x\ngears:\n  a: {teeth: 20, spur: yes, spans: {3: 19 mm, 4: 26.4 mm}, tip: 55 mm}\n"))
	f.Add([]byte("bench: 1\nname: x\ngears:\n  a: &a {teeth: 21, balls: {4 mm: 60 mm, 5 mm: 63 mm}, box: {at: 1 mm}}\n  b: *a\npairs:\n  p: {driver: a, driven: b}\nbox: {x: [1, {y: 2}]}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		sheet, list := ReadSheet("x.yaml", data)
		if (sheet == nil) != list.HasErrors() {
			t.Fatalf("sheet %v, findings %v", sheet, list)
		}
		for _, d := range list {
			if d.Place.File != "x.yaml" || d.Summary == "" || d.Severity == diag.Error && d.Place.Line == 0 && len(data) <= largest && d.Summary != "empty file" {
				t.Errorf("finding without a place: %+v", d)
			}
		}
		if sheet == nil || len(sheet.Set.Gears) > 6 {
			return
		}
		result, err := gauge.Solve(sheet.Set)
		if err != nil {
			return
		}
		for _, g := range result.Groups {
			for _, l := range g.Labels {
				for _, r := range l.Residual {
					if math.IsNaN(r.Made) {
						t.Errorf("%s is made NaN", r.Reading.Name())
					}
				}
			}
		}
		if text, list := sheet.Box(result); !list.HasErrors() {
			if _, list := Read("made.yaml", text); list.HasErrors() {
				t.Errorf("the box made can't be read: %v\n%s", list, text)
			}
		}
	})
}

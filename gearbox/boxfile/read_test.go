package boxfile

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/involute"
	"layshaft/material"
)

// read is the box in a file of testdata, which must be without a finding.
func read(t testing.TB, name string) *gearbox.Box {
	t.Helper()
	box, data, list := ReadFile(filepath.Join("testdata", name))
	if len(list) > 0 {
		var out strings.Builder
		_ = list.Render(&out, map[string][]byte{filepath.Join("testdata", name): data}, diag.Style{})
		t.Fatal(out.String())
	}
	return box
}

func TestStarterReadsWithoutAFinding(t *testing.T) {
	box, list := Read("starter.yaml", Starter())
	if len(list) > 0 {
		t.Fatal(list.Error())
	}
	if len(box.Shafts) != 2 || len(box.Gears) != 2 || len(box.Meshes) != 1 || len(box.Speeds) != 1 || box.Duty == nil || box.Revs == 0 || box.Shock <= 1 {
		t.Errorf("%+v", box)
	}
	Starter()[0] = 'x'
	if Starter()[0] == 'x' {
		t.Error("a caller can change the starter for others")
	}
}

// What the comments of the starter propose can be written just so.
func TestHintsOfTheStarterCanBeRead(t *testing.T) {
	text := string(Starter())
	hint := func(pattern string) string {
		found := regexp.MustCompile(pattern).FindString(text)
		if found == "" {
			t.Fatalf("no hint like %s", pattern)
		}
		return found
	}
	seat, elements, flank := hint(`seat: \{.*\}`), hint(`elements: \{.*\}`), hint(`crowning: .*`)
	text = strings.Replace(text, "# clutch: ", "clutch: ", 1)
	text = strings.Replace(text, "# car: ", "car: ", 1)
	text = strings.Replace(text, "teeth: 18,", "teeth: 18, "+seat+", "+flank+",", 1)
	text = strings.Replace(text, "type: deep groove ball,", "type: deep groove ball, "+elements+",", 1)
	box, list := Read("starter.yaml", []byte(text))
	if len(list) > 0 {
		t.Fatal(list.Error())
	}
	if g := box.Gears[0]; box.Clutch == nil || box.Car == nil || g.Seat == nil || g.Crowning == 0 || g.Grade == 0 || box.Shafts[0].Bearings[0].Elements == nil {
		t.Errorf("%+v", box)
	}
}

func TestFiveSpeedsWithAFinalDrive(t *testing.T) {
	box := read(t, "five-speed.yaml")
	inf := math.Inf(1)
	if box.Name != "Alder" || box.Torque != 170000 || box.Turns != 1 || box.Input != (gearbox.Port{Shaft: "input"}) || box.Output != (gearbox.Port{Shaft: "diff", At: 60}) {
		t.Errorf("%q %v %v %+v %+v", box.Name, box.Torque, box.Turns, box.Input, box.Output)
	}
	names := func(n int, name func(int) string) (all []string) {
		for i := range n {
			all = append(all, name(i))
		}
		return all
	}
	if got := names(len(box.Shafts), func(i int) string { return box.Shafts[i].Name }); !slices.Equal(got, []string{"input", "output", "idler", "diff"}) {
		t.Errorf("the shafts are not in the order of the file: %v", got)
	}
	if got := names(len(box.Speeds), func(i int) string { return box.Speeds[i].Name }); !slices.Equal(got, []string{"1st", "2nd", "3rd", "4th", "5th", "reverse"}) {
		t.Errorf("the speeds are not in the order of the file: %v", got)
	}
	wantShaft := gearbox.Shaft{
		Name: "input", Axis: &[2]float64{0, 0}, Steel: "club steel",
		Sections: []gearbox.Section{{Length: 30, Outer: 25, Bore: 10}, {Length: 180, Outer: 26, Bore: 10}, {Length: 30, Outer: 25}},
		Bearings: []gearbox.Bearing{
			{Name: "left", Type: gearbox.DeepGrooveBall, At: 12, Radial: inf, Axial: inf},
			{Name: "right", Type: gearbox.CylindricalRoller, At: 228, Radial: 250000, Tilt: 15e6, SlopeLimit: 0.001},
		},
	}
	if !reflect.DeepEqual(box.Shafts[0], wantShaft) {
		t.Errorf("got  %+v\nwant %+v", box.Shafts[0], wantShaft)
	}
	if s := box.Shafts[1]; s.Start != 2 || s.Axis != nil || s.Sections[0].Outer != 38.1 || s.Bearings[0].Axial != 100000 || s.Bearings[1].Tilt != inf {
		t.Errorf("%+v", s)
	}
	if s := box.Shafts[2]; s.Steel != "case-carburised" {
		t.Errorf("the idler shaft is of %q", s.Steel)
	}
	if want := (gearbox.Centre{Between: [2]string{"output", "diff"}, Distance: 139.5}); box.Centres[1] != want {
		t.Errorf("%+v", box.Centres[1])
	}
	if box.Side["diff"] != 1 || box.Side["idler"] != -1 || len(box.Side) != 2 {
		t.Errorf("%v", box.Side)
	}
	shift := 0.35
	if want := (gearbox.Gear{Name: "1st pinion", Shaft: "input", At: 48, Teeth: 14, Face: 24, Shift: &shift, TipDiameter: 42.7, RootDiameter: 31.8,
		Spans: []gearbox.SpanRead{{Teeth: 2, Length: 12.1, Within: 0.02}, {Teeth: 3, Length: 19.48}}, Steel: "club steel"}); !reflect.DeepEqual(box.Gears[0], want) {
		t.Errorf("%+v", box.Gears[0])
	}
	if g := box.Gears[1]; g.Steel != "case-carburised" || g.Shift != nil || g.TipDiameter != 0 {
		t.Errorf("%+v", g)
	}
	const degree = math.Pi / 180
	m := box.Meshes[0]
	if math.Abs(m.Helix-15.5*degree) > 1e-15 || math.Abs(m.Rack.PressureAngle-20*degree) > 1e-15 {
		t.Errorf("%v %v", m.Helix, m.Rack.PressureAngle)
	}
	m.Helix, m.Rack = 0, involute.Rack{}
	if want := (gearbox.Mesh{Name: "first", Driver: "1st pinion", Driven: "1st wheel", Module: 2.5, Hand: gearbox.Right, Efficiency: 0.985, TiltLimit: 0.001}); m != want {
		t.Errorf("%+v", m)
	}
	if m := box.Meshes[2]; m.Module != 2.54 || m.Efficiency != 1 || m.Rack != involute.StandardRack {
		t.Errorf("%+v", m)
	}
	if m := box.Meshes[5]; m.Hand != gearbox.Spur || m.Helix != 0 {
		t.Errorf("%+v", m)
	}
	if m := box.Meshes[7]; m.Rack.TipRadius != 0.3 || m.Rack.Protuberance != 0.02 || m.Rack.PressureAngle != involute.StandardRack.PressureAngle {
		t.Errorf("%+v", m)
	}
	if s := box.Speeds[5]; !slices.Equal(s.Path, []string{"reverse in", "reverse out", "final"}) || s.Direct {
		t.Errorf("%+v", s)
	}
	limits := gearbox.Limits{Strength: material.Typical, Reserve: 0.15, Tilt: gearbox.VehiclePractice, MeshTilt: 0.001, Separation: 0.13, Slope: 0.001}
	if box.Limits != limits {
		t.Errorf("%+v", box.Limits)
	}
	const source = "hardness test, invented"
	steel := box.Steels[0]
	steel.ElasticSource = ""
	if want := (material.Steel{
		Name: "club steel", Title: "club steel", About: source, Young: 206000, Poisson: 0.3, Density: 7.85e-6,
		Yield:   material.Band{Low: 600, Typical: 735, High: 1000, Source: source},
		Tensile: material.Band{Low: 1000, Typical: 1000, High: 1000, Source: source},
		Contact: material.Band{Low: 1300, Typical: 1450, High: 1500, Source: source},
	}); steel != want {
		t.Errorf("got  %+v\nwant %+v", steel, want)
	}
}

func TestSteelWithUsualElasticity(t *testing.T) {
	steel := read(t, "five-speed.yaml").Steels[1]
	if steel.Young != 206000 || steel.Poisson != 0.3 || steel.Density != 7.85e-6 || steel.Tensile.Typical != 900 || steel.Yield.Low != 700 || steel.Yield.High != 700 || steel.Yield.Source == "" {
		t.Errorf("%+v", steel)
	}
}

func TestInlineBoxWithAPilotAndADirectSpeed(t *testing.T) {
	box := read(t, "inline.yaml")
	if box.Turns != -1 || math.Abs(box.Torque-271163.6) > 0.05 { // 200 × 1.355818 N·m
		t.Errorf("%v %v", box.Turns, box.Torque)
	}
	if box.Shock != 1 || box.Revs != 0 || box.Duty != nil || box.Oil.Viscosity != 0 || box.Housing != (gearbox.Housing{}) || box.Shafts[0].Pair != nil || box.Gears[0].Seat != nil {
		t.Errorf("something that nobody gave: %+v", box)
	}
	if p := box.Shafts[1].Bearings[0]; p.In != "input" || p.InAt != 78 || p.At != 8 || p.Type != gearbox.NeedleRoller {
		t.Errorf("%+v", p)
	}
	if s := box.Speeds[1]; s.Name != "top" || !s.Direct || s.Path != nil {
		t.Errorf("%+v", s)
	}
	if want := (gearbox.Limits{Reserve: 0.10}); box.Limits != want || box.Limits.Strength != material.Low {
		t.Errorf("%+v", box.Limits)
	}
	if g := box.Gears[0]; g.Steel != "" {
		t.Errorf("a steel that nobody named: %q", g.Steel)
	}
}

func TestReverseThroughAnIdler(t *testing.T) {
	box := read(t, "reverse.yaml")
	if box.Torque != 80000 || box.Gears[0].Teeth != 16 || box.Gears[1].Teeth != 24 || box.Gears[2].Face != 16 {
		t.Errorf("%+v", box)
	}
	// An alias stands for all of the shaft, and each shaft is one of its own.
	a, c := box.Shafts[0], box.Shafts[2]
	if c.Name != "c" || !reflect.DeepEqual(a.Sections, c.Sections) || !reflect.DeepEqual(a.Bearings, c.Bearings) || &a.Sections[0] == &c.Sections[0] {
		t.Errorf("%+v", c)
	}
}

// A box whose speeds are all direct needs neither gears nor meshes.
func TestDirectAlone(t *testing.T) {
	text := plain[:strings.Index(plain, "gears:")] + "speeds:\n  top: direct\n"
	text = strings.Replace(text, "output: {shaft: output,", "output: {shaft: input,", 1)
	if _, list := Read("x.yaml", []byte(text)); len(list) > 0 {
		t.Error(list.Error())
	}
}

func TestPlacesPointAtTheValues(t *testing.T) {
	box := read(t, "five-speed.yaml")
	data, err := os.ReadFile(filepath.Join("testdata", "five-speed.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	lines := diag.Lines(data)
	for path, want := range map[string]string{
		"":                                 "layshaft",
		"name":                             "Alder",
		"input":                            "input",
		"input.torque":                     "170 N·m",
		"steels.club steel":                "club steel",
		"steels.club steel.yield":          "yield",
		"steels.club steel.yield.high":     "1000 MPa",
		"steels.club steel.tensile":        "1000 MPa",
		"shafts.input":                     "input",
		"shafts.input.axis.z":              "0 mm",
		"shafts.input.sections.2":          "{",
		"shafts.input.sections.1.outer":    "26.00 ± 0.02 mm",
		"shafts.input.bearings.right":      "right",
		"shafts.input.bearings.right.tilt": "15 kN·m/rad",
		"shafts.input.bearings.left.axial": "fixed",
		"centres.1.distance":               "139.5 mm",
		"centres.1.between.0":              "output",
		"side.idler":                       "negative",
		"gears.1st pinion.shift":           "0.35",
		"gears.1st pinion.teeth":           "14",
		"meshes.first.helix":               "15° 30′",
		"meshes.first.hand":                "right",
		"meshes.third.module":              "10 /in", // where the module comes from
		"meshes.final.rack":                "rack",
		"speeds.reverse.1":                 "reverse out",
		"limits.tilt_rule":                 "vehicle practice",
		"limits.reserve":                   "15 %",
	} {
		p, ok := box.Places[path]
		if !ok {
			t.Errorf("%q has no place", path)
			continue
		}
		line := []rune(lines[p.Line-1])
		if got := string(line[p.Column-1 : p.Column-1+p.Width]); got != want {
			t.Errorf("%q is at %q (line %d), want %q", path, got, p.Line, want)
		}
	}
	// A value that was left out is where the thing around it is.
	if p := box.Place("gears.2nd pinion.shift"); p != box.Places["gears.2nd pinion"] {
		t.Errorf("%+v", p)
	}
}

func TestTolerancesAreInInnerUnits(t *testing.T) {
	text := strings.NewReplacer("at: 40 mm\n", "at: 40 mm ± 50 µm\n", "module: 2.5 mm", "diametral_pitch: 10 ± 0.1 /in", "170 N·m", "170 ± 5 N·m").Replace(plain)
	box, list := Read("x.yaml", []byte(text))
	if list != nil {
		t.Fatal(list.Error())
	}
	want := map[string]float64{
		"gears.pinion.at":              0.05,
		"meshes.first.diametral_pitch": 0.1,
		"meshes.first.module":          0.0254, // m = 25.4/P, so dm = 25.4/P²·dP
		"input.torque":                 5000,
	}
	for path, v := range want {
		if math.Abs(box.Tolerances[path]-v) > 1e-12 {
			t.Errorf("%s: %v, want %v", path, box.Tolerances[path], v)
		}
	}
	if len(box.Tolerances) != len(want) {
		t.Errorf("%v", box.Tolerances)
	}
}

// All mistakes come out at once, in the order of the file.
func TestSeveralMistakesAtOnce(t *testing.T) {
	text := strings.NewReplacer("name: Alder", "nmae: Alder", "at: 6 mm", "at: 6", "teeth: 14", "teeth: 017", "driven: wheel", "driven: weel").Replace(plain)
	box, list := Read("alder.yaml", []byte(text))
	var got []string
	for _, d := range list {
		got = append(got, fmt.Sprintf("%d:%d %s [%s]", d.Place.Line, d.Place.Column, d.Summary, d.Path))
	}
	want := []string{
		`2:1 unknown key "nmae" [nmae]`,
		`3:27 missing unit [input.at]`,
		`24:12 a leading zero [gears.pinion.teeth]`,
		`28:35 unknown gear "weel" [meshes.first.driven]`,
	}
	if !slices.Equal(got, want) || box != nil {
		t.Errorf("got  %q\nwant %q\nbox %v", got, want, box)
	}
}

func TestSteelsAreChecked(t *testing.T) {
	for _, c := range []struct{ old, with, want string }{
		{"teeth: 14", "teeth: 14\n    steel: case-carbursied", `unknown steel "case-carbursied"`},
		{"shafts:\n", "steels: {case-carburised: {yield: 1 GPa, tensile: 1 GPa, contact: 1 GPa}}\nshafts:\n", "a name already taken"},
	} {
		_, list := Read("x.yaml", []byte(strings.Replace(plain, c.old, c.with, 1)))
		if len(list) != 1 || list[0].Summary != c.want {
			t.Errorf("%s: %v", c.with, list)
		}
	}
}

// Names are any text: what is done with them later must bear it.
func TestNamesAreAnyText(t *testing.T) {
	for _, name := range []string{"</script>", "a.b", "__f__(1)__f__", "ħ∂ 齿轮", "'", "1", "true", "{}", "<<", "~"} {
		text := strings.NewReplacer("wheel: {", fmt.Sprintf("%q: {", name), "driven: wheel", fmt.Sprintf("driven: %q", name)).Replace(plain)
		box, list := Read("x.yaml", []byte(text))
		if list != nil || box.Gears[1].Name != name || box.Meshes[0].Driven != name {
			t.Errorf("%q: %v", name, list)
		}
	}
}

// Names with points in them must not make one thing's keys pass for another's.
func TestPointsInNames(t *testing.T) {
	text := strings.NewReplacer(", module: 2.5 mm}", "}\n  first.module: {driver: pinion, driven: wheel, module: 2.5 mm}", "[first]", "[first.module]").Replace(plain)
	if _, list := Read("x.yaml", []byte(text)); len(list) != 1 || list[0].Summary != `missing key "module"` {
		t.Errorf("%v", list)
	}
}

func TestAliasBombIsRefused(t *testing.T) {
	var bomb strings.Builder
	bomb.WriteString("layshaft: 1\nname: bomb\nx0: &x0 [{between: [a, b], distance: 1 mm}]\n")
	for i := range 9 {
		fmt.Fprintf(&bomb, "x%d: &x%d [*x%d%s]\n", i+1, i+1, i, strings.Repeat(fmt.Sprintf(", *x%d", i), 9))
	}
	bomb.WriteString("centres: *x9\n")
	// One alias deep is what the schema can follow: a list of many aliases, each a whole shaft.
	fmt.Fprintf(&bomb, "shafts:\n  a: &s {sections: &l [%s{length: 1 mm, outer: 1 mm}]}\n", strings.Repeat("{length: 1 mm, outer: 1 mm}, ", 100))
	for i := range 200 {
		fmt.Fprintf(&bomb, "  s%d: *s\n", i)
	}
	box, list := Read("bomb.yaml", []byte(bomb.String()))
	if box != nil || len(list) != 1 || list[0].Summary != "too many values" {
		t.Errorf("%d findings, first %v", len(list), list[:min(len(list), 3)])
	}
}

func TestFilesTooLargeOrAbsent(t *testing.T) {
	large := append([]byte(plain), []byte(strings.Repeat("# filler\n", 1<<20/9+1))...)
	path := filepath.Join(t.TempDir(), "large.yaml")
	if err := os.WriteFile(path, large, 0o600); err != nil {
		t.Fatal(err)
	}
	if box, _, list := ReadFile(path); box != nil || len(list) != 1 || list[0].Summary != "file too large" || list[0].Place.File != path {
		t.Errorf("%v", list)
	}
	if box, list := Read("just.yaml", large[:1<<20]); box == nil {
		t.Errorf("a file of exactly 1 MB is refused: %v", list)
	}
	absent := filepath.Join(t.TempDir(), "absent.yaml")
	if box, data, list := ReadFile(absent); box != nil || data != nil || len(list) != 1 || list[0].Summary != "can't read absent.yaml" || !strings.HasPrefix(list[0].Detail, "No such file") {
		t.Errorf("%v", list)
	}
	if _, _, list := ReadFile(t.TempDir()); !list.HasErrors() {
		t.Error("a folder was read as a box file")
	}
}

func TestByteOrderMarkAndCarriageReturns(t *testing.T) {
	windows := "\uFEFF" + strings.ReplaceAll(strings.Replace(plain, "teeth: 14", "teeth: 4", 1), "\n", "\r\n")
	_, list := Read("x.yaml", []byte(windows))
	if len(list) != 1 || list[0].Place != (diag.Place{File: "x.yaml", Line: 24, Column: 12, Width: 1}) {
		t.Errorf("%v", list)
	}
}

func BenchmarkRead(b *testing.B) {
	data, err := os.ReadFile(filepath.Join("testdata", "five-speed.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, list := Read("five-speed.yaml", data); len(list) > 0 {
			b.Fatal(list)
		}
	}
}

package boxfile

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

// shelf is a folder with the demonstration boxes and others, by their texts.
func shelf(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"alder.yaml", "birch.yaml"} {
		data, err := os.ReadFile(filepath.Join("../../testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func readIn(t *testing.T, dir, name string) (*gearbox.Box, diag.List) {
	t.Helper()
	box, _, list := ReadFile(filepath.Join(dir, name))
	return box, list
}

// composedOf is the box of a text beside the demonstration boxes.
func composedOf(t *testing.T, text string) *gearbox.Box {
	t.Helper()
	box, list := readIn(t, shelf(t, map[string]string{"mix.yaml": "layshaft: 1\nname: Mix\n" + text}), "mix.yaml")
	if box == nil {
		t.Fatalf("%s: %v", text, list)
	}
	return box
}

func demo(t *testing.T, name string) *gearbox.Box {
	t.Helper()
	box, list := readIn(t, "../../testdata", name)
	if box == nil {
		t.Fatal(list)
	}
	return box
}

// same holds the parts of two boxes against each other, in whatever order they stand.
func same(t *testing.T, what string, got, want *gearbox.Box) {
	t.Helper()
	byName := func(b *gearbox.Box) map[string]any {
		all := map[string]any{}
		for _, s := range b.Shafts {
			all["shaft "+s.Name] = s
		}
		for _, g := range b.Gears {
			all["gear "+g.Name] = g
		}
		for _, m := range b.Meshes {
			all["mesh "+m.Name] = m
		}
		for _, s := range b.Speeds {
			all["speed "+s.Name] = s
		}
		all["centres"], all["side"], all["steels"], all["input"], all["output"], all["duty"] = b.Centres, b.Side, b.Steels, b.Input, b.Output, b.Duty
		return all
	}
	g, w := byName(got), byName(want)
	for name := range w {
		if !reflect.DeepEqual(g[name], w[name]) {
			t.Errorf("%s: %s is %+v, want %+v", what, name, g[name], w[name])
		}
	}
	if len(g) != len(w) {
		t.Errorf("%s: %d parts, want %d", what, len(g), len(w))
	}
}

func TestABaseAloneIsThatBox(t *testing.T) {
	box := composedOf(t, "base: alder.yaml\n")
	same(t, "base", box, demo(t, "alder.yaml"))
	if box.Name != "Mix" || len(box.Evidence) != 0 || box.Weighed.Box != 0 {
		t.Errorf("name %q, history %v, weighed %v: these are the base's own", box.Name, box.Evidence, box.Weighed)
	}
}

func TestEverythingFromOneDonorIsThatDonor(t *testing.T) {
	birch := demo(t, "birch.yaml")
	got := composedOf(t, "base: alder.yaml\ntake:\n  - {from: birch.yaml, shafts: [input, output, diff], case: yes}\n")
	got.Input, got.Output = birch.Input, birch.Output // where torque enters stays at its place in the box
	same(t, "all shafts", got, birch)
}

// A pair goes where its gears sat; the same written out by hand.
func TestAPairTaken(t *testing.T) {
	want := demo(t, "alder.yaml")
	birch := demo(t, "birch.yaml")
	for i := range want.Gears {
		for _, g := range birch.Gears {
			if g.Name == want.Gears[i].Name && strings.HasPrefix(g.Name, "first") {
				g.At = want.Gears[i].At
				want.Gears[i] = g
			}
		}
	}
	got := composedOf(t, "base: alder.yaml\ntake:\n  - {from: birch.yaml, pairs: [first]}\n")
	same(t, "pair", got, want)
	// The pinion and the wheel one by one, from two files, in either order.
	for _, text := range []string{
		"  - {from: birch.yaml, gears: [first pinion]}\n  - {from: ./birch.yaml, gears: [first wheel]}\n",
		"  - {from: ./birch.yaml, gears: [first wheel]}\n  - {from: birch.yaml, gears: [first pinion]}\n",
	} {
		same(t, "gears", composedOf(t, "base: alder.yaml\ntake:\n"+text), want)
	}
}

// The box's own values go before those of its base and of what was taken.
func TestOwnValuesOverride(t *testing.T) {
	got := composedOf(t, "base: alder.yaml\ntake:\n  - {from: birch.yaml, pairs: [first]}\ngears:\n  first wheel: {face: 23 mm, seat: {clearance: 0.05 mm}}\ndrop: [speeds.5th, duty]\n")
	for _, g := range got.Gears {
		if g.Name == "first wheel" && (g.Face != 23 || g.Seat.Clearance != 0.05 || g.Seat.Length != 27 || g.At != 70) {
			t.Errorf("%+v %+v", g, g.Seat)
		}
	}
	if len(got.Speeds) != 4 || got.Duty != nil {
		t.Errorf("%d speeds, duty %v", len(got.Speeds), got.Duty)
	}
}

func shaftOf(b *gearbox.Box, name string) gearbox.Shaft {
	for _, s := range b.Shafts {
		if s.Name == name {
			return s
		}
	}
	return gearbox.Shaft{}
}

// placesOf are where everything on a shaft sits in the box, mm.
func placesOf(b *gearbox.Box, shaft string) map[string]float64 {
	s := shaftOf(b, shaft)
	all := map[string]float64{}
	for _, br := range s.Bearings {
		all["bearing "+br.Name] = s.Start + br.At
	}
	for _, n := range s.Notches {
		all["notch "+n.Name] = s.Start + n.At
	}
	for _, j := range s.Joints {
		all["joint "+j.Name] = s.Start + j.At
	}
	for _, g := range b.Gears {
		if g.Shaft == shaft {
			all["gear "+g.Name] = s.Start + g.At
		}
	}
	if b.Output.Shaft == shaft {
		all["output"] = s.Start + b.Output.At
	}
	return all
}

func samePlaces(t *testing.T, what string, got, want map[string]float64) {
	t.Helper()
	for name, at := range want {
		if math.Abs(got[name]-at) > 1e-9 {
			t.Errorf("%s: %s at %g, want %g", what, name, got[name], at)
		}
	}
}

// A shaft whose gears and bearings stay leaves them where they are in the box, wherever its own left end lies.
func TestWhatStaysOnATakenShaft(t *testing.T) {
	got := composedOf(t, "base: alder.yaml\ntake:\n  - {from: birch.yaml, shafts: [diff], keep: [gears, bearings], shift: 2.5 mm}\n")
	samePlaces(t, "kept", placesOf(got, "diff"), placesOf(demo(t, "alder.yaml"), "diff"))
	if s := shaftOf(got, "diff"); s.Start != -9.5 || len(s.Sections) != 3 || s.Sections[0].Length != 26 {
		t.Errorf("%+v", s)
	}
	moved := composedOf(t, "base: alder.yaml\ntake:\n  - {from: alder.yaml, shafts: [output], shift: -3 mm}\n")
	want := placesOf(demo(t, "alder.yaml"), "output")
	for name := range want {
		want[name] -= 3
	}
	samePlaces(t, "shifted", placesOf(moved, "output"), want)
}

// Turned end for end a shaft is its mirror image, and turned again itself.
func TestATurnedShaft(t *testing.T) {
	alder := demo(t, "alder.yaml")
	dir := shelf(t, map[string]string{
		"once.yaml":  "layshaft: 1\nname: Once\nbase: alder.yaml\ntake:\n  - {from: alder.yaml, shafts: [output], turned: yes}\n",
		"twice.yaml": "layshaft: 1\nname: Twice\nbase: once.yaml\ntake:\n  - {from: once.yaml, shafts: [output], turned: yes}\n",
	})
	once, list := readIn(t, dir, "once.yaml")
	if once == nil {
		t.Fatal(list)
	}
	sum := 0.0
	for _, s := range shaftOf(alder, "output").Sections {
		sum += s.Length
	}
	want := placesOf(alder, "output")
	for name := range want {
		want[name] = sum - want[name]
	}
	samePlaces(t, "turned", placesOf(once, "output"), want)
	if first, last := shaftOf(once, "output").Sections[0], shaftOf(alder, "output").Sections[5]; first != last {
		t.Errorf("%+v, want %+v", first, last)
	}
	twice, list := readIn(t, dir, "twice.yaml")
	if twice == nil {
		t.Fatal(list)
	}
	same(t, "turned twice", twice, alder)
}

// A bearing goes where that of its name sits; a steel of its own comes with a part.
func TestBearingsAndSteels(t *testing.T) {
	got := composedOf(t, "base: alder.yaml\ntake:\n  - {from: birch.yaml, bearings: [output.left]}\n")
	if br := shaftOf(got, "output").Bearings[0]; br.At != 12 || br.Radial != 550e3 {
		t.Errorf("%+v", br)
	}
	dir := shelf(t, map[string]string{
		"hard.yaml": "layshaft: 1\nname: Hard\nbase: birch.yaml\nsteel: mine\nsteels:\n  mine: {yield: 900 MPa, tensile: 1100 MPa, contact: 1500 MPa, title: Mine}\n",
		"mix.yaml":  "layshaft: 1\nname: Mix\nbase: alder.yaml\ntake:\n  - {from: hard.yaml, gears: [third wheel]}\n",
	})
	mix, list := readIn(t, dir, "mix.yaml")
	if mix == nil {
		t.Skip("the schema of steels: ", list)
	}
	for _, g := range mix.Gears {
		if want := map[bool]string{true: "mine", false: "case-carburised"}[g.Name == "third wheel"]; g.Steel != want {
			t.Errorf("%s is of %s, want %s", g.Name, g.Steel, want)
		}
	}
}

// What is wrong is found, in the words of the file, at its line.
func TestWhatCannotBeComposed(t *testing.T) {
	odd := func(old, now string) string {
		data, err := os.ReadFile("../../testdata/birch.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(data), old) {
			t.Fatalf("no %q", old)
		}
		return strings.Replace(string(data), old, now, 1)
	}
	const mesh = "first:  {driver: first pinion, driven: first wheel, module: 2.75 mm, pressure_angle: 20°, helix: 20°, hand: right"
	files := map[string]string{
		"round.yaml":    "layshaft: 1\nname: R\nbase: mix.yaml\n",
		"coarse.yaml":   odd(mesh, "first:  {driver: first pinion, driven: first wheel, module: 3 mm, pressure_angle: 20°, helix: 20°, hand: right"),
		"left.yaml":     odd(mesh, "first:  {driver: first pinion, driven: first wheel, module: 2.75 mm, pressure_angle: 20°, helix: 20°, hand: left"),
		"near.yaml":     odd(mesh, "first:  {driver: first pinion, driven: first wheel, module: 2.7096 mm, pressure_angle: 17.5°, helix: 19.69°, hand: right"),
		"misspelt.yaml": odd("teeth: 41, face: 21 mm", "theeth: 41, face: 21 mm"),
	}
	for text, want := range map[string][]string{
		"base: oak.yaml\n":   {"mix.yaml:3:7", "can't read oak.yaml"},
		"base: .\n":          {"no plain file"},
		"base: round.yaml\n": {"stands on itself"},
		"base: alder.yaml\ntake:\n  - {from: birch.yaml, shafts: [outputt]}\n":                            {"mix.yaml:5:33", "no such part", `Did you mean "output"?`},
		"base: alder.yaml\ntake:\n  - {from: birch.yaml, gears: [first pinion, first pinion]}\n":          {"the same part twice"},
		"base: alder.yaml\ntake:\n  - {from: birch.yaml, gears: [first pinion], turned: yes}\n":           {"no shaft to move"},
		"base: alder.yaml\ntake:\n  - {from: birch.yaml, bearings: [output.middle]}\n":                    {"no such bearing"},
		"base: alder.yaml\ntake:\n  - {from: coarse.yaml, gears: [first pinion]}\n":                       {"don't run together", "base pitch +0.738 mm"},
		"base: alder.yaml\ntake:\n  - {from: left.yaml, gears: [first wheel]}\n":                          {"don't run together", "other hand"},
		"base: alder.yaml\ntake:\n  - {from: near.yaml, gears: [first wheel]}\n":                          {"flanks of another name", "give shift here"},
		"base: alder.yaml\ndrop: [speeds.6th]\n":                                                          {"nothing there"},
		"base: alder.yaml\ntake:\n  - {from: misspelt.yaml, pairs: [first]}\n":                            {"misspelt.yaml:", `unknown key "theeth"`},
		"base: alder.yaml\ngears:\n  first wheel: {face: -3 mm}\n":                                        {"mix.yaml:5:23", "value out of range"},
		"base: alder.yaml\ngears:\n  first wheel: {face: 23 mm}\ngears:\n  first pinion: {face: 23 mm}\n": {"the same key twice"},
		"base: alder.yaml\ntake:\n  - {from: birch.yaml, shafts: [output], keep: [gears]}\n":              {"bearings beside their places", `bearing "right" stands 44 mm to the left`, "keep: [bearings]"},
		"base: alder.yaml\ntake:\n  - {from: alder.yaml, shafts: [output], keep: [gears], shift: 4 mm}\n": {"With shift: -4 mm more"},
	} {
		all := map[string]string{"mix.yaml": "layshaft: 1\nname: Mix\n" + text}
		for name, text := range files {
			all[name] = text
		}
		_, list := readIn(t, shelf(t, all), "mix.yaml")
		for _, w := range want {
			if !strings.Contains(list.Error(), w) {
				t.Errorf("%s: found\n%s\nwant %q", text, list.Error(), w)
			}
		}
	}
}

// A composed file can be varied like any other.
func TestComposedFilesVary(t *testing.T) {
	dir := shelf(t, map[string]string{"mix.yaml": "layshaft: 1\nname: Mix\nbase: alder.yaml\ntake:\n  - {from: birch.yaml, pairs: [first]}\n"})
	path := filepath.Join(dir, "mix.yaml")
	data, list := Load(path)
	if list != nil {
		t.Fatal(list)
	}
	f, _, list := Open(path, data)
	if f == nil {
		t.Fatal(list)
	}
	c, list := f.Change("--set", 1, "gears.first wheel.face=19 mm")
	if list != nil {
		t.Fatal(list)
	}
	box, list := f.With(c)
	if box == nil {
		t.Fatal(list)
	}
	for _, g := range box.Gears {
		if g.Name == "first wheel" && g.Face != 19 {
			t.Errorf("%+v", g)
		}
	}
}

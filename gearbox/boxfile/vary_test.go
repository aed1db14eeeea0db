package boxfile

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

func demoFile(t testing.TB) (*File, *gearbox.Box, []byte) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "alder.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	f, box, list := Open("alder.yaml", data)
	if f == nil {
		t.Fatal(list)
	}
	return f, box, data
}

// vary reads the file with one change.
func vary(f *File, text string) (*gearbox.Box, diag.List) {
	c, list := f.Change("--what-if", 1, text)
	if list.HasErrors() {
		return nil, list
	}
	return f.With(c)
}

// A variation is the box that the file gives when the same value is written into it by hand.
func TestVariationIsTheFileWithTheValueInIt(t *testing.T) {
	f, plainBox, data := demoFile(t)
	for _, c := range []struct{ change, old, with string }{
		{"shafts.output.bearings.right.at=210 mm", "right: {at: 239 mm, type: deep groove ball, radial: 200 N/µm", "right: {at: 210 mm, type: deep groove ball, radial: 200 N/µm"},
		{"gears.first pinion.face=24 mm", "teeth: 13, face: 26 mm", "teeth: 13, face: 24 mm"},
		{" shafts.output.sections.4.outer = 2 in ", "outer: 54 mm, bore: 12 mm", "outer: 50.8 mm, bore: 12 mm"},
		{"input.torque=250 N·m", "torque: 190 N·m", "torque: 250 N·m"},
		{"duty.steps.6.torque=90 %", "torque: 80 %", "torque: 90 %"},
		{"speeds.1st.2=final", "zzz", "zzz"},
		{"gears.first wheel.lead_error=8 µm", "face: 25 mm, seat", "face: 25 mm, lead_error: 8 µm, seat"},
		{"housing.radial=300 N/µm", "oil: {", "housing: {radial: 300 N/µm}\noil: {"},
		{"gears.third wheel.peened=yes", "teeth: 35, face: 20 mm", "teeth: 35, face: 20 mm, peened: yes"},
		{"side.diff=negative", "diff: positive", "diff: negative"},
	} {
		got, list := vary(f, c.change)
		text := strings.Replace(string(data), c.old, c.with, 1)
		want, wantList := Read("alder.yaml", []byte(text))
		if got == nil || want == nil {
			t.Errorf("%s: %v; by hand: %v", c.change, list, wantList)
			continue
		}
		same := *got
		same.Places, same.Tolerances = want.Places, want.Tolerances
		if !reflect.DeepEqual(&same, want) {
			t.Errorf("%s gives another box than the file changed by hand", c.change)
		}
	}
	if again, _ := f.With(); !reflect.DeepEqual(again, plainBox) {
		t.Error("the file itself has changed")
	}
}

func TestChangesTogether(t *testing.T) {
	f, _, _ := demoFile(t)
	var all []Change
	for i, text := range []string{"housing.radial=300 N/µm", "shafts.output.sections.1.outer=40 mm", "shafts.output.sections.2.outer=44 mm"} {
		c, list := f.Change("--what-if", i+1, text)
		if list != nil {
			t.Fatal(list)
		}
		all = append(all, c)
	}
	box, list := f.With(all...)
	if box == nil {
		t.Fatal(list)
	}
	s := box.Shafts[1].Sections
	if box.Housing.Radial != 300e3 || s[0].Outer != 40 || s[1].Outer != 44 {
		t.Errorf("%v %+v", box.Housing, s)
	}
	if box, list := f.With(all[0], all[0]); box != nil || !strings.Contains(list.Error(), "changed twice") {
		t.Errorf("one value changed twice: %v, %v", box, list)
	}
}

// Every mistake points at what was typed.
func TestMistakesInChanges(t *testing.T) {
	f, _, _ := demoFile(t)
	for _, c := range []struct {
		text, says string
		column     int
		width      int
	}{
		{"shafts.ouput.length=2 mm", `Did you mean "output"`, 8, 5},
		{"gears.first pinion.fcae=24 mm", `Did you mean "face"`, 20, 4},
		{"inptu.torque=2 N·m", `Did you mean "input"`, 1, 5},
		{"gears.first pinion.face=24 N", "length", 28, 1},
		{"gears.first pinion.face = 24", "no unit", 27, 2},
		{"gears.first pinion.face=-24 mm", "from 0.01 mm", 25, 6},
		{"gears.first pinion.face=", "missing value", 1, 23},
		{"shafts.output.sections.7.outer=54 mm", "from 1 to 6", 24, 1},
		{"shafts.output.sections.0.outer=54 mm", "from 1 to 6", 24, 1},
		{"shafts.output.sections.x.outer=54 mm", "from 1 to 6", 24, 1},
		{"gears.first pinion=24 mm", "Expected: a map", 20, 5},
		{"gears.first pinion.face.x=24 mm", "nothing inside a value", 25, 1},
		{"gears.fourth wheel.shaft=inptu", `Did you mean "input"`, 26, 5},
		{"speeds.1st.1=frist", `Did you mean "first"`, 14, 5},
		{"side.dif=negative", `Did you mean "diff"`, 1, 8},
		{"250 N·m", "key path, =", 1, 7},
		{"=250 N·m", "key path before", 1, 1},
		{"limits.strength=typicl", `Did you mean "typical"`, 17, 6},
		{"duty.steps.1.turns.x=1", "nothing inside", 20, 1},
		{"centres.1.between.1=ouput", `Did you mean "output"`, 21, 5},
		{"name=A\x1b[0m", "control character", 7, 1},
	} {
		box, list := vary(f, c.text)
		if box != nil || len(list) == 0 {
			t.Errorf("%s: read as if it were right", c.text)
			continue
		}
		if d := list[0]; d.Place != (diag.Place{File: "--what-if", Line: 1, Column: c.column, Width: c.width}) || !strings.Contains(list.Error(), c.says) {
			t.Errorf("%s: at %+v:\n%v\nwant %q at column %d, width %d", c.text, d.Place, list, c.says, c.column, c.width)
		}
	}
	// What the change makes wrong elsewhere is told there, with where it comes from.
	box, list := vary(f, "shafts.output.sections.1.outer=11 mm")
	if box != nil || list[0].Place.File != "alder.yaml" || !strings.Contains(list[0].Detail, "comes with what was changed") {
		t.Errorf("%v", list)
	}
	// The geometry points there too.
	moved, list := vary(f, "gears.first pinion.at=400 mm")
	if moved == nil {
		t.Fatal(list)
	}
	if found := gearbox.Validate(moved); !found.HasErrors() || found[0].Place.File != "--what-if" {
		t.Errorf("%v", found)
	}
}

// A file that several goroutines vary stays what it is; the race detector watches.
func TestVariationsAtOnce(t *testing.T) {
	f, _, _ := demoFile(t)
	var all sync.WaitGroup
	for _, text := range []string{"housing.radial=300 N/µm", "gears.first pinion.face=24 mm", "gears.first pinion.face=23 mm", "housing.radial=200 N/µm"} {
		all.Go(func() {
			for range 20 {
				if box, list := vary(f, text); box == nil {
					t.Error(list)
				}
			}
		})
	}
	all.Wait()
}

// An alias is changed where it stands, not where it is written out.
func TestChangeOfAnAlias(t *testing.T) {
	text := strings.Replace(plain, "    face: 24 mm", "    face: &wide 24 mm", 1)
	text = strings.Replace(text, "face: 24 mm}", "face: *wide}", 1)
	f, box, list := Open("x.yaml", []byte(text))
	if f == nil || box.Gears[1].Face != 24 {
		t.Fatal(list)
	}
	for i, g := range box.Gears {
		got, list := vary(f, "gears."+g.Name+".face=20 mm")
		if got == nil || got.Gears[i].Face != 20 || got.Gears[1-i].Face != 24 {
			t.Errorf("%s: %v", g.Name, list)
		}
	}
}

// FuzzVary: whatever is typed, a variation is a sound box or a finding with its place, and the file stays what it is.
func FuzzVary(f *testing.F) {
	for _, text := range []string{"shafts.output.bearings.right.at=210 mm", "gears.first pinion.face=24 mm", "a=b=c", "speeds.1st.1=final", "speeds.6th=direct", "side.x=positive",
		"duty.steps.3.turns=7", "shafts.output.sections.3.outer=54 mm", "input.torque = 250 N·m", "..=", "gears..=1", "housing.test.speed=1st", "steels.x.young=2 GPa", "meshes.first.module=3 mm"} {
		f.Add(text)
	}
	file, box, data := demoFile(f)
	f.Fuzz(func(t *testing.T, text string) {
		c, list := file.Change("--what-if", 1, text)
		var got *gearbox.Box
		if !list.HasErrors() {
			got, list = file.With(c)
			if got != nil {
				checkSound(t, got)
			}
		}
		if (got == nil) != list.HasErrors() {
			t.Fatalf("box %v with %v", got, list)
		}
		for _, d := range list {
			if d.Summary == "" || d.Detail == "" || d.Place.File == "" {
				t.Fatalf("%#v", d)
			}
		}
		if err := list.Render(&strings.Builder{}, map[string][]byte{"alder.yaml": data, "--what-if": []byte(text)}, diag.Style{Width: 80}); err != nil {
			t.Fatal(err)
		}
		if again, _ := file.With(); !reflect.DeepEqual(again, box) {
			t.Fatal("the file itself has changed")
		}
	})
}

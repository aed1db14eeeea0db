package boxfile

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	rolling "layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

// FuzzRead: whatever the bytes, Read gives a box with numbers that can be computed with or an error with a place in the file, the same each time.
// Short seeds lie in testdata/fuzz/FuzzRead; the boxes of testdata and every mistake of the table are seeds too.
func FuzzRead(f *testing.F) {
	boxes, err := filepath.Glob(filepath.Join("testdata", "*.yaml"))
	if err != nil || len(boxes) == 0 {
		f.Fatal(boxes, err)
	}
	for _, file := range append(boxes, "starter.yaml") {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, m := range mistakes {
		if m.old != "" {
			f.Add([]byte(strings.Replace(plain, m.old, m.with, 1)))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		box, list := Read("x.yaml", data)
		again, listAgain := Read("x.yaml", data)
		if !reflect.DeepEqual(box, again) || !reflect.DeepEqual(list, listAgain) {
			t.Fatal("two readings differ")
		}
		if (box == nil) != list.HasErrors() {
			t.Fatalf("box %v with %v", box, list)
		}
		for _, d := range list {
			if d.Summary == "" || d.Detail == "" || d.Place.File != "x.yaml" || d.Place.Line < 0 || d.Place.Column < 0 {
				t.Fatalf("%#v", d)
			}
		}
		if err := list.Render(&strings.Builder{}, map[string][]byte{"x.yaml": data}, diag.Style{Width: 80}); err != nil {
			t.Fatal(err)
		}
		if box != nil {
			checkSound(t, box)
		}
	})
}

// checkSound fails for a number that can't be computed with. The stiffness of a bearing is the only one that may be infinite.
func checkSound(t *testing.T, box *gearbox.Box) {
	stiffness := map[string]bool{"Radial": true, "Tilt": true, "Axial": true}
	var walk func(path, field string, v reflect.Value)
	walk = func(path, field string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Float64:
			x := v.Float()
			if math.IsNaN(x) || math.IsInf(x, -1) || math.IsInf(x, 1) && !stiffness[field] {
				t.Errorf("%s is %v", path, x)
			}
		case reflect.Pointer:
			if !v.IsNil() {
				walk(path, field, v.Elem())
			}
		case reflect.Struct:
			for i := range v.NumField() {
				name := v.Type().Field(i).Name
				walk(path+"."+name, name, v.Field(i))
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(fmt.Sprintf("%s[%d]", path, i), field, v.Index(i))
			}
		case reflect.Map:
			for _, k := range v.MapKeys() {
				walk(fmt.Sprintf("%s[%v]", path, k), field, v.MapIndex(k))
			}
		}
	}
	walk("box", "", reflect.ValueOf(*box))
	for _, m := range box.Meshes {
		if !(m.Module > 0) || m.Driver == m.Driven {
			t.Errorf("%+v", m)
		}
	}
	for _, s := range box.Shafts {
		for _, b := range s.Bearings {
			if b.Elements != nil && b.Elements.Check() != nil || b.Rating != nil && b.Rating.Check() != nil {
				t.Errorf("%+v %+v", b.Elements, b.Rating)
			}
		}
		switch n := len(s.Bearings); {
		case s.Pair == nil:
		case n > 1 && s.Bearings[0].Elements == nil: // shared by the rule of catalogues
			for _, b := range []gearbox.Bearing{s.Bearings[0], s.Bearings[n-1]} {
				if b.Elements != nil || b.Rating == nil || !(b.Rating.Y > 0) || s.Pair.EndPlay != 0 {
					t.Errorf("%+v %+v", b, s.Pair)
				}
			}
		default:
			pair := rolling.Pair{Arrangement: s.Pair.Arrangement, A: *s.Bearings[0].Elements, B: *s.Bearings[n-1].Elements, Setting: s.Pair.EndPlay}
			if n < 2 || pair.Check() != nil {
				t.Errorf("%+v", pair)
			}
		}
	}
	if d := box.Duty; d != nil && (!(d.Passes > 0) || len(d.Steps) == 0 || slices.ContainsFunc(d.Steps, func(s gearbox.DutyStep) bool { return s.Share == 0 || !(box.InputTurns(s) > 0) })) {
		t.Errorf("%+v", d)
	}
	if c := box.Clutch; c != nil && !(c.Holds() > 0) {
		t.Errorf("%+v", c)
	}
	if c := box.Car; c != nil {
		if force, _ := c.Holds(true); !(c.TyreRadius > 0) || c.Mass > 0 && !(force > 0) {
			t.Errorf("%+v", c)
		}
	}
	for _, s := range box.Speeds {
		if s.Direct == (len(s.Path) > 0) {
			t.Errorf("%+v", s)
		}
	}
}

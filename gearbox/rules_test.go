package gearbox_test

import (
	"errors"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
)

// Each rule of the trade asks about a box that is out of proportion in what it looks at, and about no demonstration box.
func TestRulesOfTheTrade(t *testing.T) {
	asked := func(file string, changes ...string) (found []string) {
		t.Helper()
		data, list := boxfile.Load("../testdata/" + file)
		if list != nil {
			t.Fatal(list)
		}
		text := string(data)
		for i := 0; i < len(changes); i += 2 {
			if !strings.Contains(text, changes[i]) {
				t.Fatalf("%s has no %q", file, changes[i])
			}
			text = strings.Replace(text, changes[i], changes[i+1], 1)
		}
		box, list := boxfile.Read(file, []byte(text))
		if box == nil {
			t.Fatal(list)
		}
		r, err := gearbox.Solve(box, gearbox.Load{Speeds: []string{}, Brief: true})
		list, others := errors.AsType[diag.List](err) // what else is wrong with so odd a box
		switch {
		case err == nil:
			list = r.Warnings
		case !others:
			t.Fatal(err)
		}
		for _, d := range list {
			if d.Summary == "unusual proportions" {
				found = append(found, d.String())
			}
		}
		return found
	}
	for _, file := range []string{"alder.yaml", "birch.yaml"} {
		if found := asked(file); len(found) > 0 {
			t.Errorf("%s: %v", file, found)
		}
	}
	for _, c := range []struct {
		want    string
		changes []string
	}{
		// 80 mm over the cube root of 1900·41/13 N·m.
		{"the distance of two shafts over the cube root of the torque at the slower one is 4.4", []string{"torque: 190 N·m        # of", "torque: 1900 N·m        # of"}},
		// 75 mm at its thickest over 80 mm.
		{"between its bearings over its nearest centre distance is 0.938", []string{"{length: 54 mm, outer: 42 mm, bore: 8 mm}", "{length: 54 mm, outer: 75 mm, bore: 8 mm}"}},
		// 240 mm over a span of 183 mm.
		{"over the span of its bearings is 1.31", []string{"{length: 54 mm, outer: 42 mm, bore: 8 mm}", "{length: 54 mm, outer: 240 mm, bore: 8 mm}"}},
		// 3 after 2.75.
		{"over that of the next shorter one between the same shafts is 1.09", []string{"teeth: 25, face: 17 mm", "teeth: 21, face: 17 mm", "teeth: 35, face: 16 mm", "teeth: 29, face: 16 mm",
			"driven: third wheel, module: 2.5 mm", "driven: third wheel, module: 3 mm"}},
	} {
		if found := strings.Join(asked("birch.yaml", c.changes...), "\n"); !strings.Contains(found, c.want) {
			t.Errorf("%v: found %s, want %q", c.changes, found, c.want)
		}
	}
	for _, r := range gearbox.Rules() {
		if !(r.Low > 0 && r.High > r.Low) || r.Name == "" || r.Ask == "" {
			t.Errorf("%+v", r)
		}
	}
}

package study

import (
	"context"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// changed is a demonstration box with some of its text changed.
func changed(t testing.TB, name string, changes ...string) *gearbox.Box {
	t.Helper()
	data, err := os.ReadFile("../../testdata/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%s has no %q", name, changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	b, found := boxfile.Read(name+".yaml", []byte(text))
	if found.HasErrors() {
		t.Fatal(found)
	}
	return b
}

const (
	birchTurns = "  turns: clockwise       # looking along the shaft from its left end\n"
	birchSteel = "steel: case-carburised   # nobody knows the grade: a wide band\n"
)

func effectsOf(t testing.TB, b *gearbox.Box, load gearbox.Load) []Effect {
	t.Helper()
	all, err := Effects(context.Background(), b, load, nil)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// What the table says of another value is what the box is that has it in its file.
func TestEffectIsThatOfTheFile(t *testing.T) {
	t.Parallel()
	turns, steel := []string{birchTurns, ""}, []string{birchSteel, ""}
	for _, c := range []struct {
		words, other string
		open, with   []string
		load         gearbox.Load
	}{
		{"sense of rotation", "anticlockwise seen from the left end", turns, []string{"turns: clockwise", "turns: anticlockwise"}, gearbox.Load{}},
		{"sense of rotation", "anticlockwise seen from the left end", turns, []string{"turns: clockwise", "turns: anticlockwise"}, gearbox.Load{Torque: -150e3, Speeds: []string{"2nd", "4th"}}},
		{"steel", "through-hardened", steel, []string{"case-carburised   #", "through-hardened   #"}, gearbox.Load{}},
		{"case", "300 N/µm under each bearing", nil, []string{"parts:  ", "housing: {radial: 300 N/µm}\nparts:  "}, gearbox.Load{}},
		{"side of the line through its neighbours", "negative side", []string{"  diff: positive ", "  diff: unknown "}, []string{"diff: positive", "diff: negative"}, gearbox.Load{}},
	} {
		open, with := changed(t, "birch", c.open...), changed(t, "birch", c.with...)
		all := effectsOf(t, open, c.load)
		i := slices.IndexFunc(all, func(e Effect) bool { return e.Assumed.Words == c.words && e.Other == c.other })
		if i < 0 {
			t.Errorf("%s: %s isn't tried", c.words, c.other)
			continue
		}
		e := all[i]
		for _, side := range []struct {
			box *gearbox.Box
			got First
		}{{open, e.Before}, {with, e.After}} {
			r, err := gearbox.Solve(side.box, c.load)
			if err != nil {
				t.Fatal(err)
			}
			if want := r.Allowable(r.Box.Limits.Strength); math.Abs(side.got.Torque-want) > 1e-9*want {
				t.Errorf("%s: %g N·mm in %s, solved in full %g", c.words, side.got.Torque, side.got.Speed, want)
			}
			k := slices.IndexFunc(r.Speeds, func(s gearbox.SpeedResult) bool { return s.Name == side.got.Speed })
			if g := r.Speeds[k].Governing(); g.Kind != side.got.Kind || g.Item != side.got.Item {
				t.Errorf("%s: limited by %s of %s, solved in full by %s of %s", c.words, side.got.Kind, side.got.Item, g.Kind, g.Item)
			}
		}
		if want := e.After.Torque/e.Before.Torque - 1; math.Abs(e.Change()-want) > 1e-12 {
			t.Errorf("%s: change %g, want %g", c.words, e.Change(), want)
		}
	}
}

// The largest effect stands first, halving as high as doubling; what can't be built says why and stands behind.
func TestEffectsAreSorted(t *testing.T) {
	b := changed(t, "birch", birchTurns, "", birchSteel, "", "pressure_angle: 20°, helix: 20°, hand: right, efficiency: 99 %}\n  second", "helix: 20°, hand: right, efficiency: 99 %}\n  second")
	told := 0
	all, err := Effects(context.Background(), b, gearbox.Load{}, func(done, all int) { told = done })
	if err != nil {
		t.Fatal(err)
	}
	if told != len(all)+1 {
		t.Errorf("told of %d of %d", told, len(all)+1)
	}
	gaps := 0
	for i, e := range all {
		switch {
		case e.Gap != "":
			gaps++
		case gaps > 0 && e.Other != "":
			t.Errorf("%s: %s stands behind what can't be built", e.Assumed.Words, e.Other)
		case i > 0 && e.size() > all[i-1].size():
			t.Errorf("%s: %s by %g stands behind %g", e.Assumed.Words, e.Other, e.Change(), all[i-1].Change())
		}
	}
	if first := all[0].Assumed.Words; first != "steel" {
		t.Errorf("first is %s by %g", first, all[0].Change())
	}
	half, double := Effect{Other: "x", Before: First{FirstLimit: gearbox.FirstLimit{Torque: 2}}, After: First{FirstLimit: gearbox.FirstLimit{Torque: 1}}}, Effect{}
	double.Other, double.Before, double.After = "x", half.After, half.Before
	if math.Abs(half.size()-double.size()) > 1e-15 {
		t.Errorf("halving weighs %g, doubling %g", half.size(), double.size())
	}
	// 14.5° and 13 teeth with this shift: undercut to the point where nothing carries.
	if i := slices.IndexFunc(all, func(e Effect) bool { return e.Assumed.Words == "pressure angle" && e.Gap != "" }); i >= 0 && !math.IsNaN(all[i].Change()) {
		t.Errorf("what can't be built changes by %g", all[i].Change())
	}
}

func TestNothingAssumedHasNoEffects(t *testing.T) {
	b := changed(t, "birch")
	b.Places = nil
	if all := effectsOf(t, b, gearbox.Load{}); all != nil {
		t.Errorf("effects %v", all)
	}
}

func TestEffectsStop(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Effects(ctx, changed(t, "birch", birchTurns, ""), gearbox.Load{}, nil); err != context.Canceled {
		t.Errorf("error %v", err)
	}
}

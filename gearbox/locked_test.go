package gearbox

import (
	"strings"
	"testing"

	"layshaft/gearbox/diag"
	"layshaft/gearstress/involute"
)

// geared is a box of gears "a" and "b" of each pair on the named shafts, for tests of what turns with what; it need not be buildable.
func geared(speeds []Speed, pairs ...[4]any) *Box {
	b := &Box{Input: Port{Shaft: "in"}, Output: Port{Shaft: "out"}, Speeds: speeds, Shafts: []Shaft{{Name: "in"}, {Name: "lay"}, {Name: "out"}, {Name: "diff"}}}
	for _, c := range pairs {
		teeth := c[3].([2]int)
		name := c[0].(string)
		on := [2]string{c[1].(string), c[2].(string)}
		for k, end := range []string{"a", "b"} {
			b.Gears = append(b.Gears, Gear{Name: name + end, Shaft: on[k], Teeth: teeth[k]})
		}
		b.Meshes = append(b.Meshes, Mesh{Name: name, Driver: name + "a", Driven: name + "b", Module: 2.5, Rack: involute.StandardRack})
	}
	return b
}

// asked are the meshes that are asked about, and the errors.
func asked(b *Box) (meshes, faults string) {
	p := &prepared{box: b, shaft: map[string]int{}, mesh: map[string]int{}, pairs: make([]pair, len(b.Meshes))}
	gear := map[string]int{}
	for i, s := range b.Shafts {
		p.shaft[s.Name] = i
	}
	for i, g := range b.Gears {
		gear[g.Name] = i
	}
	for i, m := range b.Meshes {
		p.mesh[m.Name] = i
		q := &p.pairs[i]
		q.gears = [2]int{gear[m.Driver], gear[m.Driven]}
		q.shafts = [2]int{p.shaft[b.Gears[q.gears[0]].Shaft], p.shaft[b.Gears[q.gears[1]].Shaft]}
	}
	p.checkLocked()
	for _, d := range p.found {
		if d.Severity == diag.Error {
			faults += d.Summary + ": " + d.Detail
			continue
		}
		_, rest, _ := strings.Cut(d.Detail, "has no gear of ")
		meshes, _, _ = strings.Cut(rest, " turn freely")
	}
	return meshes, faults
}

// In each layout the pairs that must have a free gear are asked about, and no others.
func TestWhichGearTurnsFreely(t *testing.T) {
	path := func(name string, meshes ...string) Speed { return Speed{Name: name, Path: meshes} }
	direct := Speed{Name: "top", Direct: true}
	twoShafts := func() *Box {
		return geared([]Speed{path("1st", "first", "final"), path("2nd", "second", "final"), path("3rd", "third", "final")},
			[4]any{"first", "in", "out", [2]int{13, 41}}, [4]any{"second", "in", "out", [2]int{18, 36}}, [4]any{"third", "in", "out", [2]int{25, 35}}, [4]any{"final", "out", "diff", [2]int{16, 62}})
	}
	inlineBox := func() *Box {
		return geared([]Speed{path("1st", "constant", "first"), path("2nd", "constant", "second"), direct},
			[4]any{"constant", "in", "lay", [2]int{24, 32}}, [4]any{"first", "lay", "out", [2]int{16, 40}}, [4]any{"second", "lay", "out", [2]int{24, 30}})
	}
	free := func(b *Box, gears ...string) *Box {
		for i := range b.Gears {
			for _, name := range gears {
				if b.Gears[i].Name == name {
					b.Gears[i].Seat = &Seat{Length: 20}
				}
			}
		}
		return b
	}
	unknown := func(b *Box, gear string) *Box {
		b.Unknown = map[string]bool{"gears." + gear + ".seat": true}
		return b
	}
	reverse := func() *Box { // over an idler, which slides
		b := twoShafts()
		b.Shafts = append(b.Shafts, Shaft{Name: "idler"})
		b.Gears = append(b.Gears, Gear{Name: "ra", Shaft: "in", Teeth: 13}, Gear{Name: "ri", Shaft: "idler", Teeth: 24}, Gear{Name: "rb", Shaft: "out", Teeth: 38})
		b.Meshes = append(b.Meshes, Mesh{Name: "reverse in", Driver: "ra", Driven: "ri"}, Mesh{Name: "reverse out", Driver: "ri", Driven: "rb"})
		b.Speeds = append(b.Speeds, path("reverse", "reverse in", "reverse out", "final"))
		return free(b, "firstb", "secondb", "thirda")
	}
	alike := twoShafts() // two pairs of one ratio can stay in mesh
	alike.Speeds = alike.Speeds[:2]
	alike.Gears[2].Teeth, alike.Gears[3].Teeth = 26, 82
	for _, c := range []struct {
		name string
		box  *Box
		want string
	}{
		{"two shafts, nothing said", twoShafts(), `meshes "first", "second" and "third"`},
		{"two shafts, one pair left out", free(twoShafts(), "firstb", "thirda"), `mesh "second"`},
		{"two shafts, all said", free(twoShafts(), "firstb", "secondb", "thirda"), ""},
		{"two shafts, one unknown", unknown(free(twoShafts(), "firstb", "thirda"), "secondb"), ""},
		{"two shafts, one ratio", alike, ""},
		{"inline with a direct speed, nothing said", inlineBox(), `meshes "first" and "second"`},
		{"inline, all said", free(inlineBox(), "firstb", "seconda"), ""},
		{"inline of one geared speed", geared([]Speed{path("1st", "constant", "first"), direct}, [4]any{"constant", "in", "lay", [2]int{24, 32}}, [4]any{"first", "lay", "out", [2]int{16, 40}}), `mesh "first"`},
		{"reverse over an idler", reverse(), ""},
		{"a single pair", geared([]Speed{path("only", "pair")}, [4]any{"pair", "in", "out", [2]int{18, 36}}), ""},
		{"a single pair and a final drive", geared([]Speed{path("only", "pair", "final")}, [4]any{"pair", "in", "out", [2]int{18, 36}}, [4]any{"final", "out", "diff", [2]int{16, 62}}), ""},
	} {
		if got, faults := asked(c.box); got != c.want || faults != "" {
			t.Errorf("%s: asked about %s; want %s; %s", c.name, got, c.want, faults)
		}
	}
}

// A way that turns one shaft at two speeds can't turn at all.
func TestASpeedThatLocksItself(t *testing.T) {
	b := geared([]Speed{{Name: "1st", Path: []string{"down", "back", "out"}}},
		[4]any{"down", "in", "lay", [2]int{24, 32}}, [4]any{"back", "lay", "in", [2]int{20, 36}}, [4]any{"out", "in", "out", [2]int{18, 36}})
	if _, faults := asked(b); !strings.Contains(faults, `The way of "1st" leads to shaft "in" a second time, in mesh "back"`) {
		t.Errorf("found %q", faults)
	}
	b.Gears[2].Teeth, b.Gears[3].Teeth = 32, 24 // back to the speed of the input
	if _, faults := asked(b); faults != "" {
		t.Errorf("found %q", faults)
	}
}

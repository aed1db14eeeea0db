package boxfile

import (
	"reflect"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

// A key that is unknown is kept as such, and otherwise the box is the one without it.
func TestUnknownIsLeftOut(t *testing.T) {
	for _, c := range []struct {
		path      string
		old, with string // "unknown" is written in with; without its key the file is old
	}{
		{"steel", "shafts:\n", "steel: unknown\nshafts:\n"},
		{"shafts.input.steel", "  input:\n", "  input:\n    steel: unknown\n"},
		{"gears.pinion.steel", "    teeth: 14\n", "    teeth: 14\n    steel: unknown\n"},
		{"gears.pinion.grade", "    teeth: 14\n", "    teeth: 14\n    grade: unknown\n"},
		{"gears.pinion.seat", "    teeth: 14\n", "    teeth: 14\n    seat: unknown\n"},
		{"input.turns", "torque: 170 N·m", "torque: 170 N·m, turns: unknown"},
		{"side.output", "gears:\n", "side: {output: unknown}\ngears:\n"},
		{"housing", "shafts:\n", "housing: unknown\nshafts:\n"},
		{"shafts.input.bearings.left.housing", "{at: 12 mm, type: plain}", "{at: 12 mm, type: plain, housing: unknown}"},
	} {
		without, _ := Read("box.yaml", []byte(plain))
		text := strings.Replace(plain, c.old, c.with, 1)
		box, list := Read("box.yaml", []byte(text))
		if len(list) > 0 || box == nil {
			t.Errorf("%s: %v", c.path, list)
			continue
		}
		if !box.Unknown[c.path] || len(box.Unknown) != 1 {
			t.Errorf("%s: unknown are %v", c.path, box.Unknown)
		}
		if p := box.Places[c.path]; p.Width != len(unknown) || p.Line == 0 {
			t.Errorf("%s: stands at %v", c.path, p)
		}
		box.Unknown, box.Places = without.Unknown, without.Places
		if !reflect.DeepEqual(box, without) {
			t.Errorf("%s: another box", c.path)
		}
	}
}

// The hand of an idler, of what it drives and of what drives it: the two gears of a mesh have opposite hands, a gear has one.
func TestUnknownHands(t *testing.T) {
	const idler = `layshaft: 1
name: Chain
input: {shaft: a, at: 0 mm, torque: 60 N·m}
output: {shaft: c, at: 0 mm}
shafts:
  a: {sections: [{length: 80 mm, outer: 25 mm}], bearings: {l: {at: 10 mm, type: plain, axial: fixed}, r: {at: 70 mm, type: plain}}}
  b: {sections: [{length: 80 mm, outer: 25 mm}], bearings: {l: {at: 10 mm, type: plain, axial: fixed}, r: {at: 70 mm, type: plain}}}
  c: {sections: [{length: 80 mm, outer: 25 mm}], bearings: {l: {at: 10 mm, type: plain, axial: fixed}, r: {at: 70 mm, type: plain}}}
gears:
  x: {shaft: a, at: 40 mm, teeth: 20, face: 20 mm}
  y: {shaft: b, at: 40 mm, teeth: 24, face: 20 mm}
  z: {shaft: c, at: 40 mm, teeth: 30, face: 20 mm}
meshes:
  first: {driver: x, driven: y, module: 2.5 mm, helix: 15°, hand: HAND1}
  second: {driver: y, driven: z, module: 2.5 mm, helix: 15°, hand: HAND2}
speeds: {only: [first, second]}
`
	for _, c := range []struct {
		given, want [2]gearbox.Hand
		unknown     int
	}{
		{[2]gearbox.Hand{"right", "unknown"}, [2]gearbox.Hand{"right", "left"}, 0},
		{[2]gearbox.Hand{"left", "unknown"}, [2]gearbox.Hand{"left", "right"}, 0},
		{[2]gearbox.Hand{"unknown", "right"}, [2]gearbox.Hand{"left", "right"}, 0},
		{[2]gearbox.Hand{"unknown", "left"}, [2]gearbox.Hand{"right", "left"}, 0},
		{[2]gearbox.Hand{"unknown", "unknown"}, [2]gearbox.Hand{"right", "left"}, 2},
	} {
		box, list := Read("box.yaml", []byte(strings.NewReplacer("HAND1", string(c.given[0]), "HAND2", string(c.given[1])).Replace(idler)))
		if box == nil {
			t.Fatal(list)
		}
		if got := [2]gearbox.Hand{box.Meshes[0].Hand, box.Meshes[1].Hand}; got != c.want || len(box.Unknown) != c.unknown {
			t.Errorf("%v: hands %v, want %v; unknown %v", c.given, got, c.want, box.Unknown)
		}
	}
}

// A person who misspells the word, or finds none that fits, reads it.
func TestUnknownIsProposed(t *testing.T) {
	for _, c := range []struct{ old, with string }{
		{"torque: 170 N·m", "torque: 170 N·m, turns: dunno"},
		{"shafts:\n", "steel: unkown\nshafts:\n"},
		{"    teeth: 14\n", "    teeth: 14\n    seat: yes\n"},
		{"shafts:\n", "housing: soft\nshafts:\n"},
	} {
		_, list := Read("box.yaml", []byte(strings.Replace(plain, c.old, c.with, 1)))
		if len(list) != 1 || list[0].Severity != diag.Error || !strings.HasSuffix(list[0].Detail, ownUp) {
			t.Errorf("%s: %v", c.with, list)
		}
	}
}

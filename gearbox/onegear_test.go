package gearbox

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearbox/diag"
)

// Whatever two meshes say differently of one gear is refused, with what each says and where.
func TestOneGearIsCutOnce(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(second *Mesh)
		path  string
		words string
	}{
		{"hand", func(m *Mesh) { m.Hand = Right }, "meshes.f.hand", `Gear "w" has a left-hand helix as driven gear of mesh "m" (box.yaml:7:3), and a right-hand one as driver of mesh "f" (box.yaml:9:5).`},
		{"hand, what to write", func(m *Mesh) { m.Hand = Right }, "meshes.f.hand", `If mesh "m" is right, write hand: left here.`},
		{"module", func(m *Mesh) { m.Module = 2.25 }, "meshes.f.module", `a module of 2 mm as driven gear of mesh "m" (box.yaml:7:3), and one of 2.25 mm as driver`},
		{"helix", func(m *Mesh) { m.Helix = 20 * math.Pi / 180 }, "meshes.f.helix", "a helix of 24° as driven gear of mesh \"m\" (box.yaml:7:3), and one of 20° as driver"},
		{"spur on one side", func(m *Mesh) { m.Helix, m.Hand = 0, Spur }, "meshes.f.helix", "and one of 0° as driver"},
		{"pressure angle", func(m *Mesh) { m.Rack.PressureAngle = 0.3 }, "meshes.f.pressure_angle", "a pressure angle of 20° as driven gear of mesh \"m\" (box.yaml:7:3), and one of 17.19°"},
		{"rack", func(m *Mesh) { m.Rack.Dedendum = 1.4 }, "meshes.f.rack", "one of addendum 1, dedendum 1.4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := frameSystem("idler")
			b.Places = map[string]diag.Place{"": {File: "box.yaml", Line: 1, Column: 1}, "meshes.m": {File: "box.yaml", Line: 7, Column: 3}, c.path: {File: "box.yaml", Line: 9, Column: 5}}
			if found := Validate(b); len(found) > 0 && found.HasErrors() {
				t.Fatal(found)
			}
			c.spoil(&b.Meshes[1])
			for _, d := range Validate(b) {
				if d.Severity == diag.Error && d.Path == c.path && d.Place.Line == 9 && strings.Contains(d.Detail, c.words) {
					return
				}
			}
			t.Errorf("found\n%s", all(Validate(b)))
		})
	}
}

// What one thing written in two ways leaves is let be.
func TestRoundingIsNotAnotherGear(t *testing.T) {
	b := frameSystem("idler")
	b.Meshes[1].Module, b.Meshes[1].Helix = 2.0005, b.Meshes[1].Helix+1e-5
	if found := Validate(b); found.HasErrors() {
		t.Error(found)
	}
}

// An idler whose shift and tip nobody gave has one of each in both meshes; a partner with a given shift settles it wherever it stands in the file.
func TestAnIdlerHasOneShiftAndOneTip(t *testing.T) {
	for name, give := range map[string]func(*Box){
		"neither given":     func(*Box) {},
		"of the last gear":  func(b *Box) { x := 0.21; b.Gears[2].Shift = &x },
		"of the first gear": func(b *Box) { x := -0.1; b.Gears[0].Shift = &x },
	} {
		b := frameSystem("idler")
		b.Gears[1].Shift = nil
		b.Shafts[1].Axis = &[2]float64{66.4, 0} // neither pair stands at its reference distance
		give(b)
		p := prepare(b, Method{})
		if p.found.HasErrors() {
			t.Errorf("%s: %v", name, p.found)
			continue
		}
		in, out := p.pairs[0].geometry, p.pairs[1].geometry
		if math.Abs(in.X[1]-out.X[0]) > 1e-12 || math.Abs(in.Tip[1]-out.Tip[0]) > 1e-9 {
			t.Errorf("%s: the idler has a shift of %g and %g, a tip of %g and %g mm", name, in.X[1], out.X[0], in.Tip[1], out.Tip[0])
		}
		for k, q := range p.pairs { // no flank overlap: the distances hold without backlash
			if q.geometry.Backlash < 0 || q.geometry.Backlash > 1e-9 {
				t.Errorf("%s: mesh %d has a backlash of %g mm", name, k, q.geometry.Backlash)
			}
		}
	}
}

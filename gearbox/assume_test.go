package gearbox_test

import (
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/material"
)

// assumed is what is assumed under a path; nil when nothing is.
func assumed(b *gearbox.Box, path string) *gearbox.Assumption {
	all := gearbox.Assumptions(b)
	if i := slices.IndexFunc(all, func(a gearbox.Assumption) bool { return a.Path == path }); i >= 0 {
		return &all[i]
	}
	return nil
}

// A value is assumed exactly as long as the file has none: leaving it out makes the assumption, writing it takes it away, and unknown keeps it with all that was tried.
func TestAssumedIsWhatIsNotGiven(t *testing.T) {
	for _, c := range []struct {
		path               string
		without, with, own []string // changes of the demonstration box; own: it says that it doesn't know
		value              string
	}{
		{"input.turns", []string{"  turns: clockwise       # looking along the shaft from its left end\n", ""}, nil, []string{"turns: clockwise", "turns: unknown"}, "clockwise seen from the left end"},
		{"input.shock", []string{"  shock: 1.6             # a dropped clutch, over the torque\n", ""}, nil, nil, "no more than the torque itself"},
		{"input.revs", []string{"  revs: 6500 rpm         # at that torque\n", ""}, nil, nil, "not counted, without dynamic load (K_v = 1)"},
		{"oil.viscosity", []string{"oil: {viscosity: 100 mm²/s, temperature: 95 °C, load_stage: 11}\n", ""}, nil, nil, "100 mm²/s at 40 °C"},
		{"steel", []string{"steel: case-carburised   # nobody knows the grade: a wide band\n", ""}, nil, []string{"steel: case-carburised", "steel: unknown"}, "case-carburised"},
		{"housing", nil, []string{"parts:  ", "housing: {radial: 400 N/µm}\nparts:  "}, []string{"parts:  ", "housing: unknown\nparts:  "}, "rigid under the bearings"},
		{"shafts.input.bearings.left.radial", []string{"deep groove ball, radial: 350 N/µm", "deep groove ball"}, nil, nil, "rigid"},
		{"meshes.first.pressure_angle", []string{"pressure_angle: 20°, ", ""}, nil, nil, "20°"},
		{"meshes.first.efficiency", []string{", efficiency: 99 %", ""}, nil, nil, "nothing lost"},
		{"meshes.final.hand", nil, nil, []string{"helix: 22°, hand: left", "helix: 22°, hand: unknown"}, ""},
		{"gears.first pinion.grade", nil, []string{"teeth: 13,", "teeth: 13, grade: 6,"}, []string{"teeth: 13,", "teeth: 13, grade: unknown,"}, "7 of ISO 1328-1"},
		{"gears.first pinion.shift", []string{"shift: 0.38, ", ""}, nil, nil, "shared evenly, as distance and rack ask"},
		{"gears.first wheel.seat.stiffness", []string{"clearance: 0.03 mm, stiffness: 400 N/µm", "clearance: 0.03 mm"}, nil, nil, "rigid"},
		{"gears.first wheel.seat", []string{", seat: {length: 27 mm, clearance: 0.03 mm, stiffness: 400 N/µm}", ""}, nil, nil, "none: both fast on their shafts"},
		{"gears.final pinion.crowning", []string{", crowning: 6 µm", ""}, nil, nil, "none"},
		{"gears.first wheel.engages_at", nil, []string{"41, face: 21 mm", "41, face: 21 mm, engages_at: 74 mm"}, nil, "the usual end of each"},
		{"gears.first pinion.lead_error", nil, []string{"teeth: 13,", "teeth: 13, lead_error: 2 µm,"}, nil, "parallel, flanks true to them"},
		{"side.diff", []string{birchSide, ""}, nil, []string{"diff: positive", "diff: unknown"}, "unknown: tried both"},
		{"centres", []string{birchThird, "", birchSide, ""}, nil, nil, "unknown: tried 24 directions all round"},
	} {
		t.Run(c.path, func(t *testing.T) {
			if a := assumed(file(t, "birch", c.with...), c.path); a != nil && !(c.with != nil && a.Parts != nil && !slices.Contains(a.Parts, "first pinion") && !slices.Contains(a.Parts, "first wheel")) {
				t.Errorf("given, and yet assumed: %+v", a)
			}
			if c.value != "" {
				a := assumed(file(t, "birch", c.without...), c.path)
				if a == nil || a.Value != c.value || a.Words == "" {
					t.Fatalf("left out: %+v, want %q", a, c.value)
				}
				if a.Unknown != strings.HasPrefix(c.value, "unknown") {
					t.Errorf("left out, and unknown: %v", a.Unknown)
				}
			}
			if c.own != nil {
				if a := assumed(file(t, "birch", c.own...), c.path); a == nil || !a.Unknown || len(a.Others) < 2 {
					t.Errorf("unknown: %+v", a)
				}
			}
		})
	}
}

// A change says what the file would say: solved with it the box is that of the file that has it.
func TestOtherValueIsThatOfTheFile(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		path string
		open []string
		with []string // the other value written out
	}{
		{"input.turns", []string{"  turns: clockwise       # looking along the shaft from its left end\n", ""}, []string{"turns: clockwise", "turns: anticlockwise"}},
		{"steel", []string{"steel: case-carburised   # nobody knows the grade: a wide band\n", ""}, []string{"steel: case-carburised", "steel: through-hardened"}},
		{"housing", nil, []string{"parts:  ", "housing: {radial: 300 N/µm}\nparts:  "}},
		{"input.shock", []string{"  shock: 1.6             # a dropped clutch, over the torque\n", ""}, []string{"shock: 1.6", "shock: 2"}},
		{"shafts.output.bearings.left.radial", []string{"cylindrical roller, radial: 550 N/µm", "cylindrical roller"}, []string{"550 N/µm", "500 N/µm"}},
		{"meshes.first.pressure_angle", []string{"pressure_angle: 20°, helix: 20°, hand: right, efficiency: 99 %}\n  second", "helix: 20°, hand: right, efficiency: 99 %}\n  second"},
			[]string{"pressure_angle: 20°, helix: 20°, hand: right, efficiency: 99 %}\n  second", "pressure_angle: 17.5°, helix: 20°, hand: right, efficiency: 99 %}\n  second"}},
		{"gears.final pinion.crowning", []string{", crowning: 6 µm", ""}, []string{"crowning: 6 µm", "crowning: 5 µm"}},
	} {
		t.Run(c.path, func(t *testing.T) {
			b := file(t, "birch", c.open...)
			before := solved(t, b, gearbox.Load{Brief: true}).Allowable(material.Typical)
			a := assumed(b, c.path)
			if a == nil {
				t.Fatal("not assumed")
			}
			got, want := solved(t, a.Others[0].In(b), gearbox.Load{Brief: true, Loose: true}).Allowable(material.Typical), solved(t, file(t, "birch", c.with...), gearbox.Load{Brief: true, Loose: true}).Allowable(material.Typical)
			if got != want {
				t.Errorf("%s: %g N·mm, written out %g", a.Others[0].Words, got, want)
			}
			if after := solved(t, b, gearbox.Load{Brief: true}).Allowable(material.Typical); after != before {
				t.Error("the box itself was changed")
			}
		})
	}
}

// A pair that is fast on both shafts is asked about only where it would lock the box: the final drive turns in every speed.
func TestFinalDriveLocksNothing(t *testing.T) {
	for _, a := range gearbox.Assumptions(file(t, "birch", ", seat: {length: 27 mm, clearance: 0.03 mm, stiffness: 400 N/µm}", "")) {
		if a.Words == "which gear of a pair turns free" && !slices.Equal(a.Parts, []string{"first"}) {
			t.Errorf("asked of %v, want of first alone", a.Parts)
		}
	}
}

// What was written in Go has no places: its values are given. So is everything that is solved a second time.
func TestBoxWithoutPlacesAssumesNothing(t *testing.T) {
	b := file(t, "birch")
	b.Places = nil
	if all := gearbox.Assumptions(b); len(all) > 0 {
		t.Errorf("assumed: %+v", all)
	}
}

// Two meshes that share a gear have one hand between them: they are tried together.
func TestHandsThatHangTogether(t *testing.T) {
	const idler = `layshaft: 1
name: Chain
input: {shaft: a, at: 0 mm, torque: 60 N·m}
output: {shaft: c, at: 0 mm}
shafts:
  a: {axis: {y: 0 mm, z: 0 mm}, sections: [{length: 80 mm, outer: 25 mm}], bearings: {l: {at: 10 mm, type: plain, axial: fixed}, r: {at: 70 mm, type: plain}}}
  b: {axis: {y: 56.94 mm, z: 0 mm}, sections: [{length: 80 mm, outer: 25 mm}], bearings: {l: {at: 10 mm, type: plain, axial: fixed}, r: {at: 70 mm, type: plain}}}
  c: {axis: {y: 126.82 mm, z: 0 mm}, sections: [{length: 80 mm, outer: 25 mm}], bearings: {l: {at: 10 mm, type: plain, axial: fixed}, r: {at: 70 mm, type: plain}}}
gears:
  x: {shaft: a, at: 40 mm, teeth: 20, face: 20 mm}
  y: {shaft: b, at: 40 mm, teeth: 24, face: 20 mm}
  z: {shaft: c, at: 40 mm, teeth: 30, face: 20 mm}
meshes:
  first: {driver: x, driven: y, module: 2.5 mm, helix: 15°, hand: unknown}
  second: {driver: y, driven: z, module: 2.5 mm, helix: 15°, hand: unknown}
speeds: {only: [first, second]}
`
	b, found := boxfile.Read("chain.yaml", []byte(idler))
	if b == nil {
		t.Fatal(found)
	}
	boxes, _, err := gearbox.Alternatives(b)
	if err != nil || len(boxes) != 2 {
		t.Fatalf("%d boxes, %v", len(boxes), err)
	}
	for _, c := range boxes {
		if c.Meshes[0].Hand == c.Meshes[1].Hand {
			t.Errorf("%s: the idler has two hands", c.Variant)
		}
	}
}

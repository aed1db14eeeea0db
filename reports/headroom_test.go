package reports_test

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// reserveOf is what a speed of a sample result has left, by its own margins. Its numbers are as invented as theirs.
func reserveOf(s *gearbox.SpeedResult, b *gearbox.Box) study.Reserve {
	r := study.Reserve{Speed: s.Name, FaceFactor: math.NaN(), Holding: math.Inf(1)}
	for i := range s.Margins {
		m := &s.Margins[i]
		if len(r.Limits) < 3 {
			r.Limits = append(r.Limits, gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Torque: m.Allowable[m.Level]})
		}
	}
	if len(s.Margins) > 0 {
		r.Left, r.Asked, r.State, r.Holding = s.Margins[0].Margin, s.Margins[0].Margin, s.Margins[0].State, r.Limits[0].Torque/(1+b.Limits.Reserve)
	}
	if len(s.Meshes) > 0 {
		r.FaceFactor = s.Meshes[0].FaceFactor
	}
	return r
}

func headroomOf(r *gearbox.Result, before float64, variants ...study.Variant) *study.Headroom {
	h := &study.Headroom{Result: r, Before: before, Added: math.Abs(r.Torque) - math.Abs(before), Variants: variants}
	for i := range r.Speeds {
		h.Speeds = append(h.Speeds, reserveOf(&r.Speeds[i], r.Box))
	}
	return h
}

func variantOf(r *gearbox.Result, changes ...string) study.Variant {
	return study.Variant{Changes: changes, Result: r, Speeds: headroomOf(r, r.Torque).Speeds}
}

func sampleHeadrooms() []*study.Headroom {
	less := birch()
	less.Speeds = less.Speeds[:1]
	return []*study.Headroom{
		headroomOf(birch(), 130e3, variantOf(alder(), "gears.first pinion.face=24 mm", "housing.radial=300 N/µm"), variantOf(birch(), "gears.first pinion.face=24 mm"), variantOf(less, "housing.radial=300 N/µm")),
		headroomOf(alder(), 170e3),
	}
}

// The first sentence answers: yes, just, or no; then come what the box bears and what limits it, and how much of an addition would do.
func TestHeadroomSentence(t *testing.T) {
	const limited = ", limited by peak at flank of pinion in "
	for _, c := range []struct {
		name           string
		torque, before float64
		allowable      []float64 // by speed
		want           string
	}{
		{"over with the addition", 270, 190, []float64{232, 400}, "No: at 270 N·m (190 N·m and 80.0 N·m more), Oak is over its limits: it bears 14.1 % less. Oak bears 232 N·m at the input" + limited + "1st. With 42 N·m more it would be inside every limit."},
		{"over without it", 270, 240, []float64{232, 233}, "No: at 270 N·m (240 N·m and 30.0 N·m more), Oak is over its limits: it bears 14.1 % less. Oak bears 232 N·m at the input" + limited + "1st. It is over even without the addition."},
		{"thin", 190, 190, []float64{400, 200}, "Just: at 190 N·m, Oak stays inside every limit, but with 5.26 % left where 15 % is wanted. Oak bears 200 N·m at the input" + limited + "2nd."},
		{"coast", -40, -40, []float64{400, 200}, "Yes: at 40.0 N·m of coast (engine braking), Oak stays inside every limit, with 400 % left where 15 % is wanted. Oak bears 200 N·m at the input" + limited + "2nd."},
		{"no limit", 190, 190, []float64{math.Inf(1)}, "Yes: at 190 N·m, Oak stays inside every limit; none is reached at any torque."},
		{"less", 150, 190, []float64{400}, "Yes: at 150 N·m (40.0 N·m less than 190 N·m), Oak stays inside every limit, with 167 % left where 15 % is wanted. Oak bears 400 N·m at the input" + limited + "1st."},
	} {
		r := &gearbox.Result{Box: &gearbox.Box{Name: "Oak", Limits: gearbox.Limits{Strength: material.Low, Reserve: 0.15}, Duty: &gearbox.Duty{}}, Torque: 1000 * c.torque}
		for i, a := range c.allowable {
			m := margin(gearbox.FlankPeak, "pinion", 1000, flat(1500, "invented"), math.Abs(c.torque), a, a, a)
			if m.Margin > 0 && m.Margin < 0.15 {
				m.State = gearbox.Thin
			}
			r.Speeds = append(r.Speeds, gearbox.SpeedResult{Name: []string{"1st", "2nd"}[i], Margins: []gearbox.Margin{m}})
		}
		h := headroomOf(ended(r), 1000*c.before)
		if got := view.SameBlank(view.HeadroomHeadline([]*study.Headroom{h}, view.Options{})); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// A torque for the controller is rounded down, never up, in the unit shown.
func TestHoldingTorqueIsRoundedDown(t *testing.T) {
	for _, c := range []struct {
		holding float64
		units   quantity.System
		want    string
	}{{195.99e3, quantity.Metric, "  195  "}, {200e3 * (1 - 1e-12), quantity.Metric, "  200  "}, {9.87e3, quantity.Metric, "  9.8  "}, {200e3, quantity.US, "  147  "}} { // 147.51 lbf·ft
		h := headroomOf(alder(), 170e3)
		h.Speeds = h.Speeds[:1]
		h.Result.Speeds = h.Result.Speeds[:1]
		h.Speeds[0].Holding = c.holding
		var b bytes.Buffer
		if err := text.Headroom(&b, []*study.Headroom{h}, text.Options{Options: view.Options{Units: c.units}}); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(b.String(), c.want) {
			t.Errorf("%g: %q isn't in the report:\n%s", c.holding, c.want, b.String())
		}
	}
}

// sampleSweeps are one of one axis with a gap, and one of two. All their numbers are invented.
func sampleSweeps() (line, plane *study.Sweep) {
	point := func(torque float64, kind gearbox.Kind, values ...float64) study.Point {
		return study.Point{Values: values, Asked: 170e3, Speeds: []study.SpeedPoint{
			{First: gearbox.FirstLimit{Kind: kind, Item: "final", Torque: torque}, Margin: torque/170e3 - 1, FaceFactor: 1.25, FaceMesh: "final"},
			{First: gearbox.FirstLimit{Kind: gearbox.RootPeak, Item: "second pinion", Torque: 400e3}, Margin: 400.0/170 - 1, FaceFactor: math.NaN()},
		}}
	}
	gap := func(values ...float64) study.Point {
		return study.Point{Values: values, Gap: "off the shaft: Gear \"x\" hangs over.", Worst: -1}
	}
	span := study.Axis{Key: "shafts.output.bearings.right.at", Dimension: quantity.Length, Values: []float64{180, 200, 220, 240}, Now: 212}
	teeth := study.Axis{Key: "gears.first pinion.teeth", Whole: true, Values: []float64{13, 14}, Now: math.NaN()}
	box := alder().Box
	speeds := []string{"1st", "2nd"}
	line = &study.Sweep{Box: box, Axes: []study.Axis{span}, Speeds: speeds, Target: &study.Target{Torque: 210e3}, Met: []study.Met{{At: 211.234, Within: 3e-5, Other: math.NaN(), Rising: true}},
		Points: []study.Point{point(180e3, gearbox.MeshTilt, 180), point(200e3, gearbox.MeshTilt, 200), point(220e3, gearbox.MeshSeparation, 220), gap(240)}}
	plane = &study.Sweep{Box: box, Axes: []study.Axis{span, teeth}, Speeds: speeds, Target: &study.Target{Margin: 0.15}, Met: []study.Met{{At: 190, Within: 3e-5, Other: 14, Jump: true}}}
	for i, x := range span.Values {
		for j, z := range teeth.Values {
			if i == 3 {
				plane.Points = append(plane.Points, gap(x, z))
				continue
			}
			plane.Points = append(plane.Points, point(float64(180+20*i+10*j)*1e3, []gearbox.Kind{gearbox.MeshTilt, gearbox.MeshSeparation}[j], x, z))
		}
	}
	return line, plane
}

// Sweeps and headrooms keep to 100 columns and hold no control characters, whatever the names.
func TestAnswersFitAndAreHarmless(t *testing.T) {
	line, plane := sampleSweeps()
	wild := headroomOf(hostile(), 100e3, variantOf(hostile(), "name=\x1b[31m\n"+strings.Repeat("long ", 40)))
	line.Speeds[0], plane.Axes[0].Key = "\x1b[31m"+strings.Repeat("very ", 30), "gears."+strings.Repeat("x\x07", 60)+".face"
	for name, report := range map[string]func(io.Writer) error{
		"headroom": func(w io.Writer) error { return text.Headroom(w, []*study.Headroom{wild}, text.Options{}) },
		"line":     func(w io.Writer) error { return text.Sweep(w, line, text.Options{}) },
		"plane": func(w io.Writer) error {
			return text.Sweep(w, plane, text.Options{Options: view.Options{Units: quantity.US}})
		},
	} {
		var b bytes.Buffer
		if err := report(&b); err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.Split(b.String(), "\n") {
			if n := len([]rune(l)); n > 100 || strings.ContainsAny(l, "\x1b\x07\r") {
				t.Errorf("%s: %d columns: %q", name, n, l)
			}
		}
	}
}

// Values of an axis have the unit in which a box file writes them.
func TestSweptValuesHaveTheUnitOfTheFile(t *testing.T) {
	for _, w := range []struct {
		dimension quantity.Dimension
		written   string // unit of the file
		inner     float64
		unit      string
		want      float64
	}{
		{quantity.RotationalSpeed, "", 100 * math.Pi, "rpm", 3000},
		{quantity.RotationalSpeed, "rad/s", 300, "rad/s", 300},
		{quantity.RadialStiffness, "", 250e3, "N/µm", 250},
		{quantity.TiltStiffness, "", 15e6, "kN·m/rad", 15},
		{quantity.MeshStiffness, "", 16e3, "N/(mm·µm)", 16},
		{quantity.Torque, "lbf·ft", 1355.8179483314004, "lbf·ft", 1}, // NIST SP 811
		{quantity.Length, "in", 190.5, "in", 7.5},
		{quantity.Length, "", 212, "mm", 212},
		{quantity.Temperature, "°F", 100, "°F", 212},
		{quantity.Number, "", 0.35, "", 0.35},
		{quantity.Number, "%", 0.35, "%", 35},
	} {
		line, _ := sampleSweeps()
		line.Axes[0].Dimension, line.Axes[0].Unit, line.Axes[0].Now = w.dimension, w.written, w.inner
		j := jsonOf(t, func(out io.Writer) error { return data.SweepJSON(out, line, view.Options{}) })
		axis := j.(map[string]any)["axes"].([]any)[0].(map[string]any)
		if got := axis["now_in_unit"].(float64); axis["unit"] != w.unit || math.Abs(got-w.want) > 1e-9*w.want {
			t.Errorf("%v: %g %v, want %g %s", w.dimension, got, axis["unit"], w.want, w.unit)
		}
	}
}

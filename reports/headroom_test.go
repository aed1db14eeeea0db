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
	"layshaft/reports"
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
		r.Left, r.State, r.Holding = s.Margins[0].Margin, s.Margins[0].State, r.Limits[0].Torque/(1+b.Limits.Reserve)
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

// The first sentence answers: yes, just, or no, and what gives.
func TestHeadroomSentence(t *testing.T) {
	b := &gearbox.Box{Name: "Oak", Limits: gearbox.Limits{Reserve: 0.15}}
	for _, c := range []struct {
		torque, before float64
		allowable      []float64
		state          []gearbox.State
		want           string
	}{
		{270e3, 190e3, []float64{232e3, 400e3}, []gearbox.State{gearbox.Over, gearbox.Clear}, "No: at 270 N·m (190 N·m and 80.0 N·m more), Oak is over its limits in 1st; 1st gives first, at 232 N·m (tilt of m). Up to 42 N·m more it would be inside all of them."},
		{270e3, 240e3, []float64{232e3, 233e3}, []gearbox.State{gearbox.Over, gearbox.Over}, "No: at 270 N·m (240 N·m and 30.0 N·m more), Oak is over its limits in every speed; 1st gives first, at 232 N·m (tilt of m). It is over even without the addition."},
		{190e3, 190e3, []float64{400e3, 200e3}, []gearbox.State{gearbox.Clear, gearbox.Thin}, "Just: at 190 N·m, Oak stays inside every limit, but in 2nd with less than the wanted reserve of 15 %; 2nd gives first, at 200 N·m (tilt of m)."},
		{-40e3, -40e3, []float64{400e3, 200e3}, []gearbox.State{gearbox.Clear, gearbox.Clear}, "Yes: at 40.0 N·m of coast (engine braking), Oak stays inside every limit with the wanted reserve of 15 %; 2nd gives first, at 200 N·m (tilt of m)."},
		{190e3, 190e3, []float64{math.Inf(1)}, []gearbox.State{gearbox.Clear}, "Yes: at 190 N·m, Oak has no limit in sight."},
		{150e3, 190e3, []float64{400e3}, []gearbox.State{gearbox.Clear}, "Yes: at 150 N·m (40.0 N·m less than 190 N·m), Oak stays inside every limit with the wanted reserve of 15 %; 1st gives first, at 400 N·m (tilt of m)."},
	} {
		h := &study.Headroom{Result: &gearbox.Result{Box: b, Torque: c.torque}, Before: c.before, Added: math.Abs(c.torque) - math.Abs(c.before)}
		for i, a := range c.allowable {
			name := []string{"1st", "2nd"}[i]
			h.Speeds = append(h.Speeds, study.Reserve{Speed: name, Limits: []gearbox.FirstLimit{{Kind: gearbox.MeshTilt, Item: "m", Torque: a}}, Left: a/math.Abs(c.torque) - 1, State: c.state[i]})
			h.Result.Speeds = append(h.Result.Speeds, gearbox.SpeedResult{Name: name})
		}
		if got := reports.HeadroomHeadline([]*study.Headroom{h}, reports.Options{}); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// A torque for the controller is rounded down, never up, in the unit shown.
func TestHoldingTorqueIsRoundedDown(t *testing.T) {
	for _, c := range []struct {
		holding float64
		units   quantity.System
		want    string
	}{{195.99e3, quantity.Metric, " 195\n"}, {200e3 * (1 - 1e-12), quantity.Metric, " 200\n"}, {9.87e3, quantity.Metric, " 9.8\n"}, {200e3, quantity.US, " 147\n"}} { // 147.51 lbf·ft
		h := headroomOf(alder(), 170e3)
		h.Speeds = h.Speeds[:1]
		h.Result.Speeds = h.Result.Speeds[:1]
		h.Speeds[0].Holding = c.holding
		var b bytes.Buffer
		if err := reports.Headroom(&b, []*study.Headroom{h}, reports.Options{Units: c.units}); err != nil {
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
			{First: gearbox.FirstLimit{Kind: kind, Item: "final", Torque: torque}, Margin: torque/170e3 - 1, FaceFactor: 1.25},
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
		"headroom": func(w io.Writer) error { return reports.Headroom(w, []*study.Headroom{wild}, reports.Options{}) },
		"line":     func(w io.Writer) error { return reports.Sweep(w, line, reports.Options{}) },
		"plane":    func(w io.Writer) error { return reports.Sweep(w, plane, reports.Options{Units: quantity.US}) },
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

package reports

import (
	"bytes"
	"errors"
	"io"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// errNoWeights is said when results don't tell what their boxes weigh.
var errNoWeights = errors.New("the results don't tell what the boxes weigh: report only what was solved")

// Weigh writes what the parts of boxes weigh and how hard they are to spin, what each synchroniser has to match, and the torque that is borne for the mass.
func Weigh(w io.Writer, boxes []study.WeighedBox, o Options) error {
	if len(boxes) == 0 {
		return errNoWeights
	}
	results := each(boxes, func(box study.WeighedBox) *gearbox.Result { return box.Result })
	if err := checkResults(results); err != nil {
		return err
	}
	names := view.BoxNames(results)
	return write(w, annotated(o, func(b *bytes.Buffer, notes *footnotes, _ limitSources) {
		for i, box := range boxes {
			title(b, o.width(), names[i], "")
			partTable(b, box.Result.Weights, o)
			scalesTable(b, box.Result.Weights, o)
			b.WriteByte('\n')
		}
		title(b, o.width(), "Mass and torque", "")
		massTable(b, boxes, names, o, notes)
		borneTable(b, boxes, names, o, notes)
	}))
}

// partTable has one row per part.
func partTable(b *bytes.Buffer, w *gearbox.Weights, o Options) {
	var masses, inertias []float64
	for _, p := range w.Parts {
		masses, inertias = append(masses, p.Mass), append(inertias, p.Inertia)
	}
	mass, inertia := view.AlikeIn(masses, quantity.Mass, o.Units), view.AlikeIn(inertias, quantity.MomentOfInertia, o.Units)
	var rows [][]cell
	for i, p := range w.Parts {
		on, by := view.Absent, "dimensions"
		switch title := view.Clean(gearbox.ShaftTitle(p.On)); {
		case p.On == "":
		case p.Kind == gearbox.OtherPart:
			on = "turns with " + title
		case p.Cut:
			on = "cut into " + title
		default:
			on = title
		}
		switch {
		case p.Weighed:
			by = "scales"
		case p.Kind == gearbox.OtherPart:
			by = "given"
		}
		name := view.Clean(p.Name)
		if p.Kind == gearbox.ShaftPart {
			name = view.Clean(gearbox.ShaftTitle(p.Name))
		}
		rows = append(rows, []cell{{text: name}, {text: on}, {text: known(p.Mass, mass[i])}, {text: by}, {text: known(p.Inertia, inertia[i])}})
	}
	table(b, o.width(), []head{
		{text: "part", least: 12}, {text: "on", least: 12}, {text: "mass\n" + quantity.Unit(quantity.Mass, o.Units), right: true}, {text: "by"},
		{text: "inertia\n" + quantity.Unit(quantity.MomentOfInertia, o.Units), right: true},
	}, rows)
}

// known is a number, or the sign that there is none.
func known(v float64, text string) string {
	if math.IsNaN(v) {
		return view.Absent
	}
	return text
}

// scalesTable has one row per reading of the scales, beside what the same parts weigh by their dimensions: a check of both.
func scalesTable(b *bytes.Buffer, w *gearbox.Weights, o Options) {
	if len(w.Pieces) == 0 {
		return
	}
	var masses []float64
	for _, p := range w.Pieces {
		masses = append(masses, p.Weighed, p.Computed)
	}
	mass := view.AlikeIn(masses, quantity.Mass, o.Units)
	var rows [][]cell
	for i, p := range w.Pieces {
		computed, difference := view.Absent, view.Absent
		if p.Computed > 0 {
			computed, difference = mass[2*i+1], view.Percent(p.Difference())
		}
		rows = append(rows, []cell{{text: view.List(each(p.Names, view.Clean))}, {text: mass[2*i]}, {text: computed}, {text: difference}})
	}
	unit := quantity.Unit(quantity.Mass, o.Units)
	b.WriteString("\n  On the scales\n")
	table(b, o.width(), []head{
		{text: "what", least: 20}, {text: "weighed\n" + unit, right: true}, {text: "by dimensions\n" + unit, right: true}, {text: "difference\n%", right: true},
	}, rows)
}

// massTable has one row per box.
func massTable(b *bytes.Buffer, boxes []study.WeighedBox, names []string, o Options, notes *footnotes) {
	const columns = 6
	var masses []float64
	for _, box := range boxes {
		w := box.Result.Weights
		others, whole := w.Others, w.Box.Weighed.Box
		if others == 0 {
			others = math.NaN()
		}
		if whole == 0 {
			whole = math.NaN()
		}
		masses = append(masses, w.Shafts, w.Gears, w.Turning(), others, whole, w.Rest())
	}
	text := view.AlikeIn(masses, quantity.Mass, o.Units)
	var rows [][]cell
	for i, box := range boxes {
		row := []cell{{text: names[i], mark: notes.mark(remarks("", nil, box.Result.Weights.Notes))}}
		for k := range columns {
			row = append(row, cell{text: known(masses[i*columns+k], text[i*columns+k])})
		}
		rows = append(rows, row)
	}
	unit := quantity.Unit(quantity.Mass, o.Units)
	b.WriteString("\n  What it weighs\n")
	table(b, o.width(), []head{
		{text: "box", least: 3 + o.widestMark()},
		{text: "shafts\n" + unit, right: true}, {text: "gears\n" + unit, right: true}, {text: "together\n" + unit, right: true},
		{text: "other parts\ngiven, " + unit, right: true}, {text: "whole box\nweighed, " + unit, right: true}, {text: "not item-\nised, " + unit, right: true},
	}, rows)
}

// pull is one speed of one box: its torque per mass, and what its synchroniser has to match. What isn't known is NaN.
type pull struct {
	speed            string
	box              int
	result           *gearbox.SpeedResult
	perMass, inertia float64
	up, down, heat   float64
	unknown          []string // why the synchroniser isn't known
}

// pulls lists every speed of every box, speed by speed.
func pulls(boxes []study.WeighedBox) (all []pull) {
	speeds := []string{}
	for _, box := range boxes {
		for i := range box.Result.Speeds {
			if name := box.Result.Speeds[i].Name; !slices.Contains(speeds, name) {
				speeds = append(speeds, name)
			}
		}
	}
	for _, speed := range speeds {
		for i := range boxes {
			for k := range boxes[i].Result.Speeds {
				if s := &boxes[i].Result.Speeds[k]; s.Name == speed {
					all = append(all, newPull(&boxes[i], i, s))
				}
			}
		}
	}
	return all
}

func newPull(box *study.WeighedBox, i int, s *gearbox.SpeedResult) pull {
	nan := math.NaN()
	p := pull{speed: view.Clean(s.Name), box: i, result: s, perMass: box.PerMassOf(s.Name), inertia: nan, up: nan, down: nan, heat: nan}
	y := box.Synchroniser(s.Name)
	if y == nil {
		return p
	}
	p.inertia = y.Inertia
	if y.Unknown != "" {
		p.unknown = append(p.unknown, "Not known at the synchroniser of "+p.speed+": "+y.Unknown+".")
	}
	if y.Up != nil {
		p.up, p.heat = y.Up.TorqueTime, y.Up.Heat
	}
	if y.Down != nil {
		p.down = y.Down.TorqueTime
		if !(p.heat >= y.Down.Heat) {
			p.heat = y.Down.Heat
		}
	}
	return p
}

// borneTable has one row per speed and box.
func borneTable(b *bytes.Buffer, boxes []study.WeighedBox, names []string, o Options, notes *footnotes) {
	all := pulls(boxes)
	if len(all) == 0 {
		return
	}
	numbers := func(d quantity.Dimension, of func(p pull) float64) []string {
		values := each(all, of)
		text := view.AlikeIn(values, d, o.Units)
		for i, v := range values {
			text[i] = known(v, text[i])
		}
		return text
	}
	torque := numbers(quantity.Torque, func(p pull) float64 { return p.result.First.Torque })
	perMass := numbers(quantity.TorquePerMass, func(p pull) float64 { return p.perMass })
	inertia := numbers(quantity.MomentOfInertia, func(p pull) float64 { return p.inertia })
	up, down := numbers(quantity.TorqueTime, func(p pull) float64 { return p.up }), numbers(quantity.TorqueTime, func(p pull) float64 { return p.down })
	heat := numbers(quantity.Energy, func(p pull) float64 { return p.heat })
	var rows [][]cell
	before := ""
	for i, p := range all {
		speed := p.speed
		if speed == before {
			speed = ""
		}
		before = p.speed
		margin, state := view.Absent, cell{text: view.Absent}
		if len(p.result.Margins) > 0 {
			m := p.result.Governing()
			if state = stateCell(m.State, o.Colour); view.Finite(m.Margin) {
				margin = view.Percent(m.Margin)
			}
		}
		rows = append(rows, []cell{
			{text: speed}, {text: names[p.box], mark: notes.mark(remarks("", nil, p.unknown))}, {text: torque[i]}, {text: perMass[i]}, {text: margin}, state,
			{text: inertia[i]}, {text: up[i]}, {text: down[i]}, {text: heat[i]},
		})
	}
	number := func(name string, d quantity.Dimension) head {
		return head{text: name + "\n" + quantity.Unit(d, o.Units), right: true}
	}
	heads := []head{
		{text: "speed", least: 5}, {text: "box", least: 3 + o.widestMark()},
		number("allowable", quantity.Torque), number("per mass", quantity.TorquePerMass), {text: "margin\n%", right: true}, {text: "state"},
		number("inertia", quantity.MomentOfInertia), number("up", quantity.TorqueTime), number("down", quantity.TorqueTime), number("heat", quantity.Energy),
	}
	// Where there is no room, heat, which goes with torque × time, and then the state, which the margin tells too, are left out.
	const stateAt, heatAt = 5, 9
	for _, at := range []int{heatAt, stateAt} {
		if narrowest(heads, rows) <= o.width() {
			break
		}
		heads = slices.Delete(heads, at, at+1)
		for i := range rows {
			rows[i] = slices.Delete(rows[i], at, at+1)
		}
	}
	of := "shafts and gears"
	if boxes[0].Whole {
		of = "the whole box"
	}
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, "Torque per mass ("+of+"), and what its synchronisers have to match")
	table(b, o.width(), heads, rows)
	if !slices.ContainsFunc(all, func(p pull) bool { return p.up > 0 || p.down > 0 }) {
		return
	}
	words := "Up: torque × time that slows it down in a shift into this speed from the one below, begun at the revs of the file. Down: the same, to speed it up from the one above, ended at them."
	if len(heads) > heatAt {
		words += " Heat: what the worse of both leaves in the cones."
	}
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, words+" Oil drag is left out.")
}

// narrowest is how many columns a table needs at least.
func narrowest(heads []head, rows [][]cell) int {
	total := view.Width(indent) + view.Width(gap)*(len(heads)-1)
	for i, h := range heads {
		width := 0
		for _, line := range strings.Split(h.text, "\n") {
			width = max(width, view.Width(line))
		}
		for _, row := range rows {
			width = max(width, view.Width(row[i].text)+view.Width(row[i].mark))
		}
		if h.least > 0 {
			width = min(width, h.least)
		}
		total += width
	}
	return total
}

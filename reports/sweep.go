package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Sweep writes the text report of a sweep.
func Sweep(w io.Writer, s *study.Sweep, o Options) error {
	if err := checkSweep(s); err != nil {
		return err
	}
	var b bytes.Buffer
	paragraph(&b, o.width(), "", sweepHeadline(s, o))
	b.WriteByte('\n')
	title(&b, o.width(), view.Clean(s.Box.Name), "")
	for _, a := range s.Axes {
		paragraph(&b, o.width(), indent, axisWords(&a, o))
	}
	paragraph(&b, o.width(), indent, sweptTorque(s, o)+" Looked at: "+speedsWords(s)+".")
	if len(s.Axes) == 1 {
		lineTables(&b, s, o)
	} else {
		planeTable(&b, s, o)
	}
	metTable(&b, s, o)
	gapList(&b, s, o)
	foot(&b, o)
	return write(w, &b)
}

func checkSweep(s *study.Sweep) error {
	switch {
	case s == nil || s.Box == nil || len(s.Axes) == 0 || len(s.Axes) > 2 || len(s.Points) == 0:
		return errors.New("there is no sweep to report: vary one or two numbers of a box")
	case len(s.Axes) == 2 && len(s.Points) != len(s.Axes[0].Values)*len(s.Axes[1].Values), len(s.Axes) == 1 && len(s.Points) != len(s.Axes[0].Values):
		return errors.New("the points of the sweep don't fit its axes")
	}
	return nil
}

// axisWords say what is varied.
func axisWords(a *study.Axis, o Options) string {
	n := len(a.Values)
	steps := "1 step"
	if n > 2 {
		steps = fmt.Sprintf("%d steps", n-1)
	}
	text := fmt.Sprintf("Varied: %s from %s to %s in %s", view.Clean(a.Key), axisValue(a, a.Values[0], o), axisValue(a, a.Values[n-1], o), steps)
	if math.IsNaN(a.Now) {
		return text + "; the file doesn't give it."
	}
	return text + "; the file has " + axisValue(a, a.Now, o) + "."
}

// axisValue is a value of an axis with its unit.
func axisValue(a *study.Axis, v float64, o Options) string {
	if a.Whole {
		return view.Fixed(v, 0)
	}
	return view.WithDigits(v, a.Dimension, o.Units, 4)
}

// axisColumn are the values of an axis without their unit.
func axisColumn(a *study.Axis, values []float64, o Options) []string {
	if a.Whole {
		return each(values, func(v float64) string { return view.Fixed(v, 0) })
	}
	return view.AlikeIn(values, a.Dimension, o.Units)
}

// axisHead is the end of a key path and the unit: "right.at, mm".
func axisHead(a *study.Axis, o Options) string {
	name := view.Clean(a.Key)
	if parts := strings.Split(name, "."); len(parts) > 2 {
		name = strings.Join(parts[len(parts)-2:], ".")
	}
	return strings.TrimSuffix(view.Shorten(name, 24)+"\n"+quantity.Unit(a.Dimension, o.Units), "\n")
}

func sweptTorque(s *study.Sweep, o Options) string {
	torque, varied := math.NaN(), false
	for i := range s.Points {
		if p := &s.Points[i]; p.Gap == "" {
			varied = varied || !math.IsNaN(torque) && p.Asked != torque
			torque = p.Asked
		}
	}
	switch {
	case math.IsNaN(torque):
		return "Nothing could be solved."
	case varied:
		return "The input torque is varied."
	}
	text := "Input torque " + asked(torque, o) + "."
	if s.Box.Clutch != nil || s.Box.Car != nil {
		text += " What is allowed is the torque at the input, as if all of it arrived."
	}
	return text
}

func speedsWords(s *study.Sweep) string {
	names := each(s.Speeds, view.Clean)
	if len(names) == 1 {
		return names[0]
	}
	return view.List(names) + "; the one with the least torque counts"
}

// SweepHeadline says in words what the sweep found.
func SweepHeadline(s *study.Sweep, o Options) string {
	return strings.ReplaceAll(sweepHeadline(s, o), view.NoBreak, " ")
}

func sweepHeadline(s *study.Sweep, o Options) string {
	if checkSweep(s) != nil {
		return "Nothing was calculated."
	}
	const hair = 1e-9
	least, most := -1, -1
	at := func(i int) float64 { _, first := s.Points[i].First(); return first.Torque }
	for i := range s.Points {
		if s.Points[i].Gap != "" {
			continue
		}
		if least < 0 || at(i) < at(least)*(1-hair) { // of equal ones the first
			least = i
		}
		if most < 0 || at(i) > at(most)*(1+hair) {
			most = i
		}
	}
	name := view.Shorten(view.Clean(s.Box.Name), 40)
	if least < 0 {
		return "No value in the range makes a box that can be solved: " + s.Points[0].Gap
	}
	limit := func(i int) string {
		k, first := s.Points[i].First()
		if !view.Finite(first.Torque) {
			return view.NotReached
		}
		return limitAt(first, s.Speeds[k])
	}
	low, high := limit(least), limit(most)
	if high == low {
		high = "by the same"
	} else {
		high = "limited by " + high
	}
	text := fmt.Sprintf("%s bears from %s (at %s), limited by %s, to %s (at %s), %s.", name,
		view.With(at(least), quantity.Torque, o.Units), pointWords(s, least, o), low, view.With(at(most), quantity.Torque, o.Units), pointWords(s, most, o), high)
	if math.Abs(at(most)/at(least)-1) < 5e-4 {
		text = fmt.Sprintf("%s bears %s wherever in the range, limited by %s.", name, view.With(at(least), quantity.Torque, o.Units), low)
	}
	return text + " " + decidesWords(s) + metSentence(s, o)
}

// decidesWords says which limits count in a sweep.
func decidesWords(s *study.Sweep) string {
	switch {
	case len(s.Kinds) > 0:
		return "Only this decides, as asked: " + strings.Join(each(s.Kinds, gearbox.Kind.String), "; ") + "."
	case s.Box.Duty == nil:
		return "What breaks decides; no duty is given, so wear isn't judged, and guides don't decide."
	}
	return "What breaks decides, and what wears out under the duty; guides don't."
}

func pointWords(s *study.Sweep, i int, o Options) string {
	var parts []string
	for k := range s.Axes {
		parts = append(parts, axisValue(&s.Axes[k], s.Points[i].Values[k], o))
	}
	return strings.Join(parts, " and ")
}

// targetWords are what is wanted.
func targetWords(t *study.Target, o Options) string {
	if t.Torque > 0 {
		return "an allowable torque of " + view.With(t.Torque, quantity.Torque, o.Units)
	}
	return "a margin of " + strings.TrimPrefix(view.Percent(t.Margin), "+") + view.NoBreak + "%"
}

// metSentence says where the target is met.
func metSentence(s *study.Sweep, o Options) string {
	if s.Target == nil {
		return ""
	}
	wanted := targetWords(s.Target, o)
	if len(s.Met) == 0 {
		solved := slices.IndexFunc(s.Points, func(p study.Point) bool { return p.Gap == "" })
		if solved >= 0 && s.Target.Met(&s.Points[solved]) {
			return " " + strings.ToUpper(wanted[:1]) + wanted[1:] + " is there all over the range."
		}
		return " Nowhere in the range is there " + wanted + "."
	}
	if len(s.Axes) == 2 {
		return fmt.Sprintf(" Where there is %s stands in the last table.", wanted)
	}
	var parts []string
	for _, m := range s.Met {
		parts = append(parts, metWords(&s.Axes[0], m, o))
	}
	return fmt.Sprintf(" There is %s %s.", wanted, strings.Join(parts, ", and "))
}

// metWords are one crossing: "from 231.42 mm on".
func metWords(a *study.Axis, m study.Met, o Options) string {
	at := axisValue(a, m.At, o)
	if !a.Whole {
		at = view.WithDigits(m.At, a.Dimension, o.Units, 5)
	}
	if m.Rising {
		return "from " + at + " on"
	}
	return "up to " + at
}

// lineTables are those of one axis: the first limit at each value, what governs where, and every speed.
func lineTables(b *bytes.Buffer, s *study.Sweep, o Options) {
	a := &s.Axes[0]
	values := axisColumn(a, a.Values, o)
	torques, factors, meshes := make([]float64, len(s.Points)), make([]float64, len(s.Points)), make([]string, len(s.Points))
	for i := range s.Points {
		torques[i], factors[i] = math.NaN(), math.NaN()
		if p := &s.Points[i]; p.Gap == "" {
			_, first := p.First()
			torques[i], factors[i], meshes[i] = first.Torque, p.Speeds[p.Worst].FaceFactor, view.Clean(p.Speeds[p.Worst].FaceMesh)
		}
	}
	torque, factor := view.AlikeIn(torques, quantity.Torque, o.Units), view.Alike(factors)
	var rows [][]cell
	for i := range s.Points {
		p := &s.Points[i]
		if p.Gap != "" {
			rows = append(rows, texts(values[i], view.Absent, view.Absent, "", "can't be: see below", view.Absent, ""))
			continue
		}
		k, first := p.First()
		name := view.NotReached
		if view.Finite(first.Torque) {
			name = limitBeside(first, s.Speeds[k])
		}
		if math.IsNaN(factors[i]) {
			factor[i] = view.Absent
		}
		rows = append(rows, texts(values[i], torque[i], view.Percent(p.Speeds[k].Margin), view.Clean(s.Speeds[k]), name, factor[i], meshes[i]))
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	b.WriteString("\n  What limits it\n")
	table(b, o.width(), []head{
		{text: axisHead(a, o), right: true},
		{text: "allowable\n" + unit, right: true},
		{text: "left\n%", right: true},
		{text: "in", least: 5},
		{text: "limited by", least: 12, wrap: true},
		{text: "K_Hβ\nthere", right: true},
		{text: "of mesh", least: 5},
	}, rows)
	if len(s.Speeds) > 1 {
		speedsTable(b, s, values, o)
	}
}

// mostSpeeds is how many speeds stand beside each other in one table, mostAcross how many values of a second axis.
const (
	mostSpeeds = 8
	mostAcross = 11
)

// speedsTable has the allowable torque of every speed at each value.
func speedsTable(b *bytes.Buffer, s *study.Sweep, values []string, o Options) {
	columns := make([][]string, len(s.Speeds))
	for k := range s.Speeds {
		torques := make([]float64, len(s.Points))
		for i := range s.Points {
			torques[i] = math.NaN()
			if s.Points[i].Gap == "" {
				torques[i] = s.Points[i].Speeds[k].First.Torque
			}
		}
		columns[k] = view.AlikeIn(torques, quantity.Torque, o.Units)
		for i, t := range torques {
			if math.IsNaN(t) {
				columns[k][i] = view.Absent
			}
		}
	}
	fmt.Fprintf(b, "\n  Allowable torque of every speed, %s\n", quantity.Unit(quantity.Torque, o.Units))
	for from := 0; from < len(s.Speeds); from += mostSpeeds {
		to := min(from+mostSpeeds, len(s.Speeds))
		heads := []head{{text: axisHead(&s.Axes[0], o), right: true}}
		for _, name := range s.Speeds[from:to] {
			heads = append(heads, head{text: view.Shorten(view.Clean(name), 8), right: true})
		}
		var rows [][]cell
		for i := range s.Points {
			row := texts(values[i])
			for k := from; k < to; k++ {
				row = append(row, cell{text: columns[k][i]})
			}
			rows = append(rows, row)
		}
		table(b, o.width(), heads, rows)
	}
}

// planeTable is that of two axes: the allowable torque with a letter for what governs.
func planeTable(b *bytes.Buffer, s *study.Sweep, o Options) {
	rowsAxis, across := &s.Axes[0], &s.Axes[1]
	n := len(across.Values)
	governors, of := s.Governors()
	torques := make([]float64, len(s.Points))
	for i := range s.Points {
		torques[i] = math.NaN()
		if s.Points[i].Gap == "" {
			_, first := s.Points[i].First()
			torques[i] = first.Torque
		}
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	down, over := axisColumn(rowsAxis, rowsAxis.Values, o), axisColumn(across, across.Values, o)
	fmt.Fprintf(b, "\n  Allowable torque, %s, with a letter for what limits it\n", quantity.Unit(quantity.Torque, o.Units))
	paragraph(b, o.width(), indent, fmt.Sprintf("Down: %s. Across: %s.", strings.ReplaceAll(axisHead(rowsAxis, o), "\n", ", "), strings.ReplaceAll(axisHead(across, o), "\n", ", ")))
	for from := 0; from < n; from += mostAcross {
		to := min(from+mostAcross, n)
		heads := []head{{text: "", right: true}}
		for j := from; j < to; j++ {
			heads = append(heads, head{text: over[j] + "  ", right: true})
		}
		var rows [][]cell
		for i := range rowsAxis.Values {
			row := texts(down[i])
			for j := from; j < to; j++ {
				k := i*n + j
				if s.Points[k].Gap != "" {
					row = append(row, cell{text: view.Absent + "  "})
					continue
				}
				row = append(row, cell{text: torque[k] + " " + view.Letter(of[k])})
			}
			rows = append(rows, row)
		}
		table(b, o.width(), heads, rows)
	}
	for i, g := range governors {
		paragraph(b, o.width(), indent+view.Letter(i)+"  ", governorWords(g))
	}
}

func governorWords(g study.Governor) string {
	return view.Clean(g.Speed) + ": " + limitWords(gearbox.FirstLimit{Kind: g.Kind, Item: g.Item})
}

// metTable says where the target is met, and how exactly that is known.
func metTable(b *bytes.Buffer, s *study.Sweep, o Options) {
	if s.Target == nil || len(s.Met) == 0 {
		return
	}
	b.WriteString("\n  Where there is " + strings.ReplaceAll(targetWords(s.Target, o), view.NoBreak, " ") + "\n")
	a := &s.Axes[0]
	var rows [][]cell
	jump := false
	for _, m := range s.Met {
		row := []cell{}
		if len(s.Axes) == 2 {
			row = append(row, cell{text: axisValue(&s.Axes[1], m.Other, o)})
		}
		text := metWords(a, m, o)
		if m.Jump {
			text += " (jumps)"
			jump = true
		}
		within := "whole numbers"
		if m.Within > 0 {
			within = "± " + view.WithDigits(m.Within, a.Dimension, o.Units, 1)
		}
		rows = append(rows, append(row, cell{text: text}, cell{text: within}))
	}
	heads := []head{{text: view.Shorten(view.Clean(a.Key), 40)}, {text: "found to"}}
	if len(s.Axes) == 2 {
		heads = append([]head{{text: view.Shorten(view.Clean(s.Axes[1].Key), 40)}}, heads...)
	}
	table(b, o.width(), heads, rows)
	if jump {
		paragraph(b, o.width(), indent, "Jumps: the torque leaps over the target there instead of passing through it, or there is no box beyond.")
	}
	paragraph(b, o.width(), indent, "Found between neighbouring steps; a target that is met and lost again between two steps is not seen. More --steps see more.")
}

// gapList says why some values are not buildable, each reason once.
func gapList(b *bytes.Buffer, s *study.Sweep, o Options) {
	first, count := map[string]int{}, map[string]int{}
	var order []string
	for i := range s.Points {
		if gap := s.Points[i].Gap; gap != "" {
			if count[gap]++; count[gap] == 1 {
				first[gap] = i
				order = append(order, gap)
			}
		}
	}
	if len(order) == 0 {
		return
	}
	b.WriteString("\n  Values that are not buildable\n")
	const most = 6
	for n, gap := range order {
		if n == most {
			paragraph(b, o.width(), indent, fmt.Sprintf("… and %d more reasons.", len(order)-most))
			break
		}
		at := pointWords(s, first[gap], o)
		if count[gap] > 1 {
			at += fmt.Sprintf(", and %d more", count[gap]-1)
		}
		paragraph(b, o.width(), indent, at+": "+gap)
	}
}

package view

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// ReportableSweep refuses a sweep of which no report can be made.
func ReportableSweep(s *study.Sweep) error {
	switch {
	case s == nil || s.Box == nil || len(s.Axes) == 0 || len(s.Axes) > 2 || len(s.Points) == 0:
		return errors.New("there is no sweep to report: vary one or two numbers of a box")
	case len(s.Axes) == 2 && len(s.Points) != len(s.Axes[0].Values)*len(s.Axes[1].Values), len(s.Axes) == 1 && len(s.Points) != len(s.Axes[0].Values):
		return errors.New("the points of the sweep don't fit its axes")
	}
	return nil
}

// SweepIntro says what is varied, at what torque, and which speeds are looked at.
func SweepIntro(s *study.Sweep, o Options) []string {
	varied := Each(s.Axes, func(a study.Axis) string { return axisWords(&a, o) })
	return append(varied, sweptTorque(s, o)+" Looked at: "+speedsWords(s)+".")
}

// axisWords say what is varied.
func axisWords(a *study.Axis, o Options) string {
	n := len(a.Values)
	steps := "1 step"
	if n > 2 {
		steps = fmt.Sprintf("%d steps", n-1)
	}
	text := fmt.Sprintf("Varied: %s from %s to %s in %s", Clean(a.Key), AxisValue(a, a.Values[0], o), AxisValue(a, a.Values[n-1], o), steps)
	if math.IsNaN(a.Now) {
		return text + "; the file doesn't give it."
	}
	return text + "; the file has " + AxisValue(a, a.Now, o) + "."
}

// AxisValue is a value of an axis with its unit.
func AxisValue(a *study.Axis, v float64, o Options) string {
	if a.Whole {
		return Fixed(v, 0)
	}
	return WithDigits(v, a.Dimension, o.Units, 4)
}

// axis is the column of the values of an axis.
func (o Options) axis(a *study.Axis) Column {
	c := numbers(AxisName(a), a.Dimension)
	if a.Whole {
		return c.rounded(0)
	}
	c.decimals = func(values []float64) (n int) { // as many as tell the steps apart
		for _, v := range values {
			for n < 6 && math.Abs(v-math.Round(v*math.Pow10(n))/math.Pow10(n)) > 1e-9*math.Abs(v) {
				n++
			}
		}
		return min(n, max(Decimals(values), 1)+2)
	}
	return c
}

// AxisName is the end of a key path: "right.at".
func AxisName(a *study.Axis) string {
	name := Clean(a.Key)
	if parts := strings.Split(name, "."); len(parts) > 2 {
		name = strings.Join(parts[len(parts)-2:], ".")
	}
	return Shorten(name, 24)
}

// AxisHead is the end of a key path and the unit: "right.at, mm".
func AxisHead(a *study.Axis, o Options) string {
	return strings.TrimSuffix(AxisName(a)+", "+quantity.Unit(a.Dimension, o.Units), ", ")
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
	names := Each(s.Speeds, Clean)
	if len(names) == 1 {
		return names[0]
	}
	return List(names) + "; the one with the least torque counts"
}

// SweepHeadline says in words what the sweep found.
func SweepHeadline(s *study.Sweep, o Options) string {
	if ReportableSweep(s) != nil {
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
	name := Shorten(Clean(s.Box.Name), 40)
	if least < 0 {
		return "No value in the range makes a box that can be solved: " + Clean(s.Points[0].Gap)
	}
	limit := func(i int) string {
		k, first := s.Points[i].First()
		if !Finite(first.Torque) {
			return NotReached
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
		With(at(least), quantity.Torque, o.Units), pointWords(s, least, o), low, With(at(most), quantity.Torque, o.Units), pointWords(s, most, o), high)
	if math.Abs(at(most)/at(least)-1) < 5e-4 {
		text = fmt.Sprintf("%s bears %s wherever in the range, limited by %s.", name, With(at(least), quantity.Torque, o.Units), low)
	}
	return text + " " + decidesWords(s) + metSentence(s, o)
}

// decidesWords says which limits count in a sweep.
func decidesWords(s *study.Sweep) string {
	switch {
	case len(s.Kinds) > 0:
		return "Only this decides, as asked: " + strings.Join(Each(s.Kinds, gearbox.Kind.String), "; ") + "."
	case s.Box.Duty == nil:
		return "What breaks decides; no duty is given, so wear isn't judged, and guides don't decide."
	}
	return "What breaks decides, and what wears out under the duty; guides don't."
}

func pointWords(s *study.Sweep, i int, o Options) string {
	var parts []string
	for k := range s.Axes {
		parts = append(parts, AxisValue(&s.Axes[k], s.Points[i].Values[k], o))
	}
	return strings.Join(parts, " and ")
}

// targetWords are what is wanted.
func targetWords(t *study.Target, o Options) string {
	if t.Torque > 0 {
		return "an allowable torque of " + With(t.Torque, quantity.Torque, o.Units)
	}
	return "a margin of " + strings.TrimPrefix(Percent(t.Margin), "+") + NoBreak + "%"
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
	at := AxisValue(a, m.At, o)
	if !a.Whole {
		at = WithDigits(m.At, a.Dimension, o.Units, 5)
	}
	if m.Rising {
		return "from " + at + " on"
	}
	return "up to " + at
}

// SweepTables are those of a sweep: of one axis the first limit at each value, what governs where, and every speed; of two the torque with
// a letter for what governs.
func SweepTables(s *study.Sweep, o Options) []*Table {
	if len(s.Axes) == 2 {
		return []*Table{planeTable(s, o)}
	}
	return []*Table{lineTable(s, o), speedsTable(s, o)}
}

// lineTable is the first limit at each value of one axis.
func lineTable(s *study.Sweep, o Options) *Table {
	t := o.table("What limits it", o.axis(&s.Axes[0]), numbers("allowable", quantity.Torque), right("left", "%"), words("in", 5), wrapped("limited by", 12),
		numbers("K_Hβ\nthere", quantity.Number), words("of mesh", 5))
	for i := range s.Points {
		p := &s.Points[i]
		at := number(p.Values[0])
		if p.Gap != "" {
			t.add(at, absent(), absent(), word(""), word("can't be: see below"), absent(), word(""))
			continue
		}
		k, first := p.First()
		name := NotReached
		if Finite(first.Torque) {
			name = LimitBeside(first, s.Speeds[k])
		}
		worst := &p.Speeds[p.Worst]
		t.add(at, known(first.Torque), percent(p.Speeds[k].Margin), word(s.Speeds[k]), word(name), known(worst.FaceFactor), word(worst.FaceMesh))
	}
	return t.done()
}

// speedsTable has the allowable torque of every speed at each value; nothing where there is only one.
func speedsTable(s *study.Sweep, o Options) *Table {
	if len(s.Speeds) < 2 {
		return nil
	}
	t := o.table("Allowable torque of every speed", o.axis(&s.Axes[0]))
	for _, name := range s.Speeds {
		t.columns(numbers(Shorten(Clean(name), 8), quantity.Torque))
	}
	for i := range s.Points {
		row := []Cell{number(s.Points[i].Values[0])}
		for k := range s.Speeds {
			if s.Points[i].Gap != "" {
				row = append(row, absent())
			} else {
				row = append(row, limitTorque(s.Points[i].Speeds[k].First.Torque))
			}
		}
		t.add(row...)
	}
	return t.done()
}

// Field is one point of a sweep of two axes.
type Field struct {
	*study.Point
	Torque float64 // allowable, N·mm; NaN where no box can be built
	Text   string  // the torque, with the decimals of all fields
	Letter string  // of what limits it
}

// Fields are the points of a sweep of two axes, the second running fastest, and what their letters stand for.
func Fields(s *study.Sweep, o Options) (fields []Field, letters [][2]string) {
	governors, of := s.Governors()
	torques := Each(s.Points, func(p study.Point) float64 {
		if p.Gap != "" {
			return math.NaN()
		}
		_, first := p.First()
		return first.Torque
	})
	texts := AlikeIn(torques, quantity.Torque, o.Units)
	for i := range s.Points {
		f := Field{Point: &s.Points[i], Torque: torques[i], Text: Absent}
		if f.Gap == "" {
			f.Text, f.Letter = texts[i], Letter(of[i])
		}
		fields = append(fields, f)
	}
	return fields, Governors(governors)
}

// Governors are the limits that govern somewhere in a sweep, each behind its letter.
func Governors(all []study.Governor) (lettered [][2]string) {
	for i, g := range all {
		lettered = append(lettered, [2]string{Letter(i), Clean(g.Speed) + ": " + limitWords(gearbox.FirstLimit{Kind: g.Kind, Item: g.Item})})
	}
	return lettered
}

// PlaneCaption says what the fields of two axes show.
func PlaneCaption(s *study.Sweep, o Options) string {
	return fmt.Sprintf("Allowable torque, %s, with a letter for what limits it. Down: %s. Across: %s", quantity.Unit(quantity.Torque, o.Units), AxisHead(&s.Axes[0], o), AxisHead(&s.Axes[1], o))
}

// AxisTexts are the values of an axis without their unit.
func AxisTexts(a *study.Axis, o Options) []string {
	values := Converted(a.Values, a.Dimension, o.Units)
	if a.Whole {
		return Each(values, func(v float64) string { return Fixed(v, 0) })
	}
	return Alike(values)
}

// planeTable is that of two axes: the allowable torque with a letter for what governs.
func planeTable(s *study.Sweep, o Options) *Table {
	t := o.table(PlaneCaption(s, o), right("", ""))
	for _, text := range AxisTexts(&s.Axes[1], o) {
		t.columns(right(text+"  ", ""))
	}
	fields, letters := Fields(s, o)
	n := len(s.Axes[1].Values)
	for i, text := range AxisTexts(&s.Axes[0], o) {
		row := []Cell{word(text)}
		for _, f := range fields[i*n : (i+1)*n] {
			row = append(row, Cell{Text: fmt.Sprintf("%s %1s", f.Text, f.Letter)})
		}
		t.add(row...)
	}
	for _, l := range letters {
		t.say(l[0] + "  " + l[1])
	}
	return t.done()
}

// MetTable says where the target is met, and how exactly that is known; nothing where it is met nowhere or all over.
func MetTable(s *study.Sweep, o Options) *Table {
	if s.Target == nil {
		return nil
	}
	t := o.table("Where there is " + targetWords(s.Target, o))
	if len(s.Axes) == 2 {
		t.columns(words(Shorten(Clean(s.Axes[1].Key), 40), 0))
	}
	t.columns(words(Shorten(Clean(s.Axes[0].Key), 40), 0), words("found to", 0))
	a := &s.Axes[0]
	jump := false
	for _, m := range s.Met {
		var row []Cell
		if len(s.Axes) == 2 {
			row = append(row, word(AxisValue(&s.Axes[1], m.Other, o)))
		}
		text, within := metWords(a, m, o), "whole numbers"
		if m.Jump {
			text, jump = text+" (jumps)", true
		}
		if m.Within > 0 {
			within = "± " + WithDigits(m.Within, a.Dimension, o.Units, 1)
		}
		t.add(append(row, word(text), word(within))...)
	}
	if jump {
		t.say("Jumps: the torque leaps over the target there instead of passing through it, or there is no box beyond.")
	}
	t.say("Found between neighbouring steps; a target that is met and lost again between two steps is not seen. More --steps see more.")
	return t.done()
}

// GapWords say why some values are not buildable, each reason once.
func GapWords(s *study.Sweep, o Options) (all []string) {
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
	const most = 6
	for n, gap := range order {
		if n == most {
			return append(all, fmt.Sprintf("… and %d more reasons.", len(order)-most))
		}
		at := pointWords(s, first[gap], o)
		if count[gap] > 1 {
			at += fmt.Sprintf(", and %d more", count[gap]-1)
		}
		all = append(all, at+": "+Clean(gap))
	}
	return all
}

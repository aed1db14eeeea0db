package view

import (
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// History is what service history says of the steels of one box.
type History struct {
	Words  []string // each piece of it, with what stands in the way of a bound
	Tables []*Table
}

// HistoryOf is that of a box; nil when it has none.
func HistoryOf(b *gearbox.Box, o Options) *History {
	if len(b.Lessons) == 0 {
		return nil
	}
	return &History{
		Words:  Each(b.Lessons, func(l gearbox.Lesson) string { return lessonWords(l, o) }),
		Tables: []*Table{loadTable(b.Lessons, o), boundTable(b.Lessons, o), narrowedTable(b.Narrowed, o)},
	}
}

// lessonWords is one piece of service history, with what stands in the way of a bound.
func lessonWords(l gearbox.Lesson, o Options) string {
	s := Clean(l.Box) + " " + evidenceWords(l.Evidence, o) + "."
	for _, more := range []string{sentence(l.Evidence.Note), Clean(l.Why)} {
		if more != "" {
			s += " " + more
		}
	}
	return s
}

// sentence is a remark with a capital letter and a full stop.
func sentence(s string) string {
	if s = Line(s); s == "" {
		return s
	}
	if s = Capital(s); strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// evidenceWords is a piece of service history in words that follow the name of the box.
func evidenceWords(e gearbox.Evidence, o Options) string {
	torque := With(e.Torque, quantity.Torque, o.Units)
	s := "survived " + torque
	joint := " for "
	if e.Broke {
		s, joint = "broke at "+torque, " after "
	}
	if e.Peak > 0 {
		s += " with a peak of " + With(e.Peak, quantity.Torque, o.Units)
	}
	if e.Passes > 0 {
		s += joint + e.PassWords()
	}
	if e.Speed != "" {
		s += " in " + Clean(e.Speed)
	}
	var what []string
	if e.Gear != "" {
		what = append(what, Clean(e.Gear))
	}
	if e.By != "" {
		what = append(what, string(e.By))
	}
	if e.Opened {
		what = append(what, "opened and found sound")
	}
	if len(what) > 0 {
		s += ": " + strings.Join(what, ", ")
	}
	return s
}

// loadTable has one row per speed and piece of service history: the load that counts of it.
func loadTable(lessons []gearbox.Lesson, o Options) *Table {
	torque := func(head string) Column { return numbers(head, quantity.Torque).alike(1) }
	t := o.table("The load that counts of it, as input torque", once("no.", 0), words("speed", 5), torque("peak"), words("limited by", 0), torque("continuous"), words("limited by", 0))
	for i, l := range lessons {
		for _, c := range l.Loads {
			t.add(word(strconv.Itoa(i+1)), word(c.Speed), number(c.Peak.Torque), word(string(c.Peak.By)), number(c.Running.Torque), word(string(c.Running.By)))
		}
	}
	return t.done()
}

// boundTable has one row per strength that service history bounds.
func boundTable(lessons []gearbox.Lesson, o Options) *Table {
	var needed, counted []float64
	var steels []string
	for _, l := range lessons {
		for _, bound := range l.Bounds {
			needed, counted = append(needed, bound.Needed), append(counted, bound.Counted)
			if !slices.Contains(steels, bound.Steel) {
				steels = append(steels, bound.Steel)
			}
		}
	}
	unit := quantity.Unit(quantity.Stress, o.Units)
	t := o.table("Strength required of parts, and implied strength of the steel", once("no.", 0))
	if len(steels) > 1 {
		t.columns(words("steel", 8))
	}
	t.columns(words("strength", 12), wrapped("what decides", 12), words("speed", 5), right("strength\nrequired", unit), right("implied\nstrength", unit))
	needs, counts := AlikeIn(needed, quantity.Stress, o.Units), AlikeIn(counted, quantity.Stress, o.Units)
	for i, l := range lessons {
		for _, bound := range l.Bounds {
			says := "≥ " + counts[len(t.Rows)]
			if bound.Upper {
				says = "≤ " + counts[len(t.Rows)]
			}
			if bound.Aside {
				says = "(" + says + ")"
			}
			row := wordsOf(strconv.Itoa(i+1), bound.Steel, bound.Strength.String(), bound.Kind.Of(bound.Item), bound.Speed, needs[len(t.Rows)], says)
			if len(steels) < 2 {
				row = slices.Delete(row, 1, 2)
			}
			t.add(row...)
		}
	}
	return t.done()
}

// narrowedTable has one row per band that rests on service history; where none does, it says so without rows.
func narrowedTable(all []gearbox.Narrowed, o Options) *Table {
	unit := quantity.Unit(quantity.Stress, o.Units)
	t := o.table("Bands that rest on it: low … typical … high", words("steel", 8), words("strength", 12), right("was", unit), right("is", unit))
	if len(all) == 0 {
		t.Caption = ""
		t.say("None of it narrows a band: the steel was taken to be at least that strong already.")
	}
	for _, n := range all {
		t.add(wordsOf(n.Steel, n.Strength.String(), bandWords(n.Was, o), bandWords(n.Now, o))...)
	}
	return t
}

func bandWords(band material.Band, o Options) string {
	return strings.Join(AlikeIn([]float64{band.Low, band.Typical, band.High}, quantity.Stress, o.Units), " … ")
}

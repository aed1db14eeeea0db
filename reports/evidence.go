package reports

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// lessonTables tell what service history says of the steels of some boxes, and which of their bands it narrowed.
func lessonTables(b *bytes.Buffer, results []*gearbox.Result, names []string, o Options) {
	any := false
	for n, r := range results {
		if len(r.Box.Lessons) == 0 {
			continue
		}
		any = true
		b.WriteByte('\n')
		paragraph(b, o.width(), indent, "Service history, and what it says of the steel of "+names[n])
		for i, l := range r.Box.Lessons {
			paragraph(b, o.width(), fmt.Sprintf("%s%d  ", indent, i+1), lessonWords(l, o))
		}
		loadTable(b, r.Box.Lessons, o)
		boundTable(b, r.Box.Lessons, o)
		narrowedTable(b, r.Box.Narrowed, o)
	}
	if any {
		paragraph(b, o.width(), indent, study.EvidenceCaveat())
	}
}

// lessonWords is one piece of service history, with what stands in the way of a bound.
func lessonWords(l gearbox.Lesson, o Options) string {
	s := l.Box + " " + evidenceWords(l.Evidence, o) + "."
	for _, more := range []string{sentence(l.Evidence.Note), l.Why} {
		if more != "" {
			s += " " + more
		}
	}
	return s
}

// sentence is a remark with a capital letter and a full stop.
func sentence(s string) string {
	if s = strings.Join(strings.Fields(s), " "); s == "" {
		return s
	}
	first, size := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(first)) + s[size:]
	if strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// evidenceWords is a piece of service history in words that follow the name of the box.
func evidenceWords(e gearbox.Evidence, o Options) string {
	torque := view.With(e.Torque, quantity.Torque, o.Units)
	s := "survived " + torque
	joint := " for "
	if e.Broke {
		s, joint = "broke at "+torque, " after "
	}
	if e.Peak > 0 {
		s += " with a peak of " + view.With(e.Peak, quantity.Torque, o.Units)
	}
	if e.Passes > 0 {
		s += joint + e.PassWords()
	}
	if e.Speed != "" {
		s += " in " + e.Speed
	}
	var what []string
	if e.Gear != "" {
		what = append(what, e.Gear)
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
func loadTable(b *bytes.Buffer, lessons []gearbox.Lesson, o Options) {
	var rows [][]cell
	var torques []float64
	for _, l := range lessons {
		for _, c := range l.Loads {
			torques = append(torques, c.Peak.Torque, c.Running.Torque)
		}
	}
	if len(torques) == 0 {
		return
	}
	words := view.AlikeIn(torques, quantity.Torque, o.Units)
	n := 0
	for i, l := range lessons {
		number := strconv.Itoa(i + 1)
		for _, c := range l.Loads {
			rows = append(rows, []cell{
				{text: number}, {text: view.Clean(c.Speed)}, {text: words[n]}, {text: string(c.Peak.By)}, {text: words[n+1]}, {text: string(c.Running.By)},
			})
			number, n = "", n+2
		}
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	b.WriteString("\n  The load that counts of it, as input torque\n")
	table(b, o.width(), []head{
		{text: "no."}, {text: "speed", least: 5}, {text: "peak\n" + unit, right: true}, {text: "limited by"},
		{text: "continuous\n" + unit, right: true}, {text: "limited by"},
	}, rows)
}

// boundTable has one row per strength that service history bounds.
func boundTable(b *bytes.Buffer, lessons []gearbox.Lesson, o Options) {
	var rows [][]cell
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
	if len(needed) == 0 {
		return
	}
	needs, counts := view.AlikeIn(needed, quantity.Stress, o.Units), view.AlikeIn(counted, quantity.Stress, o.Units)
	n := 0
	for i, l := range lessons {
		number := strconv.Itoa(i + 1)
		for _, bound := range l.Bounds {
			sign := "≥ "
			if bound.Upper {
				sign = "≤ "
			}
			row := []cell{{text: number}}
			if len(steels) > 1 {
				row = append(row, cell{text: view.Clean(bound.Steel)})
			}
			says := sign + counts[n]
			if bound.Aside {
				says = "(" + says + ")"
			}
			decides := view.Clean(bound.Kind.Of(bound.Item))
			rows = append(rows, append(row, cell{text: bound.Strength.String()}, cell{text: decides}, cell{text: view.Clean(bound.Speed)}, cell{text: needs[n]}, cell{text: says}))
			number = ""
			n++
		}
	}
	heads := []head{{text: "no."}}
	if len(steels) > 1 {
		heads = append(heads, head{text: "steel", least: 8})
	}
	unit := quantity.Unit(quantity.Stress, o.Units)
	b.WriteByte('\n')
	table(b, o.width(), append(heads,
		head{text: "strength", least: 12}, head{text: "what decides", least: 12, wrap: true}, head{text: "speed", least: 5},
		head{text: "strength\nrequired\n" + unit, right: true}, head{text: "implied\nstrength\n" + unit, right: true}), rows)
}

// narrowedTable has one row per band that rests on service history.
func narrowedTable(b *bytes.Buffer, all []gearbox.Narrowed, o Options) {
	if len(all) == 0 {
		paragraph(b, o.width(), indent, "None of it narrows a band: the steel was taken to be at least that strong already.")
		return
	}
	var rows [][]cell
	for _, n := range all {
		was, now := bandCells(n.Was, o), bandCells(n.Now, o)
		rows = append(rows, []cell{{text: view.Clean(n.Steel)}, {text: n.Strength.String()}, {text: was}, {text: now}})
	}
	unit := quantity.Unit(quantity.Stress, o.Units)
	b.WriteString("\n  Bands that rest on it: low … typical … high\n")
	table(b, o.width(), []head{{text: "steel", least: 8}, {text: "strength", least: 12}, {text: "was\n" + unit, right: true}, {text: "is\n" + unit, right: true}}, rows)
}

func bandCells(band material.Band, o Options) string {
	return strings.Join(view.AlikeIn([]float64{band.Low, band.Typical, band.High}, quantity.Stress, o.Units), " … ")
}

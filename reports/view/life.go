package view

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/material"
)

// lifeWords tells how many passes of the duty last until the first part tires, for each kind of limit over all speeds; "" without a duty.
// What tires first need not be what leaves least torque: the duty asks more of some gears than of others.
func lifeWords(r *gearbox.Result) string {
	var words []string
	level := material.Low
	for _, kind := range gearbox.Kinds() {
		var first *gearbox.Margin
		for i := range r.Speeds {
			for k := range r.Speeds[i].Margins {
				if m := &r.Speeds[i].Margins[k]; m.Kind == kind && m.Life > 0 && (first == nil || m.Life < first.Life) {
					first = m
				}
			}
		}
		switch {
		case first == nil:
			continue
		case Repeats(first.Life) == Endless:
			words = append(words, strings.ReplaceAll(kind.String(), ", ", " ")+" endless")
		case Repeats(first.Life) == AtOnce:
			words = append(words, LimitName(first)+" at once")
		default:
			words = append(words, LimitName(first)+" after "+Repeats(first.Life))
		}
		level = first.Level
	}
	if len(words) == 0 {
		return ""
	}
	return "What the duty wears out first at this torque, and after how many repeats, by calculation with " + LifeTerms(level) + ": " + strings.Join(words, "; ") + ". " + LifeOrMargin()
}

// ShortestLife says what of a box wears out first under its duty, and when; "" when nothing does or no duty is given.
func ShortestLife(r *gearbox.Result) string {
	var first *gearbox.Margin
	for i := range r.Speeds {
		for k := range r.Speeds[i].Margins {
			if m := &r.Speeds[i].Margins[k]; m.Life > 0 && (first == nil || m.Life < first.Life) {
				first = m
			}
		}
	}
	switch {
	case first == nil || Repeats(first.Life) == Endless:
		return ""
	case Repeats(first.Life) == AtOnce:
		return fmt.Sprintf("The duty breaks %s at once (%s).", Clean(first.Item), first.Kind)
	}
	terms := LifeTerms(first.Level)
	if first.Kind == gearbox.BearingLife {
		terms = "the share of failures that its source names"
	}
	text := fmt.Sprintf("By calculation, with %s: %s repeats of the duty before %s wears out (%s)", terms, Repeats(first.Life), Clean(first.Item), first.Kind)
	if r.Box.Duty != nil {
		text += "; " + strconv.FormatFloat(r.Box.Duty.Passes, 'g', 6, 64) + " are asked"
	}
	return text + "."
}

// LifeTerms says for which steel and which share of failures a life holds.
func LifeTerms(l material.Level) string {
	steel := map[material.Level]string{material.Low: "steel at the low end of its range", material.Typical: "typical steel", material.High: "steel at the high end of its range"}[l]
	return steel + " and 1 failure in 100"
}

// LifeOrMargin says why the shortest life and the least margin may name different parts.
func LifeOrMargin() string {
	return "Life and torque margin may name different parts: each life falls with the torque along a curve of its own, and static strength may end a margin long before wear ends the life."
}

// LifeTable tells how many repeats of the duty each gear lasts; nothing without a duty.
func LifeTable(r *gearbox.Result, o Options) *Table {
	any := func(f func(*gearbox.GearLife) bool) bool {
		return slices.ContainsFunc(r.Lives, func(g gearbox.GearLife) bool { return f(&g) })
	}
	launches := 0.0
	if r.Box.Duty != nil {
		launches = r.Box.Duty.Launches
	}
	columns := []struct {
		head string
		show bool
		of   func(g *gearbox.GearLife) float64
	}{
		{"tooth\nroot", true, func(g *gearbox.GearLife) float64 { return g.Root.Asked }},
		{"flank", true, func(g *gearbox.GearLife) float64 { return g.Drive.Asked }},
		{"coast\nflank", any(func(g *gearbox.GearLife) bool { return g.Coast.Asked > 0 }), func(g *gearbox.GearLife) float64 { return g.Coast.Asked }},
		{"that is\nlaunches", launches > 0, func(g *gearbox.GearLife) float64 { return launches * g.Shortest().Asked }},
		{"at torque\ntransmitted", any(func(g *gearbox.GearLife) bool { return g.Shortest().Reached > 0 }), func(g *gearbox.GearLife) float64 { return g.Shortest().Reached }},
	}
	t := o.table("How many repeats of the duty each gear lasts", words("gear", 8), words("in speed", 5))
	for _, c := range columns {
		if c.show {
			t.columns(right(c.head, ""))
		}
	}
	for i := range r.Lives {
		g := &r.Lives[i]
		row := wordsOf(g.Gear, strings.Join(g.Speeds, ", "))
		for _, c := range columns {
			if c.show {
				row = append(row, Cell{Text: Repeats(c.of(g))})
			}
		}
		t.add(row...)
	}
	text := "The first columns are for the torque asked about."
	if columns[4].show {
		text += " The last is for the shortest life, at the torque that clutch and tyres transmit in each step."
	}
	if launches > 0 {
		text += " Launches are those of the shortest life, " + strconv.FormatFloat(launches, 'g', 4, 64) + " in each pass."
	}
	t.say(text)
	return t.done()
}

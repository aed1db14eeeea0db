package reports

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/material"
	"layshaft/reports/view"
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
		case view.Repeats(first.Life) == view.Endless:
			words = append(words, strings.ReplaceAll(kind.String(), ", ", " ")+" endless")
		case view.Repeats(first.Life) == view.AtOnce:
			words = append(words, view.LimitName(first)+" at once")
		default:
			words = append(words, view.LimitName(first)+" after "+view.Repeats(first.Life))
		}
		level = first.Level
	}
	if len(words) == 0 {
		return ""
	}
	return "What the duty wears out first at this torque, and after how many repeats, by calculation with " + LifeTerms(level) + ": " + strings.Join(words, "; ") + ". " + LifeOrMargin()
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

// lifeTable tells how many passes of the duty each gear lasts; nothing without a duty.
func lifeTable(b *bytes.Buffer, r *gearbox.Result, o Options) {
	if len(r.Lives) == 0 {
		return
	}
	any := func(f func(*gearbox.GearLife) bool) bool {
		return slices.ContainsFunc(r.Lives, func(g gearbox.GearLife) bool { return f(&g) })
	}
	coasts := any(func(g *gearbox.GearLife) bool { return g.Coast.Asked > 0 })
	reached := any(func(g *gearbox.GearLife) bool { return g.Shortest().Reached > 0 })
	launches := 0.0
	if r.Box.Duty != nil {
		launches = r.Box.Duty.Launches
	}
	heads := []head{{text: "gear", least: 8}, {text: "in speed", least: 5}, {text: "tooth\nroot", right: true}, {text: "flank", right: true}}
	if coasts {
		heads = append(heads, head{text: "coast\nflank", right: true})
	}
	if launches > 0 {
		heads = append(heads, head{text: "that is\nlaunches", right: true})
	}
	if reached {
		heads = append(heads, head{text: "at torque\ntransmitted", right: true})
	}
	var rows [][]cell
	for i := range r.Lives {
		g := &r.Lives[i]
		row := texts(view.Clean(g.Gear), view.Clean(strings.Join(g.Speeds, ", ")), view.Repeats(g.Root.Asked), view.Repeats(g.Drive.Asked))
		if coasts {
			row = append(row, cell{text: view.Repeats(g.Coast.Asked)})
		}
		if launches > 0 {
			row = append(row, cell{text: view.Repeats(launches * g.Shortest().Asked)})
		}
		if reached {
			row = append(row, cell{text: view.Repeats(g.Shortest().Reached)})
		}
		rows = append(rows, row)
	}
	b.WriteString("\n  How many repeats of the duty each gear lasts\n")
	table(b, o.width(), heads, rows)
	text := "The first columns are for the torque asked about."
	if reached {
		text += " The last is for the shortest life, at the torque that clutch and tyres transmit in each step."
	}
	if launches > 0 {
		text += " Launches are those of the shortest life, " + strconv.FormatFloat(launches, 'g', 4, 64) + " in each pass."
	}
	paragraph(b, o.width(), indent, text)
}

package reports

import (
	"bytes"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// firstLimitTables have one row per speed and box: what limits it. Where it is known what clutch and tyres let through, that comes first, as in the report about one box.
func firstLimitTables(b *bytes.Buffer, c *study.Comparison, names []string, o Options, notes *footnotes, sources limitSources) {
	if slices.ContainsFunc(c.Results, transmits) {
		b.WriteString("\n  What limits each speed at the torque transmitted\n")
		firstLimitTable(b, c, names, true, o, notes, sources)
		b.WriteString("\n  What limits each speed at the input, if all of the torque arrived\n")
	} else {
		b.WriteString("\n  What limits each speed\n")
	}
	firstLimitTable(b, c, names, false, o, notes, sources)
	for _, r := range c.Results {
		if words := SumWords(r); words != "" {
			paragraph(b, o.width(), indent, words)
			break
		}
	}
}

// firstLimitTable is one of them: at the torque transmitted, or at the input.
func firstLimitTable(b *bytes.Buffer, c *study.Comparison, names []string, transmitted bool, o Options, notes *footnotes, sources limitSources) {
	limit := func(s *gearbox.SpeedResult) (m *gearbox.Margin, torque, left float64, state gearbox.State) {
		if transmitted {
			m = s.Deciding()
			torque, _ = comes(s, m)
			return m, torque, m.Left(), m.Judged()
		}
		m = s.Governing()
		return m, m.Allowable[m.Level], m.Margin, m.State
	}
	var rows [][]cell
	var torques []float64
	for _, row := range c.Speeds {
		for _, s := range row.Boxes {
			torque := math.NaN()
			if s != nil && len(s.Margins) > 0 {
				_, torque, _, _ = limit(s)
			}
			torques = append(torques, torque)
		}
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	for _, row := range c.Speeds {
		speed := view.Clean(row.Name)
		for i, s := range row.Boxes {
			r := []cell{{text: speed}, {text: names[i]}}
			n := len(rows)
			speed = ""
			switch {
			case s == nil:
				r = append(r, texts("has no such speed", view.Absent, view.Absent, view.Absent)...)
			case len(s.Margins) == 0:
				r[0].mark = notes.mark(allRemarks(s))
				r = append(r, texts("no limit could be checked", view.Absent, view.Absent, view.Absent)...)
			default:
				m, _, left, state := limit(s)
				sources.add(m)
				r[1].mark = notes.mark(remove(allRemarks(s), m.Notes))
				name, percentage, at := firstName(m, left, s.Name), view.Percent(left), torque[n]
				if math.IsInf(left, 1) {
					percentage = view.Absent // said already
				}
				if transmitted {
					if _, by := comes(s, m); s.Reach != nil {
						at += " (" + by + ")"
					} else {
						at = view.Absent
					}
				}
				r = append(r, cell{text: name, mark: notes.mark(remarks("", nil, m.Notes))}, cell{text: at}, cell{text: percentage}, stateCell(state, o.Colour))
			}
			rows = append(rows, r)
		}
	}
	if len(rows) == 0 {
		return
	}
	at := "allowable\n"
	if transmitted {
		at = "arrives\n"
	}
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "box", least: 3 + o.widestMark()},
		{text: "limited by", least: 5 + o.widestMark(), wrap: true},
		{text: at + quantity.Unit(quantity.Torque, o.Units), right: true},
		{text: "left\n%", right: true},
		{text: "state"},
	}, rows)
}

package reports

import (
	"bytes"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports/view"
)

// verdictTables have one row per speed: what limits it, and how that stands. Where it is known what clutch and tyres let through, that comes first, and what would be if all arrived second.
func verdictTables(b *bytes.Buffer, r *gearbox.Result, worst []placed, o Options, notes *footnotes, sources limitSources) {
	if !transmits(r) {
		b.WriteString("\n  What each speed is limited by, and how it stands\n")
		boreTable(b, r, worst, o, notes, sources)
	} else {
		b.WriteString("\n  What each speed is limited by at the torque transmitted, and how it stands\n")
		transmittedTable(b, r, o, notes, sources)
		b.WriteString("\n  What each speed bears at the input, if all of it arrived\n")
		boreTable(b, r, worst, o, notes, sources)
	}
	paragraph(b, o.width(), indent, SumWords(r))
}

// transmits reports whether it is known of any speed what clutch or tyres let through.
func transmits(r *gearbox.Result) bool {
	return slices.ContainsFunc(r.Speeds, func(s gearbox.SpeedResult) bool { return s.Reach != nil })
}

// comes is what arrives at a limit of a speed in words for a table, and what bounds it.
func comes(s *gearbox.SpeedResult, m *gearbox.Margin) (torque float64, by string) {
	if s.Reach == nil {
		return math.NaN(), view.Absent
	}
	by = string(s.Reach.Bounding(m.Kind))
	if m.Kind.Static() {
		by = "peak, " + by
	}
	return m.Comes, by
}

// transmittedTable has one row per speed: the limit with the least left at the torque transmitted.
func transmittedTable(b *bytes.Buffer, r *gearbox.Result, o Options, notes *footnotes, sources limitSources) {
	var torques []float64
	for i := range r.Speeds {
		torque := math.NaN()
		if m := r.Speeds[i].Deciding(); m != nil {
			torque, _ = comes(&r.Speeds[i], m)
		}
		torques = append(torques, torque)
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	for i := range r.Speeds {
		s := &r.Speeds[i]
		row := []cell{{text: view.Clean(s.Name), mark: notes.mark(remarks("", nil, s.Notes))}}
		m := s.Deciding()
		if m == nil {
			rows = append(rows, append(row, texts("no limit could be checked", view.Absent, view.Absent, view.Absent, view.Absent)...))
			continue
		}
		sources.add(m)
		_, by := comes(s, m)
		rows = append(rows, append(row, cell{text: firstName(m, m.Left(), s.Name), mark: notes.mark(remarks("", nil, m.Notes))}, cell{text: torque[i]}, cell{text: by}, cell{text: view.Percent(m.Left())}, stateCell(m.Judged(), o.Colour)))
	}
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "limited by", least: 5 + o.widestMark(), wrap: true},
		{text: "arrives\n" + quantity.Unit(quantity.Torque, o.Units), right: true},
		{text: "bounded by"},
		{text: "left\n%", right: true},
		{text: "state"},
	}, rows)
}

// boreTable has one row per speed: what it is limited by at the input, at what torque, and how that stands against the asked one.
func boreTable(b *bytes.Buffer, r *gearbox.Result, worst []placed, o Options, notes *footnotes, sources limitSources) {
	var ratios, torques []float64
	for i := range r.Speeds {
		s := &r.Speeds[i]
		ratios = append(ratios, math.Abs(s.Ratio)) // which way the shafts turn stands in JSON
		judged, ends := math.NaN(), [material.High + 1]float64{math.NaN(), math.NaN(), math.NaN()}
		if len(s.Margins) > 0 {
			judged, ends = s.Governing().Allowable[s.Governing().Level], allowableEnds(s)
		}
		torques = append(torques, judged, ends[material.Low], ends[material.High])
	}
	ratio, torque := view.Alike(ratios), view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	doubtful := false
	for i := range r.Speeds {
		s := &r.Speeds[i]
		row := []cell{{text: view.Clean(s.Name), mark: notes.mark(remarks("", s.Checks, s.Notes), remarks("", nil, hiddenNotes(s, worst)))}, {text: ratio[i]}}
		if len(s.Margins) == 0 {
			rows = append(rows, append(row, texts("no limit could be checked", view.Absent, view.Absent, view.Absent, view.Absent)...))
			continue
		}
		m := s.Governing()
		sources.add(m)
		state := stateCell(m.State, o.Colour)
		if m.State != gearbox.Over && s.Allowable(material.Low) < math.Abs(r.Torque) {
			state.text, doubtful = state.text+doubt, true
		}
		rows = append(rows, append(row, cell{text: firstName(m, m.Margin, s.Name), mark: notes.mark(remarks("", nil, m.Notes))}, cell{text: torque[3*i]},
			cell{text: span(allowableEnds(s), torque[3*i+1], torque[3*i+2])}, cell{text: marginOrNone(m)}, state))
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "ratio", right: true},
		{text: "limited by", least: 5 + o.widestMark(), wrap: true},
		{text: "allowable\n" + unit, right: true},
		{text: "poorest … best\n" + unit, right: true},
		{text: "left\n%", right: true},
		{text: "state"},
	}, rows)
	paragraph(b, o.width(), indent, rangeWords(doubtful))
}

// SumWords says why several speeds show the same margin of fatigue; "" without a duty or with one speed.
func SumWords(r *gearbox.Result) string {
	if r.Box.Duty == nil || len(r.Speeds) < 2 {
		return ""
	}
	return "Fatigue is one sum over the whole duty (Miner's rule), not one for each speed: a gear that several speeds load shows the same margin in all of them."
}

// doubt is the mark behind a state that would be over if every range of limits and strengths sat at its low end.
const doubt = " ▾"

// rangeWords explains the columns of allowable torque.
func rangeWords(doubtful bool) string {
	text := "Poorest and best: what is allowed with the poorest and with the best steel that the file allows; another limit may come first there."
	if doubtful {
		text += " ▾: with the poorest that is less than was asked."
	}
	return text
}

// firstName names what limits a speed: nothing when its limit is never reached.
func firstName(m *gearbox.Margin, left float64, speed string) string {
	if math.IsInf(left, 1) {
		return view.NotReached
	}
	return limitIn(m, speed)
}

// marginOrNone is the margin in percent beside firstName, which has already said when there is none.
func marginOrNone(m *gearbox.Margin) string {
	if math.IsInf(m.Margin, 1) {
		return view.Absent
	}
	return view.Percent(m.Margin)
}

// allowableEnds are the allowable torques of a speed, by level.
func allowableEnds(s *gearbox.SpeedResult) (ends [material.High + 1]float64) {
	for level := range ends {
		ends[level] = s.Allowable(material.Level(level))
	}
	return ends
}

// span is the range of allowable torques from the low to the high end of all ranges; nothing when the ends are the same.
func span(ends [material.High + 1]float64, low, high string) string {
	if ends[material.Low] == ends[material.High] {
		return view.Absent
	}
	return low + " … " + high
}

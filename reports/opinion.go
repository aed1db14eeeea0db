package reports

import (
	"bytes"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// beside is the kind of limit of ISO 6336 that asks the same question as a second opinion.
var beside = map[gearbox.Kind]gearbox.Kind{
	gearbox.RootAGMA:   gearbox.RootFatigue,
	gearbox.FlankAGMA:  gearbox.FlankFatigue,
	gearbox.RootLewis:  gearbox.RootPeak, // both hold against what the root bears once
	gearbox.FlankHertz: gearbox.FlankFatigue,
}

// counterpart is the limit of ISO 6336 that a second opinion stands beside, of the same gear or, for one of a whole mesh, of that gear of it
// which comes first; nil when there is none.
func counterpart(s *gearbox.SpeedResult, opinion *gearbox.Margin) *gearbox.Margin {
	items := []string{opinion.Item}
	for i := range s.Meshes {
		if m := &s.Meshes[i]; opinion.Item == "mesh "+m.Name {
			items = append(items, m.Gears[:]...)
		}
	}
	var found *gearbox.Margin
	kind, known := beside[opinion.Kind]
	for i := range s.Margins {
		m := &s.Margins[i]
		if known && m.Kind == kind && slices.Contains(items, m.Item) && (found == nil || sooner(m, found)) {
			found = m
		}
	}
	return found
}

// shownOpinions are the second opinions of a speed that a table lists: all of a box of few speeds, else of each kind the one that is reached first.
func shownOpinions(r *gearbox.Result, s *gearbox.SpeedResult) []*gearbox.Margin {
	var shown []*gearbox.Margin
	for i := range s.References {
		m := &s.References[i]
		known := slices.ContainsFunc(shown, func(other *gearbox.Margin) bool { return other.Kind == m.Kind })
		if !known || len(r.Speeds) <= fewSpeeds {
			shown = append(shown, m)
		}
	}
	return shown
}

// opinionTable has one row per second opinion, with the limit of ISO 6336 beside it.
func opinionTable(b *bytes.Buffer, results []*gearbox.Result, names []string, o Options, notes *footnotes, sources limitSources) {
	type row struct {
		box          string
		speed        string
		opinion, iso *gearbox.Margin
	}
	var all []row
	var torques []float64
	for i, r := range results {
		for k := range r.Speeds {
			s := &r.Speeds[k]
			for _, m := range shownOpinions(r, s) {
				iso := counterpart(s, m)
				all = append(all, row{names[i], view.Clean(s.Name), m, iso})
				torques = append(torques, m.Allowable[m.Level])
				if iso != nil {
					torques = append(torques, iso.Allowable[iso.Level])
				}
			}
		}
	}
	if len(all) == 0 {
		return
	}
	places := view.Decimals(view.Converted(torques, quantity.Torque, o.Units))
	allowable := func(m *gearbox.Margin) cell {
		return cell{text: view.Fixed(quantity.Convert(m.Allowable[m.Level], quantity.Torque, o.Units), places)}
	}
	var rows [][]cell
	box, speed := "", ""
	for _, r := range all {
		sources.add(r.opinion)
		cells := []cell{{text: r.speed}, {text: view.LimitName(r.opinion), mark: notes.mark(remarks("", nil, r.opinion.Notes))}, allowable(r.opinion), {text: marginOrNone(r.opinion)}}
		if r.speed == speed && r.box == box {
			cells[0].text = ""
		}
		if len(results) > 1 {
			name := r.box
			if name == box {
				name = ""
			}
			cells = append([]cell{{text: name}}, cells...)
		}
		box, speed = r.box, r.speed
		if r.iso == nil {
			cells = append(cells, texts(view.Absent, view.Absent, view.Absent)...)
		} else {
			_, load, _ := strings.Cut(r.iso.Kind.String(), ", ")
			cells = append(cells, cell{text: load}, allowable(r.iso), cell{text: marginOrNone(r.iso)})
		}
		rows = append(rows, cells)
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	heads := []head{
		{text: "speed", least: 5},
		{text: "second opinion", least: 5 + o.widestMark(), wrap: true},
		{text: "allowable\n" + unit, right: true},
		{text: "margin\n%", right: true},
		{text: "ISO\n6336"},
		{text: "allowable\n" + unit, right: true},
		{text: "margin\n%", right: true},
	}
	if len(results) > 1 {
		heads = append([]head{{text: "box", least: 3}}, heads...)
	}
	heading := "\n  Second opinions beside ISO 6336\n"
	if slices.ContainsFunc(results, func(r *gearbox.Result) bool { return len(r.Speeds) > fewSpeeds }) {
		heading = "\n  Second opinions beside ISO 6336: of each kind the gear that comes first\n"
	}
	b.WriteString(heading)
	table(b, o.width(), heads, rows)
	words := "Second opinions decide nothing: only ISO 6336 is judged. They count other influences and set them against other strengths, " +
		"so look at which gear comes first and by how much, not at the digits."
	if slices.ContainsFunc(all, func(r row) bool { return r.opinion.Kind == gearbox.RootAGMA || r.opinion.Kind == gearbox.FlankAGMA }) {
		words += " AGMA is rated here for 10⁷ load cycles, whatever the duty."
	}
	paragraph(b, o.width(), indent, words)
}

package view

import (
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
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
		if !known || len(r.Speeds) <= FewSpeeds {
			shown = append(shown, m)
		}
	}
	return shown
}

// OpinionTable has one row per second opinion, with the limit of ISO 6336 beside it.
func OpinionTable(results []*gearbox.Result, o Options) *Table {
	names := BoxNames(results)
	caption := "Second opinions beside ISO 6336"
	if slices.ContainsFunc(results, func(r *gearbox.Result) bool { return len(r.Speeds) > FewSpeeds }) {
		caption += ": of each kind the gear that comes first"
	}
	allowable := numbers("allowable", quantity.Torque).alike(1)
	t := o.table(caption)
	if len(results) > 1 {
		t.columns(once("box", 3))
	}
	t.columns(once("speed", 5), wrapped("second opinion", 5), allowable, right("margin", "%"), words("ISO\n6336", 0), allowable, right("margin", "%"))
	agma := false
	for i, r := range results {
		for k := range r.Speeds {
			s := &r.Speeds[k]
			for _, m := range shownOpinions(r, s) {
				agma = agma || m.Kind == gearbox.RootAGMA || m.Kind == gearbox.FlankAGMA
				var row []Cell
				if len(results) > 1 {
					row = append(row, word(names[i]))
				}
				row = append(row, word(s.Name), word(LimitName(m)).of(m), limitTorque(m.Allowable[m.Level]), percent(m.Margin))
				if iso := counterpart(s, m); iso != nil {
					_, load, _ := strings.Cut(iso.Kind.String(), ", ")
					row = append(row, word(load), limitTorque(iso.Allowable[iso.Level]), percent(iso.Margin))
				} else {
					row = append(row, absents(3)...)
				}
				t.add(row...)
			}
		}
	}
	text := "Second opinions decide nothing: only ISO 6336 is judged. They count other influences and set them against other strengths, " +
		"so look at which gear comes first and by how much, not at the digits."
	if agma {
		text += " AGMA is rated here for 10⁷ load cycles, whatever the duty."
	}
	t.say(text)
	return t.done()
}

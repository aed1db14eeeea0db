package reports

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// worstOf is, for each part of the given limits of all speeds, the one that is reached first at an end of its band, in the order of kinds.
func worstOf(r *gearbox.Result, limits func(*gearbox.SpeedResult) []gearbox.Margin, level material.Level) (all []placed) {
	for _, kind := range gearbox.Kinds() {
		at := map[string]int{}
		for i := range r.Speeds {
			s := &r.Speeds[i]
			margins := limits(s)
			for k := range margins {
				m := &margins[k]
				if m.Kind != kind {
					continue
				}
				p := placed{view.Clean(s.Name), m}
				n, ok := at[m.Item]
				switch {
				case !ok:
					at[m.Item] = len(all)
					all = append(all, p)
				case m.Allowable[level] < all[n].margin.Allowable[level]:
					all[n] = p
				}
			}
		}
	}
	return all
}

// GuideMeanings says what passing a guide of a kind means.
func GuideMeanings(k gearbox.Kind) string {
	switch k {
	case gearbox.BearingSlope:
		return "Slope in a bearing: its rollers or balls carry at their edges, so that it lasts less long; the teeth feel the slope through the load along their face, which their stress has in it already."
	case gearbox.MeshTilt:
		return "Misalignment of a mesh: noise and load at one end of the face; the stress of the teeth has it in it already."
	case gearbox.MeshSeparation:
		return "Separation of a mesh: more backlash and noise, and contact further out on the teeth."
	}
	return ""
}

// guideTable tells of rules of thumb that warn: from which input torque on each is passed, from the careful end of its range to the generous one.
func guideTable(b *bytes.Buffer, r *gearbox.Result, o Options, sources limitSources) {
	guides := ShownGuides(r)
	if len(guides) == 0 {
		return
	}
	var torques []float64
	for i := range guides {
		torques = append(torques, guides[i].Margin.Allowable[material.Low], guides[i].Margin.Allowable[material.High])
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	var kinds []gearbox.Kind
	lived := slices.ContainsFunc(guides, func(g study.PassedGuide) bool { return view.Finite(survivedOf(r.Box, g.Margin)) })
	for i := range guides {
		m := guides[i].Margin
		sources.add(m)
		survived := survivedOf(r.Box, m)
		values := view.AlikeIn([]float64{m.Demand, m.Limit.Low, m.Limit.High, survived}, m.Kind.Dimension(), o.Units)
		row := texts(view.LimitName(m), view.Clean(guides[i].Speed), values[0], ends(values[1], values[2]))
		if lived {
			if !view.Finite(survived) {
				values[3] = view.Absent
			}
			row = append(row, cell{text: values[3]})
		}
		rows = append(rows, append(row, texts(quantity.Unit(m.Kind.Dimension(), o.Units), ends(torque[2*i], torque[2*i+1]), GuideState(&guides[i]))...))
		if !slices.Contains(kinds, m.Kind) {
			kinds = append(kinds, m.Kind)
		}
	}
	slices.Sort(kinds)
	b.WriteString("\n  Guides: rules of thumb, which warn and don't decide\n")
	heads := []head{
		{text: "guide", least: 12, wrap: true},
		{text: "speed", least: 5},
		{text: "actual", right: true},
		{text: "careful …\ngenerous", right: true},
	}
	if lived {
		heads = append(heads, head{text: "survived", right: true})
	}
	table(b, o.width(), append(heads,
		head{text: "unit"},
		head{text: "passed from\n" + quantity.Unit(quantity.Torque, o.Units), right: true},
		head{text: GuideHead(r)},
	), rows)
	var meanings []string
	for _, k := range kinds {
		meanings = append(meanings, GuideMeanings(k))
	}
	text := "Of every bearing and mesh the speed in which its guide is passed first; what isn't shown is passed at more than twice the torque. Actual is at the asked torque. A mrad is 0.1 mm in 100 mm. "
	if lived {
		text += "Survived: the most of it that a box which was opened and found sound has lived with, by its service history. "
	}
	paragraph(b, o.width(), indent, text+strings.Join(meanings, " "))
}

// ShownGuides are the guides that are worth a row: those passed at up to twice what arrives.
func ShownGuides(r *gearbox.Result) (all []study.PassedGuide) {
	for _, g := range study.Guides(r) {
		if g.Share() <= 2 {
			all = append(all, g)
		}
	}
	return all
}

// GuideHead stands above the words of GuideState.
func GuideHead(r *gearbox.Result) string {
	if transmits(r) {
		return "with what\narrives"
	}
	return "at the\ntorque asked"
}

// survivedOf is the most of a guide that a sound box has lived with; NaN where nothing is known.
func survivedOf(b *gearbox.Box, m *gearbox.Margin) float64 {
	s, ok := b.SurvivedOf(m.Kind, m.Item)
	if !ok {
		return math.NaN()
	}
	return s.Demand
}

// ends is a range from one text to another, or one where they are alike.
func ends(low, high string) string {
	if low == high {
		return low
	}
	return low + " … " + high
}

// GuideState says in words whether a guide is passed by what arrives.
func GuideState(g *study.PassedGuide) string {
	switch {
	case g.Generous:
		return "passed"
	case g.Careful:
		return "in its range"
	}
	return "not passed"
}

// endlessTable tells what endless life would need where no duty is given, and what there is instead; nothing under a duty.
func endlessTable(b *bytes.Buffer, r *gearbox.Result, o Options, sources limitSources) {
	all := worstOf(r, func(s *gearbox.SpeedResult) []gearbox.Margin { return s.Endless }, r.Box.Limits.Strength)
	if len(all) == 0 {
		return
	}
	var torques []float64
	for _, p := range all {
		torques = append(torques, p.margin.Allowable[p.margin.Level])
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	for i, p := range all {
		m := p.margin
		sources.add(m)
		rows = append(rows, []cell{{text: limitIn(m, p.speed)}, {text: p.speed}, {text: torque[i]}, {text: view.Repeats(m.Turns)}, {text: hours(m.Turns, r.Box.Revs)}})
	}
	b.WriteString("\n  Wear, where no duty is given: it doesn't decide\n")
	table(b, o.width(), []head{
		{text: "limit", least: 12, wrap: true},
		{text: "speed", least: 5},
		{text: "endless life\nneeds " + quantity.Unit(quantity.Torque, o.Units), right: true},
		{text: "at the asked torque it lasts\nturns of the input shaft", right: true},
		{text: "hours", right: true},
	}, rows)
	paragraph(b, o.width(), indent, "Of every gear the speed in which it lasts least. Say under duty what the box has to do: then wear is judged for that.")
}

// hours is how long so many turns of the input shaft take at a speed, rad/s; nothing where it isn't known.
func hours(turns, revs float64) string {
	switch {
	case revs == 0 || turns == 0:
		return view.Absent
	case math.IsInf(turns, 1):
		return view.Repeats(turns)
	}
	return fmt.Sprintf("%.2g", turns*2*math.Pi/revs/3600)
}

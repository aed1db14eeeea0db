package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
)

// guideMeaning says what passing a guide of a kind means.
func guideMeaning(k gearbox.Kind) string {
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

// GuideTable tells of rules of thumb that warn: from which input torque on each is passed, from the careful end of its range to the
// generous one.
func GuideTable(r *gearbox.Result, o Options) *Table {
	guides := slices.DeleteFunc(study.Guides(r), func(g study.PassedGuide) bool { return !(g.Share() <= 2) })
	lived := slices.ContainsFunc(guides, func(g study.PassedGuide) bool { return Finite(SurvivedOf(r.Box, g.Margin)) })
	at := "at the\ntorque asked"
	if transmits(r) {
		at = "with what\narrives"
	}
	t := o.table("Guides: rules of thumb, which warn and don't decide", wrapped("guide", 12), words("speed", 5), right("actual", ""), right("careful …\ngenerous", ""))
	if lived {
		t.columns(right("survived", ""))
	}
	t.columns(words("unit", 0), numbers("passed from", quantity.Torque), words(at, 0))
	var kinds []gearbox.Kind
	for i := range guides {
		m := guides[i].Margin
		d, survived := m.Kind.Dimension(), SurvivedOf(r.Box, m)
		values := AlikeIn([]float64{m.Demand, m.Limit.Low, m.Limit.High, survived}, d, o.Units)
		name := word(LimitName(m))
		name.Limit = m
		row := []Cell{name, word(guides[i].Speed), word(values[0]), word(ends(values[1], values[2]))}
		if lived && Finite(survived) {
			row = append(row, word(values[3]))
		} else if lived {
			row = append(row, absent())
		}
		t.add(append(row, word(quantity.Unit(d, o.Units)), between(m.Allowable[material.Low], m.Allowable[material.High]), word(guideState(&guides[i])))...)
		if !slices.Contains(kinds, m.Kind) {
			kinds = append(kinds, m.Kind)
		}
	}
	slices.Sort(kinds)
	text := "Of every bearing and mesh the speed in which its guide is passed first; what isn't shown is passed at more than twice the torque. Actual is at the asked torque. A mrad is 0.1 mm in 100 mm. "
	if lived {
		text += "Survived: the most of it that a box which was opened and found sound has lived with, by its service history. "
	}
	t.say(text + strings.Join(Each(kinds, guideMeaning), " "))
	return t.done()
}

// SurvivedOf is the most of a guide that a sound box has lived with; NaN where nothing is known.
func SurvivedOf(b *gearbox.Box, m *gearbox.Margin) float64 {
	s, ok := b.SurvivedOf(m.Kind, m.Item)
	if !ok {
		return math.NaN()
	}
	return s.Demand
}

// guideState says whether a guide is passed by what arrives.
func guideState(g *study.PassedGuide) string {
	switch {
	case g.Generous:
		return "passed"
	case g.Careful:
		return "in its range"
	}
	return "not passed"
}

// EndlessTable tells what endless life would need where no duty is given, and what there is instead; nothing under a duty.
func EndlessTable(r *gearbox.Result, o Options) *Table {
	t := o.table("Wear, where no duty is given: it doesn't decide", wrapped("limit", 12), words("speed", 5), numbers("endless life\nneeds", quantity.Torque),
		right("at the asked torque it lasts\nturns of the input shaft", ""), right("hours", ""))
	for _, p := range worstOf(r, func(s *gearbox.SpeedResult) []gearbox.Margin { return s.Endless }, r.Box.Limits.Strength) {
		m := p.margin
		name := word(limitIn(m, p.speed))
		name.Limit = m
		t.add(name, word(p.speed), limitTorque(m.Allowable[m.Level]), Cell{Text: Repeats(m.Turns)}, word(hours(m.Turns, r.Box.Revs)))
	}
	t.say("Of every gear the speed in which it lasts least. Say under duty what the box has to do: then wear is judged for that.")
	return t.done()
}

// hours is how long so many turns of the input shaft take at a speed, rad/s; nothing where it isn't known.
func hours(turns, revs float64) string {
	switch {
	case revs == 0 || turns == 0:
		return Absent
	case math.IsInf(turns, 1):
		return Endless
	}
	return fmt.Sprintf("%.2g", turns*2*math.Pi/revs/3600)
}

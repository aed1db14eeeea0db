package view

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// ErrNoPreload is said where there is no pair to report.
var ErrNoPreload = errors.New("there is no pair on the bench to report: set one up")

// PreloadHeadline answers in a sentence or two: how the pair is set, what that is when warm, and the shim that was asked for.
func PreloadHeadline(t *study.PreloadTable, o Options) string {
	text := ""
	for _, r := range t.Rows {
		if r.Own {
			text = fmt.Sprintf("%s is set with %s cold; warm it has %s.", Capital(gearbox.ShaftTitle(Clean(t.Shaft))), settingOf(r.Cold, o), settingOf(r.Hot, o))
		}
	}
	for _, r := range t.Rows {
		if r.Wanted {
			text += fmt.Sprintf(" For %s warm it takes a shim %s than that of zero clearance, and cold it then has %s.",
				With(t.Question.Preload, quantity.Force, o.Units), thicker(r.Shim, o), settingOf(r.Cold, o))
		}
	}
	switch a := t.Shim; {
	case a == nil:
	case a.Unsure == 0:
		text += fmt.Sprintf(" The shim for %s is %s, if the readings were exact: with --unsure it comes with how sure that is.", With(t.Question.Want, quantity.Torque, o.Units), With(a.Shim, quantity.Deflection, o.Units))
	default:
		text += fmt.Sprintf(" The shim for %s is %s ± %s (standard uncertainty), 90 %% of what the readings allow lies from %s to %s.",
			With(t.Question.Want, quantity.Torque, o.Units), With(a.Shim, quantity.Deflection, o.Units), With(a.Unsure, quantity.Deflection, o.Units),
			With(a.Range[0], quantity.Deflection, o.Units), With(a.Range[2], quantity.Deflection, o.Units))
	}
	return text
}

// settingOf is play or preload in words.
func settingOf(s study.PreloadState, o Options) string {
	switch {
	case s.Preload > 0:
		return With(s.Preload, quantity.Force, o.Units) + " of preload"
	case s.Play > 0:
		return With(s.Play, quantity.Deflection, o.Units) + " of end play"
	}
	return "neither play nor preload"
}

func thicker(shim float64, o Options) string {
	if shim < 0 {
		return With(-shim, quantity.Deflection, o.Units) + " thinner"
	}
	return With(shim, quantity.Deflection, o.Units) + " thicker"
}

// PreloadAsked is what was taken for the question.
func PreloadAsked(t *study.PreloadTable, o Options) string {
	q := &t.Question
	text := fmt.Sprintf("Two tapered bearings %s. From cold to warm the case gets %.3g K and the shaft %.3g K warmer over %s: the end play grows by %s",
		t.Arrangement, q.Warm.CaseRise, q.Warm.ShaftRise, With(q.Warm.Span, quantity.Length, o.Units), With(t.Grown, quantity.Deflection, o.Units))
	if t.Grown < 0 {
		text = fmt.Sprintf("Two tapered bearings %s. From cold to warm the case gets %.3g K and the shaft %.3g K warmer over %s: the end play shrinks by %s",
			t.Arrangement, q.Warm.CaseRise, q.Warm.ShaftRise, With(q.Warm.Span, quantity.Length, o.Units), With(-t.Grown, quantity.Deflection, o.Units))
	}
	if q.Warm.Cup > 0 {
		text += fmt.Sprintf(", with outer rings that grow by %s on the radius", With(q.Warm.Cup, quantity.Deflection, o.Units))
	}
	text += ". The case is "
	if math.IsInf(q.Case, 1) {
		text += "rigid along the shaft."
	} else {
		text += "as stiff as " + With(q.Case, quantity.RadialStiffness, o.Units) + " along the shaft."
	}
	if q.Seen.Turns != 1 || q.Seen.Drag > 0 {
		text += fmt.Sprintf(" The torque is that at a shaft in hand that drags %s by itself and turns the pair's shaft %.3g times per turn.", With(q.Seen.Drag, quantity.Torque, o.Units), q.Seen.Turns)
	}
	return text
}

// PreloadTables have one row per shim, cold and warm.
func PreloadTables(t *study.PreloadTable, o Options) []*Table {
	warm := settingTable(t, "Warm, with the same shims", func(r *study.PreloadRow) *study.PreloadState { return &r.Hot }, o)
	warm.say(fmt.Sprintf("To turn: slowly by hand, with a friction of 0.15 at the ribs; from %.2g of it, well oiled, to %.2g, dry: without the oil a torque says little about the preload. "+
		"A force on the shaft meets both rows side by side; a shim meets rows and case one behind the other, about a quarter. "+
		"✗: the rollers press with more than %.0f MPa from the preload alone, and the model has left its range.", 0.05/0.15, 0.20/0.15, bearing.MostPressure))
	return []*Table{
		settingTable(t, "Cold: shims counted from that of zero clearance, thicker loads the rows more", func(r *study.PreloadRow) *study.PreloadState { return &r.Cold }, o), warm,
	}
}

func settingTable(t *study.PreloadTable, caption string, state func(*study.PreloadRow) *study.PreloadState, o Options) *Table {
	out := o.table(caption, numbers("shim", quantity.Deflection), numbers("play", quantity.Deflection), numbers("preload", quantity.Force), numbers("to turn", quantity.Torque),
		numbers("stiffness\nagainst a\nforce", quantity.RadialStiffness), numbers("against\na shim", quantity.RadialStiffness), Column{})
	for i := range t.Rows {
		r, about := &t.Rows[i], ""
		s := state(r)
		switch {
		case r.Own:
			about = "as set"
		case r.Wanted:
			about = "wanted"
		}
		if s.Beyond() {
			about = strings.TrimLeft(about+" ✗", " ")
		}
		out.add(number(r.Shim), number(s.Play), number(s.Preload), number(s.Torque[1]), number(s.Outside), number(s.AtRest.Shim), word(about))
	}
	return out.done()
}

// ShimWords tell of the shim that was asked for; nil when none was.
func ShimWords(t *study.PreloadTable, o Options) []string {
	a := t.Shim
	if a == nil {
		return nil
	}
	by := "a straight line through the readings"
	if a.Curve {
		by = "the shim of zero clearance and the law of the rollers"
	}
	return append([]string{fmt.Sprintf("The shim for %s, by %s: %s, counted as the shims of the readings are. Readings drawn anew within their uncertainty give %s at the middle; one in twenty lies below %s, one in twenty above %s.",
		With(t.Question.Want, quantity.Torque, o.Units), by, With(a.Shim, quantity.Deflection, o.Units), With(a.Range[1], quantity.Deflection, o.Units),
		With(a.Range[0], quantity.Deflection, o.Units), With(a.Range[2], quantity.Deflection, o.Units))}, a.Notes...)
}

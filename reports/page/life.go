package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox"
)

// asGoodAsNever is a number of passes of the duty that nobody will drive.
const asGoodAsNever = 1e9

// counted reports whether the life of any of the limits is counted in passes of the duty.
func counted(margins []gearbox.Margin) bool {
	for i := range margins {
		if margins[i].Life > 0 {
			return true
		}
	}
	return false
}

// hardlyAny is a number of passes that is over before the first load cycle.
const hardlyAny = 1e-6

// lifeText is the life of a limit in passes of the duty.
func lifeText(m *gearbox.Margin) string { return lasts(m.Life) }

// lasts is a number of passes of the duty; 0 = not counted.
func lasts(life float64) string {
	switch {
	case life > asGoodAsNever:
		return "endless"
	case life > hardlyAny:
		return passes(life)
	case life > 0:
		return "at once"
	}
	return "–"
}

// passes is a number of passes with two digits that count, in groups of three: 9 600.
func passes(v float64) string {
	t := figure(v, 2)
	if strings.Contains(t, ".") {
		return t
	}
	const space = "\u00a0"
	for i := len(t) - 3; i > 0; i -= 3 {
		t = t[:i] + space + t[i:]
	}
	return t
}

// lifeWords says what of a box wears out first under its duty, and when; "" when nothing does or no duty is told.
func lifeWords(r *gearbox.Result, o Options) string {
	var first *gearbox.Margin
	for i := range r.Speeds {
		for k := range r.Speeds[i].Margins {
			if m := &r.Speeds[i].Margins[k]; m.Life > 0 && (first == nil || m.Life < first.Life) {
				first = m
			}
		}
	}
	if first == nil || first.Life > asGoodAsNever || math.IsNaN(first.Life) {
		return ""
	}
	if first.Life < hardlyAny {
		return fmt.Sprintf("The duty breaks %s at once (%s).", clean(first.Item), first.Kind)
	}
	t := "By calculation"
	if o.LifeTerms != nil {
		t += ", " + o.LifeTerms(first.Level)
	}
	t += fmt.Sprintf(": %s repeats of the duty before %s wears out (%s)", passes(first.Life), clean(first.Item), first.Kind)
	if r.Box.Duty != nil {
		t += "; " + strconv.FormatFloat(r.Box.Duty.Passes, 'g', 6, 64) + " are asked"
	}
	return t + "."
}

package page

import (
	"fmt"
	"math"
	"strconv"

	"layshaft/gearbox"
	"layshaft/reports/view"
)

// counted reports whether the life of any of the limits is counted in passes of the duty.
func counted(margins []gearbox.Margin) bool {
	for i := range margins {
		if margins[i].Life > 0 {
			return true
		}
	}
	return false
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
	if first == nil || view.Repeats(first.Life) == view.Endless || math.IsNaN(first.Life) {
		return ""
	}
	if view.Repeats(first.Life) == view.AtOnce {
		return fmt.Sprintf("The duty breaks %s at once (%s).", view.Clean(first.Item), first.Kind)
	}
	t := "By calculation"
	if o.LifeTerms != nil {
		t += ", " + o.LifeTerms(first.Level)
	}
	t += fmt.Sprintf(": %s repeats of the duty before %s wears out (%s)", view.Repeats(first.Life), view.Clean(first.Item), first.Kind)
	if r.Box.Duty != nil {
		t += "; " + strconv.FormatFloat(r.Box.Duty.Passes, 'g', 6, 64) + " are asked"
	}
	return t + "."
}

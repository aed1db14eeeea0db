package view

import (
	"errors"
	"fmt"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// Options is how answers are put. The zero value is metric.
type Options struct {
	Units   quantity.System // of everything that people read; JSON and CSV have fixed ones
	Version string          // of the program; "" = not shown
	// Effects is what the assumptions of each box do to its answer, one list for each in a report of checks; nil = not shown.
	Effects [][]study.Effect
	// Sampled is what a sample of everything that isn't known exactly says of boxes, by the box; nil = none was drawn.
	Sampled map[*gearbox.Box]Sampled
}

// Sampled is one box of a spread.
type Sampled struct {
	Spread *study.Spread
	Box    int // of its boxes
}

// EffectsOf are the effects of a box; nil when none are given.
func (o Options) EffectsOf(box int) []study.Effect {
	if box < len(o.Effects) {
		return o.Effects[box]
	}
	return nil
}

// Caution is what everybody who acts on the numbers has to know.
func Caution() string {
	return "These figures are estimates for comparing and planning. They are as good as the data given and the assumptions noted, " +
		"and no better. A gearbox that fails at speed can injure or kill. A calculation does not replace inspection, testing, the " +
		"limits set by the maker, the rules of the sport or the law of the place, nor the judgement of a licensed engineer where " +
		"one is required. Guard rotating parts and shield against scatter as the local rules demand."
}

// Warning is the caution in one sentence, for the top of a page.
func Warning() string {
	return "Estimates for comparing and planning: they replace no inspection, no test and no engineer's judgement, " +
		"and a gearbox that fails at speed can injure or kill. The whole caution stands at the foot."
}

// Worst is the worst answer of all boxes; Clear when there is no limit at all.
func Worst(results []*gearbox.Result) gearbox.State {
	worst := gearbox.Clear
	for _, r := range results {
		worst = min(worst, study.Judge(r).State)
	}
	return worst
}

// Reportable refuses results of which no report can be made.
func Reportable(results []*gearbox.Result) error {
	if len(results) == 0 {
		return errors.New("there is no result to report: solve at least one box")
	}
	for i, r := range results {
		if r == nil || r.Box == nil {
			return fmt.Errorf("result %d of %d holds no box: report only what was solved", i+1, len(results))
		}
	}
	return nil
}

// ReportableComparison refuses a comparison whose rows don't fit its boxes, before an index runs off.
func ReportableComparison(c *study.Comparison) error {
	if c == nil {
		return errors.New("there is no comparison to report: compare at least two boxes")
	}
	if err := Reportable(c.Results); err != nil {
		return err
	}
	for _, row := range c.Speeds {
		for _, d := range row.Items {
			if n := len(c.Results); len(d.Values) != n || len(d.Change) != n {
				return fmt.Errorf("%q in speed %q has %d values and %d changes for %d boxes: give one of each per box",
					d.Name, row.Name, len(d.Values), len(d.Change), n)
			}
		}
	}
	return nil
}

// Each turns a list into another, never into nil.
func Each[T, U any](all []T, f func(T) U) []U {
	out := make([]U, len(all))
	for i, v := range all {
		out[i] = f(v)
	}
	return out
}

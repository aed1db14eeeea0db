package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// Options is how a report is written. The zero value is metric text of 100 columns without colour.
type Options struct {
	Units   quantity.System // units of text; JSON and CSV have fixed ones
	Colour  bool            // terminal colours
	Width   int             // columns of text, 80 to 100; 0 = 100, and what lies outside is brought to the nearer end. Numbers of absurd size may take more than this, but never more than 100
	Version string          // of the program, for the foot of the report; "" = not shown
	// Effects is what the assumptions of each box do to its answer, one list for each in a report of checks; nil = not shown.
	Effects [][]study.Effect
}

// The columns of text: below the least the tables don't fit, above the most lines are hard to read.
const (
	leastWidth = 80
	mostWidth  = 100
)

func (o Options) width() int {
	if o.Width == 0 {
		return mostWidth
	}
	return min(max(o.Width, leastWidth), mostWidth)
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
	return "Estimates for comparing and planning: they replace no inspection, no test and no engineer's judgement, and a gearbox that fails at speed can injure or kill. The whole caution stands at the foot."
}

// ExitWorst is the worst answer of all boxes; Clear when there is no limit at all.
func ExitWorst(results []*gearbox.Result) gearbox.State {
	worst := gearbox.Clear
	for _, r := range results {
		worst = min(worst, study.Judge(r).State)
	}
	return worst
}

// record is what the history of a box says of the torque and the speeds that a result is about.
func record(r *gearbox.Result) study.Record { return study.Judge(r).Record }

// checkResults refuses what no report can be made of.
func checkResults(results []*gearbox.Result) error {
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

// checkComparison refuses a comparison whose rows don't fit its boxes, before an index runs off.
func checkComparison(c *study.Comparison) error {
	if c == nil {
		return errors.New("there is no comparison to report: compare at least two boxes")
	}
	if err := checkResults(c.Results); err != nil {
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

// write hands a finished report over in one piece, so that an error before it leaves nothing half written.
func write(w io.Writer, b *bytes.Buffer) error {
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("the report could not be written: %w", err)
	}
	return nil
}

package text

import (
	"io"

	"layshaft/reports/view"
)

// Gauge writes what readings say of gears: the flank that they fix, the labels that fit it, and what every reading is worth.
func Gauge(w io.Writer, bench view.Bench, o Options) error {
	if err := view.ReportableBench(bench); err != nil {
		return err
	}
	p := report{Options: o}
	p.title(view.Clean(bench.Name) + ", from the bench")
	for i, g := range view.GaugedGroups(bench.Result, o.Options) {
		if i > 0 {
			p.space()
		}
		p.say(g.Headline)
		p.tell(g.Flank)
		p.show(g.Flanks)
		p.tell(g.Open...)
		p.show(g.Tools)
		if len(g.Twins) > 0 {
			p.heading("These readings can't tell the first from the following. What would:")
			p.list("  - ", g.Twins...)
		}
		if g.Names != "" {
			p.space()
			p.tell(g.Names)
		}
		p.show(g.Readings)
	}
	p.show(view.ClosingTable(bench.Result, o.Options))
	if notes := view.GaugeNotes(bench.Result, o.Options); len(notes) > 0 {
		p.heading("Notes")
		p.list("  - ", notes...)
	}
	p.heading("What a ± means")
	p.tell(view.GaugeMeaning)
	return p.print(w)
}

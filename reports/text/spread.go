package text

import (
	"io"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Spread writes the text report of how sure an answer is.
func Spread(w io.Writer, s *study.Spread, o Options) error {
	if err := view.ReportableSpread(s); err != nil {
		return err
	}
	p := report{Options: o}
	p.say(view.SpreadWords(s, o.Options)...)
	p.show(view.SpreadRatioTable(s, o.Options))
	for i, name := range view.SpreadNames(s) {
		p.space()
		p.title(name)
		p.show(view.SpreadTables(s, i, o.Options)...)
		if gaps := view.NotBuildable(s, i); gaps != "" {
			p.space()
			p.tell(gaps)
		}
	}
	p.show(view.MeasureNextTable(s, o.Options), view.DrawnTable(s, o.Options))
	return p.print(w)
}

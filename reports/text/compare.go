package text

import (
	"fmt"
	"io"
	"strings"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Compare writes the text report of boxes side by side.
func Compare(w io.Writer, c *study.Comparison, o Options) error {
	if err := view.ReportableComparison(c); err != nil {
		return err
	}
	p := report{Options: o}
	names := view.BoxNames(c.Results)
	p.say(view.CompareHeadline(c, o.Options)...)
	p.say(view.CompareSampled(c, o.Options)...)
	p.space()
	p.title(view.List(names))
	for i, r := range c.Results {
		if about := strings.TrimSpace(r.Box.About); about != "" {
			p.tell(names[i] + ": " + about)
		}
		p.tell(view.Made(r.Box, o.Options))
	}
	p.show(view.BoxTables(c, o.Options)...)
	p.show(view.FirstTables(c, o.Options)...)
	p.history(c.Results)
	for _, d := range view.Differences(c, o.Options) {
		p.space()
		p.title(d.Caption)
		p.tell(d.Words...)
		p.show(d.Tables...)
		if len(d.Sentences) > 0 {
			p.space()
			p.tell(d.Sentences...)
		}
	}
	p.lighter(c)
	p.space()
	p.title("Side by side")
	words, tables := view.SideBySide(c, o.Options)
	p.tell(words...)
	p.show(tables...)
	p.show(view.OpinionTable(c.Results, o.Options))
	return p.print(w)
}

// lighter sets masses side by side and tells the case for and against the lighter box.
func (p *report) lighter(c *study.Comparison) {
	if len(c.Weighed) == 0 {
		return
	}
	p.space()
	p.title("The lighter box")
	p.show(view.MassTables(c.Weighed, p.Options.Options)...)
	if len(c.Lighter) == 0 {
		p.heading("None is lighter than another.")
	}
	for i := range c.Lighter {
		k := view.CaseOf(c, &c.Lighter[i], p.Options.Options)
		p.heading(k.Title() + ". " + k.Head)
		for _, list := range k.Lists() {
			if len(list.Said) > 0 {
				p.tell(list.Heading)
				p.list(indent+indent+list.Sign+" ", list.Said...)
			}
		}
	}
}

// numbered adds paragraphs with their numbers in front.
func (p *report) numbered(sentences []string) {
	for i, s := range sentences {
		p.list(fmt.Sprintf("%s%d  ", indent, i+1), s)
	}
}

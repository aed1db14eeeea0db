package text

import (
	"io"

	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// Headroom writes the text report of whether boxes bear a torque, one after the other.
func Headroom(w io.Writer, all []*study.Headroom, o Options) error {
	if err := view.ReportableHeadrooms(all); err != nil {
		return err
	}
	p := report{Options: o}
	names, words := view.BoxNames(view.ResultsOf(all)), view.HeadroomWords(all, o.Options)
	for i := range all {
		if len(all) > 1 { // what the box bears goes with the answer, the rest stands below its title
			p.say(view.Joined(words[i][:min(2, len(words[i]))]))
		} else {
			p.say(words[i]...)
		}
	}
	for i, h := range all {
		p.space()
		p.title(names[i], view.BoxRemarks(h.Result)...)
		p.tell(h.Result.Box.About)
		p.tell(view.HeadroomIntro(h, o.Options)...)
		if len(all) > 1 && len(words[i]) > 2 {
			p.tell(words[i][2:]...)
		}
		p.show(view.HeadroomTables(h, o.Options)...)
		for k, t := range view.VariantTables(h, o.Options) {
			if k == 0 {
				p.heading(t.Caption)
				for _, c := range view.Changes(h) {
					p.list(indent+lettered(c[0]), c[1])
				}
				t.Caption = ""
			}
			p.show(t)
		}
	}
	return p.print(w)
}

// lettered is a letter with what parts it from the text behind it.
func lettered(letter string) string {
	if letter == "" {
		return ""
	}
	return letter + "  "
}

// Sweep writes the text report of a sweep.
func Sweep(w io.Writer, s *study.Sweep, o Options) error {
	if err := view.ReportableSweep(s); err != nil {
		return err
	}
	p := report{Options: o}
	p.say(view.SweepHeadline(s, o.Options))
	p.space()
	p.title(view.Clean(s.Box.Name))
	p.tell(view.SweepIntro(s, o.Options)...)
	p.show(view.SweepTables(s, o.Options)...)
	if len(s.Met) > 0 {
		p.show(view.MetTable(s, o.Options))
	}
	if gaps := view.GapWords(s, o.Options); len(gaps) > 0 {
		p.heading("Values that are not buildable")
		p.tell(gaps...)
	}
	return p.print(w)
}

// Ratios writes the ratio tables of one or more boxes.
func Ratios(w io.Writer, tables []*study.RatioTable, o Options) error {
	if len(tables) == 0 {
		return view.ErrNoRatios
	}
	p := report{Options: o}
	names := view.RatioNames(tables)
	p.say(view.RatiosHeadline(tables, o.Options))
	for i, t := range tables {
		p.space()
		p.title(names[i])
		p.tell(view.RatioAsked(t, o.Options))
		p.show(view.RatioTables(t, o.Options)...)
	}
	return p.print(w)
}

// Weigh writes what the parts of boxes weigh and how hard they are to spin, what each synchroniser has to match, and the torque that is
// borne for the mass.
func Weigh(w io.Writer, boxes []study.WeighedBox, o Options) error {
	if err := view.ReportableWeights(boxes); err != nil {
		return err
	}
	p := report{Options: o}
	for i, name := range view.BoxNames(view.WeighedResults(boxes)) {
		p.title(name)
		p.show(view.PartTables(boxes[i].Result.Weights, o.Options)...)
		p.space()
	}
	p.title("Mass and torque")
	p.show(view.MassTables(boxes, o.Options)...)
	return p.print(w)
}

// Materials writes steels with their bands and where these come from.
func Materials(w io.Writer, steels []material.Steel, o Options) error {
	if len(steels) == 0 {
		return view.ErrNoSteel
	}
	p := report{Options: o}
	p.say(view.SteelIntro)
	p.space()
	p.show(view.SteelTable(steels, o.Options))
	shared, own := view.SteelParagraphs(steels, o.Options)
	if shared != "" {
		p.heading(shared)
	}
	for i, s := range steels {
		p.space()
		p.title(view.Clean(s.Name))
		p.tell(own[i]...)
	}
	return p.print(w)
}

package text

import (
	"io"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Check writes the text report of one or more boxes, each on its own.
func Check(w io.Writer, results []*gearbox.Result, o Options) error {
	if err := view.Reportable(results); err != nil {
		return err
	}
	p := report{Options: o}
	names := view.BoxNames(results)
	if len(results) == 1 {
		p.say(verdict(results[0], o.EffectsOf(0), o, nil)...)
	} else {
		p.say(view.Headlines(results, o.Options)...)
	}
	for i, r := range results {
		p.space()
		p.title(names[i], view.BoxRemarks(r)...)
		p.tell(r.Box.About)
		p.tell(view.Intro(r, o.Options)...)
		if len(r.Speeds) == 0 {
			p.tell("No speed was calculated.")
			continue
		}
		if len(results) > 1 { // the headline stands on top
			p.tell(verdict(r, o.EffectsOf(i), o, view.InHeadline)...)
		}
		p.box(r, o.EffectsOf(i))
	}
	return p.print(w)
}

// verdict is the answer about a box, without some of its sentences.
func verdict(r *gearbox.Result, effects []study.Effect, o Options, without func(view.Sentence) bool) (sentences []string) {
	for _, s := range view.Verdict(r, effects, o.Options) {
		if without == nil || !without(s) {
			sentences = append(sentences, s.Text)
		}
	}
	return sentences
}

// box tells everything about a box.
func (p *report) box(r *gearbox.Result, effects []study.Effect) {
	o := p.Options.Options
	p.show(view.LimitTables(r, o)...)
	p.show(view.EffectTable(effects, o), view.KindTable(r, o), view.GuideTable(r, o), view.EndlessTable(r, o), view.ReachTable(r, o), view.LifeTable(r, o))
	p.history([]*gearbox.Result{r})
	p.show(view.ShaftTable(r, o), view.SenseTable(r.Speeds, o), view.MeshTable(r.Speeds, o), view.TeethTable(r.Speeds, o))
	few := len(r.Speeds) <= view.FewSpeeds
	for _, s := range view.Explained(r) {
		p.show(view.CauseTable(s, o))
	}
	for i := range r.Speeds {
		if few {
			p.show(view.GrowthTable(&r.Speeds[i], o), view.ScuffTable(&r.Speeds[i], o))
		}
	}
	p.show(view.OpinionTable([]*gearbox.Result{r}, o))
	for i := range r.Speeds {
		if few {
			p.show(view.FactorTables(r.Box, &r.Speeds[i], o)...)
		}
	}
}

// history tells what service history says of the steels of some boxes.
func (p *report) history(results []*gearbox.Result) {
	names, any := view.BoxNames(results), false
	for i, r := range results {
		h := view.HistoryOf(r.Box, p.Options.Options)
		if h == nil {
			continue
		}
		any = true
		p.heading("Service history, and what it says of the steel of " + names[i])
		p.numbered(h.Words)
		p.show(h.Tables...)
	}
	if any {
		p.tell(study.EvidenceCaveat())
	}
}

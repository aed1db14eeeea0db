package page

import (
	"html/template"
	"math"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// effectsPart is what the assumptions of one box do to its answer.
type effectsPart struct {
	Box   int
	Name  string
	Table template.HTML
	Rest  []string
}

// effectsOf are those of a box; nil when none are given.
func (o *Options) effectsOf(box int) []study.Effect {
	if box < len(o.Effects) {
		return o.Effects[box]
	}
	return nil
}

// effects has a part for each box of which something is assumed.
func (s *set) effects(o Options) (all []effectsPart) {
	for b := range s.results {
		effects := o.effectsOf(b)
		if len(effects) == 0 {
			continue
		}
		p := effectsPart{Box: look(b), Name: s.names[b]}
		for _, words := range o.EffectWords(effects) {
			p.Rest = append(p.Rest, view.Clean(words))
		}
		g := &grid{Caption: o.EffectsTitle, Heads: []string{"Assumed", "Taken as", "If it is", s.head("Allowable torque", quantity.Torque), "Change", "Then limited by"}}
		for i := range effects {
			e := &effects[i]
			if !o.EffectMoves(e) {
				continue
			}
			torque := view.NotReached
			if !math.IsInf(e.After.Torque, 1) {
				torque = s.number(e.After.Torque, quantity.Torque, 3)
			}
			g.Rows = append(g.Rows, gridRow{Head: view.Clean(e.Assumed.String()), Cells: []gridCell{
				word(view.Clean(e.Assumed.Value)), word(view.Clean(e.Other)), digit(torque), digit(percent(e.Change())), word(view.Clean(o.EffectLimit(e))),
			}})
		}
		if len(g.Rows) > 0 {
			p.Table = g.html()
		}
		all = append(all, p)
	}
	return all
}

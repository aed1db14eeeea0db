package page

import (
	"html/template"
	"math"

	"layshaft/gearbox/quantity"
)

// effectsPart is what the assumptions of one box do to its answer.
type effectsPart struct {
	Box   int
	Name  string
	Words string // what the answer hangs on most; "" when nothing moves it
	Table template.HTML
	Rest  []string
}

// effects has a part for each box of which something is assumed.
func (s *set) effects(o Options) (all []effectsPart) {
	for b := range s.results {
		if b >= len(o.Effects) || len(o.Effects[b]) == 0 {
			continue
		}
		effects := o.Effects[b]
		p := effectsPart{Box: look(b), Name: s.names[b]}
		for i, words := range o.EffectWords(effects) {
			if i == 0 {
				p.Words = clean(words)
			} else {
				p.Rest = append(p.Rest, clean(words))
			}
		}
		g := &grid{Caption: o.EffectsTitle, Heads: []string{"Assumed", "Taken as", "If it is", s.head("Allowable torque", quantity.Torque), "Change", "Then limited by"}}
		for i := range effects {
			e := &effects[i]
			if !o.EffectMoves(e) {
				continue
			}
			torque := "no limit"
			if !math.IsInf(e.After.Torque, 1) {
				torque = s.number(e.After.Torque, quantity.Torque, 3)
			}
			g.Rows = append(g.Rows, gridRow{Head: clean(e.Assumed.String()), Cells: []gridCell{
				word(clean(e.Assumed.Value)), word(clean(e.Other)), digit(torque), digit(percent(e.Change())), word(clean(o.EffectLimit(e))),
			}})
		}
		if len(g.Rows) > 0 {
			p.Table = g.html()
		}
		all = append(all, p)
	}
	return all
}

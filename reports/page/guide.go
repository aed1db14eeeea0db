package page

import (
	"html/template"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports/view"
)

// warned is what only warns of one box: guides that are passed, and wear where no duty is given.
type warned struct {
	Box   int
	Name  string
	Grids []template.HTML
}

// warnings are those of every box that has any.
func (s *set) warnings(o Options) (all []warned) {
	for b, r := range s.results {
		w := warned{Box: look(b), Name: s.names[b]}
		for _, g := range []*grid{s.guideGrid(r, o), s.endlessGrid(r)} {
			if len(g.Rows) > 0 {
				w.Grids = append(w.Grids, g.html())
			}
		}
		if len(w.Grids) > 0 {
			all = append(all, w)
		}
	}
	return all
}

// limited is a limit of one part in one speed.
type limited struct {
	speed  string
	margin *gearbox.Margin
}

// worstParts is, for each part of some limits over all speeds, the one that is reached first at an end of its band.
func worstParts(r *gearbox.Result, limits func(*gearbox.SpeedResult) []gearbox.Margin, level material.Level) (all []limited) {
	type key struct {
		kind gearbox.Kind
		item string
	}
	at := map[key]int{}
	for i := range r.Speeds {
		margins := limits(&r.Speeds[i])
		for k := range margins {
			m := &margins[k]
			p := limited{view.Clean(r.Speeds[i].Name), m}
			n, known := at[key{m.Kind, m.Item}]
			switch {
			case !known:
				at[key{m.Kind, m.Item}] = len(all)
				all = append(all, p)
			case m.Allowable[level] < all[n].margin.Allowable[level]:
				all[n] = p
			}
		}
	}
	return all
}

func (s *set) guideGrid(r *gearbox.Result, o Options) *grid {
	if o.Guides == nil || o.GuideState == nil {
		return &grid{}
	}
	g := &grid{Caption: "Guides: from which input torque on each is passed", Heads: []string{"Guide", "Part", "In", "Actual", "Careful to generous", "Survived", s.head("Passed from", quantity.Torque), "At what arrives"}}
	for _, p := range o.Guides(r) {
		m := p.Margin
		dim := m.Kind.Dimension()
		g.Rows = append(g.Rows, gridRow{Head: m.Kind.String(), Cells: []gridCell{
			word(view.Clean(m.Item)), word(view.Clean(p.Speed)), digit(s.text(m.Demand, dim, 3)), digit(s.span(m.Limit.Low, m.Limit.High, dim, 3) + " " + s.unit(dim)),
			digit(s.survived(r.Box, m)), digit(s.span(m.Allowable[material.Low], m.Allowable[material.High], quantity.Torque, 3)), word(o.GuideState(&p)),
		}})
		s.sources.index(m.Limit.Source)
	}
	return g
}

// survived is the most of a guide that a sound box has lived with.
func (s *set) survived(b *gearbox.Box, m *gearbox.Margin) string {
	lived, ok := b.SurvivedOf(m.Kind, m.Item)
	if !ok {
		return view.Absent
	}
	return s.text(lived.Demand, m.Kind.Dimension(), 3)
}

func (s *set) endlessGrid(r *gearbox.Result) *grid {
	g := &grid{Caption: "Wear, where no duty is given", Heads: []string{"Limit", "Part", "In", s.head("Endless life needs", quantity.Torque), "Turns of the input shaft that it lasts at the asked torque"}}
	for _, p := range worstParts(r, func(sp *gearbox.SpeedResult) []gearbox.Margin { return sp.Endless }, r.Box.Limits.Strength) {
		m := p.margin
		g.Rows = append(g.Rows, gridRow{Head: m.Kind.String(), Cells: []gridCell{
			word(view.Clean(m.Item)), word(p.speed), digit(s.number(m.Allowable[m.Level], quantity.Torque, 3)), digit(view.Repeats(m.Turns)),
		}})
		s.sources.index(m.Limit.Source)
	}
	return g
}

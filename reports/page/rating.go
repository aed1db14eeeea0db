package page

import (
	"fmt"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/iso6336"
	"layshaft/reports/view"
)

// ratingGrids is the rating of a speed's teeth by ISO 6336: what came out for long life and for the peak, then every factor. Meshes whose
// steel has no limits of the standard are left out.
func (s *set) ratingGrids(sp *gearbox.SpeedResult) (all []*grid) {
	var rated []*gearbox.MeshResult
	for i := range sp.Meshes {
		if sp.Meshes[i].Rating != nil {
			rated = append(rated, &sp.Meshes[i])
		}
	}
	if len(rated) == 0 {
		return nil
	}
	edition := fmt.Sprint(rated[0].Rating.Edition)
	all = append(all, s.outcomeGrid(rated, "Rating by "+edition+", method B, at the asked torque, for the load cycles shown", func(m *gearbox.MeshResult) *iso6336.Rating { return m.Rating }, false))
	if rated[0].Peak != nil {
		all = append(all, s.outcomeGrid(rated, "Rating by "+edition+" of the peak torque, static strength", func(m *gearbox.MeshResult) *iso6336.Rating { return m.Peak }, true))
	}
	return append(all, factorGrid(rated, "Factors of the rating at the asked torque ("+edition+")"))
}

// outcomeGrid is stress, strength and safety of every gear.
func (s *set) outcomeGrid(rated []*gearbox.MeshResult, caption string, of func(*gearbox.MeshResult) *iso6336.Rating, static bool) *grid {
	g := &grid{Caption: caption, Heads: []string{"Gear", "Mesh", s.head("Root stress (σ_F)", quantity.Stress), s.head("Root strength (σ_FG)", quantity.Stress), "Safety (S_F)",
		s.head("Flank stress (σ_H)", quantity.Stress), s.head("Flank strength (σ_HG)", quantity.Stress), "Safety (S_H)"}}
	if !static {
		g.Heads = append(g.Heads, "Load cycles (N_L)")
	}
	for _, m := range rated {
		r := of(m)
		if r == nil {
			continue
		}
		for k, name := range m.Gears {
			row := gridRow{Head: view.Clean(name), Cells: []gridCell{word(view.Clean(m.Name))}}
			for _, o := range []iso6336.Outcome{r.Root[k].Outcome, r.Flank[k].Outcome} {
				row.Cells = append(row.Cells, digit(s.number(o.Stress, quantity.Stress, 4)), digit(s.number(o.Limit, quantity.Stress, 4)), digit(figure(o.Safety, 3)))
			}
			if !static {
				row.Cells = append(row.Cells, digit(typeset(view.Cycles(r.Root[k].Cycles))))
			}
			g.Rows = append(g.Rows, row)
		}
	}
	return g
}

// factorGrid is every factor of the standard, for every gear of the speed.
func factorGrid(rated []*gearbox.MeshResult, caption string) *grid {
	g := &grid{Caption: caption, Heads: []string{"Factor"}}
	lists := make([][]iso6336.Factor, len(rated))
	for i, m := range rated {
		lists[i] = m.Rating.Factors()
		g.Heads = append(g.Heads, view.Clean(m.Gears[0]), view.Clean(m.Gears[1]))
	}
	g.Heads = append(g.Heads, "In ISO 6336")
	for n, f := range lists[0] {
		row := gridRow{Head: f.Symbol + ", " + f.Words}
		if f.Unit != "" {
			row.Head += ", " + f.Unit
		}
		for _, list := range lists {
			row.Cells = append(row.Cells, digit(figure(list[n].Value[0], 4)), digit(figure(list[n].Value[1], 4)))
		}
		row.Cells = append(row.Cells, word(view.Clean(f.Clause)))
		g.Rows = append(g.Rows, row)
	}
	return g
}

// causeGrid is what tilts each mesh of a speed, in words and numbers.
func (s *set) causeGrid(sp *gearbox.SpeedResult) *grid {
	g := &grid{Caption: "What misaligns each mesh in its plane of action (+ loads the right end more, − the left)", Heads: []string{"Cause"}}
	for i := range sp.Meshes {
		g.Heads = append(g.Heads, s.head(view.Clean(sp.Meshes[i].Name), quantity.Slope))
	}
	index := map[string]int{}
	set := func(name string, mesh int, tilt float64) {
		k, ok := index[name]
		if !ok {
			k = len(g.Rows)
			index[name] = k
			g.Rows = append(g.Rows, gridRow{Head: view.Clean(name), Cells: slices.Repeat([]gridCell{digit(view.Absent)}, len(sp.Meshes))})
		}
		g.Rows[k].Cells[mesh] = digit(s.signed(tilt, 3))
	}
	for i := range sp.Meshes {
		for _, c := range sp.Meshes[i].Causes {
			set(c.Name, i, c.Tilt)
		}
	}
	for i := range sp.Meshes {
		set("together", i, sp.Meshes[i].TiltInAction)
	}
	return g
}

// signed is a tilt with its sign always shown.
func (s *set) signed(tilt float64, digits int) string {
	return s.plus(tilt, quantity.Slope, digits)
}

// plus is a number with its sign always shown.
func (s *set) plus(inner float64, d quantity.Dimension, digits int) string {
	return typeset(view.Signed(view.Digits(s.value(inner, d), digits)))
}

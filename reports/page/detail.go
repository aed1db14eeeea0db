package page

import (
	"fmt"
	"html/template"
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// detail is one speed with all its numbers.
type detail struct {
	Name        string
	Summary     string
	Differences []template.HTML
	Boxes       []boxDetail
}

type boxDetail struct {
	Box    int
	Name   string
	Line   string
	Grids  []template.HTML
	Absent string
}

func (s *set) details(c *study.Comparison) []detail {
	var out []detail
	for _, r := range s.rows {
		d := detail{Name: r.name}
		for b, sp := range r.boxes {
			bd := boxDetail{Box: look(b), Name: s.names[b]}
			if sp == nil {
				bd.Absent = "This box has no such speed, or it was not asked for."
			} else {
				if m := governing(sp); m != nil {
					d.Summary += fmt.Sprintf("%s %s %s. ", s.names[b], m.State.Sign(), percent(m.Margin))
				}
				bd.Line = fmt.Sprintf("Ratio %s, efficiency %s, output torque %s.",
					figure(math.Abs(sp.Ratio), 4), figure(sp.Efficiency, 3), s.text(sp.OutputTorque, quantity.Torque, 3))
				bd.Grids = s.speedTables(s.results[b], sp)
			}
			d.Boxes = append(d.Boxes, bd)
		}
		if c != nil {
			for i := range c.Speeds {
				if view.Clean(c.Speeds[i].Name) == r.name && len(c.Speeds[i].Items) > 0 {
					d.Differences = s.tables(view.SpeedDifferences(c.Speeds[i], s.names, s.Options))
				}
			}
		}
		out = append(out, d)
	}
	return out
}

// speedTables is every table of a speed, the verdict first.
func (s *set) speedTables(r *gearbox.Result, sp *gearbox.SpeedResult) (all []template.HTML) {
	o := s.Options
	all = s.tables(view.SpeedTables(sp, o)...)
	all = append(all, s.tables(view.SenseTable(r.Speeds, o).Of(sp.Name), view.MeshTable(r.Speeds, o).Of(sp.Name), view.LoadTable(sp, o), view.TeethTable([]gearbox.SpeedResult{*sp}, o),
		view.CauseTable(sp, o), view.GrowthTable(sp, o), view.ScuffTable(sp, o))...)
	return append(append(all, s.tables(view.FactorTables(r.Box, sp, o)...)...), s.tables(view.BearingTable(sp, o), view.SectionTable(sp, o))...)
}

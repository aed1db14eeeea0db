package page

import (
	"fmt"
	"io"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Headroom writes a page about whether boxes bear a torque.
func Headroom(w io.Writer, all []*study.Headroom, o view.Options) error {
	if err := view.ReportableHeadrooms(all); err != nil {
		return err
	}
	s := newSet(view.ResultsOf(all), o)
	p := newAnswer(view.List(s.names), "Headroom", view.HeadroomAnswers(all, o), o)
	p.Many = len(all) > 1
	words := view.HeadroomWords(all, o)
	var charts []chart
	for b, h := range all {
		of := ""
		if len(all) > 1 {
			of = s.names[b] + ": "
		}
		p.Asked = append(p.Asked, of+view.HeadroomAsked(h, o))
		p.Answers = append(p.Answers, sentences{look(b), s.names[b], words[b][1:]}) // the first is the headline
		p.Sections = append(p.Sections, section{Title: of + "What is left, speed by speed", Grids: s.tables(view.HeadroomTables(h, o)...)})
		figures := section{Title: of + "How each limit comes nearer as the torque grows",
			Intro: "One line for each limit: how much more torque it would bear, at the input torque below. It is reached where its line crosses zero. The upright lines are the torques asked about."}
		for i := range h.Speeds {
			c, f := s.limitChart(h, i, fmt.Sprintf("limits-%d-%d", b, i))
			charts = append(charts, c...)
			figures.Figures = append(figures.Figures, f)
		}
		p.Sections = append(p.Sections, figures)
		if len(h.Variants) > 0 {
			tables := append(view.VariantTables(h, o), view.AloneTables(h, o)...)
			p.Sections = append(p.Sections, section{Title: of + "What the change buys", List: view.Changes(h), Grids: s.tables(tables...)})
		}
	}
	return assemble(w, "answer", p, charts)
}

// limitLook is the look of all limits behind the three that come first.
const limitLook = 3

// limitChart shows the margin of the limits of one speed against the input torque.
func (s *set) limitChart(h *study.Headroom, i int, id string) ([]chart, figureBox) {
	r := &h.Speeds[i]
	f := figureBox{ID: id, Title: view.Clean(r.Speed)}
	type line struct {
		name  string
		at    float64
		order int
	}
	var lines []line
	for k, l := range r.Limits {
		if !math.IsInf(l.Torque, 1) {
			lines = append(lines, line{view.LimitBeside(l, r.Speed), l.Torque, k})
		}
	}
	// Of the kinds that are not among them, the one reached first.
	margins := h.Result.Speeds[i].Margins
	for _, kind := range gearbox.Kinds() {
		if slices.ContainsFunc(r.Limits, func(l gearbox.FirstLimit) bool { return l.Kind == kind }) {
			continue
		}
		for k := range margins {
			if m := &margins[k]; m.Kind == kind {
				if a := m.Allowable[m.Level]; !math.IsInf(a, 1) {
					lines = append(lines, line{view.LimitBeside(m.First(), r.Speed), a, limitLook})
				}
				break
			}
		}
	}
	if len(lines) == 0 {
		return nil, figureBox{Title: f.Title, Note: "Nothing to draw: no limit is reached at any torque."}
	}
	before, total := math.Abs(h.Before), math.Abs(h.Total())
	unit := s.value(1, quantity.Torque)
	x := roundScale(0.5*min(before, total)*unit, max(1.5*total, 1.25*r.Allowable())*unit, 8)
	x.Low = max(x.Low, x.Step/2)
	from, to := x.Low/unit, x.High/unit
	data := make(table, torqueSteps+1)
	for k := range data {
		t := from * math.Pow(to/from, float64(k)/torqueSteps)
		row := []float64{s.value(t, quantity.Torque)}
		for _, l := range lines {
			row = append(row, 100*(l.at/t-1))
		}
		data[k] = row
	}
	c := chart{ID: id, Kind: "torque", XUnit: s.unit(quantity.Torque), Boxes: []string{""}}
	crosses := series{Role: "cross"}
	names := make([]string, len(lines))
	for k, l := range lines {
		names[k] = l.name
		role := "speed"
		if k == 0 {
			role = "first"
		}
		c.Series = append(c.Series, series{Box: l.order, Role: role})
		if l.order == limitLook {
			continue
		}
		number := fmt.Sprint(k + 1)
		f.Note += fmt.Sprintf("%s: %s, at %s. ", number, l.name, s.text(l.at, quantity.Torque, 3))
		if l.at >= from && l.at <= to {
			crosses.Cross = append(crosses.Cross, cross{rounded(s.value(l.at, quantity.Torque)), number, k == 0})
		}
	}
	c.Series = append(c.Series, crosses)
	if len(lines) > len(r.Limits) {
		f.Note += "The thin lines are the first of every other kind of limit."
	}
	asked := []mark{{"asked " + s.text(total, quantity.Torque, 3), s.value(total, quantity.Torque)}}
	if h.Added != 0 {
		asked = append(asked, mark{"before " + s.text(before, quantity.Torque, 3), s.value(before, quantity.Torque)})
	}
	y := roundScale(-60, 120, 6)
	c.Option = limitsOption(names, data, x, y, c.XUnit, asked)
	f.Alt = fmt.Sprintf("Torque margin of each limit in %s against input torque. %s is reached first, at %s.", view.Clean(r.Speed), lines[0].name, s.text(lines[0].at, quantity.Torque, 3))
	return []chart{c}, f
}

package page

import (
	"fmt"
	"html/template"
	"io"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Headroom writes a page about whether boxes bear a torque.
func Headroom(w io.Writer, all []*study.Headroom, o Options) error {
	if len(all) == 0 {
		return fmt.Errorf("page: no headroom given; ask of one box first")
	}
	var results []*gearbox.Result
	for i, h := range all {
		if h == nil || h.Result == nil || h.Result.Box == nil {
			return fmt.Errorf("page: headroom %d of %d is empty or has no box", i+1, len(all))
		}
		results = append(results, h.Result)
	}
	s := newSet(results, o.Units)
	p := newAnswer(view.List(s.names), "Headroom", o)
	p.Many = len(all) > 1
	var charts []chart
	for b, h := range all {
		of := ""
		if len(all) > 1 {
			of = s.names[b] + ": "
		}
		p.Asked = append(p.Asked, of+s.asked(b))
		if o.HeadroomWords != nil {
			a := sentences{Box: look(b), Name: s.names[b]}
			for _, text := range o.HeadroomWords(h)[1:] { // the first is the headline
				a.Text = append(a.Text, view.Clean(text))
			}
			p.Answers = append(p.Answers, a)
		}
		title := of + "What is left, speed by speed"
		if g := s.comesGrid(h.Result); g != nil {
			p.Sections = append(p.Sections, section{Title: of + "What is left at the torque transmitted, speed by speed", Grids: []template.HTML{g.html()},
				Intro: "Engine, clutch and tyres: the weakest of them bounds the torque. What breaks at once is held against the peak, all else against the continuous torque."})
			title = of + "What is left at the input, if all of the torque arrived"
		}
		p.Sections = append(p.Sections, section{Title: title, Grids: []template.HTML{s.reserveGrid(h, o).html()},
			Foot: fmt.Sprintf("Hold the engine to: a torque limit for its controller that keeps the wanted reserve, the allowable torque ÷ %s, rounded down.", short(1+h.Result.Box.Limits.Reserve))})
		figures := section{Title: of + "How each limit comes nearer as the torque grows",
			Intro: "One line for each limit: how much more torque it would bear, at the input torque below. It is reached where its line crosses zero. The upright lines are the torques asked about."}
		for i := range h.Speeds {
			c, f := s.limitChart(h, i, fmt.Sprintf("limits-%d-%d", b, i))
			charts = append(charts, c...)
			figures.Figures = append(figures.Figures, f)
		}
		p.Sections = append(p.Sections, figures)
		if len(h.Variants) > 0 {
			p.Sections = append(p.Sections, s.variantSection(h, of))
		}
	}
	return assemble(w, "answer", p, charts)
}

func (s *set) reserveGrid(h *study.Headroom, o Options) *grid {
	unit := s.unit(quantity.Torque)
	g := &grid{Caption: "What is left in each speed", Heads: []string{"Speed", "State", "Left", "Allowable, " + unit, "Hold the engine to, " + unit, "Limited by", "then by", "then by"}}
	for i := range h.Speeds {
		r := &h.Speeds[i]
		state := r.State
		if g := governing(&h.Result.Speeds[i]); g != nil {
			state = g.State
		}
		row := gridRow{Head: view.Clean(r.Speed), State: state.String(), Cells: []gridCell{
			{Text: state.Sign() + " " + state.String(), Word: true, Head: true}, digit(percent(r.Asked)), digit(s.number(r.Allowable(), quantity.Torque, 3)), digit(view.Down(s.value(r.Holding, quantity.Torque))),
		}}
		for k := range 3 {
			text := view.Absent
			if k < len(r.Limits) {
				text = limitText(r.Limits[k], r.Speed)
				if bad := badOf(&h.Result.Speeds[i], r.Limits[k]); bad[1] > 0 && o.BadRange != nil {
					text += ", " + o.BadRange(bad)
				}
				if k > 0 {
					text += ", at " + s.text(r.Limits[k].Torque, quantity.Torque, 3)
				}
			}
			row.Cells = append(row.Cells, word(text))
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// badOf is the range in which a limit of a speed is exceeded that holds again above, N·mm; zero where there is none.
func badOf(sp *gearbox.SpeedResult, l gearbox.FirstLimit) (bad [2]float64) {
	for i := range sp.Margins {
		if m := &sp.Margins[i]; m.Kind == l.Kind && m.Item == l.Item && m.Mesh == l.Mesh {
			return m.Bad
		}
	}
	return bad
}

// comesGrid is what clutch and tyres let through in each speed, and what is left against it; nil when neither is given.
func (s *set) comesGrid(r *gearbox.Result) *grid {
	unit := s.unit(quantity.Torque)
	g := &grid{Caption: "What is left at the torque transmitted", Heads: []string{"Speed", "State", "Left", "Limited by", "Peak, " + unit, "by", "Continuous, " + unit, "by"}}
	for i := range r.Speeds {
		sp := &r.Speeds[i]
		if sp.Reach == nil || sp.Reach.First < 0 || sp.Reach.First >= len(sp.Margins) {
			continue
		}
		m := &sp.Margins[sp.Reach.First]
		g.Rows = append(g.Rows, gridRow{Head: view.Clean(sp.Name), State: m.ReachedState.String(), Cells: []gridCell{
			{Text: m.ReachedState.Sign() + " " + m.ReachedState.String(), Word: true, Head: true}, digit(percent(m.Reached)), word(limitText(m.First(), sp.Name)),
			digit(s.number(sp.Reach.Peak.Torque, quantity.Torque, 3)), word(string(sp.Reach.Peak.By)), digit(s.number(sp.Reach.Running.Torque, quantity.Torque, 3)), word(string(sp.Reach.Running.By)),
		}})
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return g
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
			lines = append(lines, line{limitText(l, r.Speed), l.Torque, k})
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
					lines = append(lines, line{limitText(m.First(), r.Speed), a, limitLook})
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

// variantSection tells what changes buy.
func (s *set) variantSection(h *study.Headroom, of string) section {
	sec := section{Title: of + "What the change buys", Foot: "K_Hβ is the peak over the mean load along the face, of the mesh where it is largest, at the torque asked."}
	unit := s.unit(quantity.Torque)
	for i, c := range h.Variants[0].Changes {
		sec.List = append(sec.List, lettered{view.Letter(i), view.Clean(c)})
	}
	for k := range h.Variants {
		v := &h.Variants[k]
		caption := "The change"
		switch {
		case k > 0:
			caption = "Change " + view.Letter(k-1) + " alone"
		case len(h.Variants) > 1:
			caption = "All changes together"
		}
		g := &grid{Caption: caption, Heads: []string{"Speed", "State then", "Allowable now, " + unit, "Then, " + unit, "Change", "K_Hβ now", "Then", "Limited by then"}}
		for i := range h.Speeds {
			now, then := &h.Speeds[i], v.Reserve(h.Speeds[i].Speed)
			if then == nil {
				continue
			}
			first := view.NotReached
			if len(then.Limits) > 0 {
				first = limitText(then.Limits[0], then.Speed)
			}
			g.Rows = append(g.Rows, gridRow{Head: view.Clean(now.Speed), State: then.State.String(), Cells: []gridCell{
				{Text: then.State.Sign() + " " + then.State.String(), Word: true, Head: true},
				digit(s.number(now.Allowable(), quantity.Torque, 3)), digit(s.number(then.Allowable(), quantity.Torque, 3)), digit(percent(then.Allowable()/now.Allowable() - 1)),
				digit(figure(now.FaceFactor, 3)), digit(figure(then.FaceFactor, 3)), word(first),
			}})
		}
		sec.Grids = append(sec.Grids, g.html())
	}
	return sec
}

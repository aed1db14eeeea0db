package page

import (
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// ratiosContent is what the template of a page of ratios shows.
type ratiosContent struct {
	Policy        string
	Style         template.CSS
	Title, Kicker string
	Headline      string
	Asked         []string
	Keys          []key
	Many          bool
	Pull, Grip    bool
	Figure        figureBox
	Tables        []boxDetail
	Caution       []string
	Version       string
	Licences      []licence
}

// Ratios writes a page with the ratio tables of one or more boxes.
func Ratios(w io.Writer, tables []*study.RatioTable, o Options) error {
	if len(tables) == 0 {
		return fmt.Errorf("page: no ratio table given; set one up first")
	}
	var results []*gearbox.Result
	for i, t := range tables {
		if t == nil || t.Box == nil {
			return fmt.Errorf("page: ratio table %d of %d is empty or has no box", i+1, len(tables))
		}
		results = append(results, &gearbox.Result{Box: t.Box})
	}
	s := newSet(results, o.Units)
	p := &ratiosContent{Title: view.List(s.names), Kicker: "Ratio table", Headline: view.Clean(o.Headline), Many: len(tables) > 1, Caution: cautions(o.Caution), Version: view.Clean(o.Version)}
	p.Policy, p.Style, p.Licences = cover()
	for b, t := range tables {
		p.Keys = append(p.Keys, key{look(b), s.names[b]})
		p.Asked = append(p.Asked, s.ratioAsked(b, t, p.Many))
		p.Pull, p.Grip = p.Pull || t.Tyres, p.Grip || t.Grip
		p.Tables = append(p.Tables, boxDetail{Box: look(b), Name: s.names[b], Grids: []template.HTML{s.ratioGrid(t).html()}})
	}
	charts, figure := s.gearingChart(tables)
	p.Figure = figure
	return assemble(w, "ratios", p, charts)
}

func (s *set) ratioAsked(b int, t *study.RatioTable, many bool) string {
	text := "Engine torque " + s.text(t.Torque, quantity.Torque, 3)
	if t.Revs > 0 {
		text += ", shifted up at " + short(s.value(t.Revs, quantity.RotationalSpeed)) + " " + s.unit(quantity.RotationalSpeed)
	}
	if t.Tyres {
		text += ", on tyres of " + s.text(t.Box.Car.TyreRadius, quantity.Length, 3) + " radius"
	}
	if many {
		text = s.names[b] + ": " + text
	}
	return text + "."
}

// ratioGrid is the ratio table in numbers.
func (s *set) ratioGrid(t *study.RatioTable) *grid {
	velocity, force := s.unit(quantity.Velocity), s.unit(quantity.Force)
	g := &grid{Caption: "Ratios, speeds, shifts and pull"}
	columns := []struct {
		head string
		show bool
		text func(*study.RatioRow) string
	}{
		{"Ratio", true, func(r *study.RatioRow) string { return figure(r.Box, 4) }},
		{"With the axle", t.Tyres && t.Box.Car.AxleRatio > 0 && t.Box.Car.AxleRatio != 1, func(r *study.RatioRow) string { return figure(r.Total, 4) }},
		{"At 1000 rpm, " + velocity, t.Tyres, func(r *study.RatioRow) string { return s.number(r.Thousand, quantity.Velocity, 3) }},
		{"At " + short(s.value(t.Revs, quantity.RotationalSpeed)) + " rpm, " + velocity, t.Tyres && t.Revs > 0, func(r *study.RatioRow) string { return s.number(r.Ground, quantity.Velocity, 3) }},
		{"After the shift up, rpm", t.Revs > 0, func(r *study.RatioRow) string { return s.dash(r.After, quantity.RotationalSpeed, 4) }},
		{"Drop, rpm", t.Revs > 0, func(r *study.RatioRow) string { return s.dash(r.Drop, quantity.RotationalSpeed, 3) }},
		{"Drop, %", true, func(r *study.RatioRow) string {
			if r.Next == "" {
				return view.Absent
			}
			return figure(100*r.Lost(), 3)
		}},
		{"At the wheels, " + s.unit(quantity.Torque), t.Tyres, func(r *study.RatioRow) string { return s.number(r.Wheels, quantity.Torque, 3) }},
		{"Pull, " + force, t.Tyres, func(r *study.RatioRow) string { return s.number(r.Pull, quantity.Force, 3) }},
		{"Tyres hold, " + force, t.Grip, func(r *study.RatioRow) string { return s.number(r.Holds, quantity.Force, 3) }},
		{"Used, %", t.Grip, func(r *study.RatioRow) string { return figure(100*r.Used, 3) }},
	}
	g.Heads = []string{"Speed"}
	for _, c := range columns {
		if c.show {
			g.Heads = append(g.Heads, c.head)
		}
	}
	for i := range t.Speeds {
		row := gridRow{Head: view.Clean(t.Speeds[i].Name)}
		for _, c := range columns {
			if c.show {
				row.Cells = append(row.Cells, digit(c.text(&t.Speeds[i])))
			}
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// dash is a number, or a dash where there is none to have.
func (s *set) dash(v float64, d quantity.Dimension, digits int) string {
	if math.IsNaN(v) {
		return view.Absent
	}
	return s.number(v, d, digits)
}

// lineSteps is of how many pieces a straight line of the chart is, so that the pointer finds its places.
const lineSteps = 40

// gearingChart shows engine speed and pull against the speed over ground, for boxes of which revs and tyres are given.
func (s *set) gearingChart(tables []*study.RatioTable) ([]chart, figureBox) {
	f := figureBox{ID: "gearing", Title: "Engine speed against speed over ground"}
	var fastest, revs, pull float64
	var drawn []string
	for b, t := range tables {
		if !t.Tyres || !(t.Revs > 0) {
			continue
		}
		drawn = append(drawn, s.names[b])
		revs = max(revs, s.value(t.Revs, quantity.RotationalSpeed))
		for i := range t.Speeds {
			r := &t.Speeds[i]
			fastest = max(fastest, s.value(r.Ground, quantity.Velocity))
			pull = max(pull, s.value(r.Pull, quantity.Force))
			if r.Used > 0 {
				pull = max(pull, s.value(r.Holds, quantity.Force))
			}
		}
	}
	if len(drawn) == 0 {
		return nil, figureBox{Title: f.Title, Note: "Nothing to draw: that needs the tyre radius of the car and the speed at which the engine is shifted up."}
	}
	x, y, z := roundScale(0, fastest, 8), roundScale(0, revs, 6), roundScale(0, pull, 4)
	c := chart{ID: f.ID, Kind: "gearing", XUnit: s.unit(quantity.Velocity), YUnit: s.unit(quantity.RotationalSpeed), Boxes: s.names}
	c.Option, c.Series = gearingOption(s.gearingLines(tables), s.names, x, y, z, "speed over ground, "+c.XUnit)
	for _, t := range tables {
		c.Tops = append(c.Tops, rounded(s.value(t.Revs, quantity.RotationalSpeed)))
	}
	c.Panels = []panel{{Title: "engine speed", Unit: c.YUnit, Box: -1}, {Title: "pull at the wheels", Unit: s.unit(quantity.Force), Box: -1}}
	f.Alt = "Engine speed and pull at the wheels against speed over ground, for every speed of " + view.List(drawn) + "."
	if len(drawn) < len(tables) {
		f.Note = "Only boxes of which the tyre radius and the speed at which the engine is shifted up are given: " + strings.Join(drawn, ", ") + "."
	}
	return []chart{c}, f
}

// gearingLine is one line of the chart. Role is "gear" (one speed of the box), "run" (shifting through all of them), "pull" or "hold".
type gearingLine struct {
	box  int
	role string
	name string
	data table // speed over ground, then engine speed or force, in the units shown
}

// gearingLines are the lines of all boxes that can be drawn. Engine speed and speed over ground grow in step, so that a speed of the box is a straight line up to where it is shifted.
func (s *set) gearingLines(tables []*study.RatioTable) (lines []gearingLine) {
	for b, t := range tables {
		if !t.Tyres || !(t.Revs > 0) {
			continue
		}
		top := s.value(t.Revs, quantity.RotationalSpeed)
		run, pull, hold := table{{0, 0}}, table{}, table{}
		from := 0.0
		for i := range t.Speeds {
			r := &t.Speeds[i]
			to := s.value(r.Ground, quantity.Velocity)
			name := view.Clean(r.Name)
			line := table{}
			for k := range lineSteps + 1 {
				part := float64(k) / lineSteps
				line = append(line, []float64{part * to, part * top})
			}
			lines = append(lines, gearingLine{b, "gear", name, line})
			if r.Reverse {
				continue
			}
			run = append(run, []float64{to, top})
			if r.Next != "" {
				run = append(run, []float64{to, s.value(r.After, quantity.RotationalSpeed)})
			}
			force := s.value(r.Pull, quantity.Force)
			pull = append(pull, []float64{from, force}, []float64{to, force})
			if r.Used > 0 {
				held := s.value(r.Holds, quantity.Force)
				hold = append(hold, []float64{from, held}, []float64{to, held})
			}
			from = to
		}
		lines = append(lines, gearingLine{b, "run", s.names[b], run}, gearingLine{b, "pull", s.names[b], pull})
		if len(hold) > 0 {
			lines = append(lines, gearingLine{b, "hold", s.names[b], hold})
		}
	}
	return lines
}

package page

import (
	"html/template"
	"io"
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
	Caution       string
	Version       string
	Licences      []licence
}

// Ratios writes a page with the ratio tables of one or more boxes.
func Ratios(w io.Writer, tables []*study.RatioTable, o view.Options) error {
	if len(tables) == 0 {
		return view.ErrNoRatios
	}
	var results []*gearbox.Result
	for _, t := range tables {
		results = append(results, &gearbox.Result{Box: t.Box})
	}
	s := newSet(results, o)
	p := &ratiosContent{Title: view.List(s.names), Kicker: "Ratio table", Headline: view.RatiosHeadline(tables, o), Many: len(tables) > 1, Caution: view.Caution(), Version: o.Version}
	p.Policy, p.Style, p.Licences = cover()
	for b, t := range tables {
		p.Keys = append(p.Keys, key{look(b), s.names[b]})
		asked := view.RatioAsked(t, o)
		if p.Many {
			asked = s.names[b] + ": " + asked
		}
		p.Asked = append(p.Asked, asked)
		p.Pull, p.Grip = p.Pull || t.Tyres, p.Grip || t.Grip
		p.Tables = append(p.Tables, boxDetail{Box: look(b), Name: s.names[b], Grids: s.tables(view.RatioTables(t, o)...)})
	}
	charts, figure := s.gearingChart(tables)
	p.Figure = figure
	return assemble(w, "ratios", p, charts)
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

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

// Sweep writes a page about a sweep: a chart of lines for one number, a map for two.
func Sweep(w io.Writer, sw *study.Sweep, o view.Options) error {
	if err := view.ReportableSweep(sw); err != nil {
		return err
	}
	s := newSet([]*gearbox.Result{{Box: sw.Box}}, o)
	p := newAnswer(s.names[0], "Sweep", view.SweepHeadline(sw, o), o)
	p.Asked = view.SweepIntro(sw, o)
	var charts []chart
	if len(sw.Axes) == 1 {
		governors, of := sw.Governors()
		c, f := s.sweepChart(sw, of)
		charts = c
		p.Sections = append(p.Sections,
			section{Title: "Allowable torque over the range", Wide: true, Figures: []figureBox{f}, List: view.Governors(governors)},
			section{Title: "In numbers", Grids: s.tables(view.SweepTables(sw, o)...)})
	} else {
		drawn, letters := s.sweepMap(sw)
		intro := "Each field is one make of the box: the darker, the more torque it allows. The letter says what limits it there."
		if sw.Target != nil {
			intro += " An outlined field meets the target."
		}
		p.Sections = append(p.Sections, section{Title: "Allowable torque over both ranges", Map: drawn, List: letters, Intro: intro})
	}
	if gaps := view.GapWords(sw, o); len(gaps) > 0 {
		p.Sections = append(p.Sections, section{Title: "Values that are not buildable", Words: gaps})
	}
	if t := view.MetTable(sw, o); t != nil {
		p.Sections = append(p.Sections, section{Title: "Where the target is met", Grids: s.tables(t)})
	}
	return assemble(w, "answer", p, charts)
}

// axisUnit is the unit of an axis, and axisValue a value in it.
func (s *set) axisUnit(a *study.Axis) string { return quantity.Unit(a.Dimension, s.units.system) }

func (s *set) axisValue(a *study.Axis, v float64) float64 {
	if math.IsNaN(v) {
		return v
	}
	return quantity.Convert(v, a.Dimension, s.units.system)
}

func (s *set) axisText(a *study.Axis, v float64, digits int) string {
	return strings.TrimSpace(figure(s.axisValue(a, v), digits) + " " + s.axisUnit(a))
}

// axisName is the end of a key path and the unit.
func (s *set) axisName(a *study.Axis) string {
	name := view.Clean(a.Key)
	if unit := s.axisUnit(a); unit != "" {
		name += ", " + unit
	}
	return name
}

// sweepChart has a line for each speed and a thick one for the least of them.
func (s *set) sweepChart(sw *study.Sweep, of []int) ([]chart, figureBox) {
	a := &sw.Axes[0]
	f := figureBox{ID: "sweep", Title: "Allowable torque against " + view.Clean(a.Key)}
	least, most := math.Inf(1), 0.0
	data := make(table, len(sw.Points))
	for i := range sw.Points {
		p := &sw.Points[i]
		row := []float64{s.axisValue(a, a.Values[i])}
		for k := range sw.Speeds {
			v := math.NaN()
			if p.Gap == "" {
				if v = s.value(p.Speeds[k].First.Torque, quantity.Torque); !math.IsInf(v, 0) {
					least, most = min(least, v), max(most, v)
				}
			}
			row = append(row, v)
		}
		all := math.NaN()
		if p.Gap == "" {
			_, first := p.First()
			all = s.value(first.Torque, quantity.Torque)
		}
		data[i] = append(row, all)
	}
	if most == 0 {
		return nil, figureBox{Title: f.Title, Note: "Nothing to draw: no value makes a box with a limit."}
	}
	c := chart{ID: f.ID, Kind: "sweep", XUnit: s.axisUnit(a), YUnit: s.unit(quantity.Torque), Boxes: s.names}
	if sw.Target != nil && sw.Target.Torque > 0 {
		v := s.value(sw.Target.Torque, quantity.Torque)
		least, most = min(least, v), max(most, v)
		c.Marks = append(c.Marks, mark{"wanted " + s.text(sw.Target.Torque, quantity.Torque, 3), v})
	}
	var uprights []mark
	for _, m := range sw.Met {
		uprights = append(uprights, mark{s.axisText(a, m.At, 5), s.axisValue(a, m.At)})
	}
	if !math.IsNaN(a.Now) && a.Now >= a.Values[0] && a.Now <= a.Values[len(a.Values)-1] {
		uprights = append(uprights, mark{"now " + s.axisText(a, a.Now, 4), s.axisValue(a, a.Now)})
	}
	c.Uprights = uprights
	for i := 0; i < len(of); {
		j := i
		for j+1 < len(of) && of[j+1] == of[i] {
			j++
		}
		// What governs changes somewhere between two points; the middle is as good as any.
		from, to := data[i][0], data[j][0]
		if i > 0 {
			from = (data[i-1][0] + from) / 2
		}
		if j+1 < len(of) {
			to = (data[j+1][0] + to) / 2
		}
		if of[i] >= 0 {
			c.Stretches = append(c.Stretches, stretch{rounded(from), rounded(to), view.Letter(of[i])})
		}
		i = j + 1
	}
	x := scale{data[0][0], data[len(data)-1][0], roundScale(data[0][0], data[len(data)-1][0], 8).Step}
	y := roundScale(max(0, least-0.08*(most-least)), most+0.12*(most-least), 6)
	names := make([]string, len(sw.Speeds))
	for k, name := range sw.Speeds {
		names[k] = view.Clean(name)
		c.Series = append(c.Series, series{Box: k, Role: "speed"})
	}
	c.Series = append(c.Series, series{Role: "least"})
	c.Option = sweepOption(append(names, "least"), data, x, y, s.axisName(a), c.YUnit)
	f.Alt = fmt.Sprintf("Allowable torque of every speed against %s.", view.Clean(a.Key))
	f.Note = "Thin: each speed. Thick: the least of them, which counts. The letters on top say what limits it there."
	for i := range sw.Points {
		if sw.Points[i].Gap != "" {
			f.Note += " Where the lines are broken there is no such box; the table says why."
			break
		}
	}
	return []chart{c}, f
}

// sweepMap is the map of two numbers, the first down and the second across, and what its letters stand for.
func (s *set) sweepMap(sw *study.Sweep) (template.HTML, [][2]string) {
	fields, letters := view.Fields(sw, s.Options)
	least, most := math.Inf(1), 0.0
	for _, f := range fields {
		if view.Finite(f.Torque) {
			least, most = min(least, f.Torque), max(most, f.Torque)
		}
	}
	var b strings.Builder
	esc := template.HTMLEscapeString
	fmt.Fprintf(&b, `<table class="heat"><caption>%s.</caption><thead><tr><td></td>`, esc(view.PlaneCaption(sw, s.Options)))
	across := view.AxisTexts(&sw.Axes[1], s.Options)
	for _, text := range across {
		fmt.Fprintf(&b, `<th scope="col">%s</th>`, esc(typeset(text)))
	}
	b.WriteString("</tr></thead>\n<tbody>")
	for i, text := range view.AxisTexts(&sw.Axes[0], s.Options) {
		fmt.Fprintf(&b, "<tr><th scope=\"row\">%s</th>", esc(typeset(text)))
		for _, f := range fields[i*len(across) : (i+1)*len(across)] {
			if f.Gap != "" {
				fmt.Fprintf(&b, `<td class="gap" title="%s">%s</td>`, esc(view.Clean(f.Gap)), f.Text)
				continue
			}
			share := 1.0
			if most > least {
				share = min(1, (f.Torque-least)/(most-least))
			}
			class := "dark"
			if share < 0.5 {
				class = "pale"
			}
			if sw.Target != nil && sw.Target.Met(f.Point) {
				class += " met"
			}
			fmt.Fprintf(&b, `<td class="%s" style="--k:%.0f%%">%s <b>%s</b></td>`, class, 100*share, esc(typeset(f.Text)), f.Letter)
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody></table>")
	return template.HTML(b.String()), letters
}

package page

import (
	"fmt"
	"html/template"
	"io"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Sweep writes a page about a sweep: a chart of lines for one number, a map for two.
func Sweep(w io.Writer, sw *study.Sweep, o Options) error {
	if sw == nil || sw.Box == nil || len(sw.Axes) < 1 || len(sw.Axes) > 2 {
		return fmt.Errorf("page: no sweep given; vary one or two numbers of a box first")
	}
	s := newSet([]*gearbox.Result{{Box: sw.Box}}, o.Units)
	p := newAnswer(s.names[0], "Sweep", o)
	for i := range sw.Axes {
		p.Asked = append(p.Asked, s.axisAsked(&sw.Axes[i]))
	}
	governors, of := sw.Governors()
	var keys []lettered
	for i, g := range governors {
		keys = append(keys, lettered{view.Letter(i), view.Clean(g.Speed) + ": " + limitText(gearbox.FirstLimit{Kind: g.Kind, Item: g.Item}, g.Speed)})
	}
	outlined := ""
	if sw.Target != nil {
		outlined = " An outlined field meets the target."
	}
	var charts []chart
	if len(sw.Axes) == 1 {
		c, f := s.sweepChart(sw, of)
		charts = c
		p.Sections = append(p.Sections, section{Title: "Allowable torque over the range", Wide: true, Figures: []figureBox{f}, List: keys})
	} else {
		p.Sections = append(p.Sections, section{Title: "Allowable torque over both ranges", Map: s.sweepMap(sw, of), List: keys,
			Intro: "Each field is one make of the box: the darker, the more torque it allows. The letter says what limits it there." + outlined})
	}
	numbers := section{Title: "In numbers", Grids: []template.HTML{s.sweepGrid(sw).html()}}
	if len(sw.Axes) == 2 { // the map has them
		numbers = section{Title: "Values that are not buildable", Grids: []template.HTML{s.gapGrid(sw).html()}}
	}
	if len(sw.Axes) == 1 || slices.ContainsFunc(sw.Points, func(p study.Point) bool { return p.Gap != "" }) {
		p.Sections = append(p.Sections, numbers)
	}
	if sw.Target != nil {
		p.Sections = append(p.Sections, section{Title: "Where the target is met", Grids: []template.HTML{s.metGrid(sw).html()},
			Foot: "Found between neighbouring steps; a target that is met and lost again between two steps is not seen."})
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

func (s *set) axisAsked(a *study.Axis) string {
	text := fmt.Sprintf("Varied: %s from %s to %s", view.Clean(a.Key), s.axisText(a, a.Values[0], 4), s.axisText(a, a.Values[len(a.Values)-1], 4))
	if !math.IsNaN(a.Now) {
		text += "; the file has " + s.axisText(a, a.Now, 4)
	}
	return text + "."
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

// sweepMap is the map of two numbers: the first runs down, the second across.
func (s *set) sweepMap(sw *study.Sweep, of []int) template.HTML {
	down, across := &sw.Axes[0], &sw.Axes[1]
	n := len(across.Values)
	least, most := math.Inf(1), 0.0
	torque := make([]float64, len(sw.Points))
	for i := range sw.Points {
		torque[i] = math.NaN()
		if sw.Points[i].Gap == "" {
			_, first := sw.Points[i].First()
			torque[i] = s.value(first.Torque, quantity.Torque)
			if !math.IsInf(torque[i], 0) {
				least, most = min(least, torque[i]), max(most, torque[i])
			}
		}
	}
	var b strings.Builder
	esc := template.HTMLEscapeString
	fmt.Fprintf(&b, `<table class="heat"><caption>Allowable torque, %s. Down: %s. Across: %s.</caption><thead><tr><td></td>`, esc(s.unit(quantity.Torque)), esc(s.axisName(down)), esc(s.axisName(across)))
	for _, v := range across.Values {
		fmt.Fprintf(&b, `<th scope="col">%s</th>`, esc(figure(s.axisValue(across, v), 4)))
	}
	b.WriteString("</tr></thead>\n<tbody>")
	for i, v := range down.Values {
		fmt.Fprintf(&b, "<tr><th scope=\"row\">%s</th>", esc(figure(s.axisValue(down, v), 4)))
		for j := range n {
			k := i*n + j
			p := &sw.Points[k]
			if p.Gap != "" {
				fmt.Fprintf(&b, `<td class="gap" title="%s">–</td>`, esc(view.Clean(p.Gap)))
				continue
			}
			share := 1.0
			if most > least {
				share = min(1, (torque[k]-least)/(most-least))
			}
			class := "dark"
			if share < 0.5 {
				class = "pale"
			}
			if sw.Target != nil {
				if sw.Target.Met(p) {
					class += " met"
				}
			}
			fmt.Fprintf(&b, `<td class="%s" style="--k:%.0f%%">%s <b>%s</b></td>`, class, 100*share, esc(figure(torque[k], 3)), view.Letter(of[k]))
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody></table>")
	return template.HTML(b.String())
}

// axisShort is the end of a key path, and the unit, for the head of a column.
func (s *set) axisShort(a *study.Axis) string {
	short := *a
	if parts := strings.Split(a.Key, "."); len(parts) > 2 {
		short.Key = strings.Join(parts[len(parts)-2:], ".")
	}
	return s.axisName(&short)
}

// sweepGrid is a sweep of one number.
func (s *set) sweepGrid(sw *study.Sweep) *grid {
	a := &sw.Axes[0]
	g := &grid{Caption: "Allowable torque at every step", Heads: []string{s.axisShort(a), "Allowable, " + s.unit(quantity.Torque), "Margin", "Speed", "Limited by"}}
	many := len(sw.Speeds) > 1
	for _, name := range sw.Speeds {
		if many {
			g.Heads = append(g.Heads, view.Clean(name)+", "+s.unit(quantity.Torque))
		}
	}
	for i := range sw.Points {
		p := &sw.Points[i]
		row := gridRow{Head: figure(s.axisValue(a, p.Values[0]), 4)}
		if p.Gap != "" {
			row.Cells = append(row.Cells, digit(view.Absent), digit(view.Absent), word(view.Absent), word("no such box: "+view.Clean(p.Gap)))
		} else {
			k, first := p.First()
			row.Cells = append(row.Cells, digit(s.number(first.Torque, quantity.Torque, 3)), digit(percent(p.Speeds[k].Margin)), word(view.Clean(sw.Speeds[k])), word(limitText(first, sw.Speeds[k])))
		}
		for k := range sw.Speeds {
			switch {
			case !many:
			case p.Gap != "":
				row.Cells = append(row.Cells, digit(view.Absent))
			default:
				row.Cells = append(row.Cells, digit(s.number(p.Speeds[k].First.Torque, quantity.Torque, 3)))
			}
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// gapGrid tells of a sweep of two numbers why some of their values are not buildable, each reason once.
func (s *set) gapGrid(sw *study.Sweep) *grid {
	g := &grid{Caption: "Why there is no such box", Heads: []string{s.axisShort(&sw.Axes[0]), s.axisShort(&sw.Axes[1]), "Fields", "Why"}}
	var order []string
	first, count := map[string]*study.Point{}, map[string]int{}
	for i := range sw.Points {
		p := &sw.Points[i]
		if p.Gap == "" {
			continue
		}
		if count[p.Gap]++; count[p.Gap] == 1 {
			first[p.Gap], order = p, append(order, p.Gap)
		}
	}
	for _, gap := range order {
		p := first[gap]
		g.Rows = append(g.Rows, gridRow{Head: figure(s.axisValue(&sw.Axes[0], p.Values[0]), 4),
			Cells: []gridCell{digit(figure(s.axisValue(&sw.Axes[1], p.Values[1]), 4)), digit(fmt.Sprint(count[gap])), word(view.Clean(gap))}})
	}
	return g
}

func (s *set) metGrid(sw *study.Sweep) *grid {
	a := &sw.Axes[0]
	wanted := "a margin of " + percent(sw.Target.Margin)
	if sw.Target.Torque > 0 {
		wanted = "an allowable torque of " + s.text(sw.Target.Torque, quantity.Torque, 3)
	}
	g := &grid{Caption: "Where there is " + wanted, Heads: []string{view.Clean(a.Key), "Found to", "Met"}}
	if len(sw.Met) == 0 {
		g.Caption = "Nowhere between two steps does the box begin or cease to have " + wanted
		return g
	}
	if len(sw.Axes) == 2 {
		g.Heads = append(g.Heads, view.Clean(sw.Axes[1].Key))
	}
	for _, m := range sw.Met {
		side := "up to there"
		if m.Rising {
			side = "from there on"
		}
		if m.Jump {
			side += " (jumps)"
		}
		within := "whole numbers"
		if m.Within > 0 {
			within = "± " + s.axisText(a, m.Within, 1)
		}
		row := gridRow{Head: s.axisText(a, m.At, 5), Cells: []gridCell{word(within), word(side)}}
		if len(sw.Axes) == 2 {
			row.Cells = append(row.Cells, word(s.axisText(&sw.Axes[1], m.Other, 4)))
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

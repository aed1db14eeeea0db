package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// curvePoints is about how many points a curve has along its shaft.
const curvePoints = 48

// shaftOf is one shaft over all boxes and speeds.
type shaftOf struct {
	name  string
	loads [][]*gearbox.ShaftResult // by row, by box; nil where it carries no load
	boxes []int                    // that have it
}

// shafts lists every shaft that carries load in some speed, in the order of the first box.
func (s *set) shafts() []*shaftOf {
	var all []*shaftOf
	byName := map[string]*shaftOf{}
	add := func(name string) *shaftOf {
		sh := byName[name]
		if sh == nil {
			sh = &shaftOf{name: shaftWords(view.Clean(name)), loads: make([][]*gearbox.ShaftResult, len(s.rows))}
			for k := range sh.loads {
				sh.loads[k] = make([]*gearbox.ShaftResult, len(s.results))
			}
			byName[name] = sh
			all = append(all, sh)
		}
		return sh
	}
	for b, res := range s.results {
		for _, sh := range res.Box.Shafts {
			add(sh.Name)
		}
		for k, r := range s.rows {
			if r.boxes[b] == nil {
				continue
			}
			for i := range r.boxes[b].Shafts {
				load := &r.boxes[b].Shafts[i]
				sh := add(load.Name)
				sh.loads[k][b] = load
				if !slices.Contains(sh.boxes, b) {
					sh.boxes = append(sh.boxes, b)
				}
			}
		}
	}
	return slices.DeleteFunc(all, func(sh *shaftOf) bool { return len(sh.boxes) == 0 })
}

// shaftWords is the name of a shaft with the word shaft in it.
func shaftWords(name string) string {
	if strings.Contains(strings.ToLower(name), "shaft") {
		return name
	}
	return name + " shaft"
}

// alignNote says how the boxes lie over each other.
func (s *set) alignNote() string {
	t := "x counts along the box from the place its file calls 0 (a shaft starts at its own start in the box), from left to right."
	if len(s.results) > 1 {
		t += " Boxes are laid over each other where their files put x = 0."
	}
	return t
}

// panels of curves, in order, with the dimension of what they show.
var panels = []struct {
	title string
	dim   quantity.Dimension
}{
	{"Deflection", quantity.Deflection},
	{"Slope", quantity.Slope},
	{"Bending moment", quantity.Torque},
	{"Torque", quantity.Torque},
}

// curveTable is the curves of one loaded shaft in the units shown. The load of a face comes onto its shaft in strips; where two states stand at
// one place inside a loaded gear, their middle is drawn, so that a face shows as the slope it is and not as stairs.
func (s *set) curveTable(box *gearbox.Box, sh *gearbox.ShaftResult) table {
	if sh == nil || sh.Solution == nil || !(sh.Length > 0) {
		return table{}
	}
	states := sh.Solution.Curve(sh.Length / curvePoints)
	inFace := func(x float64) bool {
		for _, p := range []gearbox.Port{box.Input, box.Output} {
			if p.Shaft == sh.Name && p.At == x {
				return false // here the torque does jump
			}
		}
		return slices.ContainsFunc(sh.Gears, func(g gearbox.GearSeat) bool { return x >= g.From && x <= g.To })
	}
	length, deflection := s.value(1, quantity.Length), s.value(1, quantity.Deflection)
	slope, torque := s.value(1, quantity.Slope), s.value(1, quantity.Torque)
	rows, cells := make(table, 0, len(states)), make([]float64, curveColumns*len(states))
	for i, st := range states {
		row := cells[curveColumns*i : curveColumns*(i+1)]
		copy(row, []float64{
			(sh.Start + st.X) * length,
			st.Y.Deflection * deflection,
			st.Z.Deflection * deflection,
			st.Deflection() * deflection,
			st.Slope() * slope,
			st.Moment() * torque,
			st.Torque * torque,
		})
		if i > 0 && st.X == states[i-1].X && inFace(st.X) {
			for k, v := range rows[len(rows)-1] {
				row[k] = (row[k] + v) / 2
			}
			rows = rows[:len(rows)-1]
		}
		rows = append(rows, row)
	}
	return rows
}

// shaftCharts is one chart for each shaft, with a view for each speed. All views of a shaft share their scales.
func (s *set) shaftCharts() (out []chart, figures []figureBox) {
	for n, sh := range s.shafts() {
		tables := make([][]table, len(s.rows))
		ranges := make([][2]float64, len(panels))
		from, to := math.Inf(1), math.Inf(-1)
		half := make([]float64, len(s.results))
		for k := range s.rows {
			tables[k] = make([]table, len(s.results))
			for b, load := range sh.loads[k] {
				tables[k][b] = s.curveTable(s.results[b].Box, load)
				if load == nil {
					continue
				}
				from, to = min(from, load.Start), max(to, load.Start+load.Length)
				half[b] = max(half[b], tallest(load))
				for _, row := range tables[k][b] {
					for _, c := range curves {
						if v := row[c.column]; !math.IsNaN(v) && !math.IsInf(v, 0) {
							r := &ranges[c.panel]
							r[0], r[1] = min(r[0], v), max(r[1], v)
						}
					}
				}
			}
		}
		x := roundScale(s.value(from, quantity.Length), s.value(to, quantity.Length), 14)
		ys := make([]scale, len(panels))
		c := chart{ID: fmt.Sprintf("shaft-%d", n), Kind: "shaft", XUnit: s.unit(quantity.Length), Boxes: s.names}
		for _, b := range sh.boxes {
			c.Panels = append(c.Panels, panel{Title: s.names[b], Box: b, Half: rounded(s.value(half[b], quantity.Length))})
		}
		for i, p := range panels {
			ys[i] = roundScale(ranges[i][0], ranges[i][1], 3)
			c.Panels = append(c.Panels, panel{Title: p.title, Unit: s.unit(p.dim), Box: -1})
		}
		c.Option, c.Series = shaftOption(sh.boxes, s.names, x, ys, "x in the box, "+c.XUnit)
		for k := range s.rows {
			c.Views = append(c.Views, s.shaftScene(sh, k, tables[k]))
		}
		out = append(out, c)
		open := c.Views[s.tightest()]
		figures = append(figures, figureBox{ID: c.ID, Title: sh.name, Alt: open.alt(), Note: open.Note})
	}
	return out, figures
}

// tallest is the largest radius of anything drawn on a shaft, mm.
func tallest(sh *gearbox.ShaftResult) float64 {
	r := 0.0
	for _, c := range sh.Sections {
		r = max(r, c.Outer/2)
	}
	r *= 1.15 // room for the sign of a bearing
	for _, g := range sh.Gears {
		r = max(r, g.Diameter/2)
	}
	return r
}

// shaftScene is one shaft in one speed: curves, outlines, and the same in words.
func (s *set) shaftScene(sh *shaftOf, k int, tables []table) scene {
	v := scene{Title: s.rows[k].name, Tables: tables, Parts: make([]parts, len(s.results))}
	v.Alt = fmt.Sprintf("%s in %s.", sh.name, s.rows[k].name)
	var words []string
	for _, b := range sh.boxes {
		load := sh.loads[k][b]
		v.Parts[b] = s.parts(sh, k, b)
		if load == nil {
			words = append(words, fmt.Sprintf("%s: carries no load in this speed.", s.names[b]))
			continue
		}
		text := fmt.Sprintf("%s: largest deflection %s at x = %s", s.names[b], s.text(load.MaxDeflection, quantity.Deflection, 3),
			s.text(load.Start+load.MaxAt, quantity.Length, 4))
		if t := tables[b]; len(t) == 0 {
			text += "; no curves are known"
		} else {
			text += fmt.Sprintf("; slope up to %s, bending moment up to %s, torque up to %s",
				largest(t, 4, s.unit(quantity.Slope)), largest(t, 5, s.unit(quantity.Torque)), largest(t, 6, s.unit(quantity.Torque)))
			if n := t.gaps(); n > 0 {
				text += fmt.Sprintf("; %d values are n/a and leave gaps in the curves", n)
			}
		}
		words = append(words, text+".")
	}
	v.Note = strings.Join(words, "\n")
	return v
}

// largest is the largest finite size in a column of a table, with its unit.
func largest(t table, column int, unit string) string {
	best := math.NaN()
	for _, row := range t {
		if v := math.Abs(row[column]); !math.IsInf(v, 0) && !(v <= best) && !math.IsNaN(v) {
			best = v
		}
	}
	if math.IsNaN(best) {
		return view.NotKnown
	}
	return figure(best, 3) + " " + unit
}

// parts is what is drawn of a shaft: gears behind, then sections, then bearings. Gears that carry load in other speeds only are
// drawn too, without a name. A shaft that carries no load in this speed is drawn from a speed in which it does.
func (s *set) parts(sh *shaftOf, k, b int) []part {
	mm := func(v float64) rounded { return rounded(s.value(v, quantity.Length)) }
	load := sh.loads[k][b]
	var any *gearbox.ShaftResult
	var gears []part
	at := map[string]int{}
	for row := range sh.loads {
		other := sh.loads[row][b]
		if other == nil {
			continue
		}
		if any == nil {
			any = other
		}
		for _, g := range other.Gears {
			if _, ok := at[g.Name]; !ok {
				at[g.Name] = len(gears)
				gears = append(gears, part{Kind: "gear", From: mm(other.Start + g.From), To: mm(other.Start + g.To), Half: mm(g.Diameter / 2)})
			}
		}
	}
	shown := any
	if load != nil {
		shown = load
		for _, g := range load.Gears {
			gears[at[g.Name]].On, gears[at[g.Name]].Name = true, view.Clean(g.Name)
		}
	}
	out := gears
	for _, c := range shown.Sections {
		out = append(out, part{Kind: "section", From: mm(shown.Start + c.From), To: mm(shown.Start + c.To), Half: mm(c.Outer / 2), Bore: mm(c.Bore / 2)})
	}
	for _, bearing := range shown.Bearings {
		out = append(out, part{Kind: "bearing", From: mm(shown.Start + bearing.At), Half: mm(outerAt(shown, bearing.At) / 2), Name: view.Clean(bearing.Name)})
	}
	return out
}

// outerAt is the outer diameter of a shaft at a place, mm; the larger one where two sections meet.
func outerAt(sh *gearbox.ShaftResult, at float64) float64 {
	d := 0.0
	for _, c := range sh.Sections {
		if at >= c.From && at <= c.To {
			d = max(d, c.Outer)
		}
	}
	return d
}

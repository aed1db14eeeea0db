package text

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// Rows of each axis in the side view: the numbers of the gears, the shaft with its gears, and bearings and hubs below
// it. A row between two axes shows which gears mesh.
const (
	numberRow = iota
	shaftRow
	markRow
	meshRow
	rowsOfAxis
)

// side is a side view while it is drawn.
type side struct {
	canvas
	from, scale float64 // x of the first column, mm; mm in a column
	axes        []int   // first shaft of each axis, from above
}

// column is where an x (mm) lies.
func (s *side) column(x float64) int { return int(math.Round((x - s.from) / s.scale)) }

// row is the first row of the axis of a shaft.
func (s *side) row(a *gearbox.Arrangement, shaft int) int {
	for i, axis := range s.axes {
		if axis == a.Shafts[shaft].Axis {
			return i * rowsOfAxis
		}
	}
	return 0
}

// sideView draws all shafts in place along x, one row of the drawing an axis, with their bearings, gears and hubs.
func sideView(p *printer, a *gearbox.Arrangement) {
	const columns = drawn - 6 // the indent, and the letters of the shafts
	low, high := math.Inf(1), math.Inf(-1)
	s := side{}
	for i, shaft := range a.Shafts {
		low, high = min(low, shaft.From), max(high, shaft.To)
		if shaft.Axis == i {
			s.axes = append(s.axes, i)
		}
	}
	s.from, s.scale = low, (high-low)/float64(columns-1)
	if !(s.scale > 0) {
		return
	}
	s.canvas = newCanvas(columns, len(s.axes)*rowsOfAxis-1)
	p.WriteString("\n  From the side: left end on the left\n\n")
	for i := range a.Shafts {
		s.shaft(a, i)
	}
	for _, i := range s.fromLeft(a) {
		s.gear(a, i)
	}
	s.meshes(a)
	s.marks(a)
	for y, line := range s.canvas {
		name := "   "
		if y%rowsOfAxis == shaftRow {
			name = ""
			for k, shaft := range a.Shafts {
				if shaft.Axis == s.axes[y/rowsOfAxis] {
					name += view.ShaftLetter(k)
				}
			}
			name = fmt.Sprintf("%-3s", name)
		}
		p.WriteString(strings.TrimRight(indent+name+" "+string(line), " ") + "\n")
	}
	p.WriteByte('\n')
	p.paragraph(indent,
		fmt.Sprintf("[===] gear fast on its shaft, (===) gear that turns freely until it is engaged, thick and thin shaft ═ ─, │ gears that mesh; below the shaft: B bearing, P bearing that sits in another shaft, H hub of a free gear%s, I where the torque enters, O where it leaves. A column is %s.",
			map[bool]string{true: ", D hub and teeth of the direct speed"}[a.Direct], view.WithDigits(s.scale, quantity.Length, p.Units, 2)))
}

// shaft draws a shaft, thick where it is thicker than in the mean.
func (s *side) shaft(a *gearbox.Arrangement, i int) {
	shaft := a.Shafts[i]
	var mean, length float64
	for _, b := range a.Box.Shafts {
		if b.Name != shaft.Name {
			continue
		}
		for _, sec := range b.Sections {
			mean, length = mean+sec.Outer*sec.Length, length+sec.Length
		}
		x := shaft.From
		for _, sec := range b.Sections {
			sign := "─"
			if sec.Outer >= mean/length {
				sign = "═"
			}
			for c := s.column(x); c <= s.column(x+sec.Length); c++ {
				s.put(c, s.row(a, i)+shaftRow, sign)
			}
			x += sec.Length
		}
	}
}

// gear draws a gear on its shaft and its number, with its hand, above.
func (s *side) gear(a *gearbox.Arrangement, i int) {
	g := a.Gears[i]
	row := s.row(a, g.Shaft)
	from := s.column(g.From)
	to := max(s.column(g.To)-1, from+2) // the next gear may begin where this one ends
	ends := "[]"
	if g.Free {
		ends = "()"
	}
	s.put(from, row+shaftRow, ends[:1]+strings.Repeat("=", to-from-1)+ends[1:])
	name := view.GearNumber(i) + handLetter(g.Hand)
	s.put(s.column((g.From+g.To)/2)-(view.Width(name)-1)/2, row+numberRow, name)
}

// fromLeft are the gears in the order of their left ends, the last first: where two would share a column each shows
// where it begins.
func (s *side) fromLeft(a *gearbox.Arrangement) (order []int) {
	for i := range a.Gears {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(a.Gears[j].From, a.Gears[i].From) })
	return order
}

// handLetter is R, L or nothing for a spur gear.
func handLetter(h gearbox.Hand) string {
	if h == gearbox.Spur {
		return ""
	}
	return strings.ToUpper(string(h)[:1])
}

// meshes joins gears that mesh, between the rows of their axes, where nothing is in the way.
func (s *side) meshes(a *gearbox.Arrangement) {
	for _, m := range a.Box.Meshes {
		var rows, columns [2]int
		from, to := math.Inf(-1), math.Inf(1)
		for k, name := range []string{m.Driver, m.Driven} {
			for _, g := range a.Gears {
				if g.Name == name {
					rows[k] = s.row(a, g.Shaft)
					from, to = max(from, g.From), min(to, g.To)
				}
			}
			columns[k] = s.column((from + to) / 2)
		}
		upper, lower := min(rows[0], rows[1]), max(rows[0], rows[1])
		for y := upper + markRow; y < lower+numberRow; y++ {
			if s.blank(columns[1], y) {
				s.put(columns[1], y, "│")
			}
		}
	}
}

// marks writes bearings, hubs and ports below the shafts, beside one another where they would meet.
func (s *side) marks(a *gearbox.Arrangement) {
	mark := func(shaft int, x float64, text string) {
		row := s.row(a, shaft) + markRow
		at := s.column(x)
		for _, aside := range []int{0, 1, -1, 2, -2, 3, -3} {
			if s.blank(at+aside, row) {
				s.put(at+aside, row, text)
				return
			}
		}
	}
	for i, shaft := range a.Shafts {
		for _, br := range shaft.Bearings {
			text := "B"
			if br.Pilot {
				text = "P"
			}
			mark(i, br.X, text)
		}
		if shaft.Name == a.Box.Input.Shaft {
			mark(i, shaft.From+a.Box.Input.At, "I")
		}
		if shaft.Name == a.Box.Output.Shaft {
			mark(i, shaft.From+a.Box.Output.At, "O")
		}
	}
	for _, g := range a.Gears {
		if g.Free {
			mark(g.Shaft, g.Hub, "H")
		}
	}
	if a.Direct {
		for i, shaft := range a.Shafts {
			for k, name := range []string{a.Box.Input.Shaft, a.Box.Output.Shaft} {
				if shaft.Name == name {
					mark(i, a.DirectAt[k], "D")
				}
			}
		}
	}
}

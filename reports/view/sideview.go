package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
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
func sideView(a *gearbox.Arrangement, o Options) (lines []string, signs string) {
	const columns = drawn - 4 // the letters of the shafts
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
		return nil, ""
	}
	s.canvas = newCanvas(columns, len(s.axes)*rowsOfAxis-1)
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
					name += shaftLetter(k)
				}
			}
			name = fmt.Sprintf("%-3s", name)
		}
		lines = append(lines, strings.TrimRight(name+" "+string(line), " "))
	}
	direct := ""
	if a.Direct {
		direct = ", D hub and teeth of the direct speed"
	}
	return lines, fmt.Sprintf("[===] gear fast on its shaft, (===) gear that turns freely until it is engaged, thick and thin shaft ═ ─, "+
		"│ gears that mesh; above a gear its number and hand; below the shaft: B bearing, P bearing that sits in another shaft, "+
		"H hub of a free gear%s, I where the torque enters, O where it leaves. A column is %s.",
		direct, WithDigits(s.scale, quantity.Length, o.Units, 2))
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
	name := gearNumber(i) + handLetter(g.Hand)
	s.put(s.column((g.From+g.To)/2)-(Width(name)-1)/2, row+numberRow, name)
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

// gearPlaces has one row per gear.
func gearPlaces(a *gearbox.Arrangement, o Options) *Table {
	t := o.table("Gears; their middle counted from the same place for all shafts", right("no.", ""), words("gear", 10), words("shaft", 0),
		right("teeth", ""), words("hand", 0), numbers("middle", quantity.Length), numbers("face", quantity.Length), words("on its shaft", 0))
	for i, g := range a.Gears {
		hold, hand := "fast", "spur"
		if g.Free {
			hold = "free"
		}
		if g.Hand != gearbox.Spur {
			hand = string(g.Hand)
		}
		t.add(word(gearNumber(i)), word(g.Name), word(shaftLetter(g.Shaft)), word(fmt.Sprint(g.Teeth)), word(hand),
			number((g.From+g.To)/2), number(g.To-g.From), word(hold))
	}
	return t.done()
}

// powerPaths has one row per speed and loaded mesh: the way of the power, and which way the teeth push the shafts.
func powerPaths(a *gearbox.Arrangement, o Options) *Table {
	t := o.table("The way of the power in drive, and which way the teeth push each shaft", words("speed", 5), right("ratio", ""),
		words("gears", 0), words("driver turns", 0), words("driver\npushes", 0), words("driven\npushes", 0))
	push := func(thrust float64, shaft int) string {
		switch {
		case thrust > 0:
			return shaftLetter(shaft) + " → right"
		case thrust < 0:
			return shaftLetter(shaft) + " ← left"
		}
		return Absent
	}
	for _, m := range a.Moves {
		speed, ratio := m.Name, Fixed(m.Ratio, 2)
		if m.Direct {
			turns := float64(a.Box.Turns)
			t.add(wordsOf(speed, ratio, "direct", turning(turns)+" "+gearbox.SenseName(turns), Absent, Absent)...)
			continue
		}
		for i, st := range m.Steps {
			if i > 0 {
				speed, ratio = "", ""
			}
			driver, driven := a.Gears[st.Gears[0]], a.Gears[st.Gears[1]]
			way := fmt.Sprintf("%s %s ─ %s %s", shaftLetter(driver.Shaft), gearNumber(st.Gears[0]), gearNumber(st.Gears[1]),
				shaftLetter(driven.Shaft))
			t.add(wordsOf(speed, ratio, way, turning(st.Sense[0])+" "+gearbox.SenseName(st.Sense[0]), push(st.Thrust[0], driver.Shaft),
				push(st.Thrust[1], driven.Shaft))...)
		}
	}
	return t.done()
}

package view

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// ErrNothingDrawn is said when there is nothing to draw.
var ErrNothingDrawn = errors.New("there is no box to draw: arrange one first")

// drawn is how many columns the lines of a drawing take: with an indent it fits the smallest terminal.
const drawn = 78

// Drawn is a box drawn in characters. Every sign has a word beside it.
type Drawn struct {
	Name   string
	Chosen string   // what was taken where not all is known; "" = all is
	End    []string // the axes, seen from the left end, line by line
	Axes   []string // what the letters stand for, and how each shaft turns
	Side   []string // all shafts with what sits on them, from the side
	Signs  string   // what the signs of the side view stand for
	Gears  *Table
	Paths  *Table // the way of the power in every speed, with the push of the teeth
}

// Draw draws a box: where the shafts stand and how they turn, all shafts with what sits on them, and the way of the power.
func Draw(a *gearbox.Arrangement, o Options) (Drawn, error) {
	if a == nil || len(a.Shafts) == 0 {
		return Drawn{}, ErrNothingDrawn
	}
	d := Drawn{Name: Clean(a.Box.Name), End: endView(a), Axes: axes(a, o), Gears: gearPlaces(a, o), Paths: powerPaths(a, o)}
	if a.Chosen != "" {
		d.Chosen = "Not all is known of it; drawn is: " + Clean(a.Chosen) + "."
	}
	d.Side, d.Signs = sideView(a, o)
	return d, nil
}

// canvas is a field of characters, row by row.
type canvas [][]rune

func newCanvas(width, height int) canvas {
	c := make(canvas, height)
	for i := range c {
		c[i] = []rune(strings.Repeat(" ", width))
	}
	return c
}

func (c canvas) blank(x, y int) bool {
	return y >= 0 && y < len(c) && x >= 0 && x < len(c[y]) && c[y][x] == ' '
}

// put writes a text, as far as it lies on the canvas.
func (c canvas) put(x, y int, text string) {
	for i, r := range []rune(text) {
		if y >= 0 && y < len(c) && x+i >= 0 && x+i < len(c[y]) {
			c[y][x+i] = r
		}
	}
}

// lines are its rows.
func (c canvas) lines() (all []string) {
	for _, row := range c {
		all = append(all, strings.TrimRight(string(row), " "))
	}
	return all
}

// shaftLetter is how a shaft is called in a drawing.
func shaftLetter(i int) string { return string(rune('A' + i%26)) }

// turning is the sign of a sense about +x, for who looks along +x.
func turning(sense float64) string {
	if sense < 0 {
		return "↺"
	}
	return "↻"
}

// endView draws the axes, each with the circle of its largest gear, as who stands at the left end sees them: z up, y
// to the left.
func endView(a *gearbox.Arrangement) []string {
	const columns, rows = 60, 24
	radius := make([]float64, len(a.Shafts))
	for _, g := range a.Gears {
		i := a.Shafts[g.Shaft].Axis
		radius[i] = max(radius[i], g.Pitch/2)
	}
	left, right, low, high := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for i, s := range a.Shafts {
		if s.Known && s.Axis == i {
			r := max(radius[i], 5)
			left, right, low, high = min(left, -s.Y-r), max(right, -s.Y+r), min(low, s.Z-r), max(high, s.Z+r)
		}
	}
	// A character is about twice as high as it is wide.
	scale := max((right-left)/(columns-1), (high-low)/(2*(rows-1)))
	if !(scale > 0) || math.IsInf(scale, 0) {
		return nil
	}
	at := func(y, z float64) (column, row int) {
		return int(math.Round((-y - left) / scale)), int(math.Round((high - z) / (2 * scale)))
	}
	_, last := at(0, low)
	c := newCanvas(columns, last+1)
	for i, s := range a.Shafts {
		if !s.Known || s.Axis != i {
			continue
		}
		const points = 720
		for k := range points {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / points)
			x, y := at(s.Y+radius[i]*cos, s.Z+radius[i]*sin)
			c.put(x, y, "·")
		}
	}
	for i, s := range a.Shafts {
		if s.Known && s.Axis == i {
			x, y := at(s.Y, s.Z)
			name := ""
			for k, other := range a.Shafts {
				if other.Axis == i {
					name += shaftLetter(k)
				}
			}
			c.put(x-Width(name), y, name+"+"+axisSense(a, i))
		}
	}
	return c.lines()
}

// axes are what the letters of the shafts stand for, where they stand and how they turn.
func axes(a *gearbox.Arrangement, o Options) (all []string) {
	for i, s := range a.Shafts {
		text := fmt.Sprintf("%s  %s", shaftLetter(i), Clean(gearbox.ShaftTitle(s.Name)))
		if s.Known {
			text += fmt.Sprintf(", axis at y %s, z %s", WithDigits(s.Y, quantity.Length, o.Units, 4),
				WithDigits(s.Z, quantity.Length, o.Units, 4))
		}
		all = append(all, text+": "+senseWords(a, i))
	}
	return append(all, strings.TrimSpace("↻ clockwise and ↺ anticlockwise, in drive; y to the left, z up. "+distances(a, o)))
}

// axisSense is the sign of the sense in which the first shaft on an axis turns in the first speed that turns it; "" =
// none does.
func axisSense(a *gearbox.Arrangement, axis int) string {
	for _, m := range a.Moves {
		for i, s := range a.Shafts {
			if sense, ok := m.Sense[i]; ok && s.Axis == axis {
				return turning(sense)
			}
		}
	}
	return ""
}

// senseWords says how a shaft turns in all speeds.
func senseWords(a *gearbox.Arrangement, shaft int) string {
	var names [2][]string
	for _, m := range a.Moves {
		if sense, ok := m.Sense[shaft]; ok {
			k := 0
			if sense < 0 {
				k = 1
			}
			names[k] = append(names[k], Clean(m.Name))
		}
	}
	where := ""
	if len(names[0])+len(names[1]) < len(a.Moves) {
		where = " in " + List(slices.Concat(names[0], names[1]))
	}
	switch {
	case len(names[0]) > 0 && len(names[1]) > 0:
		return fmt.Sprintf("clockwise in %s, anticlockwise in %s", List(names[0]), List(names[1]))
	case len(names[0]) > 0:
		return "clockwise" + where
	case len(names[1]) > 0:
		return "anticlockwise" + where
	}
	return "carries no power"
}

// distances are those between axes with gears that mesh.
func distances(a *gearbox.Arrangement, o Options) string {
	var all []string
	for _, m := range a.Moves {
		for _, st := range m.Steps {
			i, j := a.Gears[st.Gears[0]].Shaft, a.Gears[st.Gears[1]].Shaft
			p, q := a.Shafts[i], a.Shafts[j]
			text := fmt.Sprintf("%s to %s %s", shaftLetter(min(i, j)), shaftLetter(max(i, j)),
				WithDigits(math.Hypot(p.Y-q.Y, p.Z-q.Z), quantity.Length, o.Units, 5))
			if !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "Distances: " + List(all) + "."
}

// gearNumber is how a gear is called in a drawing.
func gearNumber(i int) string { return strconv.Itoa(i + 1) }

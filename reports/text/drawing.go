package text

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// errNothingDrawn is said when there is nothing to draw.
var errNothingDrawn = errors.New("there is no box to draw: arrange one first")

// drawn is how many columns a drawing takes: it fits the smallest terminal.
const drawn = leastWidth

// Drawing draws a box in characters: where the shafts stand and how they turn, seen from the left end; all shafts
// with what sits on them, from the side; and the way of the power in every
// speed, with the push of the teeth. Every sign has a word beside it.
func Drawing(w io.Writer, a *gearbox.Arrangement, o Options) error {
	if a == nil || len(a.Shafts) == 0 {
		return errNothingDrawn
	}
	o.Width = drawn
	p := printer{Options: o, notes: new(view.Notes)}
	p.title(view.Clean(a.Box.Name), "")
	if a.Chosen != "" {
		p.paragraph(indent, "Not all is known of it; drawn is: "+view.Clean(a.Chosen)+".")
	}
	endView(&p, a)
	sideView(&p, a)
	p.listed(view.DrawnGears(a, o.Options), view.PowerPaths(a))
	if _, err := w.Write(p.Bytes()); err != nil {
		return fmt.Errorf("the drawing could not be written: %w", err)
	}
	return nil
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

func (c canvas) write(p *printer) {
	for _, row := range c {
		p.WriteString(strings.TrimRight(indent+string(row), " ") + "\n")
	}
}

// endView draws the axes, each with the circle of its largest gear, as who stands at the left end sees them: z up, y
// to the left.
func endView(p *printer, a *gearbox.Arrangement) {
	const columns, rows = 60, 24
	p.WriteString("\n  From the left end: axes, and the pitch circle of the largest gear on each\n\n")
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
		return
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
					name += view.ShaftLetter(k)
				}
			}
			c.put(x-view.Width(name), y, name+"+"+axisSense(a, i))
		}
	}
	c.write(p)
	p.WriteByte('\n')
	for i, s := range a.Shafts {
		text := fmt.Sprintf("%s  %s", view.ShaftLetter(i), view.Clean(gearbox.ShaftTitle(s.Name)))
		if s.Known {
			text += fmt.Sprintf(", axis at y %s, z %s", view.WithDigits(s.Y, quantity.Length, p.Units, 4), view.WithDigits(s.Z,
				quantity.Length, p.Units, 4))
		}
		p.paragraph(indent, text+": "+senseWords(a, i))
	}
	p.paragraph(indent, "↻ clockwise and ↺ anticlockwise, in drive; y to the left, z up. "+distances(p, a))
}

// axisSense is the sign of the sense in which the first shaft on an axis turns in the first speed that turns it; "" =
// none does.
func axisSense(a *gearbox.Arrangement, axis int) string {
	for _, m := range a.Moves {
		for i, s := range a.Shafts {
			if sense, ok := m.Sense[i]; ok && s.Axis == axis {
				return view.Turning(sense)
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
			names[k] = append(names[k], view.Clean(m.Name))
		}
	}
	where := ""
	if len(names[0])+len(names[1]) < len(a.Moves) {
		where = " in " + view.List(slices.Concat(names[0], names[1]))
	}
	switch {
	case len(names[0]) > 0 && len(names[1]) > 0:
		return fmt.Sprintf("clockwise in %s, anticlockwise in %s", view.List(names[0]), view.List(names[1]))
	case len(names[0]) > 0:
		return "clockwise" + where
	case len(names[1]) > 0:
		return "anticlockwise" + where
	}
	return "carries no power"
}

// distances are those between axes with gears that mesh.
func distances(p *printer, a *gearbox.Arrangement) string {
	var all []string
	for _, m := range a.Moves {
		for _, st := range m.Steps {
			i, j := a.Gears[st.Gears[0]].Shaft, a.Gears[st.Gears[1]].Shaft
			from, to := a.Shafts[i], a.Shafts[j]
			text := fmt.Sprintf("%s to %s %s", view.ShaftLetter(min(i, j)), view.ShaftLetter(max(i, j)),
				view.WithDigits(math.Hypot(from.Y-to.Y, from.Z-to.Z), quantity.Length, p.Units, 5))
			if !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "Distances: " + view.List(all) + "."
}

// listed writes tables below their captions.
func (p *printer) listed(tables ...*view.Table) {
	for _, t := range tables {
		if t != nil {
			p.WriteByte('\n')
			p.paragraph(indent, t.Caption)
			p.table(t)
		}
	}
}

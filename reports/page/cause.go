package page

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// causeFigure is what tilts one mesh in one speed: a table with a bar in each row.
type causeFigure struct {
	Row          int // of the speed
	Speed, Title string
	Heads        []string // of the columns of numbers
	Width        int      // below which the table is pushed sideways, em
	Rows         []causeRow
	Words        []string
}

// causeRow is one cause over all boxes.
type causeRow struct {
	Name   string
	Total  bool // the sum of the others
	Height int  // of the drawing, px
	Bars   []causeBar
	Values []string
	most   float64 // largest size over the boxes, rad
}

// causeBar is one bar. The drawing is 200 wide with zero in its middle.
type causeBar struct {
	Box       int
	X, Y, W   string
	Thickness int
}

// causeFigures is a figure for each mesh of each speed.
func (s *set) causeFigures() (out []causeFigure) {
	for k, r := range s.rows {
		for _, mesh := range s.meshes(r) {
			out = append(out, s.causeFigure(k, r.name, mesh, s.widestTilt()))
		}
	}
	return out
}

// widestTilt is the largest tilt that is drawn: all figures have one scale, rad.
func (s *set) widestTilt() (most float64) {
	for _, r := range s.rows {
		for _, mesh := range s.meshes(r) {
			for _, m := range mesh.boxes {
				if m == nil {
					continue
				}
				all := []float64{m.TiltInAction}
				for _, c := range m.Causes {
					all = append(all, c.Tilt)
				}
				for _, v := range all {
					if !math.IsNaN(v) && !math.IsInf(v, 0) {
						most = max(most, math.Abs(v))
					}
				}
			}
		}
	}
	return most
}

func (s *set) causeFigure(k int, speed string, mesh meshOf, span float64) causeFigure {
	f := causeFigure{Row: k, Speed: speed, Title: mesh.name, Width: 13 + 5*len(s.results)}
	boxes := len(s.results)
	for b := range s.results {
		f.Heads = append(f.Heads, s.names[b])
	}
	// tilts by cause and box; NaN where a box has no such cause
	var names []string
	tilts := map[string][]float64{}
	add := func(name string, b int, tilt float64) {
		if tilts[name] == nil {
			names = append(names, name)
			tilts[name] = slices.Repeat([]float64{math.NaN()}, boxes)
		}
		tilts[name][b] = tilt
	}
	total := slices.Repeat([]float64{math.NaN()}, boxes)
	for b, m := range mesh.boxes {
		if m == nil {
			f.Words = append(f.Words, s.names[b]+": has no such mesh in this speed.")
			continue
		}
		total[b] = m.TiltInAction
		for _, c := range m.Causes {
			add(view.Clean(c.Name), b, c.Tilt)
		}
		f.Words = append(f.Words, s.tiltWords(b, m))
	}
	row := func(name string, values []float64) causeRow {
		r := causeRow{Name: name}
		for _, v := range values {
			if !math.IsNaN(v) && !math.IsInf(v, 0) {
				r.most = max(r.most, math.Abs(v))
			}
		}
		return r
	}
	for _, name := range names {
		f.Rows = append(f.Rows, row(name, tilts[name]))
	}
	slices.SortStableFunc(f.Rows, func(a, b causeRow) int {
		switch {
		case a.most > b.most:
			return -1
		case a.most < b.most:
			return 1
		}
		return 0
	})
	last := row("together", total)
	last.Total = true
	f.Rows = append(f.Rows, last)
	shown := slices.Clone(total)
	for _, name := range names {
		shown = append(shown, tilts[name]...)
	}
	decimals := view.Decimals(view.Converted(shown, quantity.Slope, s.Units))
	for i := range f.Rows {
		r := &f.Rows[i]
		values := total
		if !r.Total {
			values = tilts[r.Name]
		}
		const thick, gap = 7, 3
		r.Height = boxes*(thick+gap) + gap
		for b, v := range values {
			if math.IsNaN(v) {
				r.Values = append(r.Values, view.Absent)
				continue
			}
			r.Values = append(r.Values, typeset(view.Signed(view.Fixed(s.value(v, quantity.Slope), decimals))))
			if span > 0 && !math.IsInf(v, 0) {
				w := 96 * v / span
				r.Bars = append(r.Bars, causeBar{look(b), places(min(w, 0), 1), strconv.Itoa(gap + b*(thick+gap)), places(math.Abs(w), 1), thick})
			}
		}
	}
	return f
}

// tiltWords says what the mesh of a box does.
func (s *set) tiltWords(b int, m *gearbox.MeshResult) string {
	way := "move apart by " + s.text(m.Separation, quantity.Deflection, 2)
	if m.Separation < 0 {
		way = "move together by " + s.text(-m.Separation, quantity.Deflection, 2)
	}
	t := fmt.Sprintf("%s: the gears %s and are misaligned by %s in the plane of action", s.names[b], way, s.text(math.Abs(m.TiltInAction), quantity.Slope, 2))
	end := map[bool]string{true: "right", false: "left"}[m.TiltInAction > 0]
	if m.TiltInAction != 0 {
		t += fmt.Sprintf(", which loads the %s end more heavily: an equivalent misalignment (F_βy) of %s over the face", end, s.text(m.FaceGap, quantity.Deflection, 2))
	}
	t += "."
	if view.LoadKnown(m) {
		if other := m.CrowdedEnd(); m.TiltInAction != 0 && other != end && other != "neither" {
			t += fmt.Sprintf(" The shape ground into the flanks and the wind-up of the shafts outweigh it: the %s end carries more.", other)
		}
		t += fmt.Sprintf(" Peak over mean: %s (K_Hβ).", figure(m.FaceFactor, 3))
	}
	return t
}

// places is a number of a drawing with so many decimals at most.
func places(v float64, decimals int) string {
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if decimals > 0 {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	if t == "-0" {
		return "0"
	}
	return t
}

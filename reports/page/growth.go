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

// growthCharts is one chart for each place in the power path, with a view for each speed: how even the load lies along the face at other
// input torques, and where it acts.
func (s *set) growthCharts() (out []chart, figures []figureBox) {
	rows := make([][]meshOf, len(s.rows))
	slots := 0
	for k, r := range s.rows {
		rows[k] = s.meshes(r)
		slots = max(slots, len(rows[k]))
	}
	for n := range slots {
		c := chart{ID: fmt.Sprintf("growth-%d", n), Kind: "growth", XUnit: s.unit(quantity.Torque), YUnit: s.unit(quantity.Length), Boxes: s.names, Asked: s.askedTorques()}
		c.Option, c.Series = growthOption(s.names, "input torque, "+c.XUnit)
		empty := true
		for k := range s.rows {
			v := scene{Empty: true}
			if n < len(rows[k]) {
				v = s.growthScene(rows[k][n])
			}
			empty = empty && v.Empty
			c.Views = append(c.Views, v)
		}
		if empty {
			continue
		}
		out = append(out, c)
		open := c.Views[s.tightest()]
		figures = append(figures, figureBox{ID: c.ID, Title: open.Title, Alt: open.alt(), Note: open.Note, Empty: open.Empty})
	}
	return out, figures
}

// askedTorques is the torques asked about in the unit shown, each once, the smallest first.
func (s *set) askedTorques() (all []rounded) {
	for _, r := range s.results {
		v := rounded(s.value(math.Abs(r.Torque), quantity.Torque))
		if v > 0 && !math.IsInf(float64(v), 0) && !slices.Contains(all, v) {
			all = append(all, v)
		}
	}
	slices.Sort(all)
	return all
}

// growthScene is one mesh in one speed. Its tables hold torque, K_Hβ, and where the load acts.
func (s *set) growthScene(mesh meshOf) scene {
	v := scene{Title: mesh.name, Alt: "How the load of mesh " + mesh.name + " moves as the torque grows.", Tables: make([]table, len(s.results)), Empty: true}
	var torque, factor, place []float64
	var words []string
	for b, m := range mesh.boxes {
		v.Tables[b] = table{}
		switch {
		case m == nil:
			words = append(words, s.names[b]+": has no such mesh in this speed.")
			continue
		case len(m.Growth) == 0:
			words = append(words, s.names[b]+": how the load moves is "+view.NotKnown+".")
			continue
		}
		v.Empty = false
		for _, g := range m.Growth {
			row := []float64{s.value(g.Torque, quantity.Torque), g.FaceFactor, s.value(g.Middle, quantity.Length)}
			v.Tables[b] = append(v.Tables[b], row)
			torque, factor, place = append(torque, row[0]), append(factor, row[1]), append(place, row[2])
		}
		words = append(words, s.growthWords(b, m))
	}
	v.X = roundScale(0, largestOf(torque, 0), 6)
	v.Y = roundScale(1, largestOf(factor, 1.05), 4)
	low, high := 0.0, 0.0
	for _, p := range place {
		if !math.IsNaN(p) && !math.IsInf(p, 0) {
			low, high = min(low, p), max(high, p)
		}
	}
	v.Z = roundScale(low, high, 3)
	v.Note = strings.Join(words, "\n")
	return v
}

// largestOf is the largest finite number, or least when there is none above it.
func largestOf(values []float64, least float64) float64 {
	for _, v := range values {
		if v > least && !math.IsInf(v, 1) {
			least = v
		}
	}
	return least
}

// growthWords says how the load lies at the least and at the largest torque.
func (s *set) growthWords(b int, m *gearbox.MeshResult) string {
	at := func(g gearbox.Spot) string {
		t := fmt.Sprintf("at %s the peak is %s × the mean and the load acts %s", s.text(g.Torque, quantity.Torque, 3), figure(g.FaceFactor, 3), s.offMiddle(g.Middle))
		if g.InContact < 1-1e-6 {
			t += fmt.Sprintf(", with %s of the face in contact", share(g.InContact))
		}
		return t
	}
	t := s.names[b] + ": " + at(m.Growth[0])
	if n := len(m.Growth); n > 1 {
		t += "; " + at(m.Growth[n-1])
	}
	return t + "."
}

// offMiddle is a place along the face in words.
func (s *set) offMiddle(mm float64) string {
	const nothing = 0.005
	switch {
	case math.IsNaN(mm):
		return "at a place that is " + view.NotKnown
	case mm > nothing:
		return s.text(mm, quantity.Length, 2) + " right of the middle"
	case mm < -nothing:
		return s.text(-mm, quantity.Length, 2) + " left of the middle"
	}
	return "in the middle"
}

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

// meshOf is one mesh of a speed over all boxes; nil where a box has no such mesh in this speed.
type meshOf struct {
	name  string
	boxes []*gearbox.MeshResult
}

// meshes lists the loaded meshes of a row in the order of power flow. Meshes of different boxes belong together when they bear the same name.
func (s *set) meshes(r row) (all []meshOf) {
	at := map[string]int{}
	for b, sp := range r.boxes {
		if sp == nil {
			continue
		}
		for i := range sp.Meshes {
			m := &sp.Meshes[i]
			k, ok := at[m.Name]
			if !ok {
				k = len(all)
				at[m.Name] = k
				all = append(all, meshOf{view.Clean(m.Name), make([]*gearbox.MeshResult, len(s.results))})
			}
			all[k].boxes[b] = m
		}
	}
	return all
}

// title is the mesh with its gears, where all boxes call them alike.
func (m meshOf) title() string {
	gears := ""
	for _, r := range m.boxes {
		if r == nil {
			continue
		}
		here := view.Clean(r.Gears[0]) + " drives " + view.Clean(r.Gears[1])
		if gears != "" && gears != here {
			return m.name
		}
		gears = here
	}
	return m.name + ": " + gears
}

// lineLoad is a line load in the unit shown.
func (s *set) lineLoad(v float64) float64 { return view.LineLoad(v, s.Options) }

// share is a part of a whole in percent.
func share(v float64) string {
	if math.IsNaN(v) {
		return view.NotKnown
	}
	return short(math.Round(1000*v)/10) + " %"
}

// flank is a tooth flank on which the load along the face is shaded. Lengths in the unit of the x axis.
type flank struct {
	Mean   rounded `json:"mean"`
	Height rounded `json:"h,omitempty"`    // from tip to root; 0 = not known
	Active rounded `json:"active"`         // from the tip down to where contact begins
	Down   bool    `json:"down,omitempty"` // the tip is below
	Text   string  `json:"text"`           // what it shows, in words
	Short  string  `json:"short"`          // the same where there is little room
}

// faceCharts is one chart for each place in the power path, with a view for each speed: the load along the face, and under it the flank of
// the first gear shaded by that load.
func (s *set) faceCharts() (out []chart, figures []figureBox) {
	rows := make([][]meshOf, len(s.rows))
	slots := 0
	for k, r := range s.rows {
		rows[k] = s.meshes(r)
		slots = max(slots, len(rows[k]))
	}
	for n := range slots {
		c := chart{ID: fmt.Sprintf("face-%d", n), Kind: "face", XUnit: s.unit(quantity.Length), YUnit: view.LineUnit(s.Options), Boxes: s.names}
		c.Option, c.Series = faceOption(s.names, s.unit(quantity.Length)+" from the middle of the face")
		for k := range s.rows {
			v := scene{Empty: true}
			if n < len(rows[k]) {
				v = s.faceScene(rows[k][n])
			}
			c.Views = append(c.Views, v)
		}
		out = append(out, c)
		open := c.Views[s.tightest()]
		figures = append(figures, figureBox{ID: c.ID, Title: open.Title, Alt: open.alt(), Note: open.Note, Empty: open.Empty})
	}
	return out, figures
}

// faceScene is one mesh in one speed.
func (s *set) faceScene(mesh meshOf) scene {
	v := scene{Title: mesh.title(), Tables: make([]table, len(s.results)), Flanks: make([]*flank, len(s.results))}
	half, most := 0.0, 0.0
	v.Alt = "Load along the face of mesh " + mesh.name + "."
	var words []string
	for b, m := range mesh.boxes {
		v.Tables[b] = table{}
		switch {
		case m == nil:
			words = append(words, s.names[b]+": has no such mesh in this speed.")
			continue
		case !view.LoadKnown(m):
			words = append(words, s.names[b]+": the load along the face is "+view.NotKnown+".")
			continue
		}
		for i, x := range m.Stations {
			x, q := s.value(x, quantity.Length), s.lineLoad(m.LineLoad[i])
			v.Tables[b] = append(v.Tables[b], []float64{x, q})
			half, most = max(half, math.Abs(x)), max(most, q)
		}
		// A gear presses with the flank that faces the way its shaft turns it. Seen from there with +x to the right, up is t × x, where t = ±x × r
		// and r points to the tip: the tip is on top when the torque is right-handed about +x. The mating gear has a torque of the same sign.
		f := &flank{Mean: rounded(s.lineLoad(view.MeanLoad(m))), Down: m.Torque[0] < 0}
		factor, where := figure(m.FaceFactor, 3), s.peakPlace(m)
		f.Text = fmt.Sprintf("peak %s × mean (K_Hβ), %s", factor, where)
		f.Short = fmt.Sprintf("K_Hβ %s, %s", factor, strings.TrimSuffix(where, " of the middle"))
		if g := m.Geometry; g != nil && g.Tip[0] > g.Root[0] {
			f.Height = rounded(s.value((g.Tip[0]-g.Root[0])/2, quantity.Length))
			f.Active = rounded(s.value((g.Tip[0]-g.Start[0])/2, quantity.Length))
		}
		v.Flanks[b] = f
		words = append(words, s.faceWords(b, m))
	}
	v.X, v.Y = roundScale(-half, half, 8), roundScale(0, 1.02*most, 5)
	v.Note = strings.Join(words, "\n")
	return v
}

// faceWords says how the load of a mesh lies.
func (s *set) faceWords(b int, m *gearbox.MeshResult) string {
	t := fmt.Sprintf("%s: the most loaded place, %s, carries %s %s: %s times the mean of %s (K_Hβ). ", s.names[b], s.peakPlace(m),
		figure(s.lineLoad(slices.Max(m.LineLoad)), 3), view.LineUnit(s.Options), figure(m.FaceFactor, 3), figure(s.lineLoad(view.MeanLoad(m)), 3))
	switch end := m.CrowdedEnd(); end {
	case "neither":
		t += "Both ends carry alike. "
	default:
		t += fmt.Sprintf("The %s end carries more than the other. ", end)
	}
	if m.InContact >= 1-1e-6 {
		t += "The whole face carries."
	} else {
		t += fmt.Sprintf("Only %s of the face carries; the rest stays bare.", share(m.InContact))
	}
	if m.Counted > m.FaceFactor {
		t += fmt.Sprintf(" Flanks may be out of line from their making: the stresses take %s times the mean.", figure(m.Counted, 3))
	}
	return t
}

// peakPlace is where along the face the largest line load is.
func (s *set) peakPlace(m *gearbox.MeshResult) string {
	if m.CrowdedEnd() == "neither" && m.FaceFactor < 1+1e-6 {
		return "everywhere alike"
	}
	i := 0
	for k, q := range m.LineLoad {
		if q > m.LineLoad[i] {
			i = k
		}
	}
	switch x := m.Stations[i]; {
	case i == 0:
		return "at the left end"
	case i == len(m.LineLoad)-1:
		return "at the right end"
	case math.Abs(x) < 1e-9:
		return "in the middle"
	case x < 0:
		return s.text(-x, quantity.Length, 2) + " left of the middle"
	default:
		return s.text(x, quantity.Length, 2) + " right of the middle"
	}
}

package page

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/gearstress/involute"
	"layshaft/reports/view"
)

// detail is one speed with all its numbers.
type detail struct {
	Name        string
	Summary     string
	Differences template.HTML
	Boxes       []boxDetail
}

type boxDetail struct {
	Box    int
	Name   string
	Line   string
	Grids  []template.HTML
	Absent string
}

func (s *set) details(c *study.Comparison) []detail {
	var out []detail
	for _, r := range s.rows {
		d := detail{Name: r.name}
		for b, sp := range r.boxes {
			bd := boxDetail{Box: look(b), Name: s.names[b]}
			if sp == nil {
				bd.Absent = "This box has no such speed, or it was not asked for."
			} else {
				if m := governing(sp); m != nil {
					d.Summary += fmt.Sprintf("%s %s %s. ", s.names[b], m.State.Sign(), percent(m.Margin))
				}
				bd.Line = fmt.Sprintf("Ratio %s, efficiency %s, output torque %s.",
					figure(math.Abs(sp.Ratio), 4), figure(sp.Efficiency, 3), s.text(sp.OutputTorque, quantity.Torque, 3))
				for _, g := range s.grids(sp) {
					bd.Grids = append(bd.Grids, g.html())
				}
			}
			d.Boxes = append(d.Boxes, bd)
		}
		if c != nil {
			for i := range c.Speeds {
				if view.Clean(c.Speeds[i].Name) == r.name && len(c.Speeds[i].Items) > 0 {
					d.Differences = s.differenceGrid(c.Speeds[i].Items).html()
				}
			}
		}
		out = append(out, d)
	}
	return out
}

// grids is every table of a speed, the verdict first.
func (s *set) grids(sp *gearbox.SpeedResult) []*grid {
	all := []*grid{s.marginGrid(worstSections(sp.Margins), "Every limit that decides, the one reached first on top; of the sections of a shaft only the worst")}
	if len(sp.Guides) > 0 {
		all = append(all, s.marginGrid(sp.Guides, "Guides, the one passed first on top: they warn and don't decide"))
	}
	if len(sp.Endless) > 0 {
		all = append(all, s.marginGrid(sp.Endless, "Wear, for endless life, since no duty is given: it doesn't decide"))
	}
	all = append(all, s.meshGrid(sp))
	all = append(all, s.ratingGrids(sp)...)
	if len(sp.Meshes) > 0 {
		all = append(all, s.causeGrid(sp))
	}
	if g := s.growthGrid(sp); g != nil {
		all = append(all, g)
	}
	all = append(all, s.bearingGrid(sp), s.sectionGrid(sp))
	if len(sp.References) > 0 {
		all = append(all, s.marginGrid(sp.References, "Second opinions by other methods, for reference only: they decide nothing. AGMA is for 10⁷ load cycles, whatever the duty"))
	}
	return all
}

// head is a column or row head with the unit of its numbers.
func (s *set) head(words string, d quantity.Dimension) string { return words + ", " + s.unit(d) }

func (s *set) differenceGrid(items []study.Difference) *grid {
	g := &grid{Caption: "What differs", Heads: []string{"Quantity", "Part"}}
	g.Heads = append(g.Heads, s.names...)
	for _, n := range s.names[1:] {
		g.Heads = append(g.Heads, n+" against "+s.names[0])
	}
	for _, it := range items {
		row := gridRow{Head: view.Clean(it.Name)}
		if it.Dimension != quantity.Number {
			row.Head = s.head(row.Head, it.Dimension)
		}
		row.Cells = append(row.Cells, word(view.Clean(it.Part)))
		for _, v := range it.Values {
			if it.Dimension == quantity.Number {
				row.Cells = append(row.Cells, digit(figure(v, 4)))
			} else {
				row.Cells = append(row.Cells, digit(s.number(v, it.Dimension, 3)))
			}
		}
		for k, v := range it.Change[min(1, len(it.Change)):] {
			t := percent(v)
			if math.IsInf(v, 0) {
				t = view.NotKnown
			}
			if from, to := it.Values[0], it.Values[k+1]; from < 0 || to < 0 { // per cent of what has a sign misleads
				t = s.plus(to-from, it.Dimension, 3) + " " + s.unit(it.Dimension)
			}
			row.Cells = append(row.Cells, digit(t))
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// worstSections leaves out the yield of all sections of a shaft but the one that is reached first: the table of sections has them all. A section
// names its shaft in front of a comma.
func worstSections(margins []gearbox.Margin) (kept []gearbox.Margin) {
	seen := map[string]bool{}
	for _, m := range margins {
		if m.Kind == gearbox.ShaftYield {
			if i := strings.LastIndex(m.Item, ","); i >= 0 {
				if seen[m.Item[:i]] {
					continue
				}
				seen[m.Item[:i]] = true
			}
		}
		kept = append(kept, m)
	}
	return kept
}

func (s *set) marginGrid(margins []gearbox.Margin, caption string) *grid {
	g := &grid{
		Caption: caption,
		Heads: []string{"Limit", "Part", "State", "Torque margin", s.head("Allowable torque", quantity.Torque), "Low to high",
			"Demand", "Limit"},
	}
	lives := counted(margins)
	if lives {
		g.Heads = append(g.Heads, "Lasts, passes of the duty")
	}
	g.Heads = append(g.Heads, "Source")
	for i := range margins {
		m := &margins[i]
		dim := m.Kind.Dimension()
		class, words := stateWords(m)
		if m.Kind.Reference() {
			class, words = "", opinionSign+" decides nothing"
		}
		source := gridCell{Text: "none given", Word: true}
		if n := s.sources.index(m.Limit.Source); n > 0 {
			source = gridCell{Text: fmt.Sprintf("[%d]", n), Word: true, Link: fmt.Sprintf("source-%d", n)}
		}
		limit := s.text(m.Limit.At(m.Level), dim, 3)
		if m.Limit.Low != m.Limit.High {
			limit += " (" + s.span(m.Limit.Low, m.Limit.High, dim, 3) + ")"
		}
		row := gridRow{
			Head: m.Kind.String(), State: class,
			Cells: []gridCell{word(view.Clean(m.Item)), {Text: words, Word: true, Head: true}, digit(percent(m.Margin)),
				digit(s.number(m.Allowable[m.Level], quantity.Torque, 3)), digit(s.bandRange(m)),
				digit(s.text(m.Demand, dim, 3)), digit(limit)},
		}
		if lives {
			row.Cells = append(row.Cells, digit(view.Repeats(m.Life)))
		}
		row.Cells = append(row.Cells, source)
		g.Rows = append(g.Rows, row)
	}
	return g
}

// meshGrid has a column for each mesh, because a speed loads few meshes and says much about each. Its numbers stand left like
// its words, because below each other they have different units.
func (s *set) meshGrid(sp *gearbox.SpeedResult) *grid {
	if len(sp.Meshes) == 0 {
		return &grid{Caption: "Meshes: none carries load in this speed"}
	}
	g := &grid{Caption: "Meshes", Heads: []string{"At the mesh"}}
	for i := range sp.Meshes {
		g.Heads = append(g.Heads, view.Clean(sp.Meshes[i].Name))
	}
	words := func(name string, f func(m *gearbox.MeshResult) string) {
		row := gridRow{Head: name}
		for i := range sp.Meshes {
			row.Cells = append(row.Cells, word(f(&sp.Meshes[i])))
		}
		g.Rows = append(g.Rows, row)
	}
	numbers := func(name string, d quantity.Dimension, f func(m *gearbox.MeshResult) float64) {
		row := gridRow{Head: s.head(name, d)}
		for i := range sp.Meshes {
			row.Cells = append(row.Cells, word(s.number(f(&sp.Meshes[i]), d, 3)))
		}
		g.Rows = append(g.Rows, row)
	}
	words("gears", func(m *gearbox.MeshResult) string {
		return view.Clean(m.Gears[0]) + " drives " + view.Clean(m.Gears[1])
	})
	words("flank that carries", func(m *gearbox.MeshResult) string {
		if m.FlankSide() == "" {
			return string(m.Flank)
		}
		return string(m.Flank) + ", the " + m.FlankSide() + " one of a tooth on top, seen from the left end"
	})
	words("first gear turns, seen from there", func(m *gearbox.MeshResult) string { return gearbox.SenseName(m.Sense(0)) })
	words("first and second gear are pushed to the", func(m *gearbox.MeshResult) string {
		if m.Thrust(0) == "" {
			return "neither end"
		}
		return m.Thrust(0) + "; " + m.Thrust(1)
	})
	words("teeth (z)", func(m *gearbox.MeshResult) string {
		if m.Geometry == nil {
			return view.NotKnown
		}
		return fmt.Sprintf("%d and %d", m.Geometry.Teeth[0], m.Geometry.Teeth[1])
	})
	geometry := func(f func(g *involute.Pair) float64) func(m *gearbox.MeshResult) float64 {
		return func(m *gearbox.MeshResult) float64 {
			if m.Geometry == nil {
				return math.NaN()
			}
			return f(m.Geometry)
		}
	}
	numbers("normal module (m_n)", quantity.Length, geometry(func(g *involute.Pair) float64 { return g.Module }))
	numbers("helix angle (β)", quantity.Angle, geometry(func(g *involute.Pair) float64 { return g.Helix }))
	numbers("centre distance (a)", quantity.Length, geometry(func(g *involute.Pair) float64 { return g.Centre }))
	words("transverse contact ratio (ε_α)", func(m *gearbox.MeshResult) string {
		return figure(geometry(func(g *involute.Pair) float64 { return g.TransverseContactRatio })(m), 3)
	})
	numbers("common face width (b)", quantity.Length, func(m *gearbox.MeshResult) float64 { return m.Face })
	numbers("torque on the first gear", quantity.Torque, func(m *gearbox.MeshResult) float64 { return m.Torque[0] })
	numbers("torque on the second gear", quantity.Torque, func(m *gearbox.MeshResult) float64 { return m.Torque[1] })
	numbers("tangential force (F_t)", quantity.Force, func(m *gearbox.MeshResult) float64 { return m.Tangential })
	numbers("radial force (F_r)", quantity.Force, func(m *gearbox.MeshResult) float64 { return m.Radial })
	numbers("axial force on the first gear (F_a)", quantity.Force, func(m *gearbox.MeshResult) float64 { return m.Axial })
	numbers("gears move apart by", quantity.Deflection, func(m *gearbox.MeshResult) float64 { return m.Separation })
	numbers("misalignment in the plane of action", quantity.Slope, func(m *gearbox.MeshResult) float64 { return m.TiltInAction })
	numbers("equivalent misalignment (F_βy)", quantity.Deflection, func(m *gearbox.MeshResult) float64 { return m.FaceGap })
	rate := func(v float64) string { return figure(s.lineLoad(v), 3) }
	words("line load at the left end, the middle and the right end, "+s.lineUnit(), func(m *gearbox.MeshResult) string {
		if !known(m) {
			return view.NotKnown
		}
		n := len(m.LineLoad)
		return rate(m.LineLoad[0]) + "; " + rate(m.LineLoad[n/2]) + "; " + rate(m.LineLoad[n-1])
	})
	words("mean and largest line load, "+s.lineUnit(), func(m *gearbox.MeshResult) string {
		if !known(m) {
			return view.NotKnown
		}
		return rate(mean(m)) + "; " + rate(slices.Max(m.LineLoad))
	})
	words("face load factor (K_Hβ), from the bent shafts", func(m *gearbox.MeshResult) string { return figure(m.FaceFactor, 3) })
	words("the same as the stresses take it, with flanks out of line from their making", func(m *gearbox.MeshResult) string { return figure(m.Counted, 3) })
	words("for comparison: K_Hβ by the closed form of ISO 6336-1, method C", func(m *gearbox.MeshResult) string { return figure(m.FactorC, 3) })
	words("end of the face that carries more", func(m *gearbox.MeshResult) string {
		if !known(m) {
			return view.NotKnown
		}
		return m.CrowdedEnd()
	})
	words("share of the face that carries", func(m *gearbox.MeshResult) string { return share(m.InContact) })
	numbers("mesh stiffness along the face (c_γβ)", quantity.MeshStiffness, func(m *gearbox.MeshResult) float64 { return m.Stiffness })
	for i, which := range []string{"first", "second"} {
		numbers("for comparison: root stress by Lewis, "+which+" gear, by table", quantity.Stress, func(m *gearbox.MeshResult) float64 { return m.Root[i] })
		numbers("for comparison: root stress by Lewis, "+which+" gear, real tooth", quantity.Stress, func(m *gearbox.MeshResult) float64 { return m.RootReal[i] })
	}
	numbers("for comparison: contact stress by Hertz, load even along the face (σ_H)", quantity.Stress, func(m *gearbox.MeshResult) float64 { return m.Contact })
	s.scuffRows(sp, words)
	words("not given, follows from the rest", func(m *gearbox.MeshResult) string {
		if len(m.Derived) == 0 {
			return "nothing"
		}
		return view.Clean(strings.Join(m.Derived, "; "))
	})
	return g
}

func (s *set) bearingGrid(sp *gearbox.SpeedResult) *grid {
	g := &grid{
		Caption: "Bearings (force of the bearing on the shaft; slope and deflection of the shaft in it)",
		Heads: []string{"Bearing", "Shaft", "Type", s.head("At", quantity.Length), s.head("Radial force", quantity.Force),
			s.head("Axial force", quantity.Force), s.head("Slope", quantity.Slope), s.head("Deflection", quantity.Deflection)},
	}
	for i := range sp.Shafts {
		for _, b := range sp.Shafts[i].Bearings {
			g.Rows = append(g.Rows, gridRow{Head: view.Clean(b.Name), Cells: []gridCell{
				word(view.Clean(sp.Shafts[i].Name)), word(view.Clean(string(b.Type))), digit(s.number(b.At, quantity.Length, 4)),
				digit(s.number(b.Radial, quantity.Force, 3)), digit(s.number(b.Force[0], quantity.Force, 3)),
				digit(s.number(b.Slope, quantity.Slope, 3)), digit(s.number(b.Deflection, quantity.Deflection, 3)),
			}})
		}
	}
	return g
}

func (s *set) sectionGrid(sp *gearbox.SpeedResult) *grid {
	g := &grid{
		Caption: "Shaft sections (largest nominal stress in each, no notch factor)",
		Heads: []string{"Section", s.head("From", quantity.Length), s.head("To", quantity.Length), s.head("Outer diameter", quantity.Length),
			s.head("Bore", quantity.Length), s.head("Bending", quantity.Stress), s.head("Torsion", quantity.Stress),
			s.head("Axial", quantity.Stress), s.head("Combined (von Mises)", quantity.Stress), s.head("Found at", quantity.Length)},
	}
	for i := range sp.Shafts {
		for _, c := range sp.Shafts[i].Sections {
			row := gridRow{Head: fmt.Sprintf("%s, %d", view.Clean(sp.Shafts[i].Name), c.Number)}
			for _, v := range []float64{c.From, c.To, c.Outer, c.Bore} {
				row.Cells = append(row.Cells, digit(s.number(v, quantity.Length, 4)))
			}
			for _, v := range []float64{c.Stress.Bending, c.Stress.Torsion, c.Stress.Axial, c.Stress.VonMises} {
				row.Cells = append(row.Cells, digit(s.number(v, quantity.Stress, 3)))
			}
			row.Cells = append(row.Cells, digit(s.number(c.Stress.X, quantity.Length, 4)))
			g.Rows = append(g.Rows, row)
		}
	}
	return g
}

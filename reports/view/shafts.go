package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/involute"
)

// ShaftTable has one row per speed and loaded shaft: how far it bends and how steep it is in its bearings.
func ShaftTable(r *gearbox.Result, o Options) *Table {
	t := o.table("How far each loaded shaft moves: it bends, and its bearings give way", once("speed", 8), words("shaft", 8), numbers("largest\ndeflection", quantity.Deflection),
		numbers("from\nleft end", quantity.Length), numbers("steepest\nslope", quantity.Slope), words("in bearing", 10))
	for _, s := range r.Speeds {
		for i := range s.Shafts {
			sh := &s.Shafts[i]
			steepest := &gearbox.BearingResult{Name: Absent, Slope: math.NaN()}
			for k := range sh.Bearings {
				if b := &sh.Bearings[k]; math.IsNaN(steepest.Slope) || b.Slope > steepest.Slope {
					steepest = b
				}
			}
			t.add(word(s.Name), word(sh.Name).noting(remarks("", nil, sh.Notes)), number(sh.MaxDeflection), number(sh.MaxAt), number(steepest.Slope), word(steepest.Name))
		}
	}
	return t.done()
}

// BearingTable has one row per bearing of a speed.
func BearingTable(s *gearbox.SpeedResult, o Options) *Table {
	t := o.table("Bearings (force of the bearing on the shaft; slope and deflection of the shaft in it)", words("bearing", 8), words("shaft", 8), words("type", 8),
		numbers("at", quantity.Length), numbers("radial force", quantity.Force), numbers("axial force", quantity.Force), numbers("slope", quantity.Slope), numbers("deflection", quantity.Deflection))
	for i := range s.Shafts {
		for _, b := range s.Shafts[i].Bearings {
			t.add(word(b.Name), word(s.Shafts[i].Name), word(string(b.Type)), number(b.At), number(b.Radial), number(b.Force[0]), number(b.Slope), number(b.Deflection))
		}
	}
	return t.done()
}

// SectionTable has one row per section of the shafts of a speed.
func SectionTable(s *gearbox.SpeedResult, o Options) *Table {
	t := o.table("Shaft sections (largest nominal stress in each, no notch factor)", words("section", 8), numbers("from", quantity.Length), numbers("to", quantity.Length),
		numbers("outer diameter", quantity.Length), numbers("bore", quantity.Length), numbers("bending", quantity.Stress), numbers("torsion", quantity.Stress),
		numbers("axial", quantity.Stress), numbers("combined (von Mises)", quantity.Stress), numbers("found at", quantity.Length))
	for i := range s.Shafts {
		for _, c := range s.Shafts[i].Sections {
			row := []Cell{word(s.Shafts[i].Name + ", " + strconv.Itoa(c.Number))}
			for _, v := range []float64{c.From, c.To, c.Outer, c.Bore, c.Stress.Bending, c.Stress.Torsion, c.Stress.Axial, c.Stress.VonMises, c.Stress.X} {
				row = append(row, number(v))
			}
			t.add(row...)
		}
	}
	return t.done()
}

// LoadTable has a column for each mesh of a speed, because a speed loads few meshes and says much about each: forces, how they lie, and
// what other methods make of them.
func LoadTable(s *gearbox.SpeedResult, o Options) *Table {
	t := o.table("Forces and load of each mesh", words("at the mesh", 20))
	for i := range s.Meshes {
		t.columns(words(Clean(s.Meshes[i].Name), 8))
	}
	row := func(name string, of func(m *gearbox.MeshResult) string) {
		cells := []Cell{word(name)}
		for i := range s.Meshes {
			cells = append(cells, word(of(&s.Meshes[i])))
		}
		t.add(cells...)
	}
	numbers := func(name string, d quantity.Dimension, of func(m *gearbox.MeshResult) float64) {
		if unit := quantity.Unit(d, o.Units); unit != "" {
			name += ", " + unit
		}
		row(name, func(m *gearbox.MeshResult) string { return Plain(quantity.Convert(of(m), d, o.Units)) })
	}
	row("gears", func(m *gearbox.MeshResult) string { return m.Gears[0] + " drives " + m.Gears[1] })
	row("flank that carries", func(m *gearbox.MeshResult) string { return string(m.Flank) })
	geometry := func(of func(g *involute.Pair) float64) func(m *gearbox.MeshResult) float64 {
		return func(m *gearbox.MeshResult) float64 {
			if m.Geometry == nil {
				return math.NaN()
			}
			return of(m.Geometry)
		}
	}
	numbers("transverse contact ratio (ε_α)", quantity.Number, geometry(func(g *involute.Pair) float64 { return g.TransverseContactRatio }))
	numbers("common face width (b)", quantity.Length, func(m *gearbox.MeshResult) float64 { return m.Face })
	numbers("torque on the first gear", quantity.Torque, func(m *gearbox.MeshResult) float64 { return m.Torque[0] })
	numbers("torque on the second gear", quantity.Torque, func(m *gearbox.MeshResult) float64 { return m.Torque[1] })
	numbers("tangential force (F_t)", quantity.Force, func(m *gearbox.MeshResult) float64 { return m.Tangential })
	numbers("radial force (F_r)", quantity.Force, func(m *gearbox.MeshResult) float64 { return m.Radial })
	numbers("axial force on the first gear (F_a)", quantity.Force, func(m *gearbox.MeshResult) float64 { return m.Axial })
	numbers("misalignment in the plane of action", quantity.Slope, func(m *gearbox.MeshResult) float64 { return m.TiltInAction })
	row("line load at the left end, the middle and the right end, "+LineUnit(o), func(m *gearbox.MeshResult) string {
		n := len(m.LineLoad)
		if !LoadKnown(m) {
			return NotKnown
		}
		return strings.Join([]string{lineLoad(m.LineLoad[0], o), lineLoad(m.LineLoad[n/2], o), lineLoad(m.LineLoad[n-1], o)}, "; ")
	})
	row("mean and largest line load, "+LineUnit(o), func(m *gearbox.MeshResult) string {
		if !LoadKnown(m) {
			return NotKnown
		}
		return lineLoad(MeanLoad(m), o) + "; " + lineLoad(slices.Max(m.LineLoad), o)
	})
	numbers("for comparison: K_Hβ by the closed form of ISO 6336-1, method C", quantity.Number, func(m *gearbox.MeshResult) float64 { return m.FactorC })
	numbers("mesh stiffness along the face (c_γβ)", quantity.MeshStiffness, func(m *gearbox.MeshResult) float64 { return m.Stiffness })
	for i, which := range []string{"first", "second"} {
		numbers("for comparison: root stress by Lewis, "+which+" gear, by table", quantity.Stress, func(m *gearbox.MeshResult) float64 { return m.Root[i] })
		numbers("for comparison: root stress by Lewis, "+which+" gear, real tooth", quantity.Stress, func(m *gearbox.MeshResult) float64 { return m.RootReal[i] })
	}
	numbers("for comparison: contact stress by Hertz, load even along the face (σ_H)", quantity.Stress, func(m *gearbox.MeshResult) float64 { return m.Contact })
	row("not given, follows from the rest", func(m *gearbox.MeshResult) string {
		if len(m.Derived) == 0 {
			return "nothing"
		}
		return strings.Join(m.Derived, "; ")
	})
	if len(s.Meshes) == 0 {
		return nil
	}
	return t.done()
}

// LoadKnown reports whether the load along the face of a mesh can be shown.
func LoadKnown(m *gearbox.MeshResult) bool {
	return m != nil && len(m.LineLoad) > 1 && len(m.LineLoad) == len(m.Stations) && m.FaceFactor > 0
}

// MeanLoad is the mean line load, N/mm: the largest over K_Hβ, which is how ISO 6336-1 defines that factor.
func MeanLoad(m *gearbox.MeshResult) float64 { return slices.Max(m.LineLoad) / m.FaceFactor }

// LineUnit is the unit of a line load.
func LineUnit(o Options) string {
	return quantity.Unit(quantity.Force, o.Units) + "/" + quantity.Unit(quantity.Length, o.Units)
}

// LineLoad is a line load, N/mm, in the unit shown.
func LineLoad(v float64, o Options) float64 {
	return v * quantity.Convert(1, quantity.Force, o.Units) / quantity.Convert(1, quantity.Length, o.Units)
}

func lineLoad(v float64, o Options) string { return Plain(LineLoad(v, o)) }

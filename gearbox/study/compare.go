// Package study answers questions that need more than one solved box.
package study

import (
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/iso6336"
)

// Comparison sets boxes side by side, speed by speed. The first box is the one the others are measured against.
type Comparison struct {
	Results []*gearbox.Result
	Weighed []WeighedBox      // indexed like Results; nil when a result doesn't tell its weights
	Lighter []LighterCase     // the lightest box against each other one that is heavier
	Speeds  []SpeedRow        // speeds in the order of the first box; then those that only other boxes have
	Renamed [][]Rename        // parts that another box calls otherwise than the first, indexed like Results
	Ranking []Ranking         // each other box against the first, with the unknowns that they have in common; at equal steel where Equal isn't nil
	Equal   []*gearbox.Result // all boxes with the steels of the first; nil when their steels are alike, or until EqualSteel was asked
	Splits  []Split           // what makes the difference to the first box, of each other box; nil until Explain was asked
}

// SpeedRow is one speed of every box.
type SpeedRow struct {
	Name  string
	Boxes []*gearbox.SpeedResult // indexed like Results; nil where a box has no such speed
	Items []Difference
}

// Difference is one quantity side by side.
type Difference struct {
	Name      string // "allowable torque", "largest deflection"
	Key       string // the same for machines: "allowable_torque", "largest_deflection"
	Part      string // the shaft, mesh or gear it belongs to: "output shaft", "first", "first, driver"; "" = the box
	Dimension quantity.Dimension
	Values    []float64 // indexed like Results, inner units; NaN where a box has no such thing, +Inf where a limit is never reached
	// Change is relative to the first box, (v − v0)/v0, but of margins the difference v − v0; 0 for the first, NaN where it
	// can't be told, as between values of different sign.
	Change []float64
}

// Compare sets solved boxes side by side. Speeds belong together when they bear the same name, shafts and meshes also when
// they are the same under another one.
func Compare(results []*gearbox.Result) *Comparison {
	c := &Comparison{Results: results}
	calls, renamed := namings(results)
	c.Renamed = renamed
	wheels := gearings(results)
	var speeds []string
	for _, r := range results {
		for _, s := range r.Speeds {
			speeds = append(speeds, s.Name)
		}
	}
	for _, name := range once(speeds) {
		row := SpeedRow{Name: name, Boxes: make([]*gearbox.SpeedResult, len(results))}
		for i, r := range results {
			for j := range r.Speeds {
				if r.Speeds[j].Name == name {
					row.Boxes[i] = &r.Speeds[j]
				}
			}
		}
		row.compare(calls)
		row.addMass(results)
		row.addWheels(wheels)
		c.Speeds = append(c.Speeds, row)
	}
	c.Ranking = ranked(results)
	c.Weighed = Weigh(results)
	c.Lighter = c.lighter()
	return c
}

// compare fills in the quantities, from the answer down to what explains it.
func (row *SpeedRow) compare(calls []naming) {
	row.add("allowable torque", "allowable_torque", "", quantity.Torque, func(_ int, s *gearbox.SpeedResult) float64 {
		return s.First.Torque
	})
	row.transmitted()
	row.add("ratio", "ratio", "", quantity.Number, func(_ int, s *gearbox.SpeedResult) float64 { return math.Abs(s.Ratio) })
	var shafts, meshes []string
	for i, s := range row.Boxes {
		if s == nil {
			continue
		}
		for _, sh := range s.Shafts {
			shafts = append(shafts, calls[i].shaft(sh.Name))
		}
		for _, m := range s.Meshes {
			meshes = append(meshes, calls[i].mesh(m.Name))
		}
	}
	for _, name := range once(shafts) {
		of := func(f func(*gearbox.ShaftResult) float64) func(int, *gearbox.SpeedResult) float64 {
			return func(box int, s *gearbox.SpeedResult) float64 {
				for i := range s.Shafts {
					if calls[box].shaft(s.Shafts[i].Name) == name {
						return f(&s.Shafts[i])
					}
				}
				return math.NaN()
			}
		}
		row.add("bearing span", "bearing_span", gearbox.ShaftTitle(name), quantity.Length, of(func(s *gearbox.ShaftResult) float64 { return s.Span }))
		row.add("largest deflection", "largest_deflection", gearbox.ShaftTitle(name), quantity.Deflection, of(func(s *gearbox.ShaftResult) float64 { return s.MaxDeflection }))
	}
	for _, name := range once(meshes) {
		of := func(f func(*gearbox.MeshResult) float64) func(int, *gearbox.SpeedResult) float64 {
			return func(box int, s *gearbox.SpeedResult) float64 {
				for i := range s.Meshes {
					if calls[box].mesh(s.Meshes[i].Name) == name {
						return f(&s.Meshes[i])
					}
				}
				return math.NaN()
			}
		}
		row.add("face width that meets", "common_face", name, quantity.Length, of(func(m *gearbox.MeshResult) float64 { return m.Face }))
		row.add("separation", "separation", name, quantity.Deflection, of(func(m *gearbox.MeshResult) float64 { return m.Separation }))
		row.add("equivalent misalignment (F_βy)", "misalignment", name, quantity.Deflection, of(func(m *gearbox.MeshResult) float64 { return m.FaceGap }))
		row.add("peak over mean load along the face (K_Hβ)", "face_factor", name, quantity.Number, of(func(m *gearbox.MeshResult) float64 { return m.FaceFactor }))
		rated := func(f func(*iso6336.Rating) float64) func(int, *gearbox.SpeedResult) float64 {
			return of(func(m *gearbox.MeshResult) float64 {
				if m.Rating == nil {
					return math.NaN()
				}
				return f(m.Rating)
			})
		}
		for k, side := range sides {
			row.add("root stress (σ_F)", "root_stress", name+", "+side, quantity.Stress, rated(func(r *iso6336.Rating) float64 { return r.Root[k].Stress }))
		}
		row.add("flank stress (σ_H)", "flank_stress", name, quantity.Stress, rated(func(r *iso6336.Rating) float64 { return max(r.Flank[0].Stress, r.Flank[1].Stress) }))
	}
}

// same reports whether another quantity is this one, of another comparison.
func (d Difference) same(other Difference) bool { return d.Key == other.Key && d.Part == other.Part }

func (row *SpeedRow) add(name, key, part string, dim quantity.Dimension, value func(box int, s *gearbox.SpeedResult) float64) {
	d := Difference{Name: name, Key: key, Part: part, Dimension: dim}
	for i, s := range row.Boxes {
		v := math.NaN()
		if s != nil {
			v = value(i, s)
		}
		d.Values = append(d.Values, v)
		d.Change = append(d.Change, change(v, d.Values[0], i == 0))
	}
	row.Items = append(row.Items, d)
}

func change(v, base float64, first bool) float64 {
	switch {
	case first && !math.IsNaN(v):
		return 0
	case math.IsInf(v, 0) || math.IsInf(base, 0) || v*base <= 0:
		return math.NaN()
	}
	return (v - base) / base
}

// once leaves out names that came before.
func once(all []string) (names []string) {
	for _, name := range all {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// sides are what the two gears of a mesh are called beside its name.
var sides = []string{"driver", "driven"}

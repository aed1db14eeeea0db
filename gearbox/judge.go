package gearbox

import (
	"fmt"
	"math"
)

// judge holds a solved speed against every limit.
//
// Shafts, bearings and meshes are linear here, so what was solved at one torque holds for every other: forces, stresses of shafts and teeth and
// all displacements grow with the torque, contact stress with its square root.
func (p *prepared) judge(sr *SpeedResult, torque float64) {
	b := p.box
	linear := func(v float64) demand { return func(t float64) float64 { return v * t / torque } }
	root := func(v float64) demand { return func(t float64) float64 { return v * math.Sqrt(t/torque) } }
	add := func(m Margin) { sr.Margins = append(sr.Margins, m) }

	for _, m := range sr.Meshes {
		i := p.mesh[m.Name]
		q, mesh := &p.pairs[i], b.Meshes[i]
		for k, name := range m.Gears {
			stress, notes := m.Root[k], []string(nil)
			if math.IsNaN(stress) {
				stress = m.RootReal[k]
				notes = []string{fmt.Sprintf("%s: no published Lewis table covers this tooth; the parabola in the real tooth stands in.", name)}
			}
			if !math.IsNaN(stress) {
				add(b.margin(RootStatic, name, linear(stress), q.steels[k].Yield, torque, notes))
			} else {
				sr.Notes = append(sr.Notes, fmt.Sprintf("%s: no Lewis stress can be given, so its root isn't judged.", name))
			}
		}
		add(b.margin(FlankContact, "mesh "+m.Name, root(m.Contact), weaker(q.steels[0].Contact, q.steels[1].Contact), torque, nil))
		add(b.margin(MeshTilt, "mesh "+m.Name, linear(m.Tilt), b.tiltLimit(mesh), torque, nil))
		add(b.margin(MeshSeparation, "mesh "+m.Name, linear(math.Abs(m.Separation)), b.separationLimit(mesh), torque, nil))
	}
	for _, s := range sr.Shafts {
		i := p.shaft[s.Name]
		for _, sec := range s.Sections {
			if sec.Stress.VonMises > 0 {
				item := fmt.Sprintf("%s, section %d", ShaftTitle(s.Name), sec.Number)
				add(b.margin(ShaftYield, item, linear(sec.Stress.VonMises), p.lines[i].steel.Yield, torque, nil))
			}
		}
		for j, br := range s.Bearings {
			item := fmt.Sprintf("%s, bearing %s", ShaftTitle(s.Name), br.Name)
			add(b.margin(BearingSlope, item, linear(br.Slope), b.slopeLimit(b.Shafts[i].Bearings[j]), torque, nil))
		}
	}
	sortMargins(sr.Margins)
}

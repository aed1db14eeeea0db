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
	count := 5 * len(sr.Meshes)
	for _, s := range sr.Shafts {
		count += len(s.Sections) + len(s.Bearings)
	}
	sr.Margins = make([]Margin, 0, count)
	add := func(m Margin) { sr.Margins = append(sr.Margins, m) }

	for n := range sr.Meshes {
		m := &sr.Meshes[n]
		q := &p.pairs[p.mesh[m.Name]]
		for k, name := range m.Gears {
			stress, notes := m.Root[k], []string(nil)
			if math.IsNaN(stress) {
				stress = m.RootReal[k]
				notes = []string{fmt.Sprintf("%s: no published Lewis table covers this tooth; the parabola in the real tooth stands in.", name)}
			}
			if !math.IsNaN(stress) {
				add(b.margin(RootStatic, name, linear(stress), &q.steels[k].Yield, torque, notes))
			} else {
				sr.Notes = append(sr.Notes, fmt.Sprintf("%s: no Lewis stress can be given, so its root isn't judged.", name))
			}
		}
		add(b.margin(FlankContact, q.name, root(m.Contact), &q.flank, torque, nil))
		add(b.margin(MeshTilt, q.name, linear(m.Tilt), &q.tilt, torque, nil))
		add(b.margin(MeshSeparation, q.name, linear(math.Abs(m.Separation)), &q.separation, torque, nil))
	}
	for n := range sr.Shafts {
		s := &sr.Shafts[n]
		line := &p.lines[p.shaft[s.Name]]
		for j, sec := range s.Sections {
			if sec.Stress.VonMises > 0 {
				add(b.margin(ShaftYield, line.sections[j], linear(sec.Stress.VonMises), &line.steel.Yield, torque, nil))
			}
		}
		for j, br := range s.Bearings {
			add(b.margin(BearingSlope, line.bearings[j], linear(br.Slope), &line.slopes[j], torque, nil))
		}
	}
	sortMargins(sr.Margins)
}

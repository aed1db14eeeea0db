package gearbox

import (
	"math"

	"layshaft/material"
)

// judge holds a solved speed against every limit. Each torque at which a limit is reached is found by solving the speed at other torques, since load
// along the face, bearings and contact don't grow in step with the torque.
func (v *solver) judge(sr *SpeedResult, solvers map[work]*solver) (err error) {
	p := v.p
	// look turns a number of a measure into a demand; an error on the way ends the judgement.
	look := func(of func(*measure) (float64, error)) demand {
		return func(torque float64) float64 {
			m, e := v.measure(torque)
			if e != nil {
				err = e
				return math.NaN()
			}
			number, e := of(m)
			if e != nil {
				err = e
				return math.NaN()
			}
			return number
		}
	}
	add := func(m Margin) {
		if m.Kind.Reference() {
			sr.References = append(sr.References, m)
		} else {
			sr.Margins = append(sr.Margins, m)
		}
	}
	for n := range sr.Meshes {
		i := p.mesh[sr.Meshes[n].Name]
		q := &p.pairs[i]
		if q.form != nil {
			for _, m := range v.rateMesh(n, i, solvers, &err) {
				add(m)
			}
		}
		add(v.margin(MeshTilt, q.name, look(func(m *measure) (float64, error) { return m.tilt(n) }), &q.tilt, nil))
		add(v.margin(MeshSeparation, q.name, look(func(m *measure) (float64, error) { return m.separation(n) }), &q.separation, nil))
		if q.form == nil { // the hand calculation is all there is
			v.lewis(sr, n, q, func(m Margin) { sr.Margins = append(sr.Margins, m) })
		}
		if e := v.opinions(sr, n, q, add); e != nil {
			return e
		}
	}
	for n := range sr.Shafts {
		i := p.shaft[sr.Shafts[n].Name]
		line := &p.lines[i]
		for j, sec := range sr.Shafts[n].Sections {
			if sec.Stress.VonMises > 0 {
				add(v.margin(ShaftYield, line.sections[j], v.shocked(look(func(m *measure) (float64, error) { return m.stress(i, j) })), &line.steel.Yield, p.box.rests(ShaftYield, line.steel.Name)))
			}
		}
		for j := range sr.Shafts[n].Bearings {
			add(v.margin(BearingSlope, line.bearings[j], look(func(m *measure) (float64, error) { return m.slope(i, j) }), &line.slopes[j], nil))
		}
	}
	sortMargins(sr.Margins)
	sortMargins(sr.References)
	if err == nil {
		v.holdAgainst(sr)
		first := sr.Governing()
		sr.First = FirstLimit{first.Kind, first.Item, first.Allowable[first.Level]}
		sr.Allowable = leastAllowable(sr.Margins)
	}
	return err
}

// leastAllowable is the least allowable torque over limits, by level.
func leastAllowable(margins []Margin) (least [material.High + 1]float64) {
	for level := range least {
		least[level] = math.Inf(1)
		for i := range margins {
			least[level] = min(least[level], margins[i].Allowable[level])
		}
	}
	return least
}

// shocked is what a part sees at the peak of a torque.
func (v *solver) shocked(at demand) demand {
	shock := max(1, v.p.box.Shock)
	return func(torque float64) float64 { return at(torque * shock) }
}

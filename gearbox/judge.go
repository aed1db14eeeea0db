package gearbox

import (
	"math"

	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// judge holds a solved speed against every limit. Each torque at which a limit is reached is found by solving the speed at other torques, since load
// along the face, bearings and contact don't grow in step with the torque.
func (v *solver) judge(sr *SpeedResult, solvers map[string]*solver) (err error) {
	p := v.p
	// look turns a number of a measure into a demand; an error on the way ends the judgement.
	look := func(of func(*measure) float64) demand {
		return func(torque float64) float64 {
			m, e := v.measure(torque)
			if e != nil {
				err = e
				return math.NaN()
			}
			return of(m)
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
		add(v.margin(MeshTilt, q.name, look(func(m *measure) float64 { return m.tilt[n] }), &q.tilt, nil))
		add(v.margin(MeshSeparation, q.name, look(func(m *measure) float64 { return m.separation[n] }), &q.separation, nil))
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
				add(v.margin(ShaftYield, line.sections[j], look(func(m *measure) float64 { return m.stress[i][j] }), &line.steel.Yield, nil))
			}
		}
		for j := range sr.Shafts[n].Bearings {
			add(v.margin(BearingSlope, line.bearings[j], look(func(m *measure) float64 { return m.slope[i][j] }), &line.slopes[j], nil))
		}
	}
	sortMargins(sr.Margins)
	sortMargins(sr.References)
	return err
}

// ask is one thing a rating by ISO 6336 is asked about one gear.
type ask struct {
	kind   Kind
	gear   int
	stress func(*iso6336.Rating) float64
	limit  func(*iso6336.Rating) float64
	peak   bool
}

func asks() (all []ask) {
	for k := range 2 {
		root := func(r *iso6336.Rating) *iso6336.Root { return &r.Root[k] }
		flank := func(r *iso6336.Rating) *iso6336.Flank { return &r.Flank[k] }
		all = append(all,
			ask{RootFatigue, k, func(r *iso6336.Rating) float64 { return root(r).Stress }, func(r *iso6336.Rating) float64 { return root(r).Limit }, false},
			ask{RootPeak, k, func(r *iso6336.Rating) float64 { return root(r).Stress }, func(r *iso6336.Rating) float64 { return root(r).Static }, true},
			ask{FlankFatigue, k, func(r *iso6336.Rating) float64 { return flank(r).Stress }, func(r *iso6336.Rating) float64 { return flank(r).Limit }, false},
			ask{FlankPeak, k, func(r *iso6336.Rating) float64 { return flank(r).Stress }, func(r *iso6336.Rating) float64 { return flank(r).Static }, true})
	}
	return all
}

// rateMesh judges root and flank of both gears of the mesh at a step of the path, for fatigue and for the peak.
func (v *solver) rateMesh(step, mesh int, solvers map[string]*solver, failed *error) (margins []Margin) {
	p := v.p
	shares := v.shares(mesh, solvers)
	shock := max(1, p.box.Shock)
	for _, a := range asks() {
		m := Margin{Kind: a.kind, Item: p.box.Gears[p.pairs[mesh].gears[a.gear]].Name, Level: p.box.Limits.Strength}
		times := 1.0
		if a.peak {
			times = shock
		}
		var limits [material.High + 1]float64
		for level := range m.Allowable {
			in := p.input(mesh, material.Level(level), true, !a.peak)
			turns := v.turns(mesh, shares)
			if a.peak {
				turns = 0
			}
			rate := func(torque float64) *iso6336.Rating {
				r, err := v.rate(step, torque*times, turns, in)
				if err != nil {
					*failed = err
					return nil
				}
				return r
			}
			power := a.kind.power()
			// What is used up, 1 at the limit.
			used := func(torque float64) float64 {
				r := rate(torque)
				if r == nil {
					return math.NaN()
				}
				return a.stress(r) / a.limit(r)
			}
			if !a.peak && len(shares) > 0 {
				power = 1
				used = func(torque float64) float64 {
					sum, err := worn(a, shares, torque, in)
					if err != nil {
						*failed = err
						return math.NaN()
					}
					return math.Pow(sum, 1./8) // about the slope of the life curves, to make it grow like a load
				}
			}
			find := func() float64 {
				found := allowable(used, 1, v.asked, power)
				if material.Level(level) == p.box.Limits.Strength {
					found = v.polished(found, used, 1, power)
				}
				return found
			}
			if worn := !a.peak && len(shares) > 0; worn {
				m.Allowable[level] = p.remember(wornKey{mesh, a.gear, a.kind, level}, find)
			} else {
				m.Allowable[level] = find()
			}
			switch at := m.Allowable[level]; {
			case *failed != nil:
				return nil
			case math.IsInf(at, 1):
				limits[level] = math.Inf(1)
			default:
				limits[level] = a.stress(rate(at))
			}
			if level == 0 {
				m.Demand = a.stress(rate(v.asked))
			}
		}
		if *failed != nil {
			return nil
		}
		m.Limit = material.Band{Low: limits[0], Typical: limits[1], High: limits[2], Source: p.isoSource(mesh, a)}
		if !a.peak && len(shares) > 0 {
			sum, e := worn(a, shares, v.asked, p.input(mesh, m.Level, true, true))
			if e != nil {
				*failed = e
				return nil
			}
			m.Life = p.box.Duty.Passes / sum
		}
		p.box.judge(&m, v.asked)
		margins = append(margins, m)
	}
	return margins
}

// isoSource tells where a limit of ISO 6336 comes from.
func (p *prepared) isoSource(mesh int, a ask) string {
	steel := p.pairs[mesh].steels[a.gear]
	band, part := steel.RootLimit.Source, "ISO 6336-3:2019 method B"
	if a.kind == FlankFatigue || a.kind == FlankPeak {
		band, part = steel.FlankLimit.Source, "ISO 6336-2:2019 method B"
	}
	switch {
	case a.peak:
		return part + ", static strength, from the limits of fatigue"
	case p.box.Duty != nil:
		part += ", for the duty (Miner's rule, ISO 6336-6)"
	default:
		part += ", for endless life"
	}
	return part + "; " + band
}

package gearbox

import (
	"math"

	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

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
	for _, a := range asks() {
		m := Margin{Kind: a.kind, Item: p.gearOf(mesh, a.gear), Level: p.box.Limits.Strength}
		var limits [material.High + 1]float64
		for level := range m.Allowable {
			rate := v.rater(step, mesh, a, material.Level(level), shares, failed)
			used, power := v.usedUp(a, mesh, material.Level(level), shares, rate, failed)
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
			sum, _, e := worn(a, shares, v.asked, p.input(mesh, m.Level, true, true))
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

// gearOf is the name of the driver (0) or driven gear (1) of a mesh.
func (p *prepared) gearOf(mesh, gear int) string { return p.box.Gears[p.pairs[mesh].gears[gear]].Name }

// rater rates the mesh at a step of the path at input torques, at one end of the steel bands; nil when it fails.
func (v *solver) rater(step, mesh int, a ask, level material.Level, shares []share, failed *error) func(torque float64) *iso6336.Rating {
	in := v.p.input(mesh, level, true, !a.peak)
	turns, times := v.turns(mesh, shares), 1.0
	if a.peak {
		turns, times = 0, max(1, v.p.box.Shock)
	}
	return func(torque float64) *iso6336.Rating {
		r, err := v.rate(step, torque*times, turns, in)
		if err != nil {
			*failed = err
			return nil
		}
		return r
	}
}

// usedUp is how much of a gear's strength an input torque uses up, 1 at the limit, and with which power of it the torque grows.
func (v *solver) usedUp(a ask, mesh int, level material.Level, shares []share, rate func(float64) *iso6336.Rating, failed *error) (demand, float64) {
	if a.peak || len(shares) == 0 {
		return func(torque float64) float64 {
			r := rate(torque)
			if r == nil {
				return math.NaN()
			}
			return a.stress(r) / a.limit(r)
		}, a.kind.power()
	}
	in := v.p.input(mesh, level, true, true)
	return func(torque float64) float64 {
		sum, static, err := worn(a, shares, torque, in)
		switch {
		case err != nil:
			*failed = err
			return math.NaN()
		case static > 1: // no life at all: how far beyond is told by the static strength, so that the search sees no jump
			return static
		}
		return max(static, math.Pow(sum, 1./8)) // about the slope of the life curves, to make it grow like a load
	}, 1
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

package gearbox

import (
	"cmp"
	"math"
	"slices"

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

// trial is one limit of a gear's teeth to be judged.
type trial struct {
	ask
	flank  Flank   // that is worn; "" where either is meant
	of     int     // the gear, of the box
	sense  float64 // of the torque that loads the flank; 0 where either is meant
	shares []share // steps of the duty that wear it, in all meshes of the gear; none: it is judged for endless life, or for one peak
	shown  share   // the load of this mesh whose stress is shown
}

// trials lists what is to be judged of the mesh at a step of the path: root and flank of both gears, for fatigue and for the peak. Under a duty the two flanks of a tooth wear apart: the
// one that carries in this speed is judged, and the other where the duty loads it, in coast or in another speed. A root is bent by both. What the duty doesn't load isn't judged for fatigue.
func (v *solver) trials(step, mesh int, solvers map[work]*solver) (all []trial) {
	for _, a := range asks() {
		gear := v.p.pairs[mesh].gears[a.gear]
		shares := v.shares(gear, solvers)
		here := share{v, 1, v.p.box.Revs, v.turns(mesh, shares), 0, step, mesh, a.gear, v.sense(step)}
		switch {
		case a.peak:
			here.torque, here.turns = max(1, v.p.box.Shock), 0
			all = append(all, trial{ask: a, of: gear, shown: here})
		case len(shares) == 0 && v.p.box.Duty != nil && !v.endless:
			continue
		case a.kind == RootFatigue || len(shares) == 0:
			all = append(all, trial{ask: a, of: gear, shares: shares, shown: here})
		default:
			for _, flank := range []Flank{DriveFlank, CoastFlank} {
				sense := v.p.forwards(mesh)
				if flank == CoastFlank {
					sense = -sense
				}
				loaded := on(sense, shares)
				shown := here
				switch {
				case len(loaded) == 0:
					continue
				case flank != v.carries(step): // it doesn't carry here: the step that loads it most is shown
					shown = slices.MaxFunc(loaded, func(a, b share) int { return cmp.Compare(a.torque, b.torque) })
				}
				shown.turns = v.turns(shown.mesh, loaded)
				all = append(all, trial{a, flank, gear, sense, loaded, shown})
			}
		}
	}
	return all
}

// item names a trial of a mesh for people.
func (p *prepared) item(mesh int, t trial) string {
	if t.flank == CoastFlank {
		return p.gearOf(mesh, t.gear) + ", coast flank"
	}
	return p.gearOf(mesh, t.gear)
}

// key is what a trial's answer is remembered by; nil where it is only that of one speed.
func (t *trial) key(level material.Level) *wornKey {
	if len(t.shares) == 0 {
		return nil
	}
	return &wornKey{t.of, t.kind, t.sense, int(level), false}
}

// rateMesh judges root and flank of both gears of the mesh at a step of the path.
func (v *solver) rateMesh(step, mesh int, solvers map[work]*solver, failed *error) (margins []Margin) {
	p := v.p
	for _, t := range v.trials(step, mesh, solvers) {
		m := Margin{Kind: t.kind, Item: p.item(mesh, t), Gear: p.gearOf(mesh, t.gear), Flank: t.flank, Level: p.box.Limits.Strength, Notes: p.box.rests(t.kind, p.pairs[mesh].steels[t.gear].Name)}
		var limits [material.High + 1]float64
		for level := range m.Allowable {
			rate := v.rater(t, material.Level(level), failed)
			used, power := v.usedUp(t, material.Level(level), rate, failed)
			find := func() float64 { return allowable(used, 1, v.asked, power) }
			if key := t.key(material.Level(level)); key != nil {
				m.Allowable[level] = p.remember(*key, find)
			} else {
				m.Allowable[level] = find()
			}
			switch at := m.Allowable[level]; {
			case *failed != nil:
				return nil
			case math.IsInf(at, 1) || at == 0: // no torque reaches it, or any exceeds it
				limits[level] = at
			default:
				limits[level] = t.stress(rate(at))
			}
			if material.Level(level) == m.Level {
				m.Demand = t.stress(rate(v.asked))
			}
		}
		m.Limit = material.Band{Low: limits[0], Typical: limits[1], High: limits[2], Source: p.isoSource(mesh, t.ask)}
		if len(t.shares) > 0 && *failed == nil {
			*failed = v.live(&m, t)
		}
		if *failed != nil {
			return nil
		}
		p.box.judge(&m, v.asked)
		margins = append(margins, m)
	}
	return margins
}

// gearOf is the name of the driver (0) or driven gear (1) of a mesh.
func (p *prepared) gearOf(mesh, gear int) string { return p.box.Gears[p.pairs[mesh].gears[gear]].Name }

// rater rates the load that a trial shows at input torques, at one end of the steel bands; nil when it fails.
func (v *solver) rater(t trial, level material.Level, failed *error) func(torque float64) *iso6336.Rating {
	in := v.p.input(t.shown.mesh, level, t.shown.solver.speed, !t.peak)
	return func(torque float64) *iso6336.Rating {
		r, err := t.shown.rate(torque*t.shown.torque, level, in)
		if err != nil {
			*failed = err
			return nil
		}
		return r
	}
}

// usedUp is how much of a gear's strength an input torque uses up, 1 at the limit, and with which power of it the torque grows.
func (v *solver) usedUp(t trial, level material.Level, rate func(float64) *iso6336.Rating, failed *error) (demand, float64) {
	if len(t.shares) == 0 {
		return func(torque float64) float64 {
			r := rate(torque)
			if r == nil {
				return math.NaN()
			}
			return t.stress(r) / t.limit(r)
		}, t.kind.power()
	}
	return v.wornUp(t, level, func(s share) float64 { return v.asked * s.torque }, failed), 1
}

// wornUp is the same of what a duty wears. load is the size of the torque of each step at the asked torque, N·mm; all of them grow in step with it.
func (v *solver) wornUp(t trial, level material.Level, load func(share) float64, failed *error) demand {
	return func(torque float64) float64 {
		sum, static, err := worn(t, level, func(s share) float64 { return torque / v.asked * load(s) })
		if err != nil {
			*failed = err
			return math.NaN()
		}
		lived := math.Pow(sum, 1./8) // about the slope of the life curves, to make it grow like a load
		if static > 1 {
			// No life at all: how far beyond is told by the static strength. The first cycle of a step that meets it may have used up more than all of its
			// life already, so what is used up goes on from there: it must never come down to 1 as the torque grows, or the search would stop there.
			return static * max(1, lived)
		}
		return max(static, lived)
	}
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

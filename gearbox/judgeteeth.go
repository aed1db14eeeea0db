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
	kind Kind
	gear int  // 0 drives, 1 is driven
	peak bool // of a single load
}

func asks() (all []ask) {
	for k := range 2 {
		all = append(all, ask{RootFatigue, k, false}, ask{RootPeak, k, true}, ask{FlankFatigue, k, false}, ask{FlankPeak, k, true})
	}
	return all
}

// root reports whether it is asked about the root; else about the flank.
func (a *ask) root() bool { return a.kind == RootFatigue || a.kind == RootPeak }

// of is what a rating says of a gear's root or flank.
func (a *ask) of(s *iso6336.Stresses, gear int) iso6336.Utilisation {
	if a.root() {
		return s.Root[gear]
	}
	return s.Flank[gear]
}

// trial is one limit of a gear's teeth to be judged.
type trial struct {
	ask
	flank  Flank   // that is worn; "" where either is meant
	owner  int     // the gear, of the box
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
		here := share{solver: v, torque: 1, revs: v.p.box.Revs, turns: v.turns(mesh, shares), step: step, mesh: mesh, role: a.gear, sense: v.sense(step)}
		switch {
		case a.peak:
			here.torque, here.turns = v.p.peak(v.speed), 0
			all = append(all, trial{ask: a, owner: gear, shown: here})
		case len(shares) == 0 && v.p.box.Duty != nil:
			continue
		case a.kind == RootFatigue || len(shares) == 0:
			all = append(all, trial{ask: a, owner: gear, shares: shares, shown: here})
		default:
			for _, flank := range []Flank{DriveFlank, CoastFlank} {
				sense := v.p.forwards(mesh)
				if flank == CoastFlank {
					sense = -sense
				}
				loaded := v.flankShares(gear, sense, solvers)
				shown := here
				switch {
				case len(loaded) == 0:
					continue
				case flank != v.carries(step): // it doesn't carry here: the step that loads it most is shown
					shown = slices.MaxFunc(loaded, func(a, b share) int { return cmp.Compare(a.torque, b.torque) })
				}
				shown.turns, shown.ready = v.turns(shown.mesh, loaded), here.ready
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
	return &wornKey{t.owner, t.kind, t.sense, int(level), false}
}

// gearOf is the name of the driver (0) or driven gear (1) of a mesh.
func (p *prepared) gearOf(mesh, gear int) string { return p.box.Gears[p.pairs[mesh].gears[gear]].Name }

// toothLimit is a trial of a mesh as a limit.
func (v *solver) toothLimit(t trial, mesh int) limit {
	p := v.p
	return limit{
		kind: t.kind, item: p.item(mesh, t), gear: p.gearOf(mesh, t.gear), flank: t.flank,
		notes: p.box.rests(t.kind, p.pairs[mesh].steels[t.gear].Name), source: p.isoSource(mesh, t.ask),
		follow: t.follow, trial: &t, most: t.most(),
		least: func(torque float64, level material.Level) (float64, error) {
			return t.usedUp(level, torque, &stretch{even: true})
		},
		actual: func(torque float64, level material.Level) (float64, error) {
			u, err := t.rate(level, torque, nil)
			return u.Stress, err
		},
		used: func(torque float64, level material.Level) (float64, error) { return t.usedUp(level, torque, nil) },
	}
}

// follow is what a trial's utilisation rises with: the peaks of the load along the faces that load the gear.
func (t *trial) follow(level material.Level) (all []watch) {
	for _, s := range t.loads() {
		w := s.solver.faceLoads(s.step, s.torque, level)
		w.jump = t.jump(s)
		all = append(all, w)
	}
	return all
}

// loads are those that wear what the trial is about, or the one that it is about.
func (t *trial) loads() (all []*share) {
	for i := range t.shares {
		all = append(all, &t.shares[i])
	}
	if len(all) == 0 {
		all = []*share{&t.shown}
	}
	return all
}

// jump is between which input torques the stress under a share falls at once, N·mm; zero = nowhere. The strength has no part in it.
func (t *trial) jump(s *share) (at [2]float64) {
	if r, err := s.compiled(material.Typical, !t.peak); err == nil {
		at = [2]float64{r.jump[0] / r.per / s.torque, r.jump[1] / r.per / s.torque}
	}
	return at
}

// rate is what the load that a trial shows does at an input torque, at one end of the steel bands.
func (t *trial) rate(level material.Level, torque float64, over *stretch) (u iso6336.Utilisation, err error) {
	_, stresses, err := t.shown.at(level, !t.peak, torque*t.shown.torque, over)
	return t.of(&stresses, t.gear), err
}

// usedUp is how much of a gear's strength an input torque uses up, 1 at the limit.
func (t *trial) usedUp(level material.Level, torque float64, over *stretch) (float64, error) {
	if len(t.shares) > 0 {
		return wornUp(t, level, func(s *share) float64 { return torque * s.torque }, over)
	}
	u, err := t.rate(level, torque, over)
	if t.peak {
		return u.OfStatic(), err
	}
	return u.OfLimit(), err
}

// wornUp is how much of a gear's life a duty uses up, as a load would have to grow to use up all of it. load is the size of the input torque in each step, N·mm. Where a step
// meets the static strength it is that strength which ends it, under its own name: the step counts here as if it stayed there.
func wornUp(t *trial, level material.Level, load func(*share) float64, over *stretch) (float64, error) {
	w, err := worn(t, level, load, over)
	return math.Pow(w.sum, 1./8), err // about the slope of the life curves, to make it grow like a load
}

// never reports whether no load whatever wears out what a trial is about: in the turns of the duty each step is ended by the static strength before.
func (t *trial) never(level material.Level) (bool, error) {
	if len(t.shares) == 0 {
		return false, nil
	}
	w, err := worn(t, level, func(*share) float64 { return 0 }, &stretch{all: true})
	return w.sum < 1, err
}

// step is the speed whose step of the duty uses up most of what a trial is about at an input torque; "" where no duty does.
func (v *solver) step(t *trial, level material.Level, torque float64) (string, error) {
	if len(t.shares) == 0 || math.IsInf(torque, 1) {
		return "", nil
	}
	w, err := worn(t, level, func(s *share) float64 { return torque * s.torque }, nil)
	return w.most, err
}

// isoSource tells where a limit of ISO 6336 comes from.
func (p *prepared) isoSource(mesh int, a ask) string {
	steel := p.pairs[mesh].steels[a.gear]
	part := "ISO 6336-2:2019 method B"
	if a.root() {
		part = "ISO 6336-3:2019 method B"
	}
	strength, _ := a.kind.strength()
	band := strength.Band(&steel).Source
	switch {
	case a.peak:
		part += ", static strength, by the life curves from a limit of fatigue"
	case p.box.Duty != nil:
		part += ", for the duty (Miner's rule, ISO 6336-6)"
	default:
		part += ", for endless life"
	}
	return part + "; " + band
}

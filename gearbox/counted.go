package gearbox

import (
	"math"
	"slices"

	"layshaft/material"
)

// What of a piece of service history counts as load.
//
// What can't be known is kept on the careful side. What survived, survived the least that surely arrived: no shock unless the
// history gives a peak, no more in any speed than clutch and tyres let through, and nothing in a speed that wasn't driven. What
// broke, broke at the largest that may have arrived: with the shock, and not bounded by clutch and tyres, since their friction is
// itself only known about, and what turns adds its inertia to what passes them.

// share is over how many times the torque of the history a speed was driven, in drive; 0 = it wasn't, or nothing is known of it.
func (n *needs) share(speed string) (times float64) {
	e := n.evidence
	if e.Speed != "" && speed != e.Speed {
		return 0
	}
	inDuty := false
	if n.duty != nil {
		for _, s := range n.duty.Steps {
			if s.Speed == speed {
				inDuty, times = true, max(times, s.Share)
			}
		}
	}
	switch {
	case e.Broke:
		return max(times, 1) // the duty is what was planned: it may have been driven with all of the torque
	case !inDuty && (n.duty == nil || e.Speed != ""):
		return 1
	}
	return times
}

// load is the load of a speed that counts.
func (n *needs) load(v *solver) CountedLoad {
	e := n.evidence
	c := CountedLoad{Speed: v.speed.Name}
	times := n.share(v.speed.Name)
	if times == 0 {
		return c
	}
	running, peak := e.Torque*times, max(e.Peak, e.Torque*times)
	if e.Broke {
		if e.Peak == 0 {
			peak = running * n.shock
		}
		c.Running, c.Peak = Reached{running, ByEngine}, Reached{peak, ByEngine}
		return c
	}
	c.Running, c.Peak = n.passed(v.speed, running), n.passed(v.speed, peak)
	return c
}

// passed is what clutch and tyres let through of an engine's torque in drive, N·mm > 0.
func (n *needs) passed(s Speed, torque float64) Reached {
	if r := n.p.reach(s, torque); r != nil {
		return r.least(torque)
	}
	return Reached{torque, ByEngine}
}

// stepLoad is the size of the torque of a step of the duty that counts, N·mm.
func (n *needs) stepLoad(s *share) float64 {
	torque := s.torque * n.evidence.Torque
	if n.evidence.Broke {
		return torque
	}
	if r := s.reach(); r != nil {
		return r.Running.Torque
	}
	return torque
}

// hardest is the torque, on the way up to a peak, at which a peak of it asks most of teeth, N·mm. Whatever reaches a torque goes through all
// below it, and where the shafts lean against a lead error of the teeth a lesser torque may ask for more than a greater one. It is found among
// places a fortieth apart, the same for every peak, which is right to a thousandth.
func hardest(v *solver, t trial, peak float64) (torque float64, err error) {
	times := v.p.peak(v.speed)
	used := func(torque float64) float64 {
		if err != nil {
			return 0
		}
		u, e := t.usedUp(material.Typical, torque/times, nil)
		err = e
		return u
	}
	torque, most := peak, used(peak)
	const place = 1. / 40 // on a logarithmic scale
	last := math.Ceil(math.Log(peak)/place) - 1
	back := []float64{1} // steps down to less than a tenth of the peak; the first looks close by
	for k := 10.0; k <= 100; k += 10 {
		back = append(back, k)
	}
	down := func(k float64) float64 { return math.Exp((last - k) * place) }
	if k := back[1]; used(down(back[0])) <= most && used(down(k)) <= most && err == nil {
		if less, err := t.less(material.Typical, down(k)/times, most); err != nil || less {
			return peak, err
		}
	}
	if !slices.ContainsFunc(back, func(k float64) bool { return used(down(k)) > most }) {
		return peak, err
	}
	for k := range 101 {
		if at := down(float64(k)); used(at) > most {
			torque, most = at, used(at)
		}
	}
	return torque, err
}

// guides notes what guides warn of in a speed that a sound box was driven in.
func (n *needs) guides(v *solver, c CountedLoad) error {
	p := n.p
	m, err := v.measure(c.Running.Torque)
	if err != nil {
		return err
	}
	note := func(k Kind, item string, demand float64, err error) error {
		s := Survived{k, item, demand, c.Speed, c.Running.Torque}
		i := slices.IndexFunc(n.seen, func(o Survived) bool { return o.Kind == k && o.Item == item && o.Speed == c.Speed })
		if i < 0 {
			n.seen = append(n.seen, s)
			return err
		}
		n.seen[i].Demand = math.Min(n.seen[i].Demand, demand) // where the shafts lie isn't known: what surely came
		return err
	}
	for i, name := range v.speed.Path {
		q := &p.pairs[p.mesh[name]]
		tilt, err := m.tilt(i)
		if err := note(MeshTilt, q.name, tilt, err); err != nil {
			return err
		}
		separation, err := m.separation(i)
		if err := note(MeshSeparation, q.name, separation, err); err != nil {
			return err
		}
	}
	for _, i := range v.shafts {
		for j := range p.lines[i].bearings {
			slope, err := m.slope(i, j)
			if err := note(BearingSlope, p.lines[i].bearings[j], slope, err); err != nil {
				return err
			}
		}
	}
	return nil
}

// largest keeps of each guide the speed in which it was largest.
func largest(seen []Survived) (all []Survived) {
	for _, s := range seen {
		i := slices.IndexFunc(all, func(o Survived) bool { return o.Kind == s.Kind && o.Item == s.Item })
		switch {
		case i < 0:
			all = append(all, s)
		case s.Demand > all[i].Demand:
			all[i] = s
		}
	}
	return all
}

// MostSurvived joins what guides warned of in several pieces of history: of each the largest.
func MostSurvived(a, b []Survived) []Survived { return largest(slices.Concat(a, b)) }

package gearbox

import (
	"math"
	"slices"

	"layshaft/beam/strength"
	"layshaft/material"
)

// notchTrial is the fatigue of one notch of a shaft to be judged.
type notchTrial struct {
	shaft, notch int
	shares       []share // steps of the duty that bend it; none: it is judged for endless life
	shown        share   // the load whose stress is shown: that of this speed

	all    []*share         // that wear the notch: the shares, or the one of this speed
	places [][]strength.Bin // room for what it bears, by place
}

// notch adds the limits of a notch in this speed: fatigue, and yield of what it leaves of its section under the peak.
func (v *solver) notch(shaft, notch int, solvers map[work]*solver, add func(limit)) error {
	p := v.p
	line := &p.lines[shaft]
	n := &line.notches[notch]
	r := row{NotchYield, shaft, notch}
	stress := func(m *measure) (float64, error) { return m.notchStress(shaft, notch) }
	yield := v.simple(r, n.item, p.peak(v.speed), stress, guide(line.steel.Yield))
	yield.notes = p.box.rests(NotchYield, line.steel.Name)
	yield.source = "nominal stress of what the notch leaves of its section, no notch factor; " + yield.source
	m, err := v.measure(v.asked)
	if err != nil {
		return err
	}
	shown, err := stress(m)
	if err != nil {
		return err
	}
	yield.shown = p.peak(v.speed) * shown
	add(v.seen(yield, moved))

	t := &notchTrial{shaft: shaft, notch: notch, shares: v.turningShares(shaft, solvers), shown: share{solver: v, torque: 1, turns: v.turnsOf(shaft)}}
	if len(t.shares) == 0 && p.box.Duty != nil {
		return nil // no step of it loads the shaft
	}
	follow := func(material.Level) (all []watch) {
		for _, s := range t.loads() {
			in := s.solver
			all = append(all, watch{times: s.torque, profile: in.profile(r, func(torque float64) (float64, error) {
				m, err := in.measure(torque)
				if err != nil {
					return 0, err
				}
				return stress(m)
			})})
		}
		return all
	}
	level := p.box.Limits.Strength
	l := limit{
		kind: NotchFatigue, item: n.item, follow: follow, inStep: true, wears: t, source: n.fatigue[level].Source() + "; tensile strength " + line.steel.Tensile.Source,
		actual: func(torque float64, level material.Level) (float64, error) { return t.actual(torque, level) },
		used: func(torque float64, level material.Level) (float64, error) {
			return t.wornUp(level, func(s *share) float64 { return torque * s.torque }, nil)
		},
	}
	l.notes = n.outside(level)
	add(v.seen(l, moved))
	return nil
}

// outside says where a notch leaves the range of its factors.
func (n *notchLine) outside(level material.Level) (notes []string) {
	for _, o := range n.fatigue[level].Shape.Outside {
		notes = append(notes, n.item+": outside the range of its notch factors, "+o+". Taken at the end of the range, a smaller radius as a sharp corner.")
	}
	return notes
}

// turnsOf is how often a shaft turns per turn of the input shaft in this speed. One that only carries another turns against it and is taken as the
// input shaft.
func (v *solver) turnsOf(shaft int) float64 {
	turns := 1.0
	for _, name := range v.speed.Path {
		q := &v.p.pairs[v.p.mesh[name]]
		if q.shafts[0] == shaft {
			return turns
		}
		turns *= float64(q.geometry.Teeth[0]) / float64(q.geometry.Teeth[1])
		if q.shafts[1] == shaft {
			return turns
		}
	}
	return 1
}

// turningShares are the steps of the duty that load a shaft: the same for all speeds that were chosen together.
func (v *solver) turningShares(shaft int, solvers map[work]*solver) []share {
	p := v.p
	if p.box.Duty == nil {
		return nil
	}
	all, ok := p.turning[shaft]
	if !ok {
		for number, d := range p.box.Duty.Steps {
			in := solvers[work{d.Speed, d.Share < 0}]
			if slices.Contains(in.shafts, shaft) && d.Share != 0 {
				turns := p.box.InputTurns(d) * p.box.Duty.Passes * in.turnsOf(shaft)
				all = append(all, share{solver: in, torque: math.Abs(d.Share), revs: p.box.InputRevs(d), turns: turns, number: number})
			}
		}
		p.turning[shaft] = all
	}
	return all
}

// loads are those that wear the notch, or the one of this speed.
func (t *notchTrial) loads() []*share {
	if t.all == nil {
		for i := range t.shares {
			t.all = append(t.all, &t.shares[i])
		}
		if len(t.all) == 0 {
			t.all = []*share{&t.shown}
		}
	}
	return t.all
}

func (t *notchTrial) key(level material.Level) *wornKey {
	if len(t.shares) == 0 {
		return nil
	}
	return &wornKey{part: t.shaft, kind: NotchFatigue, place: t.notch, level: int(level)}
}

// fatigue is the notch in a steel of a level.
func (t *notchTrial) fatigue(level material.Level) *strength.Fatigue {
	return t.shown.solver.p.lines[t.shaft].notches[t.notch].fatigue[level]
}

// eachSwing tells the stresses of the notch at an input torque under a load, by place.
func (t *notchTrial) eachSwing(s *share, torque float64, level material.Level, tell func(place int, w strength.Swing)) error {
	m, err := s.solver.measure(torque)
	if err != nil {
		return err
	}
	carried, err := m.carried(t.shaft, t.notch)
	f := t.fatigue(level)
	for i, l := range carried {
		w := f.Swing(l)
		tell(i, strength.Swing{Amplitude: w.Amplitude * m.grown, Mean: w.Mean * m.grown})
	}
	return err
}

// actual is the reversed stress, notch factors in it, that does what a torque does in this speed, MPa.
func (t *notchTrial) actual(torque float64, level material.Level) (most float64, err error) {
	f := t.fatigue(level)
	err = t.eachSwing(&t.shown, torque*t.shown.torque, level, func(_ int, w strength.Swing) { most = max(most, f.Used(w)*f.Endurance) })
	return most, err
}

// bins are what the notch bears in the duty, by place, until they are asked for again.
func (t *notchTrial) bins(level material.Level, torque func(*share) float64) ([][]strength.Bin, error) {
	for i := range t.places {
		t.places[i] = t.places[i][:0]
	}
	for _, s := range t.loads() {
		if err := t.eachSwing(s, torque(s), level, func(place int, w strength.Swing) {
			if place == len(t.places) {
				t.places = append(t.places, nil)
			}
			t.places[place] = append(t.places[place], strength.Bin{Swing: w, Turns: s.turns})
		}); err != nil {
			return nil, err
		}
	}
	return t.places, nil
}

func (t *notchTrial) worn(level material.Level, torque func(*share) float64, _ *stretch) (w wear, err error) {
	places, err := t.bins(level, torque)
	if err != nil {
		return w, err
	}
	f, loads := t.fatigue(level), t.loads()
	for _, bins := range places {
		sum, largest, most := 0.0, 0.0, ""
		for i, b := range bins {
			added := f.Damage(b.Swing, b.Turns)
			sum += added
			if added > largest {
				largest, most = added, loads[i].solver.speed.Name
			}
			w.static = max(w.static, f.OfStatic(b.Swing))
		}
		if sum > w.sum {
			w.sum, w.most = sum, most
		}
	}
	return w, nil
}

// wornUp is by how much all loads of the duty would have to shrink for the notch to last it, or for ever where there is none.
func (t *notchTrial) wornUp(level material.Level, torque func(*share) float64, _ *stretch) (used float64, err error) {
	places, err := t.bins(level, torque)
	f := t.fatigue(level)
	for i, bins := range places {
		switch {
		case slices.ContainsFunc(places[:i], func(other []strength.Bin) bool { return bearsLess(bins, other) }):
		case len(t.shares) == 0:
			used = max(used, f.Used(bins[0].Swing))
		default:
			used = max(used, f.UsedUp(bins))
		}
	}
	return used, err
}

// bearsLess reports whether the loads at one place are nowhere more than those at another.
func bearsLess(a, b []strength.Bin) bool {
	for i := range a {
		if a[i].Amplitude > b[i].Amplitude || a[i].Mean > b[i].Mean {
			return false
		}
	}
	return true
}

func (t *notchTrial) turnsLeft(v *solver, level material.Level) (float64, error) {
	w, err := t.worn(level, func(*share) float64 { return v.asked }, nil)
	switch {
	case err != nil || w.static > 1:
		return 0, err
	}
	return 1 / w.sum, nil // its load is one turn of the input shaft long
}

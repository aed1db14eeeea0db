package gearbox

import (
	"cmp"
	"math"
	"slices"

	"layshaft/material"
)

// FirstLimit is the limit of a speed that is reached first.
type FirstLimit struct {
	Kind   Kind
	Item   string  // the part: "first pinion", "output shaft, section 3"
	Step   string  // of what a duty wears: the speed whose step uses most of it; "" where that is not known
	Torque float64 // input torque at which it is reached, N·mm > 0; +Inf when no limit is reached
	Mesh   string  // of teeth that run in more than one mesh of the speed; "" of all others
	Own    bool    // the file itself sets it
}

// Phrase names the limit and its part in words: "flank fatigue of final pinion, most of it in 1st", "peak at flank of idler (mesh reverse a)".
func (f FirstLimit) Phrase() string {
	item := f.Item
	if f.Mesh != "" {
		item += " (mesh " + f.Mesh + ")"
	}
	s := f.Kind.Of(item)
	if f.Step != "" {
		s += ", most of it in " + f.Step
	}
	if f.Own && f.Kind.Class() == Guide {
		s += ", set by the file"
	}
	return s
}

// judge holds a solved speed against every limit. Each torque at which a limit is reached is found by solving the speed at other torques, since load
// along the face, bearings and contact don't grow in step with the torque.
func (v *solver) judge(sr *SpeedResult, solvers map[work]*solver) error {
	all, err := v.limits(sr, solvers)
	if err != nil {
		return err
	}
	for i := range all {
		l := &all[i]
		m, err := v.margin(l)
		if err != nil {
			return err
		}
		switch {
		case l.opinion:
			sr.References = append(sr.References, m)
		case v.decides(l):
			sr.Margins = append(sr.Margins, m)
		case l.kind.Class() == Guide:
			sr.Guides = append(sr.Guides, m)
		case l.kind.Class() == WearsOut && v.p.box.Duty == nil:
			sr.Endless = append(sr.Endless, m)
		default:
			sr.Beside = append(sr.Beside, m)
		}
		v.p.answer(sr, l, m.Allowable[m.Level])
	}
	for _, margins := range [][]Margin{sr.Margins, sr.Guides, sr.Endless, sr.Beside, sr.References} {
		sortMargins(margins)
	}
	v.holdAgainst(sr)
	for level := range sr.Ends {
		sr.Ends[level] = leastAllowable(sr.Margins, material.Level(level))
	}
	sr.First = sr.Ends[v.p.box.Limits.Strength]
	return nil
}

// leastAllowable is the limit that is reached first at one end of the bands. Margins stand in the order of another end, so equal ones keep the order of kinds.
func leastAllowable(margins []Margin, level material.Level) FirstLimit {
	first := FirstLimit{Torque: math.Inf(1)}
	rank := math.MaxInt
	for i := range margins {
		m := &margins[i]
		t := m.Allowable[level]
		if same := together(t, first.Torque); t < first.Torque && !same || same && int(m.Kind) < rank {
			first, rank = m.at(t), int(m.Kind)
		}
	}
	return first
}

// together reports whether two limits are reached at one torque. Pinion and wheel often bear the very same stress; rounding must not decide which comes first.
func together(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*min(a, b) }

// answer enters the torque of a limit that was asked for by name.
func (p *prepared) answer(sr *SpeedResult, l *limit, torque float64) {
	k := 0
	for _, w := range p.wanted {
		if w.Speed != sr.Name {
			continue
		}
		if k == len(sr.Asked) {
			sr.Asked = append(sr.Asked, FirstLimit{Kind: w.Kind, Item: w.Item, Torque: math.Inf(1)})
		}
		if l != nil && w.Kind == l.kind && w.Item == l.item {
			sr.Asked[k].Torque = min(sr.Asked[k].Torque, torque) // an idler bears in two meshes
		}
		k++
	}
}

// margin finds the torque at which a limit is reached, for each end of its band, and judges it.
func (v *solver) margin(l *limit) (m Margin, err error) {
	m = Margin{Kind: l.kind, Item: l.item, Gear: l.gear, Mesh: l.mesh, Flank: l.flank, Level: v.p.box.Limits.Strength, Own: l.own, Notes: l.notes}
	var limits [material.High + 1]float64
	var bad [material.High + 1][2]float64
	for i := range m.Allowable {
		level := material.Level(i)
		if l.band != nil && i > 0 && l.band.At(level) == l.band.At(level-1) {
			m.Allowable[i], limits[i], bad[i] = m.Allowable[i-1], limits[i-1], bad[i-1]
			continue
		}
		f, err := v.reached(l, level)
		if err != nil {
			return m, err
		}
		m.Allowable[i], bad[i] = f.torque, f.bad
		switch {
		case l.band != nil:
			limits[i] = l.band.At(level)
		case math.IsInf(f.torque, 1) || f.torque == 0: // no torque reaches it, or any exceeds it
			limits[i] = f.torque
		default:
			if limits[i], err = l.actual(f.torque, level); err != nil {
				return m, err
			}
		}
	}
	m.Limit = material.Band{Low: limits[0], Typical: limits[1], High: limits[2], Source: l.source}
	m.Bad = bad[m.Level]
	if m.Demand, err = l.actual(v.asked, m.Level); err != nil {
		return m, err
	}
	if l.trial != nil && !l.trial.peak {
		if err := v.live(&m, l.trial); err != nil {
			return m, err
		}
	}
	v.p.box.judge(&m, v.asked)
	return m, nil
}

// reached is where a limit is reached first at one end of the bands. What wears over the whole duty allows the same torque in whichever speed it is asked, and is
// looked for once.
func (v *solver) reached(l *limit, level material.Level) (found, error) {
	find := func() (found, error) {
		if l.trial != nil {
			if never, err := l.trial.never(level); err != nil || never {
				return found{torque: math.Inf(1)}, err
			}
		}
		used := func(torque float64) (float64, error) { return l.used(torque, level) }
		if l.near.torque == 0 {
			l.near = guess{v.asked, 1 / allKinds[l.kind].power}
		}
		at, err := v.p.crossing(used, &l.near, v.asked)
		if err != nil || !(at > 0) {
			return found{torque: at}, err
		}
		if alone, err := l.crossesOnce(level, at, v.asked); err != nil || alone {
			return found{torque: at}, err
		}
		return v.firstCrossing(used, v.asked, allKinds[l.kind].power, l.follows(level))
	}
	if l.trial == nil || l.trial.key(level) == nil {
		return find()
	}
	return v.p.remember(*l.trial.key(level), func() (found, error) {
		f, err := find()
		if err != nil {
			return f, err
		}
		return unbroken(f, l.trial, level, func(s *share) float64 { return f.torque * s.torque })
	})
}

// unbroken is where a duty wears something out, unless the static strength of one of its steps ends it before, under its own name.
func unbroken(f found, t *trial, level material.Level, load func(*share) float64) (found, error) {
	if math.IsInf(f.torque, 1) {
		return f, nil
	}
	w, err := worn(t, level, load, nil)
	if w.static > 1 {
		return found{torque: math.Inf(1)}, err
	}
	return f, err
}

// judge gives a margin its size and its word at an asked torque.
func (b *Box) judge(m *Margin, torque float64) {
	m.Margin = m.MarginAt(torque)
	m.State = b.stateOf(m.Margin)
}

// stateOf is the word for a torque margin.
func (b *Box) stateOf(margin float64) State {
	switch {
	case margin < 0:
		return Over
	case margin < b.Limits.Reserve:
		return Thin
	}
	return Clear
}

// sortMargins puts the limit that is reached first in front; equal ones keep the order in which kinds are shown.
func sortMargins(all []Margin) {
	slices.SortStableFunc(all, func(a, b Margin) int {
		x, y := a.Allowable[a.Level], b.Allowable[b.Level]
		if together(x, y) {
			return cmp.Compare(a.Kind, b.Kind)
		}
		return cmp.Compare(x, y)
	})
}

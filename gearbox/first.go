package gearbox

import (
	"cmp"
	"math"
	"slices"

	"layshaft/material"
)

// contender is a limit that may be the first.
type contender struct {
	*limit
	guess float64 // torque at which it would be reached if all grew in step with the torque, N·mm
	rank  int     // in the order shown to people
}

// findFirst finds the first limit of a speed without asking where the others are reached: most are only asked whether they hold at the torque that another allows.
func (v *solver) findFirst(sr *SpeedResult, solvers map[work]*solver) error {
	level := v.p.box.Limits.Strength
	all, err := v.limits(sr, solvers)
	if err != nil {
		return err
	}
	v.p.answer(sr, nil, 0)
	var contenders []contender
	for i := range all {
		l := &all[i]
		if v.p.wants(sr.Name, l) {
			f, err := v.reached(l, level)
			if err != nil {
				return err
			}
			v.p.answer(sr, l, f.torque)
		}
		if !v.decides(l) {
			continue
		}
		guess, err := v.guess(l, level)
		if err != nil {
			return err
		}
		contenders = append(contenders, contender{l, guess, int(l.kind)<<16 + i})
	}
	// The likeliest first: then the others only have to hold.
	slices.SortStableFunc(contenders, func(a, b contender) int { return cmp.Compare(a.guess, b.guess) })
	sr.First = FirstLimit{Torque: v.p.least}
	best := math.MaxInt
	for _, c := range contenders {
		t := sr.First.Torque
		at, err := v.sooner(&c, t, level)
		if err != nil {
			return err
		}
		// Of two that are reached together the one that is shown first to people: pinion and wheel often bear the very same stress.
		if same := together(at, t); at < t && !same || same && c.rank < best {
			sr.First, best = FirstLimit{Kind: c.kind, Item: c.item, Mesh: c.mesh, Own: c.own, Torque: at}, c.rank
			if c.wears != nil {
				if sr.First.Step, err = v.step(c.wears, level, at); err != nil {
					return err
				}
			}
		}
	}
	if best == math.MaxInt {
		sr.First.Torque = math.Inf(1)
	}
	for i := range sr.Ends {
		sr.Ends[i] = FirstLimit{Torque: math.NaN()}
	}
	sr.Ends[level] = sr.First
	return nil
}

// guess is the torque at which a limit would be reached if all grew in step with it, N·mm.
func (v *solver) guess(l *limit, level material.Level) (float64, error) {
	h := v.p.held(l, level)
	if h.guess == 0 {
		used, err := l.shown, error(nil)
		if used > 0 {
			used /= l.band.At(level)
		} else if used, err = l.used(v.asked, level); err != nil {
			return 0, err
		}
		h.guess = v.asked * math.Pow(used, -allKinds[l.kind].power)
	}
	return h.guess, nil
}

// held is what is known so far of a limit that isn't reached yet.
type held struct {
	guess float64 // N·mm; 0 = not made yet
	upTo  float64 // torque up to which it holds, N·mm
}

// held is kept for what wears over the whole duty, which is the same in whichever speed it is asked.
func (p *prepared) held(l *limit, level material.Level) *held {
	if l.wears == nil || l.wears.key(level) == nil {
		return &held{}
	}
	k := *l.wears.key(level)
	h, ok := p.holding[k]
	if !ok {
		h = &held{}
		p.holding[k] = h
	}
	return h
}

// sooner is the torque at which the limit is reached, as far as it matters: +Inf when it holds up to the torque that another allows.
func (v *solver) sooner(c *contender, other float64, level material.Level) (float64, error) {
	h := v.p.held(c.limit, level)
	if other <= h.upTo {
		return math.Inf(1), nil
	}
	if !math.IsInf(other, 1) {
		if c.most != nil {
			switch used, err := c.most(0, other, level, false); {
			case err != nil:
				return 0, err
			case used < 1-1e-9:
				h.upTo = other
				return math.Inf(1), nil
			}
		}
		used, err := c.used(other, level)
		switch {
		case err != nil:
			return 0, err
		case math.Abs(used-1) <= 1e-9:
			return other, nil
		case !(used > 1):
			if holds, err := v.holdsBelow(c.limit, level, other); err != nil {
				return 0, err
			} else if holds {
				h.upTo = other * (1 - 1e-9) // where both are reached together the kinds decide
				return math.Inf(1), nil
			}
		}
	}
	f, err := v.reached(c.limit, level)
	return f.torque, err
}

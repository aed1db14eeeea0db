package gearbox

import (
	"math"

	"layshaft/material"
)

// ceiling is the most of a limit that can be used up at any torque between two, N·mm, whatever load that takes; from
// 0 = at any up to the second. New torques are solved for it only if solve says so.
type ceiling func(from, to float64, level material.Level, solve bool) (float64, error)

// stretch is input torques of one speed between two, over which a load along the faces is taken that is no less than
// at any of them. nil = the torque alone that is asked, as it is solved.
type stretch struct {
	from  float64 // N·mm; 0 = from nothing
	solve bool    // new torques may be solved for it
	even  bool    // instead the load is even, as it is at best
	all   bool    // instead any load whatever, as it is at worst
}

// factor is K_Hβ of the mesh of a share at an input torque of its speed, over the stretch up to it, as it counts at one end of the bands.
func (r *stretch) factor(s *share, torque float64, level material.Level) (float64, error) {
	switch {
	case r == nil:
		return s.solver.factor(s.step, torque, level)
	case r.even:
		return 1, nil
	}
	return s.solver.uneven(s.step, r.from*s.torque, torque, level, r.solve)
}

// most is that of a trial of teeth: stresses grow with the torque, but where they jump, and with K_Hβ.
func (t *trial) most() ceiling {
	return func(from, to float64, level material.Level, solve bool) (float64, error) {
		return t.usedUp(level, to, &stretch{from: from, solve: solve})
	}
}

// answered gives a limit on a number that is linear in the loads what bounds it: no distribution along the faces
// makes it more than all load on the strips that answer most; and between two rungs of the ladder it strays from the
// straight way by no more than the loads can.
func (v *solver) answered(l limit, a *answer) limit {
	if v.p.springy(v.shafts) {
		return v.seen(l, math.Inf(1))
	}
	c := v.fixed
	per, stray := 0.0, 0.0 // per N·mm of torque; per √G
	for m := range c.steps {
		mesh, widths := &c.problem.Meshes[m], c.p.pairs[c.steps[m].mesh].widths
		rows := a.strips[m*strips : (m+1)*strips]
		most := 0.0
		for i, row := range rows {
			most = max(most, row.norm())
			stray += mesh.Stiffness * widths[i] * row.minus(rows[strips/2]).dot(row.minus(rows[strips/2])) / 2
		}
		per += most * mesh.Force / math.Abs(c.engine)
	}
	stray = math.Sqrt(stray)
	l.most = func(from, to float64, level material.Level, solve bool) (float64, error) {
		if from == 0 {
			return per * to / l.band.At(level), nil
		}
		if !solve {
			return math.Inf(1), nil
		}
		rung := rungBelow(to)
		energy, err := v.stretch(rung, making{})
		if err != nil {
			return 0, err
		}
		next := rungTorque(rung + 1)
		low, high, err := l.both(from, next, level)
		return max(low, low+(high-low)*(to-from)/(next-from)) + stray*math.Sqrt(energy)/l.band.At(level), err
	}
	return l
}

// What is taken of numbers whose energy isn't followed, as common sense, no source. Between two rungs of the ladder
// they rise above both by no more than a share. And no section of a shaft bears more than moved times as much when
// the loads on it move along their faces: a gear's lever about a bearing outside its face at most doubles, and what
// one gear takes off another is let go twice.
const (
	bulges = 0.1
	moved  = 4
)

// seen gives a limit what bounds it by what it shows at the rungs of the ladder, and from nothing to any torque by so many
// times what would be in step with what is shown or used up at the asked torque, or else with what is used up at that one.
func (v *solver) seen(l limit, times float64) limit {
	band, shown, inStep, used := l.band, l.shown, l.inStep, l.used
	// The asked torque is asked for over and over, and what a stretch asks for last the one below it asks for first.
	var asked, last [material.High + 1]struct{ torque, used float64 }
	ask := func(torque float64, level material.Level) (float64, error) {
		known := &last[level]
		if torque == v.asked {
			known = &asked[level]
		}
		switch {
		case v.p.rough: // what is found now is an estimate
			return used(torque, level)
		case known.torque == torque:
			return known.used, nil
		}
		x, err := used(torque, level)
		if err == nil {
			known.torque, known.used = torque, x
		}
		return x, err
	}
	l.used = ask
	l.most = func(from, to float64, level material.Level, solve bool) (float64, error) {
		switch {
		case from == 0 && math.IsInf(times, 1):
			return times, nil
		case from == 0 && shown > 0:
			return times * shown * to / v.asked / band.At(level), nil
		case from == 0 && inStep:
			x, err := ask(v.asked, level)
			return times * x * to / v.asked, err
		case from == 0:
			x, err := ask(to, level)
			return times * x, err
		case !solve:
			return math.Inf(1), nil
		}
		high, err := ask(to, level)
		if err != nil {
			return 0, err
		}
		low, err := ask(from, level)
		return (1 + bulges) * max(low, high), err
	}
	return l
}

// both is what two torques use up.
func (l *limit) both(from, to float64, level material.Level) (low, high float64, err error) {
	if low, err = l.used(from, level); err != nil {
		return 0, 0, err
	}
	high, err = l.used(to, level)
	return low, high, err
}

// below reports whether surely less than a bound is used up at any torque between two, N·mm; all, whether at any
// below as well.
func (most ceiling) below(bound, from, to float64, level material.Level) (sure, all bool, err error) {
	used, err := most(0, to, level, false)
	if err != nil || used < bound {
		return true, true, err
	}
	for _, solve := range []bool{false, true} {
		if used, err = most(from, to, level, solve); err != nil || used < bound {
			return true, false, err
		}
	}
	return false, false, nil
}

// holds reports whether a limit is surely not reached at any torque below one, N·mm, at which it holds. It goes down
// from there, a rung of the ladder at a time, by the most that can be used up, until not even all load on one strip
// would reach it. Where the most says too little, as just below a limit, the torques of the grid are asked one by
// one.
func (l *limit) holds(level material.Level, top float64) (bool, error) {
	if l.most == nil {
		return false, nil
	}
	to := top
	for rung := rungBelow(top); to > top/gridReach; rung-- {
		from := rungTorque(rung)
		sure, all, err := l.most.below(1, from, to, level)
		if err != nil || all {
			return all, err
		}
		if !sure {
			for _, torque := range l.places(level, from, to) {
				if used, err := l.used(torque, level); err != nil || !(used < 1) {
					return false, err
				}
			}
		}
		to = from
	}
	return true, nil
}

// places are the torques of the grid from a rung up to another torque, N·mm, with those just below a jump.
func (l *limit) places(level material.Level, from, to float64) (all []float64) {
	for place := gridBelow(to); gridTorque(place) > from*(1-1e-9); place-- {
		all = append(all, gridTorque(place))
	}
	for _, j := range jumps(l.follows(level), to) {
		if j[0] > from && j[0] < to {
			all = append(all, j[0])
		}
	}
	return all
}

// less reports whether a trial of teeth surely has less than a bound used up at any torque below one, N·mm.
func (t *trial) less(level material.Level, top, bound float64) (bool, error) {
	most := t.most()
	to := top
	for rung := rungBelow(top); to > top/gridReach; rung-- {
		from := rungTorque(rung)
		if sure, all, err := most.below(bound, from, to, level); err != nil || all || !sure {
			return all, err
		}
		to = from
	}
	return true, nil
}

// stays reports whether a limit that is reached at a torque, N·mm, stays so above, as far as that is watched: teeth
// at every torque of the grid until even load reaches it, what follows the loads straight at those of the ladder.
func (l *limit) stays(level material.Level, bottom float64) (bool, error) {
	first, step := gridBelow(bottom)+1, 1
	if l.least == nil {
		first, step = (rungBelow(bottom)+1)*rungStep, rungStep
	}
	for place := first; gridTorque(place) < bottom*gridAbove; place += step {
		torque := gridTorque(place)
		if l.least != nil {
			if used, err := l.least(torque, level); err != nil || used >= 1 {
				return true, err
			}
		}
		if used, err := l.used(torque, level); err != nil || !(used >= 1) {
			return false, err
		}
	}
	return true, nil
}

// crossesOnce reports whether a limit that is reached at a torque, N·mm, is surely reached nowhere below, and stays
// so above. +Inf = it isn't reached far beyond the asked torque either.
func (l *limit) crossesOnce(level material.Level, at, asked float64) (bool, error) {
	if l.most == nil {
		return false, nil
	}
	if math.IsInf(at, 1) {
		return l.holds(level, asked*gridReach)
	}
	if once, err := l.holds(level, at); err != nil || !once {
		return false, err
	}
	return l.stays(level, at)
}

// holdsBelow reports whether a limit that holds at a torque, N·mm, holds at all below.
func (v *solver) holdsBelow(l *limit, level material.Level, top float64) (bool, error) {
	if holds, err := l.holds(level, top); err != nil || holds {
		return holds, err
	}
	// It does where all that it follows rises with the torque and nothing jumps.
	follow := l.follows(level)
	if rises, err := rising(follow, top/gridReach, top); err != nil || !rises {
		return false, err
	}
	for _, j := range jumps(follow, top) {
		if j[0] < top {
			if used, err := l.used(j[0], level); err != nil || !(used < 1) {
				return false, err
			}
		}
	}
	return true, nil
}

// follows is what it rises with.
func (l *limit) follows(level material.Level) []watch {
	if l.follow == nil {
		return nil
	}
	return l.follow(level)
}

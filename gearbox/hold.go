package gearbox

import (
	"math"

	"layshaft/material"
)

// ceiling is the most of a limit that can be used up at any torque between two, N·mm, whatever load that takes; from 0 = at any up to the second. New torques are solved for it only if solve says so.
type ceiling func(from, to float64, level material.Level, solve bool) (float64, error)

// most is that of a trial of teeth: stresses grow with the torque and with K_Hβ. nil where nothing bounds K_Hβ, on bearings of known elements.
func (t *trial) most() ceiling {
	loads := t.loads()
	for _, s := range loads {
		if s.solver.p.springy(s.solver.shafts) {
			return nil
		}
	}
	return func(from, to float64, level material.Level, solve bool) (most float64, err error) {
		faces := func(s *share, torque float64) (float64, error) {
			return s.solver.uneven(s.step, from*s.torque, to*s.torque, solve)
		}
		if most, err = t.usedUp(level, to, faces); err != nil {
			return 0, err
		}
		for _, s := range loads {
			if below := t.jump(s)[0]; below > from && below < to {
				used, err := t.usedUp(level, below, faces)
				if err != nil {
					return 0, err
				}
				most = max(most, used)
			}
		}
		return most, nil
	}
}

// holds reports whether a limit is surely not reached at any torque below one, N·mm, at which it holds. It goes down from there, a rung of the ladder at a time, by the most that can be used up, until not even all
// load on one strip would reach it. Where the most says too little, as just below a limit, the torques of the grid are asked one by one.
func (l *limit) holds(level material.Level, top float64) (bool, error) {
	if l.most == nil {
		return false, nil
	}
	to := top
	for rung := rungBelow(top); to > top/gridReach; rung-- {
		from := rungTorque(rung)
		sure := false
		for _, try := range []struct {
			from  float64
			solve bool
		}{{0, false}, {from, false}, {from, true}} {
			most, err := l.most(try.from, to, level, try.solve)
			if err != nil {
				return false, err
			}
			if sure = most < 1; sure && try.from == 0 {
				return true, nil
			} else if sure {
				break
			}
		}
		if !sure {
			for place := gridBelow(to); gridTorque(place) > from*(1-1e-9); place-- {
				if used, err := l.used(gridTorque(place), level); err != nil || !(used < 1) {
					return false, err
				}
			}
		}
		to = from
	}
	return true, nil
}

// stays reports whether a limit that is reached at a torque, N·mm, stays so above, as far as that is watched.
func (l *limit) stays(level material.Level, bottom float64) (bool, error) {
	for place := gridBelow(bottom) + 1; gridTorque(place) < bottom*gridAbove; place++ {
		torque := gridTorque(place)
		if used, err := l.least(torque, level); err != nil || used >= 1 {
			return true, err
		}
		if used, err := l.used(torque, level); err != nil || !(used >= 1) {
			return false, err
		}
	}
	return true, nil
}

// crossesOnce reports whether a limit that is reached at a torque, N·mm, is surely reached nowhere below, and stays so above. +Inf = it isn't reached far beyond the asked torque either.
func (l *limit) crossesOnce(level material.Level, at, asked float64) (bool, error) {
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
	follow := l.follows()
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
func (l *limit) follows() []watch {
	if l.follow == nil {
		return nil
	}
	return l.follow()
}

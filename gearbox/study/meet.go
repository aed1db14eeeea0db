package study

import (
	"context"
	"math"
)

// metWithin is how narrow the stretch is in which a target is met, as a share of the range of the axis.
const metWithin = 1e-6

// meet looks for the target between neighbouring points along the first axis, for each value of the second.
func (s *Sweep) meet(ctx context.Context, solve func(values []float64) Point) error {
	across := 1
	if len(s.Axes) == 2 {
		across = len(s.Axes[1].Values)
	}
	type bracket struct{ from, to *Point }
	var brackets []bracket
	for j := range across {
		for i := 1; i < len(s.Axes[0].Values); i++ {
			a, b := &s.Points[(i-1)*across+j], &s.Points[i*across+j]
			if a.Gap == "" && b.Gap == "" && (s.Target.miss(a) < 0) != (s.Target.miss(b) < 0) {
				brackets = append(brackets, bracket{a, b})
			}
		}
	}
	s.Met = make([]Met, len(brackets))
	return abreast(ctx, len(brackets), nil, func(k int) error {
		s.Met[k] = s.between(ctx, brackets[k].from, brackets[k].to, solve)
		return nil
	})
}

// between narrows the stretch between two points, one of which meets the target and one of which doesn't: by the secant, and by halving where that makes too little of it.
// What lies in a gap counts as not met.
func (s *Sweep) between(ctx context.Context, from, to *Point, solve func(values []float64) Point) Met {
	lo, hi := from.Values[0], to.Values[0]
	fl, fh := s.Target.miss(from), s.Target.miss(to)
	m := Met{Other: math.NaN(), Rising: fl < 0}
	if len(from.Values) == 2 {
		m.Other = from.Values[1]
	}
	at := func(x float64) float64 {
		values := append([]float64{x}, from.Values[1:]...)
		p := solve(values)
		if p.Gap != "" {
			return -1
		}
		return s.Target.miss(&p)
	}
	values := s.Axes[0].Values
	within := metWithin * (values[len(values)-1] - values[0])
	if s.Axes[0].Whole {
		within = 1
	}
	for n := 0; hi-lo > within && ctx.Err() == nil && n < 100; n++ {
		x := lo + (hi-lo)/2
		if n%3 != 2 {
			x = lo - fl*(hi-lo)/(fh-fl)
			// A step a little beyond the guess brings the other end near too.
			nudge := within / 3
			if x-lo < hi-x {
				x += nudge
			} else {
				x -= nudge
			}
			x = min(max(x, lo+within/4), hi-within/4)
		}
		if s.Axes[0].Whole {
			x = min(max(math.Round(x), lo+1), hi-1)
		}
		if y := at(x); (y < 0) == (fl < 0) {
			lo, fl = x, y
		} else {
			hi, fh = x, y
		}
	}
	m.Jump = math.Abs(fh-fl) > jump
	if s.Axes[0].Whole { // the number that meets it
		m.At, m.Jump = hi, false
		if !m.Rising {
			m.At = lo
		}
		return m
	}
	m.At, m.Within = lo+(hi-lo)/2, (hi-lo)/2
	return m
}

// jump is by how much the torque must differ, as a share of the target, between both ends of the stretch in which a target is met for it to have jumped.
const jump = 1e-3

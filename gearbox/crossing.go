package gearbox

import (
	"cmp"
	"math"
	"slices"
)

// utilisation is how much of a limit is used up at an input torque (N·mm, > 0): 1 at the limit.
type utilisation func(torque float64) (float64, error)

// searchRange is how far from where it starts the search for an allowable torque goes, as a factor; beyond it the limit counts as not reached.
const searchRange = 1e6

// guess is where a crossing may be.
type guess struct {
	torque float64 // N·mm; 0 = nothing is known
	slope  float64 // of the utilisation there, on logarithmic scales
}

// crossing solves u(T) = 1 for a torque, starting at one where u is known to be finite. power guides the first guess: the torque grows with this power of the
// utilisation. Both are taken on logarithmic scales, where utilisations are all but straight, so that the secant finds the crossing in a few steps; once the crossing is
// bracketed, a step that leaves the bracket or makes too little of it is replaced by halving. +Inf when u never gets there, 0 when it is beyond at any torque.
func crossing(u utilisation, start, power float64) (float64, error) {
	return crossingFrom(u, &guess{start, 1 / power}, start)
}

// crossingFrom is the same from a guess, as far from a torque as is searched. What it finds is the guess for the next.
func crossingFrom(u utilisation, from *guess, around float64) (float64, error) {
	return newBracket(u, from.slope, 1e-12).find(from, around)
}

// newBracket knows nothing but a slope; digits are what may be missed by.
func newBracket(u utilisation, slope, digits float64) *bracket {
	return &bracket{u: u, lo: math.Inf(-1), hi: math.Inf(1), slope: slope, digits: digits}
}

func (s *bracket) find(from *guess, around float64) (float64, error) {
	middle, widest := math.Log(around), math.Log(searchRange)
	x := math.Log(from.torque)
	for range 200 {
		y, err := s.miss(x)
		if err != nil {
			return 0, err
		}
		next, done := s.step(x, y)
		x = next
		switch {
		case done:
			*from = guess{math.Exp(x), s.slope}
			return from.torque, nil
		case next > middle+widest:
			return math.Inf(1), nil
		case next < middle-widest:
			return 0, nil
		}
	}
	return math.Exp(x), nil
}

// crossing is crossingFrom. On elements it comes close with balances that are estimated from those found nearby before it looks in earnest.
func (p *prepared) crossing(u utilisation, from *guess, around float64) (float64, error) {
	if p.onElements {
		p.rough = true
		felt := *from
		at, err := newBracket(u, from.slope, 1e-5).find(&felt, around)
		p.rough = false
		if err == nil && at > 0 && !math.IsInf(at, 1) {
			*from = felt
		}
	}
	return crossingFrom(u, from, around)
}

// within solves u(T) = 1 between two torques on whose sides of it u lies.
func within(u utilisation, from, to float64) (float64, error) {
	s := bracket{u: u, lo: math.Log(from), hi: math.Log(to), slope: 1, digits: 1e-12}
	if y, err := s.miss(s.hi); err != nil || y < 0 { // it falls
		if err != nil {
			return 0, err
		}
		s.u = func(t float64) (float64, error) {
			y, err := u(t)
			return 1 / y, err
		}
	}
	x := s.lo + (s.hi-s.lo)/2
	for range 200 {
		y, err := s.miss(x)
		if err != nil {
			return 0, err
		}
		next, done := s.step(x, y)
		x = next
		if done {
			break
		}
	}
	return math.Exp(x), nil
}

// bracket is a crossing on its way, all on logarithmic scales.
type bracket struct {
	u           utilisation
	lo, hi      float64 // known to lie below and above the crossing
	last, lastY float64
	slope       float64
	count       int
	digits      float64
}

func (s *bracket) miss(x float64) (float64, error) {
	y, err := s.u(math.Exp(x))
	return math.Log(y), err // −Inf for none at all
}

// A last step needs no look where the utilisation misses by less than sure and the look before it was no further than near: the secant is right to the product of both, times how much it bends.
const sure, near = 1e-8, 1e-4

// step is where to look next, after x was found to miss by y.
func (s *bracket) step(x, y float64) (next float64, done bool) {
	if math.Abs(y) < s.digits {
		return x, true
	}
	if y < 0 {
		s.lo = x
	} else {
		s.hi = x
	}
	if s.hi-s.lo <= 1e-14*max(1, math.Abs(x)) {
		return x, true
	}
	if rise := (y - s.lastY) / (x - s.last); s.count > 0 && rise > 0 && !math.IsInf(rise, 0) {
		s.slope = rise
	}
	next = x - y/s.slope
	if s.count > 0 && math.Abs(y) < sure && math.Abs(x-s.last) < near {
		return next, true
	}
	switch bracketed := !math.IsInf(s.lo, 0) && !math.IsInf(s.hi, 0); {
	case bracketed && (!(next > s.lo && next < s.hi) || s.count%8 == 7):
		next = s.lo + (s.hi-s.lo)/2
	case !bracketed && (math.IsInf(next, 0) || math.Abs(next-x) > 2):
		next = x - math.Copysign(2, y)
	}
	s.last, s.lastY = x, y
	s.count++
	return next, next == x
}

// Looking for the first crossing, torques stand on one grid for all boxes and all limits, whatever torque is asked.
const (
	gridSpacing = 0.15 // of torques, on a logarithmic scale
	// gridReach is how far below a crossing another is looked for. A limit follows the peak of the line load, which is at most so many times the mean, so that no
	// crossing of a stress lies further below.
	gridReach = mostUneven
	// gridAbove is how far above its first crossing it is watched whether a limit is left again.
	gridAbove = 8
)

// gridBelow is the last place of the grid that lies below a torque, and gridTorque the torque of a place.
func gridBelow(torque float64) int { return int(math.Ceil(math.Log(torque)/gridSpacing)) - 1 }
func gridTorque(place int) float64 { return math.Exp(float64(place) * gridSpacing) }

// found is where a limit is reached first when the torque grows from nothing.
type found struct {
	torque float64    // N·mm; +Inf = nowhere
	bad    [2]float64 // over between these torques, where it is met again and left; zero where it isn't
}

// firstCrossing finds the torque at which a limit is reached first. start and power are those of crossing; follow is what the utilisation rises with: where all of it rises with the torque
// and nothing jumps there is one crossing alone.
func (v *solver) firstCrossing(u utilisation, start, power float64, follow []watch) (found, error) {
	at, err := crossing(u, start, power)
	if err != nil || !(at > 0) {
		return found{torque: at}, err
	}
	top := at
	if math.IsInf(at, 1) {
		top = start * gridReach
	}
	rises, err := rising(follow, top/gridReach, top*gridAbove)
	switch {
	case err != nil:
		return found{}, err
	case !rises:
		return scan(u, top, jumps(follow, top))
	}
	for _, j := range jumps(follow, top) {
		if j[0] >= at {
			break
		}
		// Up to the jump it rises, so it has been beyond the limit only if it is just below it.
		used, err := u(j[0])
		if err != nil || used < 1 {
			if err != nil {
				return found{}, err
			}
			continue
		}
		f := found{}
		if f.torque, err = crossing(u, j[0], power); err != nil {
			return f, err
		}
		if used, err = u(j[1]); used < 1 {
			f.bad = [2]float64{f.torque, j[1]}
		}
		return f, err
	}
	return found{torque: at}, nil
}

// jumps are the torques at which a utilisation jumps down, just below and just above, in rising order, as far as they lie within reach of another torque.
func jumps(follow []watch, of float64) (all [][2]float64) {
	for _, w := range follow {
		if w.jump[0] > of/gridReach && !slices.Contains(all, w.jump) {
			all = append(all, w.jump)
		}
	}
	slices.SortFunc(all, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	return all
}

// scan walks up the grid, and over the jumps, for the first crossing, and on to where the limit is left again.
func scan(u utilisation, top float64, jumps [][2]float64) (found, error) {
	f := found{torque: math.Inf(1)}
	var torques []float64
	for place := gridBelow(top / gridReach); place <= gridBelow(top*gridAbove); place++ {
		torques = append(torques, gridTorque(place))
	}
	for _, j := range jumps {
		torques = append(torques, j[0], j[1])
	}
	slices.Sort(torques)
	for i, torque := range torques {
		if torque > f.torque*gridAbove {
			break
		}
		used, err := u(torque)
		if err != nil {
			return f, err
		}
		switch over := used >= 1; {
		case over && math.IsInf(f.torque, 1):
			if i == 0 {
				f.torque, err = crossing(u, torque, 1)
			} else {
				f.torque, err = within(u, torques[i-1], torque)
			}
		case !over && !math.IsInf(f.torque, 1):
			f.bad[0] = f.torque
			f.bad[1], err = within(u, torques[i-1], torque)
			return f, err
		}
		if err != nil {
			return f, err
		}
	}
	return f, nil
}

// watch is one number of a speed that a utilisation follows, at so many times the input torque.
type watch struct {
	*profile
	times float64
	jump  [2]float64 // just below and just above an input torque at which the utilisation falls at once, N·mm; zero = none
}

// rising reports whether all numbers rise with the torque between two torques.
func rising(follow []watch, from, to float64) (bool, error) {
	for _, w := range follow {
		if rises, err := w.rises(gridBelow(from*w.times), gridBelow(to*w.times)); err != nil || !rises {
			return false, err
		}
	}
	return true, nil
}

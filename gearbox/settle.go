package gearbox

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Shafts, meshes and bearings store energy that is convex in where the shafts stand in their bearings: shafts and teeth with their one-sided contact, and rows of
// elements with theirs. So there is one balance, where the force that the shafts put on every bearing is what its elements carry at that place. Newton's method finds
// it: the difference is the gradient of the energy, its derivative is known from shafts, faces and elements, and a step is taken as far as the energy falls. The energy itself
// isn't needed: its slope along the step never falls and is zero where the energy is least.

const (
	balanced   = 1e-10 // share of the largest force that may be left over
	goodEnough = 1e-7  // the same where rounding, or what seats of gears leave over, allows no better
	mostRounds = 80
)

// settle finds the state of a speed with bearings of known elements.
func (v *solver) settle(st *state) error {
	f := v.footing
	if f.last != nil {
		if s, err := v.settleFrom(st, f.warm(st.scale())); err == nil {
			f.last = s
			return nil
		}
	}
	s, err := v.settleCold(st)
	f.last = s
	return err
}

// settleCold starts from what each bearing would do alone under the radial force that springs give it.
func (v *solver) settleCold(st *state) (*footed, error) {
	f := v.footing
	s := &footed{scale: st.scale(), seats: make([]float64, f.count)}
	if err := f.carry(s); err != nil {
		return nil, err
	}
	for k := range f.mounts {
		m := &f.mounts[k]
		put, seat := s.put[m.first:m.first+m.count], s.seats[m.first:m.first+m.count]
		if force := math.Hypot(put[0], put[1]); force > 0 {
			alone, err := m.row.Radial(force)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", v.p.title(m), err)
			}
			for i := range 2 {
				seat[i] = put[i] * (alone.Displacement/force - 1./spring)
			}
		}
		copy(seat[2:], s.stands[m.first+2:m.first+m.count]) // no couple yet
	}
	return v.settleFrom(st, s)
}

// warm starts from where the shafts stood at another torque, with forces that have grown in step with it.
func (f *footing) warm(scale float64) *footed {
	s := &footed{scale: scale, seats: make([]float64, f.count), thrust: slices.Clone(f.last.thrust)}
	grown := scale / f.last.scale
	for i := range s.seats {
		s.seats[i] = f.last.stands[i] - f.last.put[i]*grown/spring
	}
	for k := range s.thrust {
		s.thrust[k] *= grown
	}
	return s
}

// settleFrom finds the balance from a start. The thrusts of the shafts follow from the loads on them and hardly change on the way, so they are held while the rest settles, and then
// taken anew.
func (v *solver) settleFrom(st *state, s *footed) (*footed, error) {
	p, f := v.p, v.footing
	if err := f.carry(s); err != nil {
		return nil, err
	}
	for range 20 {
		if s.thrust != nil {
			var err error
			if s, err = v.descend(s); err != nil {
				return nil, err
			}
		}
		st.carried = s.carried
		if err := v.bend(st, p.seats(f.mounts, f.shafts, s.seats)); err != nil {
			return nil, err
		}
		thrust := p.thrusts(f.mounts, st.solved)
		if s.thrust != nil {
			change := 0.0
			for k := range thrust {
				change = max(change, math.Abs(thrust[k]-s.thrust[k]))
			}
			if change <= balanced*s.size {
				return s, p.within(f.mounts, s)
			}
		}
		s.thrust = thrust
	}
	return nil, errors.New("the axial forces on the bearings don't settle: check which of them are fixed along the axis")
}

// weigh asks the elements what they carry where the shafts stand.
func (v *solver) weigh(s *footed) error {
	f := v.footing
	n := f.count
	s.miss, s.stiff, s.axial = make([]float64, n), make([]float64, n*n), make([]float64, len(f.mounts))
	total, err := v.p.hold(f.mounts, s)
	if err != nil {
		return err
	}
	s.size, s.noise = 0, 1e-13*total
	for i := range n {
		s.size = max(s.size, math.Abs(s.miss[i]), math.Abs(s.put[i]))
		s.miss[i] -= s.put[i]
	}
	return nil
}

// left is the largest force that isn't balanced, N, and to which movement it belongs.
func (s *footed) left() (most float64, movement int) {
	for i, x := range s.miss {
		if math.Abs(x) > most {
			most, movement = math.Abs(x), i
		}
	}
	return most, movement
}

// descend is Newton's method with the thrusts held.
func (v *solver) descend(s *footed) (*footed, error) {
	f := v.footing
	n := f.count
	if err := v.weigh(s); err != nil {
		return nil, err
	}
	push := 0.0 // what is added to the stiffness of the elements to keep steps short, N/mm
	for range mostRounds {
		left, _ := s.left()
		if left <= balanced*s.size+s.noise {
			return s, nil
		}
		yields, err := f.yields(s)
		if err != nil {
			return nil, err
		}
		step, moves, ok := s.newton(yields, n, max(push, 1e-9*spring))
		if !ok {
			break
		}
		next, share, err := v.down(s, step, moves)
		if err != nil {
			return nil, err
		}
		if after, _ := next.left(); after >= left && left <= goodEnough*s.size {
			return s, nil // as near as it gets
		}
		if share < 0.05 {
			push = max(10*push, 1e-3*spring)
		} else {
			push /= 10
		}
		s = next
	}
	left, at := s.left()
	if left <= goodEnough*s.size {
		return s, nil
	}
	k := slices.IndexFunc(f.mounts, func(m mount) bool { return at < m.first+m.count })
	m := &f.mounts[k]
	return nil, fmt.Errorf("%s: no balance is found between the shaft and the %ss, %.3g N are left over of %.3g N: check their number, size and clearance", v.p.title(m), m.row.Kind, left, s.size)
}

// down goes along a step as far as the energy falls: not beyond where half its slope has come back with the other sign. It tells which share of the step that was.
func (v *solver) down(s *footed, step, moves []float64) (next *footed, share float64, err error) {
	const most = 30
	share = v.footing.short(moves)
	left, _ := s.left()
	slope := along(s.miss, moves)
	for try := 0; ; try++ {
		next = &footed{scale: s.scale, seats: slices.Clone(s.seats), thrust: s.thrust}
		for i := range next.seats {
			next.seats[i] += share * step[i]
		}
		if err := v.footing.carry(next); err != nil {
			return nil, 0, err
		}
		if err := v.weigh(next); err != nil {
			if try == most {
				return nil, 0, err
			}
			share /= 4 // it has gone where no place along the axis carries the thrust
			continue
		}
		now := along(next.miss, moves)
		if after, _ := next.left(); now <= -0.5*slope || after <= 0.5*left || try == most {
			return next, share, nil
		}
		// Too far: the false position, but never less than a tenth at once.
		share *= max(0.1, slope/(slope-now))
	}
}

// along is the slope of the energy along some movements, N.
func along(miss, moves []float64) (slope float64) {
	for i, x := range moves {
		slope += miss[i] * x
	}
	return slope
}

// newton is the step of the seats that would balance all forces, and how it would move the shafts in their bearings. With K the springs, R the force on the
// mounts, s the seats, and v = s + R/K where the shafts stand,
//
//	F(v) − R = 0,  dR = Y ds,  (H (1 + Y/K) − Y) ds = R − F
//
// where Y is how R answers the seats and H the tangent of the elements.
func (s *footed) newton(yields []float64, n int, push float64) (step, moves []float64, ok bool) {
	a := make([]float64, n*n)
	for i := range n {
		for j := range n {
			sum := s.stiff[i*n+j] - yields[i*n+j] + push/spring*yields[i*n+j]
			for k := range n {
				sum += s.stiff[i*n+k] * yields[k*n+j] / spring
			}
			a[i*n+j] = sum
		}
		a[i*n+i] += push
	}
	step = make([]float64, n)
	for i, x := range s.miss {
		step[i] = -x
	}
	if !eliminate(a, step) {
		return nil, nil, false
	}
	moves = slices.Clone(step)
	for i := range n {
		for j := range n {
			moves[i] += yields[i*n+j] * step[j] / spring
		}
	}
	return step, moves, true
}

// short is the share of a step that moves no shaft by more than a fiftieth of its elements.
func (f *footing) short(moves []float64) float64 {
	share := 1.0
	for _, m := range f.mounts {
		for _, x := range moves[m.first : m.first+m.count] {
			share = min(share, 0.02*m.row.Diameter/math.Abs(x))
		}
	}
	return share
}

// eliminate solves a x = b, with a stored by rows, by elimination with the largest pivot of each column; x comes in b, a is lost. It is not ok when a is singular.
func eliminate(a, b []float64) bool {
	n := len(b)
	for c := range n {
		pivot := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r*n+c]) > math.Abs(a[pivot*n+c]) {
				pivot = r
			}
		}
		if a[pivot*n+c] == 0 || math.IsNaN(a[pivot*n+c]) {
			return false
		}
		if pivot != c {
			for k := c; k < n; k++ {
				a[c*n+k], a[pivot*n+k] = a[pivot*n+k], a[c*n+k]
			}
			b[c], b[pivot] = b[pivot], b[c]
		}
		for r := c + 1; r < n; r++ {
			t := a[r*n+c] / a[c*n+c]
			if t == 0 {
				continue
			}
			for k := c; k < n; k++ {
				a[r*n+k] -= t * a[c*n+k]
			}
			b[r] -= t * b[c]
		}
	}
	for r := n - 1; r >= 0; r-- {
		for k := r + 1; k < n; k++ {
			b[r] -= a[r*n+k] * b[k]
		}
		b[r] /= a[r*n+r]
	}
	return true
}

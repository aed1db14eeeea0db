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
	balanced   = 1e-12 // share of the largest force that may be left over
	goodEnough = 1e-7  // the same where rounding, or what seats of gears leave over, allows no better
	mostRounds = 80
)

// settle finds the balance at scale times the torque of the coupling. What it returns is kept for the next search to start from.
func (f *footing) settle(scale float64, as making) (*footed, error) {
	f.as = as
	if near, _ := f.near(scale); near != nil {
		if s, err := f.settleFrom(f.warm(scale)); err == nil {
			return f.keep(s), nil
		}
	}
	s, err := f.settleCold(scale)
	if err != nil {
		return nil, err
	}
	return f.keep(s), nil
}

// keep makes a balance the last, and remembers it for others to start from.
func (f *footing) keep(s *footed) *footed {
	f.give(f.last)
	f.last = s
	log := math.Log(s.scale)
	pasts := &f.pasts[f.as.place()]
	if slices.ContainsFunc(*pasts, func(p past) bool { return math.Abs(p.log-log) < apart }) {
		return s
	}
	at := past{log, make([]float64, 2*f.count)}
	copy(at.row, s.stands)
	for i, put := range s.put {
		at.row[f.count+i] = put / s.scale
	}
	*pasts = append(*pasts, at)
	return s
}

// settleCold starts from what each bearing would do alone under the radial force that springs give it.
func (f *footing) settleCold(scale float64) (*footed, error) {
	s := f.take()
	s.scale = scale
	clear(s.seats)
	if err := f.carry(s); err != nil {
		return nil, err
	}
	for k := range f.mounts {
		m := &f.mounts[k]
		put, seat := s.put[m.first:m.first+m.count], s.seats[m.first:m.first+m.count]
		if force := math.Hypot(put[0], put[1]); force > 0 {
			alone, err := m.row.Radial(force)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", f.coupling.p.title(m), err)
			}
			for i := range 2 {
				seat[i] = put[i] * (alone.Displacement/force - 1./spring)
			}
		}
		copy(seat[2:], s.stands[m.first+2:m.first+m.count]) // no couple yet
	}
	return f.settleFrom(s)
}

// past is a balance found before.
type past struct {
	log float64   // of its scale
	row []float64 // where the shafts stood, mm, and the forces on the mounts over the scale, N
}

// near finds the three balances that lie nearest to a torque, of the making at hand or, where those are farther, with the meshes in line, and tells whether they are near enough to say something about it together;
// nil where there is none.
func (f *footing) near(scale float64) (near *[3]*past, enough bool) {
	log := math.Log(scale)
	pick := func(pasts []past) (n [3]*past) {
		for i := range pasts {
			p := &pasts[i]
			for k := range n {
				if n[k] == nil || math.Abs(p.log-log) < math.Abs(n[k].log-log) {
					p, n[k] = n[k], p
					if p == nil {
						break
					}
				}
			}
		}
		return n
	}
	together := func(n *[3]*past) bool { return n[2] != nil && math.Abs(n[2].log-log) < parabola }
	own := pick(f.pasts[f.as.place()])
	if !together(&own) && f.as.sign != 0 {
		line := pick(f.pasts[making{}.place()])
		if own[0] == nil || line[0] != nil && math.Abs(line[0].log-log) < math.Abs(own[0].log-log) {
			own = line
			if line[0] == nil {
				return nil, false
			}
			return &own, false
		}
	}
	if own[0] == nil {
		return nil, false
	}
	return &own, together(&own)
}

// warm starts from what balances found nearby say of this torque: where the shafts stand and the forces over the torque are taken through the nearest three of them as a parabola over the logarithm
// of the torque, or as they are at the nearest where three aren't as near.
func (f *footing) warm(scale float64) *footed {
	near, _ := f.near(scale)
	log := math.Log(scale)
	weight := [3]float64{1, 0, 0}
	if near[2] != nil && math.Abs(near[2].log-log) < parabola {
		for k := range weight {
			weight[k] = 1
			for j := range near {
				if j != k {
					weight[k] *= (log - near[j].log) / (near[k].log - near[j].log)
				}
			}
		}
	}
	s := f.take()
	s.scale = scale
	clear(s.seats)
	for k, w := range weight {
		if w == 0 {
			continue
		}
		row := near[k].row
		for i := range s.seats {
			s.seats[i] += w * (row[i] - row[f.count+i]*scale/spring)
		}
	}
	return s
}

// estimate is how the load lies with the seats where balances nearby say they stand, without a balance of its own; nil where too few are near. The next overwrites it.
func (f *footing) estimate(scale float64, as making) (*spread, error) {
	f.as = as
	if _, enough := f.near(scale); !enough {
		return nil, nil
	}
	s := f.warm(scale)
	defer f.give(s)
	c := f.coupling
	f.rounds++
	return &c.now, c.find(scale, as, s.seats)
}

// On a logarithmic scale, parabola is how far balances may lie from a torque to say something about it together, apart how near two are of which one will do.
const (
	parabola = 0.7
	apart    = 1e-3
)

// settleFrom finds the balance from a start. The thrusts of the shafts follow from the loads on them and hardly change on the way, so they are held while the rest settles, and then
// taken anew.
func (f *footing) settleFrom(s *footed) (*footed, error) {
	if err := f.carry(s); err != nil {
		return nil, err
	}
	f.thrusts(&s.spread, s.thrust)
	thrust := make([]float64, len(f.mounts))
	for range 20 {
		var err error
		if s, err = f.descend(s); err != nil {
			return nil, err
		}
		f.thrusts(&s.spread, thrust)
		change := 0.0
		for k := range thrust {
			change = max(change, math.Abs(thrust[k]-s.thrust[k]))
		}
		copy(s.thrust, thrust)
		if change <= balanced*s.size {
			return s, f.coupling.p.within(f.mounts, s)
		}
	}
	return nil, errors.New("the axial forces on the bearings don't settle: check which of them are fixed along the axis")
}

// weigh asks the elements what they carry where the shafts stand.
func (f *footing) weigh(s *footed) error {

	clear(s.miss)
	clear(s.stiff)
	clear(s.axial)
	total, err := f.coupling.p.hold(f.mounts, s)
	if err != nil {
		return err
	}
	s.size, s.noise = 0, 1e-13*total
	for i := range s.miss {
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
func (f *footing) descend(s *footed) (*footed, error) {
	if err := f.weigh(s); err != nil {
		return nil, err
	}
	push := 0.0 // what is added to the stiffness of the elements to keep steps short, N/mm
	for range mostRounds {
		left, _ := s.left()
		if left <= balanced*s.size+s.noise {
			return s, nil
		}
		yields, ok := f.yields(s)
		if !ok || !f.newton(s, yields, max(push, 1e-9*spring)) {
			break
		}
		next, share, err := f.down(s)
		if err != nil {
			return nil, err
		}
		if after, _ := next.left(); after >= left && left <= goodEnough*s.size {
			f.give(next)
			return s, nil // as near as it gets
		}
		if share < 0.05 {
			push = max(10*push, 1e-3*spring)
		} else {
			push /= 10
		}
		f.give(s)
		s = next
	}
	left, at := s.left()
	if left <= goodEnough*s.size {
		return s, nil
	}
	k := slices.IndexFunc(f.mounts, func(m mount) bool { return at < m.first+m.count })
	m := &f.mounts[k]
	return nil, fmt.Errorf("%s: no balance is found between the shaft and the %ss, %.3g N are left over of %.3g N: check their number, size and clearance", f.coupling.p.title(m), m.row.Kind, left, s.size)
}

// down goes along a step as far as the energy falls: not beyond where half its slope has come back with the other sign. It tells which share of the step that was.
func (f *footing) down(s *footed) (next *footed, share float64, err error) {
	const most = 30
	share = f.short(f.move)
	left, _ := s.left()
	slope := along(s.miss, f.move)
	next = f.take()
	next.scale = s.scale
	copy(next.thrust, s.thrust)
	for try := 0; ; try++ {
		for i := range next.seats {
			next.seats[i] = s.seats[i] + share*f.step[i]
		}
		if err := f.carry(next); err != nil {
			return nil, 0, err
		}
		if err := f.weigh(next); err != nil {
			if try == most {
				return nil, 0, err
			}
			share /= 4 // it has gone where no place along the axis carries the thrust
			continue
		}
		now := along(next.miss, f.move)
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

// newton fills in the step of the seats that would balance all forces, and how it would move the shafts in their bearings. With K the springs, R the force on the
// mounts, s the seats, and v = s + R/K where the shafts stand,
//
//	F(v) − R = 0,  dR = Y ds,  (H (1 + Y/K) − Y) ds = R − F
//
// where Y is how R answers the seats and H the tangent of the elements, which is nothing between bearings that share no thrust.
func (f *footing) newton(s *footed, yields []float64, push float64) bool {
	n, a := f.count, f.square
	for i := range n {
		row, own := a[i*n:i*n+n], yields[i*n:i*n+n]
		for j, y := range own {
			row[j] = s.stiff[i*n+j] + (push/spring-1)*y
		}
		for k, h := range s.stiff[i*n : i*n+n] {
			if h == 0 {
				continue
			}
			h /= spring
			for j, y := range yields[k*n : k*n+n] {
				row[j] += h * y
			}
		}
		row[i] += push
		f.step[i] = -s.miss[i]
	}
	if !eliminate(a, f.step) {
		return false
	}
	for i := range n {
		f.move[i] = f.step[i]
		for j, y := range yields[i*n : i*n+n] {
			f.move[i] += y * f.step[j] / spring
		}
	}
	return true
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

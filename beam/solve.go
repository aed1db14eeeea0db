package beam

import (
	"fmt"
	"slices"
	"sort"
)

// Solution is a shaft under one case. It holds its own memory and does not
// change.
type Solution struct {
	model     *Model
	pieces    []piece
	cut       []give   // of pieces that loads cut from spans
	jumps     []action // at the left end of each piece, and at the right end of the shaft
	reactions []Reaction
	size      action  // sums of the absolute values of all loads and reactions
	imbalance float64 // of loads and reactions, and of the support conditions: the larger relative error, –; rounding leaves about 1e-14
}

// piece is a part of a span with nothing but spread loads inside.
type piece struct {
	start  State  // just right of its left end
	spread action // per mm
	*give
}

// within is the state a distance h into a piece.
func (s *Solution) within(p *piece, h float64) State {
	state := p.start
	g := s.model.give(p.start.X, p.start.X+h)
	state.advance(&g, &p.spread)
	return state
}

// end is the state just left of the right end of a piece.
func (p *piece) end() State {
	state := p.start
	state.advance(p.give, &p.spread)
	return state
}

// forces is the state a distance h into the piece, but for the motions, which
// are those of the start.
func (p *piece) forces(h float64) State {
	state := p.start
	state.advanceForces(h, &p.spread)
	return state
}

// Reaction is the force (N) and couple (N·mm) that a support puts on the
// shaft, along and about the axes.
type Reaction struct{ Fx, Fy, Fz, My, Mz float64 }

func (r Reaction) action() action {
	return Load{Fx: r.Fx, Fy: r.Fy, Fz: r.Fz, My: r.My, Mz: r.Mz}.action()
}

// Solve finds the state of the shaft under a case. It reports everything that
// is wrong with the case; a torque that does not balance, and an axial force
// that no support holds, are among that. If no support holds the shaft axially
// and the axial forces balance, its Displacement counts from its left end.
func (m *Model) Solve(c Case) (*Solution, error) {
	if err := c.validate(m); err != nil {
		return nil, err
	}
	s := &Solution{model: m, reactions: make([]Reaction, len(m.shaft.Supports))}
	s.divide(c.Loads)
	total, moment := s.apply(c.Loads)

	// The shaft clamped at its left end, where the clamp takes everything.
	state := State{Normal: total.axial}
	state.Y.Shear, state.Z.Shear = -total.y.force, -total.z.force
	state.Y.Moment, state.Z.Moment = moment.y.couple, moment.z.couple
	var store [64]float64
	lateralRight, axialRight := m.rightSides(store[:])
	s.gather(state, c.Seats, lateralRight, axialRight)
	left := s.react(lateralRight, axialRight, total, moment)

	s.sweep(left, c.Seats)
	if !(s.imbalance <= worst) {
		return nil, fmt.Errorf("the solution is not to be trusted: loads and reactions are out of balance by %.2g of their size (%g at most): check supports very close together or of very unequal stiffness", s.imbalance, worst)
	}
	return s, nil
}

// divide cuts the spans of the model at the ends of the loads.
func (s *Solution) divide(loads []Load) {
	m := s.model
	places := make([]float64, 0, 64) // room for most cases without the heap
	tol := m.length * coincident
	for _, l := range loads {
		for _, x := range [...]float64{l.X - l.Length/2, l.X + l.Length/2} {
			if _, found := slices.BinarySearch(m.nodes, m.snap(x)); !found {
				places = append(places, x)
			}
			if l.Length == 0 {
				break
			}
		}
	}
	if len(places) > 0 {
		places = distinct(places, tol)
	}
	n := len(m.spans) + len(places)
	s.pieces = make([]piece, n)
	s.jumps = make([]action, n+1)
	s.cut = make([]give, 0, 2*len(places))
	i := 0
	for k := range m.spans {
		x, end := m.nodes[k], m.nodes[k+1]
		for x < end {
			p := &s.pieces[i]
			p.start.X = x
			if len(places) > 0 && places[0] < end {
				x, places = places[0], places[1:]
			} else {
				x = end
			}
			if x == end && p.start.X == m.nodes[k] {
				p.give = &m.spans[k]
			} else {
				s.cut = append(s.cut, m.give(p.start.X, x))
				p.give = &s.cut[len(s.cut)-1]
				p.section = m.spans[k].section
			}
			i++
		}
	}
}

// end is the index of the piece that starts at x, or the number of pieces for
// the right end of the shaft. X is within rounding of such a place.
func (s *Solution) end(x float64) int {
	i := s.first(x)
	switch {
	case i == len(s.pieces):
		if p := &s.pieces[i-1]; x-p.start.X < p.start.X+p.length-x {
			return i - 1
		}
	case i > 0 && x-s.pieces[i-1].start.X < s.pieces[i].start.X-x:
		return i - 1
	}
	return i
}

// first is the index of the first piece that starts at x or right of it.
func (s *Solution) first(x float64) int {
	return sort.Search(len(s.pieces), func(i int) bool { return s.pieces[i].start.X >= x })
}

// place is the x of the left end of piece i, or the right end of the shaft.
func (s *Solution) place(i int) float64 {
	if i == len(s.pieces) {
		return s.model.length
	}
	return s.pieces[i].start.X
}

// apply puts the loads on the pieces. It returns their sum and, as couples,
// the sum of their moments about the left end.
func (s *Solution) apply(loads []Load) (total, moment action) {
	for _, l := range loads {
		a := l.action()
		from := s.end(l.X - l.Length/2)
		to := from
		if l.Length > 0 {
			to = s.end(l.X + l.Length/2)
		}
		start, stop := s.place(from), s.place(to)
		if from == to {
			s.jumps[from].add(a)
		} else {
			density := a.times(1 / (stop - start))
			for i := from; i < to; i++ {
				s.pieces[i].spread.add(density)
			}
		}
		middle := (start + stop) / 2
		total.add(a)
		s.size.add(a.absolute())
		moment.y.couple += a.y.force*middle + a.y.couple
		moment.z.couple += a.z.force*middle + a.z.couple
	}
	return total, moment
}

// rightSides divides memory for the right-hand sides: two columns, planes xy
// and xz, and one for the axial system.
func (m *Model) rightSides(store []float64) (lateral, axial []float64) {
	n, k := 2*m.lateral.order(), 0
	if m.axial != nil {
		k = m.axial.order()
	}
	if n+k > len(store) {
		store = make([]float64, n+k)
	}
	return store[:n], store[n : n+k]
}

// gather integrates the clamped shaft from the state just right of its clamp
// and writes what the supports must make good into the right-hand sides.
func (s *Solution) gather(state State, seats []Seat, lateralRight, axialRight []float64) {
	m := s.model
	lateral, axial := m.ties, []tie(nil)
	if m.axial != nil {
		axial = m.axial.ties
	}
	// Ties are few; each is looked up where its piece starts, up to the last.
	for i, missing := 0, len(lateral)+len(axial); ; i++ {
		x := s.place(i)
		for j := range lateral {
			t := &lateral[j]
			y, z := -state.Y.Deflection, -state.Z.Deflection
			if t.spread && (t.at.x == x || t.other.x == x) {
				y, z = y/2, z/2
				if t.at.x == x {
					lateralRight[2*j], lateralRight[2*j+1] = y, z
					continue
				}
				y, z = y+lateralRight[2*j], z+lateralRight[2*j+1]
			} else if t.at.x != x {
				continue
			}
			missing--
			var seat Seat
			if seats != nil {
				seat = seats[t.support]
			}
			if t.couple {
				y, z = (seat.Tilt[0]-state.Y.Slope)*m.length, (seat.Tilt[1]-state.Z.Slope)*m.length
			} else {
				y, z = y+seat.Move[0], z+seat.Move[1]
			}
			lateralRight[2*j], lateralRight[2*j+1] = y, z
		}
		for j := range axial {
			if axial[j].at.x == x {
				missing--
				axialRight[j] = -state.Displacement
			}
		}
		if missing == 0 {
			return
		}
		p := &s.pieces[i]
		state.pass(&s.jumps[i], 1)
		state.advance(p.give, &p.spread)
	}
}

// react solves for the reactions, puts them on the shaft and returns the state
// just left of everything at the left end.
func (s *Solution) react(lateralRight, axialRight []float64, total, moment action) State {
	m := s.model
	n := m.lateral.order()
	lateralRight[2*n-4], lateralRight[2*n-3] = -total.y.force*m.tip, -total.z.force*m.tip
	lateralRight[2*n-2], lateralRight[2*n-1] = -moment.y.couple*m.tip/m.length, -moment.z.couple*m.tip/m.length
	m.lateral.solve(lateralRight)
	for j, t := range m.ties {
		r := &s.reactions[t.support]
		y, z := lateralRight[2*j]/m.tip, lateralRight[2*j+1]/m.tip
		if t.couple {
			r.Mz, r.My = y*m.length, -z*m.length
		} else {
			r.Fy, r.Fz = y, z
		}
	}
	var left State
	left.Y.Deflection, left.Z.Deflection = lateralRight[2*n-4], lateralRight[2*n-3]
	left.Y.Slope, left.Z.Slope = lateralRight[2*n-2]/m.length, lateralRight[2*n-1]/m.length
	if k := len(axialRight); k > 0 {
		axialRight[k-1] = -total.axial * m.stretch()
		m.axial.solve(axialRight)
		for j, t := range m.axial.ties {
			s.reactions[t.support].Fx = axialRight[j] / m.stretch()
		}
		left.Displacement = axialRight[k-1]
	}
	for i, r := range s.reactions {
		a := r.action()
		s.size.add(a.absolute())
		p := &m.shaft.Supports[i]
		if p.Width > 0 {
			half := action{y: lateral{force: a.y.force / 2}, z: lateral{force: a.z.force / 2}}
			s.jumps[s.end(m.snap(p.X-p.half()))].add(half)
			s.jumps[s.end(m.snap(p.X+p.half()))].add(half)
			a.y.force, a.z.force = 0, 0
		}
		s.jumps[s.end(m.snap(p.X))].add(a)
	}
	return left
}

// sweep fills in the states of all pieces from the one just left of the left
// end, and measures the balance. Forces are summed from the nearer end, so
// that what carries nothing shows nothing.
func (s *Solution) sweep(state State, seats []Seat) {
	n := len(s.pieces)
	var force State
	for i := range s.pieces {
		p := &s.pieces[i]
		force.pass(&s.jumps[i], 1)
		p.start.setForces(&force)
		force.advanceForces(p.length, &p.spread)
	}
	force.pass(&s.jumps[n], 1)
	s.imbalance = s.outOfBalance(&force, seats)

	force = State{}
	for i := n - 1; i >= 0 && s.pieces[i].start.X >= s.model.length/2; i-- {
		p := &s.pieces[i]
		force.pass(&s.jumps[i+1], -1)
		force.advanceForces(-p.length, &p.spread)
		p.start.setForces(&force)
	}
	for i := range s.pieces {
		p := &s.pieces[i]
		state.X = p.start.X
		state.setForces(&p.start)
		p.start = state
		state.advance(p.give, &p.spread)
	}
	s.imbalance = max(s.imbalance, s.misfit(seats))
}

// Reactions holds the force and couple that each support puts on the shaft, in
// the order of Shaft.Supports.
func (s *Solution) Reactions() []Reaction { return slices.Clone(s.reactions) }

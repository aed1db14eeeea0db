package beam

import (
	"fmt"
	"math"
	"slices"
)

// Recurring is a shaft that is loaded at the same places time and again. How
// its supports answer there is worked out once; a case then costs the sums for
// the reactions and one walk along the shaft for the stresses, without the
// motions. It keeps its memory between cases and serves one goroutine at a time.
type Recurring struct {
	model *Model
	// Reactions as the equations of the supports have them, over their lever: of each tie per
	// force at each place, then per couple there; per motion of the seat of each tie; and
	// of the axial ties per axial force at each place.
	lateral, seated, axial []float64
	places                 int

	stops     []float64 // where something acts, and the ends of sections, mm, rising
	section   []int     // right of each stop but the last
	loadedAt  []int     // the stop of each place
	heldAt    []held    // where each support holds
	rings     []ring
	actions   []action // at the stops
	reactions []Reaction
}

// held is where a support holds the shaft: the stop of its middle, and of both halves of its force on a seat with a
// width.
type held struct {
	middle int
	halves [2]int
	spread bool
}

// Recurring readies the shaft for loads at the places x, mm, each kept to the
// shaft.
func (m *Model) Recurring(x []float64) *Recurring {
	r := &Recurring{model: m, places: len(x), reactions: make([]Reaction, len(m.shaft.Supports))}
	points := make([]clamped, len(x))
	for j, v := range x {
		points[j] = m.clampedAt(m.snap(v))
	}
	r.answer(points)
	r.axial = m.axialShares(points)
	r.divide(points)
	return r
}

// answer solves for the reactions to a unit of everything that may act.
func (r *Recurring) answer(points []clamped) {
	m := r.model
	order, n, ties := m.lateral.order(), len(points), len(m.ties)
	cols := 2*n + ties
	all := make([]float64, order*cols)
	for i := range m.ties {
		for j := range points {
			perForce, perCouple := m.motion(&m.ties[i], &points[j])
			all[i*cols+j], all[i*cols+n+j] = -perForce, -perCouple
		}
		all[i*cols+2*n+i] = m.lever(&m.ties[i]) / m.tip
	}
	for j := range points {
		all[(order-2)*cols+j] = -1
		all[(order-1)*cols+j], all[(order-1)*cols+n+j] = -points[j].x/m.length, -1/m.length
	}
	m.lateral.solve(all)
	for i := range ties {
		r.lateral = append(r.lateral, all[i*cols:i*cols+2*n]...)
		r.seated = append(r.seated, all[i*cols+2*n:(i+1)*cols]...)
	}
}

// axialShares is how much each axial tie takes of an axial force at each place,
// with the sign of a reaction.
func (m *Model) axialShares(points []clamped) []float64 {
	if m.axial == nil {
		return nil
	}
	order, n := m.axial.order(), len(points)
	all := make([]float64, order*n)
	for i, t := range m.axial.ties {
		for j := range points {
			all[i*n+j] = -min(t.at.e0, points[j].e0) / m.stretch()
		}
	}
	for j := range points {
		all[(order-1)*n+j] = -1
	}
	m.axial.solve(all)
	return all[:(order-1)*n]
}

// Held is the axial force along +x that each support puts on the shaft per N
// along +x at x, mm; nothing where no support holds it axially.
func (m *Model) Held(x float64) []float64 {
	held := make([]float64, len(m.shaft.Supports))
	shares := m.axialShares([]clamped{m.clampedAt(m.snap(min(max(x, 0), m.length)))})
	for i, share := range shares {
		held[m.axial.ties[i].support] = share
	}
	return held
}

// divide finds the stops.
func (r *Recurring) divide(points []clamped) {
	m := r.model
	tol := m.length * coincident
	ends := []float64{0}
	for _, c := range m.shaft.Sections {
		ends = append(ends, ends[len(ends)-1]+c.Length)
		r.rings = append(r.rings, newRing(c))
	}
	r.stops = slices.Clone(ends)
	for i := range points {
		r.stops = append(r.stops, points[i].x)
	}
	for i := range m.shaft.Supports {
		p := &m.shaft.Supports[i]
		r.stops = append(r.stops, m.snap(p.X))
		if p.Width > 0 {
			r.stops = append(r.stops, m.snap(p.X-p.half()), m.snap(p.X+p.half()))
		}
	}
	r.stops = distinct(r.stops, tol)
	r.stops[0], r.stops[len(r.stops)-1] = 0, m.length
	section := 0
	for i, x := range r.stops[1:] {
		for (r.stops[i]+x)/2 > ends[section+1] {
			section++
		}
		r.section = append(r.section, section)
	}
	stop := func(x float64) int {
		i, found := slices.BinarySearch(r.stops, x)
		if !found && (i == len(r.stops) || i > 0 && x-r.stops[i-1] < r.stops[i]-x) {
			i--
		}
		return i
	}
	for i := range points {
		r.loadedAt = append(r.loadedAt, stop(points[i].x))
	}
	for i := range m.shaft.Supports {
		p := &m.shaft.Supports[i]
		h := held{middle: stop(m.snap(p.X)), spread: p.Width > 0}
		if h.spread {
			h.halves = [2]int{stop(m.snap(p.X - p.half())), stop(m.snap(p.X + p.half()))}
		}
		r.heldAt = append(r.heldAt, h)
	}
	r.actions = make([]action, len(r.stops))
}

// Solve puts loads on the shaft, one at each place (their X and Length don't
// count), with seats as in Case. It returns the reactions, which the next case overwrites.
func (r *Recurring) Solve(loads []Load, seats []Seat) ([]Reaction, error) {
	m := r.model
	if len(loads) != r.places {
		return nil, fmt.Errorf("%d loads for %d places", len(loads), r.places)
	}
	if err := (Case{Loads: loads}).unbalanced(m); err != nil {
		return nil, err
	}
	clear(r.actions)
	clear(r.reactions)
	n, ties := r.places, len(m.ties)
	for i := range m.ties {
		t := &m.ties[i]
		var y, z float64
		row := r.lateral[2*n*i:][:2*n]
		for j := range loads {
			l, force, couple := &loads[j], row[j], row[n+j]
			y += force*l.Fy + couple*l.Mz
			z += force*l.Fz - couple*l.My
		}
		if seats != nil {
			for j := range m.ties {
				u, per := &m.ties[j], r.seated[i*ties+j]
				move := &seats[u.support].Move
				if u.couple {
					move = &seats[u.support].Tilt
				}
				y += per * move[0]
				z += per * move[1]
			}
		}
		if to := &r.reactions[t.support]; t.couple {
			to.Mz, to.My = y*m.length, -z*m.length
		} else {
			to.Fy, to.Fz = y, z
		}
	}
	if m.axial != nil {
		for i := range m.axial.ties {
			sum := 0.0
			for j, share := range r.axial[i*n : i*n+n] {
				sum += share * loads[j].Fx
			}
			r.reactions[m.axial.ties[i].support].Fx = sum
		}
	}
	for j := range loads {
		r.actions[r.loadedAt[j]].add(loads[j].action())
	}
	for i := range r.reactions {
		a, h := r.reactions[i].action(), &r.heldAt[i]
		if h.spread {
			half := action{y: lateral{force: a.y.force / 2}, z: lateral{force: a.z.force / 2}}
			r.actions[h.halves[0]].add(half)
			r.actions[h.halves[1]].add(half)
			a.y.force, a.z.force = 0, 0
		}
		r.actions[h.middle].add(a)
	}
	return r.reactions, nil
}

// VonMises fills in, for each section, the largest equivalent stress under the
// case solved last, as SectionStress has it, MPa. Between the stops moments are
// straight, so it lies beside one.
func (r *Recurring) VonMises(worst []float64) {
	clear(worst)
	var state State
	var none action
	look := func(section int) {
		worst[section] = max(worst[section], r.rings[section].square(&state))
	}
	half := r.model.length / 2
	// Forces are summed from the nearer end, so that what carries nothing shows nothing.
	i := 0
	for ; i < len(r.section) && r.stops[i] < half; i++ {
		state.pass(&r.actions[i], 1)
		look(r.section[i])
		state.advanceForces(r.stops[i+1]-r.stops[i], &none)
		look(r.section[i])
	}
	middle := i
	state = State{}
	for i = len(r.section) - 1; i >= middle; i-- {
		state.pass(&r.actions[i+1], -1)
		look(r.section[i])
		state.advanceForces(r.stops[i]-r.stops[i+1], &none)
		look(r.section[i])
	}
	for k, square := range worst {
		worst[k] = math.Sqrt(square)
	}
}

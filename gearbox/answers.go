package gearbox

import "layshaft/beam"

// Where a shaft stands and leans at a place is linear in the loads on the strips, and in the movements of the seats under bearings of known elements. What limits look at is kept as
// rows of numbers by strip and by movement, so that no shaft has to be bent for it.

// answer is a vector in the planes xy and xz that is linear in loads and movements.
type answer struct {
	strips []point   // per N on each strip
	moves  []float64 // per movement of a seat; every other one in plane xy and in plane xz, and each in its own plane alone
}

// under is the vector under loads, N, and movements.
func (a *answer) under(load, moves []float64) (sum point) {
	for k, w := range load {
		if w != 0 {
			sum[0] += a.strips[k][0] * w
			sum[1] += a.strips[k][1] * w
		}
	}
	for j, u := range moves {
		sum[j%2] += a.moves[j] * u
	}
	return sum
}

// answers are those of one coupling.
type answers struct {
	axes  []answer   // by mesh on the path: slope of the driver's axis less that of the driven gear's, rad
	apart []answer   // by mesh: how far the driven gear's axis moves, less the driver's, mm
	slope [][]answer // by shaft and bearing: slope of the shaft there, in a pilot less that of the carrier, rad; nil for shafts that aren't involved
	pilot []answer   // by shaft: how its pilot's seat in the carrier moves before the pilot presses on it, mm

	pressed []pressed // by shaft
}

// pressed is what a pilot adds to the loads on a shaft, per N on each strip.
type pressed struct {
	at     int     // place in the influence of the shaft
	forces []point // N; nil = the shaft neither is piloted nor carries a pilot
}

// tie notes what the pilot of shaft s does to it and to its carrier. moves and seats are how the place on the one and the seat in the other move under a unit load of each strip, the one
// without the other; k is the stiffness between them, N/mm, that of the carrier in series; give that of the piloted shaft at the pilot, mm/N.
func (r *answers) tie(c *coupling, s int, k, give float64, moves, seats []point) {
	in := c.p.lines[s].in
	own, other := pressed{c.place(s, ownPilot), make([]point, len(moves))}, pressed{c.place(in, carriedPilot), make([]point, len(moves))}
	for i, seat := range seats {
		own.forces[i] = seat.scaled(k)
		other.forces[i] = moves[i].plus(seat.scaled(k*give - 1)).scaled(k)
	}
	r.pressed[s], r.pressed[in] = own, other
	r.pilot[s] = answer{strips: seats}
}

// read takes from the influences of the shafts involved how everything answers the loads on the strips.
func (r *answers) read(c *coupling, involved []int, influences []*beam.Influence) {
	p := c.p
	moved := func(s, at int) []point {
		f := influences[s]
		moves := c.movesAt(s, f, at)
		for i, force := range r.pressed[s].forces {
			moves[i] = moves[i].plus(force.scaled(f.VV[at*len(f.X)+r.pressed[s].at]))
		}
		return moves
	}
	turned := func(s, at int) []point {
		f := influences[s]
		turns := c.turnsAt(s, f, at)
		for i, force := range r.pressed[s].forces {
			turns[i] = turns[i].plus(force.scaled(f.VS[r.pressed[s].at*len(f.X)+at]))
		}
		return turns
	}
	less := func(a, b []point) answer {
		for i := range a {
			a[i] = a[i].minus(b[i])
		}
		return answer{strips: a}
	}
	r.axes, r.apart = make([]answer, len(c.steps)), make([]answer, len(c.steps))
	for m, st := range c.steps {
		var middle [2]int
		shafts := p.pairs[st.mesh].shafts
		for k, s := range shafts {
			for _, a := range c.sites[s] {
				if a.step == m && a.role == k {
					middle[k] = a.first + strips/2
				}
			}
		}
		r.axes[m] = less(turned(shafts[0], middle[0]), turned(shafts[1], middle[1]))
		r.apart[m] = less(moved(shafts[1], middle[1]), moved(shafts[0], middle[0]))
	}
	for _, s := range involved {
		line := &p.lines[s]
		for j := range p.box.Shafts[s].Bearings {
			a := answer{strips: turned(s, c.place(s, firstBearing+j))}
			if j == line.pilot {
				a = less(a.strips, turned(line.in, c.place(line.in, carriedPilot)))
			}
			r.slope[s] = append(r.slope[s], a)
		}
	}
}

// move enters how everything answers one movement of a seat in plane xy, from the shafts as they stand after it (all of those involved), as what a movement in either plane does in its own. column is that in plane xy of count.
func (r *answers) move(c *coupling, solved []*beam.Solution, column, count int) {
	enter := func(a *answer, value float64) {
		if a.moves == nil {
			a.moves = make([]float64, count)
		}
		a.moves[column], a.moves[column+1] = value, value
	}
	p := c.p
	for m, st := range c.steps {
		q := &p.pairs[st.mesh]
		driver, driven := solved[q.shafts[0]].At(q.at[0], beam.Left).Y, solved[q.shafts[1]].At(q.at[1], beam.Left).Y
		enter(&r.axes[m], driver.Slope-driven.Slope)
		enter(&r.apart[m], driven.Deflection-driver.Deflection)
	}
	for s := range r.slope {
		line := &p.lines[s]
		for j := range r.slope[s] {
			br := p.box.Shafts[s].Bearings[j]
			slope := solved[s].At(br.At, beam.Left).Y.Slope
			if j == line.pilot {
				seat := solved[line.in].At(br.InAt, beam.Left).Y
				slope -= seat.Slope
				// What the pilot itself bends the carrier by is taken off again.
				enter(&r.pilot[s], seat.Deflection+p.lines[line.in].model.Flexibility(br.InAt, br.InAt)*solved[s].Reactions()[j].Fy)
			}
			enter(&r.slope[s][j], slope)
		}
	}
}

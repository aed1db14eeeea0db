package gearbox

import "math"

// How a gear on its seat answers a step of Newton's method on the couple on the seat. Three times a vector v of some length r
// stands along another, V, however small that is: the place of each end of the seat in its play along the load on it, and the
// couple of the face along the lean,
//
//	v |V| = r V,  dv = (r dV − v (V·dV)/|V|)/|V|
//
// where v follows at each step by the second line, with its own last value in it and not r V/|V|. That lets V go to nothing and
// v go anywhere within its circle, as for ends that float in their play, within few steps (the primal-dual way for sums of norms:
// Andersen, Christiansen, Conn, Overton, SIAM J. Sci. Comput. 22 (2000), from memory).

const (
	leant    = 1e-13 // the share of a place in the play, or of a lean, that may be left to follow
	noCouple = 1e-13 // the share of what would turn the gear off its ends that counts as no couple on the seat
)

// poise is how a gear on its seat stands and answers a small change of the couple on the seat.
type poise struct {
	ends [2]circle // of the seat: places in the play along the loads, mm against N
	rim  circle    // of the thrust face: its couple along the lean, N·mm against rad
	soft float64   // give of an end, mm/N
	give [2]point  // lean per couple, rad/(N·mm), by rows
	face [2]point  // couple of the face per couple, by rows
}

// circle is a vector of some length r along another, V.
type circle struct {
	r    float64
	v    point    // r V/|V|
	size float64  // |V|
	give [2]point // how v answers V, by rows
	off  float64  // by how much the last v stood off, as a share of r
}

// stand puts the vector along another, of at least a size; last is where it was.
func (o *circle) stand(r float64, last, along point, small float64) {
	size := math.Sqrt(along[0]*along[0] + along[1]*along[1] + small*small)
	o.r, o.size = r, size
	if size == 0 || r == 0 {
		o.v, o.give, o.off = point{}, [2]point{}, 0
		return
	}
	per := 1 / size
	n := point{along[0] * per, along[1] * per}
	o.v = point{r * n[0], r * n[1]}
	first, second := o.v[0]-last[0], o.v[1]-last[1]
	o.off = math.Sqrt(first*first+second*second) / r
	k, one, other := r*per, last[0]*per, last[1]*per
	o.give = [2]point{{k - one*n[0], -one * n[1]}, {-other * n[0], k - other*n[1]}}
}

// after is the vector after a step of V, within its circle, and whether it is so small that nothing more will come.
func (o *circle) after(step point) (v point, done bool) {
	v = point{o.v[0] + o.give[0].dot(step), o.v[1] + o.give[1].dot(step)}
	if size := math.Sqrt(v[0]*v[0] + v[1]*v[1]); size > o.r {
		v = v.scaled(o.r / size)
	}
	share := math.Sqrt(step[0]*step[0] + step[1]*step[1])
	return v, share*(share+o.off*o.size) <= leant*o.size*o.size
}

// stand finds how a gear leans under the couple on its seat, and how that answers.
func (l *leaning) stand(seat *seated, b *poise, scale float64) {
	length := l.seat.Length
	first, second := l.seat.ends(l.force.scaled(scale), seat.couple)
	b.ends[0].stand(l.seat.Clearance/2, seat.at[0], first, l.small*scale)
	b.ends[1].stand(l.seat.Clearance/2, seat.at[1], second, l.small*scale)
	b.soft = 0
	if l.seat.Stiffness > 0 {
		b.soft = 1 / l.seat.Stiffness
	}
	per := 1 / (length * length)
	for i := range 2 {
		seat.lean[i] = (b.ends[1].v[i] - b.ends[0].v[i] + b.soft*(second[i]-first[i])) / length
		for j := range 2 {
			b.give[i][j] = (b.ends[0].give[i][j] + b.ends[1].give[i][j]) * per
		}
		b.give[i][i] += 2 * b.soft * per
	}
	b.rim.stand(l.face*scale, seat.held, seat.lean, 0)
	for i := range 2 {
		for j := range 2 {
			b.face[i][j] = b.rim.give[i][0]*b.give[0][j] + b.rim.give[i][1]*b.give[1][j]
		}
	}
}

// follow takes a gear along a step of the couple on its seat, and reports whether nothing more will come.
func (l *leaning) follow(seat *seated, b *poise, step point, scale float64) (done bool) {
	turn, lean := step.scaled(1/l.seat.Length), point{b.give[0].dot(step), b.give[1].dot(step)}
	done = true
	for i, way := range [2]float64{-1, 1} {
		at, small := b.ends[i].after(turn.scaled(way))
		seat.at[i] = at
		done = done && small
	}
	seat.lean, seat.couple = seat.lean.plus(lean), seat.couple.plus(step)
	if l.face > 0 {
		held, small := b.rim.after(lean)
		seat.held = held
		most := noCouple * scale * l.seat.Length
		done = done && (small || seat.couple.dot(seat.couple) <= most*most*l.force.dot(l.force))
	}
	return done
}

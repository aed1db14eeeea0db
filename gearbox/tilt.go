package gearbox

import "math"

// How gears lean in their seats within a contact set. With ℓ the lean of a gear, x the couple that is left for its seat, f what its thrust face can take and q the couple on the gear,
//
//	ℓ = ∇Ψ(x),  x + f ℓ/|ℓ| = q,  or ℓ = 0, x = 0 where |q| ≤ f
//	q = s c + Σ u_m μ_m,  t_m = t°_m + Σ u_m·ℓ,  μ_m = μ°_m + Σ N_mm' t_m'
//
// with Ψ the energy of the seat (seat.go), c the couple of loads in the middle of the faces, u_m the force of mesh m on the gear per N of its load, t_m the tilt of the mesh, and μ_m = Σ w ξ the moment of its load about
// the middle of its face, which answers tilts within a contact set by N, symmetric and never positive. These are the conditions of
//
//	Ψ*(ℓ) + f |ℓ| − ½ ℓᵀ u N uᵀ ℓ − q°·ℓ → least,  q° = q at ℓ = 0
//
// which is strictly convex: there is one answer. Newton's method on x finds it. Three times a vector v of some length r stands along another, V, however small that is: the place of each end of the seat in its play along
// the load on it, and the couple of the face along the lean,
//
//	v |V| = r V,  dv = (r dV − v (V·dV)/|V|)/|V|
//
// where v follows at each step by the second line, with its own last value in it and not r V/|V|. That lets V go to nothing and v go anywhere within its circle, as for ends that float in their play, within few steps (the
// primal-dual way for sums of norms: Andersen, Christiansen, Conn, Overton, SIAM J. Sci. Comput. 22 (2000), from memory).

// seated is a gear in its seat.
type seated struct {
	lean   point    // rad
	couple point    // that is left for the seat, N·mm; none where the thrust face holds the gear upright
	at     [2]point // where the ends of the seat stand in their play, mm
	held   point    // couple that the thrust face takes where the gear leans, N·mm
}

// arm is one mesh of a gear on a seat.
type arm struct {
	step  int
	force point // on the shaft per N of its load: a lean of 1 rad tilts the flanks by as much, and a moment of the load about the middle of the face turns the gear by as much
}

// search is the working memory of lean.
type search struct {
	start, moment      []float64 // by mesh: moment of the load with the gears upright, and as they lean, N·mm
	bent               []poise   // by seat
	miss, step, square []float64
	active             []int // seats in which the gear leans
}

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

func (w *search) resize(meshes, seats int) {
	w.start, w.moment = make([]float64, meshes), make([]float64, meshes)
	w.bent = make([]poise, seats)
	w.miss, w.step, w.square = make([]float64, 2*seats), make([]float64, 2*seats), make([]float64, 4*seats*seats)
	w.active = make([]int, 0, seats)
}

const (
	mostLeans = 60    // steps of Newton's method
	mostTurns = 8     // how often gears come upright or leave it
	leant     = 1e-13 // the share of a place in the play, or of a lean, that may be left to follow
	noCouple  = 1e-13 // the share of what would turn the gear off its ends that counts as no couple on the seat
)

// lean finds how the gears lean in their seats within the contact set of s, starting from how they lean there.
func (c *coupling) lean(s *spread, as making) bool {
	if len(s.seats) == 0 {
		c.tilt(s, as)
		return true
	}
	w := &c.search
	for m := range w.start {
		w.start[m] = 0
		for i, x := range s.at {
			if x != 0 && (i < firstTilt || i >= c.firstMove) {
				w.start[m] += x * s.set.Pull[i][firstTilt+m]
			}
		}
		if as.sign != 0 {
			w.start[m] += c.made(as) * s.set.Pull[firstTilt+as.mesh][firstTilt+m]
		}
	}
	for turn := range mostTurns {
		if changed := c.hold(s); turn > 0 && !changed {
			c.tilt(s, as)
			return true
		}
		if !c.descend(s) {
			return false
		}
	}
	return false
}

// hold finds which gears their thrust faces hold upright, and reports whether that changes anything.
func (c *coupling) hold(s *spread) (changed bool) {
	w := &c.search
	c.moments(s)
	w.active = w.active[:0]
	for k := range c.leaning {
		seat := &s.seats[k]
		if face := c.leaning[k].face * s.at[torqueParameter]; face > 0 {
			alone := c.coupleOn(s, k).minus(c.own(s, k, seat.lean))
			size, up := alone.norm(), seat.couple == point{}
			switch {
			case size <= face:
				if !up {
					*seat, changed = seated{}, true
					c.moments(s)
				}
				continue
			case up:
				seat.couple, changed = alone.scaled(1-face/size), true
			}
		}
		w.active = append(w.active, k)
	}
	return changed
}

// descend finds how those that lean do so, from the couples on their seats.
func (c *coupling) descend(s *spread) bool {
	w := &c.search
	n := 2 * len(w.active)
	for range mostLeans {
		c.misses(s)
		c.answer(s)
		for i := range n {
			w.step[i] = -w.miss[i]
		}
		if !eliminate(w.square[:n*n], w.step[:n]) {
			return false
		}
		done := true
		for a, k := range w.active {
			step := point{w.step[2*a], w.step[2*a+1]}
			if !c.leaning[k].follow(&s.seats[k], &w.bent[k], step, s.at[torqueParameter]) {
				done = false
			}
			if math.IsNaN(step[0] + step[1]) {
				return false
			}
		}
		if done {
			return true
		}
	}
	return false
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
		done = done && (small || seat.couple.norm() <= noCouple*scale*l.force.norm()*l.seat.Length)
	}
	return done
}

// misses fills in by how much the couples on the seats miss their conditions, with the leans and how they answer at these couples.
func (c *coupling) misses(s *spread) {
	w := &c.search
	scale := s.at[torqueParameter]
	for a, k := range w.active {
		c.leaning[k].stand(&s.seats[k], &w.bent[k], scale)
		miss := s.seats[k].couple.plus(w.bent[k].rim.v)
		w.miss[2*a], w.miss[2*a+1] = miss[0], miss[1]
	}
	c.moments(s)
	for a, k := range w.active {
		q := c.coupleOn(s, k)
		w.miss[2*a] -= q[0]
		w.miss[2*a+1] -= q[1]
	}
}

// answer fills in how what is missed answers the couples on the seats: 1 + dm/dx − u N uᵀ dℓ/dx, with m the couples of the faces.
func (c *coupling) answer(s *spread) {
	w := &c.search
	n := 2 * len(w.active)
	for a, k := range w.active {
		for b, j := range w.active {
			g := &w.bent[j].give
			var back [2]point // u N uᵀ
			for _, one := range c.leaning[k].arms {
				for _, other := range c.leaning[j].arms {
					pull := s.set.Pull[firstTilt+other.step][firstTilt+one.step]
					back[0] = back[0].plus(other.force.scaled(pull * one.force[0]))
					back[1] = back[1].plus(other.force.scaled(pull * one.force[1]))
				}
			}
			for row := range 2 {
				for column := range 2 {
					w.square[(2*a+row)*n+2*b+column] = -back[row][0]*g[0][column] - back[row][1]*g[1][column]
				}
			}
		}
		for row := range 2 {
			for column := range 2 {
				w.square[(2*a+row)*n+2*a+column] += w.bent[k].face[row][column]
			}
			w.square[(2*a+row)*n+2*a+row]++
		}
	}
}

// moments fills in those of the loads as the gears lean.
func (c *coupling) moments(s *spread) {
	w := &c.search
	copy(w.moment, w.start)
	for k := range c.leaning {
		lean := s.seats[k].lean
		if lean == (point{}) {
			continue
		}
		for _, a := range c.leaning[k].arms {
			tilt := a.force.dot(lean)
			for m, pull := range s.set.Pull[firstTilt+a.step][firstTilt:c.firstMove] {
				w.moment[m] += tilt * pull
			}
		}
	}
}

// coupleOn is the couple on a gear by the moments, N·mm.
func (c *coupling) coupleOn(s *spread, k int) point {
	l := &c.leaning[k]
	q := l.couple.scaled(s.at[torqueParameter])
	for _, a := range l.arms {
		q = q.plus(a.force.scaled(c.search.moment[a.step]))
	}
	return q
}

// own is the part of the couple on a gear that its own lean brings, N·mm.
func (c *coupling) own(s *spread, k int, lean point) (q point) {
	for _, a := range c.leaning[k].arms {
		for _, b := range c.leaning[k].arms {
			q = q.plus(a.force.scaled(s.set.Pull[firstTilt+b.step][firstTilt+a.step] * b.force.dot(lean)))
		}
	}
	return q
}

// tilt enters how far the meshes are tilted by their making and the leans.
func (c *coupling) tilt(s *spread, as making) {
	tilts := s.at[firstTilt:c.firstMove]
	clear(tilts)
	if as.sign != 0 {
		tilts[as.mesh] = c.made(as)
	}
	for k := range c.leaning {
		for _, a := range c.leaning[k].arms {
			tilts[a.step] += a.force.dot(s.seats[k].lean)
		}
	}
}

// leaned fills in, for each movement of a seat of a shaft, how the tilts of the meshes answer it, rad/mm, from a spread that was found.
func (c *coupling) leaned(s *spread, per [][]float64) bool {
	if len(s.seats) == 0 {
		return true
	}
	w := &c.search
	w.active = w.active[:0]
	for k := range s.seats {
		if s.seats[k].couple != (point{}) {
			lean := s.seats[k].lean
			c.leaning[k].stand(&s.seats[k], &w.bent[k], s.at[torqueParameter])
			s.seats[k].lean = lean
			w.active = append(w.active, k)
		}
	}
	n := 2 * len(w.active)
	for j := range per {
		clear(per[j])
		c.answer(s)
		for a, k := range w.active {
			var q point
			for _, arm := range c.leaning[k].arms {
				q = q.plus(arm.force.scaled(s.set.Pull[c.firstMove+j][firstTilt+arm.step]))
			}
			w.step[2*a], w.step[2*a+1] = q[0], q[1]
		}
		if !eliminate(w.square[:n*n], w.step[:n]) {
			return false
		}
		for a, k := range w.active {
			step, g := point{w.step[2*a], w.step[2*a+1]}, &w.bent[k].give
			turned := point{g[0].dot(step), g[1].dot(step)}
			for _, arm := range c.leaning[k].arms {
				per[j][arm.step] += arm.force.dot(turned)
			}
		}
	}
	return true
}

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
// which is strictly convex: there is one answer. What is missed of them is the gradient of that energy, so that Newton's method on x goes downhill; a step is shortened where
// the energy rises at its end by more than half of what it fell by at the start.

// seated is a gear in its seat.
type seated struct {
	lean   point // rad
	couple point // that is left for the seat, N·mm; none where the thrust face holds the gear upright
}

// arm is one mesh of a gear on a seat.
type arm struct {
	step  int
	force point // on the shaft per N of its load: a lean of 1 rad tilts the flanks by as much, and a moment of the load about the middle of the face turns the gear by as much
}

// search is the working memory of lean.
type search struct {
	start, moment      []float64 // by mesh: moment of the load with the gears upright, and as they lean, N·mm
	give               [][2]point
	miss, step, square []float64
	turned             []point // by which the leans follow a step, rad
	active             []int   // seats in which the gear leans
}

func (w *search) resize(meshes, seats int) {
	w.start, w.moment = make([]float64, meshes), make([]float64, meshes)
	w.give, w.turned = make([][2]point, seats), make([]point, seats)
	w.miss, w.step, w.square = make([]float64, 2*seats), make([]float64, 2*seats), make([]float64, 4*seats*seats)
	w.active = make([]int, 0, seats)
}

const (
	mostLeans = 60   // steps of Newton's method
	mostTurns = 8    // how often gears come upright or leave it
	leant     = 3e-7 // the share of a load at an end of a seat, or of a lean, by which the last step may change it, so that its square is nothing
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
		if changed := c.upright(s); turn > 0 && !changed {
			c.tilt(s, as)
			return true
		}
		if !c.descend(s) {
			return false
		}
	}
	return false
}

// upright finds which gears their thrust faces hold upright, and reports whether that changes anything.
func (c *coupling) upright(s *spread) (changed bool) {
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
	slope, share := 0.0, 1.0
	for range mostLeans {
		c.misses(s)
		if slope < 0 {
			now := 0.0
			for a, k := range w.active {
				g := &w.give[k]
				step := point{w.step[2*a], w.step[2*a+1]}
				now += w.miss[2*a]*g[0].dot(step) + w.miss[2*a+1]*g[1].dot(step)
			}
			if now > -0.5*slope && share > 1e-9 { // too far: back to the false position, but never less than a tenth at once
				back := share * (1 - max(0.1, slope/(slope-now)))
				for a, k := range w.active {
					x := &s.seats[k].couple
					*x = x.minus(point{w.step[2*a], w.step[2*a+1]}.scaled(back))
				}
				share -= back
				continue
			}
		}
		c.bend(s)
		for i := range n {
			w.step[i] = -w.miss[i]
		}
		if !eliminate(w.square[:n*n], w.step[:n]) {
			return false
		}
		done := true
		slope, share = 0, 1
		for a, k := range w.active {
			l, seat, g := &c.leaning[k], &s.seats[k], &w.give[k]
			step := point{w.step[2*a], w.step[2*a+1]}
			turned := point{g[0].dot(step), g[1].dot(step)}
			slope += w.miss[2*a]*turned[0] + w.miss[2*a+1]*turned[1]
			done = done && l.ends(seat.couple, s.at[torqueParameter])*leant*l.seat.Length >= step.norm() && (l.face == 0 || turned.norm() <= leant*seat.lean.norm())
			w.turned[k] = turned
			seat.couple = seat.couple.plus(step)
		}
		if math.IsNaN(slope) {
			return false
		}
		if done {
			for _, k := range w.active {
				s.seats[k].lean = s.seats[k].lean.plus(w.turned[k])
			}
			return true
		}
	}
	return false
}

// ends is the smaller of the loads on the ends of the seat under a couple, N, where one that floats counts by what makes it do so.
func (l *leaning) ends(couple point, scale float64) float64 {
	small := l.small * scale
	first, second := l.seat.ends(l.force.scaled(scale), couple)
	return math.Sqrt(min(first.dot(first), second.dot(second)) + small*small)
}

// misses fills in by how much the couples on the seats miss their conditions, with the leans and how they give at these couples.
func (c *coupling) misses(s *spread) {
	w := &c.search
	scale := s.at[torqueParameter]
	for _, k := range w.active {
		l, seat := &c.leaning[k], &s.seats[k]
		seat.lean, w.give[k] = l.seat.lean(l.force.scaled(scale), seat.couple, l.small*scale)
	}
	c.moments(s)
	for a, k := range w.active {
		l, seat := &c.leaning[k], &s.seats[k]
		miss := seat.couple.minus(c.coupleOn(s, k))
		if face := l.face * scale; face > 0 {
			if size := seat.lean.norm(); size > 0 {
				miss = miss.plus(seat.lean.scaled(face / size))
			}
		}
		w.miss[2*a], w.miss[2*a+1] = miss[0], miss[1]
	}
}

// bend fills in how what is missed answers the couples on the seats: 1 + (f/|ℓ|)(1 − n nᵀ) G − u N uᵀ G, with G how a seat gives and n the direction of a lean.
func (c *coupling) bend(s *spread) {
	w := &c.search
	n := 2 * len(w.active)
	for a, k := range w.active {
		l, seat := &c.leaning[k], &s.seats[k]
		for b, j := range w.active {
			g := &w.give[j]
			var back [2]point // u N uᵀ
			for _, one := range l.arms {
				for _, other := range c.leaning[j].arms {
					pull := s.set.Pull[firstTilt+other.step][firstTilt+one.step]
					back[0] = back[0].plus(other.force.scaled(pull * one.force[0]))
					back[1] = back[1].plus(other.force.scaled(pull * one.force[1]))
				}
			}
			if a == b && l.face > 0 {
				if size := seat.lean.norm(); size > 0 {
					dir, stiff := seat.lean.scaled(1/size), l.face*s.at[torqueParameter]/size
					back[0] = back[0].minus(point{1 - dir[0]*dir[0], -dir[0] * dir[1]}.scaled(stiff))
					back[1] = back[1].minus(point{-dir[1] * dir[0], 1 - dir[1]*dir[1]}.scaled(stiff))
				}
			}
			for row := range 2 {
				for column := range 2 { // G is symmetric
					w.square[(2*a+row)*n+2*b+column] = -back[row].dot(g[column])
				}
			}
		}
		w.square[2*a*n+2*a]++
		w.square[(2*a+1)*n+2*a+1]++
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
			l := &c.leaning[k]
			_, w.give[k] = l.seat.lean(l.force.scaled(s.at[torqueParameter]), s.seats[k].couple, l.small*s.at[torqueParameter])
			w.active = append(w.active, k)
		}
	}
	n := 2 * len(w.active)
	for j := range per {
		clear(per[j])
		c.bend(s)
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
			step, g := point{w.step[2*a], w.step[2*a+1]}, &w.give[k]
			turned := point{g[0].dot(step), g[1].dot(step)}
			for _, arm := range c.leaning[k].arms {
				per[j][arm.step] += arm.force.dot(turned)
			}
		}
	}
	return true
}

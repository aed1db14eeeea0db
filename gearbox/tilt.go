package gearbox

import (
	"math"
	"slices"

	"layshaft/gearstress/faceload"
)

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
// which is strictly convex: there is one answer. Newton's method on x finds it (poise.go).

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
	start, moment      []float64     // by mesh: moment of the load with the gears upright, and as they lean, N·mm
	bent               []poise       // by seat
	back               [][2]point    // by two seats: how the couple on the first gear answers the lean of the second
	set                *faceload.Set // for which that holds
	miss, step, square []float64
	active             []int // seats in which the gear leans
}

func (w *search) resize(meshes, seats int) {
	w.start, w.moment = make([]float64, meshes), make([]float64, meshes)
	w.bent, w.back = make([]poise, seats), make([][2]point, seats*seats)
	w.miss, w.step, w.square = make([]float64, 2*seats), make([]float64, 2*seats), make([]float64, 4*seats*seats)
	w.active = make([]int, 0, seats)
}

const (
	mostLeans = 60 // steps of Newton's method
	mostTurns = 8  // how often gears come upright or leave it
)

// lean finds how the gears lean in their seats within the contact set of s, starting from how they lean there.
func (c *coupling) lean(s *spread, as making) bool {
	if len(s.seats) == 0 {
		c.tilt(s, as)
		return true
	}
	w := &c.search
	c.backs(s.set)
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
			back := &c.search.back[k*len(c.leaning)+k]
			alone := c.coupleOn(s, k).minus(point{back[0].dot(seat.lean), back[1].dot(seat.lean)})
			size, up := math.Sqrt(alone.dot(alone)), seat.couple == point{}
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
		c.answer()
		for i := range n {
			w.step[i] = -w.miss[i]
		}
		if !solveFew(w.square[:n*n], w.step[:n]) {
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

// solveFew is eliminate, at once for the two numbers of a single gear.
func solveFew(a, b []float64) bool {
	if len(b) != 2 {
		return eliminate(a, b)
	}
	det := a[0]*a[3] - a[1]*a[2]
	b[0], b[1] = (a[3]*b[0]-a[1]*b[1])/det, (a[0]*b[1]-a[2]*b[0])/det
	return det != 0
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
func (c *coupling) answer() {
	w := &c.search
	n, seats := 2*len(w.active), len(c.leaning)
	for a, k := range w.active {
		for b, j := range w.active {
			back, g := &w.back[k*seats+j], &w.bent[j].give
			for row := range 2 {
				for column := range 2 {
					w.square[(2*a+row)*n+2*b+column] = -back[row][0]*g[0][column] - back[row][1]*g[1][column]
				}
			}
		}
		face := &w.bent[k].face
		for row := range 2 {
			at := (2*a+row)*n + 2*a
			w.square[at] += face[row][0]
			w.square[at+1] += face[row][1]
			w.square[at+row]++
		}
	}
}

// backs fills in how the couples on the gears answer their leans within a contact set: u N uᵀ, by rows.
func (c *coupling) backs(set *faceload.Set) {
	w := &c.search
	if w.set == set {
		return
	}
	w.set = set
	seats := len(c.leaning)
	for k := range seats {
		for j := range seats {
			back := [2]point{}
			for _, one := range c.leaning[k].arms {
				for _, other := range c.leaning[j].arms {
					pull := set.Pull[firstTilt+other.step][firstTilt+one.step]
					back[0] = back[0].plus(other.force.scaled(pull * one.force[0]))
					back[1] = back[1].plus(other.force.scaled(pull * one.force[1]))
				}
			}
			w.back[k*seats+j] = back
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
	c.backs(s.set)
	c.answer()
	square := slices.Clone(w.square[:n*n])
	for j := range per {
		clear(per[j])
		copy(w.square, square)
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

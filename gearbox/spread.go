package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearstress/faceload"
)

// Shafts and teeth answer loads in proportion as long as the same strips carry. So the loads on the strips are linear in a few parameters, which faceload.Family works out once for each contact
// set: the torque, the lean of the gears that sit on bearings of their own, and the movements of the seats under bearings of known elements. At a torque only the leans are sought, by Newton's method on
// two numbers a seat; then one look at all strips says whether the contact set is that of the solution: loads that don't pull, flanks that don't overlap. If not, it is put right and tried again.

// The parameters of a coupling's family: the gap of unloaded flanks, taken once, and the torque over that of the coupling; how far each mesh is out of line from its making, mm over the face, the leans and
// the movements of seats follow.
const (
	gapParameter = iota
	torqueParameter
	firstDeviation
)

// making is which way a mesh is out of line from its making: sign 1 opens the end at +x, −1 that at −x, 0 neither.
type making struct {
	mesh int
	sign float64
}

// spread is how the load lies on the faces at one torque.
type spread struct {
	at    []float64 // parameters
	set   *faceload.Set
	state []float64 // by strip: the load, N, where it carries, else how far the flanks are open, mm
}

// load is that on a strip, N.
func (s *spread) load(strip int) float64 {
	if s.set.Carries[strip] {
		return max(0, s.state[strip])
	}
	return 0
}

func (s *spread) copyFrom(o *spread) {
	s.at, s.set, s.state = append(s.at[:0], o.at...), o.set, append(s.state[:0], o.state...)
}

// family readies a coupling for spread. The seats of a footing move as well, if there is one.
func (c *coupling) makeFamily(f *footing) (err error) {
	n, meshes := len(c.initial), len(c.steps)
	gaps, forces := [][]float64{c.initial, c.wound}, [][]float64{make([]float64, meshes), make([]float64, meshes)}
	for m, mesh := range c.problem.Meshes {
		forces[torqueParameter][m] = mesh.Force
		for i := range strips {
			c.nothing = append(c.nothing, [2]float64{nothing * mesh.Force / (mesh.Stiffness * c.p.pairs[c.steps[m].mesh].widths[i]), nothing * mesh.Force})
		}
	}
	for m, st := range c.steps {
		q := &c.p.pairs[st.mesh]
		gap := make([]float64, n)
		for i, xi := range q.stations {
			gap[m*strips+i] = xi / (q.to - q.from)
		}
		gaps = append(gaps, gap)
	}
	c.firstLean = len(gaps)
	for k := range c.leaning {
		gaps = append(gaps, c.leaning[k].opens[0], c.leaning[k].opens[1])
	}
	c.firstMove = len(gaps)
	if f != nil {
		for j := range f.count {
			gap := make([]float64, n)
			for k := range gap {
				gap[k] = f.opens[k*f.count+j]
			}
			gaps = append(gaps, gap)
		}
	}
	for len(forces) < len(gaps) {
		forces = append(forces, make([]float64, meshes))
	}
	if c.family, err = faceload.NewFamily(&c.problem, gaps, forces); err != nil {
		return fmt.Errorf("load along the face: %w", err)
	}
	c.key = slices.Repeat([]byte{1}, n)
	c.start.at = make([]float64, len(gaps))
	c.search.resize(2 * len(c.seated))
	return nil
}

// nothing is the share of the force of a mesh, and of what it presses a strip in by, that counts as no load and no gap.
const nothing = 1e-13

// mostSets is how many contact sets are tried; after half of them one strip at a time is changed.
const mostSets = 60

// spread finds how the load lies on the faces at scale times the torque the coupling was made for, with the seats under bearings of known elements moved, and one mesh out of line as made. The search starts from the
// solution before it, which decides over nothing but rounding.
func (c *coupling) spread(to *spread, scale float64, as making, moves []float64) error {
	c.spreads++
	s := &c.start
	s.at[gapParameter], s.at[torqueParameter] = 1, scale
	clear(s.at[firstDeviation:c.firstLean])
	s.at[firstDeviation+as.mesh] = as.sign * c.p.pairs[c.steps[as.mesh].mesh].deviation
	copy(s.at[c.firstMove:], moves)
	for try := range mostSets {
		set, err := c.family.Set(c.key)
		if err != nil {
			break
		}
		if s.set = set; !c.lean(s) {
			break
		}
		c.fill(s)
		if c.right(s, try < mostSets/2) {
			to.copyFrom(s)
			return nil
		}
	}
	c.fallbacks++
	if err := c.fallBack(s, scale); err != nil {
		for i := range c.key {
			c.key[i] = 1
		}
		clear(s.at[c.firstLean:c.firstMove])
		return err
	}
	to.copyFrom(s)
	return nil
}

// fill works out the state of all strips.
func (c *coupling) fill(s *spread) {
	s.state = append(s.state[:0], s.set.State[gapParameter]...)
	for i, x := range s.at[1:] {
		if x == 0 {
			continue
		}
		for k, v := range s.set.State[i+1] {
			s.state[k] += x * v
		}
	}
}

// right reports whether the contact set is that of the solution, and changes the key where not: all strips that pull or overlap, or only the worst of them.
func (c *coupling) right(s *spread, all bool) bool {
	scale := s.at[torqueParameter]
	worst, at := 1.0, -1
	for k, v := range s.state {
		small := c.nothing[k][c.key[k]] * scale
		if !(v < -small) {
			continue
		}
		if share := -v / small; share > worst {
			worst, at = share, k
		}
		if all {
			c.key[k] ^= 1
		}
	}
	if !all && at >= 0 {
		c.key[at] ^= 1
	}
	return at < 0
}

// fallBack solves anew, without contact sets kept and linear leans, when no set was found to be right.
func (c *coupling) fallBack(s *spread, scale float64) error {
	opened := make([]float64, len(c.initial))
	c.addGaps(opened, s.at)
	r, err := c.carry(scale, opened)
	if err != nil {
		return err
	}
	for m, loads := range r.faces.Load {
		for i, w := range loads {
			c.key[m*strips+i] = 0
			if w > 0 {
				c.key[m*strips+i] = 1
			}
		}
	}
	for k, g := range c.seated {
		lean := r.leans[g]
		copy(s.at[c.firstLean+2*k:], lean[:])
	}
	if s.set, err = c.family.Set(c.key); err != nil {
		return fmt.Errorf("load along the face: %w", err)
	}
	s.state = s.state[:0]
	for m, loads := range r.faces.Load {
		for i, w := range loads {
			s.state = append(s.state, w+r.faces.Separation[m][i])
		}
	}
	return nil
}

// addGaps adds to a gap what making and movements of seats open.
func (c *coupling) addGaps(gap, at []float64) {
	for i := firstDeviation; i < len(at); i++ {
		if at[i] == 0 || i >= c.firstLean && i < c.firstMove {
			continue
		}
		for k, g := range c.family.Gap(i) {
			gap[k] += at[i] * g
		}
	}
}

// factor is K_Hβ of a mesh.
func (c *coupling) factor(s *spread, mesh int) float64 {
	m := &c.problem.Meshes[mesh]
	top := 0.0
	for i, width := range c.p.pairs[c.steps[mesh].mesh].widths {
		if k := mesh*strips + i; s.set.Carries[k] {
			top = max(top, s.state[k]/width)
		}
	}
	return max(1, top*m.Face/(m.Force*s.at[torqueParameter]))
}

// carried is the same with all that is shown of the faces.
func (c *coupling) carried(s *spread) (*carried, error) {
	r := &carried{leans: map[int]point{}, base: make([]float64, len(c.initial))}
	for k, g := range c.seated {
		r.leans[g] = point(s.at[c.firstLean+2*k:])
	}
	load, approach := make([]float64, len(c.initial)), make([]float64, len(c.steps))
	for k := range load {
		load[k] = s.load(k)
		r.base[k] = c.initial[k] + s.at[torqueParameter]*c.wound[k]
	}
	c.addGaps(r.base, s.at)
	for m := range approach {
		for i, x := range s.at {
			approach[m] += x * s.set.Approach[i][m]
		}
	}
	var err error
	if r.faces, err = c.family.Solution(s.at, load, approach); err != nil {
		return nil, fmt.Errorf("load along the face: %w", err)
	}
	return r, nil
}

// search is the working memory of lean: two numbers a seat.
type search struct {
	rest, lean, miss, step, turned, square []float64
	give                                   [][2]point
}

func (w *search) resize(n int) {
	all := make([]float64, 5*n+n*n)
	take := func(n int) (part []float64) {
		part, all = all[:n:n], all[n:]
		return part
	}
	w.rest, w.lean, w.miss, w.step, w.turned, w.square = take(n), take(n), take(n), take(n), take(n), take(n*n)
	w.give = make([][2]point, n/2)
}

// lean finds how the gears lean in their seats within a contact set. With ℓ the leans and q the couples that the loads put on the seats,
//
//	q = q₀ + N ℓ,  ℓ = ∇Φ(q)
//
// where q₀ is the couples with no lean, N how the loads answer leans, symmetric and never positive, and Φ the convex energy of the seats. That is where ½ ℓᵀ(−N)ℓ + Φ is least. Newton's method finds it; a step is shortened where
// the energy rises at its end by more than half of what it fell by at the start.
func (c *coupling) lean(s *spread) bool {
	w := &c.search
	n := len(w.lean)
	if n == 0 {
		return true
	}
	scale := s.at[torqueParameter]
	c.gather(s)
	lean := s.at[c.firstLean:c.firstMove]
	c.missed(s.set, scale, lean)
	most := 0.0 // of a couple on a seat
	for k := range c.leaning {
		l := &c.leaning[k]
		most = max(most, scale*l.force.norm()*l.seat.Length)
	}
	for range 100 {
		c.square(s.set)
		for i := range n {
			w.step[i] = -w.miss[i]
		}
		if !eliminate(w.square, w.step) {
			return false
		}
		// By how much the step turns the couples on the seats, and by how much rounding may.
		turn, noise, slope := 0.0, 0.0, 0.0
		for i := range n {
			w.turned[i] = 0
			size := math.Abs(w.rest[i])
			for j := range n {
				pull := s.set.Pull[c.firstLean+j][c.firstLean+i]
				w.turned[i] -= pull * w.step[j]
				size += math.Abs(pull * lean[j])
			}
			turn, noise = max(turn, math.Abs(w.turned[i])), max(noise, 1e-15*size)
			slope += w.miss[i] * w.turned[i]
		}
		if math.IsNaN(turn) {
			return false
		}
		share := 1.0
		copy(w.lean, lean)
		for {
			for i := range n {
				lean[i] = w.lean[i] + share*w.step[i]
			}
			if turn <= leant*most+noise {
				return true
			}
			c.missed(s.set, scale, lean)
			now := along(w.miss, w.turned)
			if now <= -0.5*slope || slope >= 0 || !(share >= 1e-9) { // a slope up is rounding
				break
			}
			share *= max(0.1, slope/(slope-now))
		}
	}
	return false
}

// leaned fills in, for each movement of a seat, how the leans of the gears answer it, rad/mm, from a spread that was found.
func (c *coupling) leaned(s *spread, per [][]float64) bool {
	w := &c.search
	n := len(w.lean)
	if n == 0 {
		return true
	}
	c.gather(s)
	c.missed(s.set, s.at[torqueParameter], s.at[c.firstLean:c.firstMove])
	for l := range per {
		// (1 − H N) dℓ = H dq, with H how the seats give and dq the couples that the movement brings.
		c.square(s.set)
		for i := range n {
			w.step[i] = 0
			for k := range 2 {
				w.step[i] += w.give[i/2][i%2][k] * s.set.Pull[c.firstMove+l][c.firstLean+i/2*2+k]
			}
		}
		if !eliminate(w.square, w.step) {
			return false
		}
		copy(per[l], w.step)
	}
	return true
}

// gather works out the couples on the seats of gears that don't lean, but for those of loads in the middle of their faces.
func (c *coupling) gather(s *spread) {
	w := &c.search
	clear(w.rest)
	for i, x := range s.at {
		if x == 0 || i >= c.firstLean && i < c.firstMove {
			continue
		}
		for j, pull := range s.set.Pull[i][c.firstLean:c.firstMove] {
			w.rest[j] += x * pull
		}
	}
}

// square is 1 − H N.
func (c *coupling) square(set *faceload.Set) {
	w := &c.search
	n := len(w.lean)
	for i := range n {
		for j := range n {
			sum := 0.0
			for k := range 2 {
				sum += w.give[i/2][i%2][k] * set.Pull[c.firstLean+j][c.firstLean+i/2*2+k]
			}
			w.square[i*n+j] = -sum
		}
		w.square[i*n+i]++
	}
}

// leant is the share of the couples on seats that the last step changes, when its square is nothing.
const leant = 1e-13

// missed fills in by how much leans differ from what the seats give to under the loads that go with them, and how they give.
func (c *coupling) missed(set *faceload.Set, scale float64, lean []float64) {
	w := &c.search
	for k := range c.leaning {
		l := &c.leaning[k]
		var couple point
		for i := range couple {
			couple[i] = scale*l.couple[i] + w.rest[2*k+i]
			for j, x := range lean {
				couple[i] += x * set.Pull[c.firstLean+j][c.firstLean+2*k+i]
			}
		}
		var at point
		at, w.give[k], _ = l.lean(scale, couple)
		w.miss[2*k], w.miss[2*k+1] = lean[2*k]-at[0], lean[2*k+1]-at[1]
	}
}

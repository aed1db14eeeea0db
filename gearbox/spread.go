package gearbox

import (
	"fmt"
	"slices"

	"layshaft/gearstress/faceload"
)

// Shafts and teeth answer loads in proportion as long as the same strips carry. So the loads on the strips are linear in a few parameters, which faceload.Family works out once for each contact
// set: the gaps of unloaded flanks, the torque, how far the flanks of each mesh are tilted out of line by their making and by gears that lean in their seats, and the movements of the seats under
// bearings of known elements,
//
//	w = w₀ + s w₁ + Σ t_m w_m + Σ e_j w_j
//
// At a torque only the leans are sought (tilt.go); then one look at all strips says whether the contact set is that of the solution: loads that don't pull, flanks that don't overlap. If not, it is put
// right and tried again.

// The parameters of a coupling's family: the gap of unloaded flanks, taken once, and the torque over that of the coupling; the tilt of each mesh, rad about the middle of its face, and the
// movements of seats follow.
const (
	gapParameter = iota
	torqueParameter
	firstTilt
)

// making is which way a mesh is out of line from its making: sign 1 opens the end at +x, −1 that at −x, 0 neither.
type making struct {
	mesh int
	sign float64
}

// place is that of a making among all of a coupling.
func (m making) place() int {
	switch m.sign {
	case 1:
		return 1 + 2*m.mesh
	case -1:
		return 2 + 2*m.mesh
	}
	return 0
}

// spread is how the load lies on the faces at one torque.
type spread struct {
	at    []float64 // parameters
	set   *faceload.Set
	state []float64 // by strip: the load, N, where it carries, else how far the flanks are open, mm
	seats []seated  // as coupling.leaning
}

// load is that on a strip, N.
func (s *spread) load(strip int) float64 {
	if s.set.Carries[strip] != 0 {
		return max(0, s.state[strip])
	}
	return 0
}

func (s *spread) copyFrom(o *spread) {
	s.at, s.set, s.state, s.seats = append(s.at[:0], o.at...), o.set, append(s.state[:0], o.state...), append(s.seats[:0], o.seats...)
}

// makeFamily readies a coupling for spread. The seats of a footing move as well, if there is one.
func (c *coupling) makeFamily(f *footing) (err error) {
	n, meshes := len(c.initial), len(c.steps)
	c.firstMove = firstTilt + meshes
	count := c.firstMove
	if f != nil {
		count += f.count
	}
	gaps, forces := make([][]float64, count), make([][]float64, count)
	values := make([]float64, count*(n+meshes))
	take := func(n int) (part []float64) {
		part, values = values[:n:n], values[n:]
		return part
	}
	for i := range gaps {
		gaps[i], forces[i] = take(n), take(meshes)
	}
	copy(gaps[gapParameter], c.initial)
	copy(gaps[torqueParameter], c.wound)
	c.nothing = make([][2]float64, n)
	for m, mesh := range c.problem.Meshes {
		q := &c.p.pairs[c.steps[m].mesh]
		forces[torqueParameter][m] = mesh.Force
		for i, xi := range q.stations {
			k := m*strips + i
			c.nothing[k] = [2]float64{nothing * mesh.Force / (mesh.Stiffness * q.widths[i]), nothing * mesh.Force}
			gaps[firstTilt+m][k] = xi
		}
	}
	for j := range count - c.firstMove {
		for k := range n {
			gaps[c.firstMove+j][k] = f.opens[k*f.count+j]
		}
	}
	if c.family, err = faceload.NewFamily(&c.problem, gaps, forces, &c.p.faces); err != nil {
		return fmt.Errorf("load along the face: %w", err)
	}
	c.key = slices.Repeat([]byte{1}, n)
	c.now = spread{at: make([]float64, count), state: make([]float64, n), seats: make([]seated, len(c.leaning))}
	c.trails = make([]trail, 1+2*meshes)
	c.search.resize(meshes, len(c.leaning))
	return nil
}

// nothing is the share of the force of a mesh, and of what it presses a strip in by, that counts as no load and no gap.
const nothing = 1e-13

// mostSets is how many contact sets are tried; after half of them one strip at a time is changed.
const mostSets = 60

// spread finds how the load lies on the faces at scale times the torque the coupling was made for, with the seats under bearings of known elements moved, and one mesh out of line as made. The search starts from
// a solution nearby (trail.go).
func (c *coupling) spread(to *spread, scale float64, as making, moves []float64) error {
	if err := c.find(scale, as, moves); err != nil {
		return err
	}
	to.copyFrom(&c.now)
	return nil
}

// fill works out the state of all strips.
func (c *coupling) fill(s *spread) {
	state := s.state
	n := len(state)
	first, torque, scale := s.set.State[gapParameter][:n], s.set.State[torqueParameter][:n], s.at[torqueParameter]
	for k := range state {
		state[k] = first[k] + scale*torque[k]
	}
	for i := firstTilt; i < len(s.at); i++ {
		if x := s.at[i]; x != 0 {
			for k, v := range s.set.State[i][:n] {
				state[k] += x * v
			}
		}
	}
}

// right reports whether the contact set is that of the solution, and fills in a better key where not: with all strips that pull or overlap changed, or only the worst of them.
func (c *coupling) right(s *spread, all bool) bool {
	scale := s.at[torqueParameter]
	carries, none := s.set.Carries, c.nothing
	wrong := false
	for k, v := range s.state {
		if v < -none[k][carries[k]]*scale {
			wrong = true
			break
		}
	}
	if !wrong {
		return true
	}
	copy(c.key, carries)
	worst, at := 1.0, -1
	for k, v := range s.state {
		small := none[k][carries[k]] * scale
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
	if !all {
		c.key[at] ^= 1
	}
	return false
}

// fallBack solves anew, without contact sets kept, when no set was found to be right.
func (c *coupling) fallBack(s *spread, scale float64, as making) error {
	opened := make([]float64, len(c.initial))
	c.addGaps(opened, s, as)
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
			s.state[m*strips+i] = w + r.faces.Separation[m][i]
		}
	}
	loads := slices.Concat(r.faces.Load...)
	for k := range c.leaning {
		l := &c.leaning[k]
		lean, _, left := l.lean(scale, l.under(scale, loads))
		s.seats[k] = seated{lean: lean, couple: left}
	}
	c.tilt(s, as)
	if s.set, err = c.family.Set(c.key); err != nil {
		return fmt.Errorf("load along the face: %w", err)
	}
	return nil
}

// addGaps adds to a gap what making and movements of seats open.
func (c *coupling) addGaps(gap []float64, s *spread, as making) {
	add := func(parameter int, x float64) {
		if x == 0 {
			return
		}
		for k, g := range c.family.Gap(parameter) {
			gap[k] += x * g
		}
	}
	if len(c.steps) > 0 {
		add(firstTilt+as.mesh, c.made(as))
	}
	for i := c.firstMove; i < len(s.at); i++ {
		add(i, s.at[i])
	}
}

// made is how far a mesh is tilted from its making, rad.
func (c *coupling) made(as making) float64 {
	q := &c.p.pairs[c.steps[as.mesh].mesh]
	return as.sign * q.deviation / (q.to - q.from)
}

// factor is K_Hβ of a mesh.
func (c *coupling) factor(s *spread, mesh int) float64 {
	m := &c.problem.Meshes[mesh]
	carries, state := s.set.Carries[mesh*strips:], s.state[mesh*strips:]
	top := 0.0
	for i, width := range c.p.pairs[c.steps[mesh].mesh].widths {
		if carries[i] != 0 {
			top = max(top, state[i]/width)
		}
	}
	return max(1, top*m.Face/(m.Force*s.at[torqueParameter]))
}

// carried is a spread with flanks in line as made, with all that is shown of the faces.
func (c *coupling) carried(s *spread) (*carried, error) {
	r := &carried{leans: map[int]point{}, base: make([]float64, len(c.initial))}
	for k, g := range c.seated {
		r.leans[g] = s.seats[k].lean
	}
	load, approach := make([]float64, len(c.initial)), make([]float64, len(c.steps))
	for k := range load {
		load[k] = s.load(k)
		r.base[k] = c.initial[k] + s.at[torqueParameter]*c.wound[k]
	}
	c.addGaps(r.base, s, making{})
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

package gearbox

import (
	"layshaft/beam"
)

// footing is how the shafts and meshes of a speed answer the seats under the springs that stand for bearings of known elements. All of that is linear in the movements of
// the seats but for the contact along the faces, so that one solution of each shaft on each moved seat serves all torques.
type footing struct {
	coupling *coupling
	shafts   []int
	mounts   []mount
	count    int       // of movements of all mounts
	called   []float64 // count × count: force that the shafts put on the mounts (row) per movement of the seats (column) with the loads on the faces held, N/mm
	opens    []float64 // strips × count: how far the flanks open per movement of the seats; and force on the mounts per N on the strips, by reciprocity

	last   *footed // solved last, to start from
	rounds int     // how often the load along the faces was solved so far
}

// footed is a speed with the seats of its mounts moved somewhere.
type footed struct {
	scale   float64   // torque over that of the coupling
	seats   []float64 // movements of the seats, mm
	carried *carried
	put     []float64 // force that the shafts put on the mounts, N
	stands  []float64 // movements of the shafts against what the bearings sit in, mm
	thrust  []float64 // by mount, N along +x
	axial   []float64 // by mount, where its ring rests along +x, mm
	miss    []float64 // what the elements would carry at stands, less put, N
	stiff   []float64 // count × count: how the force of the elements answers stands, N/mm
	size    float64   // largest of the forces, N
	noise   float64   // below which a miss is rounding, N
}

// footing works out how the shafts of a speed answer moved seats.
func (p *prepared) footing(c *coupling, shafts []int) (*footing, error) {
	f := &footing{coupling: c, shafts: shafts, mounts: p.mounts(shafts)}
	last := f.mounts[len(f.mounts)-1]
	f.count = last.first + last.count
	n := f.count
	f.called, f.opens = make([]float64, n*n), make([]float64, len(c.initial)*n)
	moves, none := make([]float64, n), make([][]beam.Load, len(p.lines))
	for k := range f.mounts {
		m := &f.mounts[k]
		// Shafts and springs are round: what a seat does in plane xy it does in plane xz too.
		for d := 0; d < m.count; d += 2 {
			clear(moves)
			moves[m.first+d] = 1
			solved, err := p.bend(p.models(), none, p.seats(f.mounts, shafts, moves))
			if err != nil {
				return nil, err
			}
			for plane := range 2 {
				f.answer(solved, m.first+d, plane)
			}
		}
	}
	return f, nil
}

// answer enters how the shafts answer one movement in plane xy as what they do in a plane.
func (f *footing) answer(solved []*beam.Solution, movement, plane int) {
	column := movement + plane
	for k := range f.mounts {
		m := &f.mounts[k]
		r := solved[m.shaft].Reactions()[m.bearing]
		f.called[(m.first+plane)*f.count+column] = -r.Fy
		if m.count == 4 {
			f.called[(m.first+2+plane)*f.count+column] = -r.Mz / m.lever
		}
	}
	c := f.coupling
	for _, s := range f.shafts {
		for _, a := range c.sites[s] {
			q := &c.p.pairs[c.steps[a.step].mesh]
			for i, xi := range q.stations {
				at := solved[s].At(q.at[a.role]+xi, beam.Left).Y
				f.opens[(a.step*strips+i)*f.count+column] += a.force[plane]*at.Deflection + a.couple[plane]*at.Slope
			}
		}
	}
}

// carry solves the load along the faces with the seats at s.seats, and what comes of it for the mounts.
func (f *footing) carry(s *footed) (err error) {
	f.rounds++
	n := f.count
	opened := make([]float64, len(f.coupling.initial))
	for i := range opened {
		for j, u := range s.seats {
			opened[i] += f.opens[i*n+j] * u
		}
	}
	if s.carried, err = f.coupling.carry(s.scale, opened); err != nil {
		return err
	}
	s.put, s.stands = make([]float64, n), make([]float64, n)
	for i := range n {
		for j, u := range s.seats {
			s.put[i] += f.called[i*n+j] * u
		}
	}
	i := 0
	for _, mesh := range s.carried.faces.Load {
		for _, w := range mesh {
			for j := range n {
				s.put[j] += f.opens[i*n+j] * w
			}
			i++
		}
	}
	for i := range n {
		s.stands[i] = s.seats[i] + s.put[i]/spring
	}
	return nil
}

// yields is how the force on the mounts (row) answers the movements of the seats (column) with the load along the faces following, as long as the same strips carry, N/mm.
func (f *footing) yields(s *footed) ([]float64, error) {
	n, c := f.count, f.coupling
	strip := len(c.initial)
	if err := c.tangent(s.carried, s.scale); err != nil {
		return nil, err
	}
	all := append([]float64(nil), f.called...)
	gap, load := make([]float64, strip), make([]float64, strip)
	for j := range n {
		for i := range gap {
			gap[i] = f.opens[i*n+j]
		}
		c.solver.Change(gap, load)
		for i, w := range load {
			if w == 0 {
				continue
			}
			for k := range n {
				all[k*n+j] += f.opens[i*n+k] * w
			}
		}
	}
	return all, nil
}

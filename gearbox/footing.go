package gearbox

import (
	"math"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

// footing is how the shafts and meshes of a speed answer the seats under the springs that stand for bearings of known elements. All of that is linear in the movements of
// the seats but for the contact along the faces, so that one solution of each shaft on each moved seat serves all torques.
type footing struct {
	coupling *coupling
	shafts   []int
	mounts   []mount
	count    int         // of movements of all mounts
	called   []float64   // count × count: force that the shafts put on the mounts (row) per movement of the seats (column) with the loads on the faces held, N/mm
	opens    []float64   // strips × count: how far the flanks open per movement of the seats; and force on the mounts per N on the strips, by reciprocity
	pushed   [][]float64 // by mount: axial force on it along +x per N on each strip; nil = it carries none

	as     making   // of the meshes, for the balance at hand
	last   *footed  // found last
	pasts  [][]past // all found, by place of the making
	rounds int      // how often the load along the faces was solved so far

	// Working memory.
	spare                       []*footed
	yielded, square, step, move []float64
	leaned                      [][]float64
}

// footed is a speed with the seats of its mounts moved somewhere.
type footed struct {
	scale  float64   // torque over that of the coupling
	seats  []float64 // movements of the seats, mm
	spread spread
	put    []float64 // force that the shafts put on the mounts, N
	stands []float64 // movements of the shafts against what the bearings sit in, mm
	thrust []float64 // by mount, N along +x
	axial  []float64 // by mount, where its ring rests along +x, mm
	miss   []float64 // what the elements would carry at stands, less put, N
	stiff  []float64 // count × count: how the force of the elements answers stands, N/mm
	size   float64   // largest of the forces, N
	noise  float64   // below which a miss is rounding, N
}

// footing works out how the shafts of a speed answer moved seats.
func (p *prepared) footing(c *coupling, shafts []int) (*footing, error) {
	mounts, err := p.mounts(shafts)
	if err != nil {
		return nil, err
	}
	f := &footing{coupling: c, shafts: shafts, mounts: mounts}
	last := f.mounts[len(f.mounts)-1]
	f.count = last.first + last.count
	f.pasts = make([][]past, 1+2*len(c.steps))
	n := f.count
	f.called, f.opens = make([]float64, n*n), make([]float64, len(c.initial)*n)
	f.yielded, f.square, f.step, f.move = make([]float64, n*n), make([]float64, n*n), make([]float64, n), make([]float64, n)
	for range n {
		f.leaned = append(f.leaned, make([]float64, len(c.steps)))
	}
	moves, none := make([]float64, n), make([][]beam.Load, len(p.lines))
	for k := range f.mounts {
		m := &f.mounts[k]
		f.pushed = append(f.pushed, f.push(k))
		// Shafts and springs are round: what a seat does in plane xy it does in plane xz too.
		for d := 0; d < m.count; d += 2 {
			clear(moves)
			moves[m.first+d] = 1
			solved, err := p.bend(p.models(), none, p.seats(f.mounts, shafts, moves))
			if err != nil {
				return nil, err
			}
			c.answers.move(c, solved, m.first+d, n)
			for plane := range 2 {
				f.answer(solved, m.first+d, plane)
			}
		}
	}
	return f, nil
}

// push is how much of the axial force of each strip comes to a mount: balls carry what comes to them, a tapered pair all of its shaft's, counted at its first bearing.
func (f *footing) push(k int) []float64 {
	m, c := &f.mounts[k], f.coupling
	pair := m.paired > k
	if !pair && (m.paired >= 0 || m.row.Kind != bearing.Ball) {
		return nil
	}
	row := make([]float64, len(c.initial))
	for _, a := range c.sites[m.shaft] {
		q := &c.p.pairs[c.steps[a.step].mesh]
		for i, xi := range q.stations {
			share := 1.0
			if !pair {
				share = -c.p.lines[m.shaft].model.Held(min(max(q.at[a.role]+xi, 0), c.p.lines[m.shaft].length))[m.bearing]
			}
			row[a.step*strips+i] += a.axial * share
		}
	}
	return row
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

// take is a footed to write on, and give hands one back.
func (f *footing) take() *footed {
	if last := len(f.spare) - 1; last >= 0 {
		s := f.spare[last]
		f.spare = f.spare[:last]
		return s
	}
	n, mounts := f.count, len(f.mounts)
	return &footed{
		seats: make([]float64, n), put: make([]float64, n), stands: make([]float64, n), miss: make([]float64, n), stiff: make([]float64, n*n),
		thrust: make([]float64, mounts), axial: make([]float64, mounts),
	}
}

func (f *footing) give(s *footed) {
	if s != nil {
		f.spare = append(f.spare, s)
	}
}

// carry solves the load along the faces with the seats at s.seats, and what comes of it for the mounts.
func (f *footing) carry(s *footed) (err error) {
	f.rounds++
	c, n := f.coupling, f.count
	if err = c.spread(&s.spread, s.scale, f.as, s.seats); err != nil {
		return err
	}
	clear(s.put)
	for i, x := range s.spread.at {
		if x == 0 {
			continue
		}
		for j, pull := range s.spread.set.Pull[i][c.firstMove:] {
			s.put[j] += x * pull
		}
	}
	for i := range n {
		for j, u := range s.seats {
			s.put[i] += f.called[i*n+j] * u
		}
		s.stands[i] = s.seats[i] + s.put[i]/spring
	}
	return nil
}

// yields is how the force on the mounts (row) answers the movements of the seats (column) with the load along the faces following, as long as the same strips carry, N/mm. The next call overwrites it.
func (f *footing) yields(s *footed) ([]float64, bool) {
	n, c, set := f.count, f.coupling, s.spread.set
	if !c.leaned(&s.spread, f.leaned) {
		return nil, false
	}
	copy(f.yielded, f.called)
	for j := range n {
		for k, pull := range set.Pull[c.firstMove+j][c.firstMove:] {
			f.yielded[k*n+j] += pull
		}
		for m, tilt := range f.leaned[j] {
			if tilt == 0 {
				continue
			}
			for k, pull := range set.Pull[firstTilt+m][c.firstMove:] {
				f.yielded[k*n+j] += tilt * pull
			}
		}
	}
	return f.yielded, true
}

// thrusts are the axial forces that the meshes put on the mounts, N along +x.
func (f *footing) thrusts(s *spread, thrust []float64) {
	clear(thrust)
	for k, row := range f.pushed {
		sum, size := 0.0, 0.0
		for strip, per := range row {
			push := per * s.load(strip)
			sum += push
			size += math.Abs(push)
		}
		if math.Abs(sum) > 1e-12*size { // what is left by rounding of forces that cancel is none
			thrust[k] = sum
		}
	}
}

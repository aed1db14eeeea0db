package beam

import "math"

// Side tells the two values apart that some quantities have where a load or a
// support acts at a point.
type Side int

const (
	Left  Side = iota // the limit from the left: what acts at x is not counted
	Right             // the limit from the right: what acts at x is counted
)

// At is the state at x in mm; an x beyond an end of the shaft means that end.
// Where nothing jumps both sides are alike. At the left end the left limit is
// outside the shaft, without internal forces, and so is the right limit at the
// right end.
func (s *Solution) At(x float64, side Side) State {
	x = min(max(x, 0), s.model.length)
	i := s.end(x)
	if math.Abs(s.place(i)-x) <= s.model.length*coincident {
		if side == Left {
			return s.left(i)
		}
		return s.right(i)
	}
	if i == len(s.pieces) || s.pieces[i].start.X > x {
		i--
	}
	p := &s.pieces[i]
	state := p.at(x - p.start.X)
	state.X = x
	return state
}

// left is the state just left of the left end of piece i, or of the right end
// of the shaft.
func (s *Solution) left(i int) State {
	if i == 0 {
		state := s.pieces[0].start
		state.setForces(&State{})
		return state
	}
	state := s.pieces[i-1].at(s.pieces[i-1].length)
	state.X = s.place(i)
	return state
}

// right is the state just right of the same place.
func (s *Solution) right(i int) State {
	if i == len(s.pieces) {
		state := s.left(i)
		state.setForces(&State{})
		return state
	}
	return s.pieces[i].start
}

// Curve lists states from left to right for plotting: every place where the
// shaft or its loads change, twice (left, right) where something jumps, and
// states between them no farther apart than step, in mm. With a step of 0
// there are none between.
func (s *Solution) Curve(step float64) []State {
	states := make([]State, 0, 2*len(s.pieces)+2)
	for i := range s.jumps {
		states = append(states, s.left(i))
		if s.jumps[i] != (action{}) {
			states = append(states, s.right(i))
		}
		if i == len(s.pieces) || !(step > 0) {
			continue
		}
		p := &s.pieces[i]
		parts := math.Ceil(p.length / step)
		for k := 1.0; k < parts; k++ {
			states = append(states, p.at(p.length*k/parts))
		}
	}
	return states
}

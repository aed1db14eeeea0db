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
	x = s.model.kept(x)
	before, after := s.beside(x)
	switch {
	case before == after:
		p := &s.pieces[before]
		state := s.within(p, x-p.start.X)
		state.X = x
		return state
	case side == Left:
		return s.left(after)
	}
	return s.right(after)
}

// beside is the indices of the pieces left and right of x, alike within one;
// before the first and after the last there is none.
func (s *Solution) beside(x float64) (before, after int) {
	i := s.end(x)
	if math.Abs(s.place(i)-x) <= s.model.length*coincident {
		return i - 1, i
	}
	if i == len(s.pieces) || s.pieces[i].start.X > x {
		i--
	}
	return i, i
}

// Slope is the slope to report at x, planes xy and xz, rad: the mean rotation of
// the section, which a gear or a ring on it follows. It goes with Cowper's shear
// coefficient. If deflections are worked out with Hutchinson's, his rotation ψ
// (State.Slope, the one that a couple does work on) lacks
//
//	(1/κ_Cowper − 1/κ_Hutchinson) S/(GA)
//
// with S the mean of the shear left and right of x. Otherwise both are the same.
func (s *Solution) Slope(x float64) (y, z float64) {
	before, after := s.beside(s.model.kept(x))
	left, right := s.At(x, Left), s.At(x, Right)
	l, r := s.lack(before)/2, s.lack(after)/2
	return left.Y.Slope + l*left.Y.Shear + r*right.Y.Shear, left.Z.Slope + l*left.Z.Shear + r*right.Z.Shear
}

// lack is what the slope to report has over ψ per shear force in a piece, rad/N.
func (s *Solution) lack(piece int) float64 {
	if piece < 0 || piece >= len(s.pieces) {
		return 0
	}
	return s.model.lack(s.pieces[piece].give)
}

// left is the state just left of the left end of piece i, or of the right end
// of the shaft.
func (s *Solution) left(i int) State {
	if i == 0 {
		state := s.pieces[0].start
		state.setForces(&State{})
		return state
	}
	state := s.pieces[i-1].end()
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
			states = append(states, s.within(p, p.length*k/parts))
		}
	}
	return states
}

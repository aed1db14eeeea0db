package beam

import "math"

// worst is the imbalance above which a solution is refused.
const worst = 1e-3

// outOfBalance is what is left of the forces past the right end, relative to
// the sum of the sizes of all loads and reactions.
func (s *Solution) outOfBalance(end *State, seats []Seat) float64 {
	force, couple := s.transverse()
	// Seats that move a shaft without bending it leave rounded reactions alone; they mustn't be compared with
	// themselves.
	for _, d := range seats {
		force = max(force, 1e-9*resultant(d.Move[0], d.Move[1])/s.model.tip, 1e-9*resultant(d.Tilt[0], d.Tilt[1])*s.model.length/s.model.tip)
	}
	couple = max(couple, force*s.model.length)
	return max(relative(end.Shear(), force), relative(end.Moment(), couple),
		relative(math.Abs(end.Normal), s.size.axial), relative(math.Abs(end.Torque), s.size.twist))
}

// transverse is the sum of the sizes of all transverse loads and reactions: as
// a force, N, and as a couple, N·mm, with the shaft's length as lever.
func (s *Solution) transverse() (force, couple float64) {
	force = s.size.y.force + s.size.z.force + (s.size.y.couple+s.size.z.couple)/s.model.length
	return force, force * s.model.length
}

// misfit is by how much the motion at a support differs from what its spring
// and its seat say, relative to the size of deflections or slopes.
func (s *Solution) misfit(seats []Seat) float64 {
	// If the loads go straight into rigid supports nothing moves; rounding
	// must not be compared with nothing.
	const least = 1e-9
	force, _ := s.transverse()
	deflection := least * force * s.model.tip
	slope := deflection / s.model.length
	for i := range s.pieces {
		p := &s.pieces[i]
		// A piece may be held at both ends: its own bending counts too.
		y, z := &p.start.Y, &p.start.Z
		moment := math.Abs(y.Moment) + math.Abs(z.Moment) + p.length*(math.Abs(y.Shear)+math.Abs(z.Shear))
		turn := p.bend[0] * moment
		slope = max(slope, math.Abs(y.Slope), math.Abs(z.Slope), turn)
		deflection = max(deflection, math.Abs(y.Deflection), math.Abs(z.Deflection), turn*p.length)
	}
	for _, g := range seats {
		deflection = max(deflection, resultant(g.Move[0], g.Move[1]))
		slope = max(slope, resultant(g.Tilt[0], g.Tilt[1]))
	}
	var most float64
	for i := range s.model.ties {
		t := &s.model.ties[i]
		b := s.right(s.end(t.at.x))
		r := s.reactions[t.support]
		var ground Seat
		if seats != nil {
			ground = seats[t.support]
		}
		if t.couple {
			kink := resultant(b.Y.Slope+r.Mz*t.compliance-ground.Tilt[0], b.Z.Slope-r.My*t.compliance-ground.Tilt[1])
			most = max(most, relative(kink, slope))
			continue
		}
		if t.spread {
			o := s.right(s.end(t.other.x))
			b.Y.Deflection, b.Z.Deflection = (b.Y.Deflection+o.Y.Deflection)/2, (b.Z.Deflection+o.Z.Deflection)/2
		}
		gap := resultant(b.Y.Deflection+r.Fy*t.compliance-ground.Move[0], b.Z.Deflection+r.Fz*t.compliance-ground.Move[1])
		most = max(most, relative(gap, deflection))
	}
	return most
}

// relative is part over whole, 0 if there is no part.
func relative(part, whole float64) float64 {
	if part == 0 {
		return 0
	}
	return part / whole
}

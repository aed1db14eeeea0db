package gearbox

// lean is how a gear leans on its shaft when it sits on a bearing with clearance: slopes in the planes xy and xz, rad.
//
// The gear is stiff and rests on the two ends of its seat. force is what it puts on the shaft, couple what it puts on it about the middle of the
// seat (in the planes, conjugate to the slopes). Each end carries half the force and its share of the couple,
//
//	R = F/2 ∓ M/L
//
// and moves along its own load by half the clearance, and by the give of its bearing: e = (s/2) R/|R| + R/k. The gear leans by (e₂ − e₁)/L,
// which can't exceed s/L but for the give. Derived from equilibrium; no published treatment was found.
func (s *Seat) lean(force, couple point) point {
	half, turn := force.scaled(0.5), couple.scaled(1/s.Length)
	return s.move(half.plus(turn)).minus(s.move(half.minus(turn))).scaled(1 / s.Length)
}

// move is how far an end of the seat moves under its load, mm.
func (s *Seat) move(load point) point {
	size := load.norm()
	if size == 0 {
		return point{}
	}
	distance := s.Clearance / 2
	if s.Stiffness > 0 {
		distance += size / s.Stiffness
	}
	return load.scaled(distance / size)
}

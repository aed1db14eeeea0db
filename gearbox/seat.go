package gearbox

import "math"

// lean is how a gear leans on its shaft when it sits on a bearing with clearance: slopes in the planes xy and xz, rad; and how that answers the couple, by rows, rad/(N·mm).
//
// The gear is stiff and rests on the two ends of its seat. force is what it puts on the shaft, couple what it puts on it about the middle of the
// seat (in the planes, conjugate to the slopes). Each end carries half the force and its share of the couple,
//
//	R = F/2 ∓ M/L
//
// and moves along its own load by half the clearance, and by the give of its bearing: e = (s/2) R/|R| + R/k. The gear leans by (e₂ − e₁)/L,
// which can't exceed s/L but for the give. An end under a load of the order of small, N, floats in its play. Derived from equilibrium; no published treatment was found.
func (s *Seat) lean(force, couple point, small float64) (lean point, give [2]point) {
	one, other := s.ends(force, couple)
	first, softFirst := s.move(one, small)
	second, softSecond := s.move(other, small)
	for i := range 2 {
		lean[i] = (second[i] - first[i]) / s.Length
		for j := range 2 {
			give[i][j] = (softFirst[i][j] + softSecond[i][j]) / (s.Length * s.Length)
		}
	}
	return lean, give
}

// ends are the loads on the two ends, N.
func (s *Seat) ends(force, couple point) (first, second point) {
	half, turn := force.scaled(0.5), couple.scaled(1/s.Length)
	return half.minus(turn), half.plus(turn)
}

// energy is what both ends store, N·mm: its gradient by the couple is the lean.
func (s *Seat) energy(force, couple point, small float64) (sum float64) {
	first, second := s.ends(force, couple)
	for _, load := range [2]point{first, second} {
		square := load.dot(load)
		sum += s.Clearance / 2 * math.Sqrt(square+small*small)
		if s.Stiffness > 0 {
			sum += square / 2 / s.Stiffness
		}
	}
	return sum
}

// move is how far an end of the seat moves under its load, mm, and how that answers the load, by rows, mm/N.
func (s *Seat) move(load point, small float64) (moved point, give [2]point) {
	soft := 0.0
	if s.Stiffness > 0 {
		soft = 1 / s.Stiffness
	}
	size := math.Sqrt(load[0]*load[0] + load[1]*load[1] + small*small)
	if size == 0 {
		return point{}, [2]point{{soft, 0}, {0, soft}}
	}
	play := s.Clearance / 2 / size
	for i := range 2 {
		moved[i] = load[i] * (play + soft)
		for j := range 2 {
			give[i][j] = -play * load[i] * load[j] / (size * size)
		}
		give[i][i] += play + soft
	}
	return moved, give
}

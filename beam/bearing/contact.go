package bearing

import "math"

// Constants of the contact laws, steel on steel, both raceways together.
const (
	ballCompliance = 4.36e-4 // mm^(4/3)/N^(2/3)
	lineCompliance = 7.68e-5 // mm^1.8/N^0.9
)

// BallApproach is how far the two rings close on a ball, mm, both raceways together, under a load
// in N on a ball of the given diameter in mm.
//
//	δ = 4.36·10⁻⁴ (Q²/D)^(1/3)
//
// Source: A. Palmgren, Ball and Roller Bearing Engineering, 3rd edition, 1959: 0.0020 (Q²/D)^(1/3)
// for Q in kgf, turned into N; written down from memory. It holds for steel and usual grooves
// (radius about 0.52 of the ball diameter).
func BallApproach(load, diameter float64) float64 {
	return ballCompliance * math.Cbrt(load*load/diameter)
}

// BallLoad is the inverse of BallApproach: the load in N that closes the rings by approach, mm, on a
// ball of the given diameter, mm. There is none where they do not touch (approach ≤ 0).
func BallLoad(approach, diameter float64) float64 {
	if approach <= 0 {
		return 0
	}
	c := approach / ballCompliance
	return c * math.Sqrt(c*diameter)
}

// LineApproach is how far the two rings close on a roller, mm, both raceways together, under a load
// in N on a roller of the given effective length, mm. The roller's diameter hardly matters and is
// not in it.
//
//	δ = 7.68·10⁻⁵ Q^0.9 / l^0.8
//
// Source: A. Palmgren, Ball and Roller Bearing Engineering, 3rd edition, 1959: 0.0006 Q^0.9/l^0.8
// for Q in kgf, turned into N; written down from memory.
func LineApproach(load, length float64) float64 {
	return lineCompliance * math.Pow(load, 0.9) / math.Pow(length, 0.8)
}

// LineLoad is the inverse of LineApproach: the load in N that closes the rings by approach, mm, on a
// roller of the given effective length, mm. There is none where they do not touch (approach ≤ 0).
func LineLoad(approach, length float64) float64 {
	if approach <= 0 {
		return 0
	}
	c := approach / lineCompliance
	return c * ninthRoot(c) * math.Pow(length, 8./9)
}

// ninthRoot is x^(1/9), x > 0. Logarithm and exponential are quicker than a power, and this is the innermost loop.
func ninthRoot(x float64) float64 { return math.Exp(math.Log(x) / 9) }

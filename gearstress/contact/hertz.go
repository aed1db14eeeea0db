package contact

import "math"

// ElasticCoefficient is the elasticity factor Z_E of two materials, √MPa:
//
//	Z_E = √( 1 / (π [(1 − ν1²)/E1 + (1 − ν2²)/E2]) )
//
// with Young's moduli E (MPa) and Poisson's ratios ν (–). Steel on steel gives
// 189.8; AGMA practice rounds its own value up by 0.4 %.
// Source: ISO 6336-2:2006, elasticity factor.
func ElasticCoefficient(e1, nu1, e2, nu2 float64) float64 {
	return 1 / math.Sqrt(math.Pi*((1-nu1*nu1)/e1+(1-nu2*nu2)/e2))
}

// Line is the Hertz pressure of two cylinders pressed together along a line: the
// peak pressure (MPa) in the middle and half the width of the strip of contact
// (mm),
//
//	p_max = Z_E √(w / ρ)      half width = 2 w / (π p_max)
//
// load is w ≥ 0 per length of line (N/mm); radius is the relative radius of
// curvature ρ > 0 (mm), see RelativeRadius; ze is the elasticity factor (√MPa).
// With no load both results are 0.
// Source: Johnson, Contact Mechanics, 1985, eqs 4.43 and 4.45.
func Line(load, radius, ze float64) (peak, halfWidth float64) {
	if load == 0 {
		return 0, 0
	}
	peak = ze * math.Sqrt(load/radius)
	return peak, 2 * load / (math.Pi * peak)
}

// RelativeRadius is the relative radius of curvature ρ of two cylinders, mm:
//
//	1/ρ = 1/ρ1 + 1/ρ2
//
// from their radii (mm), positive when convex, negative when hollow.
// Source: Johnson, Contact Mechanics, 1985, eq. 4.3.
func RelativeRadius(r1, r2 float64) float64 { return r1 * r2 / (r1 + r2) }

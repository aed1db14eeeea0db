package iso6336

import (
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// zoneFactor is Z_H, –: curvature of the flanks at the pitch point, and from the
// tangential force at the reference circle to the normal force.
//
//	Z_H = √(2 cos β_b cos α_wt/(cos²α_t sin α_wt))
//
// Source: ISO 6336-2:2006 and 2019, clause 6.
func zoneFactor(p *involute.Pair) float64 {
	sinW, cosW := math.Sincos(p.WorkingPressureAngle)
	cosT := math.Cos(p.TransversePressureAngle)
	return math.Sqrt(2 * math.Cos(p.BaseHelix) * cosW / (cosT * cosT * sinW))
}

// elasticityFactor is Z_E, √MPa, from Young's moduli (MPa) and Poisson's ratios
// of both gears.
//
//	Z_E = √(1/(π ((1 − ν1²)/E1 + (1 − ν2²)/E2)))
//
// Source: ISO 6336-2:2006 and 2019, clause 7.
func elasticityFactor(a, b Strength) float64 {
	return math.Sqrt(1 / (math.Pi * ((1-a.Poisson*a.Poisson)/a.Young + (1-b.Poisson*b.Poisson)/b.Young)))
}

// contactRatioFactor is Z_ε, –, from ε_α and ε_β: how many teeth share the load.
//
//	spur:      √((4 − ε_α)/3)
//	ε_β < 1:   √((4 − ε_α)(1 − ε_β)/3 + ε_β/ε_α)
//	ε_β ≥ 1:   √(1/ε_α)
//
// Source: ISO 6336-2:2006 and 2019, clause 8.
func contactRatioFactor(epsA, epsB float64) float64 {
	if epsB >= 1 {
		return math.Sqrt(1 / epsA)
	}
	return math.Sqrt((4-epsA)*(1-epsB)/3 + epsB/epsA)
}

// singleContactFactor is M_1 (M_2 for i = 1), –: the contact stress where tooth i
// comes to carry alone, near its root, over that at the pitch point.
//
//	M_1 = tan α_wt/√{[√((d_a1/d_b1)² − 1) − 2π/z_1] [√((d_a2/d_b2)² − 1) − (ε_α − 1) 2π/z_2]}
//
// The second bracket is the curvature of the other flank at the same point. It
// is taken here as the rest of the line of action, which is the same thing as long as
// contact reaches to the other gear's tip, and still right where an undercut stops it.
// Source: ISO 6336-2:2006 and 2019, clause 6 (Z_B, Z_D).
func singleContactFactor(p *involute.Pair, i int) (float64, error) {
	line := p.Centre * math.Sin(p.WorkingPressureAngle)
	pitch := math.Pi * p.Base[i] / float64(p.Teeth[i])
	own := math.Sqrt((p.Tip[i]-p.Base[i])*(p.Tip[i]+p.Base[i]))/2 - pitch
	other := line - own
	if own <= 0 || other <= 0 {
		return 0, fmt.Errorf("single contact would begin at the base circle (radii of curvature %.4g and %.4g mm), where the contact stress has no limit: check tip diameters and profile shifts", own, other)
	}
	return math.Tan(p.WorkingPressureAngle) * math.Sqrt(p.Base[0]*p.Base[1]/(4*own*other)), nil
}

// Relief says how the profiles are corrected against load (tip relief), for
// the factor f_ZCa of helical gears in the 2019 edition. Crowning along the face is not meant.
type Relief int

// The zero value is the careful one.
const (
	NoRelief       Relief = iota // not corrected
	UsualRelief                  // corrected by the maker's experience
	VerifiedRelief               // correction proven by a calculation of the load on the flank
)

// reliefFactor is f_ZCa, –: 1.2 without correction, 1.07 with the usual one, 1.0
// where it is proven. From memory of ISO 6336-2:2019, clause 6; no
// readable source was found.
func reliefFactor(r Relief) float64 {
	switch r {
	case UsualRelief:
		return 1.07
	case VerifiedRelief:
		return 1
	}
	return 1.2
}

// tipContactFactor is Z_B of the driver or Z_D of the driven gear, –, from M of
// that gear and ε_β.
//
//	spur:    M, at least 1
//	ε_β < 1: M − ε_β (M − Z_1), at least 1
//	ε_β ≥ 1: Z_1
//
// Z_1 is 1 in the 2006 edition and √f_ZCa in 2019 (from memory). Source:
// ISO 6336-2, clause 6.
func tipContactFactor(e Edition, m, epsB float64, r Relief) float64 {
	z1 := 1.0
	if e == Edition2019 {
		z1 = math.Sqrt(reliefFactor(r))
	}
	return max(1, m-min(epsB, 1)*(m-z1))
}

// relativeRadius is ρ_red, mm: relative radius of curvature at the pitch point in
// the transverse section, 1/ρ_red = 1/ρ_1 + 1/ρ_2 with ρ = ½ d_b tan α_wt.
// Source: ISO 6336-2:2006, clause 12 (Z_R).
func relativeRadius(p *involute.Pair) float64 {
	half := math.Tan(p.WorkingPressureAngle) / 2
	return half * p.Base[0] * p.Base[1] / (p.Base[0] + p.Base[1])
}

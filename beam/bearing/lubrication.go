package bearing

import "math"

// Lubrication is what decides how much longer, or shorter, than its basic life a bearing lasts.
type Lubrication struct {
	Viscosity   float64 // of the oil as it is when running, mm²/s
	Cleanliness float64 // e_C of ISO 281, –: 1 = as clean as can be, 0.5 slight dirt, 0.1 heavy, 0 filthy
}

// ReferenceViscosity is ν₁, mm²/s: what keeps the surfaces of a bearing of a pitch diameter, mm, apart at a speed,
// revolutions per minute.
//
//	ν₁ = 45000 n^−0.83 D_pw^−0.5 below 1000 rpm, 4500 n^−0.5 D_pw^−0.5 from there
//
// Both branches differ by 2.3 % where they meet. Source: ISO 281:2007, 9.3.3.3, from memory.
func ReferenceViscosity(speed, pitch float64) float64 {
	if speed < 1000 {
		return 45000 * math.Pow(speed, -0.83) / math.Sqrt(pitch)
	}
	return 4500 / math.Sqrt(speed*pitch)
}

// Bounds of the life factor a_ISO.
const (
	leastFactor, mostFactor = 0.1, 50
	leastRatio, mostRatio   = 0.1, 4 // of the viscosity ratio κ
)

// SystemFactor is a_ISO, by which the modified life differs from the basic one, of a radial bearing with a viscosity
// ratio κ = ν/ν₁ and q = e_C C_u/P.
//
//	ball   0.1 (1 − (2.5671 − c/κ^g)^0.83 q^(1/3))^−9.3
//	roller 0.1 (1 − (1.5859 − c/κ^g) q^0.4)^−9.185
//
// κ counts up to 4; below 0.1 the standard has no value and 0.1 is taken. It is never above 50. Source: ISO 281:2007,
// 9.3.3.4, from memory; the branches meet within 0.02 %.
func SystemFactor(kind Kind, ratio, q float64) float64 {
	if ratio < leastRatio {
		return leastFactor
	}
	c, power := [2]float64{1.9987, 1.2348}, 0.071739
	switch ratio = min(ratio, mostRatio); {
	case ratio < 0.4:
		c, power = [2]float64{2.2649, 1.3993}, 0.054381
	case ratio < 1:
		power = 0.19087
	}
	drop := math.Pow(ratio, -power)
	var base, exponent float64
	if kind == Ball {
		base, exponent = 1-math.Pow(2.5671-c[0]*drop, 0.83)*math.Cbrt(q), -9.3
	} else {
		base, exponent = 1-(1.5859-c[1]*drop)*math.Pow(q, 0.4), -9.185
	}
	if base <= 0 {
		return mostFactor
	}
	return min(mostFactor, 0.1*math.Pow(base, exponent))
}

// FatigueLimit is C_u, the load below which clean and well oiled bearings of usual size (pitch diameter up to 100 mm)
// never tire, from the static rating C₀, in its unit.
//
//	C_u = C₀/22 of balls, C₀/8.2 of rollers
//
// Source: ISO 281:2007, annex B, from memory.
func FatigueLimit(kind Kind, static float64) float64 {
	if kind == Ball {
		return static / 22
	}
	return static / 8.2
}

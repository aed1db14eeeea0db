package iso6336

import "math"

// loadSharing is f_ε, –: how far other teeth help the one at its outer point of
// single contact, from ε_αn and ε_β.
//
//	ε_β = 0:     1 for ε_αn < 2, else 0.7
//	0 < ε_β < 1: √(1 − ε_β + ε_β/ε_αn) for ε_αn < 2, else √((1 − ε_β)/2 + ε_β/ε_αn)
//	ε_β ≥ 1:     1/√ε_αn
//
// With ε_αn ≥ 2 the standard itself jumps from 0.7 to 0.707 as a helix appears.
// Source: ISO 6336-3:2019, clause 6.
func loadSharing(epsAn, epsB float64) float64 {
	switch {
	case epsB >= 1:
		return 1 / math.Sqrt(epsAn)
	case epsAn < 2:
		return math.Sqrt(1 - epsB + epsB/epsAn)
	case epsB == 0:
		return 0.7
	}
	return math.Sqrt((1-epsB)/2 + epsB/epsAn)
}

// rootHelixFactor is Y_β, –, from ε_β (counted up to 1) and the helix angle β in
// rad (counted up to 30°).
//
//	Y_β = 1 − ε_β β/120°                in the 2006 edition
//	Y_β = (1 − ε_β β/120°)/cos³β        in the 2019 edition
//
// Source: ISO 6336-3:2006 and 2019, clause 8.
func rootHelixFactor(e Edition, epsB, helix float64) float64 {
	helix = min(helix, math.Pi/6)
	y := 1 - min(epsB, 1)*helix/(2*math.Pi/3)
	if e == Edition2019 {
		c := math.Cos(helix)
		y /= c * c * c
	}
	return y
}

// thinnestRim is the rim under the tooth, in tooth heights, down to which Y_B is given.
const thinnestRim = 0.5

// rimFactor is Y_B, –, from rim thickness under the tooth and tooth height, both mm;
// a rim of 0 is a solid body.
//
//	Y_B = 1.6 ln(2.242 h_t/s_R) below s_R/h_t = 1.2, else 1
//
// The standard gives it down to s_R/h_t = 0.5 and asks to avoid thinner rims; the
// formula is carried on there and a note is written.
// Source: ISO 6336-3:2006 and 2019, clause 9, external gears.
func rimFactor(rim, height float64) float64 {
	if rim == 0 || rim >= 1.2*height {
		return 1
	}
	return max(1, 1.6*math.Log(2.242*height/rim))
}

// deepToothFactor is Y_DT, –, from ε_αn and the accuracy grade (0 = not known).
//
//	grade 4 or better: −0.666 ε_αn + 2.366 for 2.05 < ε_αn ≤ 2.5, then 0.7
//	otherwise 1
//
// Source: ISO 6336-3:2006 and 2019, clause 10.
func deepToothFactor(epsAn float64, grade int) float64 {
	if grade == 0 || grade > 4 || epsAn <= 2.05 {
		return 1
	}
	if epsAn > 2.5 {
		return 0.7
	}
	return -0.666*epsAn + 2.366
}

package agma2001

import (
	"fmt"
	"math"
)

// Exact conversions.
const (
	inch = 25.4                 // mm
	foot = 304.8                // mm
	psi  = 6.894757293168361e-3 // MPa
)

// SteelElasticCoefficient is the elastic coefficient C_p (Z_E) that AGMA practice takes for
// steel on steel, √MPa: 2300 √psi. The exact value for E = 30·10⁶ psi and ν = 0.3 is 2290.6
// √psi (190.2), ISO 6336 has 189.8: a difference of 0.4 to 0.6 % in contact stress that is no
// error. Source: ANSI/AGMA 2001-D04, elastic coefficient (from memory).
const SteelElasticCoefficient = 2300 * 0.0830346752

// Range of the transmission accuracy number for which K_v has a formula.
const leastQuality, mostQuality = 5, 11

// QualityOfAccuracy is the transmission accuracy number Q_v, –, that goes with an
// accuracy grade A_v (low numbers are good), as D04 counts: Q_v = 17 − A_v. A_v is
// the grade of ANSI/AGMA 2015-1, which agrees with that of ISO 1328-1 to within one
// grade. Kept to 5 to 11, for which K_v has a formula: finer gears get that of 11.
// Source: ANSI/AGMA 2001-D04, dynamic factor (from memory).
func QualityOfAccuracy(grade float64) float64 { return min(max(17-grade, leastQuality), mostQuality) }

// dynamicConstants are A (√(ft/min)) and B (–) of K_v.
func dynamicConstants(quality float64) (a, b float64) {
	b = 0.25 * math.Pow(12-quality, 2.0/3)
	return 50 + 56*(1-b), b
}

// DynamicFactor is K_v, ≥ 1, –, from the transmission accuracy number Q_v (–, 5 to 11, high
// is good) and the pitch line speed (mm/s, ≥ 0):
//
//	K_v = ((A + √V)/A)^B,  B = 0.25 (12 − Q_v)^(2/3),  A = 50 + 56 (1 − B),  V in ft/min
//
// The metric form prints √(200 v) for √(196.85 v), v in m/s; the exact one is taken. A speed
// above DynamicLimit is an error. Source: ANSI/AGMA 2001-D04, dynamic factor (D04 writes it
// with A_v = 17 − Q_v).
func DynamicFactor(quality, speed float64) (float64, error) {
	if !(quality >= leastQuality && quality <= mostQuality) {
		return 0, fmt.Errorf("transmission accuracy number Q_v is %v; K_v is given for %d to %d (car gears: about 8 to 11; it counts the other way round from ISO grades)", quality, leastQuality, mostQuality)
	}
	if limit := DynamicLimit(quality); !(speed >= 0 && speed <= limit) {
		return 0, fmt.Errorf("pitch line speed is %.4g m/s; K_v of Q_v = %g is given for 0 to %.4g m/s: check speed and accuracy", speed/1000, quality, limit/1000)
	}
	a, b := dynamicConstants(quality)
	return math.Pow((a+math.Sqrt(speed*60/foot))/a, b), nil
}

// DynamicLimit is the highest pitch line speed (mm/s) for which K_v is given at Q_v (–, 5 to 11):
// (A + Q_v − 3)² ft/min. Source: ANSI/AGMA 2001-D04, dynamic factor.
func DynamicLimit(quality float64) float64 {
	a, _ := dynamicConstants(quality)
	v := a + quality - 3
	return v * v * foot / 60
}

// leastBackup is the backup ratio down to which the figure of K_B is drawn.
const leastBackup = 0.5

// RimFactor is K_B, –, from the backup ratio m_B, rim thickness under the tooth over tooth height
// (–, ≥ 0.5):
//
//	K_B = 1.6 ln(2.242/m_B) for m_B < 1.2, else 1
//
// Source: ANSI/AGMA 2001-D04, rim thickness factor (its lower end from memory).
func RimFactor(backup float64) (float64, error) {
	if !(backup >= leastBackup) {
		return 0, fmt.Errorf("rim under the teeth is %v tooth heights thick (m_B); K_B is given from %g on: thinner rims need another method", backup, leastBackup)
	}
	if backup >= 1.2 {
		return 1, nil
	}
	return max(1, 1.6*math.Log(2.242/backup)), nil
}

// reliabilities is the standard's table of K_R. Source: ANSI/AGMA 2001-D04, reliability factors.
var reliabilities = [...]struct{ share, factor float64 }{{0.5, 0.70}, {0.9, 0.85}, {0.99, 1.00}, {0.999, 1.25}, {0.9999, 1.50}}

// ReliabilityFactor is K_R, –, for the share R of gears (–, 0.5 to 0.9999) that outlast their life:
// the standard's table where it has a row, and between its rows a fit to it,
//
//	K_R = 0.658 − 0.0759 ln(1 − R) for R < 0.99, 0.50 − 0.109 ln(1 − R) above
//
// which is within 0.02 of the rows. Source of the fit: Budynas and Nisbett, Shigley's Mechanical
// Engineering Design, 8th ed., eq. 14-38.
func ReliabilityFactor(r float64) (float64, error) {
	if !(r >= 0.5 && r <= 0.9999) {
		return 0, fmt.Errorf("reliability is %v; K_R is given for 0.5 to 0.9999 (0.99 is one failure in 100)", r)
	}
	for _, row := range reliabilities {
		if r == row.share {
			return row.factor, nil
		}
	}
	if r < 0.99 {
		return 0.658 - 0.0759*math.Log(1-r), nil
	}
	return 0.50 - 0.109*math.Log(1-r), nil
}

// WorkHardeningThrough is the hardness ratio factor C_H of the wheel, ≥ 1, –, when both gears are
// through-hardened, from their Brinell hardnesses (HBW, > 0) and the gear ratio m_G ≥ 1 (–):
//
//	C_H = 1 + A' (m_G − 1),  A' = 8.98·10⁻³ HB_P/HB_G − 8.29·10⁻³
//
// with A' = 0 below a hardness ratio of 1.2, and 0.00698 above 1.7. Source: ANSI/AGMA
// 2001-D04, hardness ratio factor (limits from memory).
func WorkHardeningThrough(pinion, wheel, ratio float64) float64 {
	a := 0.0
	switch k := pinion / wheel; {
	case k > 1.7:
		a = 0.00698
	case k > 1.2-1e-9:
		a = 8.98e-3*k - 8.29e-3
	}
	return 1 + a*(ratio-1)
}

// WorkHardeningSurface is the hardness ratio factor C_H of a through-hardened wheel, ≥ 1, –, that runs
// with a pinion of 48 HRC or more, from the roughness R_a of the pinion (mm) and the Brinell
// hardness of the wheel (HBW, 180 to 400):
//
//	C_H = 1 + B' (450 − HB_G),  B' = 0.00075 e^(−0.0112 f_p),  f_p in µin
//
// Source: ANSI/AGMA 2001-D04, hardness ratio factor (from memory).
func WorkHardeningSurface(roughness, wheel float64) float64 {
	return 1 + max(0, 450-wheel)*0.00075*math.Exp(-0.0112*roughness/inch*1e6)
}

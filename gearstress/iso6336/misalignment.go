package iso6336

import (
	"fmt"
	"math"
)

// HelixSlopeTolerance is f_HβT, mm, how far a flank may lean along the face by its accuracy grade (1 to 11), from the
// reference diameter and the face width, mm, not rounded.
//
//	f_HβT = (0.05 √d + 0.35 √b + 4) (√2)^(A−5) µm
//
// Source: ISO 1328-1:2013, 5.3; from memory.
func HelixSlopeTolerance(d, face float64, grade int) (float64, error) {
	if grade < finestGrade || grade > coarsestGrade {
		return 0, fmt.Errorf("accuracy grade is %d; expected %d to %d of ISO 1328-1:2013", grade, finestGrade, coarsestGrade)
	}
	if !(d > 0 && face > 0) || math.IsInf(d+face, 0) {
		return 0, fmt.Errorf("reference diameter is %v mm and face width %v mm; both must be numbers above 0", d, face)
	}
	return (0.05*math.Sqrt(d) + 0.35*math.Sqrt(face) + 4) * gradeFactor(grade) / 1000, nil
}

// ManufacturingMisalignment is f_ma, mm over the face, ≥ 0: by how much two gears lie askew before any load, from the
// helix slope deviations f_Hβ of both, mm. Either sign may come; the worse counts. Where the contact pattern was checked
// and the parts chosen or adjusted by it, about half is left.
//
//	f_ma = √(f_Hβ1² + f_Hβ2²), half of it with a pattern checked
//
// Source: ISO 6336-1:2006, 7.5, methods for f_ma (from memory; the half is a round figure for a checked pattern).
func ManufacturingMisalignment(slopes [2]float64, checked bool) float64 {
	f := math.Hypot(slopes[0], slopes[1])
	if checked {
		return f / 2
	}
	return f
}

// HelixRunningIn is y_β, mm over the face: how much of an initial equivalent misalignment F_βx (mm, ≥ 0) wears off in a
// mesh of gears of these strengths at pitch line velocity v (mm/s). Each gear would take
//
//	St, V:          320/σ_Hlim · F_βx; at most F_βx, 25600/σ_Hlim µm above 5 m/s, 12800/σ_Hlim above 10 m/s
//	Eh, IF, NT, NV: 0.15 F_βx, at most 6 µm
//
// and the mesh the mean of both. What is left is F_βy = F_βx − y_β. Source: ISO 6336-1:2006, 7.4 (y_β); from memory.
func HelixRunningIn(gears [2]Strength, misalignment, v float64) float64 {
	return (helixRunningIn(gears[0], misalignment, v) + helixRunningIn(gears[1], misalignment, v)) / 2
}

func helixRunningIn(s Strength, misalignment, v float64) float64 {
	if s.Group.ThroughHardened() {
		return wornOff(min(1, 320/s.Contact), 25.6/s.Contact, 12.8/s.Contact, misalignment, v)
	}
	return min(0.15*misalignment, 0.006)
}

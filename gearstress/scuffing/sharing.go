package scuffing

import "math"

// sharing tells how the load is shared between pairs of teeth.
type sharing struct {
	path     *path
	outer    float64 // X_Γ at A and E of a spur pair, –
	helical  float64 // weight of the wide helical pair, 0 to 1
	buttress float64 // X_but at A and E, –
	ramp     float64 // length over which X_but falls to 1, mm
	excess   float64 // C_eff − C_a of the driven gear, at least 0, µm
}

// newSharing prepares load sharing and approach factor. grade is Q of ISO 1328-1,
// excess the tip relief that is missing on the driven gear, µm.
func newSharing(w *path, grade int, excess float64) sharing {
	overlap := w.pair.OverlapRatio
	return sharing{
		path: w, excess: excess,
		outer:    min(float64(max(grade, 7)-2)/15, 1),
		helical:  min(max((overlap-0.8)/0.4, 0), 1),
		buttress: 1 + 0.3*min(overlap, 1),
		ramp:     0.2 * math.Sin(w.pair.BaseHelix) * w.pitchRadius[w.pinion()],
	}
}

// at is the load sharing factor X_Γ, –, at a distance s from C (mm). inside says
// on which side of a jump s is meant: it is any point of the same stretch.
//
// Spur pair without relief, Q the accuracy grade, at least 7:
//
//	A to B:  X_Γ = (Q − 2)/15 + ⅓ (Γ − Γ_A)/(Γ_B − Γ_A)
//	B to D:  X_Γ = 1
//	D to E:  X_Γ = (Q − 2)/15 + ⅓ (Γ_E − Γ)/(Γ_E − Γ_D)
//
// never more than 1. Helical: narrow (ε_β ≤ 0.8) X_but times that, wide (ε_β ≥ 1.2)
// X_but/ε_α, between the two in a straight line. X_but = 1 + 0.3 ε_β (ε_β at most 1)
// at A and E, falling to 1 over ΔΓ = 0.2 sin β_b of the pinion. Source: ISO/TS
// 6336-20:2017, load sharing factor, from memory. Contact ratios of 2 and more are
// not recalled; ⅔ all along is taken for spur pairs then (ours; two pairs carry at least).
func (h sharing) at(s, inside float64) float64 {
	w := h.path
	spur := 1.0
	switch {
	case w.contactRatio() >= 2:
		spur = 2.0 / 3
	case inside < w.b:
		spur = min(h.outer+(s-w.a)/(w.b-w.a)/3, 1)
	case inside > w.d:
		spur = min(h.outer+(w.e-s)/(w.e-w.d)/3, 1)
	}
	x := spur
	if h.helical > 0 {
		x += h.helical * (1/w.contactRatio() - spur)
	}
	if h.ramp > 0 {
		x *= 1 + (h.buttress-1)*max(0, 1-min(s-w.a, w.e-s)/h.ramp)
	}
	return x
}

// approach is the approach factor X_J, –, at a distance s from C (mm): teeth that
// bend under load meet early with a shock, unless the tip of the driven gear is relieved.
//
//	X_J = 1 + (C_eff − C_a)/50 µm · (−Γ/(Γ_E − Γ_A))³  before C, 1 after it
//
// Source: ISO/TS 6336-20:2017, approach factor, from memory.
func (h sharing) approach(s float64) float64 {
	if s >= 0 {
		return 1
	}
	part := -s / (h.path.e - h.path.a)
	return 1 + h.excess/50*part*part*part
}

// effectiveRelief is C_eff, the tip relief that makes up for the bending of the
// teeth, mm, from K_A F_t/b (N/mm) and c_γ (N/mm²):
//
//	C_eff = K_A F_t/(b c_γ cos α_t)
//
// Source: ISO/TS 6336-20:2017, optimal tip relief, from memory.
func effectiveRelief(load, stiffness, alphaT float64) float64 {
	return load / (stiffness * math.Cos(alphaT))
}

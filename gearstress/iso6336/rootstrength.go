package iso6336

import (
	"math"

	"layshaft/material"
)

// slipLayer is ρ', mm, thickness of the layer in which the material can slip; it settles
// how sensitive the steel is to a notch. yield is σ_S or σ_0.2, MPa, read for
// steels without a hard surface. Between the rows of the table its
// logarithm is interpolated, outside it is held.
// Source: ISO 6336-3:2006 and 2019, Table of ρ' (method B of Y_δrelT); from memory.
func slipLayer(g material.Group, yield float64) float64 {
	type row struct{ yield, layer float64 }
	table := []row{{500, 0.0281}, {600, 0.0194}, {800, 0.0064}, {1000, 0.0014}} // V
	switch {
	case g == material.GroupCaseHardened || g == material.GroupSurfaceHardened:
		return 0.0030
	case g.Nitrided():
		return 0.1005
	case g == material.GroupNormalised:
		table = []row{{300, 0.0833}, {400, 0.0445}}
	}
	if yield <= table[0].yield {
		return table[0].layer
	}
	for i, r := range table[1:] {
		if prev := table[i]; yield <= r.yield {
			part := (yield - prev.yield) / (r.yield - prev.yield)
			return prev.layer * math.Pow(r.layer/prev.layer, part)
		}
	}
	return table[len(table)-1].layer
}

// notchSensitivity is Y_δrelT for the reference stress (long life), –, from the
// notch parameter q_s.
//
//	Y_δrelT = (1 + √(ρ' χ*))/(1 + √(ρ' χ*_T)), χ* = (1 + 2 q_s)/5, χ*_T = 1.2 (q_sT = 2.5)
//
// Source: ISO 6336-3:2006 and 2019, clause 13, method B; from memory.
func notchSensitivity(s Strength, qs float64) float64 {
	layer := slipLayer(s.Group, s.Yield)
	return (1 + math.Sqrt(layer*(1+2*qs)/5)) / (1 + math.Sqrt(layer*1.2))
}

// staticNotchSensitivity is Y_δrelT for the static stress, –, from Y_S: up to the first crack
// for hard surfaces, up to yield for others.
//
//	Eh, IF: 0.44 Y_S + 0.12
//	NT, NV: 0.20 Y_S + 0.60
//	St:     (1 + 0.93 (Y_S − 1) (200/σ_S)^¼)/(1 + 0.93 (200/σ_S)^¼)
//	V:      (1 + 0.82 (Y_S − 1) (300/σ_0.2)^¼)/(1 + 0.82 (300/σ_0.2)^¼)
//
// Source: ISO 6336-3:2006 and 2019, clause 13, static stress; from memory.
func staticNotchSensitivity(s Strength, ys float64) float64 {
	blunt := func(a, ref float64) float64 {
		k := a * math.Pow(ref/s.Yield, 0.25)
		return (1 + (ys-1)*k) / (1 + k)
	}
	switch g := s.Group; {
	case g == material.GroupCaseHardened || g == material.GroupSurfaceHardened:
		return 0.44*ys + 0.12
	case g.Nitrided():
		return 0.20*ys + 0.60
	case g == material.GroupNormalised:
		return blunt(0.93, 200)
	}
	return blunt(0.82, 300)
}

// rootSurfaceFactor is Y_RrelT for long life, –, from the roughness R_z of the fillet, mm
// (in the formulas µm, up to 40).
//
//	V, Eh, IF: 1.674 − 0.529 (R_z + 1)^0.1,    1.12 below 1 µm
//	St:        5.306 − 4.203 (R_z + 1)^0.01,   1.07 below 1 µm
//	NT, NV:    4.299 − 3.259 (R_z + 1)^0.0058, 1.025 below 1 µm
//
// It is 1 for static stress. Source: ISO 6336-3:2006 and 2019, clause 14; from memory.
func rootSurfaceFactor(g material.Group, roughness float64) float64 {
	rz := min(roughness*1000, 40)
	smooth, top, slope, power := 1.12, 1.674, 0.529, 0.1
	switch {
	case g == material.GroupNormalised:
		smooth, top, slope, power = 1.07, 5.306, 4.203, 0.01
	case g.Nitrided():
		smooth, top, slope, power = 1.025, 4.299, 3.259, 0.0058
	}
	if rz < 1 {
		return smooth
	}
	return top - slope*math.Pow(rz+1, power)
}

// rootSizeFactor is Y_X for long life, –, from the normal module, mm.
//
//	St, V:          1.03 − 0.006 m_n for 5 < m_n < 30, then 0.85
//	Eh, IF, NT, NV: 1.05 − 0.01 m_n for 5 < m_n < 25, then 0.80
//
// It is 1 up to 5 mm and for static stress. Source: ISO 6336-3:2006 and 2019,
// clause 15; from memory.
func rootSizeFactor(g material.Group, module float64) float64 {
	if module <= 5 {
		return 1
	}
	if g.SurfaceHardened() {
		return max(0.80, 1.05-0.01*module)
	}
	return max(0.85, 1.03-0.006*module)
}

// Reversal says how a tooth is bent both ways, as that of an idler is.
type Reversal struct {
	// Share is the load on the less loaded flank over that on the other, 0 to 1: 0 is
	// bending one way only, 1 an idler.
	Share float64
	// Peened says that the fillets of a case-hardened gear are shot peened under control.
	Peened bool
}

// meanStressFactor is Y_M, –: what bending both ways takes off.
//
//	Y_M = 1/(1 − R (1 − M)/(1 + M)), R = −1.2 · share
//	M (long life / static): Eh 0.8 − 0.15 Y_S / 0.7; Eh peened 0.4 / 0.6; IF 0.4 / 0.6;
//	  NT, NV 0.3 / 0.3; steel without a hard surface 0.3 / 0.5
//
// Source: ISO 6336-3:2006, Annex B (mean stress influence factor); from memory.
func meanStressFactor(g material.Group, r Reversal, ys float64, static bool) float64 {
	if r.Share == 0 {
		return 1
	}
	m := [2]float64{0.4, 0.6} // IF
	switch g {
	case material.GroupCaseHardened:
		if !r.Peened {
			// Below 0 the mean stress would help more than none at all; only
			// notches sharper than Y_S is given for come there.
			m = [2]float64{max(0, 0.8-0.15*ys), 0.7}
		}
	case material.GroupNitridingSteel, material.GroupNitridedAlloy, material.GroupNitrocarburised:
		m = [2]float64{0.3, 0.3}
	case material.GroupNormalised, material.GroupCarbonHardened, material.GroupAlloyHardened:
		m = [2]float64{0.3, 0.5}
	}
	v := m[0]
	if static {
		v = m[1]
	}
	return 1 / (1 + 1.2*r.Share*(1-v)/(1+v))
}

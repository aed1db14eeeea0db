package iso6336

import "math"

// ramp is the value that goes linearly from a at 850 MPa to b at 1200 MPa of
// σ_Hlim and stays outside: the shape of C_ZL and C_ZR.
func ramp(limit, a, b float64) float64 {
	part := min(max((limit-850)/350, 0), 1)
	return a + part*(b-a)
}

// lubricantFactor is Z_L, –, from σ_Hlim of the softer gear, MPa, and the viscosity at
// 40 °C, mm²/s.
//
//	Z_L = C_ZL + 4 (1 − C_ZL)/(1.2 + 134/ν_40)²
//	C_ZL = 0.83 up to 850 MPa, σ_Hlim/4375 + 0.6357 up to 1200 MPa, then 0.91
//
// It is 1 for static stress. Source: ISO 6336-2:2006 and 2019, clause 12; from memory.
func lubricantFactor(limit, viscosity float64) float64 {
	c := ramp(limit, 0.83, 0.91)
	w := 1.2 + 134/viscosity
	return c + 4*(1-c)/(w*w)
}

// velocityFactor is Z_V, –, from σ_Hlim of the softer gear, MPa, and the pitch line
// velocity, mm/s (in the formula m/s).
//
//	Z_V = C_ZV + 2 (1 − C_ZV)/√(0.8 + 32/v), C_ZV = C_ZL + 0.02
//
// It is 1 for static stress. Source: ISO 6336-2:2006 and 2019, clause 12; from memory.
func velocityFactor(limit, v float64) float64 {
	c := ramp(limit, 0.85, 0.93)
	return c + 2*(1-c)/math.Sqrt(0.8+32/(v/1000))
}

// flankRoughnessFactor is Z_R, –, from σ_Hlim of the softer gear, MPa, the mean
// roughness R_z of both flanks and the relative radius ρ_red, both mm.
//
//	Z_R = (3/R_z10)^C_ZR, R_z10 = R_z (10/ρ_red)^⅓                       R_z in µm
//	C_ZR = 0.15 up to 850 MPa, 0.32 − 0.0002 σ_Hlim up to 1200 MPa, then 0.08
//
// It is 1 for static stress. Source: ISO 6336-2:2006 and 2019, clause 12; from memory.
func flankRoughnessFactor(limit, roughness, radius float64) float64 {
	rz10 := roughness * 1000 * math.Cbrt(10/radius)
	return math.Pow(3/rz10, ramp(limit, 0.15, 0.08))
}

// wear is what Z_W depends on.
type wear struct {
	self, mate           Strength
	wheel                bool    // whether this gear has more teeth
	ratio                float64 // u ≥ 1
	roughness, mateRough float64 // R_z of this flank and of the mate, mm
	radius               float64 // ρ_red, mm
	viscosity            float64 // ν_40, mm²/s
	velocity             float64 // mm/s
}

// workHardening is Z_W, –: what a soft flank gains from a harder mate. static is the value for
// static stress; ok is false where the hardness needed is not known and 1 is returned.
//
//	soft against a hard surface:
//	  long life: (1.2 − (HB − 130)/1700) (3/R_zH)^0.15, 130 ≤ HB ≤ 470
//	    R_zH = R_z,mate (10/ρ_red)^0.33 (R_z,mate/R_z)^0.66/(v ν_40/1500)^0.33, 3 to 16 µm
//	  static:    1.05 − (HB − 130)/6800
//	both through-hardened, the wheel only:
//	  1 + A (u − 1), A = 0.00898 HB_pinion/HB_wheel − 0.00829
//	  for hardness ratios 1.2 (below: A = 0) to 1.7 (above: A = 0.00698), u ≤ 20; static 1
//
// Source: ISO 6336-2:2006 and 2019, clause 13; from memory.
func workHardening(w wear) (fatigue, static float64, ok bool) {
	if !w.self.Group.ThroughHardened() {
		return 1, 1, true
	}
	switch {
	case w.mate.Group.SurfaceHardened():
		if w.self.Hardness == 0 {
			return 1, 1, false
		}
		hb := min(max(w.self.Hardness, 130), 470)
		mate := w.mateRough * 1000
		rzH := mate * math.Pow(10/w.radius, 0.33) * math.Pow(w.mateRough/w.roughness, 0.66) /
			math.Pow(w.velocity/1000*w.viscosity/1500, 0.33)
		rzH = min(max(rzH, 3), 16)
		return (1.2 - (hb-130)/1700) * math.Pow(3/rzH, 0.15), 1.05 - (hb-130)/6800, true
	case w.mate.Group.ThroughHardened() && w.wheel:
		if w.self.Hardness == 0 || w.mate.Hardness == 0 {
			return 1, 1, false
		}
		r := w.mate.Hardness / w.self.Hardness
		a := 0.0
		switch {
		case r > 1.7:
			a = 0.00698
		case r >= 1.2:
			a = 0.00898*r - 0.00829
		}
		return 1 + a*(min(w.ratio, 20)-1), 1, true
	}
	return 1, 1, true
}

// flankSizeFactor is Z_X, –: 1. Source: ISO 6336-2:2006 and 2019, clause 14, which names the influence
// and sets it to 1; from memory.
const flankSizeFactor = 1.0

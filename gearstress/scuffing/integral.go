package scuffing

import "math"

// Integral is the outcome of the integral temperature method.
type Integral struct {
	Friction float64 // μ_mC, mean friction coefficient at C, –; 0 for a standing gear
	KBg      float64 // K_Bγ, helical load factor, –
	Tip      float64 // Θ_flaE, flash at the tip of the pinion as if one pair bore all the load, K
	XE       float64 // X_E, running-in factor, –
	XQ       float64 // X_Q, approach factor, –
	XCa      float64 // X_Ca, tip relief factor, –
	XEps     float64 // X_ε, contact ratio factor, –
	Mean     float64 // Θ_flaint = Θ_flaE X_ε, mean flash, K
	Bulk     float64 // Θ_M, estimated bulk temperature of the teeth, °C
	Contact  float64 // Θ_int, integral temperature, °C
	Margin
}

// helicalFactor is K_Bγ, –, from the total contact ratio ε_γ: 1 up to 2, 1.3 from
// 3.5 on, between them 1 + 0.2 √((ε_γ − 2)(5 − ε_γ)). Spur pairs have 1. Source:
// ISO/TS 6336-21:2017, helical load factor, from memory.
func helicalFactor(total float64) float64 {
	switch {
	case total <= 2:
		return 1
	case total < 3.5:
		return 1 + 0.2*math.Sqrt((total-2)*(5-total))
	}
	return 1.3
}

// contactRatioFactor is X_ε, –: the mean flash along the path over the flash at the tip of
// the pinion, from the addendum contact ratios of pinion (e1) and wheel (e2). ok is false
// outside 1 ≤ ε_α < 3 or where the pitch point is not on the path. Source:
// ISO/TS 6336-21:2017, contact ratio factor, from memory.
func contactRatioFactor(e1, e2 float64) (x float64, ok bool) {
	sum := e1 + e2
	if !(e1 > 0.01 && e2 >= 0 && sum >= 1-1e-9 && sum < 3) {
		return 0, false
	}
	switch {
	case sum < 2 && e1 < 1 && e2 < 1:
		x = 0.70*(e1*e1+e2*e2) - 0.22*sum + 0.52 - 0.60*e1*e2
	case sum < 2 && e1 >= 1:
		x = 0.18*e1*e1 + 0.70*e2*e2 + 0.82*e1 - 0.52*e2 - 0.30*e1*e2
	case sum < 2:
		x = 0.70*e1*e1 + 0.18*e2*e2 - 0.52*e1 + 0.82*e2 - 0.30*e1*e2
	case e1 >= e2:
		x = 0.44*e1*e1 + 0.59*e2*e2 + 0.30*e1 - 0.30*e2 - 0.15*e1*e2
	default:
		x = 0.59*e1*e1 + 0.44*e2*e2 - 0.30*e1 + 0.30*e2 - 0.15*e1*e2
	}
	return x / (2 * sum * e1), true
}

// approachFactor is X_Q, –, from the contact ratios of approach ε_f and recess ε_a:
// 1 up to ε_f/ε_a = 1.5, 0.6 from 3 on, between them 1.40 − (4/15) ε_f/ε_a. Source:
// ISO/TS 6336-21:2017, approach factor, from memory.
func approachFactor(approach, recess float64) float64 {
	return min(1, max(0.6, 1.4-4.0/15*approach/recess))
}

// tipReliefFactor is X_Ca = 1 + 0.0155 ε_max⁴ C_a, –, from the larger addendum contact
// ratio (–) and the relief that counts, µm. Source: ISO/TS 6336-21:2017, tip relief
// factor, from memory. The standard chooses one gear's relief by ε_1/ε_2; the
// caller gives the smaller, which is never the cooler choice.
func tipReliefFactor(larger, relief float64) float64 {
	return 1 + 0.0155*math.Pow(larger, 4)*relief
}

// runningInFactor is X_E = 1 + (1 − φ_E) 30 Ra/ρ_redC, –, with φ_E 1 for flanks run
// in and 0 for new ones; Ra in µm, ρ_redC in mm. Source: ISO/TS 6336-21:2017,
// running-in factor, from memory.
func runningInFactor(runIn bool, roughness, radius float64) float64 {
	if runIn {
		return 1
	}
	return 1 + 30*roughness*1000/radius
}

// integral runs the integral temperature method; load is w_Bt, N/mm. It is nil where
// the contact ratio factor has no value.
//
//	Θ_flaE = μ_mC X_M X_BE X_αβ (K_Bγ w_Bt)^¾ √v/a^¼ · X_E/(X_Q X_Ca)
//	Θ_M = (Θ_oil + 0.7 X_mp Θ_flaint) X_S,  Θ_int = Θ_M + 1.5 Θ_flaint
//
// The product before X_E is worked out as what it stands for: Blok's flash at E under
// the load K_Bγ w_Bt. Source: ISO/TS 6336-21:2017, from memory.
func (c *mesh) integral(in *Input, load, eta, relief float64) *Integral {
	w := c.path
	p := w.pinion()
	addendum := w.addendum()
	e1, e2 := addendum[p], addendum[1-p]
	r := Integral{KBg: 1}
	var ok bool
	if r.XEps, ok = contactRatioFactor(e1, e2); !ok {
		return nil
	}
	if w.pair.BaseHelix > 0 {
		r.KBg = helicalFactor(w.contactRatio() + w.pair.OverlapRatio)
	}
	roughness := (in.Roughness[0] + in.Roughness[1]) / 2
	radius := w.relativeRadius(0)
	if sum := w.rolling(); sum > 0 {
		r.Friction = integralFriction(max(load, leastLoad)*r.KBg, sum, radius, eta, roughness, or(in.OilFactor, 1))
	}
	tip := w.e
	if p == 1 {
		tip = w.a
	}
	r.XE = runningInFactor(in.RunIn, roughness, radius)
	r.XQ = approachFactor(addendum[1], addendum[0])
	r.XCa = tipReliefFactor(max(e1, e2), relief)
	r.Tip = c.station(tip, r.KBg, 1, r.Friction).Flash * r.XE / (r.XQ * r.XCa)
	r.Mean = r.Tip * r.XEps
	cooling, mates := in.cooling()
	r.Bulk = (in.OilTemperature + 0.7*mates*r.Mean) * cooling
	r.Contact = r.Bulk + 1.5*r.Mean
	return &r
}

// rolling is the sum of rolling speeds at C, v_ΣC = 2 v_t sin α_wt, mm/s. Source:
// ISO/TS 6336-21:2017, from memory; plain kinematics.
func (w *path) rolling() float64 {
	return w.omega[0]*w.pitchRadius[0] + w.omega[1]*w.pitchRadius[1]
}

// cooling is X_S and X_mp = (1 + n_p)/2, both –. Source: ISO/TS 6336-20:2017 and
// -21:2017, lubrication and multiple mating factors, from memory.
func (in *Input) cooling() (lubrication, mates float64) {
	lubrication = 1
	if in.Spray {
		lubrication = 1.2
	}
	return lubrication, float64(1+or(in.Mates, 1)) / 2
}

package iso6336

import "math"

// Deviation is how far the teeth of a pair are from their ideal place and shape
// after running in.
type Deviation struct {
	Pitch   float64 // f_pb eff, effective base pitch deviation, mm
	Profile float64 // f_fα eff, effective profile form deviation, mm
}

// Accuracy grades of ISO 1328-1:2013.
const finestGrade, coarsestGrade = 1, 11

// gradeFactor is the step between a grade and grade 5, –: (√2)^(A − 5).
// Source: ISO 1328-1:2013, 5.3.
func gradeFactor(grade int) float64 { return math.Pow(math.Sqrt2, float64(grade-5)) }

// pitchTolerance is f_pT, single pitch tolerance in mm, from reference diameter
// and normal module, both mm, not rounded.
//
//	f_pT = (0.001 d + 0.4 m_n + 5) (√2)^(A−5) µm
//
// Source: ISO 1328-1:2013, 5.3; from memory.
func pitchTolerance(d, module float64, grade int) float64 {
	return (0.001*d + 0.4*module + 5) * gradeFactor(grade) / 1000
}

// profileFormTolerance is f_fαT, mm, from the normal module, mm, not rounded.
//
//	f_fαT = (0.55 m_n + 5) (√2)^(A−5) µm
//
// Source: ISO 1328-1:2013, 5.3; from memory.
func profileFormTolerance(module float64, grade int) float64 {
	return (0.55*module + 5) * gradeFactor(grade) / 1000
}

// runningIn is y_α (y_p, y_f), mm: how much of a deviation of dev mm wears off a flank
// with endurance limit σ_Hlim (MPa) at pitch line velocity v (mm/s).
//
//	St, V:          160/σ_Hlim · f; at most 12800/σ_Hlim µm above 5 m/s, 6400/σ_Hlim above 10 m/s
//	Eh, IF, NT, NV: 0.075 f, at most 3 µm
//
// Source: ISO 6336-1:2006, 8.3.5 (y_α); from memory.
func runningIn(s Strength, dev, v float64) float64 {
	if s.Group.ThroughHardened() {
		return wornOff(min(1, 160/s.Contact), 12.8/s.Contact, 6.4/s.Contact, dev, v)
	}
	return min(0.075*dev, 0.003)
}

// wornOff is a share of a deviation, at most slow mm above 5 m/s and fast mm above 10 m/s; v in mm/s.
func wornOff(share, slow, fast, dev, v float64) float64 {
	switch {
	case v > 10000:
		return min(share*dev, fast)
	case v > 5000:
		return min(share*dev, slow)
	}
	return share * dev
}

// effective is what is left of the deviations of both gears after running in. The
// larger deviation of the two gears counts, less the mean of what wears off either.
// f_pb = f_pt cos α_t. Source: ISO 6336-1:2006, 6.5.4 and 8.3.5.
func (f *Form) effective(in *Input, v float64) Deviation {
	if in.Deviation != nil {
		return *in.Deviation
	}
	p := f.Pair
	var d Deviation
	for i, g := range in.Gear {
		d.Pitch = max(d.Pitch, pitchTolerance(p.Reference[i], p.Module, g.Grade)*math.Cos(p.TransversePressureAngle))
		d.Profile = max(d.Profile, profileFormTolerance(p.Module, g.Grade))
	}
	less := func(dev float64) float64 {
		return dev - (runningIn(in.Gear[0].Strength, dev, v)+runningIn(in.Gear[1].Strength, dev, v))/2
	}
	return Deviation{Pitch: less(d.Pitch), Profile: less(d.Profile)}
}

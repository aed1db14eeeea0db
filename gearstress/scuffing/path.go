package scuffing

import (
	"errors"
	"fmt"
	"math"

	"layshaft/gearstress/contact"
	"layshaft/gearstress/involute"
)

// Place is how the flanks move at one point of the path of contact.
type Place struct {
	Distance float64    // along the line of action from the pitch point C, mm, positive towards E
	Gamma    float64    // Γ of the driver, –: 0 at C, −1 where the line of action touches its base circle
	Radius   [2]float64 // radii of curvature of the flanks in the transverse section, mm
	Speed    [2]float64 // rolling speeds v = ω ρ across the line of contact, mm/s
	Sliding  float64    // v_g = v_driver − v_driven, mm/s; negative before C
	Specific [2]float64 // specific sliding ζ of each flank, –: sliding seen from that flank over its own rolling speed; negative on the dedendum
}

// path is the path of contact of a pair that turns.
type path struct {
	pair        *involute.Pair
	sin, cos    float64    // of α_wt
	cosBase     float64    // cos β_b
	pitchRadius [2]float64 // radii of curvature at C, mm
	omega       [2]float64 // rad/s
	pitch       float64    // p_bt, transverse base pitch, mm
	a, b, d, e  float64    // distances from C, mm
}

// newPath takes the path from the pair's diameters where contact starts on
// each gear.
//
//	s_A = ½ √(d_Nf1² − d_b1²) − ρ_C1,  s_E = ρ_C2 − ½ √(d_Nf2² − d_b2²),  ρ_C = ½ d_w sin α_wt
//	s_B = s_E − p_bt,  s_D = s_A + p_bt
//
// in mm, 1 the driver. Source: ISO 21771:2007, path of contact.
func newPath(p *involute.Pair, speed float64) (*path, error) {
	w := &path{pair: p}
	w.sin, w.cos = math.Sincos(p.WorkingPressureAngle)
	w.cosBase = math.Cos(p.BaseHelix)
	complete := w.sin > 0 && w.cos > 0 && w.cosBase > 0 && p.Module > 0 && p.Face > 0
	for i := range sides {
		complete = complete && p.Teeth[i] > 0 && p.Base[i] > 0 && p.Working[i] > p.Base[i] && p.Start[i] >= p.Base[i] && !math.IsInf(p.Working[i]+p.Start[i], 0)
	}
	if !complete {
		return nil, errors.New("the pair of gears is incomplete: tooth numbers, module, face, working pressure angle, base, working and start diameters must be above 0, and the last two at least as large as the base diameter; work it out with involute.New")
	}
	w.pitch = math.Pi * p.Base[0] / float64(p.Teeth[0])
	w.omega = [2]float64{speed, speed * float64(p.Teeth[0]) / float64(p.Teeth[1])}
	var from [2]float64
	var errs []error
	for i, side := range sides {
		w.pitchRadius[i] = p.Working[i] / 2 * w.sin
		from[i] = math.Sqrt(max(0, (p.Start[i]-p.Base[i])*(p.Start[i]+p.Base[i]))) / 2
		if !(from[i] > leastRadius*p.Module) {
			errs = append(errs, fmt.Errorf("%s: contact begins at diameter %.6g mm, on its base circle (%.6g mm), where the flank has no radius and the Hertz pressure no bound; shorten the tip of the other gear or raise this one's profile shift",
				side, p.Start[i], p.Base[i]))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	w.a, w.e = from[0]-w.pitchRadius[0], w.pitchRadius[1]-from[1]
	w.b, w.d = w.e-w.pitch, w.a+w.pitch
	if !(w.contactRatio() >= 1-1e-9) || math.IsInf(w.contactRatio(), 0) {
		return nil, fmt.Errorf("transverse contact ratio is %.4g; at least 1 is needed: work the pair out with involute.New", w.contactRatio())
	}
	return w, nil
}

// leastRadius is the least radius of curvature, in modules, at the start of
// contact for which contact stress still means something at all; below
// smallRadius the temperature there is likely too high (a note).
const leastRadius, smallRadius = 1e-6, 0.1

func (w *path) contactRatio() float64 { return (w.e - w.a) / w.pitch }

// at is the place at a distance s from C, mm. Specific sliding is
// ζ_1 = (v_1 − v_2)/v_1, ζ_2 = (v_2 − v_1)/v_2. Source: ISO 21771:2007, sliding
// speed and specific sliding.
func (w *path) at(s float64) Place {
	r := [2]float64{w.pitchRadius[0] + s, w.pitchRadius[1] - s}
	l := Place{
		Distance: s, Gamma: s / w.pitchRadius[0], Radius: r,
		Speed: [2]float64{w.omega[0] * r[0], w.omega[1] * r[1]},
		// Not as a difference of speeds: exactly zero at C, and free of rounding near it.
		Sliding: (w.omega[0] + w.omega[1]) * s,
	}
	if w.omega[0] > 0 {
		l.Specific = [2]float64{l.Sliding / l.Speed[0], -l.Sliding / l.Speed[1]}
	}
	return l
}

// relativeRadius is ρ of both flanks in the plane across the line of contact, mm:
// that of the transverse section divided by cos β_b. Source: ISO 21771:2007.
func (w *path) relativeRadius(s float64) float64 {
	return contact.RelativeRadius(w.pitchRadius[0]+s, w.pitchRadius[1]-s) / w.cosBase
}

// pinion is the gear with fewer teeth, and with equal numbers the driver.
func (w *path) pinion() int {
	if w.pair.Teeth[1] < w.pair.Teeth[0] {
		return 1
	}
	return 0
}

// addendum is the part of the contact ratio on the addendum of each gear, –:
// ε_1 from C to E, ε_2 from A to C. Source: ISO/TS 6336-21:2017, addendum contact
// ratio, from memory; there z (tan α_a − tan α_wt)/2π, which is the same length
// over p_bt where contact runs to the tip.
func (w *path) addendum() [2]float64 { return [2]float64{w.e / w.pitch, -w.a / w.pitch} }

package scuffing

import (
	"fmt"
	"math"

	"layshaft/gearstress/contact"
)

// Result is the screen of one load.
type Result struct {
	A, B, C, D, E Place // limits of contact (A, E), of single contact (B, D), and the pitch point

	ContactRatio  float64 // ε_α, from A to E over the base pitch, –
	PitchSpeed    float64 // v_t at the pitch circles, mm/s
	LineLoad      float64 // w_Bt = K_A K_v K_Bβ K_Bα F_t/b, tangential load per face width, N/mm
	OilViscosity  float64 // η at the oil temperature, given or estimated, mPa·s
	NeededRelief  float64 // C_eff, tip relief that would make up for the bending of the teeth, mm
	FrictionPower float64 // mean power lost to sliding in the mesh at the nominal torque with Flash.Friction, N·mm/s
	FrictionShare float64 // that power over the power of the driver, –; 0 for a standing gear

	Flash    Flash
	Integral *Integral // nil where its contact ratio factor doesn't apply; Notes says why
	Notes    []string  // what was assumed, and where a range was left
}

// Screen works out one load. Everything missing or impossible comes back in one error.
//
// Safeties: S_B = (Θ_S − Θ_oil)/(Θ_Bmax − Θ_oil) of the flash method, S_intS = Θ_intS/Θ_int
// (°C over °C) of the integral method, both –. Source: ISO/TS 6336-20:2017 and
// -21:2017, safety factor, from memory.
func Screen(in Input) (*Result, error) {
	if err := in.validate(); err != nil {
		return nil, err
	}
	w, err := newPath(in.Pair, in.Speed)
	if err != nil {
		return nil, err
	}
	material := [2]Material{or(in.Material[0], Steel), or(in.Material[1], Steel)}
	tangential := 2 * in.Torque / in.Pair.Working[0] / in.Pair.Face
	outer := or(in.KA, 1) * tangential
	r := &Result{
		A: w.at(w.a), B: w.at(w.b), C: w.at(0), D: w.at(w.d), E: w.at(w.e),
		ContactRatio: w.contactRatio(),
		PitchSpeed:   in.Speed * in.Pair.Working[0] / 2,
		LineLoad:     outer * or(in.KV, 1) * or(in.KHb, 1) * or(in.KHa, 1),
		NeededRelief: effectiveRelief(outer, or(in.Stiffness, 20000), in.Pair.TransversePressureAngle),
		OilViscosity: in.OilViscosity,
	}
	if in.OilViscosity == 0 {
		r.OilViscosity = Viscosity(in.Viscosity, in.OilTemperature)
	}
	c := &mesh{
		path:    w,
		sharing: newSharing(w, or(in.Grade, 7), 1000*max(0, r.NeededRelief-in.TipRelief[1])),
		load:    r.LineLoad / w.cos, // normal force and length of line both grow with 1/cos β_b
		thermal: [2]float64{material[0].ThermalContact(), material[1].ThermalContact()},
		ze:      contact.ElasticCoefficient(material[0].Young, material[0].Poisson, material[1].Young, material[1].Poisson),
	}
	r.heat(c, &in, tangential)
	if !r.finite() {
		return nil, fmt.Errorf("contact temperature comes out as %v °C and friction power as %v N·mm/s with a line load of %.4g N/mm at %.4g mm/s; check torque, speed, face width and diameters",
			r.Flash.Contact, r.FrictionPower, r.LineLoad, r.PitchSpeed)
	}
	r.compare(&in)
	r.note(c, &in)
	return r, nil
}

// heat runs both methods; tangential is the nominal F_t/b, N/mm.
func (r *Result) heat(c *mesh, in *Input, tangential float64) {
	w := c.path
	var friction float64
	if sum := w.rolling(); sum > 0 {
		friction = flashFriction(r.LineLoad, sum, w.relativeRadius(0), r.OilViscosity, (in.Roughness[0]+in.Roughness[1])/2, or(in.OilFactor, 1))
	}
	cooling, mates := in.cooling()
	var rub float64
	r.Flash, rub = c.flash(friction, in.OilTemperature, cooling, mates)
	if friction > 0 {
		// The line of contact of one pair is as long as the face divided by cos β_b.
		r.FrictionPower = friction * tangential / w.cos * rub * w.pair.Face / w.cosBase
		r.FrictionShare = r.FrictionPower / (in.Torque * in.Speed)
	}
	relief := 1000 * min(in.TipRelief[0], in.TipRelief[1], r.NeededRelief)
	r.Integral = c.integral(in, r.LineLoad, r.OilViscosity, relief)
}

// finite is whether everything that could overflow has stayed finite.
func (r *Result) finite() bool {
	good := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
	return good(r.Flash.Contact) && good(r.FrictionPower) && good(r.Flash.Hottest.Pressure) && good(r.A.Specific[0]) && good(r.E.Specific[1]) &&
		(r.Integral == nil || good(r.Integral.Contact))
}

// compare sets limits and safeties.
func (r *Result) compare(in *Input) {
	if in.OilScuffing == 0 {
		return
	}
	structure, kind := or(in.Structure, 1), or(in.OilFactor, 1)
	flash := flashLimit(in.OilScuffing, structure, kind, in.Viscosity)
	r.Flash.Margin = Margin{Limit: flash, Verdict: NoHeat}
	if rise := r.Flash.Contact - in.OilTemperature; rise > 0 {
		r.Flash.Margin = margin(flash, (flash-in.OilTemperature)/rise)
	}
	if n := r.Integral; n != nil {
		limit := integralLimit(in.OilScuffing, structure, kind, in.Viscosity)
		n.Margin = Margin{Limit: limit, Verdict: NoHeat}
		if n.Mean > 0 {
			n.Margin = margin(limit, limit/n.Contact)
		}
	}
}

// Limits at which a note is written; ours unless said otherwise.
const (
	slow         = 1000.0 // mm/s: slower, oil film and wear decide
	highFriction = 0.15   // –: measured mesh friction of lubricated steel is below
	apart        = 1.5    // ratio of the two safeties beyond which they are said to disagree
)

// note writes down what was assumed and which ranges were left.
func (r *Result) note(c *mesh, in *Input) {
	w := c.path
	add := func(format string, args ...any) { r.Notes = append(r.Notes, fmt.Sprintf(format, args...)) }
	add("a screen only: formulas of ISO/TS 6336-20 and -21 from memory; friction and limits depend on the oil, its additives and how the flanks are run in")
	for _, k := range [...]struct {
		name  string
		value float64
	}{{"K_A", in.KA}, {"K_v", in.KV}, {"K_Bβ", in.KHb}, {"K_Bα", in.KHa}} {
		if k.value == 0 {
			add("load factor %s is not given; taken as 1", k.name)
		}
	}
	if in.OilViscosity == 0 {
		add("viscosity at %.4g °C is estimated as %.3g mPa·s for an oil of viscosity index about 95", in.OilTemperature, r.OilViscosity)
	}
	if in.OilScuffing == 0 {
		add("no load stage of the oil (FZG A/8.3/90) is given: there is no limit to compare with")
	}
	for i, side := range sides {
		if least := min(w.at(w.a).Radius[i], w.at(w.e).Radius[i]); least < smallRadius*w.pair.Module {
			add("%s: contact starts %.3f mm along the line of action from its base circle; temperature and specific sliding there are likely too high", side, least)
		}
	}
	if w.a > 0 || w.e < 0 {
		add("the pitch point is not on the path of contact: the flanks slide one way all along")
	}
	if eps := r.ContactRatio; eps >= 2 && c.sharing.helical < 1 {
		add("transverse contact ratio %.3f is 2 or more: each pair of teeth is taken to carry at most two thirds of the load (ours)", eps)
	}
	if r.Integral == nil {
		add("the integral temperature is not given: its contact ratio factor wants the pitch point on the path and a transverse contact ratio below 3 (found %.3f)", r.ContactRatio)
	}
	r.noteRange(in, add)
}

// noteRange writes down where load, speed and friction leave what was measured.
func (r *Result) noteRange(in *Input, add func(string, ...any)) {
	if in.Speed == 0 {
		add("the gears stand still: there is no sliding, and friction is given as 0")
		return
	}
	if r.PitchSpeed < slow {
		add("pitch line speed is %.3g m/s: below about 1 m/s the friction formulas are extrapolated, and wear comes before hot scuffing", r.PitchSpeed/1000)
	}
	if r.PitchSpeed > fastest {
		add("pitch line speed is %.3g m/s: above 50 m/s nothing was measured", r.PitchSpeed/1000)
	}
	if r.LineLoad < leastLoad && r.Integral != nil {
		add("line load is %.3g N/mm: the friction of the integral method counts it as %g N/mm", r.LineLoad, leastLoad)
	}
	if r.Flash.Friction > highFriction {
		add("friction coefficient comes out as %.3g, more than lubricated steel shows: the formula is used outside its range", r.Flash.Friction)
	}
	if r.Flash.Safety > 0 && r.Integral != nil && r.Integral.Safety > 0 {
		// Both on the rise over the oil temperature, so that they are comparable.
		rise := (r.Integral.Limit - in.OilTemperature) / (r.Integral.Contact - in.OilTemperature)
		if q := r.Flash.Safety / rise; rise > 0 && math.Max(q, 1/q) > apart {
			add("the two methods disagree: of the rise over the oil temperature the flash method leaves a factor of %.3g, the integral method %.3g", r.Flash.Safety, rise)
		}
	}
}

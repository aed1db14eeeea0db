package involute

import (
	"errors"
	"fmt"
	"math"
)

// New works out a pair. Everything impossible comes back in one joined error,
// each part with its number and what to check; what is merely unusual, or was
// assumed, stands in Derived and Notes.
//
//   - Centre distance and one shift known: the other shift is what closes the pair
//     without backlash. Centre distance alone: the sum is shared so that it fits
//     the two measured tip diameters, else evenly. No centre distance: an unknown
//     shift is 0 and the centre distance is that of the shifts without backlash.
//   - A tip diameter not given is d + 2 m_n (h_aP + x + k). Where the centre
//     distance is given, k = (a − a_0)/m_n − (x1 + x2), never positive: tips are
//     shortened to keep the clearance. Otherwise k = 0.
//
// Source: ISO 21771:2007.
func New(s Spec) (*Pair, error) {
	if err := s.validate(); err != nil {
		return nil, err
	}
	p := &Pair{Spec: s}
	p.cylinders()
	if err := p.close(); err != nil {
		return nil, err
	}
	p.blanks()
	if err := p.teeth(); err != nil {
		return nil, err
	}
	if err := p.contact(); err != nil {
		return nil, err
	}
	return p, nil
}

// validate reports what can be seen to be wrong in each value on its own.
func (s Spec) validate() error {
	var errs []error
	bad := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	if !(s.Module >= leastModule && s.Module <= mostModule) {
		bad("module is %v mm; expected %g to %g mm: a diametral pitch must be turned into a module (25.4 mm divided by it)", s.Module, leastModule, mostModule)
	}
	if !(s.Helix >= 0 && degrees(s.Helix) <= mostHelix) {
		bad("helix angle is %.4g° (%v rad); expected 0° to %g°, without a sign for the hand", degrees(s.Helix), s.Helix, mostHelix)
	}
	if !(s.Face > 0 && s.Face <= mostFace) {
		bad("common face width is %v mm; expected more than 0 and at most %g mm: check the widths and axial places of the two gears", s.Face, mostFace)
	}
	if s.CentreDistance != 0 && !positive(s.CentreDistance) {
		bad("centre distance is %v mm; expected more than 0, or 0 when it is not known", s.CentreDistance)
	}
	for i, side := range sides {
		if s.Teeth[i] < leastTeeth || s.Teeth[i] > mostTeeth {
			bad("%s has %d teeth; expected %d to %d", side, s.Teeth[i], leastTeeth, mostTeeth)
		}
		if s.ShiftKnown[i] && !(math.Abs(s.Shift[i]) <= 5) {
			bad("%s has a profile shift of %v modules; expected between −5 and 5 (the usual range is −0.5 to 1): a shift in mm must be divided by the module", side, s.Shift[i])
		}
		if !(s.Thinning[i] >= 0 && s.Thinning[i] <= 0.5*s.Module) {
			bad("%s has its teeth thinned by %v mm; expected 0 to half a module, usually hundredths of a millimetre", side, s.Thinning[i])
		}
		if s.TipDiameter[i] != 0 && !positive(s.TipDiameter[i]) {
			bad("%s has a tip diameter of %v mm; expected more than 0, or 0 when it is not known", side, s.TipDiameter[i])
		}
	}
	if err := s.Rack.Validate(); err != nil {
		errs = append(errs, err)
	}
	return errors.Join(errs...)
}

func positive(v float64) bool { return v > 0 && !math.IsInf(v, 1) }

// cylinders finds what does not depend on the shifts.
func (p *Pair) cylinders() {
	sinB, cosB := math.Sincos(p.Helix)
	p.TransversePressureAngle = math.Atan(math.Tan(p.Rack.PressureAngle) / cosB)
	p.BaseHelix = math.Asin(sinB * math.Cos(p.Rack.PressureAngle))
	for i := range p.Teeth {
		z := float64(p.Teeth[i])
		p.Reference[i] = z * p.Module / cosB
		p.Base[i] = p.Reference[i] * math.Cos(p.TransversePressureAngle)
		p.VirtualTeeth[i] = z / (cosB * cosB * cosB)
	}
	p.ReferenceCentre = (p.Reference[0] + p.Reference[1]) / 2
	p.OverlapRatio = p.Face * sinB / (math.Pi * p.Module)
}

// close finds shifts, centre distance and backlash from each other.
func (p *Pair) close() error {
	p.X = [2]float64{}
	for i := range p.X {
		if p.ShiftKnown[i] {
			p.X[i] = p.Shift[i]
		}
	}
	p.Backlash = p.thinned()
	alphaT := p.TransversePressureAngle
	tanN := math.Tan(p.Rack.PressureAngle)
	teeth := float64(p.Teeth[0] + p.Teeth[1])
	if p.CentreDistance == 0 {
		for i, side := range sides {
			if !p.ShiftKnown[i] {
				p.note("%s: profile shift not known and no centre distance given; taken as 0", side)
			}
		}
		// inv α_wt = inv α_t + 2 (x1 + x2) tan α_n / (z1 + z2)
		inv := Involute(alphaT) + 2*(p.X[0]+p.X[1])*tanN/teeth
		working, err := InverseInvolute(inv)
		if err != nil {
			return fmt.Errorf("profile shifts %.4g and %.4g add up to %.4g: the teeth are too thin to touch at any centre distance; the sum must be above %.4g",
				p.X[0], p.X[1], p.X[0]+p.X[1], -Involute(alphaT)*teeth/(2*tanN))
		}
		p.setWorking(p.ReferenceCentre*math.Cos(alphaT)/math.Cos(working), working)
		return nil
	}
	a := p.CentreDistance
	least := p.ReferenceCentre * math.Cos(alphaT)
	if a <= least {
		return fmt.Errorf("centre distance %.6g mm is not above %.6g mm, where the base circles of the two gears touch; with %d and %d teeth, module %.4g and helix %.4g° expect about %.6g mm: check tooth numbers, module and helix",
			a, least, p.Teeth[0], p.Teeth[1], p.Module, degrees(p.Helix), p.ReferenceCentre)
	}
	working := math.Acos(least / a)
	p.setWorking(a, working)
	sum := p.shiftSum()
	switch known := p.ShiftKnown; {
	case known[0] && known[1]:
		return p.setBacklash(sum)
	case known[0]:
		p.X[1] = sum - p.X[0]
		p.derive("profile shift of the driven gear (x = %.4f) follows from the centre distance and the driver's, with no backlash", p.X[1])
	case known[1]:
		p.X[0] = sum - p.X[1]
		p.derive("profile shift of the driver (x = %.4f) follows from the centre distance and the driven gear's, with no backlash", p.X[0])
	case p.TipDiameter[0] != 0 && p.TipDiameter[1] != 0:
		difference := ((p.TipDiameter[0] - p.Reference[0]) - (p.TipDiameter[1] - p.Reference[1])) / (2 * p.Module)
		p.X = [2]float64{(sum + difference) / 2, (sum - difference) / 2}
		p.derive("sum of profile shifts %.4f follows from the centre distance with no backlash; shared as %.4f and %.4f by the measured tip diameters", sum, p.X[0], p.X[1])
	default:
		p.X = [2]float64{sum / 2, sum / 2}
		p.note("sum of profile shifts %.4f follows from the centre distance with no backlash; shared evenly, which is a guess: measure both tip diameters or a tooth thickness", sum)
	}
	return nil
}

// shiftSum is the sum of profile shifts that closes the pair at its working pressure angle without backlash, in
// modules:
//
//	Σx = (z1 + z2) (inv α_wt − inv α_t)/(2 tan α_n)
func (p *Pair) shiftSum() float64 {
	return float64(p.Teeth[0]+p.Teeth[1]) * (Involute(p.WorkingPressureAngle) - Involute(p.TransversePressureAngle)) / (2 * math.Tan(p.Rack.PressureAngle))
}

// Closing tells of a pair that need not be possible otherwise how far apart its shafts would stand without profile
// shift (a_0, mm), and which sum of profile shifts closes it at its centre distance without backlash (modules); NaN
// where the base circles don't clear each other, or no distance is given. The module, the helix and the rack must be
// sound.
func (s Spec) Closing() (reference, sum float64) {
	p := &Pair{Spec: s}
	p.cylinders()
	least := p.ReferenceCentre * math.Cos(p.TransversePressureAngle)
	if !(s.CentreDistance > least) {
		return p.ReferenceCentre, math.NaN()
	}
	p.setWorking(s.CentreDistance, math.Acos(least/s.CentreDistance))
	return p.ReferenceCentre, p.shiftSum()
}

// setWorking stores centre distance a (mm) and working pressure angle (rad) with what follows from them.
func (p *Pair) setWorking(a, working float64) {
	p.Centre, p.WorkingPressureAngle = a, working
	for i := range p.Working {
		p.Working[i] = p.Base[i] / math.Cos(working)
	}
	// tan β_w = tan β d_w/d
	p.WorkingHelix = math.Atan(math.Tan(p.Helix) * p.Working[0] / p.Reference[0])
}

// setBacklash finds the normal backlash when shifts and centre distance are both
// given; sum is the sum of shifts that would leave none between full teeth:
//
//	j_bn = 2 m_n sin α_n (Σx_without − Σx) + (Δs_n1 + Δs_n2) cos α_n
//
// from tooth thicknesses and pitch on the working circles, turned into the normal
// of the flank by cos α_wt cos β_b.
func (p *Pair) setBacklash(sum float64) error {
	perShift := 2 * p.Module * math.Sin(p.Rack.PressureAngle)
	j := p.thinned() + perShift*(sum-(p.X[0]+p.X[1]))
	if j < -backlashRounding*p.Module {
		return fmt.Errorf("backlash would be %.4f mm: at a centre distance of %.6g mm the profile shifts may add up to %.4f at most, but %.4g and %.4g add up to %.4f; check the centre distance and both shifts",
			j, p.Centre, sum+p.thinned()/perShift, p.X[0], p.X[1], p.X[0]+p.X[1])
	}
	if j < 0 {
		p.derive("the shifts given leave a backlash of %.4f mm at this centre distance: within rounding, taken as 0", j)
		j = 0
	}
	p.Backlash = j
	return nil
}

// thinned is the part of the normal backlash that thinned teeth leave, mm: (Δs_n1 + Δs_n2) cos α_n.
// Source: ISO 21771:2007, thickness at the reference cylinder.
func (p *Pair) thinned() float64 {
	return (p.Thinning[0] + p.Thinning[1]) * math.Cos(p.Rack.PressureAngle)
}

// blanks finds tip and root circles.
func (p *Pair) blanks() {
	k := 0.0
	if p.CentreDistance != 0 {
		k = min(0, (p.Centre-p.ReferenceCentre)/p.Module-(p.X[0]+p.X[1]))
	}
	var shortened []string
	for i, side := range sides {
		p.Root[i] = p.Reference[i] - 2*p.Module*(p.Rack.Dedendum-p.CutShift(i))
		p.Tip[i] = p.TipDiameter[i]
		if p.TipDiameter[i] == 0 {
			p.Tip[i] = p.Reference[i] + 2*p.Module*(p.Rack.Addendum+p.X[i]+k)
			shortened = append(shortened, side)
		}
		if math.Abs(p.X[i]) > largeShift {
			p.note("%s: profile shift %.3f modules is unusually large; check tooth numbers, module, helix and centre distance", side, p.X[i])
		}
		if p.Thinning[i] > mostThinning*p.Module {
			p.derive("%s: teeth thinned by %.3f modules, more than %g; root, outline and root stress are worked out with the generating profile shift x_E = %.4f (ISO 6336-3)", side, p.Thinning[i]/p.Module, mostThinning, p.CutShift(i))
		}
	}
	if len(shortened) > 0 && k < -0.01 {
		who := "both gears"
		if len(shortened) == 1 {
			who = "the " + shortened[0]
		}
		p.derive("tip diameter of %s not measured; taken as shortened by k = %.4f modules to keep the clearance", who, k)
	}
	p.Clearance = [2]float64{p.Centre - (p.Tip[0]+p.Root[1])/2, p.Centre - (p.Tip[1]+p.Root[0])/2}
}

// teeth checks each tooth by itself and finds where its involute begins.
func (p *Pair) teeth() error {
	var errs []error
	for i, side := range sides {
		other := sides[1-i]
		switch {
		case p.Root[i] <= 0:
			errs = append(errs, fmt.Errorf("%s: root diameter would be %.4g mm with %d teeth and a profile shift of %.4g; check the shift and the module", side, p.Root[i], p.Teeth[i], p.CutShift(i)))
			continue
		case p.Tip[i] <= p.Root[i] || p.Tip[i] <= p.Base[i]:
			errs = append(errs, fmt.Errorf("%s: tip diameter %.5g mm is not above the root circle (%.5g mm) and the base circle (%.5g mm), so no flank is left; check tip diameter, tooth number and module",
				side, p.Tip[i], p.Root[i], p.Base[i]))
			continue
		}
		if c := p.Clearance[i]; c <= 0 {
			errs = append(errs, fmt.Errorf("tip of the %s (diameter %.5g mm) runs %.4f mm into the root of the %s (diameter %.5g mm) at a centre distance of %.6g mm; check tip diameter, profile shifts and dedendum",
				side, p.Tip[i], math.Abs(c), other, p.Root[1-i], p.Centre))
		} else if c < smallClearance*p.Module {
			p.note("clearance between the tip of the %s and the root of the %s is only %.3f mm (%.3f modules)", side, other, c, c/p.Module)
		}
		p.TipThickness[i] = p.tipThickness(i)
		if p.TipThickness[i] <= 0 {
			errs = append(errs, fmt.Errorf("%s: the tooth comes to a point below its tip diameter of %.5g mm (%d teeth, x = %.4f); check tip diameter and profile shift",
				side, p.Tip[i], p.Teeth[i], p.CutShift(i)))
			continue
		}
		if s := p.TipThickness[i] / p.Module; s < thinTip {
			p.note("%s: tip is only %.3f modules wide; case-hardened tips want %.1f or more", side, s, thinTip)
		}
		t, err := p.Tooth(i)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		// Radii of curvature of the normal section are those of the transverse
		// section divided by cos β_b.
		rho := t.curvature(t.Form/2) * math.Cos(p.BaseHelix)
		p.Form[i] = 2 * math.Hypot(p.Base[i]/2, rho)
		if p.undercut[i] = t.Undercut; t.Undercut {
			sinT := math.Sin(p.TransversePressureAngle)
			least := p.Rack.straightDepth() - p.Reference[i]*sinT*sinT/(2*p.Module)
			p.note("%s: undercut (%d teeth, x = %.3f; free of it from x = %.3f); the involute starts at diameter %.3f mm", side, p.Teeth[i], p.CutShift(i), least, p.Form[i])
		}
	}
	return errors.Join(errs...)
}

// tipThickness is the normal thickness of tooth i at its tip, mm:
// s_an = d_a [(π/2 + 2 x tan α_n)/z + inv α_t − inv α_at] cos β_a.
// Source: ISO 21771:2007, tooth thickness at any cylinder.
func (p *Pair) tipThickness(i int) float64 {
	d := p.Tip[i]
	half := (math.Pi/2+2*p.CutShift(i)*math.Tan(p.Rack.PressureAngle))/float64(p.Teeth[i]) +
		Involute(p.TransversePressureAngle) - Involute(math.Acos(p.Base[i]/d))
	return d * half * math.Cos(math.Atan(math.Tan(p.Helix)*d/p.Reference[i]))
}

// contact finds the path of contact: the stretch of the line of action between
// the two tip circles, as far as both gears have an involute there.
func (p *Pair) contact() error {
	line := p.Centre * math.Sin(p.WorkingPressureAngle) // between the two points of tangency, mm
	var from [2]float64                                 // radius of curvature at the start of contact, mm
	for i, side := range sides {
		j := 1 - i
		reach := line - math.Sqrt((p.Tip[j]-p.Base[j])*(p.Tip[j]+p.Base[j]))/2
		form := math.Sqrt(max(0, (p.Form[i]-p.Base[i])*(p.Form[i]+p.Base[i]))) / 2
		from[i] = max(reach, form)
		p.Start[i] = 2 * math.Hypot(p.Base[i]/2, from[i])
		if form-reach > 0.002*p.Module {
			there := "it would rub there"
			switch {
			case p.Rack.Protuberance > 0:
				there = "the residual undercut has taken the flank there"
			case p.undercut[i]:
				// The rack that cut the fillet reached deeper than any gear's tip does.
				there = "the undercut has taken the flank there"
			default:
				p.Rub[i] = form - reach
			}
			p.note("the tip of the %s reaches below the start of the involute of the %s (diameter %.3f mm), by %.3f mm along the line of action: %s; contact is counted from that diameter on",
				sides[j], side, p.Form[i], form-reach, there)
		}
	}
	pitch := math.Pi * p.Module * math.Cos(p.TransversePressureAngle) / math.Cos(p.Helix) // transverse base pitch, mm
	p.TransverseContactRatio = (line - from[0] - from[1]) / pitch
	if eps := p.TransverseContactRatio; !(eps >= 1) {
		return fmt.Errorf("transverse contact ratio is %.3f: one pair of teeth lets go before the next takes over, so the pair cannot run; at least 1 is needed. Centre distance %.6g mm against %.6g mm without shifts, tips %.5g and %.5g mm: check them, the module and the tooth numbers",
			eps, p.Centre, p.ReferenceCentre, p.Tip[0], p.Tip[1])
	} else if eps < lowContact {
		p.note("transverse contact ratio is only %.3f (less than %.1f)", eps, lowContact)
	}
	return nil
}

func (p *Pair) note(format string, args ...any) {
	p.Notes = append(p.Notes, fmt.Sprintf(format, args...))
}

func (p *Pair) derive(format string, args ...any) {
	p.Derived = append(p.Derived, fmt.Sprintf(format, args...))
}

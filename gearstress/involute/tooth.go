package involute

import (
	"fmt"
	"math"
)

// Point is a place in the normal section, mm: gear axis at the origin, middle of
// the tooth on the positive Y axis.
type Point struct{ X, Y float64 }

// Tooth is the outline of one tooth with the fillet as a rack-type cutter makes it:
// of the equivalent spur gear in the normal section (Pair.Tooth), or of the gear itself
// in the transverse section (Pair.TransverseTooth). Diameters of the equivalent gear are
// not those of the real helical gear; heights are. The symbols below are those of the
// normal section.
type Tooth struct {
	Teeth         float64 // z_n = z/(cos²β_b cos β), –; z in the transverse section
	Module        float64 // m_n, mm; m_t in the transverse section
	PressureAngle float64 // α_n, rad; α_t in the transverse section
	Shift         float64 // x, or x_E where much was taken off the teeth (Pair.CutShift), in modules
	Reference     float64 // d_n = z_n m_n, mm; d in the transverse section
	Base          float64 // d_bn, mm
	Tip           float64 // d_an = d_n + d_a − d, mm
	Root          float64 // d_fn, mm
	Form          float64 // where fillet and involute meet, mm
	Undercut      bool    // whether the fillet cuts off the lower end of the involute, by more than a residual undercut is meant to

	depth    float64 // of the centre of the cutter's corner radius below the pitch line, mm
	radius   float64 // corner radius of the cutter, mm
	centre   float64 // from the middle of the cutter tooth to the centre of its corner radius, mm
	residual float64 // undercut left under the ground flank, mm
	flank    float64 // direction of the cutter's straight flank in the normal section, α_n, rad
	stretch  float64 // of the cutter along the pitch line: 1 in the normal section, 1/cos β in the transverse one
	highest  float64 // direction of the corner radius at the upper end of the fillet, rad
}

// Tooth is the outline of gear i: 0 driver, 1 driven.
//
// Source of the equivalent gear: ISO 6336-3:2006, clause 6 (z_n, d_n, d_an). The
// fillet is constructed here: the corner radius of the rack touches the fillet
// where its normal passes through the pitch point.
func (p *Pair) Tooth(i int) (*Tooth, error) {
	if i != 0 && i != 1 {
		return nil, fmt.Errorf("gear index %d asked for; expected 0 (driver) or 1 (driven)", i)
	}
	m, rack, shift := p.Module, p.Rack, p.CutShift(i)
	cosBb := math.Cos(p.BaseHelix)
	teeth := float64(p.Teeth[i]) / (cosBb * cosBb * math.Cos(p.Helix))
	t := &Tooth{
		Teeth: teeth, Module: m, PressureAngle: rack.PressureAngle, Shift: shift,
		Reference: teeth * m,
		Base:      teeth * m * math.Cos(rack.PressureAngle),
		Tip:       teeth*m + p.Tip[i] - p.Reference[i],
		Root:      teeth*m - 2*m*(rack.Dedendum-shift),
		depth:     (rack.Dedendum - rack.TipRadius - shift) * m,
		radius:    rack.TipRadius * m,
		centre:    rack.tipCentre() * m,
		residual:  rack.Protuberance * m,
		flank:     rack.PressureAngle,
		stretch:   1,
	}
	return t.finished(p, i, "the equivalent spur gear")
}

// TransverseTooth is the outline of gear i (0 driver, 1 driven) in the transverse
// section, where it stands on its own axis with its own number of teeth: the shape
// that a slice of the gear has. Of a spur gear it is that of Tooth.
//
// Derivation: in the transverse section the rack is the normal one stretched along the
// pitch line by 1/cos β, so that the corner radius of the cutter is an ellipse. Its
// normal passes through the pitch point where it touches, as for Tooth.
func (p *Pair) TransverseTooth(i int) (*Tooth, error) {
	if i != 0 && i != 1 {
		return nil, fmt.Errorf("gear index %d asked for; expected 0 (driver) or 1 (driven)", i)
	}
	m, rack, shift, cos := p.Module, p.Rack, p.CutShift(i), math.Cos(p.Helix)
	t := &Tooth{
		Teeth: float64(p.Teeth[i]), Module: m / cos, PressureAngle: p.TransversePressureAngle, Shift: shift * cos,
		Reference: p.Reference[i],
		Base:      p.Base[i],
		Tip:       p.Tip[i],
		Root:      p.Reference[i] - 2*m*(rack.Dedendum-shift),
		depth:     (rack.Dedendum - rack.TipRadius - shift) * m,
		radius:    rack.TipRadius * m,
		centre:    rack.tipCentre() * m,
		residual:  rack.Protuberance * m,
		flank:     rack.PressureAngle,
		stretch:   1 / cos,
	}
	return t.finished(p, i, "the transverse section")
}

// finished joins fillet and flank of tooth i and refuses one of which nothing is left.
func (t *Tooth) finished(p *Pair, i int, section string) (*Tooth, error) {
	rack, shift := p.Rack, p.CutShift(i)
	met := t.joinFillet()
	switch side := sides[i]; {
	case !met:
		return nil, fmt.Errorf("%s: the undercut that the protuberance tool leaves does not end on the flank (%d teeth, x = %.4f, residual undercut %.4g modules, tip radius %.4g): check residual undercut and profile shift",
			side, p.Teeth[i], shift, rack.Protuberance, rack.TipRadius)
	case t.Form >= t.Tip:
		return nil, fmt.Errorf("%s: the fillet reaches diameter %.5g mm of %s, its tip %.5g mm: no involute is left (%d teeth, x = %.4f); check profile shift, tip diameter and tip radius of the rack",
			side, t.Form, section, t.Tip, p.Teeth[i], shift)
	case t.HalfAngle(t.Tip) <= 0:
		return nil, fmt.Errorf("%s: the tooth of %s comes to a point below its tip (%d teeth, x = %.4f); check tip diameter and profile shift",
			side, section, p.Teeth[i], shift)
	case t.neck() <= 0:
		return nil, fmt.Errorf("%s: undercut goes through the whole tooth (%d teeth, x = %.4f); the profile shift must be larger", side, p.Teeth[i], shift)
	}
	return t, nil
}

// joinFillet finds where the fillet ends: at the straight flank of the rack
// where there is no undercut, else where the fillet crosses the involute. It is false
// where they don't meet.
//
// A residual undercut under a ground flank ends at such a crossing too. The corner
// of the cutter is taken to go on round until there; a real tool leads from its
// corner back to its flank at a small angle, which takes no less of the involute.
func (t *Tooth) joinFillet() bool {
	t.highest = t.flank
	// Radius of curvature of the involute made by the lower end of the straight
	// flank. Below zero the flank runs past the point where the line of action
	// touches the base circle: undercut.
	rho := t.Reference/2*math.Sin(t.PressureAngle) - t.arm(t.flank)*(math.Sin(t.flank)/math.Sin(t.PressureAngle))
	t.Undercut = rho < 0
	if !t.Undercut && t.residual == 0 {
		t.Form = 2 * math.Hypot(t.Base/2, rho)
		return true
	}
	outside := func(psi float64) bool {
		r, angle := t.fillet(psi)
		return r > t.Base/2 && angle > t.HalfAngle(2*r)
	}
	// Going up the fillet it lies inside the involute first, and outside at the
	// direction of the straight flank, where it has run past the involute.
	above, below := t.flank, math.Pi/2
	if t.residual > 0 && !(t.Undercut && outside(above)) {
		// At the straight flank it still lies inside, by the residual undercut:
		// the crossing is further up.
		for {
			below, above = above, 0.95*above
			if outside(above) {
				break
			}
			if above < 1e-4*t.flank {
				return false
			}
		}
	}
	for range 200 {
		mid := (above + below) / 2
		if mid == above || mid == below {
			break
		}
		if outside(mid) {
			above = mid
		} else {
			below = mid
		}
	}
	t.highest = below
	r, _ := t.fillet(below)
	t.Form = max(2*r, t.Base)
	return true
}

// arm is the signed distance from the pitch point to the fillet along their
// common normal, mm, where the corner radius touches in direction psi (rad below
// the pitch line, in the normal section); sin ψ times it is the height in every section.
func (t *Tooth) arm(psi float64) float64 { return t.depth/math.Sin(psi) + t.radius }

// fillet is a point of the fillet in polar form: radius from the gear axis, mm,
// and angle from the middle of the tooth, rad. psi is the direction below the
// pitch line in which the cutter's corner radius touches: π/2 at the root circle,
// the pressure angle at the straight flank.
func (t *Tooth) fillet(psi float64) (radius, angle float64) {
	sin, cos := math.Sincos(psi)
	arm := t.arm(psi)
	r := t.Reference / 2
	// Fixed frame: pitch point at (0, r). The gear has turned with the cutter,
	// whose tooth has its middle at travel.
	x, y := arm*cos/t.stretch, r-arm*sin
	travel := t.depth*cos/sin/t.stretch - t.radius*cos*(t.stretch-1/t.stretch) - t.stretch*t.centre
	space := math.Atan2(x, y) - travel/r // from the middle of the tooth space
	return math.Hypot(x, y), math.Pi/t.Teeth - space
}

// curvature is the radius of curvature of the involute at a radius, both mm.
func (t *Tooth) curvature(radius float64) float64 {
	return math.Sqrt(max(0, (radius-t.Base/2)*(radius+t.Base/2)))
}

// neck is the smallest half angle of the fillet, rad: zero or less when an
// undercut goes right through.
func (t *Tooth) neck() float64 {
	least := math.Inf(1)
	const steps = 64
	for k := range steps + 1 {
		_, angle := t.fillet(t.direction(float64(k) / steps))
		least = min(least, angle)
	}
	return least
}

// HalfAngle is half the angle that the involute tooth fills at a diameter (mm),
// rad: (π/2 + 2 x tan α)/z + inv α − inv α_y. It is meant for diameters from Form
// to Tip; below Base it is NaN.
// Source: ISO 21771:2007, tooth thickness at any cylinder.
func (t *Tooth) HalfAngle(diameter float64) float64 {
	return (math.Pi/2+2*t.Shift*math.Tan(t.PressureAngle))/t.Teeth +
		Involute(t.PressureAngle) - Involute(math.Acos(t.Base/diameter))
}

func (t *Tooth) direction(u float64) float64 { return math.Pi/2 + u*(t.highest-math.Pi/2) }

// Fillet is a point on the fillet of the right-hand flank, mm: u = 0 on the root
// circle, u = 1 where the involute begins.
func (t *Tooth) Fillet(u float64) Point {
	return polar(t.fillet(t.direction(u)))
}

// Flank is a point on the involute of the right-hand flank, mm: u = 0 where the
// fillet ends, u = 1 at the tip. Equal steps of u are equal angles of roll.
func (t *Tooth) Flank(u float64) Point {
	from, to := t.curvature(t.Form/2), t.curvature(t.Tip/2)
	r := math.Hypot(t.Base/2, from+u*(to-from))
	return polar(r, t.HalfAngle(max(2*r, t.Base)))
}

// Outline is the tooth from the middle of one space over the tip to the middle
// of the next, mm, left to right, with n ≥ 1 steps on each fillet, each flank, the
// tip and each half of the root. Symmetric about the Y axis.
func (t *Tooth) Outline(n int) []Point {
	n = max(n, 1)
	step := func(k int) float64 { return float64(k) / float64(n) }
	var right []Point // from tip to root
	top := t.HalfAngle(t.Tip)
	for k := range n {
		right = append(right, polar(t.Tip/2, top*step(k)))
	}
	for k := range n {
		right = append(right, t.Flank(1-step(k)))
	}
	for k := range n {
		right = append(right, t.Fillet(1-step(k)))
	}
	_, foot := t.fillet(math.Pi / 2)
	for k := range n + 1 {
		right = append(right, polar(t.Root/2, foot+(math.Pi/t.Teeth-foot)*step(k)))
	}
	outline := make([]Point, 0, 2*len(right)-1)
	for k := len(right) - 1; k > 0; k-- {
		outline = append(outline, Point{-right[k].X, right[k].Y})
	}
	return append(outline, right...)
}

func polar(radius, angle float64) Point {
	sin, cos := math.Sincos(angle)
	return Point{radius * sin, radius * cos}
}

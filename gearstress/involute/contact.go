package involute

import "math"

// Contact is one place on the path of contact, where a pair of teeth touches.
type Contact struct {
	Distance  float64    // along the line of action from the pitch point C, mm; positive on the tip of the driver, negative on its root
	Curvature [2]float64 // radii of curvature ρ of both flanks in the transverse section, mm
	Diameter  [2]float64 // of the circle on each gear that passes through it, mm
	Roll      [2]float64 // roll angle ξ = ρ/r_b, from where the involute leaves the base circle, rad
	// Sliding is the sliding factor K_g, –: sliding speed (driver less driven) over the
	// pitch line speed. Zero at C, negative before it.
	Sliding float64
	// Specific is the specific sliding ζ of each flank, –: sliding over the flank's own
	// rolling speed, seen from that flank. Negative on its root; without bound (−Inf)
	// where contact reaches its base circle.
	Specific [2]float64
}

// Path is the path of contact of a pair that the driver drives.
type Path struct {
	A Contact // a pair of teeth comes into contact, at the root of the driver
	B Contact // the pair before leaves contact: from here one pair alone carries
	C Contact // pitch point
	D Contact // the next pair comes into contact
	E Contact // the pair leaves contact, at the tip of the driver
}

// Path is where contact begins and ends and where one pair of teeth alone carries:
//
//	s_A = ½ √(d_Nf1² − d_b1²) − ½ d_w1 sin α_wt,  s_E = ½ d_w2 sin α_wt − ½ √(d_Nf2² − d_b2²)
//	s_B = s_E − p_bt,  s_D = s_A + p_bt
//
// in mm from C, 1 the driver. With a contact ratio above 2 one pair never carries
// alone: B lies before A then, and D past E. Where no involute is left for
// the other tip to touch, A and E are where the involute begins. Source: ISO 21771:2007,
// path of contact.
func (p *Pair) Path() Path {
	sin := math.Sin(p.WorkingPressureAngle)
	from := func(i int) float64 { return rolled(p.Start[i], p.Base[i]) - p.Working[i]/2*sin }
	pitch := math.Pi * p.Base[0] / float64(p.Teeth[0])
	a, e := from(0), -from(1)
	return Path{A: p.ContactAt(a), B: p.ContactAt(e - pitch), C: p.ContactAt(0), D: p.ContactAt(a + pitch), E: p.ContactAt(e)}
}

// ContactAt is the place at a distance from the pitch point along the line of action,
// mm, positive on the tip of the driver:
//
//	ρ_1 = ½ d_w1 sin α_wt + s,  ρ_2 = ½ d_w2 sin α_wt − s
//	K_g = 2 s (1/d_w1 + 1/d_w2)
//	ζ_1 = 1 − z_1 ρ_2/(z_2 ρ_1),  ζ_2 = 1 − z_2 ρ_1/(z_1 ρ_2)
//
// Whether contact is really made there is for Path to say. Source: ISO 21771:2007,
// sliding factor and specific sliding.
func (p *Pair) ContactAt(distance float64) Contact {
	c := Contact{Distance: distance, Sliding: 2 * distance * (1/p.Working[0] + 1/p.Working[1])}
	half := math.Sin(p.WorkingPressureAngle) / 2
	c.Curvature = [2]float64{p.Working[0]*half + distance, p.Working[1]*half - distance}
	// ζ_1 = (ω_1 + ω_2) s/(ω_1 ρ_1): no difference of large numbers near C, where it is zero.
	u := float64(p.Teeth[1]) / float64(p.Teeth[0])
	along := [2]float64{distance * (1 + 1/u), -distance * (1 + u)}
	for i, rho := range c.Curvature {
		c.Diameter[i] = 2 * math.Hypot(p.Base[i]/2, rho)
		c.Roll[i] = 2 * rho / p.Base[i]
		c.Specific[i] = along[i] / rho
		if rho <= 0 {
			c.Specific[i] = math.Inf(-1)
		}
	}
	return c
}

// rolled is the radius of curvature of an involute, mm, at a diameter, mm.
func rolled(diameter, base float64) float64 {
	return math.Sqrt(max(0, (diameter-base)*(diameter+base))) / 2
}

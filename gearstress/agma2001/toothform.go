package agma2001

import (
	"errors"
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// Tooth is how J came about, for the equivalent spur gear in the normal section with
// z/cos³ψ teeth. Lengths are in mm.
type Tooth struct {
	J                float64 // geometry factor J, –
	Y                float64 // tooth form factor Y, –
	StressCorrection float64 // stress correction factor K_f, –
	HelicalFactor    float64 // C_h, 1 where m_F ≤ 1, –
	Teeth            float64 // of the equivalent spur gear, –
	LoadAngle        float64 // φ_nL, of the load against the tangent, rad
	Height           float64 // h_F, of the load above the critical section, mm
	Thickness        float64 // s_F, of the critical section, mm
	NotchRadius      float64 // ρ_F, least radius of the fillet, mm
	AtTip            bool    // whether the load is at the tip, not at the highest point of single contact
	AtFilletEnd      bool    // whether the critical section was held at the upper end of the fillet
}

// tooth finds form factor and stress correction of gear i:
//
//	Y = K_ψ / [ cos φ_nL/cos φ_nr (6 h_F/(s_F² C_h) − tan φ_nL/s_F) ],  K_ψ = cos ψ_r cos ψ
//
// with lengths in modules. Source: AGMA 908-B89, clause 5 (from memory, checked against its
// tables for spur gears; no published figure was found for helical ones).
func (f *Form) tooth(i int) error {
	p := f.Pair
	phi, m := p.Rack.PressureAngle, p.Module
	virtual := func(i int) (tip, base float64) { // radii in modules
		r := equivalentTeeth(p, i) / 2
		return r + (p.Tip[i]-p.Reference[i])/(2*m), r * math.Cos(phi)
	}
	tip, base := virtual(i)
	far, farBase := virtual(1 - i)
	working := math.Asin(math.Cos(p.BaseHelix) * math.Sin(p.WorkingPressureAngle)) // φ_nr
	t := &f.Tooth[i]
	t.Teeth = equivalentTeeth(p, i)
	t.AtTip = f.tipLoaded || p.OverlapRatio > 1
	load := math.Sqrt((tip - base) * (tip + base)) // along the line of action, modules
	if !t.AtTip {
		// C4 = C1 + p_N, never above the tip.
		start := (base+farBase)*math.Tan(working) - math.Sqrt((far-farBase)*(far+farBase))
		load = min(load, start+math.Pi*math.Cos(phi))
	}
	if load <= 0 {
		return errors.New("single contact would end at or below the base circle; check tip diameters and profile shifts")
	}
	shift := p.X[i] - f.Tool.Thinning[i]/(2*math.Tan(phi)) // x_g
	// Load angle: pressure angle at the point of load less the angle that the tooth fills
	// from its middle to there.
	t.LoadAngle = load/base - (involute.Involute(phi) + (math.Pi/2+2*shift*math.Tan(phi))/t.Teeth)
	c := cut{
		pitch: t.Teeth / 2, apex: base / math.Cos(t.LoadAngle), teeth: t.Teeth, flank: phi,
		depth: f.Tool.Addendum - f.Tool.TipRadius - shift, radius: f.Tool.TipRadius, centre: f.Tool.tipCentre(phi),
	}
	half, height, atEnd := c.section()
	if !(half > 0 && height > 0) {
		return fmt.Errorf("no critical section is left (half thickness %.4g, height of the load above it %.4g modules): the tool cuts through the tooth; check profile shift and tool", half, height)
	}
	s := 2 * half
	rho := c.notchRadius()
	if !(rho > 0) {
		return fmt.Errorf("the tool leaves a sharp corner at the root (radius %.4g modules): give it a tip radius above 0", rho)
	}
	t.HelicalFactor = helicalFactor(p)
	if !(p.OverlapRatio > 1) {
		t.HelicalFactor = 1
	}
	bending := 6*height/(s*s*t.HelicalFactor) - math.Tan(t.LoadAngle)/s
	if !(bending > 0) {
		return fmt.Errorf("the load presses on the root more than it bends it (h_F = %.4g, s_F = %.4g modules): AGMA 908-B89 does not cover such a tooth", height, s)
	}
	t.Y = math.Cos(p.WorkingHelix) * math.Cos(p.Helix) * math.Cos(working) / (math.Cos(t.LoadAngle) * bending)
	t.StressCorrection = stressCorrection(phi, s/rho, s/height)
	t.AtFilletEnd = atEnd
	t.Height, t.Thickness, t.NotchRadius = height*m, s*m, rho*m
	return nil
}

// equivalentTeeth is z/cos³ψ. Source: AGMA 908-B89, clause 5.
func equivalentTeeth(p *involute.Pair, i int) float64 {
	c := math.Cos(p.Helix)
	return float64(p.Teeth[i]) / (c * c * c)
}

// helicalFactor is C_h, –, of teeth with m_F > 1: the slanting line of load bends the root less.
//
//	C_h = 1/(1 − √(ω/100 (1 − ω/100))),  ω = atan(tan ψ sin φ_n) in degrees
//
// Source: AGMA 908-B89, clause 5 (from memory).
func helicalFactor(p *involute.Pair) float64 {
	w := math.Atan(math.Tan(p.Helix)*math.Sin(p.Rack.PressureAngle)) * 180 / math.Pi / 100
	return 1 / (1 - math.Sqrt(w*(1-w)))
}

// stressCorrection is K_f, –, from the pressure angle φ_n (rad), s_F/ρ_F and s_F/h_F:
//
//	K_f = H + (s_F/ρ_F)^L (s_F/h_F)^M
//	H = 0.331 − 0.436 φ_n,  L = 0.324 − 0.492 φ_n,  M = 0.261 + 0.545 φ_n
//
// Source: Dolan and Broghamer 1942, as AGMA 908-B89, clause 5, takes it.
func stressCorrection(phi, notch, lever float64) float64 {
	return 0.331 - 0.436*phi + math.Pow(notch, 0.324-0.492*phi)*math.Pow(lever, 0.261+0.545*phi)
}

// cut is the fillet that a rack-type tool leaves on the equivalent spur gear, lengths
// in modules.
type cut struct {
	pitch  float64 // radius of the pitch circle on which the tool rolls
	apex   float64 // where the line of load meets the middle of the tooth, above the gear axis
	teeth  float64 // –
	flank  float64 // pressure angle of the tool, rad
	depth  float64 // of the centre of the tip radius below the pitch line
	radius float64 // tip radius of the tool
	centre float64 // from the middle of the tool tooth to the centre of its tip radius
}

// point is a place on the fillet: half the thickness of the tooth, its height above the gear
// axis, and the direction of the normal there, rad from the middle of the tooth. psi is
// the direction below the pitch line in which the tip radius touches, π/2 at the root
// circle, the pressure angle at the straight flank.
func (c *cut) point(psi float64) (half, height, normal float64) {
	sin, cos := math.Sincos(psi)
	arm := c.depth/sin + c.radius
	x, y := arm*cos, c.pitch-arm*sin
	turned := (c.depth*cos/sin - c.centre) / c.pitch
	space := math.Pi/c.teeth + turned
	angle := space - math.Atan2(x, y)
	r := math.Hypot(x, y)
	s, co := math.Sincos(angle)
	return r * s, r * co, space - math.Pi/2 - psi
}

// section is where the parabola with its top at the apex touches the fillet: half the
// thickness there and how far below the apex it lies. Where it would touch the involute above
// the fillet, the upper end of the fillet is taken.
func (c *cut) section() (half, height float64, atEnd bool) {
	// Below the point of touch the fillet spreads faster than the parabola through it,
	// above more slowly.
	spreads := func(psi float64) bool {
		x, y, normal := c.point(psi)
		sin, cos := math.Sincos(normal)
		return 2*(c.apex-y)*math.Abs(cos) > x*math.Abs(sin)
	}
	upper, lower := c.flank, math.Pi/2
	if spreads(upper) {
		x, y, _ := c.point(upper)
		return x, c.apex - y, true
	}
	for lower-upper > 1e-12 {
		if mid := (upper + lower) / 2; spreads(mid) {
			lower = mid
		} else {
			upper = mid
		}
	}
	x, y, _ := c.point(lower)
	return x, c.apex - y, false
}

// notchRadius is ρ_F, the least radius of the fillet, at the root circle: ρ_ao +
// S²/(r + S) with S the depth of the centre of the tip radius below the pitch line.
// Source: AGMA 908-B89, clause 5, for a rack-type tool.
func (c *cut) notchRadius() float64 {
	return c.radius + c.depth*c.depth/(c.pitch+c.depth)
}

package iso6336

import (
	"fmt"
	"math"
)

// ToothForm is the critical section of one tooth and the load on it, in the
// normal section of the equivalent spur gear. Lengths in mm, angles in rad.
type ToothForm struct {
	VirtualTeeth  float64 // z_n = z/(cos²β_b cos β), –
	Theta         float64 // ϑ, auxiliary angle of the 30° tangent, rad
	Chord         float64 // s_Fn, thickness at the critical section, mm
	RootRadius    float64 // ρ_F, radius of the fillet there, mm
	LoadDiameter  float64 // d_en, outer point of single contact, mm
	LoadAngle     float64 // α_Fen, of the load to the normal of the tooth's middle line, rad
	LoadArm       float64 // h_Fe, bending arm, mm
	Slenderness   float64 // L = s_Fn/h_Fe, –
	Notch         float64 // q_s = s_Fn/(2 ρ_F), –
	LoadSharing   float64 // f_ε, – (1 in the 2006 edition)
	YF            float64 // Y_F, form factor, – (f_ε is in it)
	YS            float64 // Y_S, stress correction factor, –
	sectionRadius float64 // of the point where the 30° tangent touches, mm
}

// cutTooth is what the form of a tooth follows from; lengths in modules.
type cutTooth struct {
	angle       float64 // α_n, rad
	dedendum    float64 // h_fP of the tool
	tipRadius   float64 // ρ_fP of the tool
	residual    float64 // s_pr, undercut left by a protuberance after grinding
	teeth       float64 // z_n
	shift       float64 // x
	tipDiameter float64 // d_an
	contact     float64 // ε_αn; 1 puts the load on the tip
}

// form finds the critical section by the 30° tangent and Y_F (without f_ε) and
// Y_S, for a normal module of module mm.
//
//	E = π/4 − h_fP tan α_n + s_pr/cos α_n − (1 − sin α_n) ρ_fP/cos α_n
//	G = ρ_fP − h_fP + x
//	H = (2/z_n)(π/2 − E) − π/3
//	ϑ = (2 G/z_n) tan ϑ − H
//	s_Fn = z_n sin(π/3 − ϑ) + √3 (G/cos ϑ − ρ_fP)
//	ρ_F = ρ_fP + 2 G²/(cos ϑ (z_n cos²ϑ − 2 G))
//	d_en = 2 √{[√(r_an² − r_bn²) − π cos α_n (ε_αn − 1)]² + r_bn²}
//	γ_e = (π/2 + 2 x tan α_n)/z_n + inv α_n − inv α_en
//	h_Fe = ½ [(cos γ_e − sin γ_e tan α_Fen) d_en − z_n cos(π/3 − ϑ) − G/cos ϑ + ρ_fP]
//	Y_F = 6 h_Fe cos α_Fen/(s_Fn² cos α_n)
//
// in modules. Source: ISO 6336-3:2006 and 2019, clause 6 (form factor), method B,
// external gears.
func (c cutTooth) form(module float64) (ToothForm, error) {
	sinA, cosA := math.Sincos(c.angle)
	tanA := sinA / cosA
	zn := c.teeth
	e := math.Pi/4 - c.dedendum*tanA + c.residual/cosA - (1-sinA)*c.tipRadius/cosA
	g := c.tipRadius - c.dedendum + c.shift
	h := 2/zn*(math.Pi/2-e) - math.Pi/3
	theta, ok := tangentAngle(2*g/zn, h)
	if !ok {
		return ToothForm{}, fmt.Errorf("no point of the fillet has a tangent of 30° to the middle of the tooth (z_n = %.4g, x = %.4g): check profile shift, dedendum and tip radius of the tool", zn, c.shift)
	}
	// The tool's corner touches the fillet under π/2 − ϑ to the pitch line; beyond
	// the straight flank there is no corner.
	if theta > math.Pi/2-c.angle {
		return ToothForm{}, fmt.Errorf("the 30° tangent would touch beyond the tool's corner radius (z_n = %.4g, x = %.4g, pressure angle %.4g°): the fillet is too short for the critical section of ISO 6336-3", zn, c.shift, degrees(c.angle))
	}
	cosT := math.Cos(theta)
	chord := zn*math.Sin(math.Pi/3-theta) + math.Sqrt(3)*(g/cosT-c.tipRadius)
	if chord <= 0 {
		return ToothForm{}, fmt.Errorf("thickness at the critical section would be %.4g modules (z_n = %.4g, x = %.4g): undercut goes through the tooth; the profile shift must be larger", chord, zn, c.shift)
	}
	bend := cosT * (zn*cosT*cosT - 2*g)
	if bend <= 0 {
		return ToothForm{}, fmt.Errorf("radius of the fillet is not defined at the critical section (z_n = %.4g, x = %.4g): profile shift too large for so few teeth", zn, c.shift)
	}
	rootRadius := c.tipRadius + 2*g*g/bend
	if rootRadius <= 0 {
		return ToothForm{}, fmt.Errorf("radius of the fillet is zero: a tool with a sharp corner (tip radius %.4g modules, x = %.4g) gives no finite notch stress; give its real tip radius", c.tipRadius, c.shift)
	}

	base := zn * cosA / 2
	tip := c.tipDiameter / 2
	if tip <= base {
		return ToothForm{}, fmt.Errorf("tip diameter of the equivalent spur gear is %.5g modules, its base diameter %.5g: no involute is left", c.tipDiameter, 2*base)
	}
	curvature := math.Sqrt((tip-base)*(tip+base)) - math.Pi*cosA*max(0, c.contact-1)
	if curvature <= 0 {
		return ToothForm{}, fmt.Errorf("outer point of single contact would lie below the base circle (contact ratio ε_αn = %.4g, tip radius %.4g modules): check tip diameter and centre distance", c.contact, tip)
	}
	load := math.Hypot(curvature, base)
	alpha := math.Atan2(curvature, base) // α_en
	gamma := (math.Pi/2+2*c.shift*tanA)/zn + inv(c.angle) - inv(alpha)
	loadAngle := alpha - gamma
	sinG, cosG := math.Sincos(gamma)
	arm := ((cosG-sinG*math.Tan(loadAngle))*2*load - zn*math.Cos(math.Pi/3-theta) - g/cosT + c.tipRadius) / 2
	if arm <= 0 {
		return ToothForm{}, fmt.Errorf("the load meets the middle of the tooth %.4g modules below the critical section (z_n = %.4g, x = %.4g): the tooth is too short for this calculation", -arm, zn, c.shift)
	}
	middle := (zn*math.Cos(math.Pi/3-theta) + g/cosT - c.tipRadius) / 2
	f := ToothForm{
		VirtualTeeth: zn, Theta: theta,
		Chord: chord * module, RootRadius: rootRadius * module,
		LoadDiameter: 2 * load * module, LoadAngle: loadAngle, LoadArm: arm * module,
		Slenderness: chord / arm, Notch: chord / (2 * rootRadius),
		LoadSharing:   1,
		YF:            6 * arm * math.Cos(loadAngle) / (chord * chord * cosA),
		sectionRadius: math.Hypot(chord/2, middle) * module,
	}
	f.YS = stressCorrection(f.Slenderness, f.Notch)
	return f, nil
}

// tangentAngle solves ϑ = slope·tan ϑ − h for the smallest ϑ in (0, π/2), by
// Newton's method from π/6 as the standard starts it, kept inside a bracket.
func tangentAngle(slope, h float64) (theta float64, ok bool) {
	residual := func(t float64) float64 { return t - slope*math.Tan(t) + h }
	// For slope ≤ 0 the residual only grows. For slope > 0 it grows up to
	// cos²ϑ = slope and falls after that; the root wanted is on the growing side.
	low, high := 0.0, math.Pi/2
	if slope >= 1 {
		return 0, false
	}
	if slope > 0 {
		high = math.Acos(math.Sqrt(slope))
	}
	if residual(low) > 0 || (slope > 0 && residual(high) < 0) {
		return 0, false
	}
	t := min(math.Pi/6, (low+high)/2)
	for range 100 {
		r := residual(t)
		if r < 0 {
			low = t
		} else {
			high = t
		}
		c := math.Cos(t)
		next := t - r/(1-slope/(c*c))
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-t) < 1e-15 {
			return next, true
		}
		t = next
	}
	return t, true
}

// stressCorrection is Y_S, –: from bending of a beam to the stress at the notch.
//
//	Y_S = (1.2 + 0.13 L) q_s^{1/(1.21 + 2.3/L)},  1 ≤ q_s < 8
//
// Source: ISO 6336-3:2006 and 2019, clause 7.
func stressCorrection(l, qs float64) float64 {
	return (1.2 + 0.13*l) * math.Pow(qs, 1/(1.21+2.3/l))
}

// inv is the involute function of an angle in rad (ISO 21771).
func inv(a float64) float64 { return math.Tan(a) - a }

func degrees(rad float64) float64 { return rad * 180 / math.Pi }

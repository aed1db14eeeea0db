package involute

import (
	"fmt"
	"math"
)

// Gauge is what measuring one gear with calipers, micrometer and balls needs to know of it. The profile shift x is what is found out.
type Gauge struct {
	Module        float64 // m_n, mm
	PressureAngle float64 // α_n, rad
	Helix         float64 // β, rad, ≥ 0
	Teeth         int
}

func (g Gauge) transverse() float64 {
	return math.Atan(math.Tan(g.PressureAngle) / math.Cos(g.Helix))
}

func (g Gauge) reference() float64 { return float64(g.Teeth) * g.Module / math.Cos(g.Helix) }

func (g Gauge) base() float64 { return g.reference() * math.Cos(g.transverse()) }

// baseHelix is β_b, rad: sin β_b = sin β cos α_n.
func (g Gauge) baseHelix() float64 {
	return math.Asin(math.Sin(g.Helix) * math.Cos(g.PressureAngle))
}

// Span is the base tangent length over k teeth at a profile shift x, mm:
//
//	W_k = m_n cos α_n [π (k − 0.5) + z inv α_t] + 2 x m_n sin α_n
//
// Over one tooth more it is one normal base pitch π m_n cos α_n longer, whatever the shift. Source: ISO 21771:2007, base tangent length.
func (g Gauge) Span(k int, x float64) float64 {
	sin, cos := math.Sincos(g.PressureAngle)
	return g.Module * (cos*(math.Pi*(float64(k)-0.5)+float64(g.Teeth)*Involute(g.transverse())) + 2*x*sin)
}

// SpanTeeth is over how many teeth to measure, so that the jaws touch near the shifted reference circle:
//
//	k = z/π (tan α_v/cos²β_b − inv α_t) − 2 x tan α_n/π + 0.5, cos α_v = d_b/(d + 2 x m_n)
//
// rounded, at least 1. Source: ISO 21771:2007, number of teeth spanned (from memory).
func (g Gauge) SpanTeeth(x float64) int { return max(1, int(math.Round(g.spanTeeth(x)))) }

func (g Gauge) spanTeeth(x float64) float64 {
	at := g.reference() + 2*x*g.Module
	cos := math.Cos(g.baseHelix())
	angle := math.Acos(min(1, g.base()/at))
	return float64(g.Teeth)/math.Pi*(math.Tan(angle)/(cos*cos)-Involute(g.transverse())) - 2*x*math.Tan(g.PressureAngle)/math.Pi + 0.5
}

// SpanContact is the diameter at which the jaws touch the flanks when they read a span (mm), mm: √(d_b² + (W cos β_b)²). It must lie between root form and
// tip diameter; otherwise measure over another number of teeth. Source: ISO 21771:2007, base tangent length.
func (g Gauge) SpanContact(span float64) float64 {
	return math.Hypot(g.base(), span*math.Cos(g.baseHelix()))
}

// SpanFace is the face width, mm, below which a span (mm) of a helical gear can't be measured, since one jaw slips off: W sin β_b. Use balls then.
func (g Gauge) SpanFace(span float64) float64 { return span * math.Sin(g.baseHelix()) }

// SpanShift is the profile shift x that a measured base tangent length over k teeth (mm) tells; with backlash it is that of the thinned tooth.
func (g Gauge) SpanShift(k int, span float64) float64 {
	return (span - g.Span(k, 0)) / (2 * g.Module * math.Sin(g.PressureAngle))
}

// OverBalls is the size over two balls of a diameter (mm) in opposite spaces, or over pins on a spur gear, at a profile shift x, mm:
//
//	inv α_K = inv α_t + D_M/(z m_n cos α_n) − π/(2 z) + 2 x tan α_n/z
//	d_b/cos α_K + D_M for even z, d_b/cos α_K · cos(π/2z) + D_M for odd z
//
// Source: ISO 21771:2007, diametral two-ball dimension. On helical gears pins lie askew: use balls.
func (g Gauge) OverBalls(ball, x float64) (float64, error) {
	z := float64(g.Teeth)
	inv := Involute(g.transverse()) + ball/(z*g.Module*math.Cos(g.PressureAngle)) - math.Pi/(2*z) + 2*x*math.Tan(g.PressureAngle)/z
	angle, err := InverseInvolute(inv)
	if err != nil || !(inv > 0) {
		return 0, fmt.Errorf("a ball of %.4g mm falls to the bottom of this tooth space; take a larger one, about %.3g mm", ball, 1.728*g.Module)
	}
	return g.base()/math.Cos(angle)*g.across() + ball, nil
}

// BallShift is the profile shift x that a measured size over two balls (mm) tells.
func (g Gauge) BallShift(ball, size float64) (float64, error) {
	cos := g.base() * g.across() / (size - ball)
	if !(cos > 0 && cos < 1) {
		return 0, fmt.Errorf("a size of %.4g mm over balls of %.4g mm lies inside the base circle of %.4g mm; check size, ball, teeth and module", size, ball, g.base())
	}
	z := float64(g.Teeth)
	inv := Involute(math.Acos(cos)) - Involute(g.transverse()) - ball/(z*g.Module*math.Cos(g.PressureAngle)) + math.Pi/(2*z)
	return inv * z / (2 * math.Tan(g.PressureAngle)), nil
}

// BallContact is the diameter at which two balls (mm) touch the flanks when the size over them is size (mm), mm:
//
//	tan α_M = tan α_K − D_M cos β_b/d_b,  cos α_K from the size as in OverBalls
//
// It must lie between root form and tip diameter, or the size tells nothing of the flanks. Source: ISO 21771:2007, diametral two-ball dimension.
func (g Gauge) BallContact(ball, size float64) (float64, error) {
	centre := (size - ball) / g.across()
	rho := rolled(centre, g.base()) - ball/2*math.Cos(g.baseHelix())
	if !(rho >= 0) {
		return 0, fmt.Errorf("balls of %.4g mm with a size of %.4g mm over them would touch below the base circle of %.4g mm, where there is no flank; check size, ball, teeth and module, or take a larger ball", ball, size, g.base())
	}
	return 2 * math.Hypot(g.base()/2, rho), nil
}

// BestBall is the diameter of the ball that touches both flanks of a space at the shifted reference circle d + 2 x m_n, mm. Take the nearest size at hand and see that it
// stands out over the tips: ball and pin diameters are free. It is an error where the shifted reference circle has no flank.
//
// With α_v at that circle and η = (π/2 − 2 x tan α_n)/z − inv α_t, the half space reaching down to the base circle, the centre of the ball lies at α_K with
//
//	inv α_K + η = (tan α_K − tan α_v)/cos²β_b,  D_M = (tan α_K − tan α_v) d_b/cos β_b
//
// from the equations of OverBalls and BallContact.
func (g Gauge) BestBall(x float64) (float64, error) {
	at := g.reference() + 2*x*g.Module
	cos := math.Cos(g.baseHelix())
	touch := math.Acos(g.base() / at)
	eta := (math.Pi/2-2*x*math.Tan(g.PressureAngle))/float64(g.Teeth) - Involute(g.transverse())
	space := Involute(touch) + eta // half the space at the circle, rad
	if !(space > 0) {
		return 0, fmt.Errorf("at the shifted reference circle of %.5g mm (%d teeth, x = %.4g) there are no two flanks for a ball to touch: the base circle has %.5g mm; check profile shift and teeth, or choose a ball and see where it touches", at, g.Teeth, x, g.base())
	}
	// With t = tan α_K the equation is space = (t − tan α_v) tan²β_b + (atan t − α_v): its right side only grows, and has its root
	// below where the second term alone gives it.
	square := 1/(cos*cos) - 1
	low, high := math.Tan(touch), math.Inf(1)
	if touch+space < math.Pi/2 {
		high = math.Tan(touch + space)
	}
	if square > 0 {
		high = min(high, low+space/square)
	}
	if math.IsInf(high, 1) {
		return 0, fmt.Errorf("no ball is large enough to touch at the shifted reference circle of %.5g mm (%d teeth, x = %.4g); check profile shift and teeth", at, g.Teeth, x)
	}
	from := low
	for range 200 {
		mid := (low + high) / 2
		if mid == low || mid == high {
			break
		}
		if (mid-from)*square+math.Atan(mid)-touch < space {
			low = mid
		} else {
			high = mid
		}
	}
	return (low - from) * g.base() / cos, nil
}

// across is how far apart two opposite spaces stand over the diameter: with an odd number of teeth they don't face each other.
func (g Gauge) across() float64 {
	if g.Teeth%2 == 0 {
		return 1
	}
	return math.Cos(math.Pi / (2 * float64(g.Teeth)))
}

// Chord is the chordal thickness of a tooth on its reference cylinder, in the normal section, and the height at which a tooth caliper reads it below a tip that stands
// addendum (mm) above that cylinder, both mm. A helical tooth is measured as one of z/cos³β teeth. Source: handbooks, chordal tooth thickness.
func (g Gauge) Chord(x, addendum float64) (thickness, height float64) {
	arc := g.Module * (math.Pi/2 + 2*x*math.Tan(g.PressureAngle))
	cos := math.Cos(g.Helix)
	d := g.Module * float64(g.Teeth) / (cos * cos * cos)
	half := arc / d
	return d * math.Sin(half), addendum + d/2*(1-math.Cos(half))
}

// ConstantChord is the thickness of a tooth between the points where a full rack touches both its flanks at once, in the normal section, and the height at which a tooth
// caliper reads it below a tip that stands addendum (mm) above the reference cylinder, both mm. It does not depend on the number of teeth:
//
//	s̄_c = s_n cos²α_n,  h̄_c = addendum − ½ s_n sin α_n cos α_n,  s_n = m_n (π/2 + 2 x tan α_n)
//
// Source: handbooks, constant chord.
func (g Gauge) ConstantChord(x, addendum float64) (thickness, height float64) {
	sin, cos := math.Sincos(g.PressureAngle)
	arc := g.Module * (math.Pi/2 + 2*x*sin/cos)
	return arc * cos * cos, addendum - arc/2*sin*cos
}

// Gauge is what the bench needs of gear i, 0 driver, 1 driven. GeneratingShift is the shift that goes with it.
func (p *Pair) Gauge(i int) Gauge {
	return Gauge{Module: p.Module, PressureAngle: p.Rack.PressureAngle, Helix: p.Helix, Teeth: p.Teeth[i]}
}

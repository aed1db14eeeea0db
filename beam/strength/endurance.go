package strength

import (
	"fmt"
	"math"

	"layshaft/material"
)

const (
	ksi  = 6.894757293168361 // MPa
	inch = 25.4              // mm
)

// Sensitivity is the notch sensitivity q of a steel by Neuber's rule, –, from 0 to 1: in bending, which goes for tension
// too, and in torsion.
//
//	q = 1/(1 + √(a/r))
//
// with √a a cubic of the tensile strength from 50 to 250 ksi, which is kept to that range. Source: Shigley's Mechanical
// Engineering Design, 9th ed., eqs 6-35a and 6-35b.
func Sensitivity(tensile, radius float64) (bending, torsion float64) {
	s := min(max(tensile/ksi, 50), 250)
	root := math.Sqrt(radius / inch)
	q := func(a float64) float64 { return 1 / (1 + a/root) }
	return q(0.246 - 3.08e-3*s + 1.51e-5*s*s - 2.67e-8*s*s*s), q(0.190 - 2.51e-3*s + 1.35e-5*s*s - 2.67e-8*s*s*s)
}

// felt is what fatigue feels of factors of shape: K_f = 1 + q (K_t − 1).
func (n Notch) felt(c Concentration, tensile float64) Factors {
	if !c.Sensitive {
		return c.Factors
	}
	radius := n.Radius
	if n.Kind == CrossHole {
		radius = n.Hole / 2
	}
	bending, torsion := Sensitivity(tensile, radius)
	return Factors{1 + bending*(c.Bending-1), 1 + torsion*(c.Torsion-1), 1 + bending*(c.Tension-1)}
}

// Surface is how a surface was left.
type Surface string

// The surfaces of Shigley's table 6-2.
const (
	Ground    Surface = "ground"
	Machined  Surface = "machined" // or cold-drawn
	HotRolled Surface = "hot rolled"
	Forged    Surface = "forged"
)

// Surfaces lists them, the smoothest first.
func Surfaces() []Surface { return []Surface{Ground, Machined, HotRolled, Forged} }

// factor is k_a, –, at most 1. Source: Shigley's Mechanical Engineering Design, 9th ed., table 6-2 (from memory).
func (s Surface) factor(tensile float64) float64 {
	c := map[Surface][2]float64{Ground: {1.58, -0.085}, Machined: {4.51, -0.265}, HotRolled: {57.7, -0.718}, Forged: {272, -0.995}}[s]
	return min(1, c[0]*math.Pow(tensile, c[1]))
}

// sizeFactor is k_b of a turning shaft, –: (d/7.62)^−0.107 from 2.79 to 51 mm, 1.51 d^−0.157 to 254 mm; it is kept to that
// range. Source: Shigley's Mechanical Engineering Design, 9th ed., eq. 6-20 (from memory).
func sizeFactor(diameter float64) float64 {
	d := min(max(diameter, 2.79), 254)
	if d > 51 {
		return 1.51 * math.Pow(d, -0.157)
	}
	return math.Pow(d/7.62, -0.107)
}

// ReliabilityFactor is k_e, –: 1 − 0.08 z, with z the standard deviations below the mean. Source: Shigley's Mechanical
// Engineering Design, 9th ed., eq. 6-29.
func ReliabilityFactor(reliability float64) float64 {
	return 1 - 0.08*math.Sqrt2*math.Erfinv(2*reliability-1)
}

// Reliability is the share of shafts that bear what is said of them, as for teeth.
const Reliability = 0.99

// Steel is the strengths of one steel, MPa.
type Steel struct{ Tensile, Yield float64 }

// Check finds strengths that no steel has.
func (s Steel) Check() error {
	if !(s.Tensile >= 200 && s.Tensile <= 3000) || !(s.Yield > 0 && s.Yield <= s.Tensile) {
		return fmt.Errorf("a steel of %g MPa tensile and %g MPa yield strength can't be reckoned with; expected 200 to 3000 MPa, and a yield strength above 0, at most that", s.Tensile, s.Yield)
	}
	return nil
}

// Endurance is S_e of a turning shaft, MPa, notch factors left out: half the tensile strength, at most 700 MPa, less
// for surface, size and reliability.
func Endurance(tensile, diameter float64, s Surface, reliability float64) float64 {
	return min(0.5*tensile, 700) * s.factor(tensile) * sizeFactor(diameter) * ReliabilityFactor(reliability)
}

// FatigueFraction is f, the share of the tensile strength that 10³ cycles of bending leave, –: 0.9 up to 70 ksi,
// 1.06 − 2.8·10⁻³ S + 6.9·10⁻⁶ S² (ksi) to 200 ksi, and what that has there above. Source: Shigley's Mechanical
// Engineering Design, fit to fig. 6-18 (from memory).
func FatigueFraction(tensile float64) float64 {
	s := min(max(tensile/ksi, 70), 200)
	return min(0.9, 1.06-2.8e-3*s+6.9e-6*s*s)
}

// Cycles is the strength of a steel over the number of cycles, as factors on its endurance (MPa): the tensile strength
// once, f of it for 10³ cycles, from there as a power of the cycles, S = a N^b, to the endurance at 10⁶. Source: Shigley's Mechanical Engineering Design,
// 9th ed., section 6-8.
func Cycles(tensile, endurance, fraction float64) (material.Curve, error) {
	return material.NewCurve([]material.LifePoint{{Cycles: 1, Factor: tensile / endurance}, {Cycles: 1e3, Factor: fraction * tensile / endurance}, {Cycles: 1e6, Factor: 1}}, 0)
}

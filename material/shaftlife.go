package material

import (
	"fmt"
	"math"
)

// UsualFatigueFraction is f, the share of the tensile strength that a polished steel
// specimen bears for 10³ cycles of rotating bending, –, where nothing better is known.
// Source: Budynas and Nisbett, Shigley's Mechanical Engineering Design, section 6-8
// (from memory); fig. 6-18 there has 0.9 at 480 MPa, falling to 0.77 at 1400 MPa.
const UsualFatigueFraction = 0.9

// RotatingBending is the fatigue of a polished steel specimen in rotating bending, as
// endurance S_e' (MPa) and a curve of factors on it, from tensile strength (MPa)
// and f (–, 0 = UsualFatigueFraction):
//
//	S_e' = 0.5 S_ut up to S_ut = 1400 MPa, 700 MPa above
//	S_ut once, f S_ut at 10³ cycles, S_e' from 10⁶ cycles on
//
// Size, surface, notches and reliability of a real shaft come on top of it. Source:
// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed., eqs 6-8 and 6-13
// to 6-15 (from memory); the stretch below 10³ cycles, fig. 6-10 there.
func RotatingBending(tensile, fraction float64) (endurance float64, c Curve, err error) {
	if fraction == 0 {
		fraction = UsualFatigueFraction
	}
	if !(tensile >= 200 && tensile <= 3000) || !(fraction > 0.5 && fraction <= 1) {
		return 0, Curve{}, fmt.Errorf("fatigue of a steel with tensile strength %v MPa and share %v at 10³ cycles can't be drawn; expected 200 to 3000 MPa and a share above 0.5, at most 1", tensile, fraction)
	}
	endurance = math.Min(0.5*tensile, 700)
	ratio := tensile / endurance
	c, err = NewCurve([]LifePoint{{1, ratio}, {1e3, fraction * ratio}, {1e6, 1}}, 0)
	return endurance, c, err
}

package involute

import (
	"fmt"
	"math"
)

// Involute is the involute function of a pressure angle in rad,
//
//	inv α = tan α − α
//
// in rad, for 0 ≤ α < π/2. Source: ISO 21771:2007, involute function.
func Involute(angle float64) float64 { return math.Tan(angle) - angle }

// InverseInvolute is the pressure angle in rad, 0 ≤ α < π/2, whose involute
// function is inv (rad). A negative or infinite inv, or NaN, is an error.
//
// With t = tan α the equation reads t − atan t = inv. Its left side is convex for
// t > 0, so Newton's method started above the root falls onto it and cannot miss.
func InverseInvolute(inv float64) (float64, error) {
	if !(inv >= 0) || math.IsInf(inv, 1) {
		return 0, fmt.Errorf("involute %v belongs to no pressure angle: expected a number of 0 or more; check the tooth thickness or size over pins it was worked out from", inv)
	}
	if inv == 0 {
		return 0, nil
	}
	// The root is below v + ∛(3v): t − atan t = t³/3 − t⁵/5 + … for small t, and
	// t < v + π/2 always.
	t := min(inv+math.Cbrt(3*inv), inv+math.Pi/2)
	for {
		next := t - (t-math.Atan(t)-inv)*(1+t*t)/(t*t)
		if !(next < t) {
			return math.Atan(t), nil
		}
		t = next
	}
}

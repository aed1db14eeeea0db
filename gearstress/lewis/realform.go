package lewis

import (
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// RealForm is the form factor Y (–) of the real tooth of gear i (0 driver, 1
// driven), in the diametral-pitch definition. It is not the table's value, and is
// not meant to be.
//
// The load acts on the tip corner, along the normal of the flank. Where its line
// meets the middle of the tooth is the apex of a parabola, which is a beam of equal
// bending stress; the largest parabola that fits inside flank and fillet touches at
// the weakest section, of thickness t and distance l from the apex:
//
//	Y = t² / (6 l m)
//
// With few teeth it touches the fillet, above about 150 the involute. Source:
// Lewis's construction as in Budynas and Nisbett, Shigley's Mechanical Engineering
// Design, 8th ed., fig. 14-1 and eq. 14-3, on the outline of involute.Tooth.
func RealForm(p *involute.Pair, i int) (float64, error) {
	tooth, err := p.Tooth(i)
	if err != nil {
		return 0, fmt.Errorf("form factor of the real tooth: %w", err)
	}
	// Pressure angle at the tip corner, less the angle of that corner from the
	// middle of the tooth, is the slope of the load against the tangential
	// direction. Its line is a tangent of the base circle.
	slope := math.Acos(tooth.Base/tooth.Tip) - tooth.HalfAngle(tooth.Tip)
	apex := tooth.Base / 2 / math.Cos(slope)
	// Half the thickness squared over the distance below the apex: for all points
	// of one parabola the same, so the largest one inside is the least of all.
	width := func(q involute.Point) float64 {
		if q.Y >= apex {
			return math.Inf(1)
		}
		return q.X * q.X / (apex - q.Y)
	}
	least := min(
		minimum(func(u float64) float64 { return width(tooth.Fillet(u)) }),
		minimum(func(u float64) float64 { return width(tooth.Flank(u)) }),
	)
	return 2 * least / (3 * tooth.Module), nil
}

// minimum is the least value of f on 0 to 1: the lowest of a row of points, then
// golden section between its neighbours.
func minimum(f func(float64) float64) float64 {
	const points = 32
	best, at := math.Inf(1), 0
	for k := range points + 1 {
		if v := f(float64(k) / points); v < best {
			best, at = v, k
		}
	}
	from, to := float64(max(at-1, 0))/points, float64(min(at+1, points))/points
	ratio := (math.Sqrt(5) - 1) / 2
	a, b := to-ratio*(to-from), from+ratio*(to-from)
	fa, fb := f(a), f(b)
	// The value at a minimum is flat: a bracket of 1e-7 settles it to about 1e-13.
	for to-from > 1e-7 {
		if fa < fb {
			to, b, fb = b, a, fa
			a = to - ratio*(to-from)
			fa = f(a)
		} else {
			from, a, fa = a, b, fb
			b = from + ratio*(to-from)
			fb = f(b)
		}
	}
	return min(best, fa, fb)
}

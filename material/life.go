package material

import (
	"errors"
	"fmt"
	"math"
)

// LifePoint is a corner of a Curve.
type LifePoint struct {
	Cycles float64 // number of load cycles N, –, > 0
	Factor float64 // strength at N over the strength it is all referred to, –, > 0; or the strength itself, MPa
}

// mostCorners is how many corners a Curve may have.
const mostCorners = 5

// Curve is strength against the number of load cycles, as straight lines between
// corners on double-logarithmic paper (S–N curve). It is level up to its first
// corner: the static strength. After its last corner it is level (endurance), or falls
// on as N^−tail. It never rises. Its ordinate is a factor (–) on a strength, or the
// strength itself (MPa): what goes in and comes out below has the unit of its corners.
type Curve struct {
	n      int
	corner [mostCorners]LifePoint
	slope  [mostCorners]float64 // of the line that ends at the corner, ln factor over ln N, ≤ 0, –; the first has none
	tail   float64              // –
}

// NewCurve is a curve through corners in the order of rising cycles. tail ≥ 0 (–) is
// the exponent with which it falls after the last corner; 0 = endurance. Everything
// wrong comes back in one error.
func NewCurve(points []LifePoint, tail float64) (Curve, error) {
	var errs []error
	if len(points) == 0 || len(points) > mostCorners {
		errs = append(errs, fmt.Errorf("a life curve has %d corners; expected 1 to %d", len(points), mostCorners))
	}
	for i, p := range points {
		if !(p.Cycles > 0 && p.Factor > 0) || math.IsInf(p.Cycles, 1) || math.IsInf(p.Factor, 1) {
			errs = append(errs, fmt.Errorf("corner %d of the life curve is at %v cycles with factor %v; expected two numbers above 0", i+1, p.Cycles, p.Factor))
		} else if i > 0 && !(p.Cycles > points[i-1].Cycles && p.Factor <= points[i-1].Factor) {
			errs = append(errs, fmt.Errorf("corner %d of the life curve (%g cycles, factor %g) does not follow on corner %d (%g, %g): cycles must rise and the factor must not",
				i+1, p.Cycles, p.Factor, i, points[i-1].Cycles, points[i-1].Factor))
		}
	}
	if !(tail >= 0 && tail <= 1) {
		errs = append(errs, fmt.Errorf("exponent %v after the last corner of the life curve is outside 0 to 1; 0 is a curve with an endurance", tail))
	}
	if err := errors.Join(errs...); err != nil {
		return Curve{}, err
	}
	c := Curve{tail: tail}
	for _, p := range points {
		c.Add(p.Cycles, p.Factor)
	}
	return c, nil
}

// Add puts a corner behind those that the curve has; a factor above that of the corner before is cut down to it. That the
// cycles rise, that both are above 0 and that the curve has fewer than five corners is the caller's to know.
func (c *Curve) Add(cycles, factor float64) {
	if k := c.n; k > 0 {
		before := c.corner[k-1]
		factor = min(factor, before.Factor)
		c.slope[k] = math.Log(factor/before.Factor) / math.Log(cycles/before.Cycles)
	}
	c.corner[c.n] = LifePoint{cycles, factor}
	c.n++
}

// Corners are the corners of the curve.
func (c *Curve) Corners() []LifePoint { return c.corner[:c.n] }

// Static is the factor at the first corner and before, in the unit of the corners.
func (c *Curve) Static() float64 { return c.corner[0].Factor }

// Endurance is the factor borne for ever: 0 for a curve that falls on.
func (c *Curve) Endurance() float64 {
	if c.tail > 0 {
		return 0
	}
	return c.corner[c.n-1].Factor
}

// At is the factor at a number of load cycles N ≥ 0:
//
//	factor = f_k (N/N_k)^(ln(f_k+1/f_k)/ln(N_k+1/N_k)) between corners k and k+1
//
// Source: Basquin's law, piece by piece, as S–N curves are drawn in ISO 6336-3 and
// in Budynas and Nisbett, Shigley's Mechanical Engineering Design, section 6-8.
func (c *Curve) At(cycles float64) float64 {
	if math.IsNaN(cycles) {
		return math.NaN()
	}
	for k := range c.n {
		switch {
		case cycles > c.corner[k].Cycles:
		case k == 0:
			return c.Static()
		default:
			from := c.corner[k-1]
			return from.Factor * math.Exp(c.slope[k]*math.Log(cycles/from.Cycles))
		}
	}
	last := c.corner[c.n-1]
	if c.tail == 0 {
		return last.Factor
	}
	return last.Factor * math.Pow(cycles/last.Cycles, -c.tail)
}

// Cycles is the number of load cycles (–) that a factor is borne, the reverse of At: 0
// above the static factor, +Inf at or below the endurance. On a level stretch it is
// the end of the stretch. Source: as At.
func (c *Curve) Cycles(factor float64) float64 {
	switch {
	case math.IsNaN(factor):
		return math.NaN()
	case factor > c.Static():
		return 0
	case factor <= c.Endurance():
		return math.Inf(1)
	}
	for k := 1; k < c.n; k++ {
		if factor > c.corner[k].Factor {
			from := c.corner[k-1]
			return from.Cycles * math.Exp(math.Log(factor/from.Factor)/c.slope[k])
		}
	}
	last := c.corner[c.n-1]
	return last.Cycles * math.Pow(factor/last.Factor, -1/c.tail)
}

// Damage is what one factor adds to the sum of damage in a number of load cycles (–), –:
//
//	D = Σ n/N, N the cycles that the factor would be borne alone
//
// 1 is the end of life; a factor above the static one makes it +Inf, and at or below the
// endurance it adds nothing. Source: Palmgren–Miner rule, as in ISO 6336-6
// and in Budynas and Nisbett, Shigley's Mechanical Engineering Design, section 6-15.
func (c *Curve) Damage(factor, cycles float64) float64 {
	if !(cycles > 0) {
		return 0
	}
	return cycles / c.Cycles(factor)
}

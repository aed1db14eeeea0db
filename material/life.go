package material

import (
	"errors"
	"fmt"
	"math"
)

// LifePoint is a corner of a Curve.
type LifePoint struct {
	Cycles float64 // number of load cycles N, –, > 0
	Factor float64 // strength at N over the strength it is all referred to, –, > 0
}

// Curve is strength against the number of load cycles, as straight lines between
// corners on double-logarithmic paper (S–N curve). It is level up to its first
// corner: the static strength. After its last corner it is level (endurance), or falls
// on as N^−Tail. It never rises.
type Curve struct {
	points []LifePoint
	tail   float64
	source string
}

// NewCurve is a curve through corners in the order of rising cycles. tail ≥ 0 (–) is
// the exponent with which it falls after the last corner; 0 = endurance. source says
// where the corners come from. Everything wrong comes back in one error.
func NewCurve(points []LifePoint, tail float64, source string) (Curve, error) {
	var errs []error
	if len(points) == 0 {
		errs = append(errs, errors.New("a life curve needs at least one corner"))
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
	if source == "" {
		errs = append(errs, errors.New("a life curve must say where it comes from"))
	}
	if err := errors.Join(errs...); err != nil {
		return Curve{}, err
	}
	return Curve{append([]LifePoint(nil), points...), tail, source}, nil
}

// Source says where the curve comes from.
func (c Curve) Source() string { return c.source }

// Static is the factor at the first corner and before, –.
func (c Curve) Static() float64 { return c.points[0].Factor }

// Endurance is the factor borne for ever, –: 0 for a curve that falls on.
func (c Curve) Endurance() float64 {
	if c.tail > 0 {
		return 0
	}
	return c.points[len(c.points)-1].Factor
}

// At is the factor at a number of load cycles N ≥ 0, –:
//
//	factor = f_k (N/N_k)^(ln(f_k+1/f_k)/ln(N_k+1/N_k)) between corners k and k+1
//
// Source: Basquin's law, piece by piece, as S–N curves are drawn in ISO 6336-3 and
// in Budynas and Nisbett, Shigley's Mechanical Engineering Design, section 6-8.
func (c Curve) At(cycles float64) float64 {
	last := c.points[len(c.points)-1]
	if cycles > last.Cycles {
		if c.tail == 0 {
			return last.Factor
		}
		return last.Factor * math.Pow(cycles/last.Cycles, -c.tail)
	}
	before := c.points[0]
	for _, p := range c.points[1:] {
		if cycles > before.Cycles && cycles <= p.Cycles {
			part := math.Log(cycles/before.Cycles) / math.Log(p.Cycles/before.Cycles)
			return before.Factor * math.Pow(p.Factor/before.Factor, part)
		}
		before = p
	}
	if math.IsNaN(cycles) {
		return math.NaN()
	}
	return c.Static()
}

// Cycles is the number of load cycles that a factor (–) is borne, the reverse of At: 0
// above the static factor, +Inf at or below the endurance. On a level stretch it is
// the end of the stretch. Source: as At.
func (c Curve) Cycles(factor float64) float64 {
	switch {
	case math.IsNaN(factor):
		return math.NaN()
	case factor > c.Static():
		return 0
	case factor <= c.Endurance():
		return math.Inf(1)
	}
	before := c.points[0]
	for _, p := range c.points[1:] {
		if factor > p.Factor {
			part := math.Log(factor/before.Factor) / math.Log(p.Factor/before.Factor)
			return before.Cycles * math.Pow(p.Cycles/before.Cycles, part)
		}
		before = p
	}
	return before.Cycles * math.Pow(factor/before.Factor, -1/c.tail)
}

// Bin is one step of a load spectrum.
type Bin struct {
	Stress float64 // MPa, ≥ 0
	Cycles float64 // how often it comes, –, ≥ 0
}

// Damage is the sum of damage of a spectrum on a strength (MPa) that the factors of
// the curve multiply, –:
//
//	D = Σ n_i/N_i,  N_i the cycles that the stress of bin i would be borne alone
//
// 1 is the end of life; a stress above the static strength makes it +Inf, and stresses
// at or below the endurance add nothing. Source: Palmgren–Miner rule, as in ISO 6336-6
// and in Budynas and Nisbett, Shigley's Mechanical Engineering Design, section 6-15.
func (c Curve) Damage(strength float64, bins []Bin) (float64, error) {
	var errs []error
	if !(strength > 0) || math.IsInf(strength, 1) {
		errs = append(errs, fmt.Errorf("strength is %v MPa; expected a number above 0", strength))
	}
	for i, b := range bins {
		if !(b.Stress >= 0 && b.Cycles >= 0) || math.IsInf(b.Cycles, 1) || math.IsInf(b.Stress, 1) {
			errs = append(errs, fmt.Errorf("step %d of the load spectrum has %v MPa and %v cycles; expected numbers of 0 or more", i+1, b.Stress, b.Cycles))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return 0, err
	}
	sum := 0.0
	for _, b := range bins {
		if b.Cycles > 0 && b.Stress > 0 {
			sum += b.Cycles / c.Cycles(b.Stress/strength)
		}
	}
	return sum, nil
}

package bearing

import (
	"errors"
	"fmt"
	"math"
)

// Bench is a pair set up by hand: without load from outside, and with the case between its two outer rings.
type Bench struct {
	Pair
	Case float64 // stiffness of the case along the shaft between the outer rings, N/mm; +Inf = rigid
}

// AtRest is a pair without load from outside.
type AtRest struct {
	Play    float64    // axial, mm; 0 where the rows are pushed together
	Preload float64    // axial, N; 0 where there is play
	Rows    [2]float64 // axial stiffness of A and B at it, N/mm; 0 where there is play

	// Outside is what an outside force sees, N/mm: both rows side by side, kA + kB. Shim is what a shim sees: both
	// rows and the case one behind the other, 1/(1/kA + 1/kB + 1/k of the case), of two like rows in a rigid case a
	// quarter of the other. 0 where there is play.
	Outside, Shim float64

	Pressure float64 // largest between a roller and the inner raceway, line contact by Hertz, MPa; NaN of balls
}

// MostPressure is where the contact of a bearing begins to tire whatever its oil, MPa. Source: ISO 281:2007, 9.3.2 (the
// fatigue limit of usual steel and quality), from memory. A preload that asks for more has left what is set on a bench.
const MostPressure = 1500.0

// Beyond reports whether the preload has left the range in which pairs are set: the contact would tire from it alone.
func (s AtRest) Beyond() bool { return s.Pressure > MostPressure }

// At is the pair with an axial end play, mm; negative: its rows and the case are pushed together by so much.
func (b Bench) At(play float64) (AtRest, error) {
	b.Setting = 0
	rowA, rowB, err := b.prepare()
	if err != nil {
		return AtRest{}, err
	}
	if !(b.Case > 0) {
		return AtRest{}, fmt.Errorf("stiffness of the case %g N/mm: a number above 0 is expected, +Inf for a rigid one", b.Case)
	}
	if play >= 0 {
		return AtRest{Play: play}, nil
	}
	if most := min(b.A.Diameter, b.B.Diameter) / 8; !(-play <= most) {
		return AtRest{}, fmt.Errorf("rows that are pushed together by %.4g mm: at most an eighth of the element diameter (%.3g mm) is expected", -play, most)
	}
	var fault error
	pushed := func(force float64) float64 {
		x, errA := rowA.pushed(force)
		y, errB := rowB.pushed(force)
		fault = errors.Join(fault, errA, errB)
		return x + y + force/b.Case
	}
	high := 1.0
	for pushed(high) < -play && high < mostForce && fault == nil {
		high *= 4
	}
	if fault != nil {
		return AtRest{}, fault
	}
	s := AtRest{Preload: root(func(f float64) float64 { return pushed(f) + play }, 0, high, 1e-13*-play)}
	if fault != nil {
		return AtRest{}, fault
	}
	for i, r := range []*row{rowA, rowB} {
		x, err := r.pushed(s.Preload)
		if err != nil {
			return AtRest{}, err
		}
		var h matrix
		a := r.state(vector{x}, &h)
		s.Rows[i] = h[0][0]
		s.Pressure = math.Max(s.Pressure, r.pressure(a.heaviest))
	}
	s.Outside = s.Rows[0] + s.Rows[1]
	s.Shim = 1 / (1/s.Rows[0] + 1/s.Rows[1] + 1/b.Case)
	return s, nil
}

// Play is the end play, mm, negative, that gives a preload, N ≥ 0: what rows and case give way under it.
func (b Bench) Play(preload float64) (float64, error) {
	play, err := b.PreloadSetting(preload)
	return play - preload/b.Case, err
}

// pressure is what a load, N, does between a roller and the inner raceway: p = √(Q E*/(π l R)), E* of steel on steel.
// The rollers stand on a circle of the pitch diameter across the line of contact. NaN of balls.
func (r *row) pressure(load float64) float64 {
	if r.Kind == Ball {
		return math.NaN()
	}
	const modulus = 206000 / (2 * (1 - 0.3*0.3))
	inner := r.Pitch/(2*r.cos) - r.Diameter/2
	curvature := 2/r.Diameter + 1/inner
	return math.Sqrt(load * modulus * curvature / (math.Pi * r.Length))
}

package bearing

import "math"

// Growth of length with temperature, per K; common values from memory.
const (
	SteelGrowth     = 11.5e-6
	AluminiumGrowth = 23.5e-6
)

// Warmth is what heat does to a pair whose outer rings sit in a case and whose inner rings sit on a shaft.
type Warmth struct {
	Span        float64 // between the seats of the outer rings along the shaft, mm
	Case, Shaft float64 // growth of length with temperature, per K
	CaseRise    float64 // K
	ShaftRise   float64 // K
	Cup         float64 // by which the radius of each outer ring grows beyond that of its rollers, mm, as it loosens in the case
}

// PlayChange is by how much the end play of a pair grows, mm, from cold to hot; negative: it is lost, and preload gained.
//
//	L (α_case ΔT_case − α_shaft ΔT_shaft)     face to face: more play; back to back: less
//	ΔR/tan α                                  for each outer ring that grows, in either arrangement
//
// Face to face the outer rings are held from outside, so a case that grows draws them off; back to back they are held from
// inside. Source: equilibrium of lengths; a trade magazine prints 27.4 µm for a ring that grows by 10 µm, which is
// the radius and 20.05°.
func (p Pair) PlayChange(w Warmth) float64 {
	grown := -p.Arrangement.sign() * w.Span * (w.Case*w.CaseRise - w.Shaft*w.ShaftRise)
	for _, e := range []Elements{p.A, p.B} {
		grown += w.Cup / math.Tan(math.Abs(e.ContactAngle))
	}
	return grown
}

package contact

import (
	"math"

	"layshaft/gearstress/involute"
)

// ZoneFactor is the zone factor Z_H of a pair (–), which carries the tangential
// force at the reference cylinder over to the curvature at the pitch point:
//
//	Z_H = √( 2 cos β_b cos α_wt / (cos² α_t sin α_wt) )
//
// Source: ISO 6336-2:2006, zone factor.
func ZoneFactor(p *involute.Pair) float64 {
	c := math.Cos(p.TransversePressureAngle)
	return math.Sqrt(2*math.Cos(p.BaseHelix)/math.Tan(p.WorkingPressureAngle)) / c
}

// PitchPoint is the Hertz stress at the pitch point, MPa, with the whole load on
// one line of contact and evenly along the face:
//
//	σ = Z_H Z_E √( F_t/(d1 b) · (u + 1)/u ),  F_t = 2 |T| / d1,  u = z2/z1
//
// torque is T on the driver (N·mm, sign without meaning here), face is b > 0 (mm),
// ze is Z_E (√MPa). Here 1 is the driver, whichever gear is larger: (u + 1)/(u d1)
// is 1/d1 + 1/d2. The stress grows with the root of the torque.
// Source: ISO 6336-2:2006, nominal contact stress with Z_ε = Z_β = 1.
func PitchPoint(p *involute.Pair, torque, face, ze float64) float64 {
	tangential := 2 * math.Abs(torque) / p.Reference[0]
	return ZoneFactor(p) * ze * math.Sqrt(tangential/face*(1/p.Reference[0]+1/p.Reference[1]))
}

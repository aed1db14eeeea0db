package iso6336

import (
	"math"

	"layshaft/material"
)

// strength is what one flank or root bears against load cycles, and the factors it follows from.
type strength struct {
	curve  material.Curve // MPa
	cycles float64        // N_L, for which it is asked, –
	limit  float64        // what it bears so often, MPa

	base         float64        // σ_Hlim or σ_FE, MPa
	follows      float64        // the static strength that follows from it, MPa
	life         material.Curve // Z_NT or Y_NT, –
	static, long [4]float64     // the other factors up to the first corner of life, and from the second, –
}

// newStrength draws the curve of the limit.
//
// more is how many times as much static strength is known as follows from the limits of fatigue; up to 1 it changes nothing. A
// strength against a single load proves nothing of fatigue, so the curve keeps all of its corners: in front of the first the
// line of limited life is carried on at the slope of the life factor, up to that static strength.
func newStrength(base, more float64, life material.Curve, static, long [4]float64) strength {
	s := strength{base: base, life: life, static: static, long: long}
	once, ever := base, base
	for k := range static {
		once *= static[k]
		ever *= long[k]
	}
	corners := s.life.Corners()
	s.follows = once * life.Static()
	if more > 1 {
		slope := math.Log(corners[0].Factor/corners[1].Factor) / math.Log(corners[1].Cycles/corners[0].Cycles)
		s.curve.Add(corners[0].Cycles*math.Pow(more, -1/slope), more*s.follows)
	}
	for k, p := range corners {
		level := ever
		if k == 0 {
			level = once
		}
		s.curve.Add(p.Cycles, level*p.Factor)
	}
	return s
}

// reach asks it for a number of load cycles, –.
func (s *strength) reach(cycles float64) {
	s.cycles, s.limit = cycles, s.curve.At(cycles)
}

// capped is the long life strength, MPa, where it would be above the static one that follows from it, which then holds; else 0.
func (s *strength) capped() float64 {
	second := s.base * s.life.Corners()[1].Factor
	for _, f := range s.long {
		second *= f
	}
	if second > s.follows {
		return second
	}
	return 0
}

// factors is each factor but that of life at the number of load cycles: static up to the first corner of
// the life curve, long from the second, a power of the cycles between.
func (s *strength) factors() (at [4]float64) {
	part := 0.0
	if corners := s.life.Corners(); s.cycles > corners[0].Cycles {
		first := corners[0].Cycles
		part = min(1, math.Log(s.cycles/first)/math.Log(corners[1].Cycles/first))
	}
	for k := range at {
		at[k] = s.static[k] * math.Pow(s.long[k]/s.static[k], part)
	}
	return at
}

// testVelocity is the pitch line velocity, mm/s, of the gears whose strength the limits are, where Z_V is 1. Source: ISO 6336-5, reference test
// gears, 10 m/s; from memory.
const testVelocity = 10e3

// flankStrength is that of the flank of gear i at a pitch line velocity, mm/s, with Z_L, Z_V, Z_R and Z_W for factors. Where the velocity isn't
// known (0) that of the test gears is taken, so that not knowing it neither helps nor harms. known is false
// where a hardness is missing and no gain from work hardening is counted.
func (f *Form) flankStrength(in *Input, i int, velocity float64) (s strength, known bool) {
	p, own, mate := f.Pair, &in.Gear[i], &in.Gear[1-i]
	velocity = or(velocity, testVelocity)
	softer := min(own.Strength.Contact, mate.Strength.Contact)
	work, staticWork, known := workHardening(wear{
		self: own.Strength, mate: mate.Strength, wheel: i != f.pinion,
		ratio:     float64(p.Teeth[1-f.pinion]) / float64(p.Teeth[f.pinion]),
		roughness: own.FlankRoughness, mateRough: mate.FlankRoughness,
		radius: f.relativeRadius, viscosity: in.Viscosity, velocity: velocity,
	})
	life := contactLife(own.Strength.Group, in.LimitedPitting, or(in.LongLife, customaryTail))
	return newStrength(own.Strength.Contact*flankSizeFactor, own.Strength.StaticContact/own.Strength.Contact, life, [4]float64{1, 1, 1, staticWork}, [4]float64{
		lubricantFactor(softer, in.Viscosity),
		velocityFactor(softer, velocity),
		flankRoughnessFactor(softer, (own.FlankRoughness+mate.FlankRoughness)/2, f.relativeRadius),
		work,
	}), known
}

// rootStrength is that of the root of gear i, with Y_δrelT, Y_RrelT, Y_X and Y_M for factors.
func (f *Form) rootStrength(in *Input, i int) strength {
	g, t := &in.Gear[i], &f.Tooth[i]
	s := g.Strength
	static := [4]float64{staticNotchSensitivity(s, t.YS), 1, 1, meanStressFactor(s.Group, g.Reversal, t.YS, true)}
	return newStrength(s.base(), s.StaticBending/s.Bending, bendingLife(s.Group, or(in.LongLife, customaryTail)), static, [4]float64{
		notchSensitivity(s, t.Notch), rootSurfaceFactor(s.Group, g.RootRoughness),
		rootSizeFactor(s.Group, f.Pair.Module), meanStressFactor(s.Group, g.Reversal, t.YS, false),
	})
}

// cycles is N_L of gear i, –.
func (in *Input) cycles(f *Form, i int) float64 {
	p := f.Pair
	return in.Turns * float64(p.Teeth[0]) / float64(p.Teeth[i]) * float64(max(1, in.Gear[i].Contacts))
}

package bearing

import "math"

// RibTorque is the torque of a tapered row that turns so slowly that its rollers slide dry or barely oiled on the rib of
// the inner ring, N·mm, under an axial force, N.
//
//	M = e µ F cos β
//
// e is the lever of the rib's contact about the axis of the roller's rolling, mm (not the factor e of the catalogue), β the
// angle of the roller's axis against it, rad. µ lies between 0.05, well oiled, and 0.2, dry: without the oil a torque says
// little about a preload. Source: bearing maker's engineering report, result from memory.
func RibTorque(lever, friction, force, angle float64) float64 {
	return lever * friction * force * math.Cos(angle)
}

// OilTorque is what churning adds at speed, N·mm, for a mean diameter, mm, an oil of a viscosity, mm²/s, a speed,
// revolutions per minute, and the factor f₀ of friction (tapered 4 to 6; not that of the static rating).
//
//	M₀ = f₀ 10⁻⁷ (ν n)^(2/3) d_m³ for ν n ≥ 2000, 160·10⁻⁷ f₀ d_m³ below
//
// Source: A. Palmgren, Ball and Roller Bearing Engineering, from memory; the branches meet within 1 %.
func OilTorque(factor, viscosity, speed, mean float64) float64 {
	if vn := viscosity * speed; vn >= 2000 {
		return factor * 1e-7 * math.Pow(vn, 2./3) * mean * mean * mean
	}
	return factor * 160e-7 * mean * mean * mean
}

// SeenThrough is the torque at a shaft in hand, in the unit of the others: its own drag, and that of another shaft that
// makes so many turns per turn here, through meshes of an efficiency.
//
//	T = own + i T₂/η
//
// A slow shaft counts only i of what it drags. Source: balance of power.
func SeenThrough(own, other, turns, efficiency float64) float64 { return own + turns*other/efficiency }

// BehindIt is SeenThrough turned round: the drag of the other shaft from what is read here. What a reading is out by
// comes back η/i times as large.
func BehindIt(reading, own, turns, efficiency float64) float64 {
	return (reading - own) * efficiency / turns
}

package strength

import "math"

// Load is what a section carries.
type Load struct {
	Moment float64 // bending, resultant of both planes, N·mm, ≥ 0
	Torque float64 // N·mm
	Normal float64 // tension +, N
	Shear  float64 // resultant of both planes, N, ≥ 0
}

// Modulus is what turns forces in a section into stresses.
type Modulus struct {
	Area    float64 // mm²
	Bending float64 // section modulus against bending, mm³
	Torsion float64 // against torsion, mm³
	Uneven  float64 // largest shear stress of a transverse force over its mean, –
}

// Ring is the modulus of a round section, bore 0 = solid.
//
// Its transverse shear is largest at the neutral axis, 4/3 of the mean in a solid one and twice the mean in a thin
// one: τ = (4/3) (V/A) (R² + R r + r²)/(R² + r²), from V S/(I t) with the first moment of half the ring.
func Ring(outer, bore float64) Modulus {
	area := math.Pi / 4 * (outer - bore) * (outer + bore)
	inertia := area * (outer*outer + bore*bore) / 16
	return Modulus{
		Area: area, Bending: 2 * inertia / outer, Torsion: 4 * inertia / outer,
		Uneven: 4. / 3 * (outer*outer + outer*bore + bore*bore) / (outer*outer + bore*bore),
	}
}

// drilled is a ring without a strip as wide as a cross hole, right across its middle, where it counts most: the strip
// takes w(D³−d³)/12 off both second moments.
func drilled(outer, bore, hole float64) Modulus {
	m := Ring(outer, bore)
	lost := hole * (outer*outer*outer - bore*bore*bore) / 12
	m.Area -= hole * (outer - bore)
	m.Bending -= 2 * lost / outer
	m.Torsion -= 2 * lost / outer
	return m
}

// Nominal is the stresses of a section without notch factors, MPa.
type Nominal struct {
	Bending float64 // at the outer fibre, ≥ 0
	Torsion float64 // shear at the outer fibre, ≥ 0
	Axial   float64 // tension +
	Shear   float64 // of the transverse force, at the neutral axis, ≥ 0
}

// Under is the stresses under a load.
func (m Modulus) Under(l Load) Nominal {
	return Nominal{
		Bending: l.Moment / m.Bending, Torsion: math.Abs(l.Torque) / m.Torsion, Axial: l.Normal / m.Area, Shear: m.Uneven * l.Shear / m.Area,
	}
}

// VonMises is the equivalent stress at the worse of two places, MPa: the outer fibre, and the neutral axis at the
// surface, where transverse shear joins that of torsion.
//
//	σ_v² = (|σ_b| + |σ_a|)² + 3 τ_t²   or   σ_a² + 3 (τ_t + τ_V)²
//
// Source: Shigley's Mechanical Engineering Design, 9th ed., section 5-5 (distortion energy; from memory).
func (n Nominal) VonMises() float64 {
	axial := math.Abs(n.Axial)
	return max(math.Hypot(n.Bending+axial, math.Sqrt(3)*n.Torsion), math.Hypot(axial, math.Sqrt(3)*(n.Torsion+n.Shear)))
}

// times is the stresses with notch factors. Transverse shear is nought where bending is largest and bears none.
func (n Nominal) times(f Factors) Nominal {
	return Nominal{Bending: n.Bending * f.Bending, Torsion: n.Torsion * f.Torsion, Axial: n.Axial * f.Tension, Shear: n.Shear}
}

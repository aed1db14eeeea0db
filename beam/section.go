package beam

import "math"

// ShearCoefficient is Cowper's shear coefficient κ of a round section: the
// shear angle under a transverse force S is S/(κGA).
//
//	κ = 6 (1+ν) (1+m²)² / ((7+6ν)(1+m²)² + (20+12ν) m²)
//
// with ν Poisson's ratio and m the bore over the outer diameter, both plain
// numbers, m from 0 up to 1. At ν = 0.3: solid 0.8864, m = 0.5 0.6202, thin
// tube 0.5306. It goes with the mean rotation of the section.
//
// Source: Cowper, J. Appl. Mech. 33 (1966), solid circle and hollow circle
// (written down from memory).
func ShearCoefficient(poisson, boreRatio float64) float64 {
	m2 := boreRatio * boreRatio
	b := (1 + m2) * (1 + m2)
	return 6 * (1 + poisson) * b / ((7+6*poisson)*b + (20+12*poisson)*m2)
}

// HutchinsonCoefficient is the same after Hutchinson, which gives the better
// deflection:
//
//	κ = 6 (1+ν)² (1+m²)² / (7 + 34m² + 7m⁴ + ν(12 + 48m² + 12m⁴) + ν²(4 + 16m² + 4m⁴))
//
// At ν = 0.3: solid 0.9252, m = 0.5 0.6573. For bore ratios up to 0.7.
//
// Source: Hutchinson, J. Appl. Mech. 68 (2001) (written down from memory; held
// against hollow solids up to a bore ratio of 0.7).
func HutchinsonCoefficient(poisson, boreRatio float64) float64 {
	m2 := boreRatio * boreRatio
	m4 := m2 * m2
	b := (1 + poisson) * (1 + m2)
	return 6 * b * b / (7 + 34*m2 + 7*m4 + poisson*(12+48*m2+12*m4+poisson*(4+16*m2+4*m4)))
}

// area is the area of a ring, mm².
func area(outer, bore float64) float64 {
	return math.Pi / 4 * (outer - bore) * (outer + bore)
}

// inertia is the second moment of area of a ring about a diameter, mm⁴.
// The polar one is twice that.
func inertia(outer, bore float64) float64 {
	return area(outer, bore) * (outer*outer + bore*bore) / 16
}

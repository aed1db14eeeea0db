package beam

import "math"

// ShearCoefficient is Cowper's shear coefficient κ of a round section: the
// shear angle under a transverse force S is S/(κGA).
//
//	κ = 6 (1+ν) (1+m²)² / ((7+6ν)(1+m²)² + (20+12ν) m²)
//
// with ν Poisson's ratio and m the bore over the outer diameter, both plain
// numbers, m from 0 up to 1. At ν = 0.3: solid 0.8864, m = 0.5 0.6202, thin
// tube 0.5306.
//
// Source: Cowper, J. Appl. Mech. 33 (1966), solid circle and hollow circle
// (written down from memory).
func ShearCoefficient(poisson, boreRatio float64) float64 {
	m2 := boreRatio * boreRatio
	b := (1 + m2) * (1 + m2)
	return 6 * (1 + poisson) * b / ((7+6*poisson)*b + (20+12*poisson)*m2)
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

// cell is a piece of shaft of constant stiffness, from x on. Its compliances
// are those of the shaft with the shoulders softened.
type cell struct {
	x       float64 // left end, mm
	section int     // index in Shaft.Sections
	bend    float64 // 1/(EI), 1/(N·mm²)
	shear   float64 // 1/(κGA), 1/N
	twist   float64 // 1/(GJ), 1/(N·mm²)
	stretch float64 // 1/(EA), 1/N
}

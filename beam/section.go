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
// deflection, and after Stephen for the solid section:
//
//	κ = 6 (1+ν)² (1+m²)² / (7 + 34m² + 7m⁴ + ν(12 + 48m² + 12m⁴) + ν²(4 + 16m² + 4m⁴))
//
// At ν = 0.3: solid 0.9252, m = 0.5 0.6684. For bore ratios up to 0.7.
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

// line is a quantity that changes linearly: at its left end and per mm.
type line struct{ at, rate float64 }

// through is the line through two values at Gauss's two points of a length h:
// it has the integral, and nearly all moments, of what it stands for.
func through(first, second, h float64) line {
	mean := (first + second) / 2
	// No steeper than leaves it positive at both ends.
	rise := min(max(math.Sqrt(3)/2*(second-first), -mean), mean)
	return line{mean - rise, 2 * rise / h}
}

// cell is a piece of shaft over which bending and torsional compliance change
// linearly.
type cell struct {
	bend    line    // 1/(EI), 1/(N·mm²)
	twist   line    // 1/(GJ), 1/(N·mm²)
	shear   float64 // 1/(κGA), 1/N
	stretch float64 // 1/(EA), 1/N
}

// give is how a piece of shaft within one section gives way: integrals over it
// of the compliance times powers of the distance s from its left end.
type give struct {
	length  float64    // mm
	bend    [4]float64 // ∫ sⁿ ds/EI for n = 0 to 3, mmⁿ/(N·mm)
	twist   [2]float64 // ∫ sⁿ ds/GJ, mmⁿ/(N·mm)
	shear   float64    // 1/(κGA), 1/N
	stretch float64    // 1/(EA), 1/N
	section int        // index in Shaft.Sections
}

// add lengthens a piece by the part of a cell from u to v, mm from the cell's
// left end.
func (g *give) add(c *cell, u, v float64) {
	const third, quarter = 1.0 / 3, 1.0 / 4 // a product is faster than a quotient
	h, o := v-u, g.length
	at, rate := c.bend.at+u*c.bend.rate, c.bend.rate*h
	m0 := h * (at + rate/2)
	m1 := h * h * (at/2 + rate*third)
	m2 := h * h * h * (at*third + rate*quarter)
	m3 := h * h * h * h * (at*quarter + rate/5)
	g.bend[0] += m0
	g.bend[1] += o*m0 + m1
	g.bend[2] += o*(o*m0+2*m1) + m2
	g.bend[3] += o*(o*(o*m0+3*m1)+3*m2) + m3
	at, rate = c.twist.at+u*c.twist.rate, c.twist.rate*h
	t0 := h * (at + rate/2)
	g.twist[0] += t0
	g.twist[1] += o*t0 + h*h*(at/2+rate*third)
	g.shear, g.stretch = c.shear, c.stretch
	g.length = o + h
}

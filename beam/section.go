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

// parabola is a quantity that changes by a parabola: at its left end, per mm and
// per mm².
type parabola struct{ at, rate, curve float64 }

// from is the same parabola counted from u mm further right.
func (p parabola) from(u float64) parabola {
	return parabola{p.at + u*(p.rate+u*p.curve), p.rate + 2*u*p.curve, p.curve}
}

// times is the parabola k times as high.
func (p parabola) times(k float64) parabola { return parabola{p.at * k, p.rate * k, p.curve * k} }

// gauss is how far the outer two of Gauss's three points are from the middle,
// in half lengths.
const gauss = 0.7745966692414834

// through is the parabola through three values at Gauss's points of a length h:
// it has the integral, and nearly all moments, of what it stands for.
func through(first, middle, last, h float64) parabola {
	rise, bulge := (last-first)*(0.5/gauss), (first+last-2*middle)*(0.5/(gauss*gauss))
	at := middle - rise + bulge // at the left end; rise and bulge count in half lengths
	if at <= 0 || middle+rise+bulge <= 0 {
		return parabola{at: (5*(first+last) + 8*middle) / 18} // too steep: the mean
	}
	per := 2 / h
	return parabola{at, (rise - 2*bulge) * per, bulge * per * per}
}

// cell is a piece of shaft over which bending and torsional compliance change
// by parabolas.
type cell struct {
	bend    parabola // 1/(EI), 1/(N·mm²)
	twist   parabola // 1/(GJ), 1/(N·mm²)
	shear   float64  // 1/(κGA), 1/N
	stretch float64  // 1/(EA), 1/N
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
	const third, sixth = 1.0 / 3, 1.0 / 6 // a product is faster than a quotient
	h, o := v-u, g.length
	f := c.bend.from(u)
	p, q, r := h*f.at, h*h*f.rate, h*h*h*f.curve
	m0 := p + q/2 + r*third
	m1 := h * (p/2 + q*third + r/4)
	m2 := h * h * (p*third + q/4 + r*0.2)
	m3 := h * h * h * (p/4 + q*0.2 + r*sixth)
	g.bend[0] += m0
	g.bend[1] += o*m0 + m1
	g.bend[2] += o*(o*m0+2*m1) + m2
	g.bend[3] += o*(o*(o*m0+3*m1)+3*m2) + m3
	f = c.twist.from(u)
	p, q, r = h*f.at, h*h*f.rate, h*h*h*f.curve
	t0 := p + q/2 + r*third
	g.twist[0] += t0
	g.twist[1] += o*t0 + h*(p/2+q*third+r/4)
	g.shear, g.stretch = c.shear, c.stretch
	g.length = o + h
}

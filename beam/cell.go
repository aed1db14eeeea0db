package beam

import (
	"math"
	"slices"
)

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

// lay lays cells along the shaft. They depend on its metal alone, neither on
// how that is cut into sections nor on supports.
func (m *Model) lay() {
	var store [16]stretch // room for most shafts without the heap
	all := m.shaft.stretches(store[:0])
	least := math.Inf(1)
	for i := range all {
		least = min(least, softestShadow*inertia(2*all[i].outer, 2*all[i].bore))
	}
	young, poisson := m.shaft.Young, m.shaft.Poisson
	rigidity := young / (2 * (1 + poisson))
	room := 6 * len(all)
	m.breaks = append(make([]float64, 0, room), 0)
	m.cells = make([]cell, 0, room)
	m.clamped = append(make([]clamped, 0, room), clamped{})
	var storeEdges [16]edge
	var storePlaces [64]float64
	for i := range all {
		c := &all[i]
		shadows := storeEdges[:0]
		if !m.shaft.NoShoulder {
			shadows = edges(all, i, shadows)
		}
		places := append(c.cuts(shadows, storePlaces[:0]), c.to)
		made := cell{stretch: 1 / (young * area(2*c.outer, 2*c.bore))}
		if !m.shaft.NoShear {
			made.shear = 1 / (m.shaft.shearCoefficient(c.bore/c.outer) * rigidity * area(2*c.outer, 2*c.bore))
		}
		x := c.from
		for _, to := range places {
			made.bend, made.twist = c.compliance(x, to, shadows, least, young, rigidity)
			m.clamped = append(m.clamped, m.clamped[len(m.cells)].ahead(to-x, &made))
			m.clamped[len(m.clamped)-1].x = to
			m.cells = append(m.cells, made)
			m.breaks = append(m.breaks, to)
			x = to
		}
	}
}

// compliance is that of a stretch between two places, in bending and torsion.
func (c *stretch) compliance(from, to float64, shadows []edge, least, young, rigidity float64) (bend, twist parabola) {
	if len(shadows) == 0 {
		i := inertia(2*c.outer, 2*c.bore)
		return parabola{at: 1 / (young * i)}, parabola{at: 1 / (rigidity * 2 * i)}
	}
	half := (to - from) / 2
	middle, off := from+half, half*gauss
	b1, t1 := c.softness(middle-off, shadows, least)
	b2, t2 := c.softness(middle, shadows, least)
	b3, t3 := c.softness(middle+off, shadows, least)
	return through(b1, b2, b3, to-from).times(1 / young), through(t1, t2, t3, to-from).times(1 / (2 * rigidity))
}

// divide finds the nodes and how the shaft gives way between them.
func (m *Model) divide() {
	m.nodes = append(make([]float64, 0, 1+len(m.shaft.Sections)+3*len(m.shaft.Supports)), 0)
	var x float64
	for _, c := range m.shaft.Sections {
		x += c.Length
		m.nodes = append(m.nodes, x)
	}
	for i := range m.shaft.Supports {
		p := &m.shaft.Supports[i]
		m.nodes = append(m.nodes, m.kept(p.X))
		if p.Width > 0 {
			m.nodes = append(m.nodes, m.kept(p.X-p.half()), m.kept(p.X+p.half()))
		}
	}
	m.nodes = distinct(m.nodes, m.length*coincident)
	// Of places that are one by rounding the first was kept.
	m.nodes[0], m.nodes[len(m.nodes)-1] = 0, m.length
	m.spans = make([]give, len(m.nodes)-1)
	section, end := 0, m.shaft.Sections[0].Length
	for i := range m.spans {
		from, to := m.nodes[i], m.nodes[i+1]
		for (from+to)/2 > end {
			section++
			end += m.shaft.Sections[section].Length
		}
		m.spans[i] = m.give(from, to)
		m.spans[i].section = section
	}
}

// kept is x, or the end of the shaft if x lies beyond it.
func (m *Model) kept(x float64) float64 { return min(max(x, 0), m.length) }

// cellAt is the index of the cell that x lies in or at the left end of.
func (m *Model) cellAt(x float64) int {
	i, found := slices.BinarySearch(m.breaks, x)
	if !found {
		i--
	}
	return i
}

// give is how the shaft gives way between two places within one section.
func (m *Model) give(from, to float64) give {
	var g give
	for i := m.cellAt(from); i < len(m.cells) && m.breaks[i] < to; i++ {
		x := m.breaks[i]
		g.add(&m.cells[i], max(from-x, 0), min(to, m.breaks[i+1])-x)
	}
	g.length = to - from
	return g
}

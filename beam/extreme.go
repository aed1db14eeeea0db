package beam

import (
	"math"
	"sort"
)

// MaxDeflection is the state at the place of the largest resultant deflection
// anywhere on the shaft, on the left side of it if something jumps there.
func (s *Solution) MaxDeflection() State {
	n := len(s.pieces)
	best, where := -1.0, 0.0
	for i := range s.pieces {
		if d := s.pieces[i].start.Deflection(); d > best {
			best, where = d, s.pieces[i].start.X
		}
	}
	end := s.left(n)
	if d := end.Deflection(); d > best {
		best, where = d, s.model.length
	}
	right := end.Deflection()
	for i := n - 1; i >= 0; i-- {
		p := &s.pieces[i]
		left := p.start.Deflection()
		if max(left, right)+p.give.sag(&p.start, &p.spread) > best {
			if x, d := s.crest(p, best); d > best {
				best, where = d, x
			}
		}
		right = left
	}
	return s.At(where, Left)
}

// sag bounds how far the axis departs from the chord of a piece, mm: by the
// theorem of Mohr no more than a quarter of the length times the integral of
// the curvature, and a spread force shears it by no more than q h²/8κGA.
func (g *give) sag(start *State, spread *action) float64 {
	h := g.length
	bound := func(b *Bend, l *lateral) float64 {
		q := math.Abs(l.force) * h
		moment := math.Abs(b.Moment) + (math.Abs(b.Shear)+math.Abs(l.couple)+q)*h
		return h/4*moment*g.bend[0] + h*q*g.shear/8
	}
	return resultant(bound(&start.Y, &spread.y), bound(&start.Z, &spread.z))
}

// crest is the largest resultant deflection within a piece between its ends and
// its place, if that is more than least. Within a cell the deflection is a
// polynomial.
func (s *Solution) crest(p *piece, least float64) (place, deflection float64) {
	deflection = least
	m := s.model
	state := p.start
	end := p.start.X + p.length
	for i := m.cellAt(state.X); i < len(m.cells) && m.breaks[i] < end; i++ {
		c, x := &m.cells[i], m.breaks[i]
		from, to := max(p.start.X-x, 0), min(end, m.breaks[i+1])-x
		start := state
		var whole give
		whole.add(c, from, to)
		state.advance(&whole, &p.spread)
		left, right := start.Deflection(), state.Deflection()
		if max(left, right)+whole.sag(&start, &p.spread) <= deflection {
			continue
		}
		if right > deflection {
			place, deflection = state.X, right
		}
		g := rise(&start, &p.spread, c, from, to-from)
		g.crests(func(u float64) {
			var part give
			part.add(c, from, from+u*(to-from))
			at := start
			at.advance(&part, &p.spread)
			if d := at.Deflection(); d > deflection {
				place, deflection = at.X, d
			}
		})
	}
	return place, deflection
}

// rise is half the derivative of the square of the resultant deflection over
// the length h of a cell from a place on, over the part u of the length, times
// the length.
func rise(start *State, spread *action, c *cell, from, h float64) polynomial {
	f := c.bend.from(from)
	var g polynomial
	add := func(b *Bend, a *lateral) {
		k, q := b.Shear-a.couple, a.force
		v := [7]float64{ // the deflection
			b.Deflection,
			h * (b.Slope - c.shear*b.Shear),
			h * h * (f.at*b.Moment - c.shear*q) / 2,
			h * h * h * (f.at*k + f.rate*b.Moment) / 6,
			h * h * h * h * (f.at*q/2 + f.rate*k + f.curve*b.Moment) / 12,
			h * h * h * h * h * (f.rate*q/2 + f.curve*k) / 20,
			h * h * h * h * h * h * f.curve * q / 60,
		}
		for i := range v {
			for j := 1; j < len(v); j++ {
				g[i+j-1] += v[i] * float64(j) * v[j]
			}
		}
	}
	add(&start.Y, &spread.y)
	add(&start.Z, &spread.z)
	return g
}

// Stress is the nominal stress at the outer fibre at one place, without any
// notch factor.
type Stress struct {
	X        float64 // mm
	Bending  float64 // resultant of both planes, MPa, 0 or more
	Torsion  float64 // shear stress, MPa, sign of the torque
	Axial    float64 // tension +, MPa
	VonMises float64 // at the worst point of the outer fibre, MPa
}

// SectionStress is the stress at the place within section i (counted from 0,
// as in Shaft.Sections) where the equivalent stress after von Mises
//
//	σ_v² = (|σ_b| + |σ_a|)² + 3 τ²
//
// is largest. Both sides of every place where something jumps are looked at,
// and maxima of the moment under spread loads. The real diameters count. An i
// that names no section gives the zero Stress.
//
// Source: Shigley's Mechanical Engineering Design, 9th edition, section 5-5
// (distortion energy, plane stress with one normal stress; from memory).
func (s *Solution) SectionStress(i int) Stress {
	sections := s.model.shaft.Sections
	if i < 0 || i >= len(sections) {
		return Stress{}
	}
	ring := newRing(sections[i])
	first := sort.Search(len(s.pieces), func(k int) bool { return s.pieces[k].section >= i })
	worst, most := s.pieces[first].start, -1.0
	consider := func(b *State) {
		if v := ring.square(b); v > most {
			worst, most = *b, v
		}
	}
	spread := false
	last := first
	for ; last < len(s.pieces) && s.pieces[last].section == i; last++ {
		p := &s.pieces[last]
		consider(&p.start)
		end := p.forces(p.length)
		consider(&end)
		spread = spread || p.spread != (action{})
	}
	if !spread {
		return ring.stress(&worst) // linear moments: largest at an end
	}
	for k := first; k < last; k++ {
		p := &s.pieces[k]
		if p.spread == (action{}) || ring.bound(p) <= most {
			continue
		}
		within := p.forces(summit(p.length, func(h float64) float64 {
			b := p.forces(h)
			return ring.square(&b)
		}))
		consider(&within)
	}
	return ring.stress(&worst)
}

// ring turns forces into stresses: factors per N and per N·mm.
type ring struct{ axial, bending, torsion float64 } // 1/mm², 1/mm³, 1/mm³

func newRing(c Section) ring {
	modulus := 2 * inertia(c.Outer, c.Bore) / c.Outer
	return ring{1 / area(c.Outer, c.Bore), 1 / modulus, 1 / (2 * modulus)}
}

func (r ring) stress(b *State) Stress {
	return Stress{
		X:       b.X,
		Bending: b.Moment() * r.bending, Torsion: b.Torque * r.torsion, Axial: b.Normal * r.axial,
		VonMises: math.Sqrt(r.square(b)),
	}
}

// square is the square of the equivalent stress, MPa².
func (r ring) square(b *State) float64 {
	return r.combine(resultant(b.Y.Moment, b.Z.Moment), math.Abs(b.Normal), b.Torque)
}

func (r ring) combine(moment, normal, torque float64) float64 {
	sigma, tau := moment*r.bending+normal*r.axial, torque*r.torsion
	return sigma*sigma + 3*tau*tau
}

// bound is a square of the equivalent stress that is not exceeded within the
// piece: torque and axial force change linearly, and a spread force lifts the
// moment above the chord by q h²/8 at most.
func (r ring) bound(p *piece) float64 {
	end := p.forces(p.length)
	lift := resultant(p.spread.y.force, p.spread.z.force) * p.length * p.length / 8
	return r.combine(max(p.start.Moment(), end.Moment())+lift,
		max(math.Abs(p.start.Normal), math.Abs(end.Normal)),
		max(math.Abs(p.start.Torque), math.Abs(end.Torque)))
}

// summit is the place of the maximum of f between 0 and length: the best of a
// few, then narrowed down by the golden section.
func summit(length float64, f func(float64) float64) float64 {
	const parts = 8
	best, at := math.Inf(-1), 0
	for k := range parts + 1 {
		if v := f(length * float64(k) / parts); v > best {
			best, at = v, k
		}
	}
	low := length * float64(max(at-1, 0)) / parts
	high := length * float64(min(at+1, parts)) / parts
	golden := (math.Sqrt(5) - 1) / 2
	a, b := high-golden*(high-low), low+golden*(high-low)
	fa, fb := f(a), f(b)
	for high-low > 1e-9*length {
		if fa >= fb {
			high, b, fb = b, a, fa
			a = high - golden*(high-low)
			fa = f(a)
		} else {
			low, a, fa = a, b, fb
			b = low + golden*(high-low)
			fb = f(b)
		}
	}
	return (low + high) / 2
}

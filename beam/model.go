package beam

import (
	"errors"
	"math"
	"slices"
)

// Model is a shaft made ready for any number of load cases. It does not change
// after New, so several goroutines may use it at once.
type Model struct {
	shaft   Shaft
	length  float64   // mm
	breaks  []float64 // ends of all cells, mm; one more than cells
	cells   []cell
	clamped []clamped // one more than cells
	ties    []tie
	tip     float64 // deflection of the clamped shaft's end per force there, mm/N
	lateral *system
	axial   *rod
}

// clamped holds integrals over the shaft from 0 to x, from which follow the
// deflections of the shaft clamped at its left end.
type clamped struct {
	x  float64 // mm
	b0 float64 // ∫ ds/EI, 1/(N·mm)
	b1 float64 // ∫ (x−s) ds/EI, 1/N
	b2 float64 // ∫ (x−s)² ds/EI, mm/N
	s0 float64 // ∫ ds/κGA, mm/N
	e0 float64 // ∫ ds/EA, mm/N
	t0 float64 // ∫ ds/GJ, 1/(N·mm)
}

// ahead carries the integrals over a length h of the cell c.
func (k clamped) ahead(h float64, c *cell) clamped {
	return clamped{
		x:  k.x + h,
		b0: k.b0 + h*c.bend,
		b1: k.b1 + h*(k.b0+h*c.bend/2),
		b2: k.b2 + h*(2*k.b1+h*(k.b0+h*c.bend/3)),
		s0: k.s0 + h*c.shear,
		e0: k.e0 + h*c.stretch,
		t0: k.t0 + h*c.twist,
	}
}

// tie is an unknown force or couple of a support in one plane.
type tie struct {
	support    int
	couple     bool
	at         clamped // of the support's place
	compliance float64 // 1/stiffness, 0 if rigid: mm/N or rad/(N·mm)
}

// New checks a shaft, reporting everything that is wrong with it, and makes
// its Model. A shaft that its supports leave free to move is refused with what
// is loose.
func New(s Shaft) (*Model, error) {
	if err := s.validate(); err != nil {
		return nil, err
	}
	m := &Model{shaft: s.clone(), length: s.length()}
	m.cut()
	end := m.clamped[len(m.cells)]
	m.tip = end.b2 + end.s0
	if err := m.shaft.hold(m.tip); err != nil {
		return nil, err
	}
	if err := m.tie(); err != nil {
		return nil, err
	}
	var err error
	m.axial, err = m.newRod()
	return m, err
}

// Shaft is a copy of what the model was made from.
func (m *Model) Shaft() Shaft { return m.shaft.clone() }

// Length is the length of the shaft, mm.
func (m *Model) Length() float64 { return m.length }

// cut divides the shaft into cells at section ends, the ends of shoulder zones
// and supports.
func (m *Model) cut() {
	var bending, torsion []zone
	if !m.shaft.NoShoulder {
		bending, torsion = m.shaft.zones(shoulderBending), m.shaft.zones(shoulderTorsion)
	}
	ends := []float64{0}
	for _, c := range m.shaft.Sections {
		ends = append(ends, ends[len(ends)-1]+c.Length)
	}
	m.breaks = slices.Clone(ends)
	for _, z := range slices.Concat(bending, torsion) {
		m.breaks = append(m.breaks, z.from, z.to)
	}
	for _, p := range m.shaft.Supports {
		m.breaks = append(m.breaks, min(max(p.X, 0), m.length))
	}
	m.breaks = distinct(m.breaks, m.length*coincident)
	// Of places that are one by rounding the first was kept.
	m.breaks[0], m.breaks[len(m.breaks)-1] = 0, m.length

	young := m.shaft.Young
	rigidity := young / (2 * (1 + m.shaft.Poisson))
	var k clamped
	m.clamped = append(m.clamped, k)
	section := 0
	for i, x := range m.breaks[:len(m.breaks)-1] {
		h := m.breaks[i+1] - x
		middle := x + h/2
		for middle > ends[section+1] {
			section++
		}
		s := m.shaft.Sections[section]
		inBending, inTorsion := outerAt(bending, s, middle), outerAt(torsion, s, middle)
		c := cell{
			x: x, section: section,
			bend:    1 / (young * inertia(inBending, s.Bore)),
			twist:   1 / (rigidity * 2 * inertia(inTorsion, s.Bore)),
			stretch: 1 / (young * area(s.Outer, s.Bore)),
		}
		if !m.shaft.NoShear {
			c.shear = 1 / (ShearCoefficient(m.shaft.Poisson, s.Bore/inBending) * rigidity * area(inBending, s.Bore))
		}
		k = k.ahead(h, &c)
		k.x = m.breaks[i+1]
		m.cells = append(m.cells, c)
		m.clamped = append(m.clamped, k)
	}
}

// distinct sorts places and drops those within tol of the one before.
func distinct(places []float64, tol float64) []float64 {
	slices.Sort(places)
	kept := places[:1]
	for _, x := range places[1:] {
		if x-kept[len(kept)-1] > tol {
			kept = append(kept, x)
		}
	}
	return kept
}

// clampedAt is the set of integrals at x, 0 ≤ x ≤ Length.
func (m *Model) clampedAt(x float64) clamped {
	i, found := slices.BinarySearch(m.breaks, x)
	if found {
		return m.clamped[i]
	}
	return m.clamped[i-1].ahead(x-m.breaks[i-1], &m.cells[i-1])
}

// forceForce is the deflection at p per transverse force at q of the clamped
// shaft, mm/N; it is the same with p and q exchanged.
func forceForce(p, q *clamped) float64 {
	if p.x > q.x {
		p, q = q, p
	}
	return p.b2 + (q.x-p.x)*p.b1 + p.s0
}

// forceCouple is the deflection at p per couple at q, and also the slope at q
// per force at p, of the clamped shaft, 1/N.
func forceCouple(p, q *clamped) float64 {
	if p.x <= q.x {
		return p.b1
	}
	return q.b1 + (p.x-q.x)*q.b0
}

// coupleCouple is the slope at p per couple at q, 1/(N·mm).
func coupleCouple(p, q *clamped) float64 {
	if p.x > q.x {
		p = q
	}
	return p.b0
}

// influence is the motion of tie t (deflection in mm, slope in rad) of the
// clamped shaft per unit of tie u.
func influence(t, u *tie) float64 {
	switch {
	case !t.couple && !u.couple:
		return forceForce(&t.at, &u.at)
	case !t.couple:
		return forceCouple(&t.at, &u.at)
	case !u.couple:
		return forceCouple(&u.at, &t.at)
	default:
		return coupleCouple(&t.at, &u.at)
	}
}

// tie sets up and factorises the equations of one plane. Unknown are the
// support forces and couples, the deflection and the slope of the left end.
// One row for each support condition
//
//	deflection or slope + compliance × reaction = motion of the seat
//
// and two for the balance. Everything is scaled to lengths: forces by the tip
// flexibility, couples by that over the length, slopes by the length. The
// matrix is symmetric.
func (m *Model) tie() error {
	for i, p := range m.shaft.Supports {
		at := m.clampedAt(m.snap(p.X))
		// Springs too soft for rounding are left out.
		if p.Radial*m.tip > softest {
			m.ties = append(m.ties, tie{support: i, at: at, compliance: 1 / p.Radial})
		}
		if p.Tilt*m.tip/m.length/m.length > softest {
			m.ties = append(m.ties, tie{support: i, couple: true, at: at, compliance: 1 / p.Tilt})
		}
	}
	n := len(m.ties) + 2
	a := make([]float64, n*n)
	for i, t := range m.ties {
		row := a[i*n : (i+1)*n]
		for j, u := range m.ties {
			row[j] = influence(&t, &u) / m.tip * m.lever(t) * m.lever(u)
		}
		row[i] += t.compliance / m.tip * m.lever(t) * m.lever(t)
		shift, tilt := m.rigid(t)
		row[n-2], row[n-1] = shift, tilt
		a[(n-2)*n+i], a[(n-1)*n+i] = shift, tilt
	}
	var ok bool
	if m.lateral, ok = factorise(a, n); !ok {
		return errors.New("the supports cannot be told apart: two of them hold the shaft in the same way at the same place: leave one out")
	}
	return nil
}

// softest is the stiffness of a support relative to the shaft's below which
// it cannot be told from none.
const softest = 1e-15

// lever makes couples and slopes into forces and lengths.
func (m *Model) lever(t tie) float64 {
	if t.couple {
		return m.length
	}
	return 1
}

// rigid is the motion of a tie per shift and per tilt × length, plain numbers.
func (m *Model) rigid(t tie) (shift, tilt float64) {
	if t.couple {
		return 0, 1
	}
	return 1, t.at.x / m.length
}

// snap is the break next to x if x is within rounding of it, otherwise x
// itself, kept on the shaft.
func (m *Model) snap(x float64) float64 { return snap(m.breaks, x, m.length*coincident) }

func snap(breaks []float64, x, tol float64) float64 {
	i, found := slices.BinarySearch(breaks, x)
	switch {
	case found:
		return x
	case i == len(breaks):
		return breaks[i-1]
	case breaks[i]-x <= tol || i == 0:
		return breaks[i]
	case x-breaks[i-1] <= tol:
		return breaks[i-1]
	}
	return x
}

// Flexibility is the deflection at x = at per unit transverse force at x =
// load in the same plane, in mm/N, with the shaft on its supports; at and load
// in mm, kept to the shaft. It is the same with at and load exchanged.
func (m *Model) Flexibility(at, load float64) float64 {
	p, q := m.clampedAt(m.snap(at)), m.clampedAt(m.snap(load))
	n := m.lateral.order()
	var store [16]float64
	b := store[:]
	if n > len(store) {
		b = make([]float64, n)
	}
	b = b[:n]
	for i := range m.ties {
		b[i], _ = m.motion(&m.ties[i], &q)
	}
	b[n-2], b[n-1] = 1, q.x/m.length
	m.lateral.solve(b)
	sum := b[n-2] + b[n-1]*p.x/m.length
	for i := range m.ties {
		perForce, _ := m.motion(&m.ties[i], &p)
		sum += perForce * b[i]
	}
	return forceForce(&p, &q) - sum*m.tip
}

// motion is the motion of tie t of the clamped shaft per force and per couple
// at p, in the scale of the equations: mm over the tip flexibility, slopes
// times the length.
func (m *Model) motion(t *tie, p *clamped) (perForce, perCouple float64) {
	if t.couple {
		return forceCouple(p, &t.at) * m.length / m.tip, coupleCouple(p, &t.at) * m.length / m.tip
	}
	return forceForce(p, &t.at) / m.tip, forceCouple(&t.at, p) / m.tip
}

// rod is the axial side of a shaft: the ties of the supports that hold it
// axially and the equations for their forces and the shift of the left end.
type rod struct {
	ties []tie
	*system
}

// newRod sets up the axial equations, scaled by the stretch of the shaft per
// unit force. It is nil if nothing holds the shaft axially.
func (m *Model) newRod() (*rod, error) {
	total := m.clamped[len(m.cells)].e0
	var r rod
	for i, p := range m.shaft.Supports {
		if p.Axial*total > softest {
			r.ties = append(r.ties, tie{support: i, at: m.clampedAt(m.snap(p.X)), compliance: 1 / p.Axial})
		}
	}
	if len(r.ties) == 0 {
		return nil, nil
	}
	n := len(r.ties) + 1
	a := make([]float64, n*n)
	for i, t := range r.ties {
		for j, u := range r.ties {
			a[i*n+j] = min(t.at.e0, u.at.e0) / total
		}
		a[i*n+i] += t.compliance / total
		a[i*n+n-1], a[(n-1)*n+i] = 1, 1
	}
	var ok bool
	if r.system, ok = factorise(a, n); !ok {
		return nil, errors.New("the axial supports cannot be told apart: two of them hold the shaft at the same place: leave one out")
	}
	return &r, nil
}

// stretch is the elongation of the shaft per unit force over all its length,
// mm/N.
func (m *Model) stretch() float64 { return m.clamped[len(m.cells)].e0 }

// finite says whether all values are ordinary numbers.
func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

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
	nodes   []float64 // ends of sections, and where supports act, mm
	spans   []give    // between nodes
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

// ahead carries the integrals over a length h from the left end of the cell c.
func (k *clamped) ahead(h float64, c *cell) clamped {
	const third, twelfth, thirtieth = 1.0 / 3, 1.0 / 12, 1.0 / 30 // a product is faster than a quotient
	p, q, r := h*c.bend.at, h*h*c.bend.rate, h*h*h*c.bend.curve
	return clamped{
		x:  k.x + h,
		b0: k.b0 + p + q/2 + r*third,
		b1: k.b1 + h*(k.b0+p/2+q*2*twelfth+r*twelfth),
		b2: k.b2 + h*(2*k.b1+h*(k.b0+p*third+q*twelfth+r*thirtieth)),
		s0: k.s0 + h*c.shear,
		e0: k.e0 + h*c.stretch,
		t0: k.t0 + h*(c.twist.at+h*(c.twist.rate/2+h*c.twist.curve*third)),
	}
}

// New checks a shaft, reporting everything that is wrong with it, and makes
// its Model. A shaft that its supports leave free to move is refused with what
// is loose.
func New(s Shaft) (*Model, error) {
	if err := s.validate(); err != nil {
		return nil, err
	}
	m := &Model{shaft: s.clone(), length: s.length()}
	m.lay()
	end := m.clamped[len(m.cells)]
	m.tip = end.b2 + end.s0
	if err := m.shaft.hold(m.tip); err != nil {
		return nil, err
	}
	m.divide()
	if err := m.tie(); err != nil {
		return nil, err
	}
	var err error
	m.axial, err = m.newRod()
	return m, err
}

// Shaft is a copy of what the model was made from.
func (m *Model) Shaft() Shaft { return m.shaft.clone() }

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
	if found || i == len(m.breaks) {
		return m.clamped[min(i, len(m.cells))]
	}
	k := m.clamped[i-1].ahead(x-m.breaks[i-1], &m.cells[i-1])
	k.x = x
	return k
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

// tie is an unknown force or couple of a support in one plane. On a seat with a
// width the force acts in two equal halves, as far from the middle as gives the
// second moment of an even spread, and the motion is the mean of both places.
type tie struct {
	support    int
	couple     bool
	at         clamped // of the place, or of the left half
	other      clamped // of the right half
	spread     bool    // in two halves
	compliance float64 // 1/stiffness, 0 if rigid: mm/N or rad/(N·mm)
}

// influence is the motion of tie t (deflection in mm, slope in rad) of the
// clamped shaft per unit of tie u.
func influence(t, u *tie) float64 {
	force, couple := t.motion(&u.at)
	if u.spread {
		other, _ := t.motion(&u.other)
		force = (force + other) / 2
	}
	if u.couple {
		return couple
	}
	return force
}

// motion is the motion of the tie of the clamped shaft per force and per couple
// at p.
func (t *tie) motion(p *clamped) (perForce, perCouple float64) {
	switch {
	case t.couple:
		return forceCouple(p, &t.at), coupleCouple(p, &t.at)
	case t.spread:
		return (forceForce(p, &t.at) + forceForce(p, &t.other)) / 2, (forceCouple(&t.at, p) + forceCouple(&t.other, p)) / 2
	default:
		return forceForce(p, &t.at), forceCouple(&t.at, p)
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
	m.ties = make([]tie, 0, 2*len(m.shaft.Supports))
	for i := range m.shaft.Supports {
		p := &m.shaft.Supports[i]
		// Springs too soft for rounding are left out.
		if p.Radial*m.tip > softest {
			t := tie{support: i, compliance: 1 / p.Radial}
			if p.Width > 0 {
				t.spread = true
				t.at, t.other = m.clampedAt(m.snap(p.X-p.half())), m.clampedAt(m.snap(p.X+p.half()))
			} else {
				t.at = m.clampedAt(m.snap(p.X))
			}
			m.ties = append(m.ties, t)
		}
		if p.Tilt*m.tip/m.length/m.length > softest {
			m.ties = append(m.ties, tie{support: i, couple: true, at: m.clampedAt(m.snap(p.X)), compliance: 1 / p.Tilt})
		}
	}
	n := len(m.ties) + 2
	a := make([]float64, n*n)
	for i := range m.ties {
		t := &m.ties[i]
		row := a[i*n : (i+1)*n]
		for j := range m.ties[:i+1] {
			u := &m.ties[j]
			row[j] = influence(t, u) / m.tip * m.lever(t) * m.lever(u)
			a[j*n+i] = row[j]
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
func (m *Model) lever(t *tie) float64 {
	if t.couple {
		return m.length
	}
	return 1
}

// rigid is the motion of a tie per shift and per tilt × length, plain numbers.
func (m *Model) rigid(t *tie) (shift, tilt float64) {
	if t.couple {
		return 0, 1
	}
	if t.spread {
		return 1, (t.at.x + t.other.x) / 2 / m.length
	}
	return 1, t.at.x / m.length
}

// snap is the node next to x if x is within rounding of it, otherwise x
// itself, kept on the shaft.
func (m *Model) snap(x float64) float64 { return snap(m.nodes, x, m.length*coincident) }

func snap(nodes []float64, x, tol float64) float64 {
	i, found := slices.BinarySearch(nodes, x)
	switch {
	case found:
		return x
	case i == len(nodes):
		return nodes[i-1]
	case nodes[i]-x <= tol || i == 0:
		return nodes[i]
	case x-nodes[i-1] <= tol:
		return nodes[i-1]
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
	scale := m.lever(t) / m.tip
	perForce, perCouple = t.motion(p)
	return perForce * scale, perCouple * scale
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

package beam

import (
	"errors"
	"fmt"
	"math"
)

// looseness is the ratio of determinant to squared trace of the supports'
// resistance to rigid motion below which the shaft counts as loose.
const looseness = 1e-12

// hold checks that the supports stop the shaft from moving as a rigid body in
// a transverse plane, and says in words what is loose. It looks at the
// supports alone, before anything is solved, since a loose shaft does not make
// the equations fail reliably. flex is the tip deflection per unit force of
// the shaft clamped at one end, mm/N: the measure of what is soft.
//
// Axial motion is judged case by case: without an axial support the axial
// loads must balance, see Solve.
func (s Shaft) hold(flex float64) error {
	length := s.length()
	var radial []float64 // places held radially
	var tilting bool
	// Resistance to shift and tilt, tilt counted in lengths of the shaft.
	// Rigid supports come first: they fix a motion whatever the others do.
	var rigid, soft motion
	for _, p := range s.Supports {
		xi := p.X/length - 0.5
		if p.Radial > 0 {
			radial = append(radial, p.X)
		}
		tilting = tilting || p.Tilt > 0
		for _, k := range []struct {
			stiffness float64
			direction [2]float64
		}{{p.Radial * flex, [2]float64{1, xi}}, {p.Tilt * flex / length / length, [2]float64{0, 1}}} {
			if math.IsInf(k.stiffness, 1) {
				rigid.add(1, k.direction)
			} else {
				soft.add(k.stiffness, k.direction)
			}
		}
	}
	trace := rigid.trace()
	switch {
	case trace > 0 && rigid.determinant() >= looseness*trace*trace:
		return nil
	case trace > 0:
		// One motion is fixed. What the springs put against the other one is
		// compared with the stiffness of the shaft itself.
		if free := rigid.free(); soft.along(free) >= looseness {
			return nil
		}
	default:
		if t := soft.trace(); t >= looseness && soft.determinant() >= looseness*t*t {
			return nil
		}
	}
	return looseWords(radial, tilting, length)
}

func looseWords(radial []float64, tilting bool, length float64) error {
	if len(radial) == 0 {
		if tilting {
			return errors.New("the shaft is free to move sideways: no support holds it radially: give at least one support a radial stiffness")
		}
		return errors.New("the shaft is free to move sideways and to tilt: no support holds it radially: give two supports a radial stiffness")
	}
	low, high := radial[0], radial[0]
	for _, x := range radial {
		low, high = min(low, x), max(high, x)
	}
	const remedy = "add a second radial support or a tilting stiffness"
	switch {
	case tilting || high-low > tooClose*length:
		return errors.New("the shaft is held far too softly: the supports yield next to nothing against sideways motion or tilting: check the stiffnesses and their units (N/mm, N·mm/rad)")
	case len(radial) == 1:
		return fmt.Errorf("the shaft is free to tilt: only one radial support at x = %g mm: %s", low, remedy)
	default:
		return fmt.Errorf("the shaft is free to tilt: all %d radial supports sit at x = %g mm: %s", len(radial), low, remedy)
	}
}

// motion is the 2 by 2 resistance of supports to the rigid motions shift and
// tilt.
type motion struct{ shift, cross, tilt float64 }

func (m *motion) add(k float64, d [2]float64) {
	m.shift += k * d[0] * d[0]
	m.cross += k * d[0] * d[1]
	m.tilt += k * d[1] * d[1]
}

func (m motion) trace() float64       { return m.shift + m.tilt }
func (m motion) determinant() float64 { return m.shift*m.tilt - m.cross*m.cross }

// free is the direction of no resistance of a matrix of rank one.
func (m motion) free() [2]float64 {
	if m.shift > m.tilt {
		return unit(-m.cross, m.shift)
	}
	return unit(m.tilt, -m.cross)
}

func (m motion) along(d [2]float64) float64 {
	return m.shift*d[0]*d[0] + 2*m.cross*d[0]*d[1] + m.tilt*d[1]*d[1]
}

func unit(a, b float64) [2]float64 {
	n := math.Hypot(a, b)
	return [2]float64{a / n, b / n}
}

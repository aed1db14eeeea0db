package bearing

import (
	"fmt"
	"math"
)

// RadialState is a row under a radial load alone, its rings held parallel and axially in place.
type RadialState struct {
	Force        float64 // N, positive along +y
	Displacement float64 // of the inner ring along +y, mm
	Heaviest     float64 // load of the heaviest element, N
	Loaded       int     // elements that carry

	// Zone is the angle over which the raceway is loaded, rad, from the geometry of a closed
	// ring: π when half of it is, without clearance.
	Zone float64

	// Secant is Force/Displacement and Tangent dForce/dDisplacement, N/mm. Both are the tangent
	// at no displacement.
	Secant, Tangent float64
}

// RadialAt is the state with the inner ring moved along +y by displacement, mm, and nothing else moved.
func (e Elements) RadialAt(displacement float64) (RadialState, error) {
	r, err := e.prepare()
	if err != nil {
		return RadialState{}, err
	}
	if !(math.Abs(displacement) <= e.Diameter/4) {
		return RadialState{}, fmt.Errorf("radial displacement %g mm: at most a quarter of the element diameter of %g mm is expected", displacement, e.Diameter)
	}
	return r.radial(displacement), nil
}

// Radial is the state under a radial force along +y, N: the full distribution over all elements,
// each where Turn puts it. The ring moves along +y only, also where the elements stand askew to
// the load.
func (e Elements) Radial(force float64) (RadialState, error) {
	r, err := e.prepare()
	if err != nil {
		return RadialState{}, err
	}
	if !(math.Abs(force) <= mostForce) {
		return RadialState{}, fmt.Errorf("radial force %g N: at most %g N is expected", force, mostForce)
	}
	want := math.Abs(force)
	sign := math.Copysign(1, force)
	pull := func(d float64) float64 { return sign*r.state(vector{1: sign * d}, nil).force[1] - want }
	if want == 0 {
		return r.radial(0), nil
	}
	high := max(e.Clearance, 0)/2 + r.touch(want)
	for range 60 {
		if pull(high) >= 0 {
			break
		}
		high *= 2
	}
	return r.radial(sign * root(pull, 0, high, 1e-13*want)), nil
}

// radial is the state at a radial displacement, mm.
func (r *row) radial(displacement float64) RadialState {
	var h matrix
	a := r.state(vector{1: displacement}, &h)
	s := RadialState{Force: a.force[1], Displacement: displacement, Heaviest: a.heaviest, Loaded: a.loaded, Tangent: h[1][1], Secant: h[1][1]}
	if displacement != 0 {
		s.Secant = s.Force / displacement
	}
	// The element at φ touches where the radial closing d cos φ passes what is still free there.
	free := r.Clearance / 2
	if r.Kind == Ball {
		// √(y² + (A sin α)²) = A at y = A cos α, as with rollers.
		free = r.reach*r.cos - r.apart
	}
	switch d := math.Abs(displacement); {
	case free <= -d && free < 0:
		s.Zone = 2 * math.Pi
	case free < d:
		s.Zone = 2 * math.Acos(free/d)
	}
	return s
}

package joint

import "math"

// Cone is a synchroniser.
type Cone struct {
	Friction float64 // of the cones, –
	Radius   float64 // mean radius of the cones, mm
	Angle    float64 // of a cone from the axis, rad
	Cones    int     // the same force goes through each
	Blocking float64 // radius at which the points of the teeth stop the sleeve, mm
	Point    float64 // slope of a point from the axis, rad: half the angle of a symmetric point
	Points   float64 // friction of the points, –
}

// Torque is the friction torque of the cones under a force along the shaft, N·mm: F μ R n/sin α, exact for cones that wear
// evenly.
func (c Cone) Torque(force float64) float64 {
	return force * c.Friction * c.Radius * float64(c.Cones) / math.Sin(c.Angle)
}

// Sticks reports whether the cone holds by itself: tan α < μ.
func (c Cone) Sticks() bool { return math.Tan(c.Angle) < c.Friction }

// Index is the torque by which the points turn the ring aside under the force, N·mm.
//
//	F R_b (cos θ − μ_b sin θ)/(sin θ + μ_b cos θ)
//
// Form of a paper of 1968 (from memory; the balance of forces on a point gives the same).
func (c Cone) Index(force float64) float64 {
	sin, cos := math.Sincos(c.Point)
	return force * c.Blocking * (cos - c.Points*sin) / (sin + c.Points*cos)
}

// Blocks reports whether the sleeve is held until the speeds are equal: the cones turn harder than the points turn back. The
// force of the hand cancels out; the friction of both surfaces does not.
func (c Cone) Blocks() bool { return c.Torque(1) > c.Index(1) }

// Steepest is the least angle of a point at which it still blocks, rad: acot(T_c/(F R_b)) − atan μ_b.
func (c Cone) Steepest() float64 {
	return math.Atan2(c.Blocking, c.Torque(1)) - math.Atan(c.Points)
}

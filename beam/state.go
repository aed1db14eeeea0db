package beam

import "math"

// Bend is the state of bending in one plane. The package comment has the
// signs.
type Bend struct {
	Deflection float64 // mm
	Slope      float64 // rotation ψ of the section, rad
	Moment     float64 // N·mm
	Shear      float64 // N
}

// State is all that is known of the shaft at one place.
type State struct {
	X            float64 // mm
	Y, Z         Bend    // planes xy and xz
	Displacement float64 // along +x, mm
	Normal       float64 // tension +, N
	Twist        float64 // about +x, 0 at the left end, rad
	Torque       float64 // N·mm
}

// Deflection is the resultant of both planes, mm.
func (s State) Deflection() float64 { return resultant(s.Y.Deflection, s.Z.Deflection) }

// Slope is the resultant of both planes, rad.
func (s State) Slope() float64 { return resultant(s.Y.Slope, s.Z.Slope) }

// Moment is the resultant bending moment of both planes, N·mm.
func (s State) Moment() float64 { return resultant(s.Y.Moment, s.Z.Moment) }

// Shear is the resultant of both planes, N.
func (s State) Shear() float64 { return resultant(s.Y.Shear, s.Z.Shear) }

// resultant is the length of a vector. Nothing here comes near overflow, so
// the plain root will do.
func resultant(y, z float64) float64 { return math.Sqrt(y*y + z*z) }

// lateral is a transverse force (N) and a couple that turns the slope the
// positive way (N·mm), or both per mm.
type lateral struct{ force, couple float64 }

// action is what acts on the shaft at a place (N, N·mm), or per mm.
type action struct {
	y, z         lateral
	axial, twist float64
}

func (a *action) add(b action) {
	a.y.force += b.y.force
	a.y.couple += b.y.couple
	a.z.force += b.z.force
	a.z.couple += b.z.couple
	a.axial += b.axial
	a.twist += b.twist
}

// action is the total of a load. The slope in plane xz is minus the rotation
// about +y, so the couple that turns it is −My.
func (l Load) action() action {
	return action{y: lateral{l.Fy, l.Mz}, z: lateral{l.Fz, -l.My}, axial: l.Fx, twist: l.Mx}
}

// times is a scaled.
func (a action) times(k float64) action {
	return action{
		y: lateral{a.y.force * k, a.y.couple * k}, z: lateral{a.z.force * k, a.z.couple * k},
		axial: a.axial * k, twist: a.twist * k,
	}
}

// absolute is a with all signs dropped.
func (a action) absolute() action {
	return action{
		y: lateral{math.Abs(a.y.force), math.Abs(a.y.couple)}, z: lateral{math.Abs(a.z.force), math.Abs(a.z.couple)},
		axial: math.Abs(a.axial), twist: math.Abs(a.twist),
	}
}

// pass moves the state from just left to just right of an action at a place;
// sign −1 moves it back.
func (s *State) pass(a *action, sign float64) {
	s.Y.Shear += sign * a.y.force
	s.Y.Moment -= sign * a.y.couple
	s.Z.Shear += sign * a.z.force
	s.Z.Moment -= sign * a.z.couple
	s.Normal -= sign * a.axial
	s.Torque -= sign * a.twist
}

// advance moves the state from the left end of a piece to its right end under
// an action per mm. With s counted from the left end, q the force and m the
// couple per mm, Timoshenko's beam has
//
//	S = S0 + q s                     M = M0 + (S0−m) s + q s²/2
//	ψ = ψ0 + ∫M/EI                   v = v0 + ∫ψ − ∫S/κGA
//
// and with it the bar and the twisted shaft. The integrals are exact: those of
// a product with powers of s are in g, and ∫∫ is ∫(h−s).
func (s *State) advance(g *give, a *action) {
	h := g.length
	s.Y.advance(g, &a.y)
	s.Z.advance(g, &a.z)
	s.Displacement += h * (s.Normal - h*a.axial/2) * g.stretch
	s.Twist += s.Torque*g.twist[0] - a.twist*g.twist[1]
	s.X += h
	s.Normal -= h * a.axial
	s.Torque -= h * a.twist
}

func (b *Bend) advance(g *give, a *lateral) {
	h, k, q, m := g.length, b.Shear-a.couple, a.force/2, &g.bend
	b.Deflection += h*(b.Slope-g.shear*(b.Shear+h*q)) + b.Moment*(h*m[0]-m[1]) + k*(h*m[1]-m[2]) + q*(h*m[2]-m[3])
	b.Slope += b.Moment*m[0] + k*m[1] + q*m[2]
	b.advanceForces(h, a)
}

// advanceForces is advance for internal forces alone; h may be negative.
func (s *State) advanceForces(h float64, a *action) {
	s.X += h
	s.Y.advanceForces(h, &a.y)
	s.Z.advanceForces(h, &a.z)
	s.Normal -= h * a.axial
	s.Torque -= h * a.twist
}

func (b *Bend) advanceForces(h float64, a *lateral) {
	b.Moment += h * (b.Shear - a.couple + h*a.force/2)
	b.Shear += h * a.force
}

// setForces takes over the internal forces of f.
func (s *State) setForces(f *State) {
	s.Y.Moment, s.Y.Shear = f.Y.Moment, f.Y.Shear
	s.Z.Moment, s.Z.Shear = f.Z.Moment, f.Z.Shear
	s.Normal, s.Torque = f.Normal, f.Torque
}

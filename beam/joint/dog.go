package joint

import "math"

// Dogs are engagement teeth: dogs on the face of a ring, or radial teeth that a sleeve slides over.
type Dogs struct {
	Teeth  int
	Radius float64 // where they touch, mm
	Height float64 // radial height of the flanks that touch, mm
	Length float64 // how far they are in, along the shaft, mm
	Thick  float64 // of a tooth along the circle, mm
	Share  float64 // of the teeth that carries, –
	Face   bool    // dogs on a face, sheared off it; else radial teeth, sheared off a drum
	Back   float64 // back angle, rad: > 0 = the flank is undercut, so that torque draws it in
}

// Force is the force along the circle under a torque, N.
func (d Dogs) Force(torque float64) float64 { return torque / d.Radius }

// Pressure is that on the flanks, MPa: T/(r n φ h l). Half engaged it is twice as much.
func (d Dogs) Pressure(torque float64) float64 {
	return d.Force(torque) / (float64(d.Teeth) * d.Share * d.Height * d.Length)
}

// Shear is the mean shear stress at the foot of the teeth, MPa: over thickness times height for dogs on a face, times length for
// radial teeth.
func (d Dogs) Shear(torque float64) float64 {
	foot := d.Thick * d.Length
	if d.Face {
		foot = d.Thick * d.Height
	}
	return d.Force(torque) / (float64(d.Teeth) * d.Share * foot)
}

// PullIn is the force along the shaft by which torque draws the teeth in, N, below zero where friction holds them; PullOut that
// which takes them out. friction is that of the flanks; 0 = none, as under vibration.
func (d Dogs) PullIn(torque, friction float64) float64 {
	return d.Force(torque) * math.Tan(d.Back-math.Atan(friction))
}

// PullOut is the force along the shaft that takes them out under torque, N; not above zero = they come out by themselves.
func (d Dogs) PullOut(torque, friction float64) float64 {
	return d.Force(torque) * math.Tan(d.Back+math.Atan(friction))
}

// Stays reports whether torque leaves the teeth engaged, and draws whether it draws them further in. Under vibration friction
// must not be counted: then only an undercut holds. Torque the other way loads the other flanks, which need it too.
func (d Dogs) Stays(friction float64) (stays, draws bool) {
	return math.Tan(d.Back) > -friction, math.Tan(d.Back) > friction
}

// Point is the pointed end of an engagement tooth: two slopes at angles from the axis, rad.
type Point struct {
	Thick  float64 // of the tooth, mm
	Angles [2]float64
	Face   float64 // radial height, mm
}

// Height is how far the point stands out, mm; Landings the share of meetings that hit each slope, at any position of the
// teeth; Areas those of the slopes, mm².
func (p Point) Height() float64 { return p.Thick / (math.Tan(p.Angles[0]) + math.Tan(p.Angles[1])) }

// Landings is the share of meetings that hit each slope.
func (p Point) Landings() (share [2]float64) {
	for i, a := range p.Angles {
		share[i] = p.Height() * math.Tan(a) / p.Thick
	}
	return share
}

// Areas are those of the slopes, mm².
func (p Point) Areas() (area [2]float64) {
	for i, a := range p.Angles {
		area[i] = p.Face * p.Height() / math.Cos(a)
	}
	return area
}

// Impact is what happens when teeth catch at a speed difference: two inertias, kg·mm², and a torsion spring between them, N·mm/rad, with
// a torque on the first, N·mm. energy is in N·mm, peak the largest torque of the spring, N·mm.
//
//	E = J_r Δω²/2, T = T_0 + √(T_0² + k J_r Δω²)
//
// with J_r = J1 J2/(J1 + J2) and T_0 the torque times J2/(J1 + J2), what the spring carries in the mean.
func Impact(j1, j2, stiffness, difference, torque float64) (energy, peak float64) {
	const perMeter = 1e-3 // kg·mm²/s² to N·mm
	reduced := j1 * j2 / (j1 + j2) * perMeter
	mean := torque * j2 / (j1 + j2)
	return reduced * difference * difference / 2, mean + math.Sqrt(mean*mean+stiffness*reduced*difference*difference)
}

package joint

import "math"

// Spline is a toothed joint, straight-sided or involute, as a caliper finds it.
type Spline struct {
	Teeth  int
	Outer  float64 // diameter over the teeth of the shaft, mm
	Inner  float64 // over the tips of the teeth in the hub, mm
	Length float64 // over which they touch, mm
	Thick  float64 // thickness of a tooth at half its height, mm; 0 = half the pitch there
	Share  float64 // of the teeth that carries, –: 0.75 for straight sides, 0.9 for a spline centred on its flanks (German textbook rule, from memory)
}

// Diameter is that in the middle of the flanks, mm, and Height how far shaft and hub overlap there.
func (s Spline) Diameter() float64 { return (s.Outer + s.Inner) / 2 }
func (s Spline) Height() float64   { return (s.Outer - s.Inner) / 2 }

// Pressure is the mean pressure on the flanks under a torque, MPa: 2 T/(d_m h l z φ).
func (s Spline) Pressure(torque float64) float64 {
	return 2 * torque / (s.Diameter() * s.Height() * s.Length * float64(s.Teeth) * s.Share)
}

// Shear is the mean shear stress in the teeth at half their height, MPa: 4 T/(d_m z l t), which counts half of the teeth.
// Source: Machinery's Handbook, involute splines (from memory).
func (s Spline) Shear(torque float64) float64 {
	thick := s.Thick
	if thick == 0 {
		thick = math.Pi * s.Diameter() / float64(2*s.Teeth)
	}
	return 4 * torque / (s.Diameter() * float64(s.Teeth) * s.Length * thick)
}

// Shift is the force along the shaft that moves a spline under torque, N: μ T over the mean radius.
func (s Spline) Shift(torque, friction float64) float64 { return friction * 2 * torque / s.Diameter() }

// Flow is how unevenly torque passes along a spline, as the largest load on its length over the mean one, at the end where the
// torque enters the shaft and at the other end. stiffness is that of the teeth per length, N·mm/rad per mm; shaft and hub
// are G I_p of either, N·mm². Torque leaves the hub at the same end or at the other.
//
//	φ″ = λ² φ, λ² = c (1/GJ_s + 1/GJ_h)
//
// with φ the twist of shaft against hub. At the same end the load there is λL coth λL times the mean; length beyond
// λL = 2 is dead.
func Flow(stiffness, shaft, hub, length float64, sameEnd bool) (near, far float64) {
	l := math.Sqrt(stiffness*(1/shaft+1/hub)) * length
	if l < 1e-6 {
		return 1, 1
	}
	// The slope of φ is what shaft and hub twist unlike each other: at an end where only one of them carries the torque it is
	// that one's share of λ².
	s, h := (1/shaft)/(1/shaft+1/hub), (1/hub)/(1/shaft+1/hub)
	coth, csch := 1/math.Tanh(l), 1/math.Sinh(l)
	if sameEnd {
		return l * coth, l * csch
	}
	return l * (s*coth + h*csch), l * (s*csch + h*coth)
}

// Handbook is the stress set of Machinery's Handbook for involute splines (Dudley; from memory), in mm and N·mm or any
// units that agree.
type Handbook struct {
	Torque, Diameter float64 // N·mm; pitch diameter, mm
	Teeth            int
	Engaged          float64 // length that carries, mm
	Thick            float64 // of a tooth at the pitch circle, mm
	Height           float64 // of the flanks that touch, mm
	Root, Hole       float64 // diameters of the shaft: root of its teeth, hole in it, mm
}

// Shaft is the shear stress in the shaft under the teeth, 16 T D_re/(π (D_re⁴ − D_h⁴)); Tooth that in the teeth, 4 T/(D N L t);
// Pressure that on the flanks, 2 T/(D N L h).
func (h Handbook) Shaft() float64 {
	return 16 * h.Torque * h.Root / (math.Pi * (math.Pow(h.Root, 4) - math.Pow(h.Hole, 4)))
}

// Tooth is the shear stress in the teeth, half of which count.
func (h Handbook) Tooth() float64 {
	return 4 * h.Torque / (h.Diameter * float64(h.Teeth) * h.Engaged * h.Thick)
}

// Pressure is that on the flanks, all of which count.
func (h Handbook) Pressure() float64 {
	return 2 * h.Torque / (h.Diameter * float64(h.Teeth) * h.Engaged * h.Height)
}

// Hub is the hub around an internal spline: wall from its root circle to its outside, at a speed in rpm, inch and psi.
type Hub struct {
	Outer, Root, Wall, Length float64 // in
	Angle                     float64 // pressure angle, rad
	RPM                       float64 // turns a minute, 1/min
}

// formFactor is Y of a spline tooth as a beam in the handbook's bursting stress.
const formFactor = 1.5

// Burst is the tensile stresses in the wall of a hub: from the flanks pushing outwards, from turning, and from the teeth as beams.
func (h Handbook) Burst(b Hub) (radial, turning, beams float64) {
	return h.Torque * math.Tan(b.Angle) / (math.Pi * h.Diameter * b.Wall * b.Length),
		1.656e-6 * b.RPM * b.RPM * (b.Outer*b.Outer + 0.212*b.Root*b.Root),
		4 * h.Torque / (h.Diameter * h.Diameter * h.Engaged * formFactor)
}

// FlatRoot30 is the geometry of an involute spline of 30° with a flat root, by module and teeth, ISO 4156 and ANSI B92.1 (from
// memory): pitch and base diameter, over the teeth and at the root of the shaft, and at the root of the hub, mm.
func FlatRoot30(module float64, teeth int) (pitch, base, outer, root, hubRoot float64) {
	z := float64(teeth)
	pitch = module * z
	return pitch, pitch * math.Cos(math.Pi/6), module * (z + 1), module * (z - 1.5), module * (z + 1.5)
}

// OverPins is the measure over two pins in the spaces of a 30° shaft spline with teeth of half a pitch, mm.
func OverPins(module float64, teeth int, pin float64) float64 {
	pitch, base, _, _, _ := FlatRoot30(module, teeth)
	z := float64(teeth)
	angle := inverse(math.Pi*module/2/pitch + involute(math.Pi/6) + pin/base - math.Pi/z)
	return odd(teeth)*base/math.Cos(angle) + pin
}

// BetweenPins is that between two pins in the spaces of the hub.
func BetweenPins(module float64, teeth int, pin float64) float64 {
	pitch, base, _, _, _ := FlatRoot30(module, teeth)
	angle := inverse(math.Pi*module/2/pitch + involute(math.Pi/6) - pin/base)
	return odd(teeth)*base/math.Cos(angle) - pin
}

// odd is by how much the line between two pins misses the axis where no space lies opposite another.
func odd(teeth int) float64 {
	if teeth%2 == 0 {
		return 1
	}
	return math.Cos(math.Pi / 2 / float64(teeth))
}

func involute(a float64) float64 { return math.Tan(a) - a }

// inverse is the angle of an involute, by Newton.
func inverse(inv float64) float64 {
	a := math.Cbrt(3 * inv)
	for range 50 {
		t := math.Tan(a)
		a -= (t - a - inv) / (t * t)
	}
	return a
}

// DIN5480 is the spline of a reference diameter, module and teeth by DIN 5480-1 (from memory): pitch diameter, shift x m, over
// the tips of shaft and hub, mm.
func DIN5480(reference, module float64, teeth int) (pitch, shift, shaftTip, hubTip float64) {
	pitch = module * float64(teeth)
	return pitch, (reference - pitch - 1.1*module) / 2, reference - 0.2*module, reference - 2*module
}

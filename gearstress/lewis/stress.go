package lewis

import "fmt"

// Stress is the Lewis bending stress in MPa,
//
//	σ = F_t / (b m Y)
//
// from the tangential force F_t (N) at the reference circle, the face width b (mm),
// the normal module m (mm) and the form factor Y (–) in the diametral-pitch
// definition. It has the sign of F_t; take the force without its sign.
// Source: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed.,
// eq. 14-2, metric form.
func Stress(tangential, face, module, y float64) float64 {
	return tangential / (face * module * y)
}

// VelocityFactor says how the Lewis stress is raised for running speed.
type VelocityFactor int

// The choices. BarthCut is the factor for cut or milled teeth.
const (
	None VelocityFactor = iota
	BarthCut
)

// At is the factor K_v ≥ 1 (–) by which the stress is multiplied at a pitch-line
// speed v in m/s, whose sign does not matter:
//
//	None      1
//	BarthCut  (6.1 + v) / 6.1
//
// Source: Barth's equation as in Budynas and Nisbett, Shigley's Mechanical
// Engineering Design, 8th ed., eq. 14-6b.
func (k VelocityFactor) At(speed float64) float64 {
	switch k {
	case None:
		return 1
	case BarthCut:
		return (6.1 + max(speed, -speed)) / 6.1
	}
	panic(fmt.Sprintf("lewis: velocity factor %d does not exist", int(k)))
}

// String names the factor for people.
func (k VelocityFactor) String() string {
	switch k {
	case None:
		return "none"
	case BarthCut:
		return "Barth, cut teeth"
	}
	return fmt.Sprintf("velocity factor %d", int(k))
}

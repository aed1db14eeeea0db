package lewis

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

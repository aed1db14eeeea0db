package iso6336

import "math"

// jumpWidth is how far apart, as a share, the two torques of Jump are: far above rounding, far below all that matters.
const jumpWidth = 1e-12

// Jump is where stresses jump as the torque grows: just below and just above it, N·mm on the driver. ok is false
// where there is no such torque.
//
// At a constant K_Hβ and speed each stress grows steadily with the torque, with kinks but without a gap, but for this
// one torque, where it falls. The limits don't depend on the torque. So a search for the torque at which a stress
// reaches its limit has at most one answer below the jump and one above, and the Miner sum of a load likewise.
//
// The reason: F_t K_v grows in each regime, since C_v3 and C_v4 are below 1, c' grows no faster than the load, and
// where N falls as the load grows (below 100 N/mm, with the eighth root) the straight line between two regimes turns
// less than its own parts grow. K_Hα is made from F_t K_v K_Hβ, and their product grows like a sum, between two
// bounds that are constant. The regimes meet at N = 1.15 and 1.5, and the parts of K_v that are held below 50 N/mm do
// so at that load. They don't meet at N = N_S, from resonance (below) to subcritical (above). There K_v falls, mostly
// by the difference of C_v4 and N C_v3, 0.7 without any deviation. From 100 N/mm on N and N_S are constant. Below, N
// falls and N_S grows with the load, so that they cross once, if N is at most 0.85 at full stiffness:
//
//	N_100 (w/100)^−⅛ = 0.5 + 0.35 (w/100)^½,  w = K_A K_γ F_t/b
//
// It doesn't depend on K_Hβ. With a given K_v or a speed that isn't known there is none.
func (c *Compiled) Jump() (below, above float64, ok bool) {
	if c.in.KV != 0 || c.in.Speed == 0 {
		return 0, 0, false
	}
	n := c.dynamic(&c.stiffness, softLoad).Ratio
	if n > lowerEnd(softLoad) {
		return 0, 0, false
	}
	// With t = (w/100)^⅛ it is 0.35 t⁵ + 0.5 t = n. That is convex and at or above n for t = 1, so Newton comes down
	// to it without overshooting.
	t := 1.0
	for range 50 {
		fourth := t * t * t * t
		next := t - (0.35*fourth*t+0.5*t-n)/(1.75*fourth+0.5)
		if !(next < t) {
			break
		}
		t = next
	}
	at := softLoad * math.Pow(t, 8) / (c.specific * c.in.KA * c.gamma)
	return at * (1 - jumpWidth), at * (1 + jumpWidth), true
}

package joint

import "testing"

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed., solution manual, problem 8-20, p. 212: M12 of class 8.8 in steel on cast iron, 40 mm grip. MN/m. The halves are
// twice the fit of the whole grip each.
func TestManualProblem8_20(t *testing.T) {
	steel, iron := 2*Exponential(12, 40, 207, 0.78715, 0.62873), 2*Exponential(12, 40, 100, 0.77871, 0.61616)
	near(t, "steel", steel, 4722, 1)
	near(t, "iron", iron, 2248, 1)
	m := 1 / (1/steel + 1/iron)
	same(t, "k_m", m, 1523.161, 1e-3)
	c := 466.8 / (466.8 + m)
	near(t, "C", c, 0.2346, 0.0001)
	j := Joint{Proof: 84.3 * 0.6, Preload: 0.75 * 84.3 * 0.6, Share: 0.2346}
	near(t, "F_i", j.Preload, 37.9, 0.05)
	near(t, "n", j.Load(10.6), 5.1, 0.05)
}

package joint

import (
	"math"
	"testing"
)

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th edition.

// Example 8-4, p. 443: inch, kip. 36 kip on six bolts of 5/8 in.
func TestExample8_4(t *testing.T) {
	k := Bolt{Diameter: 0.625, Shank: 0.75, Thread: 0.75, ShankArea: 0.3068, StressArea: 0.226, Young: 30}.Stiffness()
	near(t, "k_b", k, 5.21, 0.005)
	same(t, "k_b, all digits", k, 5.205465, 1e-6)
	m := Frusta(0.625, 1.5, 14)
	near(t, "k_m", m, 8.95, 0.005)
	same(t, "k_m, all digits", m, 8.952624, 1e-6)
	near(t, "k_m of cast iron by the fit", Exponential(0.625, 1.5, 14, 0.77871, 0.61616), 8.81, 0.005)
	c := k / (k + m)
	near(t, "C", c, 0.368, 0.0005)
	preload := 0.75 * 0.226 * 85
	near(t, "F_i", preload, 14.4, 0.05)
	j := Joint{Proof: 0.226 * 85, Preload: 14.4, Share: 0.368}
	near(t, "N", 2*36*j.Share/(j.Proof-j.Preload), 5.52, 0.015) // the print rounds on the way
	near(t, "n_L", j.Load(6), 2.18, 0.005)
	near(t, "n_p", j.Yielding(6), 1.16, 0.005)
	near(t, "n_0", j.Separation(6), 3.80, 0.005)
}

// Example 8-7, pp. 457 and 458: four bolts under 16 kN at an arm of 425 mm, mm and kN.
func TestExample8_7(t *testing.T) {
	on := Group([][2]float64{{75, 60}, {-75, 60}, {-75, -60}, {75, -60}}, [2]float64{0, 16}, 16*425)
	most, least := 0.0, math.Inf(1)
	for _, f := range on {
		most, least = max(most, f), min(least, f)
	}
	near(t, "most", most, 21.0, 0.05)
	near(t, "least", least, 14.8, 0.05)
	same(t, "most, all digits", most, 20.97256, 1e-6)
	same(t, "least, all digits", least, 14.78885, 1e-6)
	near(t, "τ", most*1e3/144, 146, 0.5)
}

package material

import (
	"math"
	"testing"
)

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed., Example 6-2
// (from memory): S_ut = 90 kpsi, f = 0.86: S_e' = 45 kpsi, 64.6 kpsi at 10⁴ cycles,
// 7.75·10⁴ cycles at 55 kpsi. The book rounds the exponent to −0.0785, which shifts the
// life by 1 %.
func TestShigleyExample6_2(t *testing.T) {
	endurance, c, err := RotatingBending(ksi(90), 0.86)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(endurance-ksi(45)) > 1e-9 {
		t.Errorf("S_e' = %v MPa, published %v", endurance, ksi(45))
	}
	if got, want := endurance*c.At(1e4), ksi(64.6); math.Abs(got-want) > ksi(0.05) {
		t.Errorf("strength at 10⁴ cycles %v MPa, published %v", got, want)
	}
	if got := c.Cycles(ksi(55) / endurance); math.Abs(got-7.75e4) > 0.011*7.75e4 {
		t.Errorf("life at 55 kpsi %v cycles, published 77 500", got)
	}
}

func TestRotatingBending(t *testing.T) {
	for tensile, want := range map[float64]float64{600: 300, 1400: 700, 1800: 700} {
		endurance, c, err := RotatingBending(tensile, 0)
		if err != nil || math.Abs(endurance-want) > 1e-9 {
			t.Fatalf("%v MPa: endurance %v, %v; want %v", tensile, endurance, err, want)
		}
		if once := endurance * c.At(1); math.Abs(once-tensile) > 1e-9*tensile {
			t.Errorf("%v MPa: %v MPa once", tensile, once)
		}
		if thousand := endurance * c.At(1e3); math.Abs(thousand-0.9*tensile) > 1e-9*tensile {
			t.Errorf("%v MPa: %v MPa for 10³ cycles", tensile, thousand)
		}
	}
	for _, bad := range [][2]float64{{0, 0}, {90, 0.9}, {600, 1.1}, {600, 0.4}, {math.NaN(), 0.9}} {
		if _, _, err := RotatingBending(bad[0], bad[1]); err == nil {
			t.Errorf("%v: no error", bad)
		}
	}
}

package strength

import (
	"math"
	"testing"
)

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th edition, solution manual.

// Problem 7-1, p. 178: the diameters that four criteria want. Inches, pounds, psi.
func TestManualProblem7_1(t *testing.T) {
	felt := Factors{Bending: 2.2, Torsion: 1.8}
	steel := Steel{Tensile: 100e3, Yield: 80e3}
	for _, c := range []struct {
		by      Criterion
		printed float64
	}{{Gerber, 1.016}, {Elliptic, 1.012}, {Soderberg, 1.090}, {Goodman, 1.073}} {
		near(t, string(c.by), diameterFor(c.by, felt, 600, 400, 500, 300, steel, 30e3, 2), c.printed, 0.0006)
	}
	// A and B of the print are twice the moments that give the equivalent stresses: A = √(4(K_f M)² + 3(K_fs T)²).
	m := Ring(1, 0)
	w := swings(1, felt, 600, 400, 500, 300)
	near(t, "A", 2*w.Amplitude*m.Bending, 2920, 0.6)
	near(t, "B", 2*w.Mean*m.Bending, 2391, 0.6)
}

// Problem 6-15, p. 155: fully reversed torsion of 207 MPa as its equivalent stress of 358.5 MPa, against the limit in
// bending (no second 0.59). MPa.
func TestManualProblem6_15(t *testing.T) {
	sigma := Nominal{Torsion: 207}.VonMises()
	near(t, "σ_a", sigma, 358.5, 0.05)
	near(t, "n_y", 413/sigma, 1.15, 0.005)
	near(t, "n_f", 276/sigma, 0.77, 0.005)
	curve, err := Cycles(551, 276, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	b := math.Log10(curve.At(1e6)/curve.At(1e3)) / 3
	near(t, "b", b, -0.084828, 5e-7)
	near(t, "a", 276*curve.At(1e3)*math.Pow(1e3, -b), 891.0, 0.05)
	same(t, "N", curve.Cycles(sigma/276), 45820.5, 2e-3) // 358.5 and 358.53 there
	near(t, "N as printed", curve.Cycles(358.5/276), 45800, 50)
}

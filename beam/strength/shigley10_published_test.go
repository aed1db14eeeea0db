package strength

import "testing"

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 10th edition, problem 7-1 (statement seen in a reprint,
// the four diameters from memory). N·m, MPa, mm.
func TestProblem7_1(t *testing.T) {
	felt := Factors{Bending: 2.2, Torsion: 1.8}
	steel := Steel{Tensile: 700, Yield: 560}
	for _, c := range []struct {
		by      Criterion
		printed float64
		full    float64 // all digits of a recomputation
	}{{Gerber, 25.85, 25.85308}, {Elliptic, 25.77, 25.76896}, {Soderberg, 27.70, 27.69601}, {Goodman, 27.27, 27.26983}} {
		d := diameterFor(c.by, felt, 70e3, 45e3, 55e3, 35e3, steel, 210, 2)
		near(t, string(c.by), d, c.printed, 0.005)
		same(t, string(c.by)+", all digits", d, c.full, 1e-6)
	}
	w := swings(1, felt, 70e3, 45e3, 55e3, 35e3)
	same(t, "A", 2*w.Amplitude*Ring(1, 0).Bending, 338447.9, 1e-6)
	same(t, "B", 2*w.Mean*Ring(1, 0).Bending, 265463.7, 1e-6)
}

package joint

import "testing"

// Lecture slides on splines: 8 × 52 × 60, 20 kW at 300 rpm, 6.5 MPa, μ = 0.06. All teeth, full height. The print rounds 109.3 mm up.
func TestStraightSpline(t *testing.T) {
	const torque = 636619.8
	s := Spline{Teeth: 8, Outer: 60, Inner: 52, Length: 1, Share: 1}
	length := s.Pressure(torque) / 6.5
	same(t, "length", length, 109.3097, 1e-6)
	near(t, "length as printed", length, 110, 1)
	same(t, "force on the flanks", 2*torque/s.Diameter(), 22736.42, 1e-6)
	same(t, "force to shift it", s.Shift(torque, 0.06), 1364.19, 1e-5)
}

// SAE straight-sided splines, torque per inch at 1000 psi over D² (Mott's table, from memory), from the proportions h and d.
func TestSAESplines(t *testing.T) {
	for _, c := range []struct {
		teeth        int
		height, root float64
		printed      float64
		full         float64
	}{
		{4, 0.075, 0.85, 139, 138.75}, {4, 0.125, 0.75, 219, 218.75}, {6, 0.05, 0.9, 143, 142.5}, {6, 0.075, 0.85, 208, 208.125}, {6, 0.1, 0.8, 270, 270},
		{10, 0.045, 0.91, 215, 214.875}, {10, 0.07, 0.86, 326, 325.5}, {10, 0.095, 0.81, 430, 429.875},
		{16, 0.045, 0.91, 344, 343.8}, {16, 0.07, 0.86, 521, 520.8}, {16, 0.095, 0.81, 688, 687.8},
	} {
		s := Spline{Teeth: c.teeth, Outer: 1, Inner: c.root, Length: 1, Share: 1}
		got := 1000 / s.Pressure(1)
		near(t, "height", s.Height(), c.height, 1e-12)
		near(t, "coefficient as printed", got, c.printed, 0.5000001)
		same(t, "coefficient", got, c.full, 1e-9)
	}
}

// 2 T/(d_m h l z φ): German textbook rule (from memory), 420 N·m.
func TestSplineWithAShare(t *testing.T) {
	for _, c := range []struct {
		diameter, height, length float64
		teeth                    int
		share, want              float64
	}{{28.5, 2.4, 30, 6, 0.75, 90.96816}, {30, 1.25, 30, 24, 0.75, 41.48148}, {30, 1.25, 30, 24, 0.9, 34.5679}} {
		s := Spline{Teeth: c.teeth, Outer: c.diameter + c.height, Inner: c.diameter - c.height, Length: c.length, Share: c.share}
		same(t, "pressure", s.Pressure(420000), c.want, 1e-6)
	}
}

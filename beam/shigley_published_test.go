package beam

import (
	"math"
	"testing"
)

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th edition,
// examples 7-2 to 7-4, pages 374 to 382 (seen). Inches, pounds, psi: the
// mechanics do not care. Tooth forces in the planes xz (tangential) and xy
// (radial); the two steps at 1.75 and 9.75 in follow from the list of places
// in figure 7-10.

func example72(scale float64) (Shaft, Case) {
	shaft := Shaft{
		Sections: ends(0, 0, [2]float64{1.25, 1 * scale}, [2]float64{1.75, 1.4 * scale}, [2]float64{3.5, 1.625 * scale}, [2]float64{7.5, 2 * scale},
			[2]float64{9.75, 1.625 * scale}, [2]float64{10.25, 1.4 * scale}, [2]float64{11.5, 1 * scale}),
		Young: 30e6, Poisson: 0.3, NoShear: true, NoShoulder: true,
		Supports: []Support{{X: 0.75, Radial: math.Inf(1)}, {X: 10.75, Radial: math.Inf(1)}},
	}
	return shaft, Case{Loads: []Load{
		{X: 2.75, Fy: -197, Fz: 540, Mx: 540 * 6},
		{X: 8.5, Fy: -885, Fz: -2431, Mx: -540 * 6},
	}}
}

func TestShigley72ReactionsAndMoments(t *testing.T) {
	shaft, c := example72(1)
	s := solve(t, shaft, c)
	r := s.Reactions()
	for _, q := range []struct {
		what            string
		got, want, half float64 // half the last printed digit
	}{
		{"RA z", r[0].Fz, 115, 0.5}, {"RA y", r[0].Fy, 356.7, 0.05},
		{"RB z", r[1].Fz, 1776, 0.5}, {"RB y", r[1].Fy, 725.3, 0.05},
		{"T", math.Abs(s.At(5, Left).Torque), 3240, 0.5},
		{"Mxz G", math.Abs(s.At(2.75, Left).Z.Moment), 230, 0.5},
		{"Mxz I", math.Abs(s.At(7.5, Left).Z.Moment), 3341, 0.5},
		{"Mxz J", math.Abs(s.At(8.5, Left).Z.Moment), 3996, 0.5},
		{"Mxz K", math.Abs(s.At(9.5, Left).Z.Moment), 2220, 0.5},
		{"Mxy G", s.At(2.75, Left).Y.Moment, 713, 0.5},
		{"Mxy I", s.At(7.5, Left).Y.Moment, 1472, 0.5},
		{"Mxy J", s.At(8.5, Left).Y.Moment, 1632, 0.5},
		{"Mxy K", s.At(9.5, Left).Y.Moment, 907, 0.5},
		// Printed from the rounded parts: √(230² + 713²) = 749.2; unrounded
		// they give 749.6.
		{"M G", s.At(2.75, Left).Moment(), 749, 0.7},
		{"M I", s.At(7.5, Left).Moment(), 3651, 0.5},
		{"M J", s.At(8.5, Left).Moment(), 4316, 0.5},
		{"M K", s.At(9.5, Left).Moment(), 2398, 0.5},
	} {
		if math.Abs(q.got-q.want) > q.half {
			t.Errorf("%s: %.3f, want %g within %g", q.what, q.got, q.want, q.half)
		}
	}
}

func TestShigley73SlopesAndDeflections(t *testing.T) {
	shaft, c := example72(1)
	s := solve(t, shaft, c)
	// Table 7-3 has four digits. The slope in plane xz at the right bearing
	// is printed as 0.05711 degrees: ours is 0.05706, and √(0.05711² +
	// 0.02599²) gives the printed 0.06274 only to 0.02 %.
	const fourDigits = 1e-3
	for _, p := range []struct {
		name          string
		x             float64
		xz, xy, total float64 // degrees
	}{
		{"left bearing", 0.75, 0.02263, 0.01770, 0.02872},
		{"right bearing", 10.75, 0.05711, 0.02599, 0.06274},
		{"left gear", 2.75, 0.02067, 0.01162, 0.02371},
		{"right gear", 8.5, 0.02155, 0.01149, 0.02442},
	} {
		b := s.At(p.x, Left)
		const degrees = 180 / math.Pi
		near(t, p.name+" slope xz", math.Abs(b.Z.Slope)*degrees, p.xz, fourDigits)
		near(t, p.name+" slope xy", math.Abs(b.Y.Slope)*degrees, p.xy, fourDigits)
		near(t, p.name+" slope", b.Slope()*degrees, p.total, fourDigits)
	}
	for _, p := range []struct {
		name          string
		x             float64
		xz, xy, total float64 // in
	}{
		{"left gear", 2.75, 0.0007568, 0.0005153, 0.0009155},
		{"right gear", 8.5, 0.001587, 0.0007535, 0.0017567},
	} {
		b := s.At(p.x, Left)
		near(t, p.name+" deflection xz", math.Abs(b.Z.Deflection), p.xz, fourDigits)
		near(t, p.name+" deflection xy", math.Abs(b.Y.Deflection), p.xy, fourDigits)
		near(t, p.name+" deflection", b.Deflection(), p.total, fourDigits)
	}
}

func TestShigley74ScaledDiameters(t *testing.T) {
	scale := math.Pow(0.001095/0.0005, 0.25)
	near(t, "ratio", scale, 1.216, 5e-4)
	shaft, c := example72(scale)
	// 0.001095 is printed to four digits.
	near(t, "slope at the right bearing", solve(t, shaft, c).At(10.75, Left).Slope(), 0.0005, 1e-3)
}

// Solution manual to the 8th edition, problem 7-10, page 192: M/I on both
// sides of each step (seen; diameters and load follow from the printed steps).
// The slopes are our own, bending only, by the area of the printed curve.
func TestShigleyManual710CurvatureSteps(t *testing.T) {
	m := func(x float64) float64 { return x * 1000 } // the book has metres
	shaft := Shaft{
		Sections: ends(0, 0, [2]float64{m(0.04), 35}, [2]float64{m(0.1), 40}, [2]float64{m(0.21), 45}, [2]float64{m(0.275), 40}, [2]float64{m(0.315), 35}),
		Young:    207000, Poisson: 0.3, NoShear: true, NoShoulder: true,
		Supports: []Support{{X: 0, Radial: rigid}, {X: 315, Radial: rigid}},
	}
	s := solve(t, shaft, Case{Loads: []Load{{X: 140, Fy: -7000}}})
	for _, c := range []struct {
		x           float64
		left, right float64 // diameters, mm
		want        [2]float64
	}{
		{40, 35, 40, [2]float64{2.112, 1.2375}},
		{100, 40, 45, [2]float64{3.094, 1.932}},
		{140, 45, 45, [2]float64{2.705, 2.705}},
		{210, 45, 40, [2]float64{1.623, 2.6}},
		{275, 40, 35, [2]float64{0.99, 1.6894}},
	} {
		// M/I in N/m³ · 1e-9 equals N·mm/mm⁴ with the same digits.
		mom := s.At(c.x, Left).Y.Moment
		near(t, "M/I left", mom/inertia(c.left, 0), c.want[0], 6e-4)
		near(t, "M/I right", mom/inertia(c.right, 0), c.want[1], 6e-4)
	}
	near(t, "slope left", s.At(0, Right).Y.Slope, -0.00142656, 1e-5)
	near(t, "slope right", s.At(315, Left).Y.Slope, 0.00131196, 1e-5)
	near(t, "slope at the load", s.At(140, Left).Y.Slope, -0.000146622, 1e-5)
	near(t, "deflection at the load", s.At(140, Left).Y.Deflection, -0.12687, 5e-5)
}

// Example 4-7, page 159: reactions seen; the deflections are our own, by the
// unit-load theorem.
func TestShigley47SteppedShaft(t *testing.T) {
	s := solve(t, Shaft{
		Sections: []Section{{8.5, 1.5, 0}, {11.5, 1.75, 0}}, Young: 30e6, Poisson: 0.3, NoShear: true, NoShoulder: true,
		Supports: []Support{{X: 0, Radial: rigid}, {X: 20, Radial: rigid}},
	}, Case{Loads: []Load{{X: 8, Fy: -600}}})
	near(t, "R1", s.Reactions()[0].Fy, 360, 1e-12)
	near(t, "R2", s.Reactions()[1].Fy, 240, 1e-12)
	near(t, "y at the load", s.At(8, Left).Y.Deflection, -0.009358, 1e-3)
	near(t, "y at the step", s.At(8.5, Left).Y.Deflection, -0.00938, 1e-3)
	near(t, "y in the middle", s.At(10, Left).Y.Deflection, -0.00909, 1e-3)
}

// Norton, Machine Design, 4th edition, example 10-3 (seen): three steps under
// a torque of 146 lbf·in, G 12e6 psi; twist 0.15 degrees.
func TestNorton103Twist(t *testing.T) {
	sections := []Section{{1.5, 0.875, 0}, {3.5, 0.75, 0}, {1.5, 0.669, 0}}
	for i, want := range []float64{0.058, 0.031, 0.020} {
		if j := 2 * inertia(sections[i].Outer, 0); math.Abs(j-want) > 0.0005 {
			t.Errorf("section %d: J %.4f, want %g", i+1, j, want)
		}
	}
	s := solve(t, Shaft{
		Sections: sections, Young: 12e6 * 2.6, Poisson: 0.3, NoShoulder: true,
		Supports: []Support{{X: 0, Radial: rigid}, {X: 6.5, Radial: rigid}},
	}, Case{Loads: []Load{{X: 0, Mx: -146}, {X: 6.5, Mx: 146}}})
	if twist := s.At(6.5, Left).Twist * 180 / math.Pi; math.Abs(twist-0.15) > 0.005 {
		t.Errorf("twist %.4f degrees, want 0.15", twist)
	}
}

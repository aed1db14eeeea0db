package beam

import (
	"math"
	"testing"
)

// A plain solid shaft, 40 mm by 360 mm, E 206000 MPa. Formulas: Shigley's
// Mechanical Engineering Design 9th edition, table A-9, cases 6 and 8 (seen);
// Roark's Formulas for Stress and Strain, 8th edition, table 8.1 (from
// memory). The numbers are computed from the formulas, six digits.

func plain(supports ...Support) Shaft {
	return Shaft{Sections: []Section{{360, 40, 0}}, Young: 206000, Poisson: 0.3, NoShear: true, Cowper: true, Supports: supports}
}

const sixDigits = 5e-6

// Table A-9-6: simple supports, intermediate load.
func TestSimpleSupportsIntermediateLoad(t *testing.T) {
	shaft := plain(Support{X: 0, Radial: rigid}, Support{X: 360, Radial: rigid})
	c := Case{Loads: []Load{{X: 140, Fy: -5000}}}
	s := solve(t, shaft, c)
	top := s.MaxDeflection()
	near(t, "y at the load", s.At(140, Left).Y.Deflection, -0.169657, sixDigits)
	near(t, "largest y", top.Y.Deflection, -0.175794, sixDigits)
	near(t, "its place", top.X, 168.515, sixDigits)
	near(t, "slope at 0", s.At(0, Right).Y.Slope, -0.00159742, sixDigits)
	near(t, "slope at l", s.At(360, Left).Y.Slope, 0.00137708, sixDigits)
	shaft.NoShear = false
	near(t, "y at the load with shear (Cowper)", solve(t, shaft, c).At(140, Left).Y.Deflection, -0.174504, sixDigits)
}

// Table A-9-8: simple supports, moment load, counter-clockwise.
func TestSimpleSupportsCouple(t *testing.T) {
	shaft := plain(Support{X: 0, Radial: rigid}, Support{X: 360, Radial: rigid})
	c := Case{Loads: []Load{{X: 140, Mz: 150000}}}
	s := solve(t, shaft, c)
	near(t, "R0", s.Reactions()[0].Fy, 416.667, sixDigits)
	near(t, "y at a", s.At(140, Left).Y.Deflection, 0.01322, 5e-5) // four digits printed
	near(t, "slope at 0", s.At(0, Right).Y.Slope, 4.1849e-05, 2e-5)
	near(t, "slope at l", s.At(360, Left).Y.Slope, -0.00018993, 3e-5)
	near(t, "slope at a", s.At(140, Left).Y.Slope, 0.000199588, sixDigits)
	near(t, "moment left of a", s.At(140, Left).Y.Moment, 150000.0*140/360, 1e-12)
	near(t, "moment right of a", s.At(140, Right).Y.Moment, -150000.0*220/360, 1e-12)

	// With shear, R0 is uniform: y is unchanged and every section turns by
	// R0/(κGA) more.
	shaft.NoShear = false
	sheared := solve(t, shaft, c)
	near(t, "y at a with shear", sheared.At(140, Left).Y.Deflection, 0.01322, 5e-5)
	more := 150000.0 / 360 / (ShearCoefficient(0.3, 0) * 206000 / 2.6 * area(40, 0))
	for _, x := range []float64{0, 140, 360} {
		near(t, "turn by shear", sheared.At(x, Left).Y.Slope-s.At(x, Left).Y.Slope, more, 1e-9)
	}
}

// Roark table 8.1: left end fixed, right end simply supported (from memory).
func TestFixedAndPinned(t *testing.T) {
	s := solve(t, plain(Support{X: 0, Radial: rigid, Tilt: rigid}, Support{X: 360, Radial: rigid}), Case{Loads: []Load{{X: 140, Fy: -5000}}})
	near(t, "R pinned", s.Reactions()[1].Fy, 987.226, sixDigits)
	near(t, "M fixed", s.At(0, Right).Y.Moment, -344599.0, sixDigits)
	near(t, "couple of the fixed end", s.Reactions()[0].Mz, 344599.0, sixDigits)
	near(t, "y at the load", s.At(140, Left).Y.Deflection, -0.0595631, sixDigits)
}

// Table A-9-7 of the same book (from memory): uniform load on simple supports,
// y = 5 w l⁴/(384 EI), M = w l²/8 in the middle.
func TestUniformLoad(t *testing.T) {
	s := solve(t, plain(Support{X: 0, Radial: rigid}, Support{X: 360, Radial: rigid}), Case{Loads: []Load{{X: 180, Length: 360, Fz: 3600}}})
	top := s.MaxDeflection()
	near(t, "y", top.Z.Deflection, 5.0*10*math.Pow(360, 4)/(384*206000*inertia(40, 0)), 1e-12)
	near(t, "place", top.X, 180, 1e-7)
	stress := s.SectionStress(0)
	near(t, "bending stress", stress.Bending, 32*(10*360.0*360/8)/(math.Pi*64000), 1e-12)
	near(t, "its place", stress.X, 180, 1e-4)
	if stress.VonMises != stress.Bending {
		t.Errorf("stress %+v: want bending alone", stress)
	}
}

// A bar and two axial springs in parallel, by Hooke's law.
func TestAxialSupportsShareTheForce(t *testing.T) {
	const k = 50000.0
	shaft := plain(Support{X: 0, Radial: rigid, Axial: k}, Support{X: 360, Radial: rigid, Axial: rigid})
	s := solve(t, shaft, Case{Loads: []Load{{X: 90, Fx: 8000}}})
	bar := shaft.Young * area(40, 0)
	left := 1 / (1/k + 90/bar) // stiffness from the load to the left
	right := bar / 270
	r := s.Reactions()
	near(t, "left", r[0].Fx, -8000*left/(left+right), 1e-12)
	near(t, "right", r[1].Fx, -8000*right/(left+right), 1e-12)
	near(t, "displacement", s.At(90, Left).Displacement, 8000/(left+right), 1e-12)
	near(t, "tension left", s.At(45, Left).Normal, 8000*left/(left+right), 1e-12)
	near(t, "compression right", s.At(200, Left).Normal, -8000*right/(left+right), 1e-12)

	// Nothing holds it but the forces balance: the left end is the zero.
	s = solve(t, plain(Support{X: 0, Radial: rigid}, Support{X: 360, Radial: rigid}), Case{Loads: []Load{{X: 60, Fx: -1000}, {X: 300, Fx: 1000}}})
	near(t, "stretch", s.At(360, Right).Displacement, 1000*240/bar, 1e-12)
	if d := s.At(30, Left).Displacement; d != 0 {
		t.Errorf("left end moved by %g", d)
	}
}

// A seat that sinks takes the shaft along; with three rigid supports it bends
// it: R = 48 EI δ/l³ for a sinking middle seat (superposition of table A-9-5,
// from memory).
func TestSeatsMove(t *testing.T) {
	two := plain(Support{X: 0, Radial: rigid}, Support{X: 360, Radial: rigid})
	s := solve(t, two, Case{Seats: []Seat{{Move: [2]float64{0.1, 0}}, {Move: [2]float64{0.3, -0.2}}}})
	near(t, "y", s.At(90, Left).Y.Deflection, 0.15, 1e-12)
	near(t, "slope z", s.At(90, Left).Z.Slope, -0.2/360, 1e-12)
	three := plain(Support{X: 0, Radial: rigid}, Support{X: 180, Radial: rigid}, Support{X: 360, Radial: rigid})
	s = solve(t, three, Case{Seats: []Seat{{}, {Move: [2]float64{0.02, 0}}, {}}})
	near(t, "R", s.Reactions()[1].Fy, 48*206000*inertia(40, 0)*0.02/math.Pow(360, 3), 1e-12)
	// A seat that turns bends a shaft held against tilting: M = 3 EI θ/l at a near end fixed in it, the far end on a
	// knife edge (table A-9-12 turned round, from memory), in each plane with its own sign.
	fixed := plain(Support{X: 0, Radial: rigid, Tilt: rigid}, Support{X: 360, Radial: rigid})
	s = solve(t, fixed, Case{Seats: []Seat{{Tilt: [2]float64{1e-3, -2e-3}}, {}}})
	bend := 3 * 206000 * inertia(40, 0) / 360
	near(t, "slope y", s.At(0, Left).Y.Slope, 1e-3, 1e-12)
	near(t, "couple y", s.Reactions()[0].Mz, bend*1e-3, 1e-12)
	near(t, "couple z", s.Reactions()[0].My, bend*2e-3, 1e-12)
	// On a spring k the seat's turn is shared: M = kθ/(1 + kl/3EI).
	soft := plain(Support{X: 0, Radial: rigid, Tilt: 2 * bend}, Support{X: 360, Radial: rigid})
	s = solve(t, soft, Case{Seats: []Seat{{Tilt: [2]float64{1e-3, 0}}, {}}})
	near(t, "couple of the spring", s.Reactions()[0].Mz, bend*1e-3*2/3, 1e-12)
}

// Cowper, J. Appl. Mech. 33 (1966): values at ν = 0.3, formula from memory.
func TestShearCoefficient(t *testing.T) {
	for _, c := range []struct{ boreRatio, want float64 }{{0, 0.886364}, {0.5, 0.620229}, {1, 0.530612}} {
		near(t, "κ", ShearCoefficient(0.3, c.boreRatio), c.want, 1e-6)
	}
}

// Solid: Hutchinson 2001 and Stephen 1980, 6(1+ν)²/(7+12ν+4ν²) (seen in a discussion
// of the former). Thin tube: (1+ν)/(2+ν), which is exact. Between them by hand.
func TestHutchinsonCoefficient(t *testing.T) {
	for _, c := range []struct{ poisson, boreRatio, want float64 }{
		{0.3, 0, 0.925182}, {0.3, 1, 1.3 / 2.3}, {0.25, 1, 1.25 / 2.25}, {0, 0, 6.0 / 7},
		{0.3, 0.5, 6 * 1.69 * 1.5625 / (15.9375 + 0.3*24.75 + 0.09*8.25)},
	} {
		near(t, "κ", HutchinsonCoefficient(c.poisson, c.boreRatio), c.want, 1e-6)
	}
}

// The slope to report has Cowper's rotation: on a plain shaft under a force in the
// middle the deflection is by Hutchinson, and at a support, where the mean shear is
// half the reaction, ψ and what is reported differ by (1/κ_C − 1/κ_H) R/2GA. With
// Cowper's coefficient, or without shear, they are the same.
func TestSlopeToReport(t *testing.T) {
	shaft := Shaft{Sections: []Section{{200, 60, 0}}, Young: 206000, Poisson: 0.3,
		Supports: []Support{{X: 10, Radial: rigid}, {X: 190, Radial: rigid}}}
	load := Case{Loads: []Load{{X: 100, Fy: -8000, Fz: 4000}}}
	rigidity := 206000 / 2.6 * area(60, 0)
	const span = 180.0
	bend := 8000 * span * span / (16 * 206000 * inertia(60, 0))
	s := solve(t, shaft, load)
	near(t, "deflection", s.At(100, Left).Y.Deflection, -8000*span*span*span/(48*206000*inertia(60, 0))-8000*span/(4*0.925182*rigidity), 1e-6)
	more := (1/0.886364 - 1/0.925182) * 2000 / rigidity
	y, z := s.Slope(10)
	// By symmetry ψ is 0 in the middle, whatever the shear.
	near(t, "ψ", s.At(10, Left).Y.Slope, -bend, 1e-9)
	near(t, "slope xy", y, -bend+more, 1e-6)
	near(t, "slope xz", z, (bend-more)/2, 1e-6)
	if y, _ := s.Slope(100); math.Abs(y) > 1e-12 {
		t.Errorf("slope in the middle %g", y)
	}
	for name, change := range map[string]func(*Shaft){
		"Cowper": func(s *Shaft) { s.Cowper = true }, "no shoulder": func(s *Shaft) { s.NoShoulder = true }, "no shear": func(s *Shaft) { s.NoShear = true },
	} {
		other := shaft
		change(&other)
		s := solve(t, other, load)
		for _, x := range []float64{0, 10, 50, 100, 190, 200} {
			if y, _ := s.Slope(x); math.Abs(y-s.At(x, Left).Y.Slope) > 1e-15 {
				t.Errorf("%s: slope %g at %g, ψ %g", name, y, x, s.At(x, Left).Y.Slope)
			}
		}
	}
}

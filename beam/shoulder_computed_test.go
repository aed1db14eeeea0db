package beam

import (
	"math"
	"testing"
)

// The same two shafts as solid bodies with sharp shoulders, and as beams with
// their loads and reactions spread evenly over the same bands. Three-
// dimensional finite elements (Fourier harmonics, 0.5 mm, converged to about
// 0.1 %; second-order tetrahedra agree within 1.2 %). Status: computed,
// independently of this package.
var solids = []struct {
	name  string
	shaft gearShaft
	loads []Load
	bands map[string]float64    // mm
	solid map[string][4]float64 // section means v, w, µm; ψ_xy, ψ_xz, µrad
	beam  map[string][4]float64 // Timoshenko, shoulders not softened
	// twist between the first and the last load, µrad
	solidTwist, beamTwist float64
}{
	{
		name: "S1", shaft: shaftS1, loads: loadsS1,
		bands: map[string]float64{"A": 17, "gear": 28, "pinion": 30, "B": 18},
		solid: map[string][4]float64{
			"A": {0, 0, -194.11, 612.95}, "B": {0, 0, 206.09, -645.24},
			"gear": {-12.133, 36.357, -130.84, 287.62}, "pinion": {-6.5066, 19.707, 175.44, -584.83},
		},
		beam: map[string][4]float64{
			"A": {0, 0, -189.4, 583.77}, "B": {0, 0, 190.82, -602.25},
			"gear": {-11.861, 35.249, -129.41, 275.6}, "pinion": {-6.151, 18.463, 166.69, -551.67},
		},
		solidTwist: -887.451, beamTwist: -853.729,
	},
	{
		name: "S3", shaft: shaftS3, loads: loadsS3,
		bands: map[string]float64{"A": 16, "B": 20, "spline": 6, "pinion": 28},
		solid: map[string][4]float64{
			"A": {0, 0, -107.42, 67.671}, "B": {0, 0, 270.63, -172.75},
			"spline": {1.5886, -1.0016, -111.07, 69.99}, "pinion": {16.624, -10.464, 384.79, -262.01},
		},
		beam: map[string][4]float64{
			"A": {0, 0, -97.267, 61.154}, "B": {0, 0, 258.34, -164.73},
			"spline": {1.4418, -0.90747, -99.13, 62.336}, "pinion": {15.88, -9.935, 364.79, -249.15},
		},
		solidTwist: -1298.92, beamTwist: -1251.7,
	},
}

// spread solves a shaft with its loads and its reactions spread over their
// bands. The reactions are those of the rigid supports in the middle of the
// bands; once they are loads, the supports carry nothing and only serve as the
// line from which deflections and slopes are counted, as in the reference.
func spread(t *testing.T, shaft gearShaft, loads []Load, bands map[string]float64) *Solution {
	point := solve(t, shaft.Shaft, Case{Loads: loads})
	var all []Load
	for _, l := range loads {
		for _, p := range shaft.places {
			if p.x == l.X {
				l.Length = bands[p.name]
			}
		}
		all = append(all, l)
	}
	for i, r := range point.Reactions() {
		name := string(rune('A' + i))
		all = append(all, Load{X: shaft.x(name), Length: bands[name], Fx: r.Fx, Fy: r.Fy, Fz: r.Fz, My: r.My, Mz: r.Mz})
	}
	s := solve(t, shaft.Shaft, Case{Loads: all})
	for i, r := range s.Reactions() {
		if math.Hypot(r.Fy, r.Fz) > 1e-6 {
			t.Fatalf("support %d still carries %g, %g N", i+1, r.Fy, r.Fz)
		}
	}
	return s
}

// compare is the largest difference of deflections, slopes and the twist,
// each relative to the largest of its kind in the case.
func compare(t *testing.T, s *Solution, shaft gearShaft, want map[string][4]float64, twist float64, loads []Load) (deflection, slope, torsion float64) {
	var most, steep float64
	for _, v := range want {
		most = max(most, math.Abs(v[0]), math.Abs(v[1]))
		steep = max(steep, math.Abs(v[2]), math.Abs(v[3]))
	}
	for name, v := range want {
		b := s.At(shaft.x(name), Left)
		y, z := s.Slope(shaft.x(name))
		got := [4]float64{b.Y.Deflection * 1e3, b.Z.Deflection * 1e3, y * 1e6, z * 1e6}
		for k, g := range got {
			if k < 2 {
				deflection = max(deflection, math.Abs(g-v[k])/most)
			} else {
				slope = max(slope, math.Abs(g-v[k])/steep)
			}
		}
		t.Logf("%-7s %9.3f %9.3f µm %9.2f %9.2f µrad, want %v", name, got[0], got[1], got[2], got[3], v)
	}
	got := (s.At(loads[len(loads)-1].X, Left).Twist - s.At(loads[0].X, Left).Twist) * 1e6
	t.Logf("twist %.2f µrad, want %.2f", got, twist)
	return deflection, slope, math.Abs(got/twist - 1)
}

func TestSpreadLoadsAgreeWithBeamElements(t *testing.T) {
	for _, c := range solids {
		t.Run(c.name, func(t *testing.T) {
			s := spread(t, c.shaft, c.loads, c.bands)
			d, p, w := compare(t, s, c.shaft, c.beam, c.beamTwist, c.loads)
			t.Logf("differences: deflection %.2g, slope %.2g, twist %.2g", d, p, w)
			if max(d, p, w) > 1e-3 {
				t.Errorf("differences: deflection %.2g, slope %.2g, twist %.2g: want 1e-3 at most", d, p, w)
			}
		})
	}
}

// With softened shoulders and reactions spread over their seats the beam comes
// within 1.5 % of the solid body in deflection and 2 % in slope.
func TestSoftenedShouldersAgreeWithSolids(t *testing.T) {
	for _, c := range solids {
		t.Run(c.name, func(t *testing.T) {
			c.shaft.NoShoulder = false
			s := spread(t, c.shaft, c.loads, c.bands)
			d, p, w := compare(t, s, c.shaft, c.solid, c.solidTwist, c.loads)
			t.Logf("differences: deflection %.2g, slope %.2g, twist %.2g", d, p, w)
			if d > 0.015 || p > 0.02 || w > 0.005 {
				t.Errorf("differences: deflection %.2g, slope %.2g, twist %.2g: want 1.5, 2 and 0.5 %% at most", d, p, w)
			}
		})
	}
}

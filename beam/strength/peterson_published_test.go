package strength

import (
	"fmt"
	"math"
	"testing"
)

// Pilkey, Peterson's Stress Concentration Factors. Points of the fits of charts 3.4, 3.10 and 3.12, shoulder of a round
// bar, reckoned from the printed coefficients (signs from memory).
func TestPetersonShoulder(t *testing.T) {
	for _, c := range []struct{ wide, radius, bending, torsion, tension float64 }{
		{1.1, 0.02, 2.2762, 1.7730, 2.2969}, {1.2, 0.05, 1.9564, 1.5600, 2.0180}, {1.5, 0.1, 1.7430, 1.4126, 1.8603},
		{1.5, 0.2, 1.4669, 1.2354, 1.5543}, {2.0, 0.2, 1.4753, 1.2518, 1.6290},
	} {
		for _, f := range []struct {
			what string
			fits fits
			want float64
		}{{"bending", shoulderBending, c.bending}, {"torsion", shoulderTorsion, c.torsion}, {"tension", shoulderTension, c.tension}} {
			got, missed := f.fits.read((c.wide-1)/2, c.radius, c.wide)
			near(t, f.what, got, f.want, 1e-3)
			if missed != "" && f.what != "torsion" {
				t.Errorf("D/d %g, r/d %g, %s: %s", c.wide, c.radius, f.what, missed)
			}
		}
	}
}

// Every set of coefficients leaves about 1 where 2h/D comes to 1, whatever h/r is: a neck of no width has no notch at all. It
// confirms the signs: any of them turned round would be far off.
func TestFitsLeaveOneWhereNothingIsLeft(t *testing.T) {
	for name, s := range map[string]fits{
		"shoulder, bending": shoulderBending, "shoulder, torsion": shoulderTorsion, "shoulder, tension": shoulderTension, "shoulder, bending, Roark": olderBending,
		"shoulder, tension, Roark": olderTension, "groove, bending": grooveBending, "groove, torsion": grooveTorsion, "groove, bending, Roark": grooveBendingRoark,
		"groove, torsion, Roark": grooveTorsionRoark,
	} {
		for _, f := range s.all {
			for _, q := range []float64{f.from, math.Sqrt(f.from * f.to), f.to} {
				sum := 0.0
				for _, c := range f.rows {
					sum += c[0] + c[1]*math.Sqrt(q) + c[2]*q
				}
				near(t, fmt.Sprintf("%s, h/r %g", name, q), sum, 1, 0.12)
			}
		}
	}
}

// The groove with a round bottom: the fits at three grooves, all digits of a recomputation.
func TestPetersonGroove(t *testing.T) {
	for _, c := range []struct{ bottom, outer, radius, bending, torsion float64 }{
		{32, 40, 2, 2.345763, 1.717389}, {36.4, 40, 1.7, 2.486816, 1.740993}, {38, 40, 0.5, 3.310851, 2.202081},
		{37.5, 40, 0.1, 6.697859, 4.021392}, {23.9, 25, 0.13, 4.430002, 2.811391},
	} {
		depth := (c.outer - c.bottom) / 2
		got, _ := grooveBending.read(depth, c.radius, c.outer)
		same(t, "bending", got, c.bending, 1e-6)
		got, _ = grooveTorsion.read(depth, c.radius, c.outer)
		same(t, "torsion", got, c.torsion, 1e-6)
	}
}

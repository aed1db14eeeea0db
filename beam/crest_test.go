package beam

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

// Every falling zero is visited, also where zeros lie close together or on a
// halving point.
func TestEveryCrestIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 7).Draw(t, "zeros")
		g := polynomial{rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sign")}
		var zeros []float64
		for range n {
			z := float64(rapid.IntRange(0, 64).Draw(t, "zero")) / 64
			zeros = append(zeros, z)
			// Times (u − z).
			for i := len(g) - 1; i > 0; i-- {
				g[i] = g[i-1] - z*g[i]
			}
			g[0] *= -z
		}
		var visited []float64
		g.crests(func(u float64) { visited = append(visited, u) })
		for _, z := range zeros {
			// Simple zeros only: at others rounding decides.
			count := 0
			for _, o := range zeros {
				if o == z {
					count++
				}
			}
			if z == 0 || z == 1 || count > 1 || !(g.at(z-1e-3) > 0 && g.at(z+1e-3) < 0) {
				continue
			}
			nearest := math.Inf(1)
			for _, u := range visited {
				nearest = min(nearest, math.Abs(u-z))
			}
			if nearest > 1e-6 {
				t.Fatalf("zero at %g not found among %v", z, visited)
			}
		}
	})
}

// The polynomial of a cell against the states: deflection times inclination in
// both planes, with shear, under spread forces and couples, where the compliance
// changes.
func TestRiseIsDeflectionTimesInclination(t *testing.T) {
	c := cell{bend: parabola{2e-9, -3e-11, 4e-13}, twist: parabola{at: 1e-9}, shear: 3e-7, stretch: 1e-7}
	start := State{
		Y: Bend{Deflection: 0.02, Slope: -3e-4, Moment: 2e5, Shear: -9000}, Z: Bend{Deflection: -0.01, Slope: 5e-4, Moment: -4e5, Shear: 7000},
	}
	spread := action{y: lateral{force: 400, couple: 3000}, z: lateral{force: -250, couple: -900}}
	const from, h = 3.0, 17.0
	g := rise(&start, &spread, &c, from, h)
	for _, u := range []float64{0, 0.2, 0.5, 0.9, 1} {
		var part give
		part.shear = c.shear
		part.add(&c, from, from+u*h)
		s := start
		s.advance(&part, &spread)
		want := h * (s.Y.Deflection*(s.Y.Slope-c.shear*s.Y.Shear) + s.Z.Deflection*(s.Z.Slope-c.shear*s.Z.Shear))
		near(t, fmt.Sprintf("at %g", u), g.at(u), want, 1e-12)
	}
}

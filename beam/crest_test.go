package beam

import (
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

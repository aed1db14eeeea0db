package joint

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

// The torque that flows along a spline, reckoned independently: 30 mm in a hub of 44 mm, 35 mm long.
func TestFlow(t *testing.T) {
	const g = 79231.0
	shaft := g * math.Pi / 32 * math.Pow(30, 4)
	hub := g * math.Pi / 32 * (math.Pow(44, 4) - math.Pow(30, 4))
	near1, far1 := Flow(6e6, shaft, hub, 35, true)
	same(t, "same end, near", near1, 1.452914, 1e-6)
	same(t, "same end, far", far1, 0.7891719, 1e-6)
	near2, far2 := Flow(6e6, shaft, hub, 35, false)
	same(t, "other end, near", near2, 1.309473, 1e-6)
	same(t, "other end, far", far2, 0.9326131, 1e-6)
}

// Against finite differences: shaft and hub as chains of torsion springs, tied to each other at every node.
func TestFlowAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shaft, hub := rapid.Float64Range(2e8, 2e10).Draw(t, "shaft"), rapid.Float64Range(2e8, 2e10).Draw(t, "hub")
		stiffness, length := math.Pow(10, rapid.Float64Range(5, 7.5).Draw(t, "stiffness")), rapid.Float64Range(8, 60).Draw(t, "length")
		same := rapid.Bool().Draw(t, "same end")
		const n = 400 // cells; twist of shaft against hub φ at their ends
		// φ″ = λ²φ with φ′ = T_s/GJ_s − T_h/GJ_h at the ends, by central differences and elimination.
		h, l2 := length/n, stiffness*(1/shaft+1/hub)
		// Torque 1 enters the shaft at 0: φ′(0) = −1/GJ_s − (same: 1/GJ_h); at the other end φ′ = (other: 1/GJ_h).
		left, right := -1/shaft, 0.0
		if same {
			left -= 1 / hub
		} else {
			right = 1 / hub
		}
		low, mid, up, rhs := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
		for i := range mid {
			mid[i] = -2/h/h - l2
			low[i], up[i] = 1/h/h, 1/h/h
		}
		up[0], low[n] = 2/h/h, 2/h/h
		rhs[0], rhs[n] = 2*left/h, -2*right/h
		for i := 1; i <= n; i++ {
			f := low[i] / mid[i-1]
			mid[i] -= f * up[i-1]
			rhs[i] -= f * rhs[i-1]
		}
		phi := make([]float64, n+1)
		phi[n] = rhs[n] / mid[n]
		for i := n - 1; i >= 0; i-- {
			phi[i] = (rhs[i] - up[i]*phi[i+1]) / mid[i]
		}
		near, far := Flow(stiffness, shaft, hub, length, same)
		for _, c := range [][2]float64{{phi[0] * stiffness * length, near}, {phi[n] * stiffness * length, far}} {
			if math.Abs(c[0]-c[1]) > 1e-3*math.Max(1, near) {
				t.Fatalf("λL = %g: %v by differences", math.Sqrt(l2)*length, [2]float64{phi[0] * stiffness * length, phi[n] * stiffness * length})
			}
		}
	})
}

// A soft or short spline is loaded evenly.
func TestFlowOfAShortSpline(t *testing.T) {
	for _, same := range []bool{true, false} {
		if a, b := Flow(1e-6, 1e9, 1e9, 10, same); a != 1 || b != 1 {
			t.Errorf("%g, %g", a, b)
		}
	}
}

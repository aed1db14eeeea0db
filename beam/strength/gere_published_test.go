package strength

import "testing"

// Gere, Mechanics of Materials, problem 3.11-3: shoulder from D1 to 1 in with a quarter circle, in torsion by 500 lbf·in. The
// figures stem from a chart: 4 %. τ_max 8900, 6400 and 4900 psi.
func TestGereShoulderInTorsion(t *testing.T) {
	for _, c := range []struct{ small, k, stress float64 }{{0.7, 1.20, 8900}, {0.8, 1.29, 6400}, {0.9, 1.41, 4900}} {
		n := Notch{Kind: Shoulder, Outer: 1, Bottom: c.small, Radius: (1 - c.small) / 2}
		k := n.Concentration(800)
		same(t, "K_ts", k.Torsion, c.k, 0.04)
		same(t, "τ_max", n.Nominal().Under(Load{Torque: 500}).times(k.Factors).Torsion, c.stress, 0.04)
	}
}

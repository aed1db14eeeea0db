package beam

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/testdata/draws"
)

// The slopes of an influence are those that a solution under the same unit loads reports, at supports, steps and loads too.
func TestInfluenceSlopesAreThoseOfSolutions(t *testing.T) {
	lacking := false
	rapid.Check(t, func(t *rapid.T) {
		m := hardShaft(t)
		x := anyPlaces(t, m)
		f := m.Influence(x, nil)
		n := len(x)
		perForce, perCouple := make([]float64, n), make([]float64, n)
		force, couple := make([]float64, n*n), make([]float64, n*n)
		mostForce, mostCouple := 0.0, 0.0
		for j := range x {
			s, err := m.Solve(Case{Loads: []Load{{X: x[j], Fy: 1, My: -1}}})
			if err != nil {
				t.Skip(err)
			}
			for i := range x {
				force[i*n+j], couple[i*n+j] = s.Slope(f.X[i])
				mostForce, mostCouple = max(mostForce, math.Abs(force[i*n+j])), max(mostCouple, math.Abs(couple[i*n+j]))
			}
		}
		for i := range x {
			f.Slopes(m, i, perForce, perCouple)
			for j := range x {
				if a, b := perForce[j], force[i*n+j]; math.Abs(a-b) > 1e-6*mostForce {
					t.Fatalf("at %g per force at %g: %g, solved %g rad/N", f.X[i], f.X[j], a, b)
				}
				if a, b := perCouple[j], couple[i*n+j]; math.Abs(a-b) > 1e-6*mostCouple {
					t.Fatalf("at %g per couple at %g: %g, solved %g rad/(N·mm)", f.X[i], f.X[j], a, b)
				}
				lacking = lacking || math.Abs(perForce[j]-f.VS[j*n+i]) > 1e-3*mostForce
			}
		}
	})
	if draws.Full() && !lacking {
		t.Error("no slope to report differed from ψ: the test says nothing")
	}
}

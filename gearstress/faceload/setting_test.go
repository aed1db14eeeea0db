package faceload

import (
	"math"
	"testing"
)

// kernel is the compliance between two places on the face, mm/N.
type kernel func(x, y float64) float64

// between is a simply supported shaft of bending stiffness ei with its bearings span apart and the middle of the face
// at a: the closed form of the deflection at x under a unit load at y (elementary beam theory).
func between(span, ei, a float64) kernel {
	return func(x, y float64) float64 {
		near, far := min(x, y)+a, max(x, y)+a
		rest := span - far
		return rest * near * (span*span - rest*rest - near*near) / (6 * ei * span)
	}
}

// twisted is a solid pinion of diameter d held against turning at ξ = −b/2: both places see the twist of the rod up
// to the nearer one, at the radius d/2.
func twisted(d, face, shear float64) kernel {
	return func(x, y float64) float64 {
		return d * d / 4 * (min(x, y) + face/2) / (shear * math.Pi * math.Pow(d, 4) / 32)
	}
}

// matrix is the compliance of one mesh at its stations.
func (k kernel) matrix(slices int, face float64) []float64 {
	x := Stations(slices, face)
	c := make([]float64, 0, slices*slices)
	for _, p := range x {
		for _, q := range x {
			c = append(c, k(p, q))
		}
	}
	return c
}

// stocky is a shaft of 34 mm with 156 mm between bearings, softened to stand for two.
var stocky = between(156, 206000*math.Pi*math.Pow(34, 4)/64/1.7, 36)

func one(m Mesh, k kernel) *Problem {
	p := &Problem{Meshes: []Mesh{m}}
	if k != nil {
		p.Compliance = k.matrix(m.Slices, m.Face)
	}
	return p
}

type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

func solve(t fataler, p *Problem) *Solution {
	t.Helper()
	var s Solver
	r, err := s.Solve(p)
	if err != nil {
		t.Fatalf("Solve: %v", err)
	}
	return r
}

// near fails unless |got − want| ≤ tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.10g, want %.10g ± %.1g (off by %.2g)", what, got, want, tolerance, got-want)
	}
}

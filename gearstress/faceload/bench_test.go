package faceload

import (
	"fmt"
	"testing"
)

// pairOf is two meshes on a shared shaft; with a lead error above about 0.03 mm part of the faces is out of contact.
func pairOf(slices int, lead float64) *Problem {
	p := &Problem{}
	var x []float64
	for _, at := range []float64{-40, 40} {
		p.Meshes = append(p.Meshes, Mesh{Slices: slices, Face: 20, Stiffness: 16000, Force: 15000, Gap: Gap(slices, 20, LeadError(20, lead))})
		for _, xi := range Stations(slices, 20) {
			x = append(x, at+xi)
		}
	}
	shaft := between(180, 1.2e10, 90)
	for _, a := range x {
		for _, b := range x {
			p.Compliance = append(p.Compliance, shaft(a, b))
		}
	}
	return p
}

func BenchmarkSolve(b *testing.B) {
	for _, lead := range []float64{0, 0.3} {
		for _, slices := range []int{11, 21, 41, 81} {
			b.Run(fmt.Sprintf("lead=%v/slices=2x%d", lead, slices), func(b *testing.B) {
				p := pairOf(slices, lead)
				var s Solver
				r, err := s.Solve(p)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportAllocs()
				for b.Loop() {
					if _, err := s.Solve(p); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(r.Steps), "steps")
				b.ReportMetric(r.ContactFraction(0), "contact")
			})
		}
	}
}

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

// What a contact set takes to be ready for any torque, over the number of slices of each of two meshes.
func BenchmarkGrowthOverSlices(b *testing.B) {
	for _, slices := range []int{11, 21, 41, 81, 161} {
		b.Run(fmt.Sprint(slices), func(b *testing.B) {
			p := pairOf(slices, 0.03)
			all := make([]byte, 2*slices)
			for i := range all {
				all[i] = 1
			}
			gaps := [][]float64{append(p.Meshes[0].Gap, p.Meshes[1].Gap...), make([]float64, 2*slices)}
			forces := [][]float64{{0, 0}, {15000, 15000}}
			for b.Loop() {
				f, err := NewFamily(p, gaps, forces, new(Solver))
				if err != nil {
					b.Fatal(err)
				}
				if _, err := f.Set(all); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
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

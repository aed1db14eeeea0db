package beam

import (
	"fmt"
	"testing"
)

// benchShaft has twelve sections, so eleven shoulders, on two springs.
func benchShaft() (Shaft, Case) {
	s := Shaft{Young: 206000, Poisson: 0.3, Supports: []Support{
		{X: 10, Radial: 2.5e5, Tilt: 2e7, Axial: rigid}, {X: 230, Radial: 4e5, Tilt: 4e7},
	}}
	for _, d := range []float64{30, 35, 40, 44, 52, 48, 46, 60, 54, 45, 40, 35} {
		s.Sections = append(s.Sections, Section{20, d, 10})
	}
	return s, Case{Loads: []Load{mesh(80, 55, 0, 6200, 2450, 2870), mesh(195, 31, 225, -11000, 4300, -4900)}}
}

func BenchmarkNew(b *testing.B) {
	shaft, _ := benchShaft()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(shaft); err != nil {
			b.Fatal(err)
		}
	}
}

func benchSolve(b *testing.B, loads []Load, use func(*Solution)) {
	shaft, _ := benchShaft()
	m, err := New(shaft)
	if err != nil {
		b.Fatal(err)
	}
	c := Case{Loads: loads}
	b.ReportAllocs()
	for b.Loop() {
		s, err := m.Solve(c)
		if err != nil {
			b.Fatal(err)
		}
		use(s)
	}
}

func everything(s *Solution) {
	s.Reactions()
	s.MaxDeflection()
	for i := range s.model.shaft.Sections {
		s.SectionStress(i)
	}
}

func BenchmarkSolve(b *testing.B) {
	_, c := benchShaft()
	benchSolve(b, c.Loads, func(*Solution) {})
}

func BenchmarkSolveAll(b *testing.B) {
	_, c := benchShaft()
	benchSolve(b, c.Loads, everything)
}

// One shaft from its description to all results, both planes.
func BenchmarkWhole(b *testing.B) {
	shaft, c := benchShaft()
	b.ReportAllocs()
	for b.Loop() {
		m, err := New(shaft)
		if err != nil {
			b.Fatal(err)
		}
		s, err := m.Solve(c)
		if err != nil {
			b.Fatal(err)
		}
		everything(s)
	}
}

// The same over the number of sections.
func BenchmarkGrowthOverSections(b *testing.B) {
	for _, n := range []int{6, 12, 25, 50, 100, 200} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			shaft, c := benchShaft()
			shaft.Sections = nil
			for i := range n {
				shaft.Sections = append(shaft.Sections, Section{240 / float64(n), 40 + float64(i%3), 10})
			}
			for b.Loop() {
				m, err := New(shaft)
				if err != nil {
					b.Fatal(err)
				}
				s, err := m.Solve(c)
				if err != nil {
					b.Fatal(err)
				}
				everything(s)
			}
		})
	}
}

// Two meshes of thirty slices each.
func BenchmarkSolveSlices(b *testing.B) {
	_, c := benchShaft()
	var loads []Load
	for _, l := range c.Loads {
		for k := range 30 {
			part := l
			part.X, part.Length = l.X+float64(k)-14.5, 1
			part.Fx, part.Fy, part.Fz, part.Mx, part.My, part.Mz = l.Fx/30, l.Fy/30, l.Fz/30, l.Mx/30, l.My/30, l.Mz/30
			loads = append(loads, part)
		}
	}
	benchSolve(b, loads, everything)
}

func BenchmarkFlexibility(b *testing.B) {
	shaft, _ := benchShaft()
	m, err := New(shaft)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		m.Flexibility(83, 191)
	}
}

func BenchmarkInfluence(b *testing.B) {
	shaft, _ := benchShaft()
	shaft.Supports = append(shaft.Supports, Support{X: 120, Radial: 3e5})
	m, err := New(shaft)
	if err != nil {
		b.Fatal(err)
	}
	for _, n := range []int{11, 21, 42, 84} {
		b.Run(fmt.Sprintf("places=%d", n), func(b *testing.B) {
			// Two meshes, their faces cut into slices.
			x := make([]float64, n)
			for i := range x {
				if i < n/2 {
					x[i] = 60 + 40*float64(i)/float64(n/2)
				} else {
					x[i] = 180 + 30*float64(i-n/2)/float64(n-n/2)
				}
			}
			f := m.Influence(x, nil)
			b.ReportAllocs()
			for b.Loop() {
				f = m.Influence(x, f)
			}
		})
	}
}

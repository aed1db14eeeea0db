package beam_test

import (
	"fmt"
	"log"
	"math"

	"layshaft/beam"
)

// A stepped shaft on two rigid bearings with a force in the middle.
func Example() {
	m, err := beam.New(beam.Shaft{
		Sections: []beam.Section{
			{Length: 60, Outer: 30},
			{Length: 80, Outer: 40},
			{Length: 60, Outer: 30},
		},
		Young: 206000, Poisson: 0.3,
		Supports: []beam.Support{
			{X: 10, Radial: math.Inf(1), Axial: math.Inf(1)},
			{X: 190, Radial: math.Inf(1)},
		},
	})
	if err != nil {
		log.Fatal(err)
	}
	s, err := m.Solve(beam.Case{Loads: []beam.Load{{X: 100, Fy: -5000, Fx: 800}}})
	if err != nil {
		log.Fatal(err)
	}
	top := s.MaxDeflection()
	fmt.Printf("deflection %.1f µm at x = %.0f mm\n", top.Deflection()*1e3, top.X)
	fmt.Printf("slope at the left bearing %.0f µrad\n", s.At(10, beam.Right).Slope()*1e6)
	fmt.Printf("left bearing carries %.0f N, %.0f N along the shaft\n", s.Reactions()[0].Fy, s.Reactions()[0].Fx)
	fmt.Printf("moment %.0f N·mm\n", s.At(100, beam.Left).Moment())
	stress := s.SectionStress(1)
	fmt.Printf("middle section: %.1f MPa at x = %.0f mm\n", stress.VonMises, stress.X)
	// Output:
	// deflection 37.8 µm at x = 100 mm
	// slope at the left bearing 693 µrad
	// left bearing carries 2500 N, -800 N along the shaft
	// moment 225000 N·mm
	// middle section: 36.4 MPa at x = 100 mm
}

func ExampleNew_loose() {
	_, err := beam.New(beam.Shaft{
		Sections: []beam.Section{{Length: 200, Outer: 30}},
		Young:    206000, Poisson: 0.3,
		Supports: []beam.Support{{X: 12, Radial: math.Inf(1)}},
	})
	fmt.Println(err)
	// Output: the shaft is free to tilt: only one radial support at x = 12 mm: add a second radial support or a tilting stiffness
}

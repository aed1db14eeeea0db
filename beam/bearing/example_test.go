package bearing_test

import (
	"fmt"

	"layshaft/beam/bearing"
)

// A cylindrical roller bearing of the Alder box (all numbers invented), running with 0.02 mm of play, with the shaft
// 0.02 mm off its middle and leaning by half a milliradian.
func ExampleElements_Hold() {
	e := bearing.Elements{Kind: bearing.Cylindrical, Count: 14, Diameter: 9, Length: 10, Pitch: 52, Clearance: 0.02}
	h, tangent, err := e.Hold(bearing.Stance{Across: [2]float64{0.02, 0}, Tilt: [2]float64{0, 0.5e-3}}, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("carries %.0f N and %.2f N·m, %.0f N/µm stiff\n", h.Force[1], h.Couple[1]/1000, tangent[0][0]/1000)
	// Output: carries 4640 N and 2.60 N·m, 624 N/µm stiff
}

// The pinion shaft of the Birch box (all numbers invented) on two tapered bearings back to back: which
// takes the thrust of 2030 N towards −x, and how long they last.
func ExamplePairAxial() {
	a := bearing.Rating{Kind: bearing.Tapered, Dynamic: 78000, E: 0.37, Y: 1.6}
	b := bearing.Rating{Kind: bearing.Tapered, Dynamic: 108000, E: 0.35, Y: 1.7}
	fa, fb := bearing.PairAxial(bearing.BackToBack, bearing.Induced(6350, a.Y), bearing.Induced(12380, b.Y), -2030)
	la, errA := a.Life(6350, fa)
	lb, errB := b.Life(12380, fb)
	if errA != nil || errB != nil {
		fmt.Println(errA, errB)
		return
	}
	fmt.Printf("A: %.0f N axial, %.0f million revolutions\n", fa, la)
	fmt.Printf("B: %.0f N axial, %.0f million revolutions\n", fb, lb)
	// Output:
	// A: 1984 N axial, 4276 million revolutions
	// B: 4014 N axial, 1367 million revolutions
}

package strength_test

import (
	"fmt"

	"layshaft/beam/strength"
)

// A solid shaft of 40 mm under 500 N·m of bending and 800 N·m of torque: 32 M/(π d³) and 16 T/(π d³), by hand 79.6 and
// 63.7 MPa, and √(79.6² + 3 · 63.7²) together.
func Example() {
	n := strength.Ring(40, 0).Under(strength.Load{Moment: 500e3, Torque: 800e3})
	fmt.Printf("bending %.1f MPa, torsion %.1f MPa, together %.0f MPa\n", n.Bending, n.Torsion, n.VonMises())
	// Output: bending 79.6 MPa, torsion 63.7 MPa, together 136 MPa
}

package joint_test

import (
	"fmt"

	"layshaft/beam/joint"
)

// A wheel pressed on a shaft: how hard the fit presses, and the torque at which it slips.
func ExampleFit() {
	f := joint.Fit{Diameter: 46, Outer: 84, Bore: 12, Interference: 0.05, Length: 20, Friction: 0.12, HubYoung: 206000, ShaftYoung: 206000, HubPoisson: 0.3, ShaftPoisson: 0.3}
	fmt.Printf("%.0f MPa, slips at %.0f N·m\n", f.Pressure(), f.Torque()/1000)
	// Output: 75 MPa, slips at 595 N·m
}

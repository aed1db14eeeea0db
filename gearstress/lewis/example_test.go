package lewis_test

import (
	"fmt"

	"layshaft/gearstress/lewis"
)

// Root stress of a spur pinion of 18 teeth, module 1.25 mm and 12 mm face under 235.8 N: the static part of problem
// 14-3 of Shigley's Mechanical Engineering Design, whose 68.6 MPa hold 1.348 for speed.
func Example() {
	y, err := lewis.FullDepth20.Y(18)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("Y = %.3f, σ = %.1f MPa\n", y, lewis.Stress(235.8, 12, 1.25, y))
	// Output: Y = 0.309, σ = 50.9 MPa
}

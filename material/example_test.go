package material_test

import (
	"fmt"

	"layshaft/material"
)

// What the poorest, the usual and the best case-carburised gear bears at the root, and how often a root of the usual
// one bears half as much again as for ever.
func Example() {
	steel, _ := material.Find("case-carburised")
	for l := material.Low; l <= material.High; l++ {
		fmt.Printf("%-7v σ_Flim %.0f MPa\n", l, steel.RootLimit.At(l))
	}
	// ISO 6336-3: 2.5 times the limit up to 10³ load cycles, the limit itself from 3·10⁶ on.
	life, err := material.NewCurve([]material.LifePoint{{Cycles: 1e3, Factor: 2.5}, {Cycles: 3e6, Factor: 1}}, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	n := life.Cycles(1.5)
	fmt.Printf("1.5 times as much: %.2g load cycles; 10⁴ of them use up %.0f %%\n", n, 100*life.Damage(1.5, 1e4))
	// Output:
	// low     σ_Flim 312 MPa
	// typical σ_Flim 461 MPa
	// high    σ_Flim 525 MPa
	// 1.5 times as much: 8.7e+04 load cycles; 10⁴ of them use up 12 %
}

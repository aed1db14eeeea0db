package critical_test

import (
	"fmt"

	"layshaft/beam/critical"
)

// Three shafts one behind the other: how stiff they are together, and which of them winds up most.
func ExampleWindUp() {
	stiffness, shares := critical.WindUp([]critical.Spring{{Stiffness: 2e8, Ratio: 1}, {Stiffness: 1e8, Ratio: 1}, {Stiffness: 4e8, Ratio: 1}})
	fmt.Printf("%.3g N·mm/rad, %.0f %%\n", stiffness, 100*shares[1])
	// Output: 5.71e+07 N·mm/rad, 57 %
}

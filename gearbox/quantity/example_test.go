package quantity_test

import (
	"fmt"

	"layshaft/gearbox/quantity"
)

// A torque as a workshop writes it, in the inner unit and shown in another.
func Example() {
	q, err := quantity.Parse("125 ± 5 lbf·ft", quantity.Torque)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f ± %.0f N·mm, %.1f %s\n", q.Value, q.Tolerance, quantity.Convert(q.Value, quantity.Torque, quantity.Metric), quantity.Unit(quantity.Torque, quantity.Metric))
	_, err = quantity.Parse("125", quantity.Torque)
	fmt.Println(err != nil)
	// Output:
	// 169477 ± 6779 N·mm, 169.5 N·m
	// true
}

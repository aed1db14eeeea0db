package contact_test

import (
	"fmt"

	"layshaft/gearstress/contact"
)

// Steel teeth of radii 10 and 15 mm, 20 mm wide, pressed together by 250 N: problem 9.30 of Juvinall and Marshek, whose
// solution is 275 MPa.
func Example() {
	ze := contact.ElasticCoefficient(207000, 0.3, 207000, 0.3)
	peak, half := contact.Line(250./20, contact.RelativeRadius(10, 15), ze)
	fmt.Printf("%.0f MPa on a strip %.3f mm wide\n", peak, 2*half)
	// Output: 275 MPa on a strip 0.058 mm wide
}

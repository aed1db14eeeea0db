package involute_test

import (
	"fmt"
	"math"

	"layshaft/gearstress/involute"
)

// The pair of the invented Alder box's third speed: teeth counted, centre distance
// and tip diameters measured, shifts unknown.
func ExampleNew() {
	p, err := involute.New(involute.Spec{
		Module: 2.5, Helix: 25 * math.Pi / 180, Rack: involute.StandardRack,
		Teeth: [2]int{23, 35}, CentreDistance: 81, TipDiameter: [2]float64{69.4, 102.6}, Face: 20,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("profile shifts %.3f and %.3f\n", p.X[0], p.X[1])
	fmt.Printf("contact ratio %.3f across, %.3f along the face\n", p.TransverseContactRatio, p.OverlapRatio)
	for _, note := range p.Derived {
		fmt.Println("derived:", note)
	}
	// Output:
	// profile shifts 0.199 and 0.218
	// contact ratio 1.363 across, 1.076 along the face
	// derived: sum of profile shifts 0.4171 follows from the centre distance with no backlash; shared as 0.1987 and 0.2184 by the measured tip diameters
}

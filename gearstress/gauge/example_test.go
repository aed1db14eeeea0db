package gauge_test

import (
	"fmt"

	"layshaft/gearstress/gauge"
)

// A spur gear of 24 teeth read over 3 and over 4 teeth with a micrometer. The readings are 2 · 7.7165 mm (module 1 by a table
// of base tangent lengths, Elements of Metric Gear Technology) and one base pitch π · 2 · cos 20° more.
func Example() {
	r, err := gauge.Solve(gauge.Set{Gears: []gauge.Gear{{Name: "first wheel", Teeth: 24, Spur: true, Readings: []gauge.Reading{
		{Kind: gauge.Span, Teeth: 3, Value: 15.433, By: gauge.Micrometer}, {Kind: gauge.Span, Teeth: 4, Value: 21.337, By: gauge.Micrometer},
	}}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	g := r.Groups[0]
	fmt.Printf("base pitch %.3f mm, base circle %.1f mm\n", g.BasePitch.Value, g.Flanks[0].Base.Value)
	// Output: base pitch 5.904 mm, base circle 45.1 mm
}

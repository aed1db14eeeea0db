package scuffing_test

import (
	"fmt"
	"math"

	"layshaft/gearstress/involute"
	"layshaft/gearstress/scuffing"
)

// The pair of the invented Birch box's second speed, at 250 N·m and 5000 turns a minute.
func ExampleScreen() {
	p, err := involute.New(involute.Spec{Module: 3, Rack: involute.StandardRack, Teeth: [2]int{20, 37},
		Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 25})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := scuffing.Screen(scuffing.Input{
		Pair: p, Torque: 250000, Speed: 5000 * math.Pi / 30, KA: 1.25, KV: 1.1, KHb: 1.3, KHa: 1,
		Roughness: [2]float64{0.0004, 0.0004}, RunIn: true, OilTemperature: 90, Viscosity: 100, OilScuffing: 12,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("slides at %.1f m/s where contact ends\n", r.E.Sliding/1000)
	fmt.Printf("flash method: %.0f °C of %.0f °C, %v\n", r.Flash.Contact, r.Flash.Limit, r.Flash.Verdict)
	fmt.Printf("integral method: %.0f °C of %.0f °C, %v\n", r.Integral.Contact, r.Integral.Limit, r.Integral.Verdict)
	// Output:
	// slides at 6.0 m/s where contact ends
	// flash method: 199 °C of 366 °C, little risk of scuffing
	// integral method: 186 °C of 364 °C, uncertain
}

package gearbox

import (
	"fmt"
	"testing"
)

// One box, every speed, shafts and meshes as one system, without the search for allowable torques.
func BenchmarkCoupledSpeeds(b *testing.B) {
	box := threeShafts()
	for i := range 4 {
		s := box.Speeds[0]
		s.Name = fmt.Sprint("again ", i)
		box.Speeds = append(box.Speeds, s)
	}
	p := prepare(box, Method{})
	b.ReportAllocs()
	for b.Loop() {
		for i, s := range box.Speeds {
			v := p.solverFor(s, p.layouts[i][0], box.Torque)
			if _, err := v.measure(v.asked); err != nil {
				b.Fatal(err)
			}
		}
	}
}

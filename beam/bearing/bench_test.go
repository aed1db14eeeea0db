package bearing

import "testing"

func BenchmarkHold(b *testing.B) {
	clear := crb
	clear.Clearance = 0.03
	ball := Elements{Kind: Ball, Count: 9, Diameter: 12, Pitch: 60, Clearance: 0.01}
	taper := Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: 0.25}
	for _, c := range []struct {
		name   string
		e      Elements
		force  [3]float64
		couple [2]float64
	}{
		{"14 rollers radial", crb, [3]float64{0, 3000, 4000}, [2]float64{}},
		{"14 rollers radial with clearance", clear, [3]float64{0, 3000, 4000}, [2]float64{}},
		{"14 rollers radial and couple", crb, [3]float64{0, 3000, 4000}, [2]float64{-4000, 3000}},
		{"9 balls radial", ball, [3]float64{0, 3000, 0}, [2]float64{}},
		{"9 balls combined", ball, [3]float64{1000, 3000, 0}, [2]float64{0, 5000}},
		{"17 tapered radial and axial", taper, [3]float64{2000, 3000, 4000}, [2]float64{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			d, tilt, err := c.e.Displacement(c.force, c.couple)
			if err != nil {
				b.Fatal(err)
			}
			s := Stance{[2]float64{d[1], d[2]}, tilt}
			b.ReportAllocs()
			for b.Loop() {
				if _, _, err := c.e.Hold(s, c.force[0]); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkRadial(b *testing.B) {
	for b.Loop() {
		if _, err := crb.Radial(5000); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPairSettle(b *testing.B) {
	e := Elements{Kind: Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 50, ContactAngle: 0.25}
	p := Pair{Arrangement: BackToBack, A: e, B: e, Setting: -0.01}
	for b.Loop() {
		if _, err := p.Settle(4000, 6000, 1500); err != nil {
			b.Fatal(err)
		}
	}
}

package contact

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"

	"layshaft/gearstress/involute"
)

func pair(t testing.TB, s involute.Spec) *involute.Pair {
	t.Helper()
	s.Rack, s.Face = involute.StandardRack, 20
	p, err := involute.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Plain Hertz at the pitch point, without Z_H: the normal force on both flanks,
// their curvatures in the plane normal to the line of contact, and its length.
func TestPitchPointIsPlainHertz(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := involute.Spec{
			Module: rapid.Float64Range(1, 6).Draw(t, "module"), Helix: rapid.Float64Range(0, 0.7).Draw(t, "helix"),
			Rack: involute.StandardRack, Face: 20,
			Teeth:      [2]int{rapid.IntRange(10, 90).Draw(t, "driver"), rapid.IntRange(10, 90).Draw(t, "driven")},
			Shift:      [2]float64{rapid.Float64Range(-0.2, 0.8).Draw(t, "x1"), rapid.Float64Range(-0.2, 0.8).Draw(t, "x2")},
			ShiftKnown: [2]bool{true, true},
		}
		s.Rack.PressureAngle = rapid.Float64Range(0.25, 0.44).Draw(t, "angle")
		s.Rack.TipRadius = 0.2
		p, err := involute.New(s)
		if err != nil {
			t.Skip(err.Error())
		}
		torque := rapid.Float64Range(-1e6, 1e6).Draw(t, "torque")
		face := rapid.Float64Range(1, 60).Draw(t, "face")
		const ze = 189.8

		// Force along the line of action in the transverse plane turns the base
		// cylinder; the flank leans by β_b against it.
		normal := math.Abs(torque) / (p.Base[0] / 2) / math.Cos(p.BaseHelix)
		length := face / math.Cos(p.BaseHelix)
		var radius [2]float64
		for i := range radius {
			// On the line of action from the base circle to the pitch point.
			radius[i] = math.Sqrt((p.Working[i]-p.Base[i])*(p.Working[i]+p.Base[i])) / 2 / math.Cos(p.BaseHelix)
		}
		want, _ := Line(normal/length, RelativeRadius(radius[0], radius[1]), ze)
		if got := PitchPoint(p, torque, face, ze); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("pitch point %v MPa, plain Hertz %v MPa", got, want)
		}
	})
}

// The strip of contact carries the load: the half ellipse of pressure over its
// width adds up to it, whatever the formula for its height.
func TestPressureAddsUpToTheLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := rapid.Float64Range(1, 3000).Draw(t, "load")
		radius := rapid.Float64Range(0.5, 200).Draw(t, "radius")
		peak, half := Line(load, radius, 189.8)
		const n = 2000
		sum := 0.0
		for k := range n {
			x := (float64(k)+0.5)/n*2 - 1
			sum += peak * math.Sqrt(1-x*x) * 2 * half / n
		}
		if math.Abs(sum-load) > 1e-4*load {
			t.Fatalf("pressure adds up to %v N/mm of %v", sum, load)
		}
		// Width from the elastic approach: half² = 4 w ρ /(π E*), E* = π Z_E².
		if want := math.Sqrt(4*load*radius) / (math.Pi * 189.8); math.Abs(half-want) > 1e-12*want {
			t.Fatalf("half width %v, want %v", half, want)
		}
	})
}

func TestNoLoadNoPressure(t *testing.T) {
	if peak, half := Line(0, 5, 189.8); peak != 0 || half != 0 {
		t.Errorf("peak %v, half width %v", peak, half)
	}
}

// A hollow flank of nearly the same radius spreads the contact.
func TestRelativeRadiusOfHollowFlank(t *testing.T) {
	near(t, "convex on flat", RelativeRadius(10, 1e15), 10, 1e-9)
	near(t, "convex in hollow", RelativeRadius(10, -15), 30, 1e-9)
}

// The stress belongs to the mesh: seen from the other gear, with the torque that
// the driven gear passes on, it is the same.
func TestPitchPointIsTheSameFromBothGears(t *testing.T) {
	one := pair(t, involute.Spec{Module: 2.5, Helix: 0.4, Teeth: [2]int{17, 44}, Shift: [2]float64{0.2, -0.1}, ShiftKnown: [2]bool{true, true}})
	two := pair(t, involute.Spec{Module: 2.5, Helix: 0.4, Teeth: [2]int{44, 17}, Shift: [2]float64{-0.1, 0.2}, ShiftKnown: [2]bool{true, true}})
	a := PitchPoint(one, 150e3, 18, 189.8)
	near(t, "σ", PitchPoint(two, 150e3*44/17, 18, 189.8), a, 1e-9*a)
}

func BenchmarkPitchPoint(b *testing.B) {
	p := pair(b, involute.Spec{Module: 2.5, Helix: 0.4, Teeth: [2]int{17, 44}, ShiftKnown: [2]bool{true, true}})
	for b.Loop() {
		PitchPoint(p, 150e3, 18, 189.8)
	}
}

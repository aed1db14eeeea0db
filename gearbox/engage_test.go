package gearbox

import (
	"math"
	"testing"

	"layshaft/beam"
	"layshaft/material"
)

// freePinion is a pinion that turns freely in the middle of a uniform input shaft of 30 mm and is engaged at hub.
func freePinion(hub float64) *Box {
	b := threeShafts()
	b.Shafts[0].Sections = []Section{{180, 30, 0}}
	b.Input.At = 3
	b.Gears[0].Seat, b.Gears[0].EngagesAt = &Seat{Length: 20}, &hub
	return b
}

// Torque goes from the port to the hub and no further: φ = T L/(G I_p), I_p = π d⁴/32 (round bar in torsion, Saint-Venant), and nothing turns under the gear.
func TestTorqueEntersAtTheHub(t *testing.T) {
	for _, hub := range []float64{30, 60, 85, 120, 150} {
		b := freePinion(hub)
		s := mustSolve(t, b, Load{Speeds: []string{"only"}}).Speeds[0].Shafts[0].Solution
		steel, _ := material.Find(DefaultSteel)
		polar, shear := math.Pi*math.Pow(30, 4)/32, steel.Young/2/(1+steel.Poisson)
		want := b.Torque * (hub - b.Input.At) / shear / polar
		got := math.Abs(s.At(hub, beam.Left).Twist - s.At(b.Input.At, beam.Left).Twist)
		if math.Abs(got-want) > 1e-9*want {
			t.Errorf("hub at %g mm: twist %g rad from the port, want %g", hub, got, want)
		}
		for _, x := range []float64{0, 180} {
			at := s.At(x, beam.Right)
			if x == 180 {
				at = s.At(x, beam.Left)
			}
			if math.Abs(at.Torque) > 1e-9*b.Torque {
				t.Errorf("hub at %g mm: torque %g at %g mm", hub, at.Torque, x)
			}
		}
		if between := s.At((b.Input.At+hub)/2, beam.Left).Torque; math.Abs(math.Abs(between)-b.Torque) > 1e-9*b.Torque {
			t.Errorf("hub at %g mm: torque %g between port and hub", hub, between)
		}
	}
}

// A direct speed leads no torque through the spigot, however thin: what the box allows in it doesn't depend on the spigot.
func TestSpigotCarriesNoTorque(t *testing.T) {
	allowed := func(nose float64) float64 {
		b := inline()
		b.Shafts[1].Sections[0].Outer = nose
		s := mustSolve(t, b, Load{Speeds: []string{"4th"}}).Speeds[0]
		if stress := s.Shafts[1].Sections[0].Stress.VonMises; stress > 1e-9 {
			t.Errorf("a spigot of %g mm bears %g MPa", nose, stress)
		}
		return s.Governing().Allowable[1]
	}
	want := allowed(24)
	for _, nose := range []float64{6, 14, 20, 23.9} {
		if got := allowed(nose); math.Abs(got-want) > 1e-9*want {
			t.Errorf("a spigot of %g mm allows %g N·m, of 24 mm %g", nose, got/1e3, want/1e3)
		}
	}
}

// The usual places of hubs, by hand. Gears of 20 mm stand on a shaft of 200 mm with bearings at 10 and 190 mm; seats are as long as the faces.
func TestUsualPlaceOfAHub(t *testing.T) {
	type gear struct {
		at   float64
		free bool
	}
	for _, c := range []struct {
		name   string
		direct bool // there is a direct speed, and the bearing at 10 mm is its pilot
		gears  []gear
		want   []float64
	}{
		{"fast", false, []gear{{50, false}}, []float64{50}},
		{"alone, more room to the right", false, []gear{{50, true}}, []float64{60}},
		{"alone, more room to the left", false, []gear{{150, true}}, []float64{140}},
		{"alone in the middle", false, []gear{{100, true}}, []float64{110}},
		{"two that share a hub", false, []gear{{70, true}, {120, true}}, []float64{80, 110}},
		{"two that leave no room between them", false, []gear{{70, true}, {97, true}}, []float64{60, 107}},
		{"towards the free one, though there is more room beside the other", false, []gear{{50, true}, {80, true}, {150, false}}, []float64{60, 70, 150}},
		{"fast neighbour near, room beyond", false, []gear{{40, false}, {70, true}}, []float64{40, 80}},
		{"two pairs", false, []gear{{40, true}, {70, true}, {95, true}, {130, true}}, []float64{50, 60, 105, 120}},
		{"the direct speed shares the hub", true, []gear{{50, true}, {150, false}}, []float64{40, 150}},
		{"the bearing does not without a direct speed", false, []gear{{50, true}, {150, false}}, []float64{60, 150}},
	} {
		b := &Box{Input: Port{Shaft: "in"}, Output: Port{Shaft: "s"}, Shafts: []Shaft{{Name: "in", Sections: []Section{{100, 40, 0}}},
			{Name: "s", Sections: []Section{{200, 40, 0}}, Bearings: []Bearing{{Name: "left", At: 10}, {Name: "right", At: 190}}}}}
		if c.direct {
			b.Speeds = []Speed{{Name: "top", Direct: true}}
			b.Shafts[1].Bearings[0].In, b.Shafts[1].Bearings[0].InAt = "in", 95
		}
		for _, g := range c.gears {
			made := Gear{Name: string(rune('a' + len(b.Gears))), Shaft: "s", At: g.at, Face: 20}
			if g.free {
				made.Seat = &Seat{Length: 20}
			}
			b.Gears = append(b.Gears, made)
		}
		for i := range b.Gears {
			if got := b.HubAt(&b.Gears[i]); got != c.want[i] {
				t.Errorf("%s: gear %d has its hub at %g mm, want %g", c.name, i+1, got, c.want[i])
			}
		}
	}
}

// The direct speed joins the shafts at the end of the input and before the first gear of the output shaft; the file goes before.
func TestUsualPlaceOfADirectSpeed(t *testing.T) {
	b := inline()
	if in, out := b.directHubs(); in != 100 || out != 75-9 {
		t.Errorf("joined at %g and %g mm, want 100 and 66", in, out)
	}
	b.Gears[3].Shaft = "lay"
	if in, out := b.directHubs(); in != 100 || out != 20 {
		t.Errorf("without gears joined at %g and %g mm, want 100 and 20", in, out)
	}
	teeth, hub := 80., 40.
	b.DirectAt = DirectAt{&teeth, &hub}
	if in, out := b.directHubs(); in != 80 || out != 40 {
		t.Errorf("joined at %g and %g mm, want 80 and 40", in, out)
	}
	c := frameMirrored(inline())
	if in, out := c.directHubs(); in != 0 || out != 220-66 {
		t.Errorf("mirrored joined at %g and %g mm, want 0 and 154", in, out)
	}
}

// An idler on a seat hands its torque from mesh to mesh: its shaft gets none, wherever a hub might be.
func TestAnIdlerOnASeatHasNoHub(t *testing.T) {
	b := frameSystem("idler")
	far := 20.
	b.Gears[1].Seat, b.Gears[1].EngagesAt = &Seat{Length: 26}, &far
	for i := range b.Meshes {
		b.Meshes[i].Efficiency = 1
	}
	s := mustSolve(t, b, Load{}).Speeds[0].Shafts[1].Solution
	for _, x := range []float64{10, 30, 50} {
		if torque := s.At(x, beam.Left).Torque; math.Abs(torque) > 1e-9*b.Torque {
			t.Errorf("torque %g N·mm at %g mm", torque, x)
		}
	}
}

package joint

import "testing"

// Machinery's Handbook, stresses of an involute spline (formulas from memory; the figures are a recomputation). Inches, psi. With the
// handbook's factors: overload 2.2, life 1.8, wear 4, alignment 1; a fixed spline bears nine times what a sliding one does.
func TestHandbookSpline(t *testing.T) {
	h := Handbook{Torque: 6200, Diameter: 1.25, Teeth: 20, Engaged: 1, Thick: 0.0982, Height: 0.0625, Root: 1.1625}
	const overload, life, wear = 2.2, 1.8, 4.0
	same(t, "shaft", h.Shaft(), 20099.39, 1e-6)
	same(t, "shaft with factors", h.Shaft()*overload/life, 24565.92, 1e-6)
	same(t, "teeth", h.Tooth(), 10101.83, 1e-6)
	same(t, "teeth with factors", h.Tooth()*overload/life, 12346.68, 1e-6)
	same(t, "flanks", h.Pressure(), 7936, 1e-6)
	same(t, "flanks, sliding", h.Pressure()*overload/wear, 4364.8, 1e-6)
	same(t, "flanks, fixed", h.Pressure()*overload/(9*life), 1077.728, 1e-6)
	radial, turning, beams := h.Burst(Hub{Outer: 1.75, Root: 1.3438, Wall: 0.2031, Length: 1, Angle: 30 * degree, RPM: 6500})
	same(t, "hub, radial", radial, 4488.087, 1e-6)
	same(t, "hub, turning", turning, 241.0559, 1e-6)
	same(t, "hub, beams", beams, 10581.33, 1e-6)
	same(t, "hub, total", (overload*(radial+beams)+turning)/life, 18552.1, 1e-5)
	// The same shaft as a caliper finds it.
	s := Spline{Teeth: 20, Outer: 1.3125, Inner: 1.1875, Length: 1, Thick: 0.0982, Share: 1}
	same(t, "flanks by caliper", s.Pressure(6200), h.Pressure(), 1e-12)
	same(t, "teeth by caliper", s.Shear(6200), h.Tooth(), 1e-12)
}

// ISO 4156 and ANSI B92.1, 30°, flat root: diameters and pins (formulas from memory; figures recomputed).
func TestFlatRoot30(t *testing.T) {
	for _, c := range []struct {
		teeth                                            int
		pitch, base, outer, root, hubRoot, over, between float64
	}{
		{24, 30, 25.98076, 31.25, 28.125, 31.875, 33.99696, 26.57587},
		{25, 31.25, 27.06329, 32.5, 29.375, 33.125, 35.18566, 27.77025},
	} {
		pitch, base, outer, root, hubRoot := FlatRoot30(1.25, c.teeth)
		for i, v := range [][2]float64{{pitch, c.pitch}, {base, c.base}, {outer, c.outer}, {root, c.root}, {hubRoot, c.hubRoot}} {
			same(t, []string{"pitch", "base", "outer", "root", "root of the hub"}[i], v[0], v[1], 1e-6)
		}
		same(t, "over pins", OverPins(1.25, c.teeth, 2.5), c.over, 1e-6)
		same(t, "between pins", BetweenPins(1.25, c.teeth, 2.25), c.between, 1e-6)
	}
}

// DIN 5480-1, the example of its designation, 120 × 3 × 38 (from memory).
func TestDIN5480(t *testing.T) {
	pitch, shift, shaft, hub := DIN5480(120, 3, 38)
	same(t, "pitch", pitch, 114, 1e-9)
	same(t, "x m", shift, 1.35, 1e-9)
	same(t, "tip of the shaft", shaft, 119.4, 1e-9)
	same(t, "tip of the hub", hub, 114, 1e-9)
}

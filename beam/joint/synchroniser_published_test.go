package joint

import (
	"math"
	"testing"
)

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed., solution manual, problem 16-19, p. 410: a cone of 306 to 330 mm, 60 mm
// long, 200 N·m, μ = 0.26: 11.31°, 0.949 kN with uniform wear.
func TestManualProblem16_19(t *testing.T) {
	angle := math.Atan((330. - 306) / 2 / 60)
	near(t, "angle", angle/degree, 11.31, 0.005)
	c := Cone{Friction: 0.26, Radius: (306. + 330) / 4, Angle: angle, Cones: 1}
	force := 200e3 / c.Torque(1)
	same(t, "force", force, 948.796, 2.2e-4) // the mean radius formula gives 200.043 N·m there
	near(t, "force as printed, kN", force/1e3, 0.949, 0.0006)
	if !c.Sticks() {
		t.Error("tan 11.31° = 0.2 lies below μ: it sticks")
	}
}

// Cone against index torque, form of a paper of 1968 (from memory; figures recomputed): N·m, mm.
func TestConeAgainstPoints(t *testing.T) {
	c := Cone{Friction: 0.1, Radius: 30, Angle: 6.5 * degree, Cones: 1, Blocking: 36, Points: 0.09}
	for _, p := range []struct {
		angle, index float64
		blocks       bool
	}{{55, 18.59866, true}, {45, 27.04954, false}} {
		c.Point = p.angle * degree
		same(t, "cone", c.Torque(900)/1e3, 23.85091, 1e-6)
		same(t, "index", c.Index(900)/1e3, p.index, 1e-6)
		if c.Blocks() != p.blocks {
			t.Errorf("%g°: blocks %v", p.angle, c.Blocks())
		}
	}
	for i, angle := range []float64{40, 45, 50, 55, 60, 65} {
		c.Point = angle * degree
		same(t, "index over force", c.Index(1), []float64{35.82104, 30.05505, 25.07402, 20.66518, 16.678, 13.00144}[i], 1e-6)
	}
	same(t, "cone over force", c.Torque(1), 26.50101, 1e-6)
	same(t, "least angle", c.Steepest()/degree, 48.49899, 1e-6)
	c.Angle = 5.7 * degree
	if !c.Sticks() {
		t.Error("below 5.710593° it sticks at μ = 0.1")
	}
	// A worn cone of μ = 0.06 no longer blocks at 55°.
	c.Angle, c.Point, c.Friction = 6.5*degree, 55*degree, 0.06
	if c.Blocks() {
		t.Error("a worn cone blocks")
	}
}

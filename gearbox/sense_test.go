package gearbox

import "testing"

// The trade's rule for helical gears: hold the hand of the helix along the driver's shaft, fingers the way it turns; the thumb shows which way the teeth push it.
// Right hand, clockwise seen from the left (about +x): to the right. Each change of hand, sense or flank turns it round.
func TestThrustByTheHandRule(t *testing.T) {
	for _, c := range []struct {
		turns         int
		hand          Hand
		torque        float64
		flank, thrust string // of the driver
		sense         string
	}{
		{1, Right, 200e3, "right", "right", "clockwise"},
		{1, Left, 200e3, "right", "left", "clockwise"},
		{-1, Right, 200e3, "left", "left", "anticlockwise"},
		{-1, Left, 200e3, "left", "right", "anticlockwise"},
		{1, Right, -200e3, "left", "left", "clockwise"}, // coast: the same sense, the other flanks
		{-1, Right, -200e3, "right", "right", "anticlockwise"},
	} {
		b := threeShafts()
		b.Turns, b.Meshes[0].Hand = c.turns, c.hand
		m := mustSolve(t, b, Load{Torque: c.torque}).Speeds[0].Meshes[0]
		if m.FlankSide() != c.flank || m.Thrust(0) != c.thrust || SenseName(m.Sense(0)) != c.sense {
			t.Errorf("turns %d, %s, %g N·mm: %s flanks, pushed to the %s, turns %s; want %s, %s, %s", c.turns, c.hand, c.torque, m.FlankSide(), m.Thrust(0), SenseName(m.Sense(0)), c.flank, c.thrust, c.sense)
		}
		if m.Thrust(0) == m.Thrust(1) || m.Sense(0) == m.Sense(1) {
			t.Error("the two gears of a mesh are pushed, and turn, opposite ways")
		}
	}
}

// A spur gear pushes no shaft along.
func TestSpurHasNoThrust(t *testing.T) {
	b := threeShafts()
	b.Meshes[0].Helix, b.Meshes[0].Hand, b.Meshes[0].Module = 0, Spur, 2.2
	if m := mustSolve(t, b, Load{Loose: true}).Speeds[0].Meshes[0]; m.Thrust(0) != "" || m.Thrust(1) != "" {
		t.Errorf("a spur pinion pushes its shaft to the %s", m.Thrust(0))
	}
}

// The flank that is named is the one that the force on the teeth comes out of: the force on the driven gear, seen from the tooth of the driven gear on the line of centres. A right
// flank is the one that comes first when one goes round a tooth clockwise (from y to z) from its middle: it looks along the sense of rotation about +x.
func TestFlankSideByForce(t *testing.T) {
	for _, turns := range []int{1, -1} {
		b := threeShafts()
		b.Turns = turns
		p := prepare(b, Method{})
		if p.found.HasErrors() {
			t.Fatal(p.found)
		}
		f := p.force(0, b.Torque*float64(turns), p.layouts[0][0])
		m := mustSolve(t, b, Load{}).Speeds[0].Meshes[0]
		// On the driver the tooth in mesh lies along e_r from its axis; turning about +x moves it along e_x × e_r. Its flank that carries looks to where it pushes the other gear.
		ahead := f.onDriven.dot(f.along.turned()) > 0 // the leading side about +x: its right flank
		if ahead != (m.FlankSide() == "right") {
			t.Errorf("turns %d: the force says the right flank carries: %v; named %s", turns, ahead, m.FlankSide())
		}
		if (f.axial > 0) != (m.Thrust(0) == "right") {
			t.Errorf("turns %d: axial force %g N on the driver, named %s", turns, f.axial, m.Thrust(0))
		}
	}
}

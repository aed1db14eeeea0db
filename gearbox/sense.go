package gearbox

// Sense, flank and thrust in words that can be held against the parts.
//
// Whoever looks stands at the left end and looks along +x, with z up and y to the left. About +x everything turns from y to z, from left to up: clockwise.
// A tooth that points up in that sight has a right and a left flank. These are the right and left flank of ISO 21771 for a gear whose left
// end is its reference face. The flank of a gear that a gear pushes stays the same all round, whichever way the gear lies.

// The words for a flank, and for a direction along the shafts.
const (
	leftward  = "left"
	rightward = "right"
)

// SenseName is a sense about +x (> 0 or < 0) as somebody sees it who stands at the left end.
func SenseName(sense float64) string {
	if sense < 0 {
		return "anticlockwise"
	}
	return "clockwise"
}

// FlankSide is which flanks of its teeth carry, of both gears of the mesh: "right" or "left" with a tooth that points up, seen from the left end; "" without load.
//
// A driver that is given a torque about +x pushes the tooth on its top from left to right, against the wheel's, and so with its right flanks. They meet
// the right flanks of the other gear: the teeth there point the other way round and come from the other side.
func (m *MeshResult) FlankSide() string {
	switch {
	case m.Torque[0] > 0:
		return rightward
	case m.Torque[0] < 0:
		return leftward
	}
	return ""
}

// Thrust is which way the teeth push the shaft of the driver (0) or of the driven gear (1): "right" along +x, "left", or "" where they don't.
func (m *MeshResult) Thrust(gear int) string {
	along := m.Axial
	if gear == 1 {
		along = -along
	}
	switch {
	case along > 0:
		return rightward
	case along < 0:
		return leftward
	}
	return ""
}

// Sense is the sense about +x in which the shaft of the driver (0) or of the driven gear (1) of a mesh turns in a speed, +1 or −1: in drive the shaft of a driver turns with the torque it is
// given, in coast against it.
func (m *MeshResult) Sense(gear int) float64 {
	sense := 1.0
	if m.Torque[0] < 0 {
		sense = -sense
	}
	if m.Flank == CoastFlank {
		sense = -sense
	}
	if gear == 1 {
		sense = -sense // outer gears turn each other the other way
	}
	return sense
}

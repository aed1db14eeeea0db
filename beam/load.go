package beam

import (
	"errors"
	"fmt"
	"math"
)

// Load is a force and a couple on the shaft. All values are totals. They act
// at X or, when Length is greater than 0, are spread evenly over
// [X − Length/2, X + Length/2].
type Load struct {
	X, Length  float64 // mm
	Fx, Fy, Fz float64 // N, along +x, +y, +z
	Mx, My, Mz float64 // N·mm, right-handed about +x, +y, +z
}

// Case is what is done to a shaft: loads, and how the seats of its supports
// move.
type Case struct {
	Loads []Load
	// Seats holds how the seat of each support has moved, in the order of
	// Shaft.Supports. Nil: the seats stay where they are.
	Seats []Seat
}

// Seat is how the ground under a support has moved and turned. The support's
// springs act on the motion of the shaft against it.
type Seat struct {
	Move [2]float64 // displacement {y, z}, mm
	Tilt [2]float64 // slope in the planes {xy, xz}, rad; the tilting spring alone feels it
}

// validate reports everything that is wrong with the case.
func (c Case) validate(m *Model) error {
	var errs []error
	tol := m.length * coincident
	for i, l := range c.Loads {
		switch {
		case !finite(l.X, l.Length) || l.Length < 0:
			errs = append(errs, fmt.Errorf("load %d: x is %g mm and its length %g mm: both must be numbers, the length 0 or more", i+1, l.X, l.Length))
		case l.X-l.Length/2 < -tol || l.X+l.Length/2 > m.length+tol:
			if l.Length == 0 {
				errs = append(errs, fmt.Errorf("load %d: x is %g mm: the shaft runs from 0 to %g mm", i+1, l.X, m.length))
			} else {
				errs = append(errs, fmt.Errorf("load %d: it reaches from %g to %g mm: the shaft runs from 0 to %g mm", i+1, l.X-l.Length/2, l.X+l.Length/2, m.length))
			}
		}
		if !finite(l.Fx, l.Fy, l.Fz, l.Mx, l.My, l.Mz) {
			errs = append(errs, fmt.Errorf("load %d: forces %g, %g, %g N and couples %g, %g, %g N·mm: all must be numbers", i+1, l.Fx, l.Fy, l.Fz, l.Mx, l.My, l.Mz))
		}
	}
	if c.Seats != nil && len(c.Seats) != len(m.shaft.Supports) {
		errs = append(errs, fmt.Errorf("movements of %d seats for %d supports: give one for each or none at all", len(c.Seats), len(m.shaft.Supports)))
	}
	for i, s := range c.Seats {
		if !finite(s.Move[0], s.Move[1]) {
			errs = append(errs, fmt.Errorf("seat %d: displacement is %g, %g mm: both must be numbers", i+1, s.Move[0], s.Move[1]))
		}
		if !finite(s.Tilt[0], s.Tilt[1]) {
			errs = append(errs, fmt.Errorf("seat %d: tilt is %g, %g rad: both must be numbers", i+1, s.Tilt[0], s.Tilt[1]))
		}
	}
	if len(errs) == 0 {
		errs = append(errs, c.unbalanced(m))
	}
	return errors.Join(errs...)
}

// unbalanced reports a torque, or an axial force that nothing holds, left over
// in the sum of the loads.
func (c Case) unbalanced(m *Model) error {
	var torque, thrust, maxTorque, maxThrust float64
	for _, l := range c.Loads {
		torque += l.Mx
		thrust += l.Fx
		maxTorque = max(maxTorque, math.Abs(l.Mx))
		maxThrust = max(maxThrust, math.Abs(l.Fx))
	}
	var errs []error
	if math.Abs(torque) > balance*maxTorque {
		errs = append(errs, fmt.Errorf("the torques do not balance: Mx of all loads sums to %g N·mm with %g N·mm the largest: supports take no torque, so add where it leaves the shaft", torque, maxTorque))
	}
	if m.axial == nil && math.Abs(thrust) > balance*maxThrust {
		errs = append(errs, fmt.Errorf("the shaft is free to move along its axis: Fx of all loads sums to %g N and no support holds it axially: give one support an axial stiffness", thrust))
	}
	return errors.Join(errs...)
}

// balance is the part of the largest load that may be left over in a sum that
// nothing holds.
const balance = 1e-9

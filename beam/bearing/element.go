package bearing

import (
	"errors"
	"fmt"
	"math"
)

// Kind is the kind of rolling element.
type Kind int

// The kinds.
const (
	Ball        Kind = iota // deep groove or angular contact, by the contact angle
	Cylindrical             // cylindrical roller
	Needle                  // a cylindrical roller in all that is computed here
	Tapered
)

// String is the kind in words.
func (k Kind) String() string {
	switch k {
	case Ball:
		return "ball"
	case Cylindrical:
		return "cylindrical roller"
	case Needle:
		return "needle roller"
	case Tapered:
		return "tapered roller"
	}
	return fmt.Sprintf("kind %d", int(k))
}

// exponent is n of the contact law Q ∝ δⁿ.
func (k Kind) exponent() float64 {
	if k == Ball {
		return 1.5
	}
	return 10. / 9
}

// Elements is one row of rolling elements between two stiff rings.
//
// Everything said about it is about its pressure centre: the place on the axis where the lines of
// contact meet. Without a contact angle that is the middle of the row.
type Elements struct {
	Kind     Kind
	Count    int
	Diameter float64 // of a ball or roller (mean of a tapered one), mm
	Length   float64 // effective length of a roller, without its chamfers, mm; 0 for a ball
	Pitch    float64 // diameter of the circle through the middles of the elements, mm

	// ContactAngle is the angle between the line of contact and the plane across the axis, rad;
	// of a tapered roller that of the fixed outer raceway. Positive: the row takes shaft thrust
	// towards +x, negative: towards −x. 0 for cylindrical and needle rollers and deep groove balls.
	ContactAngle float64

	// Clearance is the radial play at rest, taken across the diameter, mm, with the rings held
	// axially in their nominal place. Negative: the elements are squeezed by that much.
	Clearance float64

	// Groove is the radius of a ball's grooves over the ball's diameter, the same in both rings.
	// 0 stands for 0.52 (a usual value, from memory). It decides how far the contact angle of a
	// ball moves under thrust, and so the axial and tilting stiffness. 0 for rollers.
	Groove float64

	// Turn is where the first element stands, rad from +y towards +z.
	Turn float64
}

// PressureCentre is how far the pressure centre lies from the middle of the row along +x, mm:
// −(Pitch/2) tan ContactAngle. It is plain geometry: the lines of contact through the middles of
// the elements meet the axis there. Catalogues print the same point as a distance from the back
// face of the bearing, made from their own drawing: take that where there is one.
func (e Elements) PressureCentre() float64 { return -e.Pitch / 2 * math.Tan(e.ContactAngle) }

// groove is the groove radius over the ball diameter with the default filled in.
func (e Elements) groove() float64 {
	if e.Groove == 0 {
		return 0.52
	}
	return e.Groove
}

// Bounds of contact angles that are not 0, rad. Thrust bearings (90°) are not in this package.
const (
	leastContactAngle = 0.01
	mostContactAngle  = 1.4
)

// Check says what cannot be about the elements, all of it at once; nil if nothing.
func (e Elements) Check() error {
	var all []error
	no := func(format string, args ...any) { all = append(all, fmt.Errorf(format, args...)) }
	if e.Kind < Ball || e.Kind > Tapered {
		return fmt.Errorf("rolling elements are of unknown kind %d: use Ball, Cylindrical, Needle or Tapered", int(e.Kind))
	}
	// Conditions are written so that NaN fails them.
	if e.Count < 3 || e.Count > 1000 {
		no("%d rolling elements: a ring of 3 to 1000 is expected", e.Count)
	}
	if !size(e.Diameter) {
		no("element diameter %g mm: a size from 0.01 mm to 10 m is expected", e.Diameter)
	}
	if !(size(e.Pitch) && e.Pitch > e.Diameter) {
		no("pitch diameter %g mm: it must be finite and larger than the element diameter of %g mm", e.Pitch, e.Diameter)
	}
	roller := e.Kind != Ball
	if roller && !size(e.Length) {
		no("roller length %g mm: a size from 0.01 mm to 10 m is expected", e.Length)
	}
	if roller && e.Groove != 0 {
		no("groove %g given for a %v: only balls run in grooves, leave it 0", e.Groove, e.Kind)
	}
	if !roller && e.Length != 0 {
		no("length %g mm given for a ball: leave it 0", e.Length)
	}
	if f := e.groove(); !roller && !(f >= 0.505 && f <= 0.75) {
		no("groove radius of %g ball diameters: 0.505 to 0.75 is expected, 0 for the usual 0.52", f)
	}
	switch angle := math.Abs(e.ContactAngle); e.Kind {
	case Cylindrical, Needle:
		if angle != 0 {
			no("contact angle %g rad given for a %v: it has none, leave it 0", e.ContactAngle, e.Kind)
		}
	case Tapered:
		if !(angle >= leastContactAngle && angle <= mostContactAngle) {
			no("contact angle %g rad of a tapered roller: %.3g to %.3g rad is expected, with the sign of the thrust it takes", e.ContactAngle, leastContactAngle, mostContactAngle)
		}
	default:
		if !(angle == 0 || angle >= leastContactAngle && angle <= mostContactAngle) {
			no("contact angle %g rad of a ball: 0 for deep grooves or %.3g to %.3g rad is expected, with the sign of the thrust it takes", e.ContactAngle, leastContactAngle, mostContactAngle)
		}
	}
	if !(math.Abs(e.Turn) <= 1000) {
		no("first element at %g rad: an angle is expected", e.Turn)
	}
	if !(math.Abs(e.Clearance) <= e.Diameter/10) {
		no("clearance %g mm: more than a tenth of the element diameter of %g mm", e.Clearance, e.Diameter)
	}
	if len(all) > 0 {
		return errors.Join(all...)
	}
	// A hair of slack: needles without a cage fill their circle, and sizes come rounded.
	if need := float64(e.Count) * math.Asin(e.Diameter/e.Pitch) / math.Pi; need > 1.005 {
		no("%d elements of %g mm do not fit on a circle of %g mm: they need %.3g of its length", e.Count, e.Diameter, e.Pitch, need)
	}
	if room := (2*e.groove() - 1) * e.Diameter * math.Cos(e.ContactAngle); !roller && e.Clearance >= room {
		no("clearance %g mm is too much for grooves of %g ball diameters: less than %.3g mm is expected", e.Clearance, e.groove(), room)
	}
	return errors.Join(all...)
}

// size says whether x can be a size in mm. NaN cannot.
func size(x float64) bool { return x >= 0.01 && x <= 10000 }

package strength

import (
	"errors"
	"fmt"
)

// Kind is a kind of notch.
type Kind string

// The kinds of notch.
const (
	Shoulder      Kind = "shoulder"
	CirclipGroove Kind = "circlip groove" // flat bottom, small radii in its corners
	RoundGroove   Kind = "round groove"   // the bottom is one radius: an undercut
	CrossHole     Kind = "cross hole"     // right across the axis
	Keyway        Kind = "keyway"         // cut by an end mill, key in place
	PressFit      Kind = "press fit"      // the edge of a part pressed on
	SplineRoot    Kind = "spline"         // involute, where the teeth end
	PinionRoot    Kind = "pinion"         // teeth of a gear cut into the shaft
)

// Kinds lists the kinds in the order shown to people.
func Kinds() []Kind {
	return []Kind{Shoulder, CirclipGroove, RoundGroove, CrossHole, Keyway, PressFit, SplineRoot, PinionRoot}
}

// Notch is one notch of a round shaft.
type Notch struct {
	Kind   Kind
	Outer  float64 // diameter beside the notch; of a shoulder the larger one, of teeth that over their tips, mm
	Bottom float64 // diameter at the bottom: of a shoulder the smaller one, of teeth the root circle, mm; of a hole, key or fit it counts for nothing
	Bore   float64 // mm; 0 = solid
	Radius float64 // of the fillet, or of the corners of a circlip groove, mm
	Width  float64 // of a circlip groove, mm; 0 = not known
	Hole   float64 // diameter of a cross hole, mm
	Depth  float64 // of a keyway, from the surface, mm; 0 = not known
}

// Check finds what is impossible about a notch.
func (n Notch) Check() error {
	var errs []error
	fault := func(wrong bool, format string, args ...any) {
		if wrong {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	fault(!(n.Outer > 0), "a notch needs the diameter of its shaft; it has %g mm", n.Outer)
	fault(!(n.Bore >= 0), "the bore of %g mm is no diameter", n.Bore)
	fault(n.Bore >= n.Outer, "the bore of %g mm leaves nothing of %g mm", n.Bore, n.Outer)
	switch n.Kind {
	case Shoulder, CirclipGroove, RoundGroove:
		fault(!(n.Bottom > n.Bore && n.Bottom < n.Outer), "the bottom diameter of a %s must lie between the bore (%g mm) and the diameter beside it (%g mm); it is %g mm", n.Kind, n.Bore, n.Outer, n.Bottom)
		fault(!(n.Radius > 0), "a %s without a radius in its corner has no end of stress: measure the radius (a radius gauge, or a cast of the corner)", n.Kind)
		fault(n.Kind == CirclipGroove && n.Width > 0 && 2*n.Radius > n.Width, "two corners of %g mm don't fit into a groove of %g mm", n.Radius, n.Width)
		fault(n.Kind != Shoulder && n.Radius > n.Outer, "a radius of %g mm at a diameter of %g mm is no groove", n.Radius, n.Outer)
	case CrossHole:
		fault(!(n.Hole > 0 && n.Hole < n.Outer), "a cross hole must be larger than nothing and smaller than the shaft (%g mm); it is %g mm", n.Outer, n.Hole)
	case Keyway:
		fault(!(n.Depth >= 0 && n.Depth < (n.Outer-n.Bore)/2), "a keyway of %g mm doesn't fit into a wall of %g mm", n.Depth, (n.Outer-n.Bore)/2)
	case SplineRoot, PinionRoot:
		fault(!(n.Bottom > n.Bore && n.Bottom <= n.Outer), "the root circle of a %s must lie between the bore (%g mm) and the diameter over the teeth (%g mm); it is %g mm", n.Kind, n.Bore, n.Outer, n.Bottom)
	case PressFit:
	default:
		fault(true, "there is no notch of kind %q", n.Kind)
	}
	return errors.Join(errs...)
}

// reference is the diameter that the nominal stress stands on, mm.
func (n Notch) reference() float64 {
	switch n.Kind {
	case CrossHole, Keyway, PressFit:
		return n.Outer
	}
	return n.Bottom
}

// Nominal is the modulus that notch factors refer to.
func (n Notch) Nominal() Modulus { return Ring(n.reference(), n.Bore) }

// Net is the modulus of the metal that is left, for yield. A keyway is taken as if the shaft were turned down to its
// bottom on one side: common practice, no source.
func (n Notch) Net() Modulus {
	switch n.Kind {
	case CrossHole:
		return drilled(n.Outer, n.Bore, n.Hole)
	case Keyway:
		return Ring(n.Outer-n.Depth, n.Bore)
	}
	return n.Nominal()
}

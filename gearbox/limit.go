package gearbox

import (
	"fmt"
	"math"

	"layshaft/material"
)

const (
	slopeTable = "Shigley's Mechanical Engineering Design, 9th ed., Table 7-2"
	boxFile    = "the box file"
	inch       = 25.4 // mm
)

// bound is a limit with the word whether the file itself sets it: then it decides, also where it is one of the guides.
type bound struct {
	material.Band
	own bool
}

// set is a limit of the box file itself.
func set(v float64) bound { return bound{exactly(v, boxFile), true} }

// guide is a limit of a table or of practice.
func guide(b material.Band) bound { return bound{Band: b} }

func exactly(v float64, source string) material.Band {
	return material.Band{Low: v, Typical: v, High: v, Source: source}
}

func between(low, high float64, source string) material.Band {
	return material.Band{Low: low, Typical: (low + high) / 2, High: high, Source: source + "; typical is the middle of its range"}
}

// slopeLimit is the slope a bearing bears, rad: its own limit in the box file, or the file's for all bearings, or that of its type.
func (b *Box) slopeLimit(br Bearing) bound {
	switch {
	case br.SlopeLimit > 0:
		return set(br.SlopeLimit)
	case b.Limits.Slope > 0:
		return set(b.Limits.Slope)
	}
	switch br.Type {
	case TaperedRoller:
		return guide(between(0.0005, 0.0012, slopeTable+", tapered roller"))
	case CylindricalRoller:
		return guide(between(0.0008, 0.0012, slopeTable+", cylindrical roller"))
	case DeepGrooveBall:
		return guide(between(0.001, 0.003, slopeTable+", deep-groove ball"))
	case SelfAligning:
		return guide(between(0.026, 0.052, slopeTable+", spherical and self-aligning ball"))
	case NeedleRoller:
		return guide(between(0.0008, 0.0012, "common practice, no source: as cylindrical rollers ("+slopeTable+")"))
	}
	return guide(between(0.0008, 0.0012, "common practice, no source: plain bearing as cylindrical rollers ("+slopeTable+")"))
}

// tiltLimit is how far the two axes of a mesh may lean out of parallel, rad. Where the file chooses no rule, the textbook's holds for what it speaks of, spur gears
// without crowning; helical, crowned and relieved teeth bear more.
func (b *Box) tiltLimit(m Mesh) bound {
	const (
		textbook = slopeTable + ": uncrowned spur gears stay below 0.5 mrad"
		vehicle  = "vehicle practice from memory: rotation in the plane of the gears up to 2 mrad"
	)
	bearsMore := b.bearsTilt(m)
	switch {
	case m.TiltLimit > 0:
		return set(m.TiltLimit)
	case b.Limits.MeshTilt > 0:
		return set(b.Limits.MeshTilt)
	case b.Limits.Tilt == VehiclePractice:
		return guide(exactly(0.002, vehicle+"; chosen in the box file against "+textbook))
	case b.Limits.Tilt == TextbookSpur:
		return guide(exactly(0.0005, textbook+"; chosen in the box file against "+vehicle))
	case bearsMore != "":
		return guide(exactly(0.002, vehicle+"; taken because the gears are "+bearsMore+", against "+textbook))
	}
	return guide(exactly(0.0005, textbook+"; taken because these are such, against "+vehicle))
}

// bearsTilt is why a mesh bears more tilt than spur gears with straight teeth, "" when it doesn't.
func (b *Box) bearsTilt(m Mesh) string {
	if m.Helix > 0 {
		return "helical"
	}
	why := ""
	for _, g := range b.Gears {
		switch {
		case g.Name != m.Driver && g.Name != m.Driven:
		case g.Crowning > 0:
			return "crowned"
		case g.Relief != [2]Relief{}:
			why = "relieved at their ends"
		}
	}
	return why
}

// separationLimit is how far a mesh may open, mm. The table goes by diametral pitch and leaves gaps between its rows; the finer row holds there.
func (b *Box) separationLimit(m Mesh) bound {
	if b.Limits.Separation > 0 {
		return set(b.Limits.Separation)
	}
	const hair = 1e-9 // for a pitch that was turned into a module and back
	pitch := inch / m.Module
	rows := []struct {
		from, below float64
		inches      float64
		words       string
	}{
		{0, 10 - hair, 0.010, "below 10"}, {11 - hair, 19 + hair, 0.005, "11 to 19"}, {20 - hair, math.Inf(1), 0.003, "20 to 50"},
	}
	for _, r := range rows {
		if pitch >= r.below {
			continue
		}
		source := fmt.Sprintf("%s, diametral pitch %s (here %.3g)", slopeTable, r.words, pitch)
		switch {
		case pitch < r.from:
			source += fmt.Sprintf("; the table has no row for %.3g, the finer one holds", pitch)
		case pitch > 50+hair:
			source += "; finer than the table"
		}
		return guide(exactly(r.inches*inch, source))
	}
	panic("gearbox: module is not positive")
}

// weaker is the lower of two bands, level by level.
func weaker(a, b material.Band) material.Band {
	if a == b {
		return a
	}
	low := material.Band{Low: min(a.Low, b.Low), Typical: min(a.Typical, b.Typical), High: min(a.High, b.High)}
	switch low.Typical {
	case a.Typical:
		low.Source = a.Source
	default:
		low.Source = b.Source
	}
	return low
}

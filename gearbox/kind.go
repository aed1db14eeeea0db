package gearbox

import (
	"fmt"

	"layshaft/gearbox/quantity"
)

// Class says what a limit means, and with it whether it counts.
type Class string

// The classes. What breaks or wears out decides; a guide warns.
const (
	Breaks   Class = "breaks"    // one peak is enough, to break or to leave damage that grows
	WearsOut Class = "wears out" // the duty uses it up
	Guide    Class = "guide"     // a rule of thumb
)

// Classes lists the classes in the order shown to people.
func Classes() []Class { return []Class{Breaks, WearsOut, Guide} }

// Key is the name of the class for machines.
func (c Class) Key() string {
	if c == WearsOut {
		return "wears_out"
	}
	return string(c)
}

// Kind is one kind of limit.
type Kind int

// The kinds of limit, in the order shown to people.
const (
	RootFatigue Kind = iota
	RootPeak
	FlankFatigue
	FlankPeak
	ShaftYield
	BearingStatic
	BearingLife
	NotchFatigue
	NotchYield
	JointYield
	DogYield
	FitSlip
	BoltSlip
	CirclipPush
	BearingSlope
	MeshTilt
	MeshSeparation
	// For reference: a second opinion, which decides only where a steel has no limits of ISO 6336.
	RootAGMA
	FlankAGMA
	RootLewis
	FlankHertz
)

// kindFacts is everything that is known of a kind.
type kindFacts struct {
	name, key string
	phrase    string // of one part, which stands for %s
	class     Class
	dimension quantity.Dimension // of the demand and of the limit
	static    bool               // a single load reaches it, so that the peak decides over it and not what runs
	opinion   bool               // stands beside the verdict
	// The torque grows about with this power of the demand: 1 for a stress that grows like the load, 2 for one that grows like its root.
	power    float64
	strength Strength // that it is found from, as far as service history can bound it
}

// noStrength marks a kind that no strength of a steel stands behind which service history could bound.
const noStrength Strength = -1

// allKinds is the one table of kinds, in their order.
var allKinds = [...]kindFacts{
	RootFatigue:    {"tooth root, fatigue", "root_fatigue", "tooth root fatigue of %s", WearsOut, quantity.Stress, false, false, 1, RootStrength},
	RootPeak:       {"tooth root, peak", "root_peak", "peak at tooth root of %s", Breaks, quantity.Stress, true, false, 1, RootStatic},
	FlankFatigue:   {"flank, fatigue", "flank_fatigue", "flank fatigue of %s", WearsOut, quantity.Stress, false, false, 2, FlankStrength},
	FlankPeak:      {"flank, peak", "flank_peak", "peak at flank of %s", Breaks, quantity.Stress, true, false, 2, FlankStatic},
	ShaftYield:     {"shaft, yield", "shaft_yield", "yield of %s", Breaks, quantity.Stress, true, false, 1, YieldStrength},
	BearingStatic:  {"bearing, static load", "bearing_static", "static load of %s", Breaks, quantity.Force, true, false, 1, noStrength},
	BearingLife:    {"bearing life", "bearing_life", "life of %s", WearsOut, quantity.Force, false, false, 1, noStrength},
	NotchFatigue:   {"shaft, fatigue", "shaft_fatigue", "shaft fatigue at %s", WearsOut, quantity.Stress, false, false, 1, noStrength},
	NotchYield:     {"notch, yield", "notch_yield", "yield at %s", Breaks, quantity.Stress, true, false, 1, YieldStrength},
	JointYield:     {"spline or key, yield", "joint_yield", "yield of %s", Breaks, quantity.Stress, true, false, 1, noStrength},
	DogYield:       {"engagement teeth, yield", "engagement_yield", "yield of the engagement teeth of %s", Breaks, quantity.Stress, true, false, 1, noStrength},
	FitSlip:        {"press fit, slip", "fit_slip", "slip of the press fit of %s", Breaks, quantity.Torque, true, false, 1, noStrength},
	BoltSlip:       {"bolted wheel, slip", "bolt_slip", "slip of %s on its bolts", Breaks, quantity.Force, true, false, 1, noStrength},
	CirclipPush:    {"circlip groove", "circlip_groove", "circlip groove of %s", Breaks, quantity.Force, true, false, 1, noStrength},
	BearingSlope:   {"slope at bearing", "bearing_slope", "slope at %s", Guide, quantity.Slope, false, false, 1, noStrength},
	MeshTilt:       {"mesh misalignment", "mesh_tilt", "misalignment of %s", Guide, quantity.Slope, false, false, 1, noStrength},
	MeshSeparation: {"mesh separation", "mesh_separation", "separation of %s", Guide, quantity.Deflection, false, false, 1, noStrength},
	RootAGMA:       {"tooth root, AGMA", "root_agma", "tooth root of %s, AGMA", WearsOut, quantity.Stress, false, true, 1, noStrength},
	FlankAGMA:      {"flank, AGMA", "flank_agma", "flank of %s, AGMA", WearsOut, quantity.Stress, false, true, 2, noStrength},
	RootLewis:      {"tooth root, Lewis", "root_lewis", "tooth root of %s, Lewis", Breaks, quantity.Stress, false, true, 1, YieldStrength},
	FlankHertz:     {"flank, Hertz", "flank_hertz", "flank of %s, Hertz", WearsOut, quantity.Stress, false, true, 2, noStrength},
}

// Kinds lists every kind of limit in the order shown to people.
func Kinds() []Kind {
	kinds := make([]Kind, len(allKinds))
	for i := range kinds {
		kinds[i] = Kind(i)
	}
	return kinds
}

// String is the name of the limit for people.
func (k Kind) String() string { return allKinds[k].name }

// Key is the name of the limit for machines.
func (k Kind) Key() string { return allKinds[k].key }

// Of names the limit of one part in words: "tooth root fatigue of first pinion".
func (k Kind) Of(item string) string { return fmt.Sprintf(allKinds[k].phrase, item) }

// Class is what a limit of this kind means.
func (k Kind) Class() Class { return allKinds[k].class }

// Reference reports whether a limit of this kind is a second opinion.
func (k Kind) Reference() bool { return allKinds[k].opinion }

// Dimension is that of the demand and of the limit.
func (k Kind) Dimension() quantity.Dimension { return allKinds[k].dimension }

// Static reports whether a limit is reached by a single load, so that the peak decides over it and not what runs: its allowable torque is the one whose peak reaches it.
func (k Kind) Static() bool { return allKinds[k].static }

// strength is the strength that a limit of this kind is found from; ok is false where it is none that service history bounds.
func (k Kind) strength() (s Strength, ok bool) {
	s = allKinds[k].strength
	return s, s != noStrength
}

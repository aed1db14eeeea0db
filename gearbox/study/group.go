package study

import "layshaft/gearbox"

// Group is a group of dimensions of a box that a builder thinks of as one.
type Group int

// The groups, in the order shown to people.
const (
	Span         Group = iota // where the bearings sit: spans and overhangs
	Sections                  // diameters and bores of the shafts, and where along the box they begin, change and end
	Positions                 // where along the box gears, input and output sit
	Faces                     // face widths
	Teeth                     // module, angles, profile shifts, tips, flank shapes, accuracy, centre distances
	Ratios                    // numbers of teeth
	Bodies                    // rims, webs, hubs and bores of gears
	Efficiencies              // efficiency of the meshes
	Seats                     // bearings, and how gears sit on their shafts
	Case                      // stiffness of the housing
	Steel                     // steels of gears and shafts, peening
	Oil                       // what the gears run in
	Sense                     // which way the input shaft turns in drive
	Asked                     // what is asked: torque, shock, speed, clutch, car, duty
	Judging                   // limits of the file, reserve, and which end of the ranges counts
)

// Groups lists the groups in the order shown to people.
func Groups() []Group {
	return []Group{Span, Sections, Positions, Faces, Teeth, Ratios, Bodies, Efficiencies, Seats, Case, Steel, Oil, Sense, Asked, Judging}
}

// String is the name of the group for people.
func (g Group) String() string {
	return [...]string{
		"bearing span", "shaft sections, notches and joints", "gear positions", "face widths", "tooth geometry", "ratios", "gear bodies", "efficiency",
		"bearings and gear seats", "housing", "steel", "oil", "sense of rotation", "what is asked", "how it is judged",
	}[g]
}

// Key is the name of the group for machines.
func (g Group) Key() string {
	return [...]string{
		"bearing_span", "shaft_sections", "gear_positions", "face_widths", "tooth_geometry", "ratios", "gear_bodies", "efficiency",
		"bearings_and_seats", "housing", "steel", "oil", "sense_of_rotation", "asked", "judging",
	}[g]
}

// mask is a set of groups.
type mask uint

func (m mask) has(g Group) bool { return m>>g&1 == 1 }

func maskOf(groups ...Group) (m mask) {
	for _, g := range groups {
		m |= 1 << g
	}
	return m
}

// every is the set of all groups.
var every = maskOf(Groups()...)

// swap mixes two boxes of the same make-up: the groups in its mask are those of the second box, all others those of the
// first.
type swap struct {
	boxes [2]*gearbox.Box
	taken mask
}

// of is the box that a group is taken from.
func (w swap) of(g Group) *gearbox.Box {
	if w.taken.has(g) {
		return w.boxes[1]
	}
	return w.boxes[0]
}

// other is the box that a group isn't taken from.
func (w swap) other(g Group) *gearbox.Box {
	if w.taken.has(g) {
		return w.boxes[0]
	}
	return w.boxes[1]
}

package gearbox

import (
	"time"

	"layshaft/beam/bearing"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/involute"
	"layshaft/material"
)

// Box is one gearbox as it was described, in the inner units: mm, N, N·mm, MPa, rad, kg.
//
// It holds what was given and nothing that was computed. A box read from a file also knows where each value stands in that file
// (Places), so that a check made long after reading still points at the line.
type Box struct {
	Name   string
	About  string
	Origin Origin

	Input  Port    // where the torque enters
	Output Port    // where it leaves
	Torque float64 // input torque of the file, N·mm, > 0 drives
	Shock  float64 // peak of the input torque over the torque itself, ≥ 1, which static strength must bear; 0 = 1
	Revs   float64 // speed of the input shaft, rad/s, for the dynamic factor; 0 = not known
	Oil    Oil
	Clutch *Clutch // between engine and input shaft; nil = not told
	Car    *Car    // what the box drives; nil = not told
	Duty   *Duty   // what the box has to do; nil = not told, so fatigue is judged for endless life
	Turns  int     // sense of the input shaft in drive: +1 right-handed about +x (clockwise looking from its left end along +x), −1 the other way

	Shafts   []Shaft
	Centres  []Centre
	DirectAt DirectAt       // where a direct speed joins input and output shaft
	Side     map[string]int // shaft name → +1 or −1: on which side of the line through its two neighbours it lies; absent = not known
	Gears    []Gear
	Meshes   []Mesh
	Speeds   []Speed
	Steels   []material.Steel // steels the file defines itself
	Housing  Housing          // how the case gives way under the bearings
	Limits   Limits
	Units    quantity.System // in which answers are shown unless the question says otherwise
	Parts    []Part          // what is neither shaft nor gear
	Weighed  Weighed         // what lay on the scales

	Evidence []Evidence // its service history: what it survived, and what broke
	Lessons  []Lesson   // what the history of this box and of others says of its steels, worked out by a study; nil when none was
	Narrowed []Narrowed // the strengths in Steels that rest on it
	Survived []Survived // what guides warn of, at most, at loads after which this box was opened and found sound; likewise

	// What isn't known makes several boxes of one. Alternatives are all that it may be, each of them with what was worked out for it alone, and Tried says what
	// was tried, in sentences; nil: Solve finds them. Whoever changes the box must leave both out.
	Alternatives []*Box
	Tried        []string
	Variant      string                // which of the alternatives of a box this is, in words: "anticlockwise, diff shaft on the negative side"; "" = it isn't one
	Layout       map[string][2]float64 // shaft → y, z of its axis in an alternative, mm; nil = all follows from axes, distances and sides

	// Places maps the path of a value ("gears.first pinion.at") to where it stands; Tolerances maps it to its ± in inner units.
	Places map[string]diag.Place
	// The margins don't count the tolerances; a study of the spread does.
	Tolerances map[string]float64
	// Uncertainty says how that and the bands of steels spread; nil = the file doesn't, and no chance can be told.
	Uncertainty *Uncertainty
	// Unknown holds the paths at which the file says "unknown". The value is then what it would be had it been left out; Places has the path,
	// so that a question can point at the word.
	Unknown map[string]bool
}

// Origin is the file a box was read from, so that a report can say what it is about. It plays no part in the calculation.
type Origin struct {
	File    string    // its name without folders; "" = not read from a file
	Sum     string    // SHA-256 of its content, hexadecimal; "" = not known
	Written time.Time // when it was last written; zero = not known
	Others  []Origin  // the files that it was composed of beside its own, each once
}

// Port is a place on a shaft where torque enters or leaves.
type Port struct {
	Shaft string
	At    float64 // mm from the shaft's left end
}

// Oil is what the gears run in.
type Oil struct {
	Viscosity   float64 // kinematic, ν_40 at 40 °C, mm²/s; 0 = not known
	Temperature float64 // of the sump when running, °C; 0 = not known
	Stage       int     // load stage at which the oil fails the FZG test A/8.3/90, 1 to 14; 0 = not known
}

// Duty is what the box has to live through: Passes times all of Steps.
type Duty struct {
	Passes   float64
	Launches float64 // how often the car is launched in one pass, so that a life can be told in launches; 0 = not told
	Steps    []DutyStep
}

// DutyStep is one stretch of a pass in one speed. It lasts so many turns, or for a time at a speed of the input shaft.
type DutyStep struct {
	Speed string
	Turns float64 // turns of the input shaft; 0 = by Time
	Share float64 // torque over the asked one; negative = coast
	Time  float64 // s; counts where Turns is 0
	Revs  float64 // speed of the input shaft in this step, rad/s; 0 = Box.Revs
}

// Housing is how stiff the case is under each bearing, in series with the bearing, and the same everywhere: given, or found by a bench test.
type Housing struct {
	Radial float64 // N/mm; 0 = rigid
	Test   *HousingTest
}

// HousingTest is a case that was loaded on the bench: output locked, a torque on the input, the movement of the case at one bearing read off a dial.
type HousingTest struct {
	Speed          string
	Torque         float64 // N·mm
	Shaft, Bearing string
	Movement       float64 // mm
}

// Shaft is one shaft: sections laid end to end from its left end, and the bearings that carry it.
type Shaft struct {
	Name     string
	Start    float64     // x of its left end in the box, mm
	Axis     *[2]float64 // y, z of its axis, mm; nil when the place follows from centre distances
	Steel    string      // name of its steel; "" = the default
	Sections []Section
	Bearings []Bearing
	Pair     *BearingPair // of its two tapered bearings; nil = no preload or end play is told
}

// BearingPair is how two tapered bearings with given rollers are set against each other: the first and the last of the shaft's bearings.
type BearingPair struct {
	Arrangement bearing.Arrangement
	EndPlay     float64 // axial, mm; negative = preload by so much
}

// Section is a piece of shaft of one outer diameter and one bore.
type Section struct {
	Length, Outer, Bore float64 // mm
}

// Bearing carries a shaft at one place, as a rigid support or a spring.
type Bearing struct {
	Name   string
	Type   BearingType
	At     float64 // effective centre, mm from the shaft's left end (of a tapered bearing: its pressure centre)
	Radial float64 // N/mm; +Inf = rigid
	Tilt   float64 // N·mm/rad; 0 = free to tilt
	Axial  float64 // N/mm; 0 = lets the shaft slide, +Inf = locates it
	// In names the shaft that carries this bearing when it sits in another shaft (a pilot) and not in the case; InAt is where, mm from that shaft's left end.
	In      string
	InAt    float64
	Housing float64 // stiffness of the case under this bearing, N/mm; 0 = by Box.Housing
	// Elements are its balls or rollers, from which its stiffness follows, growing with load; nil = Radial, Tilt and Axial hold.
	Elements *bearing.Elements
	Rating   *bearing.Rating // load ratings of the catalogue; nil = not known
	// SlopeLimit is the file's own limit of the slope here, rad; 0 = by the bearing's type.
	SlopeLimit float64
}

// BearingType says how much slope a bearing bears.
type BearingType string

// The bearing types, as box files name them.
const (
	TaperedRoller     BearingType = "tapered roller"
	CylindricalRoller BearingType = "cylindrical roller"
	NeedleRoller      BearingType = "needle roller"
	DeepGrooveBall    BearingType = "deep groove ball"
	SelfAligning      BearingType = "self-aligning"
	Plain             BearingType = "plain"
)

// BearingTypes lists the types in the order shown to people.
func BearingTypes() []BearingType {
	return []BearingType{DeepGrooveBall, CylindricalRoller, NeedleRoller, TaperedRoller, SelfAligning, Plain}
}

// Centre is a measured distance between two shaft axes.
type Centre struct {
	Between  [2]string
	Distance float64 // mm
}

// Gear is one gear on one shaft. A gear may take part in several meshes (an idler does).
type Gear struct {
	Name        string
	Shaft       string
	At          float64  // middle of the face, mm from the shaft's left end
	Teeth       int      //
	Face        float64  // face width, mm
	Shift       *float64 // profile shift coefficient x; nil = not known
	TipDiameter float64  // mm; 0 = not measured
	Steel       string   // "" = the default

	Crowning  float64    // lead crowning at both ends of the face, mm
	LeadError float64    // by how much its flank stands back at the right end against the left, mm
	LeadKnown bool       // that was measured, even if it is 0; else its flanks are out of line as its accuracy grade lets them
	Relief    [2]Relief  // end relief at the left and right end
	TipRelief float64    // taken off the profile towards the tip (C_a), mm
	Seat      *Seat      // nil = fast on its shaft
	EngagesAt *float64   // where it hands its torque to its shaft, mm from the shaft's left end; nil = the usual place of a free gear
	Grade     int        // accuracy grade of ISO 1328-1; 0 = not known
	Roughness [2]float64 // Rz of flank and fillet, mm; 0 = not known
	Peened    bool       // shot-peened roots
	Rim       float64    // thickness of the rim under the teeth, mm; 0 = solid
	Web       float64    // thickness of the web that carries the rim, mm; 0 = as wide as the face
	Thinning  float64    // normal thickness taken off each tooth for backlash, mm
	Bore      float64    // diameter of the hole in it, mm; 0 = the shaft fills it
	Hub       *Hub       // nil = none beyond face and web
}

// Hub is the thick ring of a gear around its bore.
type Hub struct {
	Length, Outer float64 // mm; the length is all of it, face included
}

// Part is a piece of the box that is neither shaft nor gear: case, synchronisers, clutch disc.
type Part struct {
	Name      string
	Mass      float64 // kg; 0 = not known
	Inertia   float64 // kg·mm², about its axis; 0 = not known
	TurnsWith string  // the shaft that it is fast on; "" = it stands still, or how it turns isn't known
}

// Weighed is what was put on the scales.
type Weighed struct {
	Box    float64 // all of the box, kg; 0 = not weighed
	Pieces []Weighing
}

// Weighing is one reading of the scales: what lay on them together.
type Weighing struct {
	Shaft string   // with the gears that are cut into it; "" = none
	Gears []string // others that lay with it, or alone
	Mass  float64  // kg
}

// Relief is material taken off towards one end of the face.
type Relief struct {
	Length, Amount float64 // mm
}

// Seat is the bearing on which a gear turns freely on its shaft until it is engaged. Under load the gear leans in its clearance.
type Seat struct {
	Length    float64 // mm
	Clearance float64 // across the diameter, mm
	Offset    float64 // middle of the seat from the middle of the gear, mm towards +x
	Stiffness float64 // of each end of the seat, N/mm; 0 = rigid
	// ThrustFace is the radius at which the face that takes its axial force carries when the gear is about to lean, mm; 0 = not given, taken as usual.
	ThrustFace float64
}

// Mesh is two gears in contact. Driver and driven are as power flows in drive.
type Mesh struct {
	Name           string
	Driver, Driven string  // names of gears
	Module         float64 // normal module, mm
	Helix          float64 // helix angle at the reference cylinder, rad, ≥ 0
	Hand           Hand    // hand of the driver's helix
	Rack           involute.Rack
	Efficiency     float64 // power out / power in, 0 < η ≤ 1
	Stiffness      float64 // mesh stiffness for the load along the face c_γβ, N/mm per mm of face in the transverse plane; 0 = by ISO 6336-1
	TiltLimit      float64 // the file's own limit of the tilt, rad; 0 = by Limits
	Skew           float64 // how far the bores of the case hold the flanks apart at the right end of the common face against the left, mm over the face; not a key: it asks what parallel bores are worth
	PatternChecked bool    // the contact pattern was looked at and the parts chosen by it
}

// Hand is the hand of a helix.
type Hand string

// The hands; a spur gear has none.
const (
	Spur  Hand = ""
	Right Hand = "right"
	Left  Hand = "left"
)

// Opposite is the hand of what meshes with a gear of this hand on a parallel axis.
func (h Hand) Opposite() Hand {
	switch h {
	case Right:
		return Left
	case Left:
		return Right
	}
	return Spur
}

// Speed is one selectable ratio.
type Speed struct {
	Name   string
	Path   []string // meshes it loads, in the order of power flow; empty for a direct speed
	Direct bool     // input shaft locked to the output shaft
}

// Limits is what a box file chooses about the limits. A zero number means "by the table named in the result".
type Limits struct {
	Strength   material.Level // which end of a steel band, and of a range of limits, the states are judged by
	Reserve    float64        // wanted torque margin: at least this is clear, less is thin (0.15 = 15 %)
	Tilt       TiltRule       // where the mesh tilt limit comes from; "" = by the teeth of each mesh
	MeshTilt   float64        // rad
	Separation float64        // mm
	Slope      float64        // rad, all bearings
	Pitting    bool           // a little pitting may be borne
}

// TiltRule names a published or customary limit of the mesh tilt.
type TiltRule string

// The rules that disagree; the box file chooses.
const (
	TextbookSpur    TiltRule = "textbook spur"    // 0.0005 rad
	VehiclePractice TiltRule = "vehicle practice" // 0.002 rad
)

// TiltRules lists the rules in the order shown to people.
func TiltRules() []TiltRule { return []TiltRule{TextbookSpur, VehiclePractice} }

// Place is where the value of the given path stands in its file; the zero Place when the box was not read from a file.
// When the value itself was left out, it is the place of the nearest thing around it that was written.
func (b *Box) Place(path string) diag.Place {
	for path != "" {
		if p, ok := b.Places[path]; ok {
			return p
		}
		path = parent(path)
	}
	return b.Places[""]
}

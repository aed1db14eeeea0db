package gearbox

import (
	"math"
	"slices"

	"layshaft/beam"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/agma2001"
	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/gearstress/scuffing"
	"layshaft/material"
)

// Load is what is asked of a box.
type Load struct {
	Torque float64  // at the input shaft, N·mm; 0 = the box's own, negative = coast (the engine brakes)
	Speeds []string // names of the speeds wanted; nil = all, an empty list = none
	Method Method
	Second []Opinion // second opinions wanted beside ISO 6336
	// Brief leaves out what only people look at: of all limits only the first is found (SpeedResult.First, and Allowable at the judged level alone), and causes of tilt, growth of the
	// pattern, static ratings, second opinions and the screen for scuffing are missing. It is what studies over many boxes ask for.
	Brief bool
	// Least asks, in brief, for the first limit of the box alone: a speed that reaches none below the first limits of the speeds before it is left without one.
	Least bool
	// Kinds are the limits that decide, whatever their class; nil = what breaks, what wears out under a duty, and guides that the file itself sets.
	Kinds []Kind
	// Wanted are limits whose torques are asked for by name, also in brief: see SpeedResult.Asked.
	Wanted []Wanted
	// Loose lets solids stand in one another: a box that is mixed from two, or drawn at random, need not be one that could be built.
	Loose bool
	// Work, if it isn't nil, is added what the solution takes. Several solutions may share it.
	Work *Work
	// Memory serves boxes that are solved one after the other and have the mechanics of speeds in common; nil = each for itself.
	Memory *Memory
}

// Wanted names a limit of one part in one speed.
type Wanted struct {
	Speed string
	Kind  Kind
	Item  string
}

// Opinion is a way to rate teeth that stands beside ISO 6336.
type Opinion string

// The opinions.
const (
	AGMA  Opinion = "agma"  // ANSI/AGMA 2001-D04 with geometry factors by AGMA 908-B89
	Lewis Opinion = "lewis" // Lewis at the root, Hertz at the pitch point
)

// Method switches parts of the shaft model off, to meet printed tables and other computations that lack them. The zero value is the full model.
type Method struct {
	NoShear    bool // leave shear deformation out
	NoShoulder bool // leave the softness of sharp shoulders out
	NoTwist    bool // leave the wind-up of shafts across a face out of the load along it
}

// Result is one box at one input torque.
type Result struct {
	Box       *Box
	Torque    float64 // N·mm, as asked; negative in coast
	Speeds    []SpeedResult
	Case      float64     // stiffness of the case under each bearing without its own, given or found by the bench test, N/mm; 0 = rigid
	Lives     []GearLife  // how long each gear lasts the duty, in the order of the box; nil without one
	Kinds     []Kind      // that alone decide, as asked by Load.Kinds; nil = the usual ones
	NotJudged []NotJudged // what it may fail by beside the limits
	Weights   *Weights    // what it weighs and how hard it is to spin
	Checks    []string    // what was guessed or is hard to believe about the whole box: to be looked at before the numbers are trusted
	Notes     []string    // assumptions about the whole box
	Warnings  diag.List   // what is hard to believe in the description, with its place; told in Checks too
}

// SpeedResult is everything one speed's loaded parts see.
type SpeedResult struct {
	Name         string
	Ratio        float64 // turns of the input shaft per turn of the output shaft; negative when they turn opposite ways
	Efficiency   float64 // power out / power in
	OutputTorque float64 // torque about +x that the box gives to whatever hangs on the output shaft, N·mm
	Meshes       []MeshResult
	Shafts       []ShaftResult
	First        FirstLimit // the limit that is reached first, at the end of the bands that the box is judged by
	// Ends is the limit that is reached first when every strength that is a range is at one end, by level. Solved in brief, the torques of levels that the box isn't judged by are NaN.
	Ends [material.High + 1]FirstLimit
	// Margins are the limits that decide, the one that is reached first in front; nil when solved in brief. What breaks does; what wears out does under a duty; a guide does
	// where the file itself sets it.
	Margins    []Margin
	Guides     []Margin     // rules of thumb, which warn, in the same order
	Endless    []Margin     // what wears out, for endless life, where no duty is given
	Beside     []Margin     // what breaks, or wears out under a duty, where other limits were chosen to decide
	References []Margin     // second opinions
	Asked      []FirstLimit // of Load.Wanted in this speed, in its order; +Inf where such a limit isn't judged
	Reach      *Reach       // what clutch and tyres let through to the teeth; nil when neither is told
	Tried      *Tried       // what came of all that the box may be; nil when all of it is known
	Checks     []string     // what was guessed about this speed
	Notes      []string     // assumptions about this speed
	tightest   *Margin      // of all the boxes that one may be, the limit with the least left; nil where it is one box
}

// Allowable is the input torque at which the first limit is reached when every strength that is a range is at one end, N·mm > 0; +Inf = none is.
func (s *SpeedResult) Allowable(l material.Level) float64 { return s.Ends[l].Torque }

// Allowable is the least of it over all speeds, N·mm; +Inf = none is reached in any speed.
func (r *Result) Allowable(l material.Level) float64 {
	least := math.Inf(1)
	for i := range r.Speeds {
		least = min(least, r.Speeds[i].Allowable(l))
	}
	return least
}

// All are all limits that were judged, whether they decide or not, second opinions aside.
func (s *SpeedResult) All() []Margin { return slices.Concat(s.Margins, s.Guides, s.Endless, s.Beside) }

// meshesOf is in how many meshes of the speed a gear runs.
func (s *SpeedResult) meshesOf(gear string) (n int) {
	for i := range s.Meshes {
		if slices.Contains(s.Meshes[i].Gears[:], gear) {
			n++
		}
	}
	return n
}

// Deciding is the limit with the least left against what really reaches it, where that is known, else the one that is reached first; nil when none decides. It needs a full solution.
func (s *SpeedResult) Deciding() *Margin {
	switch {
	case s.tightest != nil:
		return s.tightest
	case len(s.Margins) == 0:
		return nil
	case s.Reach != nil && s.Reach.First >= 0 && s.Reach.First < len(s.Margins):
		return &s.Margins[s.Reach.First]
	}
	return &s.Margins[0]
}

// Governing is the limit that is reached first. It needs a full solution.
func (s *SpeedResult) Governing() *Margin { return &s.Margins[0] }

// Flank tells which flank of the teeth carries.
type Flank string

// The flanks.
const (
	DriveFlank Flank = "drive"
	CoastFlank Flank = "coast"
)

// MeshResult is one loaded mesh. Index 0 is the driver in drive, 1 the driven gear.
type MeshResult struct {
	Name       string
	Gears      [2]string
	Shafts     [2]string
	At         [2]float64 // middle of the common face on each shaft, mm from that shaft's left end
	Geometry   *involute.Pair
	Face       float64    // common face width, mm
	Flank      Flank      //
	Torque     [2]float64 // torque about +x of each shaft on its gear, N·mm
	Tangential float64    // F_t at the working pitch circle, N, ≥ 0
	Radial     float64    // F_r pushing the gears apart, N, ≥ 0
	Axial      float64    // F_a on the driver along +x, N; the driven gear takes the opposite

	Separation   float64 // how far the two axes move apart at the mesh along their centre line, mm; > 0 opens
	Taken        float64 // backlash that axes which close take at the working pitch circle, in the transverse section, mm, ≥ 0
	Tilt         float64 // angle between the two shafts at the mesh, rad, ≥ 0; the lean of gears in their own seats is not in it
	TiltInAction float64 // by how much the two gears lean in the plane of action, which crowds the load, rad; > 0 crowds the right end (+x); with the lean in their seats
	FaceGap      float64 // gap that this part would open over the common face, mm, ≥ 0
	Causes       []Cause // what TiltInAction comes from; they add up to it

	// How the load lies along the face.
	Stations   []float64 // mm from the middle of the common face, towards +x, from end to end
	LineLoad   []float64 // N per mm of face along the line of action, at the stations
	FaceFactor float64   // face load factor K_Hβ: largest over mean line load, of flanks true to their shafts and as the file shapes them
	Counted    float64   // K_Hβ that the stresses of a rated mesh take: at all but the best end of the bands that of flanks out of line to the worse side
	Deviation  float64   // how far they may be out of line from their making, to either side, mm over the face
	InContact  float64   // share of the face that carries, 0 to 1
	Stiffness  float64   // mesh stiffness along the face c_γβ, N/mm per mm of face
	FactorC    float64   // K_Hβ by the closed form of ISO 6336-1 method C from TiltInAction, for comparison
	Growth     []Spot    // how the pattern moves as the torque grows

	Root     [2]float64       // Lewis stress by the published table, MPa; NaN when no table covers the tooth
	RootReal [2]float64       // Lewis stress from the parabola in the real tooth, MPa; NaN when it can't be drawn
	Contact  float64          // Hertz stress at the pitch point, load even along the face, MPa
	Rating   *iso6336.Rating  // by ISO 6336 at the asked torque, with K_Hβ from above; nil when the steel has no ISO limits
	Peak     *iso6336.Rating  // static, at the peak torque
	AGMA     *agma2001.Rating // nil unless asked for
	Scuffing *scuffing.Result // a screen only; nil unless the speed of the input shaft and the oil are told
	Derived  []string         // what wasn't given and follows from the rest
	Checks   []string         // what is odd, was guessed, or lies outside of a standard's range, each a sentence that doesn't name the mesh
	Notes    []string         // assumptions, likewise
}

// CrowdedEnd is the end of the face that carries more: "left", "right" or "neither".
func (m *MeshResult) CrowdedEnd() string {
	if len(m.LineLoad) == 0 {
		return "neither"
	}
	left, right := m.LineLoad[0], m.LineLoad[len(m.LineLoad)-1]
	switch {
	case right > left*(1+1e-9):
		return "right"
	case left > right*(1+1e-9):
		return "left"
	}
	return "neither"
}

// Spot is how the load lies along a face at one torque.
type Spot struct {
	Torque     float64 // at the input shaft, N·mm, > 0
	FaceFactor float64 // K_Hβ
	InContact  float64 // share of the face that carries, 0 to 1
	Middle     float64 // where the load acts, mm from the middle of the common face, towards +x
}

// Cause is one thing that tilts a mesh.
type Cause struct {
	Name string  // "input shaft bends", "bearings of the output shaft", "case", "first wheel in its seat"
	Tilt float64 // in the plane of action, rad, sign as MeshResult.TiltInAction
}

// ShaftResult is one shaft that carries load in this speed.
type ShaftResult struct {
	Name          string
	Start         float64 // x of its left end in the box, mm
	Length        float64 // mm
	Sections      []SectionResult
	Bearings      []BearingResult
	Gears         []GearSeat // gears loaded in this speed
	MaxDeflection float64    // largest resultant deflection between the ends, mm
	MaxAt         float64    // where, mm from the left end
	Span          float64    // distance between the outermost bearings, mm
	Solution      *beam.Solution
	Notes         []string
}

// SectionResult is one section of a shaft with its largest nominal stress.
type SectionResult struct {
	Number      int     // from 1
	From, To    float64 // mm from the shaft's left end
	Outer, Bore float64 // mm
	Stress      beam.Stress
}

// BearingResult is what one bearing sees.
type BearingResult struct {
	Name       string
	Type       BearingType
	At         float64    // mm from the shaft's left end
	Force      [3]float64 // force of the bearing on the shaft, x, y, z, N
	Radial     float64    // resultant of y and z, N
	Slope      float64    // of the shaft in the bearing, rad, ≥ 0 (in a pilot: relative to the carrying shaft)
	Deflection float64    // of the shaft in the bearing, mm, ≥ 0
}

// GearSeat is a loaded gear where it sits on its shaft.
type GearSeat struct {
	Name     string
	Mesh     string
	From, To float64 // its face, mm from the shaft's left end
	Diameter float64 // working pitch diameter, mm
	// Of the shaft in the middle of the face, not of the gear in its seat.
	Deflection float64 // mm, ≥ 0
	Slope      float64 // rad, ≥ 0
}

// State is a margin in a word.
type State int

// The states of a margin, the worst first.
const (
	Over  State = iota // the limit is exceeded
	Thin               // inside the limit by less than the wanted reserve
	Clear              // at least the wanted reserve
)

// String is the word for people; Sign the mark that stands beside it.
func (s State) String() string { return [...]string{"over", "thin", "clear"}[s] }

// Sign is a mark that needs no colour to be told apart.
func (s State) Sign() string { return [...]string{"✗", "!", "✓"}[s] }

// Margin is one limit of one part in one speed.
type Margin struct {
	Kind      Kind
	Gear      string                     // the gear whose teeth they are; "" of other parts
	Mesh      string                     // in which they are loaded, where the gear runs in more than one mesh of the speed, as an idler does; "" of all others
	Flank     Flank                      // that is worn by the duty, seen from the car that goes forwards; "" where either is meant
	Item      string                     // what runs out: "first pinion", "output shaft, section 3"
	Demand    float64                    // at the asked torque, in the inner unit of Kind.Dimension: MPa, rad or mm
	Limit     material.Band              // where it ends, same unit, with its source
	Level     material.Level             // which end of the band it is judged by
	Allowable [material.High + 1]float64 // input torque at which the limit is just reached, N·mm > 0, by level; +Inf = not reached
	Margin    float64                    // Allowable[Level] ÷ asked torque − 1
	State     State
	Own       bool       // the file itself sets this limit
	Bad       [2]float64 // where the limit is met, left and met again: over between these input torques, N·mm; zero where it isn't left again
	Step      string     // of what a duty wears: the speed whose step uses most of it
	// What really reaches it; all zero where SpeedResult.Reach is nil.
	Comes        float64 // input torque that comes to it in this speed, N·mm > 0: the peak for static limits, what runs for the others
	Reached      float64 // torque margin against that: the torque at which the limit is reached ÷ Comes − 1; of what a duty wears, by how much all that comes in its steps may grow
	ReachedState State   // by the same wanted reserve as State
	Life         float64 // how many passes of the duty it lasts at the asked torque; 0 = not counted in passes, +Inf = without end
	LifeReached  float64 // as Life, at what really reaches the teeth; 0 where SpeedResult.Reach is nil
	Turns        float64 // how many turns of the input shaft in this speed it lasts at the asked torque, where no duty is given; 0 = not counted in turns, or none; +Inf = without end
	Notes        []string
}

// Left is the torque margin by which the limit is judged: against what really reaches it, where that is known, else against the asked torque.
func (m *Margin) Left() float64 {
	if m.Comes > 0 {
		return m.Reached
	}
	return m.Margin
}

// Judged is the state that goes with Left.
func (m *Margin) Judged() State {
	if m.Comes > 0 {
		return m.ReachedState
	}
	return m.State
}

// Class is what the limit means.
func (m *Margin) Class() Class { return m.Kind.Class() }

// Phrase names the limit and its part in words: "flank fatigue of final pinion, most of it in 1st".
func (m *Margin) Phrase() string {
	return m.First().Phrase()
}

// First names the limit, with the input torque at which it is reached.
func (m *Margin) First() FirstLimit { return m.at(m.Allowable[m.Level]) }

func (m *Margin) at(torque float64) FirstLimit {
	return FirstLimit{Kind: m.Kind, Item: m.Item, Step: m.Step, Mesh: m.Mesh, Own: m.Own, Torque: torque}
}

// MarginAt is the torque margin at another input torque (N·mm, > 0).
func (m *Margin) MarginAt(torque float64) float64 { return m.Allowable[m.Level]/torque - 1 }

package gauge

import (
	"fmt"
	"math"
)

// Kind is what a reading is of.
type Kind int

// The kinds of reading. Tip, root, spans and balls are of one gear; centre distances and backlash of pairs.
const (
	Tip       Kind = iota // diameter over the tips, mm, as the caliper shows it: see Gear.Across
	Root                  // diameter in the roots, mm
	TipToRoot             // from a tip to the root opposite, as an odd count lets it be read: (d_a + d_f)/2, mm
	Depth                 // depth of the teeth, mm
	Span                  // base tangent length over Reading.Teeth teeth, mm
	OverBalls             // size over two balls of Reading.Size, or pins on a spur gear, mm
	Chord                 // thickness of a tooth Reading.Size below its tip, mm
	TipHelix              // helix angle at the tips, as an ink roll shows it, rad
	Lead                  // advance of a tooth in one turn, mm
	Distance              // of two shaft axes, mm
	Backlash              // along the pitch circle, mm
)

// String is the kind in words.
func (k Kind) String() string {
	return [...]string{"tip diameter", "root diameter", "tip to root opposite", "tooth depth", "span", "over balls",
		"chord", "helix at the tips", "lead", "centre distance", "backlash"}[k]
}

// Angle reports whether a reading of the kind is an angle.
func (k Kind) Angle() bool { return k == TipHelix }

// Instrument is what a reading was taken with.
type Instrument string

// The instruments.
const (
	Caliper    Instrument = "caliper"
	Micrometer Instrument = "micrometer"
	DepthGauge Instrument = "depth gauge"
	Rule       Instrument = "rule"
	Plugs      Instrument = "plugs"    // plugs or mandrels in the bores, a micrometer over them
	Dial       Instrument = "dial"     // dial gauge
	InkRoll    Instrument = "ink roll" // teeth rolled on paper
	LeadTest   Instrument = "lead test"
)

const degree = math.Pi / 180

// usual is how far 95 of 100 readings of each instrument keep from the truth, mm, of an ink roll rad, of a lead test
// a share. Common practice, no source.
var usual = map[Instrument]float64{
	Caliper: 0.03, Micrometer: 0.01, DepthGauge: 0.05, Rule: 0.5, Plugs: 0.02, Dial: 0.02, InkRoll: 1 * degree, LeadTest: 0.01,
}

// Instruments lists the instruments that may take a reading of a kind, the usual one first.
func (k Kind) Instruments() []Instrument {
	switch k {
	case Span, OverBalls:
		return []Instrument{Micrometer, Caliper}
	case TipHelix:
		return []Instrument{InkRoll}
	case Lead:
		return []Instrument{LeadTest}
	case Depth:
		return []Instrument{DepthGauge, Caliper}
	case Distance:
		return []Instrument{Caliper, Plugs, Micrometer, Rule}
	case Backlash:
		return []Instrument{Dial}
	default:
		return []Instrument{Caliper, Micrometer, Rule}
	}
}

// Tolerance is the usual ± of an instrument for a reading of a value, mm or rad.
func (i Instrument) Tolerance(value float64) float64 {
	if i == LeadTest {
		return usual[i] * math.Abs(value)
	}
	return usual[i]
}

// Reading is one reading. 95 of 100 of its like keep within ± Tolerance.
type Reading struct {
	Kind      Kind
	Value     float64 // mm or rad
	Tolerance float64 // mm or rad; 0 = that of By
	By        Instrument
	Teeth     int     // of a span
	Size      float64 // of the balls, or the height at which a chord was read, mm
	Aside     string  // why Solve leaves it out; "" = it counts
}

// Width is the ± that counts: its own, or that of its instrument, mm or rad.
func (r Reading) Width() float64 {
	if r.Tolerance > 0 {
		return r.Tolerance
	}
	by := r.By
	if by == "" {
		by = r.Kind.Instruments()[0]
	}
	return by.Tolerance(r.Value)
}

// Name is what the reading is of: "span over 4 teeth".
func (r Reading) Name() string {
	switch r.Kind {
	case Span:
		return fmt.Sprintf("span over %d teeth", r.Teeth)
	case OverBalls:
		return fmt.Sprintf("over %.5g mm balls", r.Size)
	case Chord:
		return fmt.Sprintf("chord %.5g mm below the tip", r.Size)
	default:
		return r.Kind.String()
	}
}

// Across is how the tip diameter of an odd count was read.
type Across int

// The ways to read it. With an even count they are the same.
const (
	TwoTips  Across = iota // between the corners of two tips
	FlatJaws               // long flat jaws: one on two tips, the other on one
	Round                  // something that gives the diameter itself: a ring, a lathe, or across a helical face so wide that tips meet opposite
)

// Gear is one gear as it was read.
type Gear struct {
	Name     string
	Teeth    int
	Spur     bool    // its helix is 0; otherwise it is to be found
	Face     float64 // face width, mm; 0 = not known
	Across   Across
	Readings []Reading
}

// Pair is two gears that mesh.
type Pair struct {
	Name     string
	Gears    [2]int // driver, driven: places in Set.Gears
	Centre   int    // place in Set.Centres; -1 = none
	Backlash Reading
}

// Centre is a distance between two shafts, shared by all pairs on them.
type Centre struct {
	Name    string
	Reading Reading
}

// Set is what lay on the bench: one gear, or all of a box.
type Set struct {
	Gears   []Gear
	Pairs   []Pair
	Centres []Centre
}

// Value is a result with its ±, within which the truth lies in 95 of 100 cases, both in mm, rad or – as the field says
// that holds it.
type Value struct{ Value, Tolerance float64 }

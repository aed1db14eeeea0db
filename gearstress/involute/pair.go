package involute

import "math"

// Spec is what is known of a pair before anything is worked out.
type Spec struct {
	Module         float64    // normal module m_n, mm
	Helix          float64    // helix angle β at the reference cylinder, rad, ≥ 0; the hand is the caller's affair
	Rack           Rack       // basic rack of both gears
	Teeth          [2]int     // z, –; [0] driver, [1] driven
	Shift          [2]float64 // profile shift x, in modules; read only where ShiftKnown says so
	ShiftKnown     [2]bool    // whether Shift is known
	TipDiameter    [2]float64 // d_a, mm; 0 = not measured
	Thinning       [2]float64 // thickness taken off each tooth for backlash, in the normal section at the reference cylinder, mm, ≥ 0; the shifts are those of the full tooth
	CentreDistance float64    // a, mm; 0 = from the shifts
	Face           float64    // common face width b, the overlap of the two gears, mm
}

// Pair is a pair with everything worked out. The embedded Spec is kept as given;
// the resolved values stand in the fields below.
type Pair struct {
	Spec
	TransversePressureAngle float64    // α_t, rad
	WorkingPressureAngle    float64    // α_wt, rad
	BaseHelix               float64    // β_b, rad
	WorkingHelix            float64    // β_w at the working cylinder, rad
	Reference               [2]float64 // reference diameters d, mm
	Base                    [2]float64 // base diameters d_b, mm
	Working                 [2]float64 // working pitch diameters d_w, mm
	Tip                     [2]float64 // tip diameters d_a, mm
	Root                    [2]float64 // root diameters d_f, mm
	Form                    [2]float64 // root form diameters d_Ff, where the fillet ends and the involute begins, mm
	Start                   [2]float64 // diameters d_Nf where contact begins near the root, mm
	Rub                     [2]float64 // how far the tip of the other gear reaches below where the involute of this one begins, mm along the line of action; 0 = not at all, or into a fillet that is undercut and so out of its way
	Clearance               [2]float64 // from the tip of this gear to the root of the other, mm
	TipThickness            [2]float64 // normal tooth thickness at the tip s_an, mm
	X                       [2]float64 // profile shifts x as resolved, in modules
	Centre                  float64    // working centre distance a, mm
	ReferenceCentre         float64    // reference centre distance a_0 = (z1 + z2) m_n / (2 cos β), mm
	TransverseContactRatio  float64    // ε_α, –
	OverlapRatio            float64    // ε_β, –
	Backlash                float64    // normal backlash j_bn from thinning, and from the given shifts and centre distance, mm; the latter part is 0 when one was derived from the other
	VirtualTeeth            [2]float64 // z/cos³β, the tooth number for the Lewis tables, –
	Derived                 []string   // what wasn't given and follows from the rest, each with its number
	Notes                   []string   // guesses and warnings to be looked at, each with the number that shows it
	undercut                [2]bool
}

// Limits at which a note is written. Common practice, no source, unless said
// otherwise.
const (
	smallClearance = 0.1 // modules; ISO 53 profile A has 0.25, old 14.5° racks 0.157
	thinTip        = 0.4 // modules; customary least width of a case-hardened tip, 0.2 for others
	lowContact     = 1.1 // transverse contact ratio
	largeShift     = 1.0 // modules; more is rare in gearboxes and mostly a slip of measurement

	// A backlash below zero by no more than this many modules is taken for the
	// rounding of the numbers given: 0.01 mm of centre distance is 0.007 mm of
	// backlash, 0.001 of shift is 0.0007 modules.
	backlashRounding = 0.005
)

// What is taken for a slip of the pen, or of the unit, when it lies outside.
const (
	leastTeeth, mostTeeth   = 5, 10000
	leastModule, mostModule = 0.05, 100.0 // mm
	mostFace                = 10000.0     // mm
	mostHelix               = 60.0        // degrees
)

// mostThinning is up to how many modules of thinning the tooth form stays that of the full
// tooth. Source: ISO 6336-3:2006, clause 6 (form factor), from memory.
const mostThinning = 0.05

// GeneratingShift is the profile shift of gear i (0 driver, 1 driven) with which a
// full cutter leaves the tooth as thin as it is, in modules:
//
//	x_E = x − Δs_n/(2 m_n tan α_n)
//
// It is the one that the bench measures find. Source: ISO 21771:2007, generating
// profile shift.
func (p *Pair) GeneratingShift(i int) float64 {
	return p.X[i] - p.Thinning[i]/(2*p.Module*math.Tan(p.Rack.PressureAngle))
}

// CutShift is the profile shift with which root, outline and root stress of gear i are
// worked out, in modules: x up to a thinning of 0.05 modules, and x_E above it,
// since the cutter then went deeper by a length that counts. Source: ISO 6336-3:2006, clause 6,
// from memory.
func (p *Pair) CutShift(i int) float64 {
	if p.Thinning[i] > mostThinning*p.Module {
		return p.GeneratingShift(i)
	}
	return p.X[i]
}

var sides = [2]string{"driver", "driven gear"}

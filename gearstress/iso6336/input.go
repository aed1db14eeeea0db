package iso6336

import (
	"errors"
	"fmt"
	"math"
)

// Gear is what the rating needs to know of one gear beyond its geometry.
type Gear struct {
	Strength       Strength
	FlankRoughness float64 // R_z of the flank, mm (a ground flank: about 0.003)
	RootRoughness  float64 // R_z of the fillet, mm (about 0.01 to 0.02)
	Grade          int     // accuracy grade of ISO 1328-1:2013, 1 to 11; 0 = not known, then Input.Deviation is needed
	Body           Body
	Reversal       Reversal
	Contacts       int // meshes in which the same flank is loaded in one turn; 0 = 1
}

// Input is one load on the pair and everything that goes with it.
type Input struct {
	Torque float64 // nominal, on the driver, N·mm, > 0
	Speed  float64 // of the driver, rad/s, ≥ 0; 0 = not known or standing: K_v = 1, and Z_V and Z_W of the standard's test gears (10 m/s)
	Turns  float64 // turns of the driver under this load, –; 0 = the static values of the strength

	KA        float64 // K_A, application factor, –, > 0; 1 where Torque already is the whole load
	KGamma    float64 // K_γ, share of divided power paths, –; 0 = one path, 1
	KHb       float64 // K_Hβ, face load factor, –, ≥ 1
	KHbOrigin string  // where K_Hβ comes from, for the reader
	KV        float64 // K_v, –; 0 = by method B
	KHa       float64 // K_Hα, –; 0 = by method B
	KFa       float64 // K_Fα, –; 0 = by method B

	Gear      [2]Gear
	Viscosity float64    // ν_40 of the oil at 40 °C, mm²/s, > 0
	Deviation *Deviation // effective deviations of the pair; nil = from the accuracy grades
	TipRelief float64    // C_a, mm, counted in K_v for grades finer than 6
	Relief    Relief     // flank correction, read by the 2019 edition for helical gears

	LimitedPitting bool    // whether a little pitting may be borne (Z_NT)
	LongLife       float64 // Y_NT and Z_NT at 10^10 cycles, –; 0 = 0.85
	MinFlank       float64 // S_Hmin, –; 0 = 1
	MinRoot        float64 // S_Fmin, –; 0 = 1
}

// faults gathers what is missing or cannot be. Words are made only where something is wrong: a rating is asked for many thousand times.
type faults struct {
	where string // named before every fault, "" = nothing
	errs  []error
}

// check takes a fault of one value; format has the place of it.
func (f *faults) check(good bool, format string, value float64) {
	if !good {
		f.add(format, value)
	}
}

// count is the same of a whole number.
func (f *faults) count(good bool, format string, value int) {
	if !good {
		f.add(format, value)
	}
}

func (f *faults) add(format string, args ...any) {
	if f.where != "" {
		format = f.where + ": " + format
	}
	f.errs = append(f.errs, fmt.Errorf(format, args...))
}

// validate reports everything that is missing or cannot be, all at once.
func (in *Input) validate() error {
	var f faults
	f.check(positive(in.Torque), "torque on the driver is %v N·mm; expected more than 0 (for the other flank give its size without a sign)", in.Torque)
	f.check(atLeast(0, in.Speed), "speed of the driver is %v rad/s; expected 0 or more", in.Speed)
	f.check(atLeast(0, in.Turns), "turns of the driver are %v; expected 0 (static) or more", in.Turns)
	f.check(positive(in.KA), "application factor K_A is %v; expected more than 0: 1 where the torque is the whole load", in.KA)
	f.check(in.KGamma == 0 || atLeast(1, in.KGamma), "mesh load factor K_γ is %v; expected 1 or more, or 0 for a single power path", in.KGamma)
	f.check(atLeast(1, in.KHb), "face load factor K_Hβ is %v; expected 1 or more, from the load along the face", in.KHb)
	if in.KHbOrigin == "" {
		f.add("face load factor K_Hβ has no origin; say in a few words where it comes from")
	}
	f.check(in.KV == 0 || atLeast(1, in.KV), "dynamic factor K_v is %v; expected 1 or more, or 0 to have it worked out", in.KV)
	f.check(in.KHa == 0 || atLeast(1, in.KHa), "transverse factor K_Hα is %v; expected 1 or more, or 0 to have it worked out", in.KHa)
	f.check(in.KFa == 0 || atLeast(1, in.KFa), "transverse factor K_Fα is %v; expected 1 or more, or 0 to have it worked out", in.KFa)
	for i := range in.Gear {
		in.Gear[i].validate(&f, sides[i], in.Deviation != nil)
	}
	f.check(positive(in.Viscosity), "viscosity at 40 °C is %v mm²/s; expected more than 0 (gear oils: 60 to 320)", in.Viscosity)
	if d := in.Deviation; d != nil && !(atLeast(0, d.Pitch) && atLeast(0, d.Profile)) {
		f.add("effective deviations are %v mm (pitch) and %v mm (profile); expected 0 or more, usually a few thousandths of a millimetre", d.Pitch, d.Profile)
	}
	f.check(atLeast(0, in.TipRelief), "tip relief is %v mm; expected 0 or more, usually hundredths of a millimetre", in.TipRelief)
	f.count(in.Relief >= NoRelief && in.Relief <= VerifiedRelief, "flank correction %d is not known; choose NoRelief, UsualRelief or VerifiedRelief", int(in.Relief))
	f.check(in.LongLife == 0 || in.LongLife >= 0.85 && in.LongLife <= 1, "life factor at 10^10 cycles is %v; expected 0.85 to 1, or 0 for 0.85", in.LongLife)
	f.check(in.MinFlank == 0 || positive(in.MinFlank), "least safety of the flank is %v; expected more than 0, or 0 for 1", in.MinFlank)
	f.check(in.MinRoot == 0 || positive(in.MinRoot), "least safety of the root is %v; expected more than 0, or 0 for 1", in.MinRoot)
	return errors.Join(f.errs...)
}

func (g *Gear) validate(f *faults, side string, deviationGiven bool) {
	f.where = side
	s := &g.Strength
	f.count(s.Group.Known(), "group of steels %d is not known; choose one of ISO 6336-5", int(s.Group))
	f.check(positive(s.Contact), "allowable contact stress σ_Hlim is %v MPa; expected more than 0", s.Contact)
	f.check(positive(s.Bending), "nominal bending stress σ_Flim is %v MPa; expected more than 0", s.Bending)
	f.check(positive(s.Young), "Young's modulus is %v MPa; expected more than 0 (steel: 206000)", s.Young)
	f.check(s.Poisson >= 0 && s.Poisson <= 0.5, "Poisson's ratio is %v; expected 0 to 0.5 (steel: 0.3)", s.Poisson)
	f.check(positive(s.Density), "density is %v kg/mm³; expected more than 0 (steel: 7.83e-6)", s.Density)
	f.check(atLeast(0, s.StaticContact), "σ_Hlim for static strength is %v MPa; expected more than 0, or 0 for that of fatigue", s.StaticContact)
	f.check(atLeast(0, s.StaticBending), "σ_Flim for static strength is %v MPa; expected more than 0, or 0 for that of fatigue", s.StaticBending)
	f.check(atLeast(0, s.Hardness), "hardness is %v HBW; expected more than 0, or 0 for not known", s.Hardness)
	if s.Group.ThroughHardened() && !positive(s.Yield) {
		f.add("yield strength is %v MPa; a %v needs it for the notch sensitivity (Y_δrelT)", s.Yield, s.Group)
	}
	f.check(roughness(g.FlankRoughness), "roughness R_z of the flank is %v mm; expected more than 0 and at most 0.1 mm (ground: about 0.003, hobbed: about 0.006)", g.FlankRoughness)
	f.check(roughness(g.RootRoughness), "roughness R_z of the fillet is %v mm; expected more than 0 and at most 0.1 mm (usually 0.01 to 0.02)", g.RootRoughness)
	if ok := g.Grade >= finestGrade && g.Grade <= coarsestGrade; !ok && (g.Grade != 0 || !deviationGiven) {
		f.add("accuracy grade is %d; expected %d to %d of ISO 1328-1:2013, or give the effective deviations instead", g.Grade, finestGrade, coarsestGrade)
	}
	f.check(atLeast(0, g.Body.Rim), "rim thickness is %v mm; expected more than 0, or 0 for a solid gear", g.Body.Rim)
	f.check(atLeast(0, g.Body.Web), "web thickness is %v mm; expected more than 0, or 0 for a solid gear", g.Body.Web)
	f.check(g.Reversal.Share >= 0 && g.Reversal.Share <= 1, "share of reversed load is %v; expected 0 (one way) to 1 (an idler)", g.Reversal.Share)
	f.count(g.Contacts >= 0, "contacts per turn are %d; expected 1 or more, or 0 for 1", g.Contacts)
	f.where = ""
}

func finite(v float64) bool         { return !math.IsNaN(v) && !math.IsInf(v, 0) }
func positive(v float64) bool       { return v > 0 && finite(v) }
func atLeast(least, v float64) bool { return v >= least && finite(v) }
func roughness(v float64) bool      { return v > 0 && v <= 0.1 }

// or is v, or the value that stands for its zero.
func or(v, zero float64) float64 {
	if v == 0 {
		return zero
	}
	return v
}

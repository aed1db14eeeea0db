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

// validate reports everything that is missing or cannot be, all at once.
func (in *Input) validate() error {
	var errs []error
	check := func(good bool, format string, args ...any) {
		if !good {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(finite(in.Torque) && in.Torque > 0, "torque on the driver is %v N·mm; expected more than 0 (for the other flank give its size without a sign)", in.Torque)
	check(finite(in.Speed) && in.Speed >= 0, "speed of the driver is %v rad/s; expected 0 or more", in.Speed)
	check(finite(in.Turns) && in.Turns >= 0, "turns of the driver are %v; expected 0 (static) or more", in.Turns)
	check(finite(in.KA) && in.KA > 0, "application factor K_A is %v; expected more than 0: 1 where the torque is the whole load", in.KA)
	check(in.KGamma == 0 || finite(in.KGamma) && in.KGamma >= 1, "mesh load factor K_γ is %v; expected 1 or more, or 0 for a single power path", in.KGamma)
	check(finite(in.KHb) && in.KHb >= 1, "face load factor K_Hβ is %v; expected 1 or more, from the load along the face", in.KHb)
	check(in.KHbOrigin != "", "face load factor K_Hβ has no origin; say in a few words where it comes from")
	for _, k := range [...]struct {
		name  string
		value float64
	}{{"dynamic factor K_v", in.KV}, {"transverse factor K_Hα", in.KHa}, {"transverse factor K_Fα", in.KFa}} {
		check(k.value == 0 || finite(k.value) && k.value >= 1, "%s is %v; expected 1 or more, or 0 to have it worked out", k.name, k.value)
	}
	for i, side := range sides {
		errs = append(errs, in.Gear[i].validate(side, in.Deviation != nil)...)
	}
	check(finite(in.Viscosity) && in.Viscosity > 0, "viscosity at 40 °C is %v mm²/s; expected more than 0 (gear oils: 60 to 320)", in.Viscosity)
	if d := in.Deviation; d != nil {
		check(finite(d.Pitch) && d.Pitch >= 0 && finite(d.Profile) && d.Profile >= 0, "effective deviations are %v mm (pitch) and %v mm (profile); expected 0 or more, usually a few thousandths of a millimetre", d.Pitch, d.Profile)
	}
	check(finite(in.TipRelief) && in.TipRelief >= 0, "tip relief is %v mm; expected 0 or more, usually hundredths of a millimetre", in.TipRelief)
	check(in.Relief >= NoRelief && in.Relief <= VerifiedRelief, "flank correction %d is not known; choose NoRelief, UsualRelief or VerifiedRelief", int(in.Relief))
	check(in.LongLife == 0 || in.LongLife >= 0.85 && in.LongLife <= 1, "life factor at 10^10 cycles is %v; expected 0.85 to 1, or 0 for 0.85", in.LongLife)
	check(in.MinFlank == 0 || finite(in.MinFlank) && in.MinFlank > 0, "least safety of the flank is %v; expected more than 0, or 0 for 1", in.MinFlank)
	check(in.MinRoot == 0 || finite(in.MinRoot) && in.MinRoot > 0, "least safety of the root is %v; expected more than 0, or 0 for 1", in.MinRoot)
	return errors.Join(errs...)
}

func (g *Gear) validate(side string, deviationGiven bool) (errs []error) {
	check := func(good bool, format string, args ...any) {
		if !good {
			errs = append(errs, fmt.Errorf(side+": "+format, args...))
		}
	}
	s := g.Strength
	check(s.Kind.valid(), "kind of material %d is not known; choose one of ISO 6336-5", int(s.Kind))
	check(finite(s.Contact) && s.Contact > 0, "allowable contact stress σ_Hlim is %v MPa; expected more than 0", s.Contact)
	check(finite(s.Bending) && s.Bending > 0, "nominal bending stress σ_Flim is %v MPa; expected more than 0", s.Bending)
	check(finite(s.Young) && s.Young > 0, "Young's modulus is %v MPa; expected more than 0 (steel: 206000)", s.Young)
	check(s.Poisson >= 0 && s.Poisson <= 0.5, "Poisson's ratio is %v; expected 0 to 0.5 (steel: 0.3)", s.Poisson)
	check(finite(s.Density) && s.Density > 0, "density is %v kg/mm³; expected more than 0 (steel: 7.83e-6)", s.Density)
	check(finite(s.StaticContact) && s.StaticContact >= 0, "σ_Hlim for static strength is %v MPa; expected more than 0, or 0 for that of fatigue", s.StaticContact)
	check(finite(s.StaticBending) && s.StaticBending >= 0, "σ_Flim for static strength is %v MPa; expected more than 0, or 0 for that of fatigue", s.StaticBending)
	check(finite(s.Hardness) && s.Hardness >= 0, "hardness is %v HBW; expected more than 0, or 0 for not known", s.Hardness)
	if s.Kind.throughHardened() {
		check(finite(s.Yield) && s.Yield > 0, "yield strength is %v MPa; a %v needs it for the notch sensitivity (Y_δrelT)", s.Yield, s.Kind)
	}
	check(roughness(g.FlankRoughness), "roughness R_z of the flank is %v mm; expected more than 0 and at most 0.1 mm (ground: about 0.003, hobbed: about 0.006)", g.FlankRoughness)
	check(roughness(g.RootRoughness), "roughness R_z of the fillet is %v mm; expected more than 0 and at most 0.1 mm (usually 0.01 to 0.02)", g.RootRoughness)
	if g.Grade != 0 || !deviationGiven {
		check(g.Grade >= finestGrade && g.Grade <= coarsestGrade, "accuracy grade is %d; expected %d to %d of ISO 1328-1:2013, or give the effective deviations instead", g.Grade, finestGrade, coarsestGrade)
	}
	check(finite(g.Body.Rim) && g.Body.Rim >= 0, "rim thickness is %v mm; expected more than 0, or 0 for a solid gear", g.Body.Rim)
	check(finite(g.Body.Web) && g.Body.Web >= 0, "web thickness is %v mm; expected more than 0, or 0 for a solid gear", g.Body.Web)
	check(g.Reversal.Share >= 0 && g.Reversal.Share <= 1, "share of reversed load is %v; expected 0 (one way) to 1 (an idler)", g.Reversal.Share)
	check(g.Contacts >= 0, "contacts per turn are %d; expected 1 or more, or 0 for 1", g.Contacts)
	return errs
}

func finite(v float64) bool    { return !math.IsNaN(v) && !math.IsInf(v, 0) }
func roughness(v float64) bool { return v > 0 && v <= 0.1 }

// or is v, or the value that stands for its zero.
func or(v, zero float64) float64 {
	if v == 0 {
		return zero
	}
	return v
}

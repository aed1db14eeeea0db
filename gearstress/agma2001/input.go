package agma2001

import (
	"errors"
	"fmt"
	"math"

	"layshaft/material"
)

// Strength is what the steel of a gear bears at 10⁷ cycles and 99 % reliability.
type Strength struct {
	Root      float64   // allowable bending stress number s_at (σ_FP), MPa, bent one way
	Flank     float64   // allowable contact stress number s_ac (σ_HP), MPa
	Treatment Treatment // for the life curves
	Hardness  float64   // Brinell hardness, HBW; needed for through-hardened steel, else 0 = not known
	Source    string    // where the numbers come from
}

// StrengthOf is the strength of a steel of the list at one level of its bands.
func StrengthOf(s material.Steel, l material.Level) (Strength, error) {
	treatments := map[material.Group]Treatment{
		material.GroupNormalised: ThroughHardened, material.GroupCarbonHardened: ThroughHardened, material.GroupAlloyHardened: ThroughHardened,
		material.GroupCaseHardened: CaseCarburised, material.GroupSurfaceHardened: InductionTreated,
		material.GroupNitridingSteel: Nitrided, material.GroupNitridedAlloy: Nitrided, material.GroupNitrocarburised: Nitrided,
	}
	t, ok := treatments[s.Group]
	if !ok || !s.AGMARoot.Known() || !s.AGMAFlank.Known() {
		return Strength{}, fmt.Errorf("steel %q has no allowable stress numbers of ANSI/AGMA 2001-D04, or no treatment; choose a steel of the list, or give both", s.Name)
	}
	out := Strength{Root: s.AGMARoot.At(l), Flank: s.AGMAFlank.At(l), Treatment: t,
		Source: fmt.Sprintf("%s, %v: root %s; flank %s", s.Name, l, s.AGMARoot.Source, s.AGMAFlank.Source)}
	if t == ThroughHardened {
		hb, err := material.Brinell(s.SurfaceHardness.At(l))
		if err != nil {
			return Strength{}, err
		}
		out.Hardness = hb
	}
	return out, nil
}

// Gear is what the rating needs to know of one gear beyond its geometry.
type Gear struct {
	Strength Strength
	Size     float64 // size factor K_s ≥ 1, –; 0 = 1, as the standard has it for most gears
	Backup   float64 // backup ratio m_B, rim thickness under the tooth over tooth height, –; 0 = solid
	Contacts int     // meshes that load each tooth in one turn; 0 = 1
	Reversed bool    // bent both ways in every turn, as on an idler: 70 % of the root strength is left
}

// Input is the load and everything else that is not shape. Torque and speed belong to the
// driver and are positive; index 0 is the driver.
type Input struct {
	Form     *Form
	Torque   float64 // on the driver, N·mm, ≥ 0.001
	Speed    float64 // of the driver, rad/s, ≥ 0
	Turns    float64 // turns of the driver in its life, –, > 0
	Gear     [2]Gear
	Overload float64 // overload factor K_o ≥ 1, –; 0 = 1
	Quality  float64 // transmission accuracy number Q_v, –, 5 to 11
	Dynamic  float64 // dynamic factor K_v ≥ 1, –, if known; 0 = from Quality and speed

	FaceLoad       float64 // load distribution factor K_m (K_H) ≥ 1, –
	FaceLoadOrigin string  // where it was found, in words

	ElasticCoefficient float64 // C_p (Z_E), √MPa; 0 = SteelElasticCoefficient
	SurfaceCondition   float64 // C_f (Z_R) ≥ 1, –; 0 = 1
	Reliability        float64 // R, –, 0.5 to 0.9999; 0 = 0.99
	Temperature        float64 // temperature factor K_T ≥ 1, –; 0 = 1, which holds up to 120 °C
	PinionRoughness    float64 // R_a of a hard pinion, mm, for C_H of a soft wheel; 0 = not known, C_H = 1
	Branch             Branch  // of the life curves
}

// or is v, or the usual value when it was not given.
func or(v, usual float64) float64 {
	if v == 0 {
		return usual
	}
	return v
}

func (in *Input) validate() error {
	var errs []error
	bad := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	if in.Form == nil || in.Form.Pair == nil {
		return errors.New("no tooth form was given; make one with NewForm")
	}
	f := in.Form
	if !(f.I > 0 && f.I < 1) || !(f.J[0] > 0 && f.J[0] < 2) || !(f.J[1] > 0 && f.J[1] < 2) {
		bad("geometry factors are I = %v, J = %v and %v; expected I between 0 and 1, J between 0 and 2", f.I, f.J[0], f.J[1])
	}
	if !(in.Torque >= 1e-3 && in.Torque <= 1e12) {
		bad("torque on the driver is %v N·mm; expected 0.001 to 1e12, without a sign", in.Torque)
	}
	if !(in.Speed >= 0 && in.Speed <= 1e5) {
		bad("speed of the driver is %v rad/s; expected 0 to 1e5 (1000 rpm is 104.7 rad/s)", in.Speed)
	}
	if !(in.Turns > 0 && in.Turns <= 1e15) {
		bad("the driver makes %v turns in its life; expected more than 0, at most 1e15", in.Turns)
	}
	for _, k := range []struct {
		what string
		v    float64
	}{
		{"overload factor K_o", or(in.Overload, 1)}, {"dynamic factor K_v", or(in.Dynamic, 1)}, {"load distribution factor K_m", in.FaceLoad},
		{"surface condition factor C_f", or(in.SurfaceCondition, 1)}, {"temperature factor K_T", or(in.Temperature, 1)},
		{"driver: size factor K_s", or(in.Gear[0].Size, 1)}, {"driven gear: size factor K_s", or(in.Gear[1].Size, 1)},
	} {
		if !(k.v >= 1 && k.v <= 100) {
			bad("%s is %v; expected 1 to 100", k.what, k.v)
		}
	}
	if in.FaceLoad > 0 && in.FaceLoadOrigin == "" {
		bad("the load distribution factor K_m = %v must say where it was found (FaceLoadOrigin)", in.FaceLoad)
	}
	if c := or(in.ElasticCoefficient, SteelElasticCoefficient); !(c >= 10 && c <= 1000) {
		bad("elastic coefficient is %v √MPa; expected 10 to 1000, steel on steel has 191 (2300 √psi)", c)
	}
	if r := in.PinionRoughness; !(r >= 0 && r <= 0.1) {
		bad("roughness of the pinion is %v mm; expected 0 to 0.1: 1 µm is 0.001 mm", r)
	}
	for i, side := range sides {
		g := in.Gear[i]
		s := g.Strength
		if !(s.Root >= 1 && s.Root <= 5000) || !(s.Flank >= 1 && s.Flank <= 10000) {
			bad("%s: allowable stress numbers are %v MPa (root) and %v MPa (flank); expected 1 to 5000 and 1 to 10000: 1 ksi is 6.895 MPa", side, s.Root, s.Flank)
		}
		if !(s.Hardness >= 0 && s.Hardness <= 800) {
			bad("%s: hardness is %v HBW; expected 0 (not known) to 800", side, s.Hardness)
		}
		if g.Contacts < 0 || g.Contacts > 100 {
			bad("%s: a tooth is loaded %d times a turn; expected 1 to 100, or 0 for 1", side, g.Contacts)
		}
		if s.Source == "" {
			bad("%s: the allowable stress numbers must say where they come from", side)
		}
	}
	return errors.Join(errs...)
}

// cycles is the number of load cycles of gear i, –.
func (in *Input) cycles(i int) float64 {
	z := in.Form.Pair.Teeth
	return in.Turns * float64(z[0]) / float64(z[i]) * math.Max(1, float64(in.Gear[i].Contacts))
}

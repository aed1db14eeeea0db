package iso6336

import (
	"fmt"
	"math"
	"slices"
)

// Rating is one load rated. Index 0 is the driver, 1 the driven gear. Factors lists
// every factor by its symbol.
type Rating struct {
	Edition    Edition
	Tangential float64 // F_t, nominal, at the reference circles, N
	Velocity   float64 // v, at the reference circles, mm/s
	K          LoadFactors
	Stiffness  Stiffness
	Dynamic    Dynamic
	Deviation  Deviation
	ZH         float64 // Z_H, zone factor, –
	ZE         float64 // Z_E, elasticity factor, √MPa
	ZEps       float64 // Z_ε, contact ratio factor, –
	ZBeta      float64 // Z_β, helix angle factor, –
	Pitting    float64 // σ_H0, nominal contact stress at the pitch point, MPa
	Flank      [2]Flank
	Root       [2]Root
	Notes      []string // where the range of the standard is left
	Assumed    []string // what was taken because it isn't known, or by a rule of the standard
}

// Outcome is a stress against what the steel bears.
type Outcome struct {
	Stress      float64 // σ_H or σ_F, MPa
	Limit       float64 // σ_HG or σ_FG, what the steel bears at Cycles, MPa
	Permissible float64 // σ_HP or σ_FP = limit over least safety, MPa
	Safety      float64 // S_H or S_F = limit over stress, –; on the flank it grows with the root of the torque margin only
	Static      float64 // what the steel bears of this kind of stress once, MPa
	Cycles      float64 // N_L, load cycles of this gear, –
	Life        float64 // load cycles of this gear at which the limit is as low as the stress, –; 0 = less than one, +Inf = none
	Curve       Curve   // the limit against load cycles
}

// Flank is the flank of one gear (ISO 6336-2). Factors of the strength are
// those at the number of load cycles.
type Flank struct {
	Outcome
	ZBD float64 // Z_B (driver) or Z_D (driven gear), single pair factor, –
	ZNT float64 // Z_NT, life factor, –
	ZL  float64 // Z_L, lubricant factor, –
	ZV  float64 // Z_V, velocity factor, –
	ZR  float64 // Z_R, roughness factor, –
	ZW  float64 // Z_W, work hardening factor, –
	ZX  float64 // Z_X, size factor, –
}

// Root is the root of one gear (ISO 6336-3). Factors of the strength are those
// at the number of load cycles.
type Root struct {
	Outcome
	Nominal float64 // σ_F0, nominal root stress, MPa
	FEps    float64 // f_ε, load sharing factor, – (1 in the 2006 edition); it is in Y_F
	YF      float64 // Y_F, form factor, –
	YS      float64 // Y_S, stress correction factor, –
	YBeta   float64 // Y_β, helix angle factor, –
	YB      float64 // Y_B, rim thickness factor, –
	YDT     float64 // Y_DT, deep tooth factor, –
	YNT     float64 // Y_NT, life factor, –
	YDelta  float64 // Y_δrelT, relative notch sensitivity factor, –
	YR      float64 // Y_RrelT, relative surface factor, –
	YX      float64 // Y_X, size factor, –
	YM      float64 // Y_M, mean stress factor of bending both ways, –
}

// Rate rates one load. Everything missing or impossible comes back in one error.
//
//	σ_H0 = Z_H Z_E Z_ε Z_β √(F_t/(d_1 b) (u + 1)/u), σ_H = Z_B,D σ_H0 √(K_A K_γ K_v K_Hβ K_Hα)
//	σ_HG = σ_Hlim Z_NT Z_L Z_V Z_R Z_W Z_X
//	σ_F0 = F_t/(b m_n) Y_F Y_S Y_β Y_B Y_DT, σ_F = σ_F0 K_A K_γ K_v K_Fβ K_Fα
//	σ_FG = 2 σ_Flim Y_M Y_NT Y_δrelT Y_RrelT Y_X
//
// Between the corners of the static and the long life strength each factor goes
// in a straight line on double-logarithmic paper, as the standard does with the
// product. Source: ISO 6336-2 and -3:2006 and 2019, clause 5.
func (f *Form) Rate(in Input) (*Rating, error) {
	if err := in.validate(); err != nil {
		return nil, err
	}
	p := f.Pair
	r := &Rating{Edition: f.Edition, Notes: slices.Clone(f.Notes), ZH: f.ZH, ZEps: f.ZEps, ZBeta: f.ZBeta}
	r.Tangential = 2 * in.Torque / p.Reference[0]
	r.Velocity = in.Speed * p.Reference[0] / 2
	line := r.Tangential / p.Face // F_t/b, N/mm
	r.load(f, &in, line)

	r.ZE = elasticityFactor(in.Gear[0].Strength, in.Gear[1].Strength)
	r.Pitting = f.ZH * r.ZE * f.ZEps * f.ZBeta * math.Sqrt(line*(1/p.Reference[0]+1/p.Reference[1]))
	for i := range sides {
		r.rateFlank(f, &in, i)
		r.rateRoot(f, &in, i, line)
	}
	return r, nil
}

// Static rates a single peak: Input.Torque is the whole load (K_A = 1) and the
// static strength counts, whatever KA and Turns say. Give the speed at which
// the peak comes; 0 makes K_v 1. Source: ISO 6336-2 and -3, static stress.
func (f *Form) Static(in Input) (*Rating, error) {
	in.KA, in.Turns = 1, 0
	return f.Rate(in)
}

// load works out the load factors in the order of the standard: K_v from the nominal
// load, K_Hα and K_Fα from the load that K_v and K_Hβ have made.
func (r *Rating) load(f *Form, in *Input, line float64) {
	p := f.Pair
	r.K = LoadFactors{A: in.KA, Gamma: or(in.KGamma, 1), HBeta: in.KHb, HBetaOrigin: in.KHbOrigin}
	applied := line * r.K.A * r.K.Gamma
	r.Stiffness = MeshStiffness(p, [2]float64{in.Gear[0].Strength.Young, in.Gear[1].Strength.Young}, [2]Body{in.Gear[0].Body, in.Gear[1].Body}, applied)
	r.Notes = append(r.Notes, r.Stiffness.Notes...)
	r.Deviation = f.effective(in, r.Velocity)
	r.Dynamic = f.dynamic(in, r.Stiffness, r.Deviation, applied)
	r.Notes = append(r.Notes, r.Dynamic.notes(applied)...)
	r.K.V = r.Dynamic.KV
	r.K.FBeta = RootFaceFactor(in.KHb, p.Face, max(f.Height[0], f.Height[1]))
	hAlpha, fAlpha := f.transverse(r.Stiffness, r.Deviation, applied*r.K.V*r.K.HBeta)
	r.K.HAlpha, r.K.FAlpha = or(in.KHa, hAlpha), or(in.KFa, fAlpha)
}

// testVelocity is the pitch line velocity, mm/s, of the gears whose strength the limits are, where Z_V is 1. Source: ISO 6336-5, reference test
// gears, 10 m/s; from memory.
const testVelocity = 10e3

// filmVelocity is the pitch line velocity for Z_V and Z_W, mm/s; that of the test gears where none is told, so that not knowing it neither helps nor harms.
func (r *Rating) filmVelocity() float64 {
	if r.Velocity == 0 {
		return testVelocity
	}
	return r.Velocity
}

func (r *Rating) rateFlank(f *Form, in *Input, i int) {
	p, own, mate := f.Pair, in.Gear[i], in.Gear[1-i]
	softer := min(own.Strength.Contact, mate.Strength.Contact)
	work, staticWork, known := workHardening(wear{
		self: own.Strength, mate: mate.Strength, wheel: i != f.pinion,
		ratio:     float64(p.Teeth[1-f.pinion]) / float64(p.Teeth[f.pinion]),
		roughness: own.FlankRoughness, mateRough: mate.FlankRoughness,
		radius: f.relativeRadius, viscosity: in.Viscosity, velocity: r.filmVelocity(),
	})
	if !known {
		r.assume("%s: hardness in HBW not known; no gain from work hardening counted (Z_W = 1)", sides[i])
	}
	life := contactLife(own.Strength.Kind, in.LimitedPitting, or(in.LongLife, customaryTail))
	long := [4]float64{
		lubricantFactor(softer, in.Viscosity),
		velocityFactor(softer, r.filmVelocity()),
		flankRoughnessFactor(softer, (own.FlankRoughness+mate.FlankRoughness)/2, f.relativeRadius),
		work,
	}
	static := [4]float64{1, 1, 1, staticWork}

	fl := &r.Flank[i]
	fl.ZBD = tipContactFactor(f.Edition, f.M[i], p.OverlapRatio, in.Relief)
	fl.Stress = fl.ZBD * r.Pitting * math.Sqrt(r.K.flank())
	fl.Cycles = in.cycles(f, i)
	fl.ZNT, fl.ZX = life.At(fl.Cycles), flankSizeFactor
	at := blend(static[:], long[:], life, fl.Cycles)
	fl.ZL, fl.ZV, fl.ZR, fl.ZW = at[0], at[1], at[2], at[3]
	r.judge(&fl.Outcome, own.Strength.Contact*flankSizeFactor, own.Strength.StaticContact/own.Strength.Contact, life, static[:], long[:], or(in.MinFlank, 1), sides[i]+", flank")
	if in.Relief == NoRelief && f.Edition == Edition2019 && p.OverlapRatio > 0 && i == 0 {
		r.assume("helical teeth without known tip relief: Z_B and Z_D hold f_ZCa = 1.2 (2019 edition, from memory)")
	}
}

func (r *Rating) rateRoot(f *Form, in *Input, i int, line float64) {
	p, g, t := f.Pair, in.Gear[i], f.Tooth[i]
	ro := &r.Root[i]
	ro.FEps, ro.YF, ro.YS, ro.YBeta = t.LoadSharing, t.YF, t.YS, f.YBeta
	ro.YB = rimFactor(g.Body.Rim, f.Height[i])
	if rim := g.Body.Rim; rim > 0 && rim <= thinnestRim*f.Height[i] {
		r.note("%s: the rim of %.3g mm is only %.2f tooth heights thick; ISO 6336-3 gives no Y_B at 0.5 and below and asks to avoid it (Y_B = %.2f is the formula carried on)", sides[i], rim, rim/f.Height[i], ro.YB)
	}
	grade := 0 // the coarser of both counts, and unknown is coarse
	if a, b := in.Gear[0].Grade, in.Gear[1].Grade; a > 0 && b > 0 {
		grade = max(a, b)
	}
	ro.YDT = deepToothFactor(f.NormalContact, grade)
	ro.Nominal = line / p.Module * ro.YF * ro.YS * ro.YBeta * ro.YB * ro.YDT
	ro.Stress = ro.Nominal * r.K.root()

	s := g.Strength
	life := bendingLife(s.Kind, or(in.LongLife, customaryTail))
	long := [4]float64{
		notchSensitivity(s, t.Notch), rootSurfaceFactor(s.Kind, g.RootRoughness),
		rootSizeFactor(s.Kind, p.Module), meanStressFactor(s.Kind, g.Reversal, t.YS, false),
	}
	static := [4]float64{staticNotchSensitivity(s, t.YS), 1, 1, meanStressFactor(s.Kind, g.Reversal, t.YS, true)}
	if rz := g.RootRoughness * 1000; rz > 40 {
		r.note("%s: roughness of the fillet R_z = %.3g µm is beyond the 40 µm up to which Y_RrelT is given; that of 40 µm is taken", sides[i], rz)
	}
	ro.Cycles = in.cycles(f, i)
	ro.YNT = life.At(ro.Cycles)
	at := blend(static[:], long[:], life, ro.Cycles)
	ro.YDelta, ro.YR, ro.YX, ro.YM = at[0], at[1], at[2], at[3]
	r.judge(&ro.Outcome, s.base(), s.StaticBending/s.Bending, life, static[:], long[:], or(in.MinRoot, 1), sides[i]+", root")
}

// judge draws the curve of the limit and sets the stress against it.
//
// more is how many times as much static strength is known as follows from the limits of fatigue; up to 1 it changes nothing. A
// strength against a single load proves nothing of fatigue, so the curve keeps all of its corners: in front of the first the
// line of limited life is carried on at the slope of the life factor, up to that static strength.
func (r *Rating) judge(o *Outcome, base, more float64, life Curve, static, long []float64, least float64, what string) {
	once, ever := base, base
	for k := range static {
		once *= static[k]
		ever *= long[k]
	}
	if follows := once * life.stress[0]; more > 1 {
		o.Curve.add(life.cycles[0]*math.Pow(more, -1/life.firstSlope()), more*follows)
		r.assume("%s: a static strength of %.4g MPa is known, above the %.4g MPa that follow from the limit of fatigue; the life of stresses between them is that of the life curve carried on at its slope", what, more*follows, follows)
	}
	for k := range life.n {
		level := ever
		if k == 0 {
			level = once
		}
		o.Curve.add(life.cycles[k], level*life.stress[k])
	}
	o.Limit = o.Curve.At(o.Cycles)
	o.Static = o.Curve.Static()
	o.Permissible = o.Limit / least
	o.Safety = o.Limit / o.Stress
	o.Life = o.Curve.Cycles(o.Stress)
	if first, second := once*life.stress[0], ever*life.stress[1]; second > first {
		r.assume("%s: the long life strength of %.4g MPa would be above the static strength of %.4g MPa; the static one holds until the other falls below it", what, second, first)
	}
	if o.Cycles > longLife {
		r.note("%s: %.3g load cycles are beyond the 10^10 where the life factors of ISO 6336 end; that of 10^10 is taken", what, o.Cycles)
	}
}

// blend is each factor at a number of load cycles: static up to the first corner of the life
// curve, long from the second, a power of the cycles between.
func blend(static, long []float64, life Curve, cycles float64) (at [4]float64) {
	part := 0.0
	if cycles > life.cycles[0] {
		part = min(1, math.Log(cycles/life.cycles[0])/math.Log(life.cycles[1]/life.cycles[0]))
	}
	for k := range static {
		at[k] = static[k] * math.Pow(long[k]/static[k], part)
	}
	return at
}

// cycles is N_L of gear i, –.
func (in *Input) cycles(f *Form, i int) float64 {
	p := f.Pair
	return in.Turns * float64(p.Teeth[0]) / float64(p.Teeth[i]) * float64(max(1, in.Gear[i].Contacts))
}

func (r *Rating) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

func (r *Rating) assume(format string, args ...any) {
	r.Assumed = append(r.Assumed, fmt.Sprintf(format, args...))
}

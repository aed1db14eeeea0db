package iso6336

import (
	"math"

	"layshaft/material"
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
	Stress      float64        // σ_H or σ_F, MPa
	Limit       float64        // σ_HG or σ_FG, what the steel bears at Cycles, MPa
	Permissible float64        // σ_HP or σ_FP = limit over least safety, MPa
	Safety      float64        // S_H or S_F = limit over stress, –; on the flank it grows with the root of the torque margin only
	Static      float64        // what the steel bears of this kind of stress once, MPa
	Cycles      float64        // N_L, load cycles of this gear, –
	Life        float64        // load cycles of this gear at which the limit is as low as the stress, –; 0 = less than one, +Inf = none
	Curve       material.Curve // the limit against load cycles
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
	var c Compiled
	c.compile(f, in)
	return c.rate(in.Torque, in.KHb), nil
}

// rate puts every factor beside the stresses.
func (c *Compiled) rate(torque, khb float64) *Rating {
	f := c.form
	var l load
	c.put(&l, torque, khb)
	s := c.stresses(&l)
	r := &Rating{
		Edition: f.Edition, Tangential: l.line * f.Pair.Face, Velocity: c.velocity, K: l.k,
		Stiffness: l.stiffness, Dynamic: l.dynamic, Deviation: c.deviation,
		ZH: f.ZH, ZE: c.ze, ZEps: f.ZEps, ZBeta: f.ZBeta, Pitting: c.pitting * math.Sqrt(l.line),
	}
	r.Stiffness.Notes = stiffnessNotes(f.Pair)
	for i := range sides {
		flank, root, tooth := &c.flank[i], &c.root[i], &f.Tooth[i]
		at := flank.factors()
		r.Flank[i] = Flank{
			Outcome: flank.outcome(s.Flank[i], or(c.in.MinFlank, 1)),
			ZBD:     c.zbd[i], ZNT: flank.life.At(flank.cycles), ZL: at[0], ZV: at[1], ZR: at[2], ZW: at[3], ZX: flankSizeFactor,
		}
		at = root.factors()
		r.Root[i] = Root{
			Outcome: root.outcome(s.Root[i], or(c.in.MinRoot, 1)), Nominal: c.nominal[i] * l.line,
			FEps: tooth.LoadSharing, YF: tooth.YF, YS: tooth.YS, YBeta: f.YBeta, YB: c.yb[i], YDT: c.ydt,
			YNT: root.life.At(root.cycles), YDelta: at[0], YR: at[1], YX: at[2], YM: at[3],
		}
	}
	r.say(c, &l)
	return r
}

// outcome sets a stress against the strength, with its least safety.
func (s *strength) outcome(u Utilisation, least float64) Outcome {
	return Outcome{
		Stress: u.Stress, Limit: u.Limit, Permissible: u.Limit / least, Safety: u.Limit / u.Stress, Static: u.Static,
		Cycles: s.cycles, Life: s.curve.Cycles(u.Stress), Curve: s.curve,
	}
}

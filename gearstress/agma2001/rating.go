package agma2001

import (
	"errors"
	"fmt"
	"math"

	"layshaft/material"
)

// Outcome is one limit of one gear.
type Outcome struct {
	Stress      float64        // s_t or s_c, MPa, at the torque rated
	Allowable   float64        // s_at or s_ac, MPa, what reversed bending takes already off
	LifeFactor  float64        // Y_N or Z_N at the cycles asked for, –
	Permissible float64        // stress at which safety is 1: s_at Y_N/(K_T K_R) or s_ac Z_N C_H/(K_T K_R), MPa
	Safety      float64        // S_F or S_H: permissible over stress, –; S_H is no torque ratio
	Torque      float64        // torque on the driver at which safety is 1, with K_v and K_m held, N·mm
	Cycles      float64        // load cycles asked for, –
	Life        float64        // load cycles borne at this stress, –: 0 = not once, +Inf = no limit
	Curve       material.Curve // Y_N or Z_N against load cycles
}

// Root is the bending strength of one gear.
type Root struct {
	Outcome
	Ks        float64 // size factor K_s, –
	KB        float64 // rim thickness factor K_B, –
	J         float64 // geometry factor J (Y_J), –
	Reversing float64 // 0.7 where bent both ways in every turn, else 1, –; in Allowable
}

// Flank is the pitting resistance of one gear.
type Flank struct {
	Outcome
	Ks float64 // size factor K_s, –
	CH float64 // hardness ratio factor C_H (Z_W), –
}

// Rating is a rating with every factor that went into it. Index 0 is the driver.
type Rating struct {
	Form       *Form
	Torque     float64 // on the driver, N·mm
	Tangential float64 // W_t at the operating pitch circle, N
	Speed      float64 // v_t at the operating pitch circle, mm/s
	Ko         float64 // overload factor K_o, –
	Kv         float64 // dynamic factor K_v, –
	KvOrigin   string  // where it was found
	Km         float64 // load distribution factor K_m (K_H), –
	KmOrigin   string  // where it was found
	KT         float64 // temperature factor K_T (Y_θ), –
	KR         float64 // reliability factor K_R (Y_Z), –
	Cp         float64 // elastic coefficient C_p (Z_E), √MPa
	Cf         float64 // surface condition factor C_f (Z_R), –
	I          float64 // geometry factor I (Z_I), –
	Root       [2]Root
	Flank      [2]Flank
	Notes      []string // assumptions, and where the standard's range is left
}

// Rate works out stresses, what is permissible and the torques at which they meet:
//
//	s_t = W_t K_o K_v K_s K_m K_B/(F m_t J)         ≤ s_at Y_N/(S_F K_T K_R)
//	s_c = C_p √(W_t K_o K_v K_s K_m C_f/(d F I))    ≤ s_ac Z_N C_H/(S_H K_T K_R)
//
// m_t is the transverse module of the reference circle (1/P_d), d the operating pitch
// diameter of the pinion, F the common face width. Everything wrong in the input comes
// back in one error. Source: ANSI/AGMA 2001-D04, 2101-D04, fundamental rating formulas.
func Rate(in Input) (*Rating, error) {
	if err := in.validate(); err != nil {
		return nil, err
	}
	f := in.Form
	p := f.Pair
	r := &Rating{
		Form: f, Torque: in.Torque, I: f.I,
		Tangential: 2 * in.Torque / p.Working[0],
		Speed:      in.Speed * p.Working[0] / 2,
		Ko:         or(in.Overload, 1), Km: in.FaceLoad, KmOrigin: in.FaceLoadOrigin,
		KT: or(in.Temperature, 1), Cp: or(in.ElasticCoefficient, SteelElasticCoefficient), Cf: or(in.SurfaceCondition, 1),
		Notes: append([]string(nil), f.Notes...),
	}
	var errs []error
	var err error
	if r.Kv, r.KvOrigin = in.Dynamic, "given"; in.Dynamic == 0 {
		r.KvOrigin = fmt.Sprintf("Q_v = %g at %.4g m/s", in.Quality, r.Speed/1000)
		if r.Kv, err = DynamicFactor(in.Quality, r.Speed); err != nil {
			errs = append(errs, err)
		}
	}
	if r.KR, err = ReliabilityFactor(or(in.Reliability, 0.99)); err != nil {
		errs = append(errs, err)
	}
	for i, side := range sides {
		if err := r.root(&in, i); err != nil {
			errs = append(errs, fmt.Errorf("%s, root: %w", side, err))
		}
		if err := r.flank(&in, i); err != nil {
			errs = append(errs, fmt.Errorf("%s, flank: %w", side, err))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return r, nil
}

// RootStress is s_t of gear i at a torque on the driver (N·mm, ≥ 0), MPa: it grows with the
// torque, all factors held as rated. Source: ANSI/AGMA 2001-D04, bending strength.
func (r *Rating) RootStress(i int, torque float64) float64 {
	p, ro := r.Form.Pair, &r.Root[i]
	transverse := p.Reference[i] / float64(p.Teeth[i])
	return 2 * torque / p.Working[0] * r.Ko * r.Kv * ro.Ks * r.Km * ro.KB / (p.Face * transverse * ro.J)
}

// FlankStress is s_c of gear i at a torque on the driver (N·mm, ≥ 0), MPa: it grows with the
// root of the torque, all factors held as rated. Source: ANSI/AGMA 2001-D04, pitting
// resistance.
func (r *Rating) FlankStress(i int, torque float64) float64 {
	p := r.Form.Pair
	d := p.Working[r.Form.pinion]
	return r.Cp * math.Sqrt(2*torque/p.Working[0]*r.Ko*r.Kv*r.Flank[i].Ks*r.Km*r.Cf/(d*p.Face*r.I))
}

func (r *Rating) root(in *Input, i int) (err error) {
	g := in.Gear[i]
	ro := &r.Root[i]
	ro.Ks, ro.KB, ro.J, ro.Reversing = or(g.Size, 1), 1, in.Form.J[i], 1
	if g.Backup != 0 {
		if ro.KB, err = RimFactor(g.Backup); err != nil {
			return err
		}
	}
	if g.Reversed {
		ro.Reversing = material.ReversedBending().Value
	}
	if ro.Curve, err = BendingLife(g.Strength.Treatment, g.Strength.Hardness, in.Branch); err != nil {
		return err
	}
	if t := g.Strength.Treatment; t == InductionTreated {
		r.note("%s: %v teeth have no life curve of their own for bending; that of nitrided teeth is taken", sides[i], t)
	}
	ro.Allowable = g.Strength.Root * ro.Reversing
	r.judge(&ro.Outcome, in, i, 1, r.RootStress(i, r.Torque))
	ro.Torque = r.Torque * ro.Safety
	return nil
}

func (r *Rating) flank(in *Input, i int) (err error) {
	g := in.Gear[i]
	fl := &r.Flank[i]
	fl.Ks, fl.CH = or(g.Size, 1), r.hardnessRatio(in, i)
	if fl.Curve, err = ContactLife(g.Strength.Treatment, in.Branch); err != nil {
		return err
	}
	fl.Allowable = g.Strength.Flank
	r.judge(&fl.Outcome, in, i, fl.CH, r.FlankStress(i, r.Torque))
	fl.Torque = r.Torque * fl.Safety * fl.Safety
	return nil
}

// judge sets the stress against what is permissible; gain is C_H.
func (r *Rating) judge(o *Outcome, in *Input, i int, gain, stress float64) {
	base := o.Allowable * gain / (r.KT * r.KR)
	o.Stress = stress
	o.Cycles = in.cycles(i)
	o.LifeFactor = o.Curve.At(o.Cycles)
	o.Permissible = base * o.LifeFactor
	o.Safety = o.Permissible / stress
	o.Life = o.Curve.Cycles(stress / base)
	if o.Cycles > figureEnd {
		r.note("%s: %.3g load cycles are beyond the 10^10 where the life curves of ANSI/AGMA 2001-D04 end; they are carried on", sides[i], o.Cycles)
	}
}

// hardSurface is what counts as a hard pinion for C_H: 48 HRC, in HBW.
const hardSurface = 455

// hardnessRatio is C_H of gear i: 1 for the pinion.
func (r *Rating) hardnessRatio(in *Input, i int) float64 {
	one := in.Form.pinion
	if i == one {
		return 1
	}
	p, w := in.Gear[one].Strength, in.Gear[i].Strength
	if w.Treatment != ThroughHardened {
		return 1
	}
	z := in.Form.Pair.Teeth
	hard := p.Treatment != ThroughHardened || p.Hardness >= hardSurface
	switch {
	case !hard && p.Hardness > 0 && w.Hardness > 0:
		return WorkHardeningThrough(p.Hardness, w.Hardness, float64(z[i])/float64(z[one]))
	case hard && in.PinionRoughness > 0 && w.Hardness >= 180 && w.Hardness <= 400:
		return WorkHardeningSurface(in.PinionRoughness, w.Hardness)
	}
	return 1
}

func (r *Rating) note(format string, args ...any) {
	r.Notes = append(r.Notes, fmt.Sprintf(format, args...))
}

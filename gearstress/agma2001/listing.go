package agma2001

import "fmt"

// Factor is one factor of a rating as the standard writes it.
type Factor struct {
	Symbol string     // of 2001-D04, that of 2101-D04 behind it where it differs
	Words  string     // for people
	Value  [2]float64 // [0] driver, [1] driven gear; equal for factors of the pair; – unless Unit says otherwise
	Unit   string     // "" = –
	Source string     // where it comes from
}

// Factors lists every factor of the rating in the order of the sum.
func (r *Rating) Factors() []Factor {
	both := func(v float64) [2]float64 { return [2]float64{v, v} }
	root := func(get func(*Root) float64) [2]float64 { return [2]float64{get(&r.Root[0]), get(&r.Root[1])} }
	flank := func(get func(*Flank) float64) [2]float64 { return [2]float64{get(&r.Flank[0]), get(&r.Flank[1])} }
	tooth := func(get func(*Tooth) float64) [2]float64 {
		return [2]float64{get(&r.Form.Tooth[0]), get(&r.Form.Tooth[1])}
	}
	const standard = "ANSI/AGMA 2001-D04"
	return []Factor{
		{"W_t (F_t)", "tangential load at the operating pitch circle", both(r.Tangential), "N", "2 T/d"},
		{"K_o", "overload factor", both(r.Ko), "", "given"},
		{"K_v", "dynamic factor", both(r.Kv), "", standard + ", " + r.KvOrigin},
		{"K_m (K_H)", "load distribution factor", both(r.Km), "", r.KmOrigin},
		{"K_s", "size factor", root(func(o *Root) float64 { return o.Ks }), "", "given, or 1"},
		{"K_B", "rim thickness factor", root(func(o *Root) float64 { return o.KB }), "", standard},
		{"J (Y_J)", "geometry factor, bending", root(func(o *Root) float64 { return o.J }), "", "AGMA 908-B89, clause 5"},
		{"Y", "tooth form factor, within J", tooth(func(t *Tooth) float64 { return t.Y }), "", "AGMA 908-B89, clause 5"},
		{"K_f", "stress correction factor, within J", tooth(func(t *Tooth) float64 { return t.StressCorrection }), "", "AGMA 908-B89, clause 5"},
		{"C_h", "helical factor, within J", tooth(func(t *Tooth) float64 { return t.HelicalFactor }), "", "AGMA 908-B89, clause 5 (from memory)"},
		{"C_ψ", "helical overlap factor, within I and J", both(r.Form.Contact.Overlap), "", "AGMA 908-B89, clause 4 (from memory)"},
		{"m_N", "load sharing ratio, within I and J", both(r.Form.Contact.Sharing), "", "AGMA 908-B89, clause 4"},
		{"s_t (σ_F)", "bending stress number", root(func(o *Root) float64 { return o.Stress }), "MPa", standard},
		{"s_at (σ_FP)", "allowable bending stress number", root(func(o *Root) float64 { return o.Allowable }), "MPa", fmt.Sprintf("the steel, times %g and %g for reversed bending", r.Root[0].Reversing, r.Root[1].Reversing)},
		{"Y_N", "stress cycle factor, bending", root(func(o *Root) float64 { return o.LifeFactor }), "", standard + ", fig. 17 (from memory)"},
		{"C_p (Z_E)", "elastic coefficient", both(r.Cp), "√MPa", standard},
		{"C_f (Z_R)", "surface condition factor", both(r.Cf), "", "given, or 1"},
		{"I (Z_I)", "geometry factor, pitting", both(r.I), "", "AGMA 908-B89, clause 4"},
		{"s_c (σ_H)", "contact stress number", flank(func(o *Flank) float64 { return o.Stress }), "MPa", standard},
		{"s_ac (σ_HP)", "allowable contact stress number", flank(func(o *Flank) float64 { return o.Allowable }), "MPa", "the steel"},
		{"Z_N", "stress cycle factor, pitting", flank(func(o *Flank) float64 { return o.LifeFactor }), "", standard + ", fig. 18 (from memory)"},
		{"C_H (Z_W)", "hardness ratio factor", flank(func(o *Flank) float64 { return o.CH }), "", standard},
		{"K_T (Y_θ)", "temperature factor", both(r.KT), "", "given, or 1"},
		{"K_R (Y_Z)", "reliability factor", both(r.KR), "", "the standard's table of reliability factors; between its rows Budynas and Nisbett, Shigley's Mechanical Engineering Design, eq. 14-38"},
		{"S_F", "safety factor, bending", root(func(o *Root) float64 { return o.Safety }), "", standard},
		{"S_H", "safety factor, pitting (its square is the torque ratio)", flank(func(o *Flank) float64 { return o.Safety }), "", standard},
	}
}

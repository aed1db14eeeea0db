package iso6336

// Factor is one factor of a rating as the standard writes it.
type Factor struct {
	Symbol string     // of the standard
	Words  string     // for people
	Value  [2]float64 // [0] driver, [1] driven gear; equal for factors of the pair; – unless Unit says otherwise
	Unit   string     // "" = –
	Clause string     // part and subject of ISO 6336
}

// Factors lists every factor of the rating in the order of the sum.
func (r *Rating) Factors() []Factor {
	both := func(v float64) [2]float64 { return [2]float64{v, v} }
	flank := func(get func(*Flank) float64) [2]float64 { return [2]float64{get(&r.Flank[0]), get(&r.Flank[1])} }
	root := func(get func(*Root) float64) [2]float64 { return [2]float64{get(&r.Root[0]), get(&r.Root[1])} }
	const (
		one, two, three = "part 1", "part 2", "part 3"
	)
	return []Factor{
		{"K_A", "application factor", both(r.K.A), "", "part 6"},
		{"K_γ", "mesh load factor", both(r.K.Gamma), "", one},
		{"K_v", "dynamic factor", both(r.K.V), "", one + ", dynamic factor, method B"},
		{"K_Hβ", "face load factor, flank", both(r.K.HBeta), "", one + ", from " + r.K.HBetaOrigin},
		{"K_Fβ", "face load factor, root", both(r.K.FBeta), "", one + ", from K_Hβ"},
		{"K_Hα", "transverse load factor, flank", both(r.K.HAlpha), "", one + ", method B"},
		{"K_Fα", "transverse load factor, root", both(r.K.FAlpha), "", one + ", method B"},
		{"Z_H", "zone factor", both(r.ZH), "", two + ", zone factor"},
		{"Z_E", "elasticity factor", both(r.ZE), "√MPa", two + ", elasticity factor"},
		{"Z_ε", "contact ratio factor", both(r.ZEps), "", two + ", contact ratio factor"},
		{"Z_β", "helix angle factor, flank", both(r.ZBeta), "", two + ", helix angle factor"},
		{"Z_B, Z_D", "single pair tooth contact factor", flank(func(f *Flank) float64 { return f.ZBD }), "", two + ", single pair tooth contact factors"},
		{"Z_NT", "life factor, flank", flank(func(f *Flank) float64 { return f.ZNT }), "", two + ", life factor"},
		{"Z_L", "lubricant factor", flank(func(f *Flank) float64 { return f.ZL }), "", two + ", influence of the lubricant film"},
		{"Z_V", "velocity factor", flank(func(f *Flank) float64 { return f.ZV }), "", two + ", influence of the lubricant film"},
		{"Z_R", "roughness factor, flank", flank(func(f *Flank) float64 { return f.ZR }), "", two + ", influence of the lubricant film"},
		{"Z_W", "work hardening factor", flank(func(f *Flank) float64 { return f.ZW }), "", two + ", work hardening factor"},
		{"Z_X", "size factor, flank", flank(func(f *Flank) float64 { return f.ZX }), "", two + ", size factor"},
		{"f_ε", "load sharing factor (in Y_F)", root(func(t *Root) float64 { return t.FEps }), "", three + ", form factor"},
		{"Y_F", "form factor", root(func(t *Root) float64 { return t.YF }), "", three + ", form factor"},
		{"Y_S", "stress correction factor", root(func(t *Root) float64 { return t.YS }), "", three + ", stress correction factor"},
		{"Y_β", "helix angle factor, root", root(func(t *Root) float64 { return t.YBeta }), "", three + ", helix angle factor"},
		{"Y_B", "rim thickness factor", root(func(t *Root) float64 { return t.YB }), "", three + ", rim thickness factor"},
		{"Y_DT", "deep tooth factor", root(func(t *Root) float64 { return t.YDT }), "", three + ", deep tooth factor"},
		{"Y_NT", "life factor, root", root(func(t *Root) float64 { return t.YNT }), "", three + ", life factor"},
		{"Y_δrelT", "relative notch sensitivity factor", root(func(t *Root) float64 { return t.YDelta }), "", three + ", notch sensitivity factor"},
		{"Y_RrelT", "relative surface factor", root(func(t *Root) float64 { return t.YR }), "", three + ", surface factor"},
		{"Y_X", "size factor, root", root(func(t *Root) float64 { return t.YX }), "", three + ", size factor"},
		{"Y_M", "mean stress factor", root(func(t *Root) float64 { return t.YM }), "", three + ", mean stress influence factor"},
	}
}

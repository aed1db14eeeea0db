package material

import "fmt"

// Line is an allowable stress that rises in a straight line with hardness, as the
// tables and figures of gear standards have it:
//
//	σ = Slope · hardness + Start, never above Ceiling
type Line struct {
	Slope   float64 // MPa per unit of hardness; 0 where hardness does not matter
	Start   float64 // MPa
	Least   float64 // least hardness covered, in the unit of Scale
	Most    float64 // greatest hardness covered, in the unit of Scale
	Ceiling float64 // MPa; 0 = none
	Scale   string  // "HV" or "HBW"
	Source  string  // where the line comes from
}

// At is the allowable stress in MPa at a hardness in the unit of Scale. A hardness
// outside Least to Most is an error.
func (l Line) At(hardness float64) (float64, error) {
	if !(hardness >= l.Least && hardness <= l.Most) {
		return 0, fmt.Errorf("hardness %v %s is outside %g to %g %s, which %s covers; check the value and its scale",
			hardness, l.Scale, l.Least, l.Most, l.Scale, l.Source)
	}
	return l.at(hardness), nil
}

// at carries the line on beyond its ends.
func (l Line) at(hardness float64) float64 {
	v := l.Slope*hardness + l.Start
	if l.Ceiling > 0 {
		v = min(v, l.Ceiling)
	}
	return v
}

type span struct{ slope, start, least, most float64 }

// The root of Eh in quality MQ by its core: 25 HRC of low hardenability, 25 HRC, 30 HRC;
// σ_Flim, MPa. Where the core is not known the middle one is taken.
// Source: ISO 6336-5:2003, Table 1 (kept in 2016), from memory.
const rootLowCore, rootMidCore, rootHardCore = 425, 461, 500

// isoTable is ISO 6336-5:2003, Table 1 (kept in 2016), qualities ML, MQ, ME, from
// memory: σ_Hlim and σ_Flim in MPa over HBW for St and HV for all others.
var isoTable = map[Group]struct{ flank, root [3]span }{
	GroupNormalised: {
		[3]span{{1.000, 190, 110, 210}, {1.000, 190, 110, 210}, {1.520, 250, 110, 210}},
		[3]span{{0.455, 69, 110, 210}, {0.455, 69, 110, 210}, {0.386, 147, 110, 210}}},
	GroupCarbonHardened: {
		[3]span{{0.963, 283, 135, 210}, {0.925, 360, 135, 210}, {0.838, 432, 135, 210}},
		[3]span{{0.250, 108, 115, 215}, {0.240, 163, 115, 215}, {0.283, 202, 115, 215}}},
	GroupAlloyHardened: {
		[3]span{{1.313, 188, 200, 360}, {1.313, 373, 200, 360}, {2.213, 260, 200, 390}},
		[3]span{{0.423, 104, 200, 360}, {0.425, 187, 200, 360}, {0.358, 231, 200, 390}}},
	GroupCaseHardened: {
		[3]span{{0, 1300, 600, 800}, {0, 1500, 660, 800}, {0, 1650, 660, 800}},
		[3]span{{0, 312, 600, 800}, {0, rootMidCore, 660, 800}, {0, 525, 660, 800}}},
	GroupSurfaceHardened: {
		[3]span{{0.740, 602, 485, 615}, {0.541, 882, 500, 615}, {0.505, 1013, 500, 615}},
		[3]span{{0.305, 76, 485, 615}, {0.138, 290, 500, 615}, {0.271, 237, 500, 615}}},
	GroupNitridingSteel: {
		[3]span{{0, 1125, 650, 900}, {0, 1250, 650, 900}, {0, 1450, 650, 900}},
		[3]span{{0, 270, 650, 900}, {0, 420, 650, 900}, {0, 468, 650, 900}}},
	GroupNitridedAlloy: {
		[3]span{{0, 788, 450, 650}, {0, 998, 450, 650}, {0, 1217, 450, 650}},
		[3]span{{0, 258, 450, 650}, {0, 363, 450, 650}, {0, 432, 450, 650}}},
	GroupNitrocarburised: {
		[3]span{{0, 650, 300, 650}, {0, 788, 450, 650}, {0, 788, 450, 650}},
		[3]span{{0, 224, 300, 650}, {0, 258, 450, 650}, {0, 258, 450, 650}}},
}

var isoQuality = [3]string{Low: "ML", Typical: "MQ", High: "ME"}

// FlankLine is σ_Hlim of a group over surface hardness, in quality ML (Low), MQ
// (Typical) or ME (High): contact stress for 1 % damage after 5·10⁷ cycles, MPa.
// Source: ISO 6336-5:2003, Table 1 (from memory).
func FlankLine(g Group, l Level) (Line, error) {
	return isoLine(g, l, "contact", func(g Group, l Level) span { return isoTable[g].flank[l] })
}

// RootLine is σ_Flim of a group over surface hardness, in quality ML (Low), MQ
// (Typical) or ME (High): nominal root stress for 1 % damage after 3·10⁶ pulsating
// cycles, MPa. Source: ISO 6336-5:2003, Table 1 (from memory).
func RootLine(g Group, l Level) (Line, error) {
	line, err := isoLine(g, l, "bending", func(g Group, l Level) span { return isoTable[g].root[l] })
	if g == GroupSurfaceHardened && l == Typical {
		line.Ceiling = 369 // the standard's line is level above 570 HV
	}
	return line, err
}

func isoLine(g Group, l Level, what string, of func(Group, Level) span) (Line, error) {
	if _, ok := isoTable[g]; !ok {
		return Line{}, fmt.Errorf("%v has no allowable stress in ISO 6336-5; say how the steel was treated", g)
	}
	if l < Low || l > High {
		return Line{}, fmt.Errorf("%v is no quality of ISO 6336-5; choose low (ML), typical (MQ) or high (ME)", l)
	}
	s := of(g, l)
	return Line{Slope: s.slope, Start: s.start, Least: s.least, Most: s.most, Scale: isoScale(g),
		Source: fmt.Sprintf("ISO 6336-5:2003, Table 1, %s, %s, quality %s (from memory)", g.Symbol(), what, isoQuality[l])}, nil
}

// isoScale is the scale of hardness that ISO 6336-5 uses for a group.
func isoScale(g Group) string {
	if g == GroupNormalised {
		return "HBW"
	}
	return "HV"
}

// AGMAFlankLine is the allowable contact stress number s_ac (σ_HP) of through-hardened
// steel over Brinell hardness, grade 1 or 2: 10⁷ cycles, 99 % reliability, MPa.
//
//	grade 1: 2.22 HB + 200 (322 HB + 29 100 psi)
//	grade 2: 2.41 HB + 237 (349 HB + 34 300 psi)
//
// Source: ANSI/AGMA 2101-D04, fig. 8 (grade 2 from memory).
func AGMAFlankLine(grade int) (Line, error) {
	return agmaLine(grade, [2]span{{2.22, 200, 180, 400}, {2.41, 237, 180, 400}}, "fig. 8, through-hardened, contact")
}

// AGMARootLine is the allowable bending stress number s_at (σ_FP) of through-hardened
// steel over Brinell hardness, grade 1 or 2: 10⁷ cycles, 99 % reliability, MPa.
//
//	grade 1: 0.533 HB + 88.3 (77.3 HB + 12 800 psi)
//	grade 2: 0.703 HB + 113 (102 HB + 16 400 psi)
//
// Source: ANSI/AGMA 2101-D04, fig. 9 (grade 2 from memory).
func AGMARootLine(grade int) (Line, error) {
	return agmaLine(grade, [2]span{{0.533, 88.3, 180, 400}, {0.703, 113, 180, 400}}, "fig. 9, through-hardened, bending")
}

// AGMANitridedRootLine is the allowable bending stress number s_at (σ_FP) of nitrided
// through-hardening steel over the Brinell hardness of its core, grade 1 or 2: 10⁷
// cycles, 99 % reliability, MPa.
//
//	grade 1: 0.568 HB + 83.8 (82.3 HB + 12 150 psi)
//	grade 2: 0.749 HB + 110 (108.6 HB + 15 890 psi)
//
// Source: ANSI/AGMA 2101-D04, fig. 10 (from memory).
func AGMANitridedRootLine(grade int) (Line, error) {
	return agmaLine(grade, [2]span{{0.568, 83.8, 240, 350}, {0.749, 110, 240, 350}}, "fig. 10, nitrided through-hardening steel, bending")
}

func agmaLine(grade int, grades [2]span, where string) (Line, error) {
	if grade < 1 || grade > 2 {
		return Line{}, fmt.Errorf("grade %d has no line in ANSI/AGMA 2101-D04, %s; choose 1 or 2", grade, where)
	}
	s := grades[grade-1]
	return Line{Slope: s.slope, Start: s.start, Least: s.least, Most: s.most, Scale: "HBW",
		Source: fmt.Sprintf("ANSI/AGMA 2101-D04, %s, grade %d", where, grade)}, nil
}

// ksi turns thousands of psi into MPa.
func ksi(v float64) float64 { return v * 6.894757293 }

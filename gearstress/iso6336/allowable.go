package iso6336

import (
	"fmt"
	"strings"
)

// Quality is a grade of material and heat treatment of ISO 6336-5.
type Quality int

// The grades. The zero value is the lowest.
const (
	ML Quality = iota // modest demands
	MQ                // what experienced makers reach at moderate cost
	ME                // what needs great care
)

func (q Quality) String() string {
	switch q {
	case ML:
		return "ML"
	case MQ:
		return "MQ"
	case ME:
		return "ME"
	}
	return fmt.Sprintf("quality %d", int(q))
}

// line is one row of the table: σ = A x + B for hardness x from low to high.
type line struct{ a, b, low, high float64 }

// allowables is ISO 6336-5:2003, Table 1, in the order ML, MQ, ME; from memory. x is HBW for
// St and irons, HV for all others. The kinds of nodular iron share a row. Where a
// row has one hardness-free number A is 0.
var allowables = map[Kind]struct {
	vickers          bool
	contact, bending [3]line
}{
	NormalisedSteel: {false,
		[3]line{{1.000, 190, 110, 210}, {1.000, 190, 110, 210}, {1.520, 250, 110, 210}},
		[3]line{{0.455, 69, 110, 210}, {0.455, 69, 110, 210}, {0.386, 147, 110, 210}}},
	NormalisedCastSteel: {false,
		[3]line{{0.986, 131, 140, 210}, {0.986, 131, 140, 210}, {1.143, 237, 140, 210}},
		[3]line{{0.313, 62, 140, 210}, {0.313, 62, 140, 210}, {0.254, 137, 140, 210}}},
	MalleableIron: {false,
		[3]line{{1.371, 143, 135, 250}, {1.371, 143, 135, 250}, {1.333, 267, 175, 250}},
		[3]line{{0.345, 77, 135, 250}, {0.345, 77, 135, 250}, {0.403, 128, 175, 250}}},
	NodularPearlitic: nodular,
	NodularFerritic:  nodular,
	GreyIron: {false,
		[3]line{{1.033, 132, 150, 240}, {1.033, 132, 150, 240}, {1.465, 122, 175, 275}},
		[3]line{{0.256, 8, 150, 240}, {0.256, 8, 150, 240}, {0.200, 53, 175, 275}}},
	CarbonSteel: {true,
		[3]line{{0.963, 283, 135, 210}, {0.925, 360, 135, 210}, {0.838, 432, 135, 210}},
		[3]line{{0.250, 108, 115, 215}, {0.240, 163, 115, 215}, {0.283, 202, 115, 215}}},
	AlloySteel: {true,
		[3]line{{1.313, 188, 200, 360}, {1.313, 373, 200, 360}, {2.213, 260, 200, 390}},
		[3]line{{0.423, 104, 200, 360}, {0.425, 187, 200, 360}, {0.358, 231, 200, 390}}},
	CarbonCastSteel: {true,
		[3]line{{0.831, 300, 130, 215}, {0.831, 300, 130, 215}, {0.951, 345, 130, 215}},
		[3]line{{0.224, 117, 130, 215}, {0.224, 117, 130, 215}, {0.286, 167, 130, 215}}},
	AlloyCastSteel: {true,
		[3]line{{1.276, 298, 200, 360}, {1.276, 298, 200, 360}, {1.350, 356, 200, 360}},
		[3]line{{0.364, 161, 200, 360}, {0.364, 161, 200, 360}, {0.356, 186, 200, 360}}},
	CaseHardened: {true,
		[3]line{{0, 1300, 600, 800}, {0, 1500, 660, 800}, {0, 1650, 660, 800}},
		[3]line{{0, 312, 600, 800}, {0, 425, 660, 800}, {0, 525, 660, 800}}},
	InductionHardened: {true,
		[3]line{{0.740, 602, 485, 615}, {0.541, 882, 500, 615}, {0.505, 1013, 500, 615}},
		[3]line{{0.305, 76, 485, 615}, {0.138, 290, 500, 615}, {0.271, 237, 500, 615}}},
	NitridedSteel: {true,
		[3]line{{0, 1125, 650, 900}, {0, 1250, 650, 900}, {0, 1450, 650, 900}},
		[3]line{{0, 270, 650, 900}, {0, 420, 650, 900}, {0, 468, 650, 900}}},
	NitridedAlloy: {true,
		[3]line{{0, 788, 450, 650}, {0, 998, 450, 650}, {0, 1217, 450, 650}},
		[3]line{{0, 258, 450, 650}, {0, 363, 450, 650}, {0, 432, 450, 650}}},
	Nitrocarburised: {true,
		[3]line{{0, 650, 300, 650}, {0, 788, 450, 650}, {0, 788, 450, 650}},
		[3]line{{0, 224, 300, 650}, {0, 258, 450, 650}, {0, 258, 450, 650}}},
}

var nodular = struct {
	vickers          bool
	contact, bending [3]line
}{false,
	[3]line{{1.434, 211, 175, 300}, {1.434, 211, 175, 300}, {1.500, 250, 200, 300}},
	[3]line{{0.350, 119, 175, 300}, {0.350, 119, 175, 300}, {0.380, 134, 200, 300}}}

// Core is the hardness class of the core of case-hardened teeth of quality MQ, which
// settles their bending strength.
type Core int

// The classes of ISO 6336-5; the zero value is the lowest.
const (
	CoreLow  Core = iota // ≥ 25 HRC, low hardenability: σ_Flim 425 MPa
	CoreMid              // ≥ 25 HRC, high hardenability: 461 MPa
	CoreHard             // ≥ 30 HRC: 500 MPa
)

// Allowable is the strength of a kind of material in a quality, at a surface
// hardness (HBW for normalised steel and irons, HV otherwise, –). core is read for
// case-hardened steel of quality MQ only. Yield and Hardness in HBW are
// left for the caller to fill in where they are known, except that HBW given is kept.
//
//	σ_Hlim = A x + B, σ_Flim = A x + B
//
// Source: ISO 6336-5:2003 (unchanged in 2016), Table 1; from memory. Young's
// modulus, Poisson's ratio and density: ISO 6336-2, table of Z_E, and common
// figures; from memory.
func Allowable(k Kind, q Quality, hardness float64, core Core) (Strength, error) {
	row, ok := allowables[k]
	if !ok {
		return Strength{}, fmt.Errorf("%v is not in ISO 6336-5; choose one of %s", k, kindList())
	}
	if q < ML || q > ME {
		return Strength{}, fmt.Errorf("%v is not in ISO 6336-5; choose ML, MQ or ME", q)
	}
	if core < CoreLow || core > CoreHard {
		return Strength{}, fmt.Errorf("core class %d is not known; choose CoreLow, CoreMid or CoreHard", int(core))
	}
	scale := "HBW"
	if row.vickers {
		scale = "HV"
	}
	c, b := row.contact[q], row.bending[q]
	low, high := max(c.low, b.low), min(c.high, b.high)
	if !(hardness >= low && hardness <= high) {
		return Strength{}, fmt.Errorf("surface hardness %v %s is outside %g to %g %s, where ISO 6336-5 gives strengths of %v in quality %v: check the hardness and its scale", hardness, scale, low, high, scale, k, q)
	}
	s := Strength{
		Kind: k, Contact: c.a*hardness + c.b, Bending: b.a*hardness + b.b,
		Young: 206000, Poisson: 0.3, Density: 7.83e-6,
		Source: fmt.Sprintf("ISO 6336-5:2003, Table 1, %s, quality %v at %g %s (from memory)", k.Symbol(), q, hardness, scale),
	}
	if !row.vickers {
		s.Hardness = hardness
	}
	if k == CaseHardened && q == MQ {
		s.Bending = [...]float64{CoreLow: 425, CoreMid: 461, CoreHard: 500}[core]
	}
	if k == InductionHardened && q == MQ && hardness > 570 {
		s.Bending = 369 // the line of this row ends at 570 HV
	}
	switch k {
	case GreyIron:
		s.Young, s.Density = 118000, 7.2e-6
	case NodularPearlitic, NodularFerritic, MalleableIron:
		s.Young, s.Density = 173000, 7.2e-6
	case NormalisedCastSteel, CarbonCastSteel, AlloyCastSteel:
		s.Young = 202000
	}
	return s, nil
}

// kindList names all kinds.
func kindList() string {
	var names []string
	for k := NormalisedSteel; k.valid(); k++ {
		names = append(names, k.String())
	}
	return strings.Join(names, ", ")
}

package iso6336

import (
	"math"
	"strings"
	"testing"
)

// Source: ISO 6336-5:2003/2016, Table 1; from memory. The printed coefficients give one decimal.
func TestAllowablesAgainstPart5(t *testing.T) {
	for _, row := range []struct {
		kind             Kind
		quality          Quality
		hardness         float64
		core             Core
		contact, bending float64
	}{
		{CaseHardened, ML, 700, CoreLow, 1300, 312}, {CaseHardened, MQ, 700, CoreLow, 1500, 425},
		{CaseHardened, MQ, 700, CoreMid, 1500, 461}, {CaseHardened, MQ, 700, CoreHard, 1500, 500},
		{CaseHardened, ME, 700, CoreHard, 1650, 525},
		{AlloySteel, ML, 300, CoreLow, 581.9, 230.9}, {AlloySteel, MQ, 300, CoreLow, 766.9, 314.5}, {AlloySteel, ME, 300, CoreLow, 923.9, 338.4},
		{CarbonSteel, MQ, 200, CoreLow, 545, 211},
		{NitridedSteel, ML, 700, CoreLow, 1125, 270}, {NitridedSteel, MQ, 700, CoreLow, 1250, 420}, {NitridedSteel, ME, 700, CoreLow, 1450, 468},
		{InductionHardened, ML, 550, CoreLow, 1009, 243.75}, {InductionHardened, MQ, 550, CoreLow, 1179.55, 365.9},
	} {
		s, err := Allowable(row.kind, row.quality, row.hardness, row.core)
		if err != nil {
			t.Errorf("%v %v: %v", row.kind, row.quality, err)
			continue
		}
		near(t, row.kind.String()+" σ_Hlim", s.Contact, row.contact, 0.05)
		near(t, row.kind.String()+" σ_Flim", s.Bending, row.bending, 0.05)
	}
}

// Source: ship classification rules (Lloyd's Register, naval ships, 2023, Vol. 2, Pt 3, Ch. 1, Tables 1.7.1
// and 1.7.2), published, seen: a second set of allowables in the setting of ISO 6336 method B. They
// are one number where part 5 has three grades, so they should lie among those: between
// 10 % below ML and 10 % above ME.
func TestClassRulesLieAmongTheGrades(t *testing.T) {
	tensile := func(hv float64) float64 { return 3.2 * hv } // ISO 18265, rounded: 300 HV is 965 MPa
	for _, row := range []struct {
		what             string
		kind             Kind
		hardness         float64
		contact, bending float64 // 0 = no rule
	}{
		{"carburised Cr-Ni-Mo", CaseHardened, 700, 1500, 450},
		{"carburised, other", CaseHardened, 700, 0, 410},
		{"gas nitrided", NitridedSteel, 700, 0, 390},
		{"induction hardened", InductionHardened, 540, 0, 0.35*540 + 125},
		{"through-hardened alloy", AlloySteel, 300, 0.46*tensile(300) + 255, 0.1*tensile(300) + 185},
		{"through-hardened carbon", CarbonSteel, 200, 0.46*tensile(200) + 255, 0.09*tensile(200) + 150},
	} {
		low, err1 := Allowable(row.kind, ML, row.hardness, CoreLow)
		high, err2 := Allowable(row.kind, ME, row.hardness, CoreLow)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if v := row.contact; v != 0 && (v < 0.9*low.Contact || v > 1.1*high.Contact) {
			t.Errorf("%s: class rules give σ_Hlim %.0f, part 5 %.0f to %.0f", row.what, v, low.Contact, high.Contact)
		}
		if v := row.bending; v < 0.9*low.Bending || v > 1.1*high.Bending {
			t.Errorf("%s: class rules give σ_Flim %.0f, part 5 %.0f to %.0f", row.what, v, low.Bending, high.Bending)
		}
	}
}

func TestEveryKindHasRisingGrades(t *testing.T) {
	for k := NormalisedSteel; k.valid(); k++ {
		row, ok := allowables[k]
		if !ok {
			t.Errorf("%v has no row", k)
			continue
		}
		low, high := 0.0, math.Inf(1)
		for q := ML; q <= ME; q++ {
			low = max(low, row.contact[q].low, row.bending[q].low)
			high = min(high, row.contact[q].high, row.bending[q].high)
		}
		if low >= high {
			t.Errorf("%v: no hardness is common to all grades", k)
			continue
		}
		for _, h := range []float64{low, (low + high) / 2, high} {
			var last Strength
			for q := ML; q <= ME; q++ {
				s, err := Allowable(k, q, h, CoreHard)
				if err != nil {
					t.Fatal(err)
				}
				if s.Contact < last.Contact || s.Bending < last.Bending {
					t.Errorf("%v at %g: %v is below the grade before", k, h, q)
				}
				if !strings.Contains(s.Source, "from memory") || s.Young <= 0 || s.Density <= 0 {
					t.Errorf("%v: incomplete: %+v", k, s)
				}
				last = s
			}
		}
	}
}

func TestAllowableRefuses(t *testing.T) {
	for _, row := range []struct {
		kind     Kind
		quality  Quality
		hardness float64
		core     Core
		want     string
	}{
		{0, MQ, 700, CoreLow, "choose one of normalised steel"},
		{CaseHardened, 7, 700, CoreLow, "choose ML, MQ or ME"},
		{CaseHardened, MQ, 60, CoreLow, "outside 660 to 800 HV"},
		{CaseHardened, MQ, math.NaN(), CoreLow, "outside 660 to 800 HV"},
		{GreyIron, MQ, 500, CoreLow, "HBW"},
		{CaseHardened, MQ, 700, 5, "core class"},
	} {
		_, err := Allowable(row.kind, row.quality, row.hardness, row.core)
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%v %v %v: error %v, want it to say %q", row.kind, row.quality, row.hardness, err, row.want)
		}
	}
}

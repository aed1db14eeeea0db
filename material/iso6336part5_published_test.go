package material

import (
	"math"
	"testing"
)

// ISO 6336-5:2003, Table 1 (kept in 2016), every line of it that a steel here may use: what A x + B gives, by hand, at both
// ends of the range of hardness that the table gives it for (HBW for St, HV for all others). From memory; of Eh, V (alloy)
// and NT a second writing from memory agrees, and the 1500 MPa of Eh stands in a classification society's table that was
// seen. The coefficients have three decimals: half a unit of the last one times the hardness is within 0.05 MPa of these.
func TestAllLinesOfISO6336Part5(t *testing.T) {
	type ends struct{ from, to, low, high float64 } // HBW or HV, MPa
	for _, c := range []struct {
		g           Group
		flank, root [3]ends
	}{
		{GroupNormalised,
			[3]ends{{110, 210, 300, 400}, {110, 210, 300, 400}, {110, 210, 417.2, 569.2}},
			[3]ends{{110, 210, 119.05, 164.55}, {110, 210, 119.05, 164.55}, {110, 210, 189.46, 228.06}}},
		{GroupCarbonHardened,
			[3]ends{{135, 210, 413.01, 485.23}, {135, 210, 484.88, 554.25}, {135, 210, 545.13, 607.98}},
			[3]ends{{115, 215, 136.75, 161.75}, {115, 215, 190.6, 214.6}, {115, 215, 234.55, 262.85}}},
		{GroupAlloyHardened,
			[3]ends{{200, 360, 450.6, 660.68}, {200, 360, 635.6, 845.68}, {200, 390, 702.6, 1123.07}},
			[3]ends{{200, 360, 188.6, 256.28}, {200, 360, 272, 340}, {200, 390, 302.6, 370.62}}},
		{GroupCaseHardened,
			[3]ends{{600, 800, 1300, 1300}, {660, 800, 1500, 1500}, {660, 800, 1650, 1650}},
			[3]ends{{600, 800, 312, 312}, {660, 800, 461, 461}, {660, 800, 525, 525}}},
		{GroupSurfaceHardened,
			[3]ends{{485, 615, 960.9, 1057.1}, {500, 615, 1152.5, 1214.72}, {500, 615, 1265.5, 1323.58}},
			[3]ends{{485, 615, 223.93, 263.58}, {500, 615, 359, 369}, {500, 615, 372.5, 403.67}}},
		{GroupNitridingSteel,
			[3]ends{{650, 900, 1125, 1125}, {650, 900, 1250, 1250}, {650, 900, 1450, 1450}},
			[3]ends{{650, 900, 270, 270}, {650, 900, 420, 420}, {650, 900, 468, 468}}},
		{GroupNitridedAlloy,
			[3]ends{{450, 650, 788, 788}, {450, 650, 998, 998}, {450, 650, 1217, 1217}},
			[3]ends{{450, 650, 258, 258}, {450, 650, 363, 363}, {450, 650, 432, 432}}},
		{GroupNitrocarburised,
			[3]ends{{300, 650, 650, 650}, {450, 650, 788, 788}, {450, 650, 788, 788}},
			[3]ends{{300, 650, 224, 224}, {450, 650, 258, 258}, {450, 650, 258, 258}}},
	} {
		for l := Low; l <= High; l++ {
			for _, row := range []struct {
				of   func(Group, Level) (Line, error)
				ends ends
			}{{FlankLine, c.flank[l]}, {RootLine, c.root[l]}} {
				line, err := row.of(c.g, l)
				if err != nil {
					t.Fatal(err)
				}
				for _, p := range [][2]float64{{row.ends.from, row.ends.low}, {row.ends.to, row.ends.high}} {
					if got, err := line.At(p[0]); err != nil || math.Abs(got-p[1]) > 0.01 {
						t.Errorf("%s at %g: %v MPa, %v; the table gives %g", line.Source, p[0], got, err, p[1])
					}
				}
				for _, outside := range []float64{row.ends.from - 1, row.ends.to + 1} {
					if v, err := line.At(outside); err == nil {
						t.Errorf("%s at %g: %v MPa, outside the range of the table", line.Source, outside, v)
					}
				}
			}
		}
	}
	// IF, MQ, bending: the rising line 0.138 HV + 290 ends at 570 HV, where the level one begins.
	line, _ := RootLine(GroupSurfaceHardened, Typical)
	if got, err := line.At(560); err != nil || math.Abs(got-367.28) > 0.01 {
		t.Errorf("%s at 560: %v, %v", line.Source, got, err)
	}
}

// The bands of the steels against the same table: what each level is said to be in its source.
func TestSteelsAgainstISO6336Part5(t *testing.T) {
	for name, want := range map[string][2][3]float64{ // flank and root, low, typical, high, MPa
		"case-carburised":     {{1300, 1500, 1650}, {312, 461, 525}},
		"carburised-cr-mn":    {{1300, 1500, 1650}, {312, 425, 500}}, // ML; MQ of the two core classes below and above the middle one
		"carburised-ni-cr-mo": {{1300, 1500, 1650}, {425, 500, 525}},
		"through-hardened":    {{547.76, 787.91, 959.31}, {219.90, 321.3, 344.13}}, // 274, 316, 316 HV (260 and 300 HBW)
		"nitrided":            {{788, 998, 1250}, {258, 363, 420}},                 // NV ML and MQ, NT MQ
		"induction-hardened":  {{981.62, 1194.70, 1322.57}, {158, 369, 403.12}},    // root low: V (carbon) ML at 200 HV
		"carbon-steel":        {{361, 370, 554}, {146.81, 150.9, 224.2}},
	} {
		s, ok := Find(name)
		if !ok {
			t.Fatalf("no steel %q", name)
		}
		for l := Low; l <= High; l++ {
			if got := s.FlankLimit.At(l); math.Abs(got-want[0][l]) > 0.01 {
				t.Errorf("%s, flank, %v: %v MPa, the table gives %v", name, l, got, want[0][l])
			}
			if got := s.RootLimit.At(l); math.Abs(got-want[1][l]) > 0.01 {
				t.Errorf("%s, root, %v: %v MPa, the table gives %v", name, l, got, want[1][l])
			}
		}
	}
}

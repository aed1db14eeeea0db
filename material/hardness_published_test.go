package material

import (
	"math"
	"strings"
	"testing"
)

// ASTM E140, Table 1 (non-austenitic steels): HRC against HV and HBW (10 mm ball,
// 3000 kg); from memory. A second table than the one in the code, made from other
// tests: the two agree within 1 % in HV up to 65 HRC, and 2 % in HBW.
func TestRockwellAgainstASTME140(t *testing.T) {
	for _, c := range []struct{ hrc, hv, hb float64 }{
		{65, 832, 0}, {62, 746, 0}, {60, 697, 0}, {58, 653, 0}, {55, 595, 560}, {50, 513, 481},
		{45, 446, 421}, {40, 392, 371}, {35, 345, 327}, {30, 302, 286}, {25, 266, 253},
	} {
		hv, err := VickersOfRockwell(c.hrc)
		if err != nil || math.Abs(hv-c.hv) > 0.01*c.hv {
			t.Errorf("%v HRC = %v HV, %v; ASTM %v", c.hrc, hv, err, c.hv)
		}
		if c.hb == 0 {
			continue
		}
		if hb, err := Brinell(hv); err != nil || math.Abs(hb-c.hb) > 0.02*c.hb {
			t.Errorf("%v HRC = %v HBW, %v; ASTM %v", c.hrc, hb, err, c.hb)
		}
	}
}

// Budynas and Nisbett, Shigley's Mechanical Engineering Design, 8th ed., eq. 2-17:
// S_u = 3.4 HB (MPa) or 0.5 HB (kpsi, 3.45 HB in MPa); from memory. The textbook rule
// is good to a few per cent.
func TestTensileAgainstShigley(t *testing.T) {
	for hb := 120.0; hb <= 440; hb += 20 {
		hv, err := VickersOfBrinell(hb)
		if err != nil {
			t.Fatal(err)
		}
		rm, err := TensileOfVickers(hv)
		if err != nil || math.Abs(rm-3.4*hb) > 0.04*3.4*hb {
			t.Errorf("%v HBW: %v MPa, %v; textbook %v", hb, rm, err, 3.4*hb)
		}
	}
}

// A slip in one row of the table would show as a kink.
func TestConversionTableRisesSmoothly(t *testing.T) {
	for k, row := range conversion[1:] {
		before := conversion[k]
		for col := range row {
			if row[col] != 0 && before[col] != 0 && row[col] <= before[col] {
				t.Errorf("row %v follows %v", row, before)
			}
		}
		if hb := row[brinell]; hb != 0 && math.Abs(hb-0.95*row[vickers]) > 0.51 {
			t.Errorf("%v HV: %v HBW is not 0.95 HV", row[vickers], hb)
		}
		if rm := row[tensile]; rm != 0 && (rm/row[vickers] < 3.15 || rm/row[vickers] > 3.36) {
			t.Errorf("%v HV: %v MPa is not 3.15 to 3.36 HV", row[vickers], rm)
		}
	}
	for k := 2; k < len(conversion); k++ {
		a, b, c := conversion[k-2], conversion[k-1], conversion[k]
		if a[rockwell] == 0 {
			continue
		}
		one, two := (b[rockwell]-a[rockwell])/(b[vickers]-a[vickers]), (c[rockwell]-b[rockwell])/(c[vickers]-b[vickers])
		if two > one*1.15+0.005 {
			t.Errorf("slope of HRC over HV rises from %.4f to %.4f at %v HV", one, two, b[vickers])
		}
	}
}

func TestConversionsThereAndBack(t *testing.T) {
	for hv := 80.0; hv <= 650; hv += 1.7 {
		for _, c := range []struct {
			there, back func(float64) (float64, error)
		}{{Brinell, VickersOfBrinell}, {TensileOfVickers, VickersOfTensile}} {
			v, err := c.there(hv)
			if err != nil {
				t.Fatal(err)
			}
			if back, err := c.back(v); err != nil || math.Abs(back-hv) > 1e-9*hv {
				t.Errorf("%v HV comes back as %v, %v", hv, back, err)
			}
		}
	}
}

// A Rockwell hardness and the Vickers hardness found from it lie on one line with the rows of the table.
func TestRockwellRises(t *testing.T) {
	last := 0.0
	for hrc := 20.3; hrc <= 68; hrc += 0.1 {
		hv, err := VickersOfRockwell(hrc)
		if err != nil || hv <= last {
			t.Fatalf("%v HRC: %v HV after %v, %v", hrc, hv, last, err)
		}
		last = hv
	}
}

func TestConversionOutsideTheTableIsAnError(t *testing.T) {
	for what, c := range map[string]struct {
		f    func(float64) (float64, error)
		v    float64
		want string
	}{
		"HRC as HV":     {Brinell, 58, "80 to 650 HV"},
		"HV as HRC":     {VickersOfRockwell, 700, "20.3 to 68 HRC"},
		"case as core":  {TensileOfVickers, 700, "80 to 650 HV"},
		"weak":          {VickersOfTensile, 200, "255 to 2180 MPa"},
		"not a number":  {VickersOfBrinell, math.NaN(), "76 to 618 HBW"},
		"below nothing": {VickersOfBrinell, -3, "76 to 618 HBW"},
	} {
		if v, err := c.f(c.v); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, %v; want an error with %q", what, v, err, c.want)
		}
	}
}

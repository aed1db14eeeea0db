package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

const degree = math.Pi / 180

// near allows the last digits of a float64.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-14*max(math.Abs(a), math.Abs(b)) }

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text             string
		want             Dimension
		value, tolerance float64
	}{
		{"25.4 mm", Length, 25.4, 0},
		{"25.4mm", Length, 25.4, 0},
		{"ø25.4 mm", Length, 25.4, 0},
		{"⌀ 1 in ± 1 thou", Length, 25.4, 0.0254},
		{" \t25.4 \u00a0mm ", Length, 25.4, 0},
		{"+25.4 mm", Length, 25.4, 0},
		{"-25.4 mm", Length, -25.4, 0},
		{"−25.4 mm", Length, -25.4, 0},
		{".5 mm", Length, 0.5, 0},
		{"0.5 mm", Length, 0.5, 0},
		{"0 mm", Length, 0, 0},
		{"13 µm", Length, 0.013, 0},
		{"13 μm", Length, 0.013, 0}, // Greek letter
		{"13 um", Length, 0.013, 0},
		{"2.5 cm", Length, 25, 0},
		{"0.1 m", Length, 100, 0},
		{"1 in", Length, 25.4, 0},
		{"1 in.", Length, 25.4, 0},
		{"2 INCHES", Length, 50.8, 0},
		{`1"`, Length, 25.4, 0},
		{"1″", Length, 25.4, 0},
		{"1 3/16 in", Length, 30.1625, 0},
		{"1-3/16 in", Length, 30.1625, 0},
		{`-1 3/16"`, Length, -30.1625, 0},
		{"3/4 in", Length, 19.05, 0},
		{"5/4 in", Length, 31.75, 0},
		{"1 3/16 in ± 1/64 in", Length, 30.1625, 0.396875},
		{"5 thou", Length, 0.127, 0},
		{"5 mil", Length, 0.127, 0},
		{"25.40 ± 0.02 mm", Length, 25.4, 0.02},
		{"25.40±0.02mm", Length, 25.4, 0.02},
		{"25.40 mm ± 0.02 mm", Length, 25.4, 0.02},
		{"25.40 mm ± 20 µm", Length, 25.4, 0.02},
		{"25.40 +/- 0.02 mm", Length, 25.4, 0.02},
		{"25.40 mm +- 1 thou", Length, 25.4, 0.0254},
		{"1e3 N", Force, 1000, 0},
		{"1.5E-2 kN", Force, 15, 0},
		{"2 kgf", Force, 19.6133, 0},
		{"170 N·m", Torque, 170000, 0},
		{"170 N.m", Torque, 170000, 0},
		{"170 N*m", Torque, 170000, 0},
		{"170 N m", Torque, 170000, 0},
		{"170 Nm", Torque, 170000, 0},
		{"170 Nmm", Torque, 170, 0},
		{"0.17 kN·m", Torque, 170000, 0},
		{"10 kgf-cm", Torque, 980.665, 0},
		{"10 kgcm", Torque, 980.665, 0},
		{"1 kgf·m", Torque, 9806.65, 0},
		{"700 MPa", Stress, 700, 0},
		{"700 N/mm²", Stress, 700, 0},
		{"700 N/mm2", Stress, 700, 0},
		{"700 N/mm^2", Stress, 700, 0},
		{"206 GPa", Stress, 206000, 0},
		{"60 rpm", RotationalSpeed, 2 * math.Pi, 0},
		{"60 RPM", RotationalSpeed, 2 * math.Pi, 0},
		{"60 1/min", RotationalSpeed, 2 * math.Pi, 0},
		{"60 min⁻¹", RotationalSpeed, 2 * math.Pi, 0},
		{"60 min^-1", RotationalSpeed, 2 * math.Pi, 0},
		{"60 /min", RotationalSpeed, 2 * math.Pi, 0},
		{"3 rad/s", RotationalSpeed, 3, 0},
		{"15.5°", Angle, 15.5 * degree, 0},
		{"15.5 º", Angle, 15.5 * degree, 0},
		{"15.5 deg", Angle, 15.5 * degree, 0},
		{"15.5 degrees", Angle, 15.5 * degree, 0},
		{"15° 30′", Angle, 15.5 * degree, 0},
		{"15°30'", Angle, 15.5 * degree, 0},
		{`15° 30' 36"`, Angle, 15.51 * degree, 0},
		{"15° 30' 36''", Angle, 15.51 * degree, 0},
		{"15° 05′ 09.6″", Angle, 15.086 * degree, 0},
		{"15° 36″", Angle, 15.01 * degree, 0},
		{"-15° 30′", Angle, -15.5 * degree, 0},
		{"-0° 30′", Angle, -0.5 * degree, 0},
		{"15° 30′ ± 3′", Angle, 15.5 * degree, 0.05 * degree},
		{"30′", Angle, 0.5 * degree, 0},
		{"2 mrad", Angle, 0.002, 0},
		{"2 µrad", Angle, 2e-6, 0},
		{"1.2 kg", Mass, 1.2, 0},
		{"500 g", Mass, 0.5, 0},
		{"1 lb", Mass, 0.45359237, 0},
		{"16 oz", Mass, 0.45359237, 0},
		{"7.85 g/cm³", Density, 7.85e-6, 0},
		{"7850 kg/m3", Density, 7.85e-6, 0},
		{"250 N/µm", RadialStiffness, 250000, 0},
		{"250 N/mm", RadialStiffness, 250, 0},
		{"250 kN/mm", RadialStiffness, 250000, 0},
		{"15 kN·m/rad", TiltStiffness, 15e6, 0},
		{"15 N·m/mrad", TiltStiffness, 15e6, 0},
		{"15 N·mm/rad", TiltStiffness, 15, 0},
		{"15 N·m/°", TiltStiffness, 15000 / degree, 0},
		{"80 °C", Temperature, 80, 0},
		{"80 C", Temperature, 80, 0},
		{"-40 °F", Temperature, -40, 0},
		{"212 ± 9 °F", Temperature, 100, 5},
		{"273.15 K", Temperature, 0, 0},
		{"0.35", Number, 0.35, 0},
		{"98.5 %", Number, 0.985, 0},
		{"98.5 ± 0.5 %", Number, 0.985, 0.005},
		{"0.35 ± 0.02", Number, 0.35, 0.02},
		{"10", PitchPerInch, 10, 0},
		{"10 /in", PitchPerInch, 10, 0},
		{"10 1/in", PitchPerInch, 10, 0},
		{"10 DP", PitchPerInch, 10, 0},
		{"100 mm²/s", Viscosity, 100, 0},
		{"100 mm2/s", Viscosity, 100, 0},
		{"100 mm^2/s", Viscosity, 100, 0},
		{"100 cSt", Viscosity, 100, 0},
		{"16 N/(mm·µm)", MeshStiffness, 16000, 0},
		{"16 N/(mm*um)", MeshStiffness, 16000, 0},
		{"16 N/(mm μm)", MeshStiffness, 16000, 0}, // Greek letter
		{"16 N/mm/µm", MeshStiffness, 16000, 0},
		{"16 ± 2 N/(mm·µm)", MeshStiffness, 16000, 2000},
		{"16000 N/mm²", MeshStiffness, 16000, 0},
		{"20 µm", Deflection, 0.02, 0},
		{"0.5 mrad", Slope, 0.0005, 0},
	} {
		q, err := Parse(c.text, c.want)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if !near(q.Value, c.value) || !near(q.Tolerance, c.tolerance) || q.Dimension != c.want || q.Scale != "" {
			t.Errorf("%q: got %v ± %v %s, want %v ± %v", c.text, q.Value, q.Tolerance, q.Scale, c.value, c.tolerance)
		}
	}
}

func TestHardnessKeepsItsScale(t *testing.T) {
	for text, scale := range map[string]string{"58 ± 2 HRC": "HRC", "58 hrc ± 2 HRC": "HRC", "700 ± 2 HV": "HV", "220 ± 2 HB": "HB", "220 ± 2 HBW": "HB"} {
		q, err := Parse(text, Hardness)
		if err != nil || q.Scale != scale || q.Tolerance != 2 {
			t.Errorf("%q: %+v, %v", text, q, err)
		}
	}
}

// Every way to write a torque in pounds that people use means the same.
func TestPoundFeetInEverySpelling(t *testing.T) {
	want := 300 * 4.4482216152605 * 304.8
	for _, unit := range strings.Split("lbf·ft|lbf ft|lbf.ft|lb·ft|lb-ft|lb ft|lbs-ft|lbft|ft-lb|ft·lb|ft lb|ft lbs|ft-lbs|ft-lbf|ft.lbf|FT-LB|Ft.Lbs.|ftlb|ft*lbf|lbf⋅ft", "|") {
		if q, err := Parse("300 "+unit, Torque); err != nil || !near(q.Value, want) {
			t.Errorf("%q: %v, %v", unit, q.Value, err)
		}
		inches := strings.NewReplacer("ft", "in", "FT", "IN", "Ft", "In").Replace(unit)
		if q, err := Parse("300 "+inches, Torque); err != nil || !near(q.Value, want/12) {
			t.Errorf("%q: %v, %v", inches, q.Value, err)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text  string
		want  Dimension
		place string // the same text with the wrong part in brackets
		says  string
	}{
		{"", Length, "[]", "missing value: A length is expected, such as 25.4 mm."},
		{"  ", Length, "[ ] ", "missing value: A length is expected, such as 25.4 mm."},
		{"mm", Length, "[mm]", `not a number: "mm" doesn't begin with a number; a length is expected, such as 25.4 mm.`},
		{"true", Torque, "[true]", `not a number: "true" doesn't begin with a number; a torque is expected, such as 170 N·m.`},
		{"- 5 mm", Length, "[- 5 mm]", `not a number: "- 5 mm" doesn't begin with a number; a length is expected, such as 25.4 mm.`},
		{"NaN mm", Length, "[NaN mm]", `not a number: "NaN mm" can't be computed with; a length is expected, such as 25.4 mm.`},
		{"-.inf", Number, "[-.inf]", `not a number: "-.inf" can't be computed with; a plain number is expected, such as 0.35.`},
		{"Infinity", Angle, "[Infinity]", `not a number: "Infinity" can't be computed with; an angle is expected, such as 20°.`},
		{"1e999 mm", Length, "[1e999] mm", "number too large: 1e999 is more than this program can count."},
		{"1e308 m", Length, "[1e308 m]", `number too large: "1e308 m" is more than this program can count.`},
		{"25.4", Length, "[25.4]", `missing unit: "25.4" has no unit; a length is expected, such as 25.4 mm.`},
		{"25.4 ± 0.2", Length, "[25.4] ± 0.2", `missing unit: "25.4" has no unit; a length is expected, such as 25.4 mm.`},
		{"25.4 mm ± 0.2", Length, "25.4 mm ± [0.2]", "missing unit: The tolerance has no unit: write it before the unit, such as 25.40 ± 0.02 mm, or give it its own."},
		{"98 % ± 1", Number, "98 % ± [1]", "missing unit: The tolerance has no unit: write it before the unit, such as 25.40 ± 0.02 mm, or give it its own."},
		{"58", Hardness, "[58]", `missing unit: "58" has no unit; a hardness is expected, such as 58 HRC.`},
		{"12 N", Length, "12 [N]", "wrong unit: N is a force; a length is expected, such as 25.4 mm."},
		{"12 mm", Number, "12 [mm]", "wrong unit: mm is a length; a plain number is expected, such as 0.35."},
		{"12 mm ± 3 N", Length, "12 mm ± 3 [N]", "wrong unit: N is a force; a length is expected, such as 25.4 mm."},
		{"170 N·m/rad", Torque, "170 [N·m/rad]", "wrong unit: N·m/rad is a tilt stiffness; a torque is expected, such as 170 N·m."},
		{"2 kg", Force, "2 [kg]", "wrong unit: kg is a mass; a force is expected, such as 300 N."},
		{"12 N/mm²", Length, "12 [N/mm²]", "wrong unit: N/mm² is a stress; a length is expected, such as 25.4 mm."},
		{"12 psi", Length, "12 [psi]", "wrong unit: psi is a stress; a length is expected, such as 25.4 mm."},
		{"16 N/µm", MeshStiffness, "16 [N/µm]", "wrong unit: N/µm is a stiffness; a mesh stiffness is expected, such as 16 N/(mm·µm)."},
		{"16 N/(mm·nm)", MeshStiffness, "16 [N/(mm·nm)]", `unknown unit "N/(mm·nm)": A mesh stiffness is expected, such as 16 N/(mm·µm). Did you mean "N/(mm·µm)"?`},
		{"100 Pa·s", Viscosity, "100 [Pa·s]", `unknown unit "Pa·s": A viscosity is expected, such as 100 mm²/s. Units known here: mm²/s.`},
		{"12 mmm", Length, "12 [mmm]", `unknown unit "mmm": A length is expected, such as 25.4 mm. Did you mean "mm"?`},
		{"12 MM", Length, "12 [MM]", `unknown unit "MM": A length is expected, such as 25.4 mm. Did you mean "mm"?`},
		{"170 nm", Torque, "170 [nm]", `unknown unit "nm": A torque is expected, such as 170 N·m. Did you mean "N·m"?`},
		{"12 ft", Length, "12 [ft]", `unknown unit "ft": A length is expected, such as 25.4 mm. Units known here: mm, cm, m, µm, in, thou.`},
		{"12 quux", Mass, "12 [quux]", `unknown unit "quux": A mass is expected, such as 1.2 kg. Units known here: kg, g, lb, oz.`},
		{"5 µn", Deflection, "5 [µn]", `unknown unit "µn": A length is expected, such as 20 µm. Did you mean "µm"?`},
		{"12,5 mm", Length, "[12,5] mm", "a comma in a number: The decimal sign is a point: write 12.5."},
		{"1,000 N", Force, "[1,000] N", `a comma in a number: "1,000" can be read in two ways: write 1.000 or 1000.`},
		{"1,000,000 N", Force, "[1,000,000] N", `a separator in a number: "1,000,000" has signs between its digits: write the digits without them, with a point before the decimals.`},
		{"1.000,5 N", Force, "[1.000,5] N", `a separator in a number: "1.000,5" has signs between its digits: write the digits without them, with a point before the decimals.`},
		{"1.000.000 N", Force, "[1.000.000] N", `a separator in a number: "1.000.000" has signs between its digits: write the digits without them, with a point before the decimals.`},
		{"1'000 N", Force, "[1'000] N", `a separator in a number: "1'000" has signs between its digits: write the digits without them, with a point before the decimals.`},
		{"1_000 N", Force, "[1_000] N", `a separator in a number: "1_000" has signs between its digits: write the digits without them, with a point before the decimals.`},
		{"1 000 N", Force, "[1 000] N", `a space in a number: "1 000" has a space between its digits: write 1000.`},
		{"017 mm", Length, "[017] mm", `a leading zero: "017" begins with a zero that means nothing: write 17.`},
		{"-00.5 mm", Length, "[-00.5] mm", `a leading zero: "-00.5" begins with a zero that means nothing: write 0.5.`},
		{"0x10 mm", Length, "[0x10] mm", `not a decimal number: "0x10" is a computer's way to write a number; write it with decimal digits.`},
		{"0o17 mm", Length, "[0o17] mm", `not a decimal number: "0o17" is a computer's way to write a number; write it with decimal digits.`},
		{"25 ± -1 mm", Length, "25 ± [-1] mm", `a negative tolerance: "-1" stands behind ±; write it without a sign.`},
		{"25 ± mm", Length, "25 ± [mm]", `not a number: "mm" doesn't begin with a number; a length is expected, such as 25.4 mm.`},
		{"25 ± 1 ± 2 mm", Length, "25 ± 1 [± 2 mm]", `too much text: "± 2 mm" follows the tolerance; one tolerance is enough.`},
		{"25 mm +0.1/-0.2", Length, "25 [mm +0.1/-0.2]", `a tolerance to one side: "mm +0.1/-0.2" gives a tolerance that isn't the same to both sides: write 24.95 ± 0.15 mm.`},
		{"34 mm -0.02", Length, "34 [mm -0.02]", `a tolerance to one side: "mm -0.02" gives a tolerance that isn't the same to both sides: write 33.99 ± 0.01 mm.`},
		{"ø34 −0.02 mm", Length, "ø34 [−0.02 mm]", `a tolerance to one side: "−0.02 mm" gives a tolerance that isn't the same to both sides: write 33.99 ± 0.01 mm.`},
		{"34 +0/-0.02", Length, "34 [+0/-0.02]", `a tolerance to one side: "+0/-0.02" gives a tolerance that isn't the same to both sides: write the middle and what it may be off either way, such as 25.40 ± 0.02 mm.`},
		{"ø34", Length, "ø[34]", `missing unit: "34" has no unit; a length is expected, such as 25.4 mm.`},
		{"34h6", Length, "34[h6]", `a fit: "h6" reads like a fit of ISO 286, which is no length: write what was measured, such as 25.40 ± 0.02 mm.`},
		{"ø34 N", Force, "[ø34 N]", `not a number: "ø34 N" doesn't begin with a number; a force is expected, such as 300 N.`},
		{"3/4 mm", Length, "[3/4] mm", "a fraction: A fraction goes with inches only; write a decimal number."},
		{"1/2", Number, "[1/2]", "a fraction: A fraction goes with inches only; write a decimal number."},
		{"1 3/0 in", Length, "[1 3/0] in", `not a fraction: "1 3/0" is not a fraction of an inch such as 1 3/16.`},
		{"1 17/16 in", Length, "[1 17/16] in", `not a fraction: "1 17/16" is not a fraction of an inch such as 1 3/16.`},
		{"15.5° 30′", Angle, "[15.5]° 30′", "a broken angle: Only the last of degrees, minutes and seconds may have decimals."},
		{"15° 60′", Angle, "15° [60′]", "a broken angle: Minutes (′) and seconds (″) below 60 may follow degrees, such as 15° 30′ 10″."},
		{"15° 30° ", Angle, "15° [30°]", "a broken angle: Minutes (′) and seconds (″) below 60 may follow degrees, such as 15° 30′ 10″."},
		{"15° 30", Angle, "15° [30]", "a broken angle: Minutes (′) and seconds (″) below 60 may follow degrees, such as 15° 30′ 10″."},
		{"58 HRC ± 1 HV", Hardness, "58 HRC ± [1] HV", "wrong unit: The tolerance is on another hardness scale than the value."},
	} {
		_, err := Parse(c.text, c.want)
		e, ok := errors.AsType[*Error](err)
		if !ok {
			t.Errorf("%q: got %v, want an *Error", c.text, err)
			continue
		}
		if e.Error() != c.says {
			t.Errorf("%q:\ngot  %s\nwant %s", c.text, e, c.says)
		}
		runes := []rune(c.text)
		end := min(e.Offset+e.Width, len(runes))
		marked := string(runes[:e.Offset]) + "[" + string(runes[e.Offset:end]) + "]" + string(runes[end:])
		if strings.TrimSpace(marked) != strings.TrimSpace(c.place) {
			t.Errorf("%q: marked %s, want %s", c.text, marked, c.place)
		}
	}
}

// What Format writes, Parse reads as the same number, in both systems.
func TestFormatAndParseAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Dimension(rapid.IntRange(int(Number), len(dimensions)-1).Filter(func(d int) bool { return Dimension(d) != Hardness }).Draw(t, "dimension"))
		s := System(rapid.IntRange(int(Metric), int(US)).Draw(t, "system"))
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "value")
		text := Format(v, d, s, 17)
		q, err := Parse(text, d)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		// The offset of °F takes digits from small temperatures.
		slack := 1e-15*math.Abs(v) + 1e-300 // in another unit a smaller number than that has fewer digits left
		if d == Temperature {
			slack += 1e-13
		}
		if math.Abs(q.Value-v) > 4*slack {
			t.Fatalf("%v %v → %q → %v", v, d, text, q.Value)
		}
	})
}

// Every spelling in the table is read as the unit it belongs to.
func TestEverySpellingIsRead(t *testing.T) {
	for i := range units {
		u := &units[i]
		for name := range strings.FieldsSeq(u.names) {
			q, err := Parse("7 "+name, u.dimension)
			if err != nil || !near(q.Value, u.inner(7)) {
				t.Errorf("7 %s: %v, %v", name, q.Value, err)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Fuzz(func(t *testing.T, text string, d int) {
		if d < int(Number) || d >= len(dimensions) {
			return
		}
		want := Dimension(d)
		q, err := Parse(text, want)
		again, errAgain := Parse(text, want)
		if q != again || (err == nil) != (errAgain == nil) {
			t.Fatalf("%q: two answers", text)
		}
		if err != nil {
			e, ok := errors.AsType[*Error](err)
			n := utf8.RuneCountInString(text)
			if !ok || e.Summary == "" || e.Detail == "" || e.Width < 1 || e.Offset < 0 || e.Offset > n || e.Offset+e.Width > n+1 {
				t.Fatalf("%q: %#v", text, err)
			}
			return
		}
		if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || !(q.Tolerance >= 0) || math.IsInf(q.Tolerance, 0) {
			t.Fatalf("%q: %+v", text, q)
		}
		if (q.Scale != "") != (want == Hardness) {
			t.Fatalf("%q: scale %q", text, q.Scale)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := Parse("25.40 mm ± 20 µm", Length); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	for b.Loop() {
		Format(170000, Torque, US, 4)
	}
}

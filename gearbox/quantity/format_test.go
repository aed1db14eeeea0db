package quantity

import (
	"math"
	"testing"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		inner  float64
		d      Dimension
		s      System
		digits int
		want   string
	}{
		{25.4, Length, Metric, 4, "25.40 mm"},
		{25.4, Length, US, 4, "1.000 in"},
		{300, Force, Metric, 3, "300 N"},
		{4448.2216152605, Force, US, 4, "1000 lbf"},
		{170000, Torque, Metric, 4, "170.0 N·m"},
		{170000, Torque, US, 4, "125.4 lbf·ft"}, // 170 / 1.355818
		{700, Stress, Metric, 3, "700 MPa"},
		{700, Stress, US, 4, "101.5 ksi"}, // 700 / 6.894757
		{2 * math.Pi, RotationalSpeed, Metric, 3, "60.0 rpm"},
		{15.5 * math.Pi / 180, Angle, Metric, 3, "15.5°"},
		{1, Mass, US, 4, "2.205 lb"},
		{7.85e-6, Density, Metric, 3, "7.85 g/cm³"},
		{58, Hardness, Metric, 2, "58"},
		{250000, RadialStiffness, Metric, 3, "250 N/µm"},
		{15e6, TiltStiffness, Metric, 3, "15.0 kN·m/rad"},
		{100, Temperature, US, 3, "212 °F"},
		{0.35, Number, Metric, 3, "0.350"},
		{10, PitchPerInch, US, 3, "10.0 /in"},
		{100, Viscosity, US, 3, "100 mm²/s"},
		{16000, MeshStiffness, Metric, 3, "16.0 N/(mm·µm)"},
		{16000, MeshStiffness, US, 3, "2320000 psi"}, // 16000 / 0.006894757
		{4200, MomentOfInertia, Metric, 3, "42.0 kg·cm²"},
		{292.63965, MomentOfInertia, US, 4, "1.000 lb·in²"},
		{2500, TorqueTime, Metric, 2, "2.5 N·m·s"},
		{900e3, Energy, Metric, 3, "900 J"},
		{15e3, TorquePerMass, Metric, 3, "15.0 N·m/kg"},
		{15e3, TorquePerMass, US, 3, "5.02 lbf·ft/lb"}, // 15 / 1.355818 · 0.4535924
		{0.0123, Deflection, Metric, 3, "12.3 µm"},
		{0.0254, Deflection, US, 3, "1.00 thou"},
		{0.00123, Slope, US, 3, "1.23 mrad"},
		{-0.00123, Slope, Metric, 3, "-1.23 mrad"},
		// Digits counted after rounding.
		{999.96, Force, Metric, 4, "1000 N"},
		{999.94, Force, Metric, 4, "999.9 N"},
		{99.996, Force, Metric, 4, "100.0 N"},
		{0.99996, Force, Metric, 4, "1.000 N"},
		{1000, Force, Metric, 4, "1000 N"},
		{12345, Force, Metric, 3, "12300 N"},
		{0.000123456, Number, Metric, 3, "0.000123"},
		{1.5e-9, Number, Metric, 2, "1.5e-09"},
		{2.5e12, Number, Metric, 2, "2.5e+12"},
		{0, Length, Metric, 4, "0 mm"},
		{math.Copysign(0, -1), Length, Metric, 4, "0 mm"},
		{5, Length, Metric, 0, "5 mm"}, // one digit at least
		{math.NaN(), Length, Metric, 4, "n/a"},
		{math.Inf(1), RadialStiffness, Metric, 4, "∞ N/µm"},
		{math.Inf(-1), Number, Metric, 4, "-∞"},
	} {
		if got := Format(c.inner, c.d, c.s, c.digits); got != c.want {
			t.Errorf("Format(%v, %v, %d, %d) = %q, want %q", c.inner, c.d, c.s, c.digits, got, c.want)
		}
	}
}

// Every dimension has words, an example that can be read, and a unit to be shown in.
func TestEveryDimensionIsComplete(t *testing.T) {
	for d := range Dimension(len(dimensions)) {
		if _, err := Parse(d.Example(), d); err != nil {
			t.Errorf("%v: the example %q: %v", d, d.Example(), err)
		}
		for _, s := range []System{Metric, US} {
			if v := Convert(1, d, s); math.IsNaN(v) {
				t.Errorf("%v: no unit", d)
			}
		}
		if len(Units(d)) == 0 {
			t.Errorf("%v: no units", d)
		}
	}
}

func TestUnitsAsWritten(t *testing.T) {
	for _, w := range []struct {
		text  string
		d     Dimension
		unit  string
		inner float64
		want  float64
	}{
		{"180 mm", Length, "mm", 180, 180},
		{"7.5 inch", Length, "in", 190.5, 7.5},
		{" 20 um ± 2 µm", Deflection, "µm", 0.02, 20},
		{"3000 1/min", RotationalSpeed, "rpm", 100 * math.Pi, 3000},
		{"300 rad/s", RotationalSpeed, "rad/s", 300, 300},
		{"15° 30′", Angle, "°", 15.5 * math.Pi / 180, 15.5},
		{"212 °F", Temperature, "°F", 100, 212},
		{"15 %", Number, "%", 0.15, 15},
		{"0.15", Number, "", 0, math.NaN()},
		{"170 mm", Torque, "", 0, math.NaN()},
	} {
		unit := UnitOf(w.text, w.d)
		got := In(w.inner, w.d, unit)
		if unit != w.unit || !(math.Abs(got-w.want) <= 1e-12*math.Abs(w.want)) && !(math.IsNaN(got) && math.IsNaN(w.want)) {
			t.Errorf("%q: %g %q, want %g %q", w.text, got, unit, w.want, w.unit)
		}
	}
}

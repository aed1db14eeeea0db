package quantity

import (
	"math"
	"strings"
	"testing"
)

// Factors as printed, to seven digits or exactly, in NIST Special Publication 811 (2008 edition), appendix B.8 "Factors for units listed
// alphabetically". Status: from memory of that table, not compared with the printed page. The tolerance is half a unit of the last digit given here.
var publishedFactors = []struct {
	text   string
	d      Dimension
	want   float64 // in the inner unit
	within float64
}{
	{"1 in", Length, 25.4, 0},                      // inch: 2.54 E-02 m, exact
	{"1 mil", Length, 0.0254, 0},                   // mil (0.001 in): 2.54 E-05 m, exact
	{"1 lbf", Force, 4.448222, 5e-7},               // pound-force: 4.448 222 N
	{"1 kgf", Force, 9.80665, 0},                   // kilogram-force: 9.806 65 N, exact
	{"1 lbf·ft", Torque, 1355.818, 5e-4},           // pound-force foot: 1.355 818 N·m
	{"1 lbf·in", Torque, 112.9848, 5e-5},           // pound-force inch: 1.129 848 E-01 N·m
	{"1 kgf·m", Torque, 9806.65, 0},                // kilogram-force meter: 9.806 65 N·m, exact
	{"1 psi", Stress, 0.006894757, 5e-10},          // pound-force per square inch: 6.894 757 E+03 Pa
	{"1 ksi", Stress, 6.894757, 5e-7},              // ksi: 6.894 757 E+06 Pa
	{"1 psi", MeshStiffness, 0.006894757, 5e-10},   // the same, per inch of face and inch of approach
	{"1 rpm", RotationalSpeed, 0.1047198, 5e-8},    // revolution per minute: 1.047 198 E-01 rad/s
	{"1°", Angle, 0.01745329, 5e-9},                // degree: 1.745 329 E-02 rad
	{"1′", Angle, 2.908882e-4, 5e-11},              // minute: 2.908 882 E-04 rad
	{"1″", Angle, 4.848137e-6, 5e-13},              // second: 4.848 137 E-06 rad
	{"1 lb", Mass, 0.4535924, 5e-8},                // pound (avoirdupois): 4.535 924 E-01 kg
	{"1 oz", Mass, 0.02834952, 5e-9},               // ounce (avoirdupois): 2.834 952 E-02 kg
	{"1 lb/in³", Density, 27679.90e-9, 5e-12},      // pound per cubic inch: 2.767 990 E+04 kg/m³
	{"1 lbf/in", RadialStiffness, 0.1751268, 5e-8}, // pound-force per inch: 1.751 268 E+02 N/m
	{"1 cSt", Viscosity, 1, 0},                     // centistokes: 1.0 E-06 m²/s, exact
	{"1 h", Time, 3600, 0},                         // hour: 3.6 E+03 s, exact
	{"1 min", Time, 60, 0},                         // minute: 6.0 E+01 s, exact
	{"1 km/h", Velocity, 277.7778, 5e-5},           // kilometer per hour: 2.777 778 E-01 m/s
	{"1 mph", Velocity, 447.04, 0},                 // mile per hour: 4.4704 E-01 m/s, exact
	{"1 lb·in²", MomentOfInertia, 292.6397, 5e-5},  // pound inch squared: 2.926 397 E-04 kg·m²
	{"1 lb·ft²", MomentOfInertia, 42140.11, 5e-3},  // pound foot squared: 4.214 011 E-02 kg·m²
	{"1 ft·lbf", Energy, 1355.818, 5e-4},           // foot pound-force: 1.355 818 E+00 J
	{"32 °F", Temperature, 0, 0},                   // t/°C = (t/°F − 32)/1.8
	{"0 K", Temperature, -273.15, 0},               // t/°C = T/K − 273.15
}

func TestConversionFactors(t *testing.T) {
	for _, c := range publishedFactors {
		q, err := Parse(c.text, c.d)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if slack := max(c.within, 1e-15*math.Abs(c.want)); math.Abs(q.Value-c.want) > slack {
			t.Errorf("%s is %.17g, want %.10g", c.text, q.Value, c.want)
		}
	}
}

// Decimal multiples and what is coherent, by definition of the SI prefixes.
var decimalFactors = []struct {
	text string
	d    Dimension
	want float64 // in the inner unit
}{
	{"1 %", Number, 0.01},
	{"1 mm", Length, 1}, {"1 cm", Length, 10}, {"1 m", Length, 1e3}, {"1 µm", Length, 1e-3},
	{"1 N", Force, 1}, {"1 kN", Force, 1e3},
	{"1 J", Energy, 1e3}, {"1 kJ", Energy, 1e6},
	{"1 N·m", Torque, 1e3}, {"1 N·mm", Torque, 1}, {"1 kN·m", Torque, 1e6}, {"1 kgf·cm", Torque, 98.0665},
	{"1 N/(mm·µm)", MeshStiffness, 1e3}, {"1 N/mm²", MeshStiffness, 1},
	{"1 MPa", Stress, 1}, {"1 GPa", Stress, 1e3},
	{"1 rad/s", RotationalSpeed, 1},
	{"1 rad", Angle, 1}, {"1 mrad", Angle, 1e-3}, {"1 µrad", Angle, 1e-6},
	{"1 kg", Mass, 1}, {"1 g", Mass, 1e-3},
	{"1 g/cm³", Density, 1e-6}, {"1 kg/m³", Density, 1e-9}, {"1 kg/mm³", Density, 1},
	{"1 HRC", Hardness, 1}, {"1 HV", Hardness, 1}, {"1 HB", Hardness, 1},
	{"1 N/µm", RadialStiffness, 1e3}, {"1 N/mm", RadialStiffness, 1}, {"1 kN/mm", RadialStiffness, 1e3},
	{"1 kN·m/rad", TiltStiffness, 1e6}, {"1 N·m/rad", TiltStiffness, 1e3}, {"1 N·mm/rad", TiltStiffness, 1},
	{"1 N·m/mrad", TiltStiffness, 1e6}, {"1 N·m/°", TiltStiffness, 1e3 * 180 / math.Pi},
	{"1 lbf·ft/rad", TiltStiffness, 4.4482216152605 * 304.8},
	{"1 °C", Temperature, 1},
	{"1 mm²/s", Viscosity, 1},
	{"1 s", Time, 1}, {"2 sec", Time, 2},
	{"1 m/s", Velocity, 1e3},
	{"1 kg·m²", MomentOfInertia, 1e6}, {"1 kg·cm²", MomentOfInertia, 100}, {"1 kg·mm²", MomentOfInertia, 1}, {"1 g·m²", MomentOfInertia, 1e3},
	{"1 N·m·s", TorqueTime, 1e3}, {"1 lbf·ft·s", TorqueTime, 4.4482216152605 * 304.8},
	{"1 N·m/kg", TorquePerMass, 1e3}, {"1 lbf·ft/lb", TorquePerMass, 9.80665 * 304.8},
	{"1 /in", PitchPerInch, 1},
}

func TestDecimalFactors(t *testing.T) {
	for _, c := range decimalFactors {
		q, err := Parse(c.text, c.d)
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
		} else if math.Abs(q.Value-c.want) > 1e-14*math.Abs(c.want) {
			t.Errorf("%s is %.17g, want %.10g", c.text, q.Value, c.want)
		}
	}
}

// Every unit has its row in one of the tables.
func TestEveryUnitIsHeldAgainstAFactor(t *testing.T) {
	held := map[*unit]bool{}
	hold := func(text string, d Dimension) {
		name := strings.TrimSpace(strings.TrimLeft(text, "0123456789"))
		u, ok := findUnit(name, d)
		if !ok {
			t.Errorf("%s is no unit", name)
		}
		held[u] = true
	}
	for _, c := range publishedFactors {
		hold(c.text, c.d)
	}
	for _, c := range decimalFactors {
		hold(c.text, c.d)
	}
	for i := range units {
		if !held[&units[i]] {
			t.Errorf("%s has no row", units[i].name())
		}
	}
}

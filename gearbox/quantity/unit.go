package quantity

import (
	"math"
	"strings"
	"unicode"
)

// A unit turns a number v into the inner unit as (v+offset)·mul/div. Two whole factors instead of one broken one keep 13 µm at 0.013 mm to the last digit.
type unit struct {
	dimension Dimension
	mul, div  float64
	offset    float64
	names     string // spellings, apart by spaces, the main one first
	anyCase   bool   // capitals and small letters are alike: there is no other unit it could be mistaken for
}

func (u *unit) name() string {
	first, _, _ := strings.Cut(u.names, " ")
	return first
}

func (u *unit) inner(v float64) float64 { return (v + u.offset) * u.mul / u.div }

func (u *unit) outer(inner float64) float64 { return inner*u.div/u.mul - u.offset }

// width is a difference of two values, such as a tolerance, in inner units.
func (u *unit) width(v float64) float64 { return v * u.mul / u.div }

// Definitions, all exact: NIST SP 811 (2008), appendix B, and the references there.
const (
	inch    = 25.4            // mm, international inch
	foot    = 12 * inch       // mm
	mile    = 5280 * foot     // mm, international mile
	pound   = 0.45359237      // kg, avoirdupois pound
	gravity = 9.80665         // N per kg, standard gravity
	lbf     = pound * gravity // N, = 4.4482216152605
	turn    = 2 * math.Pi     // rad
)

// The first unit of each dimension is the one proposed when a unit is missing.
var units = []unit{
	{Number, 1, 100, 0, "% percent", true},

	{Length, 1, 1, 0, "mm", false},
	{Length, 10, 1, 0, "cm", false},
	{Length, 1000, 1, 0, "m", false},
	{Length, 1, 1000, 0, "µm um", false},
	{Length, 254, 10, 0, "in inch inches ″", true},
	{Length, 254, 10000, 0, "thou mil mils", true},

	{Force, 1, 1, 0, "N", false},
	{Force, 1000, 1, 0, "kN", false},
	{Force, lbf, 1, 0, "lbf lb lbs", true},
	{Force, gravity, 1, 0, "kgf kp", true},

	// Before the torques, which share some of its spellings: where neither is expected, they are called a torque.
	{Energy, 1000, 1, 0, "J", false},
	{Energy, 1e6, 1, 0, "kJ", false},
	{Energy, lbf * foot, 1, 0, "ft·lbf ft·lb lbf·ft", true},

	{Torque, 1000, 1, 0, "N·m Nm", false},
	{Torque, 1, 1, 0, "N·mm Nmm", false},
	{Torque, 1e6, 1, 0, "kN·m kNm", false},
	{Torque, lbf * foot, 1, 0, "lbf·ft lb·ft lbs·ft ft·lbf ft·lb ft·lbs lbft lbfft lbsft ftlb ftlbf ftlbs", true},
	{Torque, lbf * inch, 1, 0, "lbf·in lb·in lbs·in in·lbf in·lb in·lbs lbin lbfin lbsin inlb inlbf inlbs", true},
	{Torque, gravity * 10, 1, 0, "kgf·cm kg·cm kgfcm kgcm", true},
	{Torque, gravity * 1000, 1, 0, "kgf·m kg·m kgfm kgm", true},

	// Before the stresses, which share some of its spellings: where neither is expected, N/mm² is called a stress.
	{MeshStiffness, 1000, 1, 0, "N/(mm·µm) N/(µm·mm) N/mm/µm N/µm/mm N/(mm·um) N/(um·mm) N/mm/um N/um/mm", false},
	{MeshStiffness, 1, 1, 0, "N/mm²", false},
	{MeshStiffness, lbf, inch * inch, 0, "psi lbf/in² lb/in²", true},

	{Stress, 1, 1, 0, "MPa N/mm²", false},
	{Stress, 1000, 1, 0, "GPa kN/mm²", false},
	{Stress, lbf, inch * inch, 0, "psi lbf/in² lb/in²", true},
	{Stress, 1000 * lbf, inch * inch, 0, "ksi", true},

	{RotationalSpeed, turn, 60, 0, "rpm 1/min /min min·1 r/min rev/min", true},
	{RotationalSpeed, 1, 1, 0, "rad/s", true},

	{Angle, turn, 360, 0, "° deg degree degrees", true},
	{Angle, 1, 1, 0, "rad", true},
	{Angle, 1, 1000, 0, "mrad", false},
	{Angle, 1, 1e6, 0, "µrad urad", false},
	{Angle, turn, 360 * 60, 0, "′ arcmin", true},
	{Angle, turn, 360 * 3600, 0, "″ arcsec", true},

	{Mass, 1, 1, 0, "kg", true},
	{Mass, 1, 1000, 0, "g", false},
	{Mass, pound, 1, 0, "lb lbs", true},
	{Mass, pound, 16, 0, "oz", true},

	{Density, 1, 1e6, 0, "g/cm³", false},
	{Density, 1, 1e9, 0, "kg/m³", false},
	{Density, 1, 1, 0, "kg/mm³", false},
	{Density, pound, inch * inch * inch, 0, "lb/in³ lbs/in³", true},

	{Hardness, 1, 1, 0, "HRC", true},
	{Hardness, 1, 1, 0, "HV", true},
	{Hardness, 1, 1, 0, "HB HBW", true},

	{RadialStiffness, 1000, 1, 0, "N/µm N/um", false},
	{RadialStiffness, 1, 1, 0, "N/mm", false},
	{RadialStiffness, 1000, 1, 0, "kN/mm", false},
	{RadialStiffness, lbf, inch, 0, "lbf/in lb/in lbs/in", true},

	{TiltStiffness, 1e6, 1, 0, "kN·m/rad kNm/rad", false},
	{TiltStiffness, 1000, 1, 0, "N·m/rad Nm/rad", false},
	{TiltStiffness, 1, 1, 0, "N·mm/rad Nmm/rad", false},
	{TiltStiffness, 1e6, 1, 0, "N·m/mrad Nm/mrad", false},
	{TiltStiffness, 1000 * 360, turn, 0, "N·m/° Nm/° N·m/deg Nm/deg", false},
	{TiltStiffness, lbf * foot, 1, 0, "lbf·ft/rad lb·ft/rad ft·lbf/rad ft·lb/rad", true},

	{Temperature, 1, 1, 0, "°C C degC deg·C °·C", false},
	{Temperature, 5, 9, -32, "°F F degF deg·F °·F", false},
	{Temperature, 1, 1, -273.15, "K", false},

	{Viscosity, 1, 1, 0, "mm²/s cSt", true},

	{Time, 1, 1, 0, "s sec", false},
	{Time, 60, 1, 0, "min", false},
	{Time, 3600, 1, 0, "h", false},

	{Velocity, 1e6, 3600, 0, "km/h kmh kph", true},
	{Velocity, mile, 3600, 0, "mph mi/h", true},
	{Velocity, 1000, 1, 0, "m/s", false},

	{MomentOfInertia, 1e6, 1, 0, "kg·m² kgm²", false},
	{MomentOfInertia, 100, 1, 0, "kg·cm² kgcm²", false},
	{MomentOfInertia, 1, 1, 0, "kg·mm² kgmm²", false},
	{MomentOfInertia, 1000, 1, 0, "g·m² gm²", false},
	{MomentOfInertia, pound * inch * inch, 1, 0, "lb·in² lbs·in²", true},
	{MomentOfInertia, pound * foot * foot, 1, 0, "lb·ft² lbs·ft²", true},

	{TorqueTime, 1000, 1, 0, "N·m·s Nms", false},
	{TorqueTime, lbf * foot, 1, 0, "lbf·ft·s lb·ft·s ft·lbf·s", true},

	{TorquePerMass, 1000, 1, 0, "N·m/kg Nm/kg", false},
	{TorquePerMass, lbf * foot, pound, 0, "lbf·ft/lb lb·ft/lb ft·lbf/lb", true},

	{PitchPerInch, 1, 1, 0, "/in 1/in in·1 DP per·inch per·in", true},
}

// spellings holds the places in units of every spelling, exact and, where case doesn't count, in small letters.
var spellings = func() map[string][]int {
	all := map[string][]int{}
	for i, u := range units {
		for name := range strings.FieldsSeq(u.names) {
			name = normal(name)
			all[name] = append(all[name], i)
			if small := strings.ToLower(name); u.anyCase && small != name {
				all[small] = append(all[small], i)
			}
		}
	}
	return all
}()

// findUnit is the unit that text names where dimension d is expected. When it names only units of other dimensions, one of those is returned.
func findUnit(text string, d Dimension) (u *unit, ok bool) {
	name := normal(text)
	for _, i := range spellings[name] {
		if u = &units[i]; u.dimension == d {
			return u, true
		}
	}
	for _, i := range spellings[strings.ToLower(name)] {
		if v := &units[i]; v.anyCase {
			if v.dimension == d {
				return v, true
			}
			u = v
		}
	}
	return u, false
}

// One spelling for signs that look or mean the same. The multiplication dot stands for every way to join two units, and for the minus of an exponent.
var signs = strings.NewReplacer(
	"⋅", "·", "•", "·", "∙", "·", "*", "·", "×", "·", ".", "·", "-", "·", "‐", "·", "‑", "·", "−", "·", "⁻", "·",
	"²", "2", "³", "3", "¹", "1", "^", "",
	"μ", "µ", // Greek letter for the micro sign
	"º", "°", "˚", "°", // ordinal sign and ring above for the degree sign
	"''", "″", "′′", "″", "’’", "″", `"`, "″", "”", "″", "'", "′", "’", "′",
)

// normal brings the spelling of a unit to the one used in the table.
func normal(text string) string {
	text = signs.Replace(text)
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '·' || unicode.IsSpace(r) })
	text = strings.Join(parts, "·")
	text = strings.ReplaceAll(text, "·/", "/")
	return strings.ReplaceAll(text, "/·", "/")
}

// nearestUnit is the main spelling of the unit of dimension d whose name differs from text by case and signs alone, or else by one letter.
func nearestUnit(text string, d Dimension) (string, bool) {
	bare := func(s string) string { return strings.ToLower(strings.ReplaceAll(normal(s), "·", "")) }
	word := bare(text)
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, oneSlip} {
		for i := range units {
			if units[i].dimension != d {
				continue
			}
			for name := range strings.FieldsSeq(units[i].names) {
				if same(word, bare(name)) {
					return units[i].name(), true
				}
			}
		}
	}
	return "", false
}

// oneSlip reports whether one letter added, left out or replaced makes a into b. Single letters are not compared: they would match anything.
func oneSlip(a, b string) bool {
	s, t := []rune(a), []rune(b)
	if len(s) > len(t) {
		s, t = t, s
	}
	if len(s) < 2 || len(t)-len(s) > 1 {
		return false
	}
	i := 0
	for i < len(s) && s[i] == t[i] {
		i++
	}
	if len(s) == len(t) {
		return i < len(s) && string(s[i+1:]) == string(t[i+1:])
	}
	return string(s[i:]) == string(t[i+1:])
}

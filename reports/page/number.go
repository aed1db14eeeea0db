package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"layshaft/gearbox/quantity"
)

// Words that stand where a number cannot.
const (
	notKnown   = "n/a"
	notReached = "not reached"
)

// figure is a number for people with the given significant digits, without an exponent and with a true minus sign.
func figure(v float64, digits int) string {
	switch {
	case math.IsNaN(v):
		return notKnown
	case math.IsInf(v, 1):
		return notReached
	case math.IsInf(v, -1):
		return notKnown
	case math.Abs(v) < 5e-7: // nothing in a workshop is that small in the units shown; it is what rounding leaves of a zero
		return "0"
	}
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	decimals := max(digits-1-int(math.Floor(math.Log10(math.Abs(v)))), 0)
	return trueMinus(strconv.FormatFloat(v, 'f', decimals, 64))
}

// short is a number that a person typed: up to four significant digits, none of them a trailing zero.
func short(v float64) string {
	s := figure(v, 4)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func trueMinus(s string) string { return strings.Replace(s, "-", "−", 1) }

// percent is a torque margin for people: always signed, whole percents from 100 % up, so that one a little below the wanted reserve shows it.
func percent(margin float64) string {
	p := 100 * margin
	switch {
	case math.IsNaN(p):
		return notKnown
	case math.IsInf(p, 1):
		return notReached
	case math.IsInf(p, -1):
		return notKnown
	}
	if p >= 1000 {
		return "> 1000 %"
	}
	decimals := 0
	if math.Abs(p) < 99.95 {
		decimals = 1
	}
	s := strconv.FormatFloat(math.Abs(p), 'f', decimals, 64)
	sign := "+"
	if p < 0 && strings.Trim(s, "0.") != "" {
		sign = "−"
	}
	return sign + s + " %"
}

// units shows inner values in the wanted system. Every unit shown here starts at zero, so a factor each will do for thousands of numbers.
type units struct {
	system quantity.System
	factor [quantity.TorquePerMass + 1]float64
}

func newUnits(system quantity.System) units {
	u := units{system: system}
	for _, d := range []quantity.Dimension{quantity.Length, quantity.Force, quantity.Torque, quantity.Stress, quantity.Angle,
		quantity.MeshStiffness, quantity.Deflection, quantity.Slope, quantity.Velocity, quantity.RotationalSpeed, quantity.Mass, quantity.MomentOfInertia, quantity.TorqueTime, quantity.TorquePerMass} {
		u.factor[d] = quantity.Convert(1, d, system)
	}
	return u
}

// number is the value in the unit shown, without the unit.
func (u units) number(inner float64, d quantity.Dimension, digits int) string {
	return figure(u.value(inner, d), digits)
}

// text is the value with its unit; words for what is not a finite number.
func (u units) text(inner float64, d quantity.Dimension, digits int) string {
	s := u.number(inner, d, digits)
	if s == notKnown || s == notReached {
		return s
	}
	return s + " " + u.unit(d)
}

// value is the inner value in the unit shown; NaN and ±Inf stay what they are.
func (u units) value(inner float64, d quantity.Dimension) float64 {
	if math.IsNaN(inner) || math.IsInf(inner, 0) {
		return inner
	}
	return inner * u.factor[d]
}

func (u units) unit(d quantity.Dimension) string { return quantity.Unit(d, u.system) }

// span is "low to high" in the unit shown, without the unit; one number when both print alike.
func (u units) span(low, high float64, d quantity.Dimension, digits int) string {
	a, b := u.number(low, d, digits), u.number(high, d, digits)
	if a == b {
		return a
	}
	return a + " to " + b
}

// clean makes a name safe to look at: control characters, line ends, and the marks that turn the direction of writing are shown by
// their code point, because any of them could make a page read differently from what its file says.
func clean(s string) string {
	plain := true
	for i := range len(s) {
		plain = plain && s[i] >= ' ' && s[i] <= '~'
	}
	if plain {
		return s
	}
	hidden := func(r rune) bool {
		return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == unicode.ReplacementChar
	}
	if strings.IndexFunc(s, hidden) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if hidden(r) {
			fmt.Fprintf(&b, "‹U+%04X›", r)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// table is chart data, row by row. As JSON every number has four significant digits, more than a screen can show, and null stands for what is not finite.
type table [][]float64

// MarshalJSON writes the rows.
func (t table) MarshalJSON() ([]byte, error) {
	b := make([]byte, 0, 16+len(t)*56)
	b = append(b, '[')
	for i, row := range t {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, '[')
		for j, v := range row {
			if j > 0 {
				b = append(b, ',')
			}
			b = appendRounded(b, v, 4)
		}
		b = append(b, ']')
	}
	return append(b, ']'), nil
}

// appendRounded writes a number as JSON to so many significant digits. What rounding leaves of a zero is written as zero.
func appendRounded(b []byte, v float64, digits int) []byte {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return append(b, "null"...)
	case math.Abs(v) < 1e-9:
		return append(b, '0')
	}
	return strconv.AppendFloat(b, v, 'g', digits, 64)
}

// rounded is one number of chart data, to five significant digits.
type rounded float64

// MarshalJSON writes the number.
func (r rounded) MarshalJSON() ([]byte, error) { return appendRounded(nil, float64(r), 5), nil }

// gaps counts the values of a table that are not finite.
func (t table) gaps() int {
	n := 0
	for _, row := range t {
		for _, v := range row {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				n++
			}
		}
	}
	return n
}

// scale is a round range of an axis and the step of its marks.
type scale struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
	Step float64 `json:"step"`
}

// roundScale takes [low, high] outwards to whole steps of 1, 2 or 5 times a power of ten, about `parts` of them.
func roundScale(low, high float64, parts int) scale {
	if !(high > low) {
		high = low + max(1e-9, math.Abs(low))
	}
	raw := (high - low) / float64(parts)
	unit := math.Pow(10, math.Floor(math.Log10(raw)))
	step := 10 * unit
	for _, k := range []float64{1, 2, 5} {
		if k*unit >= raw*(1-1e-9) {
			step = k * unit
			break
		}
	}
	return scale{step * math.Floor(low/step+1e-9), step * math.Ceil(high/step-1e-9), step}
}

// list joins words the way a sentence does.
func list(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
}

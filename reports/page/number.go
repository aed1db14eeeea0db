package page

import (
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// figure is a number with so many digits that count, as it is set on a page.
func figure(v float64, digits int) string { return typeset(view.Digits(v, digits)) }

// typeset gives a number its true minus, and a power of ten its raised exponent: "−1.5·10⁷".
func typeset(number string) string {
	mantissa, exponent, powers := strings.Cut(number, "e")
	if n, err := strconv.Atoi(exponent); powers && err == nil {
		number = mantissa + "·10" + view.Superscript(strconv.Itoa(n))
	}
	return strings.ReplaceAll(number, "-", "−")
}

// short is a number that a person typed, without trailing zeros.
func short(v float64) string { return typeset(view.Trimmed(v)) }

// percent is a torque margin for people.
func percent(margin float64) string {
	if !view.Finite(margin) {
		return view.Percent(margin)
	}
	return typeset(view.Percent(margin)) + " %"
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

// number is the value in the unit shown, without the unit. A torque without end is that of a limit.
func (u units) number(inner float64, d quantity.Dimension, digits int) string {
	if d == quantity.Torque && math.IsInf(inner, 1) {
		return view.NotReached
	}
	return figure(u.value(inner, d), digits)
}

// text is the value with its unit; words for what is not a finite number.
func (u units) text(inner float64, d quantity.Dimension, digits int) string {
	if v := u.value(inner, d); view.Finite(v) {
		return figure(v, digits) + " " + u.unit(d)
	}
	return u.number(inner, d, digits)
}

// value is the inner value in the unit shown; NaN and ±Inf stay what they are.
func (u units) value(inner float64, d quantity.Dimension) float64 {
	if math.IsNaN(inner) || math.IsInf(inner, 0) {
		return inner
	}
	return inner * u.factor[d]
}

func (u units) unit(d quantity.Dimension) string { return quantity.Unit(d, u.system) }

// span is "low … high" in the unit shown, without the unit; one number when both print alike.
func (u units) span(low, high float64, d quantity.Dimension, digits int) string {
	a, b := u.number(low, d, digits), u.number(high, d, digits)
	if a == b {
		return a
	}
	return a + " … " + b
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

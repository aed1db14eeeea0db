package quantity

import (
	"math"
	"strconv"
)

// System is a system of units for output.
type System int

// The systems.
const (
	Metric System = iota
	US
)

// Unit is the unit in which a value of dimension d is shown; "" for a Number, and for a Hardness, which carries its scale itself.
func Unit(d Dimension, s System) string { return dimensions[d].shown[s] }

// Convert turns an inner value of dimension d into the number that stands before Unit(d, s).
func Convert(inner float64, d Dimension, s System) float64 {
	name := Unit(d, s)
	if name == "" {
		return inner
	}
	u, ok := findUnit(name, d.physical())
	if !ok {
		panic("quantity: the unit shown for " + d.String() + " is not in the table")
	}
	return u.outer(inner)
}

// Format is an inner value of dimension d in the unit of Unit(d, s), rounded to so many significant digits: "25.40 mm", "20.00°". The zeros at the end
// are kept, they say how exact the number is; a number with more digits before the point is rounded there ("12300 N" with three).
// NaN is "n/a", an infinite value "∞".
func Format(inner float64, d Dimension, s System, digits int) string {
	if math.IsNaN(inner) {
		return "n/a"
	}
	number := round(Convert(inner, d, s), digits)
	switch unit := Unit(d, s); unit {
	case "":
		return number
	case "°":
		return number + unit
	default:
		return number + " " + unit
	}
}

// Sizes from which a number is written with an exponent: no length, force or stress of a gearbox is that small or that large.
const (
	tiny = 1e-5
	huge = 1e10
)

// round writes v with so many significant digits. How many decimals that makes is counted on the rounded number: 999.96 with four digits
// is 1000, not 1000.0.
func round(v float64, digits int) string {
	if math.IsInf(v, 0) {
		if v < 0 {
			return "-∞"
		}
		return "∞"
	}
	if v == 0 {
		return "0"
	}
	digits = min(max(digits, 1), 17)
	short := strconv.FormatFloat(v, 'e', digits-1, 64)
	rounded, err := strconv.ParseFloat(short, 64)
	if size := math.Abs(rounded); err != nil || size < tiny || size >= huge {
		return short
	}
	// Counted on the text: the logarithm of 1000 need not be 3.
	exponent, _ := strconv.Atoi(short[len(short)-3:])
	return strconv.FormatFloat(rounded, 'f', max(digits-1-exponent, 0), 64)
}

// In turns an inner value of dimension d into the number that stands before a unit of it, as UnitOf or Units names it. It
// is NaN when d has no such unit.
func In(inner float64, d Dimension, unit string) float64 {
	u, ok := findUnit(unit, d.physical())
	if !ok {
		return math.NaN()
	}
	return u.outer(inner)
}

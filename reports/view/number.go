package view

import (
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
)

// Words that stand where there is no number.
const (
	Absent     = "–"           // there is nothing to show
	NotKnown   = "n/a"         // a number that could not be found
	NotReached = "not reached" // a limit that no torque reaches
	Endless    = "endless"     // a life that the duty never uses up
	AtOnce     = "at once"     // a life that is over before the first load cycle
)

// NoBreak is a blank at which no line ends: it keeps a number and its unit together.
const NoBreak = "\u00a0"

// Plain is a number with three digits that count, for sentences: 182, 18.2, 0.182, 1234.
func Plain(v float64) string { return Digits(v, 3) }

// Digits is a number with so many digits that count, or all those before its point.
func Digits(v float64, digits int) string {
	const nothing = 5e-7 // nothing in a workshop is that small in the units shown; it is what rounding leaves of a zero
	if math.Abs(v) < nothing {
		v = 0
	}
	return Fixed(v, DecimalsFor(v, digits))
}

// With is an inner value with its unit, for sentences.
func With(inner float64, d quantity.Dimension, s quantity.System) string {
	return WithDigits(inner, d, s, 3)
}

// WithDigits is With with so many digits that count; what is not finite has no unit.
func WithDigits(inner float64, d quantity.Dimension, s quantity.System, digits int) string {
	v := quantity.Convert(inner, d, s)
	text, unit := Digits(v, digits), quantity.Unit(d, s)
	if unit == "" || !Finite(v) {
		return text
	}
	return text + NoBreak + unit
}

// Numbers of at least tooLarge, and those that would need mostDecimals, go by powers of ten: "1.23e+07". So no number is wider than
// nine columns.
const (
	tooLarge     = 1e7
	mostDecimals = 7
)

// DecimalsFor is how many decimals leave so many digits that count.
func DecimalsFor(v float64, digits int) int {
	if v == 0 || !Finite(v) {
		return 0
	}
	// The number is rounded before its size is taken: 99.96 with three digits is 100, not 100.0.
	text := strconv.FormatFloat(math.Abs(v), 'e', digits-1, 64)
	exponent, _ := strconv.Atoi(text[strings.IndexByte(text, 'e')+1:])
	return min(max(0, digits-1-exponent), mostDecimals)
}

// Fixed is a number with so many decimals, or by powers of ten. A zero has no sign, and what has no end is absent.
func Fixed(v float64, decimals int) string {
	switch size := math.Abs(v); {
	case math.IsNaN(v):
		return NotKnown
	case math.IsInf(v, 0):
		return Absent
	case size >= 1e99, size != 0 && size < 1e-99 && decimals == mostDecimals:
		return strconv.FormatFloat(v, 'e', 0, 64)
	case size >= tooLarge, size != 0 && decimals == mostDecimals:
		return strconv.FormatFloat(v, 'e', 2, 64)
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if isZero(text) {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// isZero reports whether a number as it is shown is zero.
func isZero(text string) bool { return strings.Trim(text, "-0.") == "" }

// NotWorth is the share of the largest number of a column below which a number isn't worth digits of its own.
const NotWorth = 1.0 / 20

// Decimals is the one number of decimals of a column. The smallest number that is worth comparing keeps three digits, so the
// largest has five at most.
func Decimals(values []float64) int {
	largest := 0.0
	for _, v := range values {
		if Finite(v) && math.Abs(v) < tooLarge {
			largest = max(largest, math.Abs(v))
		}
	}
	n := DecimalsFor(largest, 3)
	for _, v := range values {
		if Finite(v) && math.Abs(v) >= NotWorth*largest && math.Abs(v) < tooLarge {
			n = max(n, DecimalsFor(v, 3))
		}
	}
	return n
}

// Alike sets numbers with one number of decimals.
func Alike(values []float64) []string {
	n := Decimals(values)
	texts := make([]string, len(values))
	for i, v := range values {
		texts[i] = Fixed(v, n)
	}
	return texts
}

// AlikeIn sets inner values of one dimension in one unit with one number of decimals.
func AlikeIn(inner []float64, d quantity.Dimension, s quantity.System) []string {
	return Alike(Converted(inner, d, s))
}

// Converted are inner values in the unit shown.
func Converted(inner []float64, d quantity.Dimension, s quantity.System) []float64 {
	values := make([]float64, len(inner))
	for i, v := range inner {
		values[i] = quantity.Convert(v, d, s)
	}
	return values
}

// Percent is a margin or a change in per cent with its sign, without "%": "+7.1". What lies so close to zero that a tenth of a per
// cent would hide its sign has more decimals; what they hide too is a zero without a sign. So what is exceeded never shows a plus.
func Percent(fraction float64) string {
	switch v := 100 * fraction; {
	case math.IsInf(v, 1):
		return NotReached
	case !Finite(v):
		return Fixed(v, 0)
	case v >= 1000:
		return "> 1000"
	case v <= -1e5: // no margin is: at −100 nothing is left
		return strconv.FormatFloat(v, 'e', 0, 64)
	default:
		text := Fixed(v, 1)
		if isZero(text) {
			const most = 4 // decimals
			text = Fixed(v, min(DecimalsFor(v, 1), most))
		}
		if isZero(text) {
			return "0.0"
		}
		return Signed(text)
	}
}

// Signed puts a plus before a number above zero.
func Signed(text string) string {
	if text == "" || strings.HasPrefix(text, "-") || isZero(text) || text[0] < '0' || text[0] > '9' {
		return text
	}
	return "+" + text
}

// Share is a share in per cent without a sign, with three digits that count: "7.50 %".
func Share(share float64) string {
	v := 100 * math.Abs(share)
	if v >= 1000 {
		return "more than 1000" + NoBreak + "%"
	}
	return Plain(v) + NoBreak + "%"
}

// Trimmed is a number that somebody measured or typed: up to five digits that count, none of them a zero at its end.
func Trimmed(v float64) string {
	if !Finite(v) {
		return Fixed(v, 0)
	}
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'e', 4, 64), 64)
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// asGoodAsEndless is a number of repeats of the duty that nobody will drive; hardlyAny is one that is over before the first load cycle.
const (
	asGoodAsEndless = 1e9
	hardlyAny       = 1e-6
)

// Repeats is how many repeats of the duty something lasts, with two digits that count, in groups of three: 9 600. 0 = not counted.
func Repeats(v float64) string {
	switch {
	case v == 0 || math.IsNaN(v):
		return Absent
	case v > asGoodAsEndless:
		return Endless
	case v < hardlyAny:
		return AtOnce
	case v < 9.5:
		return Digits(v, 2)
	}
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'e', 1, 64), 64)
	text := strconv.FormatFloat(v, 'f', 0, 64)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + NoBreak + text[i:]
	}
	return text
}

// Down rounds a torque in the unit shown down, to whole ones, or below 10 to tenths.
func Down(v float64) string {
	const hair = 1e-9 // what arithmetic may take from a whole number
	switch {
	case !Finite(v):
		return Fixed(v, 0)
	case v >= 10:
		return Fixed(math.Floor(v*(1+hair)), 0)
	}
	return Fixed(math.Floor(10*v*(1+hair))/10, 1)
}

// Cycles is a number of load cycles, by powers of ten: "1.5e+07".
func Cycles(v float64) string {
	if !Finite(v) {
		return Fixed(v, 0)
	}
	return strconv.FormatFloat(v, 'e', 1, 64)
}

var raised = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "-", "⁻")

// Superscript raises the digits of a text.
func Superscript(text string) string { return raised.Replace(text) }

// Finite reports whether a number is neither infinite nor NaN.
func Finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

package reports

import (
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
)

// none is what stands where there is nothing to show; noLimit is a margin without end.
const (
	none    = "–"
	noLimit = "not reached"
)

// plain is a number with at least three digits that count, for sentences: 182, 18.2, 0.182, 1234.
func plain(v float64) string { return fixed(v, decimalsFor(v, 3)) }

// with is an inner value with its unit, for sentences.
func with(inner float64, d quantity.Dimension, s quantity.System) string {
	return withDigits(inner, d, s, 3)
}

func withDigits(inner float64, d quantity.Dimension, s quantity.System, digits int) string {
	v := quantity.Convert(inner, d, s)
	return strings.TrimSuffix(fixed(v, decimalsFor(v, digits))+noBreak+quantity.Unit(d, s), noBreak)
}

// Numbers of at least tooLarge, and those that would need mostDecimals, go by powers of ten: "1.23e+07". So no number is wider than nine columns.
const (
	tooLarge     = 1e7
	mostDecimals = 7
)

// decimalsFor is how many decimals leave so many digits that count.
func decimalsFor(v float64, digits int) int {
	if v == 0 || !finite(v) {
		return 0
	}
	// The number is rounded before its size is taken: 99.96 with three digits is 100, not 100.0.
	text := strconv.FormatFloat(math.Abs(v), 'e', digits-1, 64)
	exponent, _ := strconv.Atoi(text[strings.IndexByte(text, 'e')+1:])
	return min(max(0, digits-1-exponent), mostDecimals)
}

// fixed is a number with so many decimals, or by powers of ten.
func fixed(v float64, decimals int) string {
	switch size := math.Abs(v); {
	case math.IsNaN(v):
		return "n/a"
	case math.IsInf(v, 0):
		return none
	case size >= 1e99, size != 0 && size < 1e-99 && decimals == mostDecimals:
		return strconv.FormatFloat(v, 'e', 0, 64)
	case size >= tooLarge, size != 0 && decimals == mostDecimals:
		return strconv.FormatFloat(v, 'e', 2, 64)
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// notWorth is the share of the largest number of a column below which a number isn't worth digits of its own.
const notWorth = 1.0 / 20

// decimals is the one number of decimals of a column. The smallest number that is worth comparing keeps three digits, so the
// largest has five at most.
func decimals(values []float64) int {
	largest := 0.0
	for _, v := range values {
		if finite(v) && math.Abs(v) < tooLarge {
			largest = max(largest, math.Abs(v))
		}
	}
	n := decimalsFor(largest, 3)
	for _, v := range values {
		if finite(v) && math.Abs(v) >= notWorth*largest && math.Abs(v) < tooLarge {
			n = max(n, decimalsFor(v, 3))
		}
	}
	return n
}

// column sets inner values of one dimension in one unit with one number of decimals.
func column(inner []float64, d quantity.Dimension, s quantity.System) []string {
	return fixedColumn(convertAll(inner, d, s))
}

func convertAll(inner []float64, d quantity.Dimension, s quantity.System) []float64 {
	values := make([]float64, len(inner))
	for i, v := range inner {
		values[i] = quantity.Convert(v, d, s)
	}
	return values
}

func fixedColumn(values []float64) []string {
	n := decimals(values)
	texts := make([]string, len(values))
	for i, v := range values {
		texts[i] = fixed(v, n)
	}
	return texts
}

// percent is a fraction in percent with its sign, without "%": "+7.1". A margin without end is said in words.
func percent(fraction float64) string {
	switch v := 100 * fraction; {
	case math.IsNaN(v):
		return "n/a"
	case math.IsInf(v, 1):
		return noLimit
	case math.IsInf(v, -1):
		return none
	case v == 0:
		return "0.0"
	case v >= 1000:
		return "> 1000"
	case v <= -1e5: // no margin is: at −100 nothing is left
		return strconv.FormatFloat(v, 'e', 0, 64)
	default:
		// A margin just below zero stays "-0.0": its sign is the message.
		return signed(strconv.FormatFloat(v, 'f', 1, 64))
	}
}

func signed(text string) string {
	if strings.HasPrefix(text, "-") {
		return text
	}
	return "+" + text
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

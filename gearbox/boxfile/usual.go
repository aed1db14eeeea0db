package boxfile

import "fmt"

// usual is the range of values that are met with; what lies outside is more likely a slip of a unit or of a digit. Common practice, no source, wherever it
// is used.
type usual struct {
	low, high float64 // inner units
	words     string  // "150 to 2500 MPa is usual for the yield strength of a steel"
}

// usually is the limit with a question about what lies outside a range of usual values; what says what they are usual for.
func (l limit) usually(low, high, scale float64, unit, what string) limit {
	l.usual = &usual{low * scale, high * scale, plainly(low) + " to " + plainly(high) + unit + " is usual for " + what}
	return l
}

// holds reports whether a value is a usual one. 0 says that there is none of it.
func (u *usual) holds(v float64) bool {
	const hair = 1e-9
	return v == 0 || v >= u.low*(1-hair) && v <= u.high*(1+hair)
}

// hint is what may be meant by a value that isn't usual, as a sentence; "" when nobody knows.
func (u *usual) hint(v float64) string {
	const thousand, ten = 1000, 10
	switch {
	case v == 0:
	case u.holds(v / thousand):
		return "A thousandth of it would be usual: check the unit."
	case u.holds(v * thousand):
		return "A thousand times as much would be usual: check the unit."
	case u.holds(v / ten):
		return "A tenth of it would be usual: count the digits."
	case u.holds(v * ten):
		return "Ten times as much would be usual: count the digits."
	}
	return ""
}

// checkUsual asks about a value that is hardly met with.
func (r *reader) checkUsual(at spot, text string, keep limit, v float64) {
	if keep.usual == nil || keep.usual.holds(v) {
		return
	}
	advice := keep.usual.hint(v)
	if advice == "" {
		advice = "Check the number and its unit."
	}
	r.warn(at.place, at.path, "an unusual value", fmt.Sprintf("Found %q; %s. %s", short(text), keep.usual.words, advice))
}

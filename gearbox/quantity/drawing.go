package quantity

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// How drawings write lengths: a sign for diameters in front, deviations to one side, fits.

// diameterSign steps over the sign for a diameter, which may stand before a length and says nothing that the key doesn't.
func (s *scanner) diameterSign(want Dimension) {
	if want.physical() == Length && strings.ContainsRune("øØ⌀∅", s.peek(0)) {
		s.at++
		s.spaces()
	}
}

var (
	// fit is a tolerance class of ISO 286: h6, H7, js5.
	fit = regexp.MustCompile(`^[A-Za-z]{1,2}\d{1,2}$`)
	// deviations are one or two signed numbers where a unit ends or should stand: "mm -0.02", "+0.03/-0.01 mm", "mm +0 -0.02".
	deviations = regexp.MustCompile(`^([^-+−\d]*)([-+−]\d*\.?\d+)[\s/]*([-+−]?\d*\.?\d+)?([^-+−\d]*)$`)
)

// oneSided refuses deviations that aren't the same to both sides, which stand where the unit begins, and says how to write them; nil when there are none.
func (s *scanner) oneSided(start int, name string, want Dimension) *Error {
	found := deviations.FindStringSubmatch(name)
	if found == nil {
		return nil
	}
	says := quote(name) + " gives a tolerance that isn't the same to both sides: write the middle and what it may be off either way, such as 25.40 ± 0.02 mm."
	unit := strings.TrimSpace(found[1] + found[4])
	nominal, err := strconv.ParseFloat(strings.TrimLeft(strings.TrimSpace(string(s.text[:start])), "øØ⌀∅ "), 64)
	if u, known := findUnit(unit, want.physical()); err == nil && known {
		low, high := deviation(found[2]), deviation(found[3])
		low, high = min(low, high), max(low, high)
		// In the digits of a micrometer, so that no sum of binary fractions shows.
		exact := func(v float64) string { return strconv.FormatFloat(math.Round(v*1e5)/1e5, 'f', -1, 64) }
		says = quote(name) + " gives a tolerance that isn't the same to both sides: write " +
			exact(nominal+(low+high)/2) + " ± " + exact((high-low)/2) + " " + u.name() + "."
	}
	return s.fail(start, "a tolerance to one side", says)
}

// deviation is a signed number; 0 where none stands.
func deviation(text string) float64 {
	v, err := strconv.ParseFloat(strings.Replace(text, "−", "-", 1), 64)
	if err != nil {
		return 0
	}
	return v
}

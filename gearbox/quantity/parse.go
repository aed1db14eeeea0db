package quantity

import (
	"math"
	"slices"
	"strings"
	"unicode"
)

// Quantity is a number that was read from text.
type Quantity struct {
	Value     float64   // in the inner unit of its dimension
	Tolerance float64   // the ± in the same unit, ≥ 0; 0 when none was given
	Dimension Dimension // as it was expected
	Scale     string    // of a hardness: "HRC", "HV" or "HB"; else ""
}

// Error says what is wrong with a text that should be a quantity, and where in it.
type Error struct {
	Offset, Width   int    // of the wrong part, in runes from the start of the text
	Summary, Detail string // what kind of mistake; what was found and what to do
}

// Error is the summary and the detail in one line.
func (e *Error) Error() string { return e.Summary + ": " + e.Detail }

// Parse reads a number with a unit of the wanted dimension and, if there is one, its tolerance:
//
//	25.4 mm    ø25.4 mm    25.40 ± 0.02 mm    25.40 mm ± 20 µm    1 3/16 in    1e3 N    15° 30′ 10″    -300 lbf·ft
//
// The plus-minus sign may be written +/-. The error, if any, is an *Error.
func Parse(text string, want Dimension) (Quantity, error) {
	q, err := parse(text, want)
	if err != nil {
		return Quantity{}, err
	}
	return q, nil
}

func parse(text string, want Dimension) (Quantity, *Error) {
	physical := want.physical()
	s := scanner{text: []rune(strings.TrimRightFunc(text, unicode.IsSpace))}
	s.spaces()
	s.diameterSign(want)
	value, err := s.measure(want)
	if err != nil {
		return Quantity{}, err
	}
	var tolerance measure
	if given := s.plusMinus(); given {
		if tolerance, err = s.tolerance(want); err != nil {
			return Quantity{}, err
		}
		switch {
		case value.unit == nil:
			value.unit = tolerance.unit
		case tolerance.unit == nil:
			s.at = tolerance.end
			return Quantity{}, s.fail(tolerance.start, "missing unit",
				"The tolerance has no unit: write it before the unit, such as 25.40 ± 0.02 mm, or give it its own.")
		}
	}
	if value.unit == nil && physical != Number && physical != PitchPerInch {
		s.at = value.end
		return Quantity{}, s.fail(value.start, "missing unit", quote(s.from(value.start))+" has no unit; "+want.expected()+".")
	}
	for _, m := range []measure{value, tolerance} {
		if m.fraction && (value.unit == nil || value.unit.name() != "in") {
			s.at = m.end
			return Quantity{}, s.fail(m.start, "a fraction", "A fraction goes with inches only; write a decimal number.")
		}
	}
	q := Quantity{Value: value.number, Tolerance: tolerance.number, Dimension: want}
	if u := value.unit; u != nil {
		q.Value = u.inner(value.number)
		if physical == Hardness {
			q.Scale = u.name()
		}
	}
	if u := tolerance.unit; u != nil {
		q.Tolerance = u.width(tolerance.number)
		if physical == Hardness && u.name() != q.Scale {
			s.at = tolerance.end
			return Quantity{}, s.fail(tolerance.start, "wrong unit", "The tolerance is on another hardness scale than the value.")
		}
	}
	if math.IsInf(q.Value, 0) || math.IsInf(q.Tolerance, 0) {
		s.at = len(s.text)
		return Quantity{}, s.fail(value.start, "number too large", quote(s.from(value.start))+" is more than this program can count.")
	}
	return q, nil
}

// A measure is a number and its unit, as written.
type measure struct {
	number     float64
	fraction   bool // written as a fraction
	unit       *unit
	start, end int // of the number, without its unit
}

// plusMinus steps over a plus-minus sign if the scanner stands before one.
func (s *scanner) plusMinus() bool {
	for _, sign := range []string{"±", "+/-", "+/−", "+-"} {
		if strings.HasPrefix(s.rest(), sign) {
			s.at += len([]rune(sign))
			return true
		}
	}
	return false
}

func (s *scanner) tolerance(want Dimension) (measure, *Error) {
	s.spaces()
	m, err := s.measure(want)
	if err != nil {
		return m, err
	}
	if m.number < 0 {
		s.at = m.end
		return m, s.fail(m.start, "a negative tolerance", quote(s.from(m.start))+" stands behind ±; write it without a sign.")
	}
	if start := s.at; !s.done() {
		s.at = len(s.text)
		return m, s.fail(start, "too much text", quote(s.from(start))+" follows the tolerance; one tolerance is enough.")
	}
	return m, nil
}

// measure reads a number and the unit behind it, or degrees with minutes and seconds, and the spaces behind that.
func (s *scanner) measure(want Dimension) (measure, *Error) {
	m := measure{start: s.at}
	var err *Error
	if m.number, m.fraction, err = s.number(want, false); err != nil {
		return m, err
	}
	m.end = s.at
	if m.unit, err = s.unit(want); err != nil || want.physical() != Angle || m.unit == nil {
		return m, err
	}
	return s.minutes(m)
}

// minutes reads the minutes and seconds that follow degrees, or the seconds that follow minutes.
func (s *scanner) minutes(m measure) (measure, *Error) {
	start, negative := m.start, m.number < 0 || strings.ContainsRune("-−", s.text[m.start])
	unit, last := m.unit, m.number
	for isDigit(s.peek(0)) {
		part := measure{start: s.at}
		var err *Error
		if last != math.Trunc(last) {
			s.at = m.end
			return m, s.fail(start, "a broken angle", "Only the last of degrees, minutes and seconds may have decimals.")
		}
		if part.number, part.fraction, err = s.number(Angle, true); err != nil {
			return m, err
		}
		part.end = s.at
		if part.unit, err = s.unit(Angle); err != nil {
			return m, err
		}
		smaller := map[string][]string{"°": {"′", "″"}, "′": {"″"}}[unit.name()]
		if part.unit == nil || !slices.Contains(smaller, part.unit.name()) || part.number >= 60 || part.fraction {
			return m, s.fail(part.start, "a broken angle", "Minutes (′) and seconds (″) below 60 may follow degrees, such as 15° 30′ 10″.")
		}
		// In the unit of the first part, so that 15° 30′ is 15.5°.
		size := part.number * (part.unit.mul / part.unit.div) / (m.unit.mul / m.unit.div)
		if negative {
			size = -size
		}
		m.number += size
		unit, last = part.unit, part.number
	}
	return m, nil
}

// unit reads a unit, which ends at a plus-minus sign or the end of the text; that of an angle also before the next digit. It is nil when none is there.
func (s *scanner) unit(want Dimension) (*unit, *Error) {
	s.spaces()
	physical := want.physical()
	start, end := s.at, s.at
	for !s.done() && !(physical == Angle && isDigit(s.peek(0))) {
		if ahead := *s; ahead.plusMinus() {
			break
		}
		if s.at++; strings.TrimSpace(s.from(s.at-1)) != "" {
			end = s.at
		}
	}
	if start == end {
		return nil, nil
	}
	name := string(s.text[start:end])
	u, ok := findUnit(name, physical)
	if ok {
		return u, nil
	}
	s.at = end
	switch {
	case u != nil:
		k := dimensions[u.dimension]
		return nil, s.fail(start, "wrong unit", name+" is "+k.article+" "+k.noun+"; "+want.expected()+".")
	case fit.MatchString(name) && physical == Length:
		return nil, s.fail(start, "a fit", quote(name)+" reads like a fit of ISO 286, which is no length: write what was measured, such as 25.40 ± 0.02 mm.")
	}
	if err := s.oneSided(start, name, want); err != nil {
		return nil, err
	}
	detail := capital(want.expected()) + "."
	if near, ok := nearestUnit(name, physical); ok {
		detail += " Did you mean " + quote(near) + "?"
	} else if known := Units(want); len(known) > 0 {
		detail += " Units known here: " + strings.Join(known, ", ") + "."
	}
	return nil, s.fail(start, "unknown unit "+quote(name), detail)
}

// UnitOf is the unit in which a text gives a quantity of a dimension, in its main spelling; "" when there is none in it.
func UnitOf(text string, d Dimension) string {
	s := scanner{text: []rune(strings.TrimRightFunc(text, unicode.IsSpace))}
	s.spaces()
	s.diameterSign(d)
	if m, err := s.measure(d); err == nil && m.unit != nil {
		return m.unit.name()
	}
	return ""
}

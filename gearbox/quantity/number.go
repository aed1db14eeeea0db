package quantity

import (
	"strconv"
	"strings"
	"unicode"
)

// A scanner walks over the runes of a text that should be a quantity.
type scanner struct {
	text []rune
	at   int
}

func (s *scanner) rest() string      { return string(s.text[s.at:]) }
func (s *scanner) done() bool        { return s.at >= len(s.text) }
func (s *scanner) peek(n int) rune   { return runeAt(s.text, s.at+n) }
func (s *scanner) from(i int) string { return string(s.text[i:s.at]) }

func runeAt(text []rune, i int) rune {
	if i < 0 || i >= len(text) {
		return 0
	}
	return text[i]
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func (s *scanner) spaces() {
	for !s.done() && unicode.IsSpace(s.peek(0)) {
		s.at++
	}
}

func (s *scanner) digits() string {
	start := s.at
	for isDigit(s.peek(0)) {
		s.at++
	}
	return s.from(start)
}

// fail is an Error about the runes from start to where the scanner stands; at least one.
func (s *scanner) fail(start int, summary, detail string) *Error {
	return &Error{Offset: start, Width: max(s.at-start, 1), Summary: summary, Detail: detail}
}

// number reads a signed decimal number or a fraction of an inch (3/4, 1 3/16, 1-3/16). In degrees, minutes and seconds may have a leading zero and an
// apostrophe is a sign for minutes.
func (s *scanner) number(want Dimension, leadingZero bool) (value float64, fraction bool, err *Error) {
	start := s.at
	sign := 1.0
	switch s.peek(0) {
	case '-', '−':
		sign = -1
		s.at++
	case '+':
		s.at++
	}
	first := s.at
	whole := s.digits()
	point := s.peek(0) == '.' && (whole != "" || isDigit(s.peek(1)))
	if point {
		s.at++
		s.digits()
	}
	if s.at == first {
		return 0, false, s.noNumber(start, want)
	}
	if err := s.misspelt(start, first, whole, want, leadingZero); err != nil {
		return 0, false, err
	}
	if !point {
		if v, ok, err := s.fraction(start, whole); ok || err != nil {
			return sign * v, true, err
		}
	}
	if e := s.peek(0); e == 'e' || e == 'E' {
		n := 1
		if r := s.peek(1); r == '+' || r == '-' {
			n = 2
		}
		if isDigit(s.peek(n)) {
			s.at += n
			s.digits()
		}
	}
	digits := s.from(first)
	v, parseErr := strconv.ParseFloat(digits, 64)
	if parseErr != nil {
		return 0, false, s.fail(start, "number too large", digits+" is more than this program can count.")
	}
	if err := s.spaced(start); err != nil {
		return 0, false, err
	}
	return sign * v, false, nil
}

// noNumber says why there is no number where the scanner stands.
func (s *scanner) noNumber(start int, want Dimension) *Error {
	word := strings.TrimSpace(string(s.text[start:]))
	s.at = start + len([]rune(word))
	if word == "" {
		return s.fail(start, "missing value", capital(want.expected())+".")
	}
	bare, _, _ := strings.Cut(strings.TrimLeft(word, "+-−."), " ")
	switch strings.ToLower(bare) {
	case "nan", "inf", "infinity", "∞":
		return s.fail(start, "not a number", quote(word)+" can't be computed with; "+want.expected()+".")
	}
	return s.fail(start, "not a number", quote(word)+" doesn't begin with a number; "+want.expected()+".")
}

// misspelt refuses the ways to write a number that mean different things to different people. The scanner stands behind the digits and the decimal point.
func (s *scanner) misspelt(start, first int, whole string, want Dimension, leadingZero bool) *Error {
	next, after := s.peek(0), s.peek(1)
	apostrophe := (next == '\'' || next == '’') && want.physical() != Angle
	switch {
	case next == '_', next == ',' && isDigit(after), next == '.' && isDigit(after), apostrophe && isDigit(after):
		return s.separator(start, first)
	case whole == "0" && strings.ContainsRune("xXoObB", next) && isHex(after):
		for isHex(s.peek(1)) {
			s.at++
		}
		s.at++
		return s.fail(start, "not a decimal number", quote(s.from(start))+" is a computer's way to write a number; write it with decimal digits.")
	case len(whole) > 1 && whole[0] == '0' && !leadingZero:
		plain := strings.TrimLeft(whole, "0")
		if plain == "" {
			plain = "0"
		}
		plain += s.from(first + len(whole))
		return s.fail(start, "a leading zero", quote(s.from(start))+" begins with a zero that means nothing: write "+plain+".")
	}
	return nil
}

// separator refuses a number with something between its digits: 12,5 or 1,000 or 1'000 or 1_000 or 1.000.000.
func (s *scanner) separator(start, first int) *Error {
	between := func(r rune) bool { return strings.ContainsRune(",.'’_", r) }
	for isDigit(s.peek(0)) || between(s.peek(0)) && (isDigit(s.peek(1)) || s.peek(0) == '_') {
		s.at++
	}
	found := s.from(first)
	groups := strings.FieldsFunc(found, between)
	if strings.Count(found, ",") == 1 && len(groups) == 2 && strings.ContainsRune(found, ',') && !strings.Contains(found, "_") {
		decimal := groups[0] + "." + groups[1]
		if len(groups[1]) == 3 {
			return s.fail(start, "a comma in a number", quote(found)+" can be read in two ways: write "+decimal+" or "+groups[0]+groups[1]+".")
		}
		return s.fail(start, "a comma in a number", "The decimal sign is a point: write "+decimal+".")
	}
	return s.fail(start, "a separator in a number", quote(found)+" has signs between its digits: write the digits without them, with a point before the decimals.")
}

// spaced refuses "1 000 N". A unit may begin with a digit ("9000 1/min"), so a digit behind a space is not enough.
func (s *scanner) spaced(start int) *Error {
	ahead := scanner{s.text, s.at}
	ahead.spaces()
	if ahead.at == s.at || ahead.digits() == "" || ahead.peek(0) == '/' {
		return nil
	}
	found := ahead.from(start)
	return ahead.fail(start, "a space in a number", quote(found)+" has a space between its digits: write "+strings.Join(strings.Fields(found), "")+".")
}

// fraction reads the rest of 3/4, 1 3/16 or 1-3/16, of which whole is already read. When there is none, the scanner stays where it is.
func (s *scanner) fraction(start int, whole string) (value float64, ok bool, err *Error) {
	ahead := scanner{s.text, s.at}
	numerator := whole
	mixed := false
	if ahead.peek(0) != '/' {
		if ahead.peek(0) == '-' {
			ahead.at++
		} else {
			ahead.spaces()
		}
		mixed = true
		if numerator = ahead.digits(); numerator == "" || ahead.at == s.at+len(numerator) {
			return 0, false, nil
		}
	}
	if ahead.peek(0) != '/' || !isDigit(ahead.peek(1)) {
		return 0, false, nil
	}
	ahead.at++
	denominator := ahead.digits()
	s.at = ahead.at
	w, _ := strconv.ParseFloat(whole, 64)
	n, _ := strconv.ParseFloat(numerator, 64)
	d, _ := strconv.ParseFloat(denominator, 64)
	if d == 0 || mixed && n >= d {
		return 0, true, s.fail(start, "not a fraction", quote(s.from(start))+" is not a fraction of an inch such as 1 3/16.")
	}
	if !mixed {
		w = 0
	}
	return w + n/d, true, nil
}

func isHex(r rune) bool { return r < unicode.MaxASCII && unicode.Is(unicode.ASCII_Hex_Digit, r) }

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// quote is text in quotation marks, shortened, with whatever can't be printed escaped.
func quote(text string) string {
	const longest = 40
	if r := []rune(text); len(r) > longest {
		text = string(r[:longest-1]) + "…"
	}
	return strconv.Quote(text)
}

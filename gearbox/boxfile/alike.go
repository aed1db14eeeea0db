package boxfile

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// likeLatin are letters of Cyrillic and Greek that the eye hardly tells from one of Latin; from memory of the list of confusable characters of
// Unicode Technical Standard 39, not compared with it.
var likeLatin = strings.NewReplacer(
	"А", "A", "В", "B", "Е", "E", "К", "K", "М", "M", "Н", "H", "О", "O", "Р", "P", "С", "C", "Т", "T", "У", "Y", "Х", "X", "І", "I", "Ј", "J", "Ѕ", "S",
	"а", "a", "е", "e", "с", "c", "о", "o", "р", "p", "х", "x", "у", "y", "і", "i", "ј", "j", "ѕ", "s", "һ", "h", "ԁ", "d", "ԛ", "q", "ԝ", "w",
	"Α", "A", "Β", "B", "Ε", "E", "Ζ", "Z", "Η", "H", "Ι", "I", "Κ", "K", "Μ", "M", "Ν", "N", "Ο", "O", "Ρ", "P", "Τ", "T", "Υ", "Y", "Χ", "X", "ο", "o", "ν", "v", "α", "a", "ρ", "p", "ι", "i", "υ", "u",
)

// asSeen is what is left of a name for the eye: letters and their marks composed one way, those of other alphabets as the Latin ones they look
// like, without capitals, blanks and what has no width. Two names that are the same then look alike.
func asSeen(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || widthless(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, likeLatin.Replace(norm.NFKC.String(name)))
}

// widthless are characters that take no room, such as a zero-width space or a soft hyphen. Marks on a letter are no such.
func widthless(r rune) bool { return unicode.In(r, unicode.Cf) || r >= 0xFE00 && r <= 0xFE0F }

// toldApart says how two names differ that look alike, by the first character in which they do.
func toldApart(a, b string) string {
	x, y := []rune(a), []rune(b)
	i := 0
	for i < len(x) && i < len(y) && x[i] == y[i] {
		i++
	}
	return fmt.Sprintf("%s and %s look alike but aren't the same: at character %d one has %s, the other %s.", strconv.Quote(a), strconv.Quote(b), i+1, character(x, i), character(y, i))
}

// character is the character of a name at a place, with its number in Unicode.
func character(name []rune, at int) string {
	if at >= len(name) {
		return "nothing more"
	}
	r := name[at]
	if shown := strconv.QuoteRune(r); unicode.IsPrint(r) && !unicode.Is(unicode.Mn, r) {
		return fmt.Sprintf("%s (U+%04X, %s)", strings.Trim(shown, "'"), r, script(r))
	}
	return fmt.Sprintf("U+%04X (%s)", r, script(r))
}

// script is what a character belongs to, in words.
func script(r rune) string {
	switch {
	case widthless(r):
		return "without width"
	case unicode.Is(unicode.Mn, r):
		return "a mark by itself"
	case unicode.Is(unicode.Latin, r):
		return "Latin"
	case unicode.Is(unicode.Cyrillic, r):
		return "Cyrillic"
	case unicode.Is(unicode.Greek, r):
		return "Greek"
	case unicode.IsDigit(r):
		return "a digit"
	}
	return "no letter of these alphabets"
}

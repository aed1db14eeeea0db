package reports

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"layshaft/gearbox"
)

// harmless makes control characters visible: they could drive a terminal or turn the direction of reading.
// Line breaks and tabs become blanks.
func harmless(s string) string {
	s = strings.ToValidUTF8(s, "�")
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029':
			return ' '
		case r < ' ':
			return '␀' + r
		case r == 0x7f:
			return '␡'
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co):
			return '�'
		}
		return r
	}, s)
}

// count is the number of columns of a text: one a character.
func count(s string) int { return utf8.RuneCountInString(s) }

// shorten cuts a text to n characters by replacing its middle with "…".
func shorten(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	if n <= 1 {
		return "…"[:len("…")*max(n, 0)]
	}
	tail := (n - 1) / 2
	head := n - 1 - tail
	return strings.TrimRight(string(r[:head]), " ") + "…" + strings.TrimLeft(string(r[len(r)-tail:]), " ")
}

// noBreak is a blank at which no line ends: it keeps a number and its unit together. It is written as an ordinary blank.
const noBreak = "\u00a0"

// wrap breaks a text into lines of at most n characters, at blanks where it can. Its time grows with the length of the text, whatever the length of its words.
func wrap(s string, n int) []string {
	var lines []string
	var line strings.Builder
	used := 0 // characters of the line
	end := func() {
		if used > 0 {
			lines = append(lines, line.String())
		}
		line.Reset()
		used = 0
	}
	for _, word := range strings.FieldsFunc(harmless(s), func(r rune) bool { return r == ' ' }) {
		letters := []rune(strings.ReplaceAll(word, noBreak, " "))
		if used > 0 && used+1+len(letters) <= n {
			line.WriteByte(' ')
			used++
		} else {
			end()
		}
		for len(letters) > n {
			lines = append(lines, string(letters[:n]))
			letters = letters[n:]
		}
		line.WriteString(string(letters))
		used += len(letters)
	}
	end()
	return lines
}

// boxNames are the names of the boxes for people; boxes of the same name are told apart by a number.
func boxNames(results []*gearbox.Result) []string {
	var names []string
	for _, r := range results {
		given := harmless(r.Box.Name)
		if strings.TrimSpace(given) == "" {
			given = "nameless box"
		}
		name := given
		for n := 2; slices.Contains(names, name); n++ {
			name = fmt.Sprintf("%s (%d)", given, n)
		}
		names = append(names, name)
	}
	return names
}

// limitName is a limit of one part in words: "tooth root fatigue of first pinion".
func limitName(m *gearbox.Margin) string { return harmless(m.Phrase()) }

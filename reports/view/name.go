package view

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"layshaft/gearbox"
)

// Clean makes a text of a box file safe to look at. Line breaks and tabs become blanks; other control characters, and marks that turn
// the direction of reading or can't be seen, are shown by their code point, because they could drive a terminal or make a report
// read differently from what its file says.
func Clean(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) < 0 {
		return s
	}
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(s, "\ufffd") {
		switch {
		case strings.ContainsRune("\n\t\r\u2028\u2029", r):
			b.WriteByte(' ')
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co):
			fmt.Fprintf(&b, "‹U+%04X›", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Line is a clean text in one line without blanks to spare.
func Line(s string) string { return strings.Join(strings.Fields(Clean(s)), " ") }

// Width is the number of columns of a text: one a character.
func Width(s string) int { return utf8.RuneCountInString(s) }

// Shorten cuts a text to n characters by replacing its middle with "…".
func Shorten(s string, n int) string {
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

// BoxNames are the names of the boxes for people; boxes of the same name are told apart by a number.
func BoxNames(results []*gearbox.Result) []string {
	var names []string
	for _, r := range results {
		given := Clean(r.Box.Name)
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

// LimitName is a limit of one part in words: "tooth root fatigue of first pinion".
func LimitName(m *gearbox.Margin) string { return Clean(m.Phrase()) }

// List joins names: "A, B and C".
func List(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// Capital makes the first letter a large one.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// Joined are sentences behind each other.
func Joined(sentences []string) string { return strings.Join(sentences, " ") }

// Letter is the letter of the item i of a list, from 0.
func Letter(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return fmt.Sprint(i + 1)
}

// SameBlank keeps numbers and units together only as an ordinary blank does, for programs.
func SameBlank(s string) string { return strings.ReplaceAll(s, NoBreak, " ") }

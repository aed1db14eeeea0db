package diag

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"
)

const tabStop = 4

// byteOrderMark may stand before the first line of a file; it isn't part of it.
var byteOrderMark = []byte("\uFEFF")

// Lines splits a source into its lines, without their ends and without a byte order mark. A line ends, as YAML 1.1 (section 5.4) has it, with a line
// feed, a carriage return, both, or one of the Unicode separators U+0085, U+2028 and U+2029, so the numbers agree with those of the YAML reader.
func Lines(source []byte) []string {
	text := string(bytes.TrimPrefix(source, byteOrderMark))
	var lines []string
	start := 0
	for i, r := range text {
		switch r {
		case '\n', '\r', '\u0085', '\u2028', '\u2029':
			if r == '\n' && i > 0 && text[i-1] == '\r' {
				start = i + 1 // second half of a carriage return with line feed
				continue
			}
			lines = append(lines, text[start:i])
			start = i + utf8.RuneLen(r)
		}
	}
	return append(lines, text[start:])
}

// show is a source line as it is put on the screen, and for each of its runes (and for the end) the column of the screen, from 0.
func show(line string) (shown []rune, columns []int) {
	for _, r := range line {
		columns = append(columns, len(shown))
		if r == '\t' {
			shown = append(shown, []rune(strings.Repeat(" ", tabStop-len(shown)%tabStop))...)
			continue
		}
		shown = append(shown, harmless(r))
	}
	return shown, append(columns, len(shown))
}

// clean is text with every rune harmless; line ends too.
func clean(text string) string { return strings.Map(harmless, text) }

// Harmless is text that may be sent to a terminal: what would move the cursor, colour the screen or hide itself is replaced by
// a visible stand-in. Line ends stay.
func Harmless(text string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' {
			return r
		}
		return harmless(r)
	}, text)
}

// harmless is r itself, or a visible stand-in for a rune that would move the cursor, colour the screen or hide itself.
func harmless(r rune) rune {
	switch {
	case r < ' ':
		return '\u2400' + r // the control pictures of Unicode: ␀ … ␟
	case r == '\u007F':
		return '\u2421' // ␡
	case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs):
		return utf8.RuneError
	default:
		return r
	}
}

// window cuts a line that is wider than width columns so that the columns from caret to caret+length stay in sight as far as they fit. It returns what is left, with …
// where something was cut, and by how many columns the caret has moved to the left.
func window(shown []rune, caret, length, width int) (cut []rune, moved int) {
	if len(shown) <= width {
		return shown, 0
	}
	from := 0
	if end := caret + min(length, width/2) + 1; end >= width {
		from = min(end-width/2, caret-1, len(shown)-width)
	}
	from = max(from, 0)
	to := min(from+width, len(shown))
	cut = append(cut, shown[from:to]...)
	if from > 0 {
		cut[0] = '…'
	}
	if to < len(shown) {
		cut[len(cut)-1] = '…'
	}
	return cut, from
}

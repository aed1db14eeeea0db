package diag

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Style says how findings are written.
type Style struct {
	Colour bool // with the colour codes of terminals; words and signs say the same without
	Width  int  // columns of the terminal; 0 = details aren't wrapped, source lines are cut at sourceWidth
}

const (
	gutter      = 6   // columns of the line number before " | "
	sourceWidth = 120 // columns shown of a source line when the width isn't known
	narrowest   = 40  // a terminal that claims to be narrower is treated as this wide
)

// Render writes every finding of the list in its order, with the source line and a caret under the words in question:
//
//	error: unknown key "theeth"
//	  alder.yaml:41:7
//	   41 |       theeth: 14
//	      |       ^^^^^^
//	  Known here: at, face, shaft, teeth. Did you mean "teeth"?
//
// Sources holds the contents of the files by name; a finding in a file that isn't there is written without its line.
func (l List) Render(w io.Writer, sources map[string][]byte, style Style) error {
	if style.Width > 0 {
		style.Width = max(style.Width, narrowest)
	}
	lines := map[string][]string{}
	for name, source := range sources {
		lines[name] = Lines(source)
	}
	out := bufio.NewWriter(w)
	for i, d := range l {
		if i > 0 {
			fmt.Fprintln(out)
		}
		renderOne(out, d, lines[d.Place.File], style)
	}
	return out.Flush()
}

func renderOne(w io.Writer, d Diagnostic, lines []string, style Style) {
	head := style.paint(d.Severity.String()+":", severityColour(d.Severity))
	summary := wrap(clean(d.Summary), style.Width, utf8.RuneCountInString(d.Severity.String())+2)
	fmt.Fprintf(w, "%s %s\n", head, style.paint(strings.Join(summary, "\n  "), bold))
	if place := d.Place.String(); place != "" {
		fmt.Fprintf(w, "  %s\n", place)
	}
	if d.Place.Line >= 1 && d.Place.Line <= len(lines) {
		renderSource(w, d, lines[d.Place.Line-1], style)
	}
	if d.Detail == "" {
		return
	}
	for paragraph := range strings.SplitSeq(d.Detail, "\n") {
		for _, line := range wrap(clean(paragraph), style.Width, 2) {
			fmt.Fprintf(w, "  %s\n", line)
		}
	}
}

func renderSource(w io.Writer, d Diagnostic, line string, style Style) {
	shown, columns := show(line)
	last := len(columns) - 1
	first := min(max(d.Place.Column-1, 0), last)
	end := min(first+max(d.Place.Width, 1), last)
	caret, length := columns[first], max(columns[end]-columns[first], 1)

	width := sourceWidth
	if style.Width > 0 {
		width = style.Width - gutter - len(" | ")
	}
	cut, moved := window(shown, caret, length, width)
	caret -= moved
	length = min(length, max(len(cut)-caret, 1))

	fmt.Fprintln(w, strings.TrimRight(fmt.Sprintf("%*d | %s", gutter-1, d.Place.Line, string(cut)), " "))
	if d.Place.Column > 0 {
		mark := style.paint(strings.Repeat("^", length), severityColour(d.Severity))
		fmt.Fprintf(w, "%*s | %s%s\n", gutter-1, "", strings.Repeat(" ", caret), mark)
	}
}

// wrap breaks text into lines of at most width columns, of which the first indent are already taken; a word that is longer stays whole.
func wrap(text string, width, indent int) []string {
	if width == 0 {
		return []string{text}
	}
	var lines []string
	line, used := "", 0
	for word := range strings.FieldsSeq(text) {
		n := utf8.RuneCountInString(word)
		if used > 0 && indent+used+1+n > width {
			lines = append(lines, line)
			line, used = "", 0
		}
		if used > 0 {
			line += " "
			used++
		}
		line += word
		used += n
	}
	return append(lines, line)
}

// Select-graphic-rendition codes of ECMA-48 (5th edition, 8.3.117).
const (
	bold   = "1"
	red    = "1;31"
	yellow = "1;33"
)

func severityColour(s Severity) string {
	if s == Warning {
		return yellow
	}
	return red
}

func (s Style) paint(text, code string) string {
	if !s.Colour {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

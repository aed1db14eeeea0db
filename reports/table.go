package reports

import (
	"bytes"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/reports/view"
)

// cell is one entry: a text that may be shortened, a mark behind it that may not, and a colour put on after the padding.
type cell struct {
	text, mark, colour string
}

// head is the head of one column. Its text may have several lines.
type head struct {
	text  string
	right bool // numbers stand to the right
	least int  // to how many columns it may shrink; 0 = not at all
	wrap  bool // what doesn't fit goes on in the next line, instead of losing its middle
}

// gap stands between two columns, margin in front of the first.
const (
	gap    = "  "
	indent = "  "
)

// table writes rows under heads, at most width columns wide. Only columns that may shrink are shortened, the widest first.
func table(b *bytes.Buffer, width int, heads []head, rows [][]cell) {
	widths := make([]int, len(heads))
	lines := 1
	total := view.Width(indent) + view.Width(gap)*(len(heads)-1)
	for i, h := range heads {
		for _, line := range strings.Split(h.text, "\n") {
			widths[i] = max(widths[i], view.Width(line))
		}
		for _, row := range rows {
			widths[i] = max(widths[i], view.Width(row[i].text)+view.Width(row[i].mark))
		}
		lines = max(lines, 1+strings.Count(h.text, "\n"))
		total += widths[i]
	}
	for ; total > width; total-- {
		widest := -1
		for i, h := range heads {
			if h.least > 0 && widths[i] > h.least && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	for n := range lines {
		row := make([]cell, len(heads))
		for i, h := range heads {
			// The lines of a head stand at its foot, next to the numbers.
			if parts := strings.Split(h.text, "\n"); n >= lines-len(parts) {
				row[i].text = parts[n-lines+len(parts)]
			}
		}
		tableRow(b, heads, widths, row)
	}
	rule := make([]cell, len(heads))
	for i, w := range widths {
		rule[i].text = strings.Repeat("─", w)
	}
	tableRow(b, heads, widths, rule)
	for _, row := range rows {
		for _, line := range wrapped(heads, widths, row) {
			tableRow(b, heads, widths, line)
		}
	}
}

// wrapped is a row with further lines below it for what doesn't fit into columns that wrap.
func wrapped(heads []head, widths []int, row []cell) [][]cell {
	lines := [][]cell{slices.Clone(row)}
	for i, h := range heads {
		room := widths[i] - view.Width(row[i].mark)
		if !h.wrap || view.Width(row[i].text) <= room {
			continue
		}
		for n, text := range wrap(row[i].text, room) {
			if n == len(lines) {
				lines = append(lines, make([]cell, len(heads)))
			}
			lines[n][i].text = text
		}
	}
	return lines
}

func tableRow(b *bytes.Buffer, heads []head, widths []int, row []cell) {
	var line strings.Builder
	line.WriteString(indent)
	for i, c := range row {
		if i > 0 {
			line.WriteString(gap)
		}
		text := view.Shorten(c.text, max(widths[i]-view.Width(c.mark), 0)) + c.mark
		pad := strings.Repeat(" ", max(widths[i]-view.Width(text), 0))
		if heads[i].right {
			text = pad + paint(text, c.colour)
		} else {
			text = paint(text, c.colour) + pad
		}
		line.WriteString(text)
	}
	b.WriteString(strings.TrimRight(line.String(), " "))
	b.WriteByte('\n')
}

// ANSI colours of the states. Magenta, yellow and cyan differ in brightness too, and stay apart for red-green blindness.
const (
	magenta = "\x1b[1;35m"
	yellow  = "\x1b[33m"
	cyan    = "\x1b[36m"
	reset   = "\x1b[0m"
)

func paint(text, colour string) string {
	if colour == "" {
		return text
	}
	return colour + text + reset
}

// stateCell is a state as sign and word, coloured when wanted.
func stateCell(s gearbox.State, colour bool) cell {
	c := cell{text: s.Sign() + " " + s.String()}
	if colour {
		c.colour = [...]string{gearbox.Over: magenta, gearbox.Thin: yellow, gearbox.Clear: cyan}[s]
	}
	return c
}

// texts makes cells of texts.
func texts(s ...string) []cell {
	row := make([]cell, len(s))
	for i, t := range s {
		row[i].text = t
	}
	return row
}

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
	for _, word := range strings.FieldsFunc(view.Clean(s), func(r rune) bool { return r == ' ' }) {
		letters := []rune(strings.ReplaceAll(word, view.NoBreak, " "))
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

// paragraph writes a text with a line in front of which first stands once and an indent of the same width below.
func paragraph(b *bytes.Buffer, width int, first, text string) {
	for i, line := range wrap(text, width-view.Width(first)) {
		if i > 0 {
			first = strings.Repeat(" ", view.Width(first))
		}
		b.WriteString(first + line + "\n")
	}
}

// title writes the head of a part across the whole width.
func title(b *bytes.Buffer, width int, text, mark string) {
	text = view.Shorten(text, width-8-view.Width(mark)) + mark
	b.WriteString("── " + text + " " + strings.Repeat("─", width-4-view.Width(text)) + "\n")
}

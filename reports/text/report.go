package text

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"layshaft/reports/view"
)

// Options is how a report is printed. The zero value is metric text of 100 columns without colour.
type Options struct {
	view.Options
	Colour bool // terminal colours
	// Width is the columns of text, 80 to 100; 0 = 100, and what lies outside is brought to the nearer end. Numbers of absurd size may
	// take more than this, but never more than 100.
	Width int
}

// The columns of text: below the least the tables don't fit, above the most lines are hard to read.
const (
	leastWidth = 80
	mostWidth  = 100
)

func (o Options) width() int {
	if o.Width == 0 {
		return mostWidth
	}
	return min(max(o.Width, leastWidth), mostWidth)
}

// widestMark is what a table of the wanted width has room for.
func (o Options) widestMark() int {
	if o.width() < mostWidth {
		return 7
	}
	return 11
}

// block is one part of a report: a title, a paragraph, or a table.
type block struct {
	title       string
	notes       []view.Remark // of the title
	first, text string        // of a paragraph: what stands in front of its first line
	table       *view.Table
}

// report is what is printed, from top to bottom. It is printed at its end, when the numbers of all notes are known.
type report struct {
	Options
	blocks []block
}

// say adds sentences, each a paragraph.
func (r *report) say(sentences ...string) {
	for _, s := range sentences {
		r.blocks = append(r.blocks, block{text: s})
	}
}

// tell adds sentences below a title, each a paragraph.
func (r *report) tell(sentences ...string) { r.list(indent, sentences...) }

// list adds paragraphs with something in front of the first line of each.
func (r *report) list(first string, sentences ...string) {
	for _, s := range sentences {
		if s != "" {
			r.blocks = append(r.blocks, block{first: first, text: s})
		}
	}
}

// space adds an empty line.
func (r *report) space() { r.blocks = append(r.blocks, block{}) }

// heading adds a line of its own above a list.
func (r *report) heading(text string) {
	r.space()
	r.tell(text)
}

// title adds the head of a part across the whole width.
func (r *report) title(text string, notes ...view.Remark) {
	r.blocks = append(r.blocks, block{title: text, notes: notes})
}

// show adds tables with their captions and the sentences below them; nil ones are left out.
func (r *report) show(tables ...*view.Table) {
	for _, t := range tables {
		if t == nil {
			continue
		}
		if t.Caption != "" {
			r.heading(t.Caption)
		}
		if len(t.Rows) > 0 {
			r.blocks = append(r.blocks, block{table: t})
		}
		r.tell(t.Foot...)
	}
}

// print writes the report with its notes, sources and caution in one piece, so that an error before it leaves nothing half written.
func (r *report) print(w io.Writer) error {
	var notes view.Notes
	var sources view.Sources
	for _, b := range r.blocks {
		notes.Add(view.Place{}, b.notes...)
		if b.table == nil {
			continue
		}
		for _, row := range b.table.Rows {
			for i := range row {
				notes.Add(view.Place{}, row[i].Notes...)
				if row[i].Limit != nil {
					sources.Add(row[i].Limit)
				}
			}
		}
	}
	checks, assumed := notes.List()
	p := printer{Options: r.Options, notes: &notes}
	for _, b := range r.blocks {
		switch {
		case b.table != nil:
			p.table(b.table)
		case b.title != "":
			p.title(b.title, p.mark(b.notes))
		case b.text == "":
			p.WriteByte('\n')
		default:
			p.paragraph(b.first, b.text)
		}
	}
	digits := len(strconv.Itoa(len(checks) + len(assumed)))
	for _, part := range []struct {
		heading string
		notes   []*view.Note
	}{{"Check these", checks}, {"Assumptions", assumed}} {
		if len(part.notes) > 0 {
			p.WriteString("\n" + part.heading + "\n")
		}
		for _, n := range part.notes {
			p.paragraph(fmt.Sprintf("%s%*d  ", indent, digits, n.Number), n.String())
		}
	}
	for i, source := range sources.List() {
		if i == 0 {
			p.WriteString("\nLimits come from\n")
		}
		p.paragraph(indent, source)
	}
	p.WriteString("\nCaution\n")
	p.paragraph(indent, view.Caution())
	if r.Version != "" {
		p.paragraph("", "Written by layshaft "+r.Version+".")
	}
	if _, err := w.Write(p.Bytes()); err != nil {
		return fmt.Errorf("the report could not be written: %w", err)
	}
	return nil
}

// printer writes the parts of a report.
type printer struct {
	Options
	bytes.Buffer
	notes *view.Notes
}

// mark is the mark for the place that remarks belong to: "¹", "¹,³", "¹⁻⁴"; "" when there are none.
func (p *printer) mark(all []view.Remark) string {
	return superscript(p.notes.Numbers(all), p.widestMark())
}

// superscript writes sorted numbers small and high in at most so many columns, three or more in a row as from–to.
func superscript(numbers []int, widest int) string {
	text := ""
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && numbers[j+1] == numbers[j]+1 {
			j++
		}
		if j == i+1 {
			j = i // two in a row are two numbers, not a range
		}
		part := strconv.Itoa(numbers[i])
		if j > i {
			part += "-" + strconv.Itoa(numbers[j])
		}
		if text != "" {
			part = "," + part
		}
		room := widest
		if j+1 < len(numbers) {
			room-- // for the "…"
		}
		if view.Width(text)+view.Width(part) > room {
			return text + "…"
		}
		text += view.Superscript(part)
		i = j + 1
	}
	return text
}

// paragraph writes a text with a line in front of which first stands once and an indent of the same width below.
func (p *printer) paragraph(first, text string) {
	for i, line := range wrap(text, p.width()-view.Width(first)) {
		if i > 0 {
			first = strings.Repeat(" ", view.Width(first))
		}
		p.WriteString(first + line + "\n")
	}
}

// title writes the head of a part across the whole width.
func (p *printer) title(text, mark string) {
	text = view.Shorten(text, p.width()-8-view.Width(mark)) + mark
	p.WriteString("── " + text + " " + strings.Repeat("─", p.width()-4-view.Width(text)) + "\n")
}

// wrap breaks a text into lines of at most n characters, at blanks where it can.
func wrap(s string, n int) []string {
	var lines []string
	line, wide := "", 0
	for _, word := range strings.FieldsFunc(view.Clean(s), func(r rune) bool { return r == ' ' }) {
		r := []rune(view.SameBlank(word))
		if line != "" && wide+1+len(r) <= n {
			line, wide = line+" "+string(r), wide+1+len(r)
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for len(r) > n {
			lines = append(lines, string(r[:n]))
			r = r[n:]
		}
		line, wide = string(r), len(r)
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

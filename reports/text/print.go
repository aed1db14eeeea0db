package text

import (
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/reports/view"
)

// gap stands between two columns, indent in front of the first.
const (
	gap    = "  "
	indent = "  "
)

// ANSI colours of the states. Magenta, yellow and cyan differ in brightness too, and stay apart for red-green blindness.
const (
	magenta = "\x1b[1;35m"
	yellow  = "\x1b[33m"
	cyan    = "\x1b[36m"
	reset   = "\x1b[0m"
)

// cell is one entry as it is printed: a text that may be shortened, a mark behind it that may not, and a colour put on after the padding.
type cell struct {
	text, mark, colour string
}

// column is a column as it is printed.
type column struct {
	view.Column
	lines []string // of the head
	width int
}

// table writes a table, in parts where it is too wide. Only columns that may shrink are shortened, the widest first.
func (p *printer) table(t *view.Table) {
	columns, rows := p.laid(t)
	lead := max(t.Lead, 1)
	for i := range t.Lead {
		if t.Columns[i].Aside {
			lead--
		}
	}
	step := max(t.Together, 1)
	for from := lead; ; {
		to := len(columns)
		for to > from+step && needed(slices.Concat(columns[:lead], columns[from:to])) > p.width() {
			to -= step
		}
		if from > lead {
			p.WriteByte('\n')
		}
		p.part(slices.Concat(columns[:lead], columns[from:to]), func(row []cell) []cell { return slices.Concat(row[:lead], row[from:to]) }, rows)
		if from = to; from >= len(columns) {
			return
		}
	}
}

// laid are the columns and the cells of a table, with marks, and without what the row above has said.
func (p *printer) laid(t *view.Table) (columns []column, rows [][]cell) {
	for i := len(t.Columns) - 1; i >= 0; i-- {
		if t.Columns[i].Aside {
			t = t.Without(i)
		}
	}
	for _, c := range t.Columns {
		col := column{Column: c}
		if c.Head != "" {
			col.lines = strings.Split(c.Head, "\n")
		}
		if c.Unit != "" {
			col.lines = append(col.lines, c.Unit)
		}
		for _, line := range col.lines {
			col.width = max(col.width, view.Width(line))
		}
		columns = append(columns, col)
	}
	marked := make([]bool, len(columns))
	for n, row := range t.Rows {
		cells := make([]cell, len(row))
		said := n > 0
		for i, c := range row {
			said = said && columns[i].Once && c.Text == t.Rows[n-1][i].Text
			if said {
				continue
			}
			cells[i] = cell{text: view.SameBlank(c.Text), mark: p.mark(c.Notes)}
			if c.State != nil && p.Colour {
				cells[i].colour = [...]string{gearbox.Over: magenta, gearbox.Thin: yellow, gearbox.Clear: cyan}[*c.State]
			}
			columns[i].width = max(columns[i].width, view.Width(cells[i].text)+view.Width(cells[i].mark))
			marked[i] = marked[i] || cells[i].mark != ""
		}
		rows = append(rows, cells)
	}
	for i := range columns {
		if columns[i].Least > 0 && marked[i] {
			columns[i].Least += p.widestMark()
		}
	}
	return columns, rows
}

// needed is how many columns of text a table takes at least.
func needed(columns []column) int {
	total := view.Width(indent) + view.Width(gap)*(len(columns)-1)
	for _, c := range columns {
		if c.Least > 0 {
			c.width = min(c.width, c.Least)
		}
		total += c.width
	}
	return total
}

// part writes some columns of a table.
func (p *printer) part(columns []column, of func([]cell) []cell, rows [][]cell) {
	columns = slices.Clone(columns)
	total := view.Width(indent) + view.Width(gap)*(len(columns)-1)
	lines := 1
	for _, c := range columns {
		total += c.width
		lines = max(lines, len(c.lines))
	}
	for ; total > p.width(); total-- {
		widest := -1
		for i, c := range columns {
			if c.Least > 0 && c.width > c.Least && (widest < 0 || c.width > columns[widest].width) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		columns[widest].width--
	}
	for n := range lines {
		row := make([]cell, len(columns))
		for i, c := range columns {
			// The lines of a head stand at its foot, next to the numbers.
			if k := n - lines + len(c.lines); k >= 0 {
				row[i].text = c.lines[k]
			}
		}
		p.row(columns, row)
	}
	rule := make([]cell, len(columns))
	for i, c := range columns {
		rule[i].text = strings.Repeat("─", c.width)
	}
	p.row(columns, rule)
	for _, row := range rows {
		for _, line := range wrapped(columns, of(row)) {
			p.row(columns, line)
		}
	}
}

// wrapped is a row with further lines below it for what doesn't fit into columns that wrap.
func wrapped(columns []column, row []cell) [][]cell {
	lines := [][]cell{slices.Clone(row)}
	for i, c := range columns {
		room := c.width - view.Width(row[i].mark)
		if !c.Wrap || view.Width(row[i].text) <= room {
			continue
		}
		for n, text := range wrap(row[i].text, room) {
			if n == len(lines) {
				lines = append(lines, make([]cell, len(columns)))
			}
			lines[n][i].text = text
		}
	}
	return lines
}

func (p *printer) row(columns []column, row []cell) {
	var line strings.Builder
	line.WriteString(indent)
	for i, c := range row {
		if i > 0 {
			line.WriteString(gap)
		}
		text := view.Shorten(c.text, max(columns[i].width-view.Width(c.mark), 0)) + c.mark
		pad := strings.Repeat(" ", max(columns[i].width-view.Width(text), 0))
		if c.colour != "" {
			text = c.colour + text + reset
		}
		if columns[i].Right {
			text = pad + text
		} else {
			text += pad
		}
		line.WriteString(text)
	}
	p.WriteString(strings.TrimRight(line.String(), " "))
	p.WriteByte('\n')
}

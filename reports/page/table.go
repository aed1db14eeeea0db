package page

import (
	"fmt"
	"html/template"
	"strings"

	"layshaft/reports/view"
)

// tables draws tables, with the sentences below each; nil ones are left out.
func (s *set) tables(all ...*view.Table) (out []template.HTML) {
	for _, t := range all {
		if t != nil {
			out = append(out, s.table(t))
		}
	}
	return out
}

// table draws a table. A page has thousands of cells, for which a template takes longer than everything else together, so they are
// written here; every text goes through template.HTMLEscapeString. Cells and rows are left open, which HTML allows (HTML Living
// Standard, 13.1.2.4 Optional tags), and a table of words alone says so once: that makes a page a tenth smaller.
func (s *set) table(t *view.Table) template.HTML {
	var b strings.Builder
	text := func(parts ...string) {
		for i, p := range parts {
			if i%2 == 1 {
				p = template.HTMLEscapeString(p)
			}
			b.WriteString(p)
		}
	}
	caption := view.Capital(t.Caption)
	if len(t.Rows) > 0 {
		look, wordCell := "grid words", "<td>"
		for i := range t.Columns {
			if i > 0 && t.Columns[i].Right {
				look, wordCell = "grid", `<td class=w>`
			}
		}
		text(`<div class="scroll" tabindex="0" role="region" aria-label="`, caption, `"><table class="`+look+`"><caption>`, caption, "</caption>\n<thead><tr>")
		for i := range t.Columns {
			class := ""
			if i > 0 && t.Columns[i].Right {
				class = ` class=n`
			}
			text(`<th scope=col`+class+`>`, t.Columns[i].HeadLine())
		}
		b.WriteString("</thead>\n<tbody>")
		for _, row := range t.Rows {
			for i := range row {
				switch {
				case i == 0:
					b.WriteString("\n<tr><th scope=row>")
				case t.Columns[i].Right:
					b.WriteString("<td>")
				default:
					b.WriteString(wordCell)
				}
				s.cell(text, &row[i], t.Columns[i].Right)
			}
		}
		b.WriteString("\n</tbody></table></div>\n")
	}
	for _, sentence := range t.Foot {
		text(`<p class="quiet">`, sentence, "</p>\n")
	}
	return template.HTML(b.String())
}

// cell draws one cell: a state with its sign, a number as it is set, and behind a limit the number of its source.
func (s *set) cell(text func(parts ...string), c *view.Cell, number bool) {
	switch {
	case c.State != nil:
		shown := c.State.Sign() + " " + c.State.String()
		text(`<span class="state `+c.State.String()+`">`, shown, `</span>`, strings.TrimPrefix(c.Text, shown), "")
	case number:
		text("", typeset(c.Text))
	default:
		text("", c.Text)
	}
	if c.Limit != nil {
		n := s.sources.Add(c.Limit)
		text(fmt.Sprintf(` <a class="source" href="#source-%d">[%d]</a>`, n, n))
	}
}

package page

import (
	"html/template"
	"strings"
)

// grid is a table of text. The first cell of a row is its head. A grid without rows is its caption as a sentence.
type grid struct {
	Caption string
	Heads   []string
	Rows    []gridRow
}

type gridRow struct {
	Head  string
	State string // class of the row's state cell, "" when it has none
	Cells []gridCell
}

type gridCell struct {
	Text string
	Word bool   // words stand left, numbers right
	Head bool   // a state: shown as sign and word
	Link string // an anchor on the page
}

func word(t string) gridCell  { return gridCell{Text: t, Word: true} }
func digit(t string) gridCell { return gridCell{Text: t} }

// number tells whether column i (0 is the head) holds numbers, which stand right.
func (g *grid) number(i int) bool { return i > 0 && len(g.Rows) > 0 && !g.Rows[0].Cells[i-1].Word }

// words tells whether no column holds numbers.
func (g *grid) words() bool {
	for i := range g.Heads {
		if g.number(i) {
			return false
		}
	}
	return true
}

// html writes the table. A page has thousands of cells, for which a template takes longer than everything else together, so they
// are written here; every text goes through template.HTMLEscapeString. Cells and rows are left open, which HTML allows (HTML Living Standard,
// 13.1.2.4 Optional tags), and a table of words alone says so once: that makes a page a tenth smaller.
func (g *grid) html() template.HTML {
	var b strings.Builder
	text := func(parts ...string) {
		for i, p := range parts {
			if i%2 == 1 {
				p = template.HTMLEscapeString(p)
			}
			b.WriteString(p)
		}
	}
	if len(g.Rows) == 0 {
		text(`<p class="quiet">`, g.Caption, `.</p>`)
		return template.HTML(b.String())
	}
	b.Grow(512 * len(g.Rows))
	look, wordCell := "grid", `<td class=w>`
	if g.words() {
		look, wordCell = "grid words", "<td>"
	}
	text(`<div class="scroll" tabindex="0" role="region" aria-label="`, g.Caption, `"><table class="`+look+`"><caption>`, g.Caption, "</caption>\n<thead><tr>")
	for i, h := range g.Heads {
		class := ""
		if g.number(i) {
			class = ` class=n`
		}
		text(`<th scope=col`+class+`>`, h)
	}
	b.WriteString("</thead>\n<tbody>")
	for _, row := range g.Rows {
		text("\n<tr><th scope=row>", row.Head)
		for _, c := range row.Cells {
			switch {
			case c.Head:
				text(wordCell+`<span class="state `, row.State, `">`, c.Text, `</span>`)
			case c.Link != "":
				text(wordCell+`<a href="#`, c.Link, `">`, c.Text, `</a>`)
			case c.Word:
				text(wordCell, c.Text)
			default:
				text(`<td>`, c.Text)
			}
		}
	}
	b.WriteString("\n</tbody></table></div>\n")
	return template.HTML(b.String())
}

package page

import (
	_ "embed"
	"html/template"

	"layshaft/reports/view"
)

//go:embed assets/answer.html
var answerText string

// answer is what the template of a page with one answer and its reasons shows.
type answer struct {
	Policy                  string
	Style                   template.CSS
	Title, Kicker, Headline string
	Asked                   []string
	Warning                 string
	Answers                 []sentences
	Many                    bool
	Sections                []section
	Caution                 []string
	Version                 string
	Licences                []licence
}

// section is one part of such a page.
type section struct {
	Title, Intro string
	Wide         bool // its figures take the whole width
	Figures      []figureBox
	Map          template.HTML
	Grids        []template.HTML
	List         []lettered
	Foot         string
}

// lettered is what a letter in a chart or a map stands for.
type lettered struct{ Letter, Text string }

func newAnswer(title, kicker string, o Options) *answer {
	a := &answer{Title: title, Kicker: kicker, Headline: view.Clean(o.Headline), Warning: view.Clean(o.Warning), Caution: cautions(o.Caution), Version: view.Clean(o.Version)}
	a.Policy, a.Style, a.Licences = cover()
	return a
}

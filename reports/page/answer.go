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
	Caution                 string
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
	Words        []string
	List         [][2]string // what each letter in a chart or a map stands for
}

func newAnswer(title, kicker, headline string, o view.Options) *answer {
	a := &answer{Title: title, Kicker: kicker, Headline: headline, Warning: view.Warning(), Caution: view.Caution(), Version: o.Version}
	a.Policy, a.Style, a.Licences = cover()
	return a
}

package page

import (
	_ "embed"
	"fmt"
	"html/template"
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
	Licences                []Licence
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

// letter is the letter of the item i of a list, from 0.
func letter(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return fmt.Sprint(i + 1)
}

func newAnswer(title, kicker string, o Options) *answer {
	a := &answer{Title: title, Kicker: kicker, Headline: clean(o.Headline), Warning: clean(o.Warning), Caution: cautions(o.Caution), Version: clean(o.Version)}
	a.Policy, a.Style, a.Licences = cover()
	return a
}

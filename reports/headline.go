package reports

import (
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// Headline answers the question in words, box by box: whether its limits hold, with what it is limited by, at which torque, and what the ends of its steel would give.
func Headline(results []*gearbox.Result, o Options) string {
	return strings.ReplaceAll(headline(results, o), view.NoBreak, " ")
}

// Answers are the first sentences of the verdicts: whether the limits of each box hold.
func Answers(results []*gearbox.Result, o Options) string {
	var sentences []string
	for i, name := range view.BoxNames(results) {
		for _, s := range verdictOf(view.Shorten(name, 40), results[i], nil, o) {
			if s.About == "answer" {
				sentences = append(sentences, s.Text)
			}
		}
	}
	return strings.ReplaceAll(strings.Join(sentences, " "), view.NoBreak, " ")
}

// CompareHeadline is Headline for boxes side by side: at equal steel first, where theirs differ.
func CompareHeadline(c *study.Comparison, o Options) string {
	return strings.ReplaceAll(strings.Join(compareHeadline(c, o), " "), view.NoBreak, " ")
}

// CompareAnswers are the first sentences of a comparison: whether the limits of each box hold, and which bears more.
func CompareAnswers(c *study.Comparison, o Options) string {
	return strings.Join(append([]string{Answers(c.Results, o)}, rankingWords(c)...), " ")
}

func compareHeadline(c *study.Comparison, o Options) []string {
	return append(boxesHeadline(c, o), rankingWords(c)...)
}

// boxesHeadline is what compareHeadline says of each box.
func boxesHeadline(c *study.Comparison, o Options) []string {
	if c.Equal == nil {
		return headlines(c.Results, o)
	}
	first := view.Shorten(view.BoxNames(c.Results)[0], 40)
	if sameAtEqualSteel(c, o) {
		return append(headlines(c.Results, o), "At equal steel, that of "+first+", the answer is the same.")
	}
	equal, own := headlines(c.Equal, o), headlines(c.Results, o)
	texts := append([]string{"At equal steel, that of " + first + ":"}, equal...)
	texts = append(texts, "Each of its own steel:")
	for i := range own {
		if own[i] != equal[i] { // the first box stays as it is
			texts = append(texts, own[i])
		}
	}
	return texts
}

// headline is Headline with no-break blanks between numbers and units.
func headline(results []*gearbox.Result, o Options) string {
	return strings.Join(headlines(results, o), " ")
}

// headlines are the headline, a text for each box.
func headlines(results []*gearbox.Result, o Options) (texts []string) {
	if checkResults(results) != nil {
		return []string{"Nothing was calculated."}
	}
	for i, name := range view.BoxNames(results) {
		var sentences []string
		for _, s := range verdictOf(view.Shorten(name, 40), results[i], nil, o) {
			if inHeadline(s) {
				sentences = append(sentences, s.Text)
			}
		}
		texts = append(texts, strings.Join(sentences, " "))
	}
	return texts
}

// inHeadline reports whether a sentence of a verdict is said in front of all else, also of several boxes.
func inHeadline(s Sentence) bool { return s.About == "answer" || s.About == "bears" }

// asked is an input torque in words: "170 N·m", or "60.0 N·m of coast (engine braking)".
func asked(torque float64, o Options) string {
	if torque < 0 {
		return view.With(-torque, quantity.Torque, o.Units) + " of coast (engine braking)"
	}
	return view.With(torque, quantity.Torque, o.Units)
}

// apart is a torque in words, with as many digits as it takes to tell it from the asked one.
func apart(torque, ask float64, o Options) string {
	for digits := 3; digits < 6; digits++ {
		text := view.WithDigits(torque, quantity.Torque, o.Units, digits)
		if torque == ask || text != view.WithDigits(ask, quantity.Torque, o.Units, digits) {
			return text
		}
	}
	return view.WithDigits(torque, quantity.Torque, o.Units, 6)
}

// levelName is an end of the ranges in words.
func levelName(l material.Level) string {
	if l == material.Typical {
		return "the typical value of each strength that is a range"
	}
	return "the " + l.String() + " end of each strength that is a range"
}

package view

import (
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
)

// Headline answers the question in words, box by box: whether its limits hold, with what it is limited by, at which torque, and what the
// ends of its steel would give.
func Headline(results []*gearbox.Result, o Options) string {
	return strings.Join(Headlines(results, o), " ")
}

// Headlines are the headline, a text for each box.
func Headlines(results []*gearbox.Result, o Options) []string {
	return sentencesOf(results, o, InHeadline)
}

// Answers are the first sentences of the verdicts: whether the limits of each box hold.
func Answers(results []*gearbox.Result, o Options) string {
	return strings.Join(sentencesOf(results, o, func(s Sentence) bool { return s.About == "answer" }), " ")
}

// sentencesOf are some sentences of the verdict of each box, a text each.
func sentencesOf(results []*gearbox.Result, o Options, said func(Sentence) bool) (texts []string) {
	if Reportable(results) != nil {
		return []string{"Nothing was calculated."}
	}
	for i, name := range BoxNames(results) {
		var sentences []string
		for _, s := range verdictOf(Shorten(name, 40), results[i], nil, o) {
			if said(s) {
				sentences = append(sentences, s.Text)
			}
		}
		texts = append(texts, strings.Join(sentences, " "))
	}
	return texts
}

// InHeadline reports whether a sentence of a verdict is said in front of all else, also of several boxes.
func InHeadline(s Sentence) bool { return s.About == "answer" || s.About == "bears" }

// CompareHeadline is the headline of boxes side by side, in sentences: at equal steel first, where theirs differ.
func CompareHeadline(c *study.Comparison, o Options) []string {
	return append(boxesHeadline(c, o), RankingWords(c)...)
}

// CompareAnswers are the first sentences of a comparison: whether the limits of each box hold, and which bears more.
func CompareAnswers(c *study.Comparison, o Options) string {
	words := append([]string{Answers(c.Results, o)}, RankingWords(c)...)
	return strings.Join(append(words, CompareSampled(c, o)...), " ")
}

// CompareSampled are what samples of everything that isn't known exactly say of boxes side by side; nil when none were drawn.
func CompareSampled(c *study.Comparison, o Options) (words []string) {
	for i, name := range BoxNames(c.Results) {
		if text := sampledWords(Shorten(name, 40), c.Results[i].Box, o); text != "" {
			words = append(words, text)
		}
	}
	if s, ok := o.Sampled[c.Results[0].Box]; ok && len(s.Spread.Ratio) > 0 {
		words = append(words, ratioWordsOf(s.Spread))
	}
	return words
}

// boxesHeadline is what the headline of a comparison says of each box.
func boxesHeadline(c *study.Comparison, o Options) []string {
	if c.Equal == nil {
		return Headlines(c.Results, o)
	}
	first := Shorten(BoxNames(c.Results)[0], 40)
	if SameAtEqualSteel(c, o) {
		return append(Headlines(c.Results, o), "At equal steel, that of "+first+", the answer is the same.")
	}
	equal, own := Headlines(c.Equal, o), Headlines(c.Results, o)
	texts := append([]string{"At equal steel, that of " + first + ":"}, equal...)
	texts = append(texts, "Each of its own steel:")
	for i := range own {
		if own[i] != equal[i] { // the first box stays as it is
			texts = append(texts, own[i])
		}
	}
	return texts
}

// asked is an input torque in words: "170 N·m", or "60.0 N·m of coast (engine braking)".
func asked(torque float64, o Options) string {
	if torque < 0 {
		return With(-torque, quantity.Torque, o.Units) + " of coast (engine braking)"
	}
	return With(torque, quantity.Torque, o.Units)
}

// apart is a torque in words, with as many digits as it takes to tell it from the asked one.
func apart(torque, ask float64, o Options) string {
	for digits := 3; digits < 6; digits++ {
		text := WithDigits(torque, quantity.Torque, o.Units, digits)
		if torque == ask || text != WithDigits(ask, quantity.Torque, o.Units, digits) {
			return text
		}
	}
	return WithDigits(torque, quantity.Torque, o.Units, 6)
}

// levelName is an end of the ranges in words.
func levelName(l material.Level) string {
	if l == material.Typical {
		return "the typical value of each strength that is a range"
	}
	return "the " + l.String() + " end of each strength that is a range"
}

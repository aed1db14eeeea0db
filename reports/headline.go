package reports

import (
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
)

// first is the limit of a box that is reached first of all, over all its speeds.
type first struct {
	box    string
	torque float64 // asked, N·mm; negative in coast
	speed  string
	margin *gearbox.Margin
	bare   bool                       // none of the speeds asked for is in the box
	ends   [material.High + 1]float64 // allowable torque with every range at one end, over all limits, N·mm; +Inf = not reached
}

// at is the allowable torque of the first limit, N·mm; +Inf when no limit is reached.
func (f *first) at() float64 { return f.margin.Allowable[f.margin.Level] }

func firstLimit(box string, r *gearbox.Result) first {
	f := first{box: box, torque: r.Torque, bare: len(r.Speeds) == 0}
	for level := range f.ends {
		f.ends[level] = r.Allowable(material.Level(level))
	}
	for i := range r.Speeds {
		s := &r.Speeds[i]
		for k := range s.Margins {
			m := &s.Margins[k]
			if f.margin == nil || sooner(m, f.margin) {
				f.margin, f.speed = m, harmless(s.Name)
			}
		}
	}
	return f
}

// sooner tells whether limit a is reached before limit b. One whose margin is not a number comes last.
func sooner(a, b *gearbox.Margin) bool {
	if math.IsNaN(a.Margin) || math.IsNaN(b.Margin) {
		return !math.IsNaN(a.Margin) && math.IsNaN(b.Margin)
	}
	return a.Margin < b.Margin
}

// Headline answers the question in words, box by box: whether its limits hold, with what it is limited by, at which torque, and what the ends of its steel would give.
func Headline(results []*gearbox.Result, o Options) string {
	return strings.ReplaceAll(headline(results, o), noBreak, " ")
}

// Answers are the first sentences of the verdicts: whether the limits of each box hold.
func Answers(results []*gearbox.Result, o Options) string {
	var sentences []string
	for i, name := range boxNames(results) {
		for _, s := range verdictOf(shorten(name, 40), results[i], o) {
			if s.About == "answer" {
				sentences = append(sentences, s.Text)
			}
		}
	}
	return strings.ReplaceAll(strings.Join(sentences, " "), noBreak, " ")
}

// CompareHeadline is Headline for boxes side by side: at equal steel first, where theirs differ.
func CompareHeadline(c *study.Comparison, o Options) string {
	return strings.ReplaceAll(strings.Join(compareHeadline(c, o), " "), noBreak, " ")
}

func compareHeadline(c *study.Comparison, o Options) []string {
	return append(boxesHeadline(c, o), rankingWords(c)...)
}

// boxesHeadline is what compareHeadline says of each box.
func boxesHeadline(c *study.Comparison, o Options) []string {
	if c.Equal == nil {
		return boxHeadlines(c.Results, o)
	}
	own := headline(c.Results, o)
	if sameAtEqualSteel(c, o) {
		return []string{own + " At equal steel, that of " + shorten(boxNames(c.Results)[0], 40) + ", the answer is the same."}
	}
	return []string{
		"At equal steel, that of " + shorten(boxNames(c.Results)[0], 40) + ": " + lower(headline(c.Equal, o)),
		"Each of its own steel: " + lower(own),
	}
}

// lower makes a sentence go on from another: "At 190 N·m" becomes "at 190 N·m".
func lower(s string) string {
	if rest, ok := strings.CutPrefix(s, "At "); ok {
		return "at " + rest
	}
	return s
}

// headline is Headline with no-break blanks between numbers and units.
func headline(results []*gearbox.Result, o Options) string {
	return strings.Join(boxHeadlines(results, o), " ")
}

// boxHeadlines is headline box by box.
func boxHeadlines(results []*gearbox.Result, o Options) (all []string) {
	if checkResults(results) != nil {
		return []string{"Nothing was calculated."}
	}
	for i, name := range boxNames(results) {
		var sentences []string
		for _, s := range verdictOf(shorten(name, 40), results[i], o) {
			if s.About == "answer" || s.About == "bears" {
				sentences = append(sentences, s.Text)
			}
		}
		all = append(all, strings.Join(sentences, " "))
	}
	return all
}

// asked is an input torque in words: "170 N·m", or "60.0 N·m of coast (engine braking)".
func asked(torque float64, o Options) string {
	if torque < 0 {
		return with(-torque, quantity.Torque, o.Units) + " of coast (engine braking)"
	}
	return with(torque, quantity.Torque, o.Units)
}

// apart is a torque in words, with as many digits as it takes to tell it from the asked one.
func apart(torque, ask float64, o Options) string {
	for digits := 3; digits < 6; digits++ {
		text := withDigits(torque, quantity.Torque, o.Units, digits)
		if torque == ask || text != withDigits(ask, quantity.Torque, o.Units, digits) {
			return text
		}
	}
	return withDigits(torque, quantity.Torque, o.Units, 6)
}

// levelName is an end of the ranges in words.
func levelName(l material.Level) string {
	if l == material.Typical {
		return "the typical value of each strength that is a range"
	}
	return "the " + l.String() + " end of each strength that is a range"
}

// list joins names: "A, B and C".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

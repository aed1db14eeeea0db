package reports

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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
	// endless says that fatigue decides, and for endless life since no duty is told.
	endless bool
}

// at is the allowable torque of the first limit, N·mm; +Inf when no limit is reached.
func (f *first) at() float64 { return f.margin.Allowable[f.margin.Level] }

// reached tells whether there is a torque at which anything runs out.
func (f *first) reached() bool { return f.margin != nil && finite(f.at()) }

// where names the limit and its speed, for a sentence: "1st: tooth root of first pinion".
func (f *first) where() string {
	return shorten(f.speed, 20) + ": " + shorten(limitName(f.margin), 60)
}

func (f *first) over() bool { return f.margin != nil && f.margin.State == gearbox.Over }

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
	f.endless = f.margin != nil && r.Box.Duty == nil && (f.margin.Kind == gearbox.RootFatigue || f.margin.Kind == gearbox.FlankFatigue) && f.reached()
	return f
}

// sooner tells whether limit a is reached before limit b. One whose margin is not a number comes last.
func sooner(a, b *gearbox.Margin) bool {
	if math.IsNaN(a.Margin) || math.IsNaN(b.Margin) {
		return !math.IsNaN(a.Margin) && math.IsNaN(b.Margin)
	}
	return a.Margin < b.Margin
}

// Headline answers the question in words: which box runs out first, where, and at what input torque; whether the boxes
// stay inside their limits; by which end of the ranges of limits and strengths that is judged, and what the other ends give.
func Headline(results []*gearbox.Result, o Options) string {
	return strings.ReplaceAll(headline(results, o), noBreak, " ")
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
	own := headline(c.Results, o)
	if c.Equal == nil {
		return []string{own}
	}
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
	if checkResults(results) != nil {
		return "Nothing was calculated."
	}
	names := boxNames(results)
	firsts := make([]first, len(results))
	same := true
	for i, r := range results {
		firsts[i] = firstLimit(shorten(names[i], 40), r)
		same = same && r.Torque == results[0].Torque
	}
	slices.SortStableFunc(firsts, func(a, b first) int {
		switch {
		case a.margin == nil || b.margin == nil:
			return cmp.Compare(boolInt(a.margin == nil), boolInt(b.margin == nil))
		case sooner(a.margin, b.margin):
			return -1
		case sooner(b.margin, a.margin):
			return 1
		}
		return 0
	})
	sentences := []string{}
	if len(firsts) == 1 {
		sentences = append(sentences, oneBox(&firsts[0], o))
	} else {
		sentences = append(sentences, severalBoxes(firsts, same, o), verdict(firsts))
	}
	sentences = append(sentences, judgedBy(firsts, o), endlessWords(firsts))
	return strings.Join(slices.DeleteFunc(sentences, func(s string) bool { return s == "" }), " ")
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// asked is an input torque in words: "170 N·m", or "60.0 N·m of coast (engine braking)".
func asked(torque float64, o Options) string {
	if torque < 0 {
		return with(-torque, quantity.Torque, o.Units) + " of coast (engine braking)"
	}
	return with(torque, quantity.Torque, o.Units)
}

// allowed is the allowable torque of the first limit in words.
func allowed(f *first, o Options) string { return apart(f.at(), math.Abs(f.torque), o) }

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

func oneBox(f *first, o Options) string {
	start := fmt.Sprintf("At %s, %s ", asked(f.torque, o), f.box)
	switch {
	case f.bare:
		return start + "has none of the speeds asked for."
	case f.margin == nil:
		return start + "has no limit that could be checked."
	case f.over():
		return start + fmt.Sprintf("is over its limits: it runs out at %s (%s).", allowed(f, o), f.where())
	case !f.reached():
		return start + "stays inside every limit, and no limit is in sight at any torque."
	}
	thin := ""
	if f.margin.State == gearbox.Thin {
		thin = ", but by less than the wanted reserve"
	}
	return start + fmt.Sprintf("stays inside every limit%s; it runs out first at %s (%s).", thin, allowed(f, o), f.where())
}

func severalBoxes(firsts []first, same bool, o Options) string {
	parts := make([]string, len(firsts))
	for i := range firsts {
		f := &firsts[i]
		name := f.box
		if !same {
			name += " (asked for " + asked(f.torque, o) + ")"
		}
		switch {
		case f.bare:
			parts[i] = name + " has none of the speeds asked for"
		case f.margin == nil:
			parts[i] = name + " has no limit that could be checked"
		case !f.reached():
			parts[i] = name + " has no limit in sight"
		default:
			verb := "at"
			switch {
			case same && i == 0:
				verb = "runs out first, at"
			case i == 0:
				verb = "has the least margin and runs out at"
			case !same:
				verb = "runs out at"
			}
			parts[i] = fmt.Sprintf("%s %s %s (%s)", name, verb, allowed(f, o), f.where())
		}
	}
	text := strings.Join(parts, "; ") + "."
	if same {
		text = "At " + asked(firsts[0].torque, o) + ", " + text
	}
	return text
}

// verdict says in one sentence which of several boxes stay inside their limits.
func verdict(firsts []first) string {
	var over, thin, inside []string
	for i := range firsts {
		f := &firsts[i]
		switch {
		case f.margin == nil:
		case f.margin.State == gearbox.Over:
			over = append(over, f.box)
		case f.margin.State == gearbox.Thin:
			thin = append(thin, f.box)
		default:
			inside = append(inside, f.box)
		}
	}
	var parts []string
	add := func(names []string, one, several string) {
		if len(names) == 1 {
			parts = append(parts, names[0]+" "+one)
		} else if len(names) > 1 {
			parts = append(parts, list(names)+" "+several)
		}
	}
	add(over, "is over its limits", "are over their limits")
	add(thin, "stays inside by less than the wanted reserve", "stay inside by less than the wanted reserve")
	add(inside, "stays inside every limit with the wanted reserve", "stay inside every limit with the wanted reserve")
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, "; ") + "."
}

// judgedBy says which end of the ranges the answer rests on, and what the other ends would give, the bad one first.
func judgedBy(firsts []first, o Options) string {
	var limited []*first
	for i := range firsts {
		if firsts[i].margin != nil {
			limited = append(limited, &firsts[i])
		}
	}
	if len(limited) == 0 {
		return ""
	}
	level := limited[0].margin.Level
	if slices.ContainsFunc(limited, func(f *first) bool { return f.margin.Level != level }) {
		return "The boxes are judged by different ends of their ranges of limits and strengths: see each of them."
	}
	text := "Judged by " + levelName(level) + "."
	var other []string
	for _, end := range []material.Level{material.Low, material.High} {
		if end != level && slices.ContainsFunc(limited, func(f *first) bool { return f.ends[end] != f.ends[level] }) {
			other = append(other, endWords(limited, end, len(firsts) > 1, len(other) == 0, o))
		}
	}
	if len(other) == 0 {
		return text
	}
	return text + " If everything sits at " + strings.Join(other, "; at ") + "."
}

// endWords says at which torque each box runs out when every range is at one end; named tells whether boxes are named, opening whether it opens the sentence.
func endWords(limited []*first, end material.Level, named, opening bool, o Options) string {
	parts := make([]string, len(limited))
	for i, f := range limited {
		at := "no limit is in sight"
		if finite(f.ends[end]) {
			at = "at " + apart(f.ends[end], math.Abs(f.torque), o)
			if opening && i == 0 {
				at = "runs out " + at
			}
			switch below := f.ends[end] < math.Abs(f.torque); {
			case below && named:
				at += " (below what was asked)"
			case below:
				at += ", below what was asked"
			}
		}
		switch {
		case named && !finite(f.ends[end]):
			at += " for " + f.box
		case named:
			at = f.box + " " + at
		case opening && finite(f.ends[end]):
			at = "it " + at
		}
		parts[i] = at
	}
	return "the " + end.String() + " end " + list(parts)
}

// endlessWords says for which boxes fatigue decides though nobody told what they have to live through; "" for none.
func endlessWords(firsts []first) string {
	var boxes []string
	for i := range firsts {
		if firsts[i].endless {
			boxes = append(boxes, firsts[i].box)
		}
	}
	switch {
	case len(boxes) == 0:
		return ""
	case len(firsts) == 1:
		return "Fatigue decides, and it is judged for endless life, because no duty is told."
	}
	return "In " + list(boxes) + " fatigue decides, and it is judged for endless life, because no duty is told."
}

// levelName is an end of the ranges in words.
func levelName(l material.Level) string {
	if l == material.Typical {
		return "the typical value of each range of limits and strengths"
	}
	return "the " + l.String() + " end of each range of limits and strengths"
}

// list joins names: "A, B and C".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

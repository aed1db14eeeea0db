package reports

import (
	"fmt"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
)

// Sentence is one sentence of a verdict, with what it is about.
type Sentence struct {
	About string // for machines: "bears", "answer", "asked", "bad_range", "guides", "endless", "not_judged"
	Text  string
}

// Verdict is the answer about a solved box in sentences, from what decides down to what only warns.
func Verdict(r *gearbox.Result, o Options) []Sentence {
	sentences := verdictOf(shorten(boxNames([]*gearbox.Result{r})[0], 40), r, o)
	for i := range sentences {
		sentences[i].Text = strings.ReplaceAll(sentences[i].Text, noBreak, " ")
	}
	return sentences
}

// verdictOf is Verdict with no-break blanks between numbers and units.
func verdictOf(name string, r *gearbox.Result, o Options) (all []Sentence) {
	add := func(about, text string) {
		if text != "" {
			all = append(all, Sentence{about, text})
		}
	}
	if len(r.Speeds) == 0 {
		add("answer", "At "+asked(r.Torque, o)+", "+name+" has none of the speeds asked for.")
		return all
	}
	v := study.Judge(r)
	if v.Least == nil {
		add("answer", "At "+asked(r.Torque, o)+", "+name+" has no limit that could be checked.")
		return all
	}
	add("answer", answerWords(name, asked(r.Torque, o), &v, o))
	if len(r.Kinds) > 0 {
		add("kinds", "Only this decides, as asked: "+strings.Join(each(r.Kinds, gearbox.Kind.String), "; ")+".")
	}
	add("bears", bearsWords(name, &v, o))
	add("asked", askedWords(&v, o))
	add("bad_range", badWords(&v, o))
	add("guides", guideWords(&v, o))
	add("endless", endlessWords(&v, o))
	add("not_judged", notJudgedWords(&v))
	return all
}

// answerWords says yes or no to a torque that is asked about in words.
func answerWords(name, asking string, v *study.Verdict, o Options) string {
	least := v.Least
	reserve := fmt.Sprintf("%.3g"+noBreak+"%%", 100*v.Box.Limits.Reserve)
	text := fmt.Sprintf("Yes: at %s, %s stays inside every limit with the wanted reserve of %s", asking, name, reserve)
	switch v.State {
	case gearbox.Over:
		text = fmt.Sprintf("No: at %s, %s is over its limits", asking, name)
	case gearbox.Thin:
		text = fmt.Sprintf("Just: at %s, %s stays inside every limit, but by less than the wanted reserve of %s", asking, name, reserve)
	}
	stands := fmt.Sprintf("least is left in %s, %s (%s)", shorten(harmless(least.Speed), 20), left(least.Left), limitIn(least.Margin, least.Speed))
	switch {
	case math.IsInf(least.Left, 1):
		return text + "; no limit is reached at any torque."
	case !v.Arrives:
		return text + "; " + stands + "."
	case least.By == gearbox.ByEngine:
		return text + ". What clutch and tyres let through is counted: " + stands + ", where all of it arrives."
	}
	return text + fmt.Sprintf(". What clutch and tyres let through is counted: %s, where the %s let%s %s through.", stands, least.By, singular(least.By), with(least.Comes, quantity.Torque, o.Units))
}

// limitIn names a limit beside the speed that it stands in.
func limitIn(m *gearbox.Margin, speed string) string {
	l := gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Step: m.Step}
	return limitBeside(l, speed)
}

// limitBeside names a limit beside a speed: the step of the duty that uses most of it is named where it is one of another speed.
func limitBeside(l gearbox.FirstLimit, speed string) string {
	if l.Step == speed {
		l.Step = ""
	}
	return shorten(harmless(l.Phrase()), 70)
}

// singular is the ending of a verb of one thing.
func singular(by gearbox.Bound) string {
	if by == gearbox.ByTyres {
		return ""
	}
	return "s"
}

// left is a torque margin in words.
func left(margin float64) string {
	if margin < 0 {
		return percentOf(1/(1+margin)-1) + " too much"
	}
	return percentOf(margin)
}

// percentOf is a share in percent without a sign, with three digits that count.
func percentOf(share float64) string {
	v := 100 * math.Abs(share)
	if v >= 1000 {
		return "more than 1000" + noBreak + "%"
	}
	return fixed(v, decimalsFor(v, 3)) + noBreak + "%"
}

// bearsWords says what the box bears, and with the poorest and the best steel, each end with its own limit.
func bearsWords(name string, v *study.Verdict, o Options) string {
	judged := &v.Bears[v.Level]
	if !finite(judged.Torque) {
		return ""
	}
	text := fmt.Sprintf("%s bears %s at the input with %s, limited by %s", name, apart(judged.Torque, math.Abs(v.Torque), o), steelEnd(v.Level), endLimit(judged))
	for _, level := range []material.Level{material.Low, material.Typical, material.High} {
		end := &v.Bears[level]
		if level == v.Level || end.Torque == judged.Torque {
			continue
		}
		switch {
		case !finite(end.Torque):
			text += fmt.Sprintf("; with %s no limit is reached", steelEnd(level))
		case end.Kind == judged.Kind && end.Item == judged.Item && end.Speed == judged.Speed:
			text += fmt.Sprintf("; with %s %s, by the same", steelEnd(level), apart(end.Torque, math.Abs(v.Torque), o))
		default:
			text += fmt.Sprintf("; with %s %s, by %s", steelEnd(level), apart(end.Torque, math.Abs(v.Torque), o), endLimit(end))
		}
	}
	return text + "."
}

func endLimit(e *study.End) string {
	return fmt.Sprintf("%s in %s", limitBeside(e.FirstLimit, e.Speed), shorten(harmless(e.Speed), 20))
}

// steelEnd is an end of the steel bands in words.
func steelEnd(l material.Level) string {
	switch l {
	case material.Low:
		return "the poorest steel that the file allows"
	case material.High:
		return "the best"
	}
	return "typical steel"
}

// askedWords says what would be if all of the asked torque arrived, where less does.
func askedWords(v *study.Verdict, o Options) string {
	if !v.Arrives || v.Asked == nil || math.IsInf(v.Asked.Left, 1) {
		return ""
	}
	return fmt.Sprintf("If all of %s arrived, it would be %s: in %s, %s (%s).", asked(v.Torque, o), v.Asked.State, shorten(harmless(v.Asked.Speed), 20), left(v.Asked.Left), limitIn(v.Asked.Margin, v.Asked.Speed))
}

// badWords names the range in which a limit is exceeded that is met again further up.
func badWords(v *study.Verdict, o Options) string {
	if v.Bad == nil {
		return ""
	}
	m := v.Bad.Margin
	return fmt.Sprintf("It is over between %s and %s: %s in %s is met, left and met again, so that more torque helps there. What counts is the first.",
		strings.TrimSuffix(with(m.Bad[0], quantity.Torque, o.Units), noBreak+quantity.Unit(quantity.Torque, o.Units)), with(m.Bad[1], quantity.Torque, o.Units), limitName(m), shorten(harmless(v.Bad.Speed), 20))
}

// guideWords tells of the guides that are passed.
func guideWords(v *study.Verdict, o Options) string {
	if len(v.Guides) == 0 {
		return ""
	}
	g := &v.Guides[0]
	count := "One guide is passed"
	if n := len(v.Guides); n > 1 {
		count = fmt.Sprintf("%d guides are passed", n)
	}
	first := ""
	if len(v.Guides) > 1 {
		first = ", first "
	} else {
		first = ": "
	}
	return fmt.Sprintf("%s%s%s in %s, from %s on. Guides warn and don't decide.", count, first, limitName(g.Margin), shorten(harmless(g.Speed), 20), with(g.Margin.Allowable[material.Low], quantity.Torque, o.Units))
}

// endlessWords says that wear is no part of the answer, where no duty is given.
func endlessWords(v *study.Verdict, o Options) string {
	switch {
	case v.Endless == nil:
		return ""
	case !finite(v.Endless.Torque):
		return "No duty is given, so the answer is by what breaks at once."
	}
	return fmt.Sprintf("No duty is given, so the answer is by what breaks at once; endless life would need no more than %s (%s).", with(v.Endless.Torque, quantity.Torque, o.Units), endLimit(v.Endless))
}

// notJudgedWords lists what may fail beside the limits.
func notJudgedWords(v *study.Verdict) string {
	if len(v.NotJudged) == 0 {
		return ""
	}
	return "Not judged: " + strings.Join(each(v.NotJudged, func(n gearbox.NotJudged) string {
		if n.Why != "" {
			return n.What + " (give " + n.Why + ")"
		}
		return n.What
	}), "; ") + "."
}

package view

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
	About string // for machines: "answer", "bears", "asked", "bad_range", "history", "kinds", "guides", "endless", "hangs_on", "not_judged"
	Text  string
}

// Verdict is the answer about a solved box in sentences, from what decides down to what only warns. effects is what its assumptions do; nil = not known.
func Verdict(r *gearbox.Result, effects []study.Effect, o Options) []Sentence {
	return verdictOf(Shorten(BoxNames([]*gearbox.Result{r})[0], 40), r, effects, o)
}

// verdictOf is Verdict of a box by its name beside others.
func verdictOf(name string, r *gearbox.Result, effects []study.Effect, o Options) (all []Sentence) {
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
	if v.Least == nil && v.Record.BrokeAt == nil {
		add("answer", "At "+asked(r.Torque, o)+", "+name+" has no limit that could be checked.")
		add("not_judged", notJudgedWords(&v))
		return all
	}
	add("answer", answerWords(name, asked(r.Torque, o), &v, o))
	add("bears", bearsWords(name, &v, o))
	add("sampled", sampledWords(name, r.Box, o))
	add("asked", allArrivedWords(&v, o))
	add("bad_range", badWords(&v, o))
	add("history", historyWords(&v, o))
	add("kinds", kindWords(r))
	add("guides", guideWords(&v, o))
	add("endless", endlessWords(&v, o))
	add("hangs_on", EffectWords(effects, o))
	add("not_judged", notJudgedWords(&v))
	return all
}

// kindWords says which limits alone decide, where that was asked.
func kindWords(r *gearbox.Result) string {
	if len(r.Kinds) == 0 {
		return ""
	}
	return "Only this decides, as asked: " + strings.Join(Each(r.Kinds, gearbox.Kind.String), "; ") + "."
}

// answerWords says yes or no to a torque that is asked about in words.
func answerWords(name, asking string, v *study.Verdict, o Options) string {
	if e := v.Record.BrokeAt; e != nil {
		text := fmt.Sprintf("No: at %s, %s is asked for no less than broke it: it %s.", asking, name, evidenceWords(*e, o))
		if v.Least != nil {
			text += fmt.Sprintf(" By calculation alone it would be %s: %s.", v.Least.State, stands(v.Least))
		}
		return text
	}
	least := v.Least
	reserve := reserveWords(v.Box)
	if math.IsInf(least.Left, 1) {
		return fmt.Sprintf("Yes: at %s, %s stays inside every limit; none is reached at any torque.", asking, name)
	}
	var text string
	switch v.State {
	case gearbox.Over:
		text = fmt.Sprintf("No: at %s, %s is over its limits: %s.", asking, name, stands(least))
	case gearbox.Thin:
		text = fmt.Sprintf("Just: at %s, %s stays inside every limit, but with %s where %s is wanted.", asking, name, stands(least), reserve)
	default:
		text = fmt.Sprintf("Yes: at %s, %s stays inside every limit, with %s where %s is wanted.", asking, name, stands(least), reserve)
	}
	if !v.Arrives {
		return text
	}
	where := "Least is left"
	if v.State == gearbox.Over {
		where = "It is worst"
	}
	return text + fmt.Sprintf(" %s in %s, where %s: %s.", where, Shorten(Clean(least.Speed), 20), arrives(least, o), limitIn(least.Margin, least.Speed))
}

// stands says how a limit stands: "20.9 % left", "it bears 7.50 % less".
func stands(s *study.Standing) string {
	if s.Left < 0 {
		return "it bears " + Share(s.Left) + " less"
	}
	return Share(s.Left) + " left"
}

// arrives says what comes to a limit, and what lets no more through: "185 N·m arrives, limited by the tyres".
func arrives(s *study.Standing, o Options) string {
	text := With(s.Comes, quantity.Torque, o.Units) + " arrives"
	bears := ""
	if s.Margin.Kind.Static() {
		text = "a peak of " + text
		if !math.IsInf(s.Left, 0) {
			bears = ", and a peak of " + With(s.Comes*(1+s.Left), quantity.Torque, o.Units) + " is borne"
		}
	}
	if s.By == gearbox.ByEngine {
		return text + ", all that the engine gives" + bears
	}
	return text + ", limited by the " + string(s.By) + bears
}

// historyWords sets the asked torque against what the box survived.
func historyWords(v *study.Verdict, o Options) string {
	e := v.Record.Survived
	if e == nil {
		return ""
	}
	behind := With(e.Torque, quantity.Torque, o.Units)
	if e.Passes > 0 {
		behind += ", " + e.PassWords()
	}
	return fmt.Sprintf("Asked is %s of what it survived (%s).", Fixed(v.Record.Ratio, 2), behind)
}

// limitIn names a limit beside the speed that it stands in.
func limitIn(m *gearbox.Margin, speed string) string { return LimitBeside(m.First(), speed) }

// LimitBeside names a limit beside a speed: the step of the duty that uses most of it is named where it is one of another speed.
func LimitBeside(l gearbox.FirstLimit, speed string) string {
	if l.Step == speed {
		l.Step = ""
	}
	return Shorten(Clean(l.Phrase()), 80)
}

// limitAt names a limit with its speed. What most of is used up in another speed is one sum over the duty, and no matter of one speed.
func limitAt(l gearbox.FirstLimit, speed string) string {
	text := LimitBeside(l, speed)
	if l.Step != "" && l.Step != speed {
		return text
	}
	return text + " in " + Shorten(Clean(speed), 20)
}

// bearsWords says what the box bears, and with the poorest and the best steel, each end with its own limit.
func bearsWords(name string, v *study.Verdict, o Options) string {
	judged, low, high := &v.Bears[v.Level], &v.Bears[material.Low], &v.Bears[material.High]
	if !Finite(low.Torque) {
		return ""
	}
	if !Finite(judged.Torque) {
		return fmt.Sprintf("With %s %s bears %s at the input, limited by %s; with %s no limit is reached.", steelEnd(material.Low), name, apart(low.Torque, math.Abs(v.Torque), o), endLimit(low), steelEnd(v.Level))
	}
	text := fmt.Sprintf("%s bears %s at the input", name, apart(judged.Torque, math.Abs(v.Torque), o))
	if low.Torque != high.Torque {
		text += " with " + steelEnd(v.Level)
	}
	text += ", limited by " + endLimit(judged)
	same := func(e *study.End) bool {
		return e.Kind == judged.Kind && e.Item == judged.Item && e.Speed == judged.Speed
	}
	for _, level := range []material.Level{material.Low, material.Typical, material.High} {
		end, steel := &v.Bears[level], steelEnd(level)
		switch {
		case level == v.Level || end.Torque == judged.Torque:
			continue
		case level == material.Typical && *end == *high && v.Level != material.High:
			steel = "typical and with the best steel"
		case level == material.High && *end == v.Bears[material.Typical] && v.Level != material.Typical:
			continue // said with the typical
		}
		switch {
		case !Finite(end.Torque):
			text += fmt.Sprintf("; with %s no limit is reached", steel)
		case same(end):
			text += fmt.Sprintf("; %s with %s", apart(end.Torque, math.Abs(v.Torque), o), steel)
		default:
			text += fmt.Sprintf("; %s with %s, by %s", apart(end.Torque, math.Abs(v.Torque), o), steel, endLimit(end))
		}
	}
	return text + "."
}

func endLimit(e *study.End) string { return limitAt(e.FirstLimit, e.Speed) }

// steelEnd is an end of the steel bands in words.
func steelEnd(l material.Level) string {
	switch l {
	case material.Low:
		return "the poorest steel that the file allows"
	case material.High:
		return "the best steel"
	}
	return "typical steel"
}

// allArrivedWords says what would be if all of the asked torque arrived, where less does.
func allArrivedWords(v *study.Verdict, o Options) string {
	if !v.Arrives || v.Asked == nil || math.IsInf(v.Asked.Left, 1) || v.Least.By == gearbox.ByEngine && v.Least.Margin == v.Asked.Margin {
		return ""
	}
	return fmt.Sprintf("If all of %s arrived, it would be %s: %s.", asked(v.Torque, o), v.Asked.State, stands(v.Asked))
}

// badWords names the range in which a limit is exceeded that is met again further up.
func badWords(v *study.Verdict, o Options) string {
	if v.Bad == nil {
		return ""
	}
	m := v.Bad.Margin
	return fmt.Sprintf("It is %s: %s is exceeded there and holds again above. The lower end counts.", badRange(m.Bad, o), limitAt(m.First(), v.Bad.Speed))
}

// badRange is where a limit is exceeded that is met again further up: "over between 24.9 and 79.9 N·m".
func badRange(bad [2]float64, o Options) string {
	torque := AlikeIn(bad[:], quantity.Torque, o.Units)
	return fmt.Sprintf("over between %s and %s", torque[0], torque[1]+NoBreak+quantity.Unit(quantity.Torque, o.Units))
}

// guideWords tells of the guides that are passed.
func guideWords(v *study.Verdict, o Options) string {
	if len(v.Guides) == 0 {
		return ""
	}
	g := &v.Guides[0]
	count := "One guide is passed: "
	if n := len(v.Guides); n > 1 {
		count = fmt.Sprintf("%d guides are passed, first ", n)
	}
	return fmt.Sprintf("%s%s in %s, from %s on. Guides warn and don't decide.", count, LimitName(g.Margin), Shorten(Clean(g.Speed), 20), With(g.Margin.Allowable[material.Low], quantity.Torque, o.Units))
}

// endlessWords says that wear is no part of the answer, where no duty is given.
func endlessWords(v *study.Verdict, o Options) string {
	switch {
	case v.Endless == nil:
		return ""
	case !Finite(v.Endless.Torque):
		return "No duty is given, so the answer is by what breaks at once."
	}
	return fmt.Sprintf("No duty is given, so the answer is by what breaks at once; endless life would need no more than %s (%s).", With(v.Endless.Torque, quantity.Torque, o.Units), endLimit(v.Endless))
}

// notJudgedWords lists what may fail beside the limits.
func notJudgedWords(v *study.Verdict) string {
	if len(v.NotJudged) == 0 {
		return ""
	}
	return "Not judged: " + strings.Join(Each(v.NotJudged, func(n gearbox.NotJudged) string {
		if n.Why != "" {
			return n.What + " (give " + n.Why + ")"
		}
		return n.What
	}), "; ") + "."
}

package view

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// ReportableSpread refuses a spread of which no report can be made.
func ReportableSpread(s *study.Spread) error {
	if s == nil || len(s.Boxes) == 0 || s.Samples == 0 {
		return errors.New("there is no spread to report: draw at least one sample of a box")
	}
	return nil
}

// SpreadNames are the names of the boxes for people, told apart.
func SpreadNames(s *study.Spread) []string {
	return BoxNames(Each(s.Boxes, func(b study.BoxSpread) *gearbox.Result { return &gearbox.Result{Box: b.Box} }))
}

// SpreadWords are the answer, a sentence each.
func SpreadWords(s *study.Spread, o Options) (all []string) {
	names := SpreadNames(s)
	for i := range s.Boxes {
		all = append(all, boxSpreadWords(Shorten(names[i], 40), s, &s.Boxes[i], o)...)
	}
	if len(s.Ratio) > 0 {
		all = append(all, ratioWordsOf(s))
	}
	if len(s.Ranking) > 0 && s.Ranking[0].Left < 0.98 {
		r := &s.Ranking[0]
		all = append(all, fmt.Sprintf("Measure this next: %s. With it known the answer would be about %.0f"+NoBreak+"%% as wide as now.", Clean(r.Group), 100*r.Left))
	}
	if !s.Stated {
		all = append(all, "The file doesn't say how what isn't known spreads, so these are ranges and no chances: add uncertainty: {} to it, or more, to take the laws that are listed below as meant.")
	}
	if s.Samples < s.Wanted {
		all = append(all, fmt.Sprintf("Stopped after %d of %d samples.", s.Samples, s.Wanted))
	}
	return all
}

// ratioWordsOf say what the second of two boxes bears of what the first does.
func ratioWordsOf(s *study.Spread) string {
	names, r := SpreadNames(s), &s.Ratio[0]
	words := fmt.Sprintf("%s bears %s of what %s bears, what both share taken alike", Shorten(names[1], 40), ratioRange(s, &r.Ratio), Shorten(names[0], 40))
	if s.Stated {
		words += "; the chance that it bears less is " + chanceWords(r.Less)
	}
	return words + "."
}

// sampledWords say what a sample of everything that isn't known exactly says of a box; "" when none was drawn.
func sampledWords(name string, b *gearbox.Box, o Options) string {
	s, ok := o.Sampled[b]
	if !ok {
		return ""
	}
	words := boxSpreadWords(name, s.Spread, &s.Spread.Boxes[s.Box], o)
	words[0] = fmt.Sprintf("By %d samples of what isn't known exactly, a", s.Spread.Samples) + strings.TrimPrefix(words[0], "A")
	return Joined(words)
}

// boxSpreadWords are the sentences about one box.
func boxSpreadWords(name string, s *study.Spread, b *study.BoxSpread, o Options) (all []string) {
	ask := asked(b.Asked, o)
	bears := fmt.Sprintf("At the input %s bears %s", name, torqueRange(s, &b.Bears, o))
	if len(b.First) > 0 && b.First[0].Speed != "" {
		f := &b.First[0]
		bears += fmt.Sprintf(", limited in %.0f"+NoBreak+"%% of the samples by %s in %s", 100*f.Share, oftenWords(f), Clean(f.Speed))
	}
	all = append(all, bears+".")
	if !s.Stated {
		return all
	}
	if !math.IsNaN(b.Over.Value) {
		what := "by what arrives and by the duty"
		if b.Box.Clutch == nil && b.Box.Car == nil {
			what = "with all of it arriving"
		}
		all = append(all, fmt.Sprintf("The chance that a limit of %s is exceeded at %s, %s, is %s.", name, ask, what, chanceWords(b.Over)))
	}
	return append(all, fmt.Sprintf("The chance that it bears less than %s at the input is %s.", ask, chanceWords(b.Short)))
}

func oftenWords(f *study.Often) string {
	return Shorten(Clean(gearbox.FirstLimit{Kind: f.Kind, Item: f.Item, Torque: 1}.Phrase()), 80)
}

// chanceWords are a chance with how sure it is. What was seen in no sample, or in all, is said to be rarer or more frequent than so much.
func chanceWords(c chance.Interval) string {
	switch {
	case math.IsNaN(c.Value):
		return "not known"
	case c.Value == 0:
		return "below " + share(c.To)
	case c.Value == 1:
		return "above " + share(c.From)
	}
	return fmt.Sprintf("%s (%s to %s)", share(c.Value), strings.TrimSuffix(share(c.From), NoBreak+"%"), share(c.To))
}

// share is a share in per cent, with two digits that count of whichever is smaller, itself or the rest.
func share(v float64) string {
	rest := min(v, 1-v)
	return Fixed(100*v, DecimalsFor(100*rest, 2)) + NoBreak + "%"
}

// torqueRange is a range of a torque in words: 90 of 100, or all that was drawn.
func torqueRange(s *study.Spread, b *study.Band90, o Options) string {
	low, high, what := b.Low.Value, b.High.Value, "in 90 of 100 cases"
	if !s.Stated {
		low, high, what = b.Least, b.Most, fmt.Sprintf("in all of %d samples", s.Samples)
	}
	if !Finite(high) {
		return fmt.Sprintf("%s or more %s", With(low, quantity.Torque, o.Units), what)
	}
	pair := AlikeIn([]float64{low, high}, quantity.Torque, o.Units)
	return fmt.Sprintf("%s to %s"+NoBreak+"%s %s", pair[0], pair[1], quantity.Unit(quantity.Torque, o.Units), what)
}

func ratioRange(s *study.Spread, b *study.Band90) string {
	low, high := b.Low.Value, b.High.Value
	if !s.Stated {
		low, high = b.Least, b.Most
	}
	return fmt.Sprintf("%.0f to %.0f"+NoBreak+"%%", 100*low, 100*high)
}

// SpreadTables tell of one box what it bears, which limit is first how often, and what is left.
func SpreadTables(s *study.Spread, box int, o Options) []*Table {
	b := &s.Boxes[box]
	return []*Table{bearsTable(s, b, o), oftenTable(b, o), leftTable(s, b, o)}
}

// bandColumns are the columns of a range; bandValues are in the same order.
func bandColumns(s *study.Spread, d quantity.Dimension, unit string) []Column {
	heads := []string{"5 of 100\nbelow", "half\nbelow", "95 of 100\nbelow"}
	if !s.Stated {
		heads = []string{"least\ndrawn", "middle\nof them", "most\ndrawn"}
	}
	return Each(heads, func(head string) Column {
		if unit != "" {
			return right(head, unit)
		}
		return numbers(head, d).alike(1)
	})
}

func bandValues(s *study.Spread, b *study.Band90) []float64 {
	if s.Stated {
		return []float64{b.Low.Value, b.Middle.Value, b.High.Value}
	}
	return []float64{b.Least, b.Middle.Value, b.Most}
}

// chanceColumn adds a column of chances, which there are where the file says how what isn't known spreads.
func chanceColumn(t *Table, s *study.Spread, head string) {
	if s.Stated {
		t.columns(Column{Head: head})
	}
}

func chanceCell(s *study.Spread, c chance.Interval) []Cell {
	if !s.Stated {
		return nil
	}
	return []Cell{word(chanceWords(c))}
}

func bearsTable(s *study.Spread, box *study.BoxSpread, o Options) *Table {
	t := o.table("Allowable torque at the input", words("speed", 8))
	t.columns(bandColumns(s, quantity.Torque, "")...)
	chanceColumn(t, s, "chance of less than\n"+asked(box.Asked, o))
	add := func(name string, b *study.Band90, short chance.Interval) {
		row := append([]Cell{word(name)}, Each(bandValues(s, b), number)...)
		t.add(append(row, chanceCell(s, short)...)...)
	}
	add("all of them", &box.Bears, box.Short)
	for i := range box.Speeds {
		v := &box.Speeds[i]
		add(v.Name, &v.Bears, v.Short)
	}
	return t.done()
}

// oftenTable tells which limit is first how often.
func oftenTable(box *study.BoxSpread, o Options) *Table {
	t := o.table("Which limit is first", words("limited by", 20), words("speed", 8), right("of 100\nsamples", ""))
	for i := range box.First {
		f := &box.First[i]
		limit, speed := oftenWords(f), f.Speed
		if f.Speed == "" {
			limit, speed = "no limit", Absent
		}
		t.add(word(limit), word(speed), word(Fixed(100*f.Share, 1)))
	}
	return t.done()
}

// shownMargins is how many margins are listed: those with the least left.
const shownMargins = 10

func leftTable(s *study.Spread, box *study.BoxSpread, o Options) *Table {
	t := o.table("What is left, by what arrives and by the duty", words("limit", 20), words("speed", 8))
	t.columns(bandColumns(s, quantity.Number, "%")...)
	chanceColumn(t, s, "chance that it\nis exceeded")
	var shown []*study.MarginSpread
	left := 0
	for i := range box.Margins {
		m := &box.Margins[i]
		switch {
		case slices.ContainsFunc(shown, m.Same): // what a duty uses up of a part is the same in every speed
		case len(shown) == shownMargins:
			left++
		default:
			shown = append(shown, m)
			row := append(wordsOf(oftenWords(&study.Often{Kind: m.Kind, Item: m.Item}), m.Speed), Each(bandValues(s, &m.Left), percent)...)
			t.add(append(row, chanceCell(s, m.Over)...)...)
		}
	}
	if left > 0 {
		t.say(fmt.Sprintf("%d more limits have more left.", left))
	}
	return t.done()
}

// NotBuildable says of how many samples no box can be made; "" when of all.
func NotBuildable(s *study.Spread, box int) string {
	b := &s.Boxes[box]
	if b.Gaps == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d samples are not buildable and count for nothing. The first of them: %s", b.Gaps, s.Samples, Clean(b.Gap))
}

// SpreadRatioTable compares the second box with the first; nil of one box.
func SpreadRatioTable(s *study.Spread, o Options) *Table {
	if len(s.Ratio) == 0 {
		return nil
	}
	names := SpreadNames(s)
	t := o.table(fmt.Sprintf("Allowable torque of %s over that of %s, what both share drawn once", Shorten(names[1], 40), Shorten(names[0], 40)), words("speed", 8))
	t.columns(bandColumns(s, quantity.Number, "%")...)
	chanceColumn(t, s, "chance that the\nsecond bears less")
	for i := range s.Ratio {
		r := &s.Ratio[i]
		name := r.Speed
		if name == "" {
			name = "all of them"
		}
		row := append(wordsOf(name), Each(bandValues(s, &r.Ratio), func(v float64) Cell { return word(Fixed(100*v, 1)) })...)
		t.add(append(row, chanceCell(s, r.Less)...)...)
	}
	return t.done()
}

// MeasureNextTable tells which unknowns move the answer most; nil when none is worth it, or it wasn't asked.
func MeasureNextTable(s *study.Spread, o Options) *Table {
	const few, worth = 12, 0.005
	what := "the allowable torque"
	if len(s.Boxes) > 1 {
		what = "the ratio of the allowable torques"
	}
	t := o.table("What to measure next: what moves "+what+" most", words("unknown", 20), right("share of\nthe spread", "%"), right("width left\nif known", "%"))
	for i := range s.Ranking {
		if r := &s.Ranking[i]; i < few && r.Effect.Total >= worth {
			t.add(wordsOf(r.Group, Fixed(100*r.Effect.Total, 0), Fixed(100*r.Left, 0))...)
		}
	}
	t.say("The share is of the variance, with what it does together with others (total effect), so that shares may add up to more than 100. Estimated from few hundred samples: shares within some 10 of each other may be out of order.")
	return t.done()
}

// DrawnTable lists everything that was drawn; measures of one ± stand together.
func DrawnTable(s *study.Spread, o Options) *Table {
	t := o.table("What was drawn", wrapped("unknown", 16), wrapped("what it is, and its bounds", 24), wrapped("law", 12))
	var measures []string // ± and law of the rows of measures
	for i := range s.Unknowns {
		u := &s.Unknowns[i]
		kind := u.Plus + u.Law
		switch {
		case u.Plus == "":
			t.add(wordsOf(u.Group, u.Words, u.Law)...)
		case !slices.Contains(measures, kind):
			measures = append(measures, kind)
			n := 0
			for k := range s.Unknowns {
				if s.Unknowns[k].Plus+s.Unknowns[k].Law == kind {
					n++
				}
			}
			what := u.Words
			if n > 1 {
				what = fmt.Sprintf("%d numbers, each ± %s", n, u.Plus)
			}
			t.add(wordsOf("measures", what, u.Law)...)
		}
	}
	if len(t.Rows) == 0 {
		t.add(wordsOf("nothing", "all of the file is taken as exact", Absent)...)
	}
	t.say(fmt.Sprintf("%d samples, scrambled Halton points, seed %d. Normal: 95 of 100 lie between the bounds; even and triangular: all do. The bounds of a steel are its poorest and its best strength. What the file leaves out is taken as \"layshaft check\" lists it, and is not drawn.", s.Samples, s.Seed))
	if s.Stated {
		t.say("The range in brackets behind a chance holds in 95 of 100 cases.")
	}
	return t.done()
}

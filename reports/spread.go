package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/chance"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Spread writes the text report of how sure an answer is.
func Spread(w io.Writer, s *study.Spread, o Options) error {
	if err := checkSpread(s); err != nil {
		return err
	}
	var b bytes.Buffer
	for _, text := range spreadSentences(s, o) {
		paragraph(&b, o.width(), "", text)
	}
	if len(s.Ratio) > 0 {
		ratioSpreadTable(&b, s, o)
	}
	for i := range s.Boxes {
		b.WriteByte('\n')
		title(&b, o.width(), view.Shorten(spreadNames(s)[i], 40), "")
		bearsTable(&b, s, &s.Boxes[i], o)
		firstTable(&b, &s.Boxes[i], o)
		leftTable(&b, s, &s.Boxes[i], o)
		notBuildable(&b, s, &s.Boxes[i], o)
	}
	rankedTable(&b, s, o)
	drawnTable(&b, s, o)
	foot(&b, o)
	return write(w, &b)
}

func checkSpread(s *study.Spread) error {
	if s == nil || len(s.Boxes) == 0 || s.Samples == 0 {
		return errors.New("there is no spread to report: draw at least one sample of a box")
	}
	return nil
}

func spreadNames(s *study.Spread) []string {
	return view.BoxNames(each(s.Boxes, func(b study.BoxSpread) *gearbox.Result { return &gearbox.Result{Box: b.Box} }))
}

// SpreadHeadline is the answer in words.
func SpreadHeadline(s *study.Spread, o Options) string {
	if checkSpread(s) != nil {
		return "Nothing was calculated."
	}
	return strings.ReplaceAll(strings.Join(spreadSentences(s, o), " "), view.NoBreak, " ")
}

func spreadSentences(s *study.Spread, o Options) (all []string) {
	names := spreadNames(s)
	for i := range s.Boxes {
		all = append(all, boxSpreadWords(view.Shorten(names[i], 40), s, &s.Boxes[i], o)...)
	}
	if len(s.Ratio) > 0 {
		r := &s.Ratio[0]
		words := fmt.Sprintf("%s bears %s of what %s bears, what both share taken alike", view.Shorten(names[1], 40), ratioRange(s, &r.Ratio), view.Shorten(names[0], 40))
		if s.Stated {
			words += "; the chance that it bears less is " + chanceWords(r.Less)
		}
		all = append(all, words+".")
	}
	if len(s.Ranking) > 0 && s.Ranking[0].Left < 0.98 {
		r := &s.Ranking[0]
		all = append(all, fmt.Sprintf("Measure this next: %s. With it known the answer would be about %.0f"+view.NoBreak+"%% as wide as now.", view.Clean(r.Group), 100*r.Left))
	}
	if !s.Stated {
		all = append(all, "The file doesn't say how what isn't known spreads, so these are ranges and no chances: add uncertainty: {} to it, or more, to take the laws that are listed below as meant.")
	}
	if s.Samples < s.Wanted {
		all = append(all, fmt.Sprintf("Stopped after %d of %d samples.", s.Samples, s.Wanted))
	}
	return all
}

// boxSpreadWords are the sentences about one box.
func boxSpreadWords(name string, s *study.Spread, b *study.BoxSpread, o Options) (all []string) {
	ask := asked(b.Asked, o)
	bears := fmt.Sprintf("At the input %s bears %s", name, torqueRange(s, &b.Bears, o))
	if len(b.First) > 0 && b.First[0].Speed != "" {
		f := &b.First[0]
		bears += fmt.Sprintf(", limited in %.0f"+view.NoBreak+"%% of the samples by %s in %s", 100*f.Share, oftenWords(f), view.Clean(f.Speed))
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
	return view.Shorten(view.Clean(gearbox.FirstLimit{Kind: f.Kind, Item: f.Item, Torque: 1}.Phrase()), 80)
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
	return fmt.Sprintf("%s (%s to %s)", share(c.Value), strings.TrimSuffix(share(c.From), view.NoBreak+"%"), share(c.To))
}

// share is a share in per cent, with two digits that count of whichever is smaller, itself or the rest.
func share(v float64) string {
	rest := min(v, 1-v)
	return view.Fixed(100*v, view.DecimalsFor(100*rest, 2)) + view.NoBreak + "%"
}

// torqueRange is a range of a torque in words: 90 of 100, or all that was drawn.
func torqueRange(s *study.Spread, b *study.Band90, o Options) string {
	low, high, what := b.Low.Value, b.High.Value, "in 90 of 100 cases"
	if !s.Stated {
		low, high, what = b.Least, b.Most, fmt.Sprintf("in all of %d samples", s.Samples)
	}
	if !view.Finite(high) {
		return fmt.Sprintf("%s or more %s", view.With(low, quantity.Torque, o.Units), what)
	}
	pair := view.AlikeIn([]float64{low, high}, quantity.Torque, o.Units)
	return fmt.Sprintf("%s to %s"+view.NoBreak+"%s %s", pair[0], pair[1], quantity.Unit(quantity.Torque, o.Units), what)
}

func ratioRange(s *study.Spread, b *study.Band90) string {
	low, high := b.Low.Value, b.High.Value
	if !s.Stated {
		low, high = b.Least, b.Most
	}
	return fmt.Sprintf("%.0f to %.0f"+view.NoBreak+"%%", 100*low, 100*high)
}

// bandHeads are the columns of a range; the cells are in the same order.
func bandHeads(s *study.Spread, unit string) []head {
	words := []string{"5 of 100\nbelow", "half\nbelow", "95 of 100\nbelow"}
	if !s.Stated {
		words = []string{"least\ndrawn", "middle\nof them", "most\ndrawn"}
	}
	return each(words, func(w string) head { return head{text: w + "\n" + unit, right: true} })
}

func bandValues(s *study.Spread, b *study.Band90) []float64 {
	if s.Stated {
		return []float64{b.Low.Value, b.Middle.Value, b.High.Value}
	}
	return []float64{b.Least, b.Middle.Value, b.Most}
}

func bearsTable(b *bytes.Buffer, s *study.Spread, box *study.BoxSpread, o Options) {
	heads := append([]head{{text: "speed", least: 8}}, bandHeads(s, quantity.Unit(quantity.Torque, o.Units))...)
	if s.Stated {
		heads = append(heads, head{text: "chance of less than\n" + asked(box.Asked, o)})
	}
	names, values := []string{"all of them"}, bandValues(s, &box.Bears)
	short := []chance.Interval{box.Short}
	for i := range box.Speeds {
		v := &box.Speeds[i]
		names, values, short = append(names, view.Clean(v.Name)), append(values, bandValues(s, &v.Bears)...), append(short, v.Short)
	}
	texts := view.AlikeIn(values, quantity.Torque, o.Units)
	var rows [][]cell
	for i, name := range names {
		row := []cell{{text: name}, {text: texts[3*i]}, {text: texts[3*i+1]}, {text: texts[3*i+2]}}
		if s.Stated {
			row = append(row, cell{text: chanceWords(short[i])})
		}
		rows = append(rows, row)
	}
	b.WriteString("\n  Allowable torque at the input\n")
	table(b, o.width(), heads, rows)
}

// firstTable tells which limit is first how often.
func firstTable(b *bytes.Buffer, box *study.BoxSpread, o Options) {
	var rows [][]cell
	for i := range box.First {
		f := &box.First[i]
		words, speed := oftenWords(f), view.Clean(f.Speed)
		if f.Speed == "" {
			words, speed = "no limit", view.Absent
		}
		rows = append(rows, texts(words, speed, view.Fixed(100*f.Share, 1)))
	}
	b.WriteString("\n  Which limit is first\n")
	table(b, o.width(), []head{{text: "limited by", least: 20}, {text: "speed", least: 8}, {text: "of 100\nsamples", right: true}}, rows)
}

// shownMargins is how many margins are listed: those with the least left.
const shownMargins = 10

func leftTable(b *bytes.Buffer, s *study.Spread, box *study.BoxSpread, o Options) {
	if len(box.Margins) == 0 {
		return
	}
	heads := append([]head{{text: "limit", least: 20}, {text: "speed", least: 8}}, bandHeads(s, "%")...)
	if s.Stated {
		heads = append(heads, head{text: "chance that it\nis exceeded"})
	}
	var rows [][]cell
	var shown []*study.MarginSpread
	left := 0
	for i := range box.Margins {
		m := &box.Margins[i]
		if slices.ContainsFunc(shown, m.Same) {
			continue // what a duty uses up of a part is the same in every speed
		}
		if len(rows) == shownMargins {
			left++
			continue
		}
		shown = append(shown, m)
		row := texts(oftenWords(&study.Often{Kind: m.Kind, Item: m.Item}), view.Clean(m.Speed))
		for _, v := range bandValues(s, &m.Left) {
			row = append(row, cell{text: view.Percent(v)})
		}
		if s.Stated {
			row = append(row, cell{text: chanceWords(m.Over)})
		}
		rows = append(rows, row)
	}
	b.WriteString("\n  What is left, by what arrives and by the duty\n")
	table(b, o.width(), heads, rows)
	if left > 0 {
		paragraph(b, o.width(), indent, fmt.Sprintf("%d more limits have more left.", left))
	}
}

func notBuildable(b *bytes.Buffer, s *study.Spread, box *study.BoxSpread, o Options) {
	if box.Gaps > 0 {
		b.WriteByte('\n')
		paragraph(b, o.width(), indent, fmt.Sprintf("%d of %d samples are not buildable and count for nothing. The first of them: %s", box.Gaps, s.Samples, view.Clean(box.Gap)))
	}
}

func ratioSpreadTable(b *bytes.Buffer, s *study.Spread, o Options) {
	heads := append([]head{{text: "speed", least: 8}}, bandHeads(s, "%")...)
	if s.Stated {
		heads = append(heads, head{text: "chance that the\nsecond bears less"})
	}
	var rows [][]cell
	for i := range s.Ratio {
		r := &s.Ratio[i]
		name := view.Clean(r.Speed)
		if name == "" {
			name = "all of them"
		}
		row := texts(name)
		for _, v := range bandValues(s, &r.Ratio) {
			row = append(row, cell{text: view.Fixed(100*v, 1)})
		}
		if s.Stated {
			row = append(row, cell{text: chanceWords(r.Less)})
		}
		rows = append(rows, row)
	}
	names := spreadNames(s)
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, fmt.Sprintf("Allowable torque of %s over that of %s, what both share drawn once", view.Shorten(names[1], 40), view.Shorten(names[0], 40)))
	table(b, o.width(), heads, rows)
}

// rankedTable tells which unknowns move the answer most.
func rankedTable(b *bytes.Buffer, s *study.Spread, o Options) {
	const few, worth = 12, 0.005
	var rows [][]cell
	for i := range s.Ranking {
		if r := &s.Ranking[i]; i < few && r.Effect.Total >= worth {
			rows = append(rows, texts(view.Clean(r.Group), view.Fixed(100*r.Effect.Total, 0), view.Fixed(100*r.Left, 0)))
		}
	}
	if len(rows) == 0 {
		return
	}
	what := "the allowable torque"
	if len(s.Boxes) > 1 {
		what = "the ratio of the allowable torques"
	}
	fmt.Fprintf(b, "\n  What to measure next: what moves %s most\n", what)
	table(b, o.width(), []head{{text: "unknown", least: 20}, {text: "share of\nthe spread\n%", right: true}, {text: "width left\nif known\n%", right: true}}, rows)
	paragraph(b, o.width(), indent, "The share is of the variance, with what it does together with others (total effect), so that shares may add up to more than 100. Estimated from few hundred samples: shares within some 10 of each other may be out of order.")
}

// drawnTable lists everything that was drawn; measures of one ± stand together.
func drawnTable(b *bytes.Buffer, s *study.Spread, o Options) {
	b.WriteString("\n  What was drawn\n")
	var rows [][]cell
	var measures []string // ± and law of the rows of measures
	for i := range s.Unknowns {
		u := &s.Unknowns[i]
		if u.Plus == "" {
			rows = append(rows, texts(view.Clean(u.Group), view.Clean(u.Words), view.Clean(u.Law)))
			continue
		}
		kind := u.Plus + u.Law
		if slices.Contains(measures, kind) {
			continue
		}
		measures = append(measures, kind)
		n := 0
		for k := range s.Unknowns {
			if s.Unknowns[k].Plus+s.Unknowns[k].Law == kind {
				n++
			}
		}
		words := view.Clean(u.Words)
		if n > 1 {
			words = fmt.Sprintf("%d numbers, each ± %s", n, u.Plus)
		}
		rows = append(rows, texts("measures", words, view.Clean(u.Law)))
	}
	if len(rows) == 0 {
		paragraph(b, o.width(), indent, "Nothing: all of the file is taken as exact.")
	} else {
		table(b, o.width(), []head{{text: "unknown", least: 16, wrap: true}, {text: "what it is, and its bounds", least: 24, wrap: true}, {text: "law", least: 12, wrap: true}}, rows)
	}
	paragraph(b, o.width(), indent, fmt.Sprintf("%d samples, scrambled Halton points, seed %d. Normal: 95 of 100 lie between the bounds; even and triangular: all do. The bounds of a steel are its poorest and its best strength. What the file leaves out is taken as \"layshaft check\" lists it, and is not drawn.", s.Samples, s.Seed))
	if s.Stated {
		paragraph(b, o.width(), indent, "The range in brackets behind a chance holds in 95 of 100 cases.")
	}
}

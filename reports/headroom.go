package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Headroom writes the text report of whether boxes bear a torque, one after the other.
func Headroom(w io.Writer, all []*study.Headroom, o Options) error {
	if err := checkHeadrooms(all); err != nil {
		return err
	}
	names := view.BoxNames(resultsOf(all))
	return write(w, annotated(o, func(b *bytes.Buffer, notes *footnotes, sources limitSources) {
		for i, h := range all {
			sentences := headroomSentences(view.Shorten(names[i], 40), h, o)
			if len(all) > 1 { // what the box bears goes with the answer, the rest stands below its title
				sentences = []string{strings.Join(sentences[:min(2, len(sentences))], " ")}
			}
			for _, text := range sentences {
				paragraph(b, o.width(), "", text)
			}
		}
		for i, h := range all {
			b.WriteByte('\n')
			headroomBox(b, names[i], h, len(all) > 1, o, notes, sources)
		}
	}))
}

func checkHeadrooms(all []*study.Headroom) error {
	if len(all) == 0 {
		return errors.New("there is no headroom to report: ask of at least one box")
	}
	for i, h := range all {
		if h == nil || h.Result == nil || h.Result.Box == nil || len(h.Speeds) == 0 || len(h.Speeds) != len(h.Result.Speeds) {
			return fmt.Errorf("headroom %d of %d holds no solved speed: report only what was solved", i+1, len(all))
		}
	}
	return nil
}

func resultsOf(all []*study.Headroom) []*gearbox.Result {
	return each(all, func(h *study.Headroom) *gearbox.Result { return h.Result })
}

// HeadroomHeadline answers yes or no for each box, and says what limits it.
func HeadroomHeadline(all []*study.Headroom, o Options) string {
	return strings.ReplaceAll(headroomHeadline(all, o), view.NoBreak, " ")
}

// HeadroomWords are the answer for one box, a sentence each.
func HeadroomWords(h *study.Headroom, o Options) []string {
	return each(headroomSentences(view.Shorten(view.BoxNames([]*gearbox.Result{h.Result})[0], 40), h, o), func(s string) string { return strings.ReplaceAll(s, view.NoBreak, " ") })
}

// HeadroomAnswers are the first sentences for all boxes: yes, just, or no.
func HeadroomAnswers(all []*study.Headroom, o Options) string {
	return strings.Join(each(all, func(h *study.Headroom) string { return HeadroomWords(h, o)[0] }), " ")
}

func headroomHeadline(all []*study.Headroom, o Options) string {
	if checkHeadrooms(all) != nil {
		return "Nothing was calculated."
	}
	names := view.BoxNames(resultsOf(all))
	sentences := make([]string, len(all))
	for i, h := range all {
		sentences[i] = strings.Join(headroomSentences(view.Shorten(names[i], 40), h, o), " ")
	}
	return strings.Join(sentences, " ")
}

// headroomSentences are the answer for one box: yes or no, what it bears, and how much more it would, as in the verdict of a check.
func headroomSentences(name string, h *study.Headroom, o Options) []string {
	v := study.Judge(h.Result)
	if v.Least == nil && v.Record.BrokeAt == nil {
		return []string{fmt.Sprintf("At %s, %s has no limit that could be checked.", asked(h.Total(), o), name)}
	}
	asking := asked(h.Total(), o)
	if h.Added != 0 {
		asking += " (" + addition(h, o) + ")"
	}
	sentences := []string{answerWords(name, asking, &v, o), bearsWords(name, &v, o), askedWords(&v, o), spareWords(h, &v, o), badWords(&v, o), historyWords(&v, o), kindWords(h.Result), guideWords(&v, o), endlessWords(&v, o), notJudgedWords(&v)}
	return slices.DeleteFunc(sentences, func(s string) bool { return s == "" })
}

// spareWords says how much of an addition that is too much would do.
func spareWords(h *study.Headroom, v *study.Verdict, o Options) string {
	if v.State != gearbox.Over || h.Added <= 0 || v.Record.BrokeAt != nil {
		return ""
	}
	if spare := v.Bears[v.Level].Torque - math.Abs(h.Before); spare > 0 {
		return fmt.Sprintf("With %s more it would be inside every limit.", torqueDown(spare, o))
	}
	return "It is over even without the addition."
}

// addition is what is added, in words.
func addition(h *study.Headroom, o Options) string {
	if h.Added < 0 {
		return view.With(-h.Added, quantity.Torque, o.Units) + " less than " + view.With(math.Abs(h.Before), quantity.Torque, o.Units)
	}
	return view.With(math.Abs(h.Before), quantity.Torque, o.Units) + " and " + view.With(h.Added, quantity.Torque, o.Units) + " more"
}

// limitWords is a limit of one part in words.
func limitWords(l gearbox.FirstLimit) string {
	return view.Shorten(view.Clean(l.Phrase()), 80)
}

// boundWords names a limit of a speed for a table, with the range in which it is exceeded where it holds again above.
func boundWords(l gearbox.FirstLimit, s *gearbox.SpeedResult, o Options) string {
	if !view.Finite(l.Torque) {
		return view.NotReached
	}
	text := limitBeside(l, s.Name)
	for i := range s.Margins {
		if m := &s.Margins[i]; m.Kind == l.Kind && m.Item == l.Item && m.Mesh == l.Mesh && m.Bad[1] > 0 {
			text += ", " + badRange(m.Bad, o)
		}
	}
	return text
}

func torqueDown(inner float64, o Options) string {
	return view.Down(quantity.Convert(inner, quantity.Torque, o.Units)) + view.NoBreak + quantity.Unit(quantity.Torque, o.Units)
}

// headroomBox tells everything about a box; verdict = also what the sentences on top leave out.
func headroomBox(b *bytes.Buffer, name string, h *study.Headroom, verdict bool, o Options, notes *footnotes, sources limitSources) {
	title(b, o.width(), name, notes.mark(remarks("", h.Result.Checks, h.Result.Notes)))
	paragraph(b, o.width(), indent, h.Result.Box.About)
	sense := "in drive"
	if h.Total() < 0 {
		sense = "in coast: the engine brakes"
	}
	text := fmt.Sprintf("Input torque %s, %s", view.With(math.Abs(h.Total()), quantity.Torque, o.Units), sense)
	if h.Added != 0 {
		text += ": " + addition(h, o)
	}
	paragraph(b, o.width(), indent, fmt.Sprintf("%s. Wanted reserve %.3g %%. Judged by %s.", text, 100*h.Result.Box.Limits.Reserve, levelName(h.Result.Box.Limits.Strength)))
	paragraph(b, o.width(), indent, madeOf(h.Result.Box)+" "+service(h.Result.Box, o))
	if sentences := headroomSentences(view.Shorten(name, 40), h, o); verdict && len(sentences) > 2 {
		for _, text := range sentences[2:] {
			paragraph(b, o.width(), indent, text)
		}
	}
	whole := ""
	if transmits(h.Result) {
		b.WriteString("\n  What is left at the torque transmitted, speed by speed\n")
		transmittedTable(b, h.Result, o, notes, sources)
		whole = " at the input, if all of the torque arrived"
	}
	b.WriteString("\n  What is left" + whole + ", speed by speed\n")
	reserveTable(b, h, o, notes)
	nextTable(b, h, o, sources)
	reachTable(b, h.Result, o, notes)
	variantTables(b, h, o)
}

// reserveTable has one row per speed: what is left, and to which torque to hold the engine.
func reserveTable(b *bytes.Buffer, h *study.Headroom, o Options, notes *footnotes) {
	allowable := view.AlikeIn(each(h.Speeds, func(r study.Reserve) float64 { return r.Allowable() }), quantity.Torque, o.Units)
	var rows [][]cell
	for i := range h.Speeds {
		r := &h.Speeds[i]
		first, hold, state := view.NotReached, view.Absent, r.State
		if len(r.Limits) > 0 && view.Finite(r.Allowable()) {
			first = boundWords(r.Limits[0], &h.Result.Speeds[i], o)
			hold = view.Down(quantity.Convert(r.Holding, quantity.Torque, o.Units))
			state = h.Result.Speeds[i].Governing().State
		}
		rows = append(rows, []cell{
			{text: view.Clean(r.Speed), mark: notes.mark(allRemarks(&h.Result.Speeds[i]))},
			{text: first}, {text: allowable[i]}, {text: hold}, {text: view.Percent(r.Asked)}, stateCell(state, o.Colour),
		})
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "limited by", least: 12, wrap: true},
		{text: "allowable\n" + unit, right: true},
		{text: "hold the engine\nto " + unit, right: true},
		{text: "left\n%", right: true},
		{text: "state"},
	}, rows)
	paragraph(b, o.width(), indent, fmt.Sprintf("Hold the engine to: a torque limit for its controller that keeps the wanted reserve, the allowable torque ÷ %s, rounded down.",
		strings.TrimRight(strings.TrimRight(strconv.FormatFloat(1+h.Result.Box.Limits.Reserve, 'f', 4, 64), "0"), ".")))
}

// nextTable has the first limits of every speed: what comes up when the first is cured.
func nextTable(b *bytes.Buffer, h *study.Headroom, o Options, sources limitSources) {
	var torques []float64
	for i := range h.Speeds {
		for _, l := range h.Speeds[i].Limits {
			torques = append(torques, l.Torque)
		}
	}
	at := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	for i := range h.Speeds {
		r := &h.Speeds[i]
		for k, l := range r.Limits {
			speed := ""
			if k == 0 {
				speed = view.Clean(r.Speed)
			}
			for j := range h.Result.Speeds[i].Margins {
				if m := &h.Result.Speeds[i].Margins[j]; m.Kind == l.Kind && m.Item == l.Item {
					sources.add(m)
				}
			}
			name := boundWords(l, &h.Result.Speeds[i], o)
			rows = append(rows, []cell{{text: speed}, {text: [...]string{"first", "second", "third"}[k]}, {text: name}, {text: at[len(rows)]}, {text: view.Percent(l.Torque/math.Abs(h.Total()) - 1)}})
		}
	}
	if len(rows) == 0 {
		return
	}
	b.WriteString("\n  What limits first, second and third at the input\n")
	table(b, o.width(), []head{
		{text: "speed", least: 8},
		{text: ""},
		{text: "limited by", least: 12, wrap: true},
		{text: "at\n" + quantity.Unit(quantity.Torque, o.Units), right: true},
		{text: "left\n%", right: true},
	}, rows)
	paragraph(b, o.width(), indent, "Fatigue and peak at one tooth root, or at one flank, count once: what cures one mostly cures the other.")
}

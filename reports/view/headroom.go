package view

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// ReportableHeadrooms refuses headrooms of which no report can be made.
func ReportableHeadrooms(all []*study.Headroom) error {
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

// ResultsOf are the solved boxes of headrooms.
func ResultsOf(all []*study.Headroom) []*gearbox.Result {
	return Each(all, func(h *study.Headroom) *gearbox.Result { return h.Result })
}

// HeadroomHeadline answers yes or no for each box, and says what limits it.
func HeadroomHeadline(all []*study.Headroom, o Options) string {
	if ReportableHeadrooms(all) != nil {
		return "Nothing was calculated."
	}
	return strings.Join(slices.Concat(HeadroomWords(all, o)...), " ")
}

// HeadroomAnswers are the first sentences for all boxes: yes, just, or no.
func HeadroomAnswers(all []*study.Headroom, o Options) string {
	return strings.Join(Each(HeadroomWords(all, o), func(sentences []string) string { return sentences[0] }), " ")
}

// HeadroomWords are the answers, a list of sentences for each box: yes or no, what it bears, and how much more it would, as in the
// verdict of a check.
func HeadroomWords(all []*study.Headroom, o Options) (words [][]string) {
	names := BoxNames(ResultsOf(all))
	for i, h := range all {
		words = append(words, headroomWords(Shorten(names[i], 40), h, o))
	}
	return words
}

func headroomWords(name string, h *study.Headroom, o Options) []string {
	v := study.Judge(h.Result)
	if v.Least == nil && v.Record.BrokeAt == nil {
		return []string{fmt.Sprintf("At %s, %s has no limit that could be checked.", asked(h.Total(), o), name)}
	}
	asking := asked(h.Total(), o)
	if h.Added != 0 {
		asking += " (" + addition(h, o) + ")"
	}
	sentences := []string{
		answerWords(name, asking, &v, o), bearsWords(name, &v, o), sampledWords(name, h.Result.Box, o), allArrivedWords(&v, o), spareWords(h, &v, o), badWords(&v, o),
		historyWords(&v, o), kindWords(h.Result), guideWords(&v, o), endlessWords(&v, o), notJudgedWords(&v),
	}
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
		return With(-h.Added, quantity.Torque, o.Units) + " less than " + With(math.Abs(h.Before), quantity.Torque, o.Units)
	}
	return With(math.Abs(h.Before), quantity.Torque, o.Units) + " and " + With(h.Added, quantity.Torque, o.Units) + " more"
}

// limitWords is a limit of one part in words.
func limitWords(l gearbox.FirstLimit) string {
	return Shorten(Clean(l.Phrase()), 80)
}

// boundWords names a limit of a speed for a table, with the range in which it is exceeded where it holds again above.
func boundWords(l gearbox.FirstLimit, s *gearbox.SpeedResult, o Options) string {
	if !Finite(l.Torque) {
		return NotReached
	}
	text := LimitBeside(l, s.Name)
	if m := MarginOf(s, l); m != nil && m.Bad[1] > 0 {
		text += ", " + badRange(m.Bad, o)
	}
	return text
}

func torqueDown(inner float64, o Options) string {
	return Down(quantity.Convert(inner, quantity.Torque, o.Units)) + NoBreak + quantity.Unit(quantity.Torque, o.Units)
}

// HeadroomAsked says which torque is asked for, what it is made of, and how the limits are judged.
func HeadroomAsked(h *study.Headroom, o Options) string {
	made := ""
	if h.Added != 0 {
		made = ": " + addition(h, o)
	}
	r := *h.Result
	r.Torque = h.Total()
	return judgedAt(&r, made, o)
}

// HeadroomIntro says what was asked of a box, and what is given of its steel and its work.
func HeadroomIntro(h *study.Headroom, o Options) []string {
	return []string{HeadroomAsked(h, o), Made(h.Result.Box, o)}
}

// HeadroomTables tell what is left, speed by speed: at the torque transmitted, where that is known, and at the input; and what comes up
// when the first limit is cured.
func HeadroomTables(h *study.Headroom, o Options) []*Table {
	whole := ""
	if transmits(h.Result) {
		whole = " at the input, if all of the torque arrived"
	}
	return []*Table{
		TransmittedTable("What is left at the torque transmitted, speed by speed", h.Result, o),
		reserveTable("What is left"+whole+", speed by speed", h, o), nextTable(h, o), ReachTable(h.Result, o),
	}
}

// reserveTable has one row per speed: what is left, and to which torque to hold the engine.
func reserveTable(caption string, h *study.Headroom, o Options) *Table {
	unit := quantity.Unit(quantity.Torque, o.Units)
	t := o.table(caption, words("speed", 3), wrapped("limited by", 12), numbers("allowable", quantity.Torque), right("hold the engine\nto", unit), right("left", "%"), words("state", 0))
	for i := range h.Speeds {
		r, s := &h.Speeds[i], &h.Result.Speeds[i]
		first, hold, stands := word(NotReached), absent(), r.State
		if len(r.Limits) > 0 && Finite(r.Allowable()) {
			first, hold, stands = word(boundWords(r.Limits[0], s, o)), word(Down(quantity.Convert(r.Holding, quantity.Torque, o.Units))), s.Governing().State
		}
		t.add(word(r.Speed).noting(speedRemarks(s)), first, known(r.Allowable()), hold, percent(r.Asked), state(stands))
	}
	t.say(fmt.Sprintf("Hold the engine to: a torque limit for its controller that keeps the wanted reserve, the allowable torque ÷ %s, rounded down.", Trimmed(1+h.Result.Box.Limits.Reserve)))
	return t.done()
}

// nextTable has the first limits of every speed: what comes up when the first is cured.
func nextTable(h *study.Headroom, o Options) *Table {
	t := o.table("What limits first, second and third at the input", once("speed", 8), words("order", 0), wrapped("limited by", 12), numbers("at", quantity.Torque), right("left", "%"))
	for i := range h.Speeds {
		s := &h.Result.Speeds[i]
		for k, l := range h.Speeds[i].Limits {
			name := word(boundWords(l, s, o))
			name.Limit = MarginOf(s, l)
			t.add(word(h.Speeds[i].Speed), word([...]string{"first", "second", "third"}[k]), name, known(l.Torque), percent(l.Torque/math.Abs(h.Total())-1))
		}
	}
	t.say("Fatigue and peak at one tooth root, or at one flank, count once: what cures one mostly cures the other.")
	return t.done()
}

// MarginOf is the limit of a speed that is meant; nil when it isn't listed.
func MarginOf(s *gearbox.SpeedResult, l gearbox.FirstLimit) *gearbox.Margin {
	for i := range s.Margins {
		if m := &s.Margins[i]; m.Kind == l.Kind && m.Item == l.Item && m.Mesh == l.Mesh {
			return m
		}
	}
	return nil
}

package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// Headroom writes the text report of whether boxes bear a torque, one after the other.
func Headroom(w io.Writer, all []*study.Headroom, o Options) error {
	if err := checkHeadrooms(all); err != nil {
		return err
	}
	names := boxNames(resultsOf(all))
	return write(w, annotated(o, func(b *bytes.Buffer, notes *footnotes, sources limitSources) {
		paragraph(b, o.width(), "", headroomHeadline(all, o))
		for i, h := range all {
			b.WriteByte('\n')
			headroomBox(b, names[i], h, o, notes, sources)
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

// HeadroomHeadline answers yes or no for each box, and says what gives.
func HeadroomHeadline(all []*study.Headroom, o Options) string {
	return strings.ReplaceAll(headroomHeadline(all, o), noBreak, " ")
}

func headroomHeadline(all []*study.Headroom, o Options) string {
	if checkHeadrooms(all) != nil {
		return "Nothing was calculated."
	}
	names := boxNames(resultsOf(all))
	sentences := make([]string, len(all))
	for i, h := range all {
		sentences[i] = headroomSentence(names[i], h, o) + reachSentence(h)
	}
	return strings.Join(sentences, " ")
}

// headroomSentence is the answer for one box.
func headroomSentence(name string, h *study.Headroom, o Options) string {
	worst := h.Worst()
	asking := asked(h.Total(), o)
	if h.Added != 0 {
		asking += " (" + addition(h, o) + ")"
	}
	reserve := fmt.Sprintf("%.3g"+noBreak+"%%", 100*h.Result.Box.Limits.Reserve)
	allowable := worst.Allowable()
	if math.IsInf(allowable, 1) {
		return fmt.Sprintf("Yes: at %s, %s has no limit in sight.", asking, shorten(name, 40))
	}
	gives := fmt.Sprintf("%s gives first, at %s (%s)", shorten(harmless(worst.Speed), 20), torqueBeside(allowable, math.Abs(h.Total()), o), limitWords(worst.Limits[0]))
	switch worst.State {
	case gearbox.Clear:
		return fmt.Sprintf("Yes: at %s, %s stays inside every limit with the wanted reserve of %s; %s.", asking, shorten(name, 40), reserve, gives)
	case gearbox.Thin:
		return fmt.Sprintf("Just: at %s, %s stays inside every limit, but %s with less than the wanted reserve of %s; %s.", asking, shorten(name, 40), speedsOf(h.Speeds, gearbox.Thin), reserve, gives)
	}
	text := fmt.Sprintf("No: at %s, %s is over its limits %s; %s.", asking, shorten(name, 40), speedsOf(h.Speeds, gearbox.Over), gives)
	if spare := allowable - math.Abs(h.Before); h.Added > 0 && spare > 0 {
		text += fmt.Sprintf(" Up to %s more it would be inside all of them.", torqueDown(spare, o))
	} else if h.Added > 0 {
		text += " It is over even without the addition."
	}
	return text
}

// reachSentence tells what is left against what clutch and tyres let through; nothing when neither is told.
func reachSentence(h *study.Headroom) string {
	var least *gearbox.Margin
	speed, by := "", gearbox.ByEngine
	for i := range h.Result.Speeds {
		s := &h.Result.Speeds[i]
		if s.Reach == nil || s.Reach.First < 0 || s.Reach.First >= len(s.Margins) {
			continue
		}
		if m := &s.Margins[s.Reach.First]; least == nil || m.Reached < least.Reached {
			least, speed, by = m, harmless(s.Name), s.Reach.Running.By
			if m.Kind.Static() {
				by = s.Reach.Peak.By
			}
		}
	}
	if least == nil || !finite(least.Reached) {
		return ""
	}
	return fmt.Sprintf(" Against what really reaches the teeth, bounded there by the %s, %s"+noBreak+"%% is left in %s (%s).", by, percent(least.Reached), shorten(speed, 20), limitName(least))
}

// addition is what is added, in words.
func addition(h *study.Headroom, o Options) string {
	if h.Added < 0 {
		return with(-h.Added, quantity.Torque, o.Units) + " less than " + with(math.Abs(h.Before), quantity.Torque, o.Units)
	}
	return with(math.Abs(h.Before), quantity.Torque, o.Units) + " and " + with(h.Added, quantity.Torque, o.Units) + " more"
}

// speedsOf names the speeds of a state: "in 1st and 2nd", "in every speed".
func speedsOf(all []study.Reserve, state gearbox.State) string {
	var names []string
	for i := range all {
		if all[i].State == state {
			names = append(names, shorten(harmless(all[i].Speed), 20))
		}
	}
	if len(names) == len(all) && len(all) > 1 {
		return "in every speed"
	}
	return "in " + list(names)
}

// limitWords is a limit of one part in words.
func limitWords(l study.Limit) string {
	return limitName(&gearbox.Margin{Kind: l.Kind, Item: l.Item})
}

// torqueBeside is a torque with as many digits as it takes to tell it from another.
func torqueBeside(v, other float64, o Options) string {
	digits := 3
	for digits < 6 && v != other && withDigits(v, quantity.Torque, o.Units, digits) == withDigits(other, quantity.Torque, o.Units, digits) {
		digits++
	}
	return withDigits(v, quantity.Torque, o.Units, digits)
}

// down rounds a torque in the unit shown down, to whole ones, or below 10 to tenths.
func down(v float64) string {
	const hair = 1e-9 // what arithmetic may take from a whole number
	if v >= 10 {
		return strconv.FormatFloat(math.Floor(v*(1+hair)), 'f', 0, 64)
	}
	return strconv.FormatFloat(math.Floor(10*v*(1+hair))/10, 'f', 1, 64)
}

func torqueDown(inner float64, o Options) string {
	return down(quantity.Convert(inner, quantity.Torque, o.Units)) + noBreak + quantity.Unit(quantity.Torque, o.Units)
}

func headroomBox(b *bytes.Buffer, name string, h *study.Headroom, o Options, notes *footnotes, sources limitSources) {
	title(b, o.width(), name, notes.mark(remarks("", h.Result.Checks, h.Result.Notes)))
	paragraph(b, o.width(), indent, h.Result.Box.About)
	sense := "in drive"
	if h.Total() < 0 {
		sense = "in coast: the engine brakes"
	}
	text := fmt.Sprintf("Input torque %s, %s", with(math.Abs(h.Total()), quantity.Torque, o.Units), sense)
	if h.Added != 0 {
		text += ": " + addition(h, o)
	}
	paragraph(b, o.width(), indent, fmt.Sprintf("%s. Wanted reserve %.3g %%. Judged by %s.", text, 100*h.Result.Box.Limits.Reserve, levelName(h.Result.Box.Limits.Strength)))
	paragraph(b, o.width(), indent, madeOf(h.Result.Box)+" "+service(h.Result.Box, o))
	reserveTable(b, h, o, notes)
	nextTable(b, h, o, sources)
	reachTable(b, h.Result, o, notes)
	variantTables(b, h, o)
}

// reserveTable has one row per speed: what is left, and to which torque to hold the engine.
func reserveTable(b *bytes.Buffer, h *study.Headroom, o Options, notes *footnotes) {
	allowable := column(each(h.Speeds, func(r study.Reserve) float64 { return r.Allowable() }), quantity.Torque, o.Units)
	var rows [][]cell
	for i := range h.Speeds {
		r := &h.Speeds[i]
		first, hold := noLimit, none
		if len(r.Limits) > 0 && finite(r.Allowable()) {
			first = limitWords(r.Limits[0])
			hold = down(quantity.Convert(r.Holding, quantity.Torque, o.Units))
		}
		rows = append(rows, []cell{
			{text: harmless(r.Speed), mark: notes.mark(allRemarks(&h.Result.Speeds[i]))}, stateCell(r.State, o.Colour), {text: percent(r.Left)},
			{text: first}, {text: allowable[i]}, {text: hold},
		})
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	b.WriteString("\n  What is left, speed by speed\n")
	table(b, o.width(), []head{
		{text: "speed", least: 3 + o.widestMark()},
		{text: "state"},
		{text: "left\n%", right: true},
		{text: "gives first", least: 12},
		{text: "allowable\n" + unit, right: true},
		{text: "hold the engine\nto " + unit, right: true},
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
	at := column(torques, quantity.Torque, o.Units)
	var rows [][]cell
	for i := range h.Speeds {
		r := &h.Speeds[i]
		for k, l := range r.Limits {
			speed := ""
			if k == 0 {
				speed = harmless(r.Speed)
			}
			for j := range h.Result.Speeds[i].Margins {
				if m := &h.Result.Speeds[i].Margins[j]; m.Kind == l.Kind && m.Item == l.Item {
					sources.add(m)
				}
			}
			name := limitWords(l)
			if !finite(l.Torque) {
				name = noLimit
			}
			rows = append(rows, []cell{{text: speed}, {text: [...]string{"first", "second", "third"}[k]}, {text: name}, {text: at[len(rows)]}, {text: percent(l.Torque/math.Abs(h.Total()) - 1)}})
		}
	}
	if len(rows) == 0 {
		return
	}
	b.WriteString("\n  What gives first, second and third\n")
	table(b, o.width(), []head{
		{text: "speed", least: 8},
		{text: ""},
		{text: "limit", least: 12},
		{text: "at\n" + quantity.Unit(quantity.Torque, o.Units), right: true},
		{text: "left\n%", right: true},
	}, rows)
	paragraph(b, o.width(), indent, "Fatigue and peak at one tooth root, or at one flank, are told once: what cures one mostly cures the other.")
}

package reports

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// EffectsTitle stands above what assumptions do to the answer.
const EffectsTitle = "What was assumed, and what it does"

// slight is the share of the allowable torque below which an effect has no row: nobody measures anything for half a per cent.
const slight = 5e-3

// effects are those of a box; nil when none are given.
func (o Options) effects(box int) []study.Effect {
	if box < len(o.Effects) {
		return o.Effects[box]
	}
	return nil
}

// EffectWords says what the answer hangs on most, with no-break blanks between numbers and units; "" when nothing that is assumed moves it.
func EffectWords(effects []study.Effect, o Options) string {
	if len(effects) == 0 || !Moves(&effects[0]) {
		return ""
	}
	e := &effects[0]
	taken := "taken as " + view.Clean(e.Assumed.Value)
	if e.Assumed.Unknown {
		taken = view.Clean(e.Assumed.Value) + ", the least counts"
	}
	after := "the allowable torque is " + view.With(e.After.Torque, quantity.Torque, o.Units)
	if math.IsInf(e.After.Torque, 1) {
		after = "no limit is reached"
	}
	return fmt.Sprintf("What the answer hangs on most: %s, %s. If it is %s, %s instead of %s: measure this first.",
		view.Clean(e.Assumed.String()), taken, view.Clean(e.Other), after, view.With(e.Before.Torque, quantity.Torque, o.Units))
}

// Moves reports whether another value was tried and moves the allowable torque enough to be shown.
func Moves(e *study.Effect) bool { return math.Abs(e.Change()) > slight }

// EffectLimit names what limits the box with the other value: "1st: slope at input shaft, bearing left".
func EffectLimit(e *study.Effect) string {
	if math.IsInf(e.After.Torque, 1) {
		return view.NotReached
	}
	return view.Clean(e.After.Speed) + ": " + limitBeside(e.After.FirstLimit, e.After.Speed)
}

// EffectRest tells of the assumptions that a table of effects leaves out: those that move little, those with no other value to try, and those whose other value can't be built.
func EffectRest(effects []study.Effect) (sentences []string) {
	var still, alone, gaps []string
	tried := map[string][]string{} // by assumption, what moves little
	moves := map[string]bool{}     // what has a row; of values that were all tried one is the least, and no news
	for i := range effects {
		e := &effects[i]
		about := view.Clean(e.Assumed.String()) + ", " + view.Clean(e.Assumed.Value)
		switch {
		case e.Other == "":
			alone = append(alone, about)
		case e.Gap != "":
			gaps = append(gaps, fmt.Sprintf("With %s (%s) the box can't be worked out: %s", view.Clean(e.Assumed.String()), view.Clean(e.Other), strings.TrimRight(view.Clean(e.Gap), ".")+"."))
		case Moves(e):
			moves[about] = true
		case !e.Assumed.Unknown || !moves[about]:
			if tried[about] == nil {
				still = append(still, about)
			}
			if tried[about] = append(tried[about], view.Clean(e.Other)); e.Assumed.Unknown {
				tried[about] = []string{} // its value says it
			}
		}
	}
	if len(still) > 0 {
		for i, about := range still {
			if others := tried[about]; len(others) > 0 {
				still[i] = about + " (tried: " + strings.Join(others, "; ") + ")"
			}
		}
		sentences = append(sentences, "Assumed too, and the allowable torque moves by less than half a per cent: "+strings.Join(still, "; ")+".")
	}
	if len(alone) > 0 {
		sentences = append(sentences, "Assumed too, with no other value to try: "+strings.Join(alone, "; ")+".")
	}
	return append(sentences, gaps...)
}

// effectTable has one row for each other value that moves the allowable torque, the largest effect first.
func effectTable(b *bytes.Buffer, effects []study.Effect, o Options) {
	if len(effects) == 0 {
		return
	}
	var torques []float64
	var moving []*study.Effect
	for i := range effects {
		if e := &effects[i]; Moves(e) {
			moving, torques = append(moving, e), append(torques, e.After.Torque)
		}
	}
	b.WriteString("\n  " + EffectsTitle + "\n")
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	for i, e := range moving {
		if math.IsInf(e.After.Torque, 1) {
			torque[i] = view.NotReached
		}
		rows = append(rows, []cell{{text: view.Clean(e.Assumed.String())}, {text: view.Clean(e.Assumed.Value)}, {text: view.Clean(e.Other)}, {text: torque[i]}, {text: view.Percent(e.Change())}, {text: EffectLimit(e)}})
	}
	if len(rows) > 0 {
		table(b, o.width(), []head{
			{text: "assumed", least: 14, wrap: true},
			{text: "taken as", least: 14, wrap: true},
			{text: "if it is", least: 14, wrap: true},
			{text: "allowable\n" + quantity.Unit(quantity.Torque, o.Units), right: true},
			{text: "change\n%", right: true},
			{text: "then limited by", least: 14, wrap: true},
		}, rows)
	}
	for _, s := range EffectRest(effects) {
		paragraph(b, o.width(), indent, s)
	}
}

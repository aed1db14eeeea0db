package view

import (
	"fmt"
	"math"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// effectsTitle stands above what assumptions do to the answer.
const effectsTitle = "What was assumed, and what it does"

// slight is the share of the allowable torque below which an effect has no row: nobody measures anything for half a per cent.
const slight = 5e-3

// EffectWords says what the answer hangs on most; "" when nothing that is assumed moves it.
func EffectWords(effects []study.Effect, o Options) string {
	if len(effects) == 0 || !moves(&effects[0]) {
		return ""
	}
	e := &effects[0]
	taken := "taken as " + Clean(e.Assumed.Value)
	if e.Assumed.Unknown {
		taken = Clean(e.Assumed.Value) + ", the least counts"
	}
	after := "the allowable torque is " + With(e.After.Torque, quantity.Torque, o.Units)
	if math.IsInf(e.After.Torque, 1) {
		after = "no limit is reached"
	}
	return fmt.Sprintf("What the answer hangs on most: %s, %s. If it is %s, %s instead of %s: measure this first.",
		Clean(e.Assumed.String()), taken, Clean(e.Other), after, With(e.Before.Torque, quantity.Torque, o.Units))
}

// moves reports whether another value was tried and moves the allowable torque enough to be shown.
func moves(e *study.Effect) bool { return math.Abs(e.Change()) > slight }

// effectLimit names what limits the box with the other value: "1st: slope at input shaft, bearing left".
func effectLimit(e *study.Effect) string {
	if math.IsInf(e.After.Torque, 1) {
		return NotReached
	}
	return Clean(e.After.Speed) + ": " + LimitBeside(e.After.FirstLimit, e.After.Speed)
}

// effectRest tells of the assumptions that a table of effects leaves out: those that move little, those with no other value to try, and those whose other value can't be built.
func effectRest(effects []study.Effect) (sentences []string) {
	var still, alone, gaps []string
	tried := map[string][]string{} // by assumption, what moves little
	shown := map[string]bool{}     // what has a row; of values that were all tried one is the least, and no news
	for i := range effects {
		e := &effects[i]
		about := Clean(e.Assumed.String()) + ", " + Clean(e.Assumed.Value)
		switch {
		case e.Other == "":
			alone = append(alone, about)
		case e.Gap != "":
			gaps = append(gaps, fmt.Sprintf("With %s (%s) the box can't be worked out: %s", Clean(e.Assumed.String()), Clean(e.Other), strings.TrimRight(Clean(e.Gap), ".")+"."))
		case moves(e):
			shown[about] = true
		case !e.Assumed.Unknown || !shown[about]:
			if tried[about] == nil {
				still = append(still, about)
			}
			if tried[about] = append(tried[about], Clean(e.Other)); e.Assumed.Unknown {
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

// EffectTable has one row for each other value that moves the allowable torque, the largest effect first; below it is what has no row.
// Where no value has one, it is a table without rows; nil where nothing was assumed.
func EffectTable(effects []study.Effect, o Options) *Table {
	if len(effects) == 0 {
		return nil
	}
	t := o.table(effectsTitle, wrapped("assumed", 14), wrapped("taken as", 14), wrapped("if it is", 14), numbers("allowable", quantity.Torque), right("change", "%"), wrapped("then limited by", 14))
	for i := range effects {
		if e := &effects[i]; moves(e) {
			t.add(word(e.Assumed.String()), word(e.Assumed.Value), word(e.Other), limitTorque(e.After.Torque), percent(e.Change()), word(effectLimit(e)))
		}
	}
	t.done()
	t.say(effectRest(effects)...)
	return t
}

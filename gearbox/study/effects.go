package study

import (
	"context"
	"math"
	"slices"

	"layshaft/gearbox"
)

// Effect is what another value of something that isn't given would do to the answer.
type Effect struct {
	Assumed gearbox.Assumption
	Other   string // the other value in words; "" = none can be tried
	Before  First  // as the box is taken
	After   First  // with the other value
	Gap     string // why there is no box with it, and After says nothing; "" when there is
}

// First is the limit of several speeds that is reached first.
type First struct {
	Speed string
	gearbox.FirstLimit
}

// Change is by which share the allowable torque grows with the other value; NaN where there is no such torque.
func (e *Effect) Change() float64 {
	if e.Gap != "" || e.Other == "" {
		return math.NaN()
	}
	if e.After.Torque == e.Before.Torque {
		return 0 // also where neither reaches a limit
	}
	return e.After.Torque/e.Before.Torque - 1
}

// size is how much the other value matters, whichever way: halving weighs as much as doubling. −1 where nothing is known of it.
func (e *Effect) size() float64 {
	change := e.Change()
	if math.IsNaN(change) {
		return -1
	}
	return math.Abs(math.Log1p(change))
}

// Effects tries the other values of everything that isn't given of a box, one at a time, each by the least allowable torque over the speeds asked. The largest effect comes first; what can't
// be built stands behind, and behind that what has no other value to try. A box with evidence is narrowed by it anew with each value. progress is told how many are
// solved; nil = nobody is. The error is a diag.List when the box itself is at fault, or that of the context.
func Effects(ctx context.Context, b *gearbox.Box, load gearbox.Load, progress func(done, all int)) ([]Effect, error) {
	load.Brief, load.Least, load.Second = true, true, nil
	var effects []Effect
	var boxes []*gearbox.Box
	for _, a := range gearbox.Assumptions(b) {
		for _, other := range a.Others {
			effects, boxes = append(effects, Effect{Assumed: a, Other: other.Words}), append(boxes, other.In(b))
		}
		if len(a.Others) == 0 {
			effects, boxes = append(effects, Effect{Assumed: a}), append(boxes, nil)
		}
	}
	if len(effects) == 0 {
		return nil, nil
	}
	var before First
	err := abreast(ctx, 1+len(effects), progress, func(i int) (err error) {
		if i == 0 {
			before, err = firstOf(b, load)
			return err
		}
		if e := &effects[i-1]; e.Other != "" {
			if e.After, err = afresh(boxes[i-1], load); err != nil {
				e.Gap = reason(err)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	for i := range effects {
		effects[i].Before = before
	}
	slices.SortStableFunc(effects, func(a, b Effect) int {
		if x, y := a.size(), b.size(); x != y {
			return sign(y - x)
		}
		return sign(float64(len(b.Gap) - len(a.Gap)))
	})
	return effects, nil
}

func sign(v float64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

// afresh is the first limit of a changed box, with its steels as its own evidence leaves them.
func afresh(b *gearbox.Box, load gearbox.Load) (First, error) {
	if len(b.Evidence) > 0 {
		known, found, err := Known([]*gearbox.Box{b}, load.Method)
		if err != nil {
			return First{}, err
		}
		if found.HasErrors() {
			return First{}, found
		}
		b = known[0]
	}
	return firstOf(b, load)
}

// firstOf is the limit of the speeds asked that is reached first.
func firstOf(b *gearbox.Box, load gearbox.Load) (First, error) {
	r, err := gearbox.Solve(b, load)
	if err != nil {
		return First{}, err
	}
	least := First{FirstLimit: gearbox.FirstLimit{Torque: math.Inf(1)}}
	for i := range r.Speeds {
		if s := &r.Speeds[i]; i == 0 || s.First.Torque < least.Torque {
			least = First{s.Name, s.First}
		}
	}
	return least, nil
}

package study

import (
	"context"
	"fmt"
	"math"

	"layshaft/gearbox"
)

// Headroom tells whether a box bears a torque, what limits it, and what changes to the box would buy.
type Headroom struct {
	Result   *gearbox.Result // of the box as it is, at the torque asked
	Before   float64         // torque before the addition, N·mm; negative in coast
	Added    float64         // what is added to its size, N·mm; 0 = nothing is
	Speeds   []Reserve       // of the box as it is, in its order
	Variants []Variant       // changed boxes; with several changes the first has all of them, then comes each alone
}

// Variant is a changed box.
type Variant struct {
	Changes []string // what was changed, as typed
	Result  *gearbox.Result
	Speeds  []Reserve // speeds of the same names as those of the box as it is
}

// Reserve is that of a speed of the changed box; nil when it has none.
func (v *Variant) Reserve(speed string) *Reserve {
	for i := range v.Speeds {
		if v.Speeds[i].Speed == speed {
			return &v.Speeds[i]
		}
	}
	return nil
}

// Total is the torque asked about, N·mm; negative in coast.
func (h *Headroom) Total() float64 { return h.Result.Torque }

// Changed is a box with some changes in it.
type Changed struct {
	Changes []string
	Box     *gearbox.Box
}

// FindHeadroom solves a box, and its changed ones, at load.Torque, which must not be 0. before is the torque before the addition, with the same sign. progress is told how
// many boxes are solved; nil = nobody is. The error is a diag.List when a box is at fault, or that of the context.
func FindHeadroom(ctx context.Context, b *gearbox.Box, changed []Changed, before float64, load gearbox.Load, progress func(done, all int)) (*Headroom, error) {
	if load.Torque == 0 || before == 0 || math.Signbit(load.Torque) != math.Signbit(before) {
		return nil, fmt.Errorf("torques %g and %g N·mm: both must be given, in drive or both in coast", before, load.Torque)
	}
	load.Brief = false
	boxes := []*gearbox.Box{b}
	for _, c := range changed {
		boxes = append(boxes, c.Box)
	}
	results, speeds := make([]*gearbox.Result, len(boxes)), make([][]Reserve, len(boxes))
	err := abreast(ctx, len(boxes), progress, func(i int) (err error) {
		l := load
		if i > 0 {
			l.Second = nil
		}
		if results[i], err = gearbox.Solve(boxes[i], l); err == nil {
			speeds[i] = reserves(results[i])
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	h := &Headroom{Result: results[0], Before: before, Added: math.Abs(load.Torque) - math.Abs(before), Speeds: speeds[0]}
	for i, c := range changed {
		h.Variants = append(h.Variants, Variant{c.Changes, results[i+1], speeds[i+1]})
	}
	return h, nil
}

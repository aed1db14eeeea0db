package gearbox

import (
	"math"
	"slices"

	"layshaft/material"
)

// demand is what a part sees at an input torque (N·mm, ≥ 0), in the unit of its limit. It grows with the torque.
type demand func(torque float64) float64

// margin finds the torque at which a limit is reached, for each end of its band, and judges it.
func (v *solver) margin(kind Kind, item string, at demand, limit *material.Band, notes []string) Margin {
	m := Margin{Kind: kind, Item: item, Demand: at(v.asked), Limit: *limit, Level: v.p.box.Limits.Strength, Notes: notes}
	for level := range m.Allowable {
		end := limit.At(material.Level(level))
		if level > 0 && end == limit.At(material.Level(level-1)) {
			m.Allowable[level] = m.Allowable[level-1]
			continue
		}
		m.Allowable[level] = allowable(at, end, v.asked, kind.power())
	}
	v.p.box.judge(&m, v.asked)
	return m
}

// judge gives a margin its size and its word at an asked torque.
func (b *Box) judge(m *Margin, torque float64) {
	m.Margin = m.MarginAt(torque)
	m.State = b.stateOf(m.Margin)
}

// stateOf is the word for a torque margin.
func (b *Box) stateOf(margin float64) State {
	switch {
	case margin < 0:
		return Over
	case margin < b.Limits.Reserve:
		return Thin
	}
	return Clear
}

// power says how the torque grows with the demand of a kind, to begin the search with.
func (k Kind) power() float64 {
	switch k {
	case FlankFatigue, FlankPeak, FlankAGMA, FlankHertz:
		return 2
	}
	return 1
}

// searchRange is how far from the asked torque the search for an allowable torque goes, as a factor; beyond it the limit counts as not reached.
const searchRange = 1e6

// allowable solves at(T) = limit for the torque, starting at a torque where the demand is known to be finite. power guides the first guess: the torque
// grows with this power of the demand, 1 for a stress that grows like the load, 2 for one that grows like its root. Torque and demand are taken on
// logarithmic scales, where demands are all but straight, so that the secant finds the crossing in a few steps; once the crossing
// is bracketed, a step that leaves the bracket or makes too little of it is replaced by halving. +Inf when the demand never gets there.
func allowable(at demand, limit, start, power float64) float64 {
	miss := func(x float64) float64 {
		if v := at(start * math.Exp(x)); !math.IsNaN(v) {
			return math.Log(v / limit) // −Inf for no demand at all
		}
		return 0 // the demand can't be told; whoever asked has the error
	}
	widest := math.Log(searchRange)
	lo, hi := math.Inf(-1), math.Inf(1) // logarithms of torques known to lie below and above the crossing
	var x, y, last, lastY float64
	y = miss(x)
	slope := 1 / power
	for i := range 200 {
		if math.Abs(y) < 1e-11 {
			break
		}
		if y < 0 {
			lo = x
		} else {
			hi = x
		}
		if hi-lo <= 1e-14*max(1, math.Abs(x)) {
			break
		}
		if rise := (y - lastY) / (x - last); i > 0 && rise > 0 && !math.IsInf(rise, 0) {
			slope = rise
		}
		next := x - y/slope
		switch bracketed := !math.IsInf(lo, 0) && !math.IsInf(hi, 0); {
		case bracketed && (!(next > lo && next < hi) || i%8 == 7):
			next = lo + (hi-lo)/2
		case !bracketed && (math.IsInf(next, 0) || math.Abs(next-x) > 2):
			next = x - math.Copysign(2, y)
		}
		if next == x {
			break
		}
		if next > widest {
			return math.Inf(1)
		}
		if next < -widest {
			return 0
		}
		last, lastY = x, y
		x, y = next, miss(next)
	}
	return start * math.Exp(x)
}

// sortMargins puts the limit that is reached first in front; equal ones keep the order in which kinds are shown.
func sortMargins(all []Margin) {
	slices.SortStableFunc(all, func(a, b Margin) int {
		x, y := a.Allowable[a.Level], b.Allowable[b.Level]
		// Pinion and wheel often bear the very same stress; rounding must not decide which comes first.
		switch close := math.Abs(x-y) <= 1e-9*max(x, y); {
		case x < y && !close:
			return -1
		case x > y && !close:
			return 1
		}
		return int(a.Kind - b.Kind)
	})
}

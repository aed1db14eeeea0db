package gearbox

import (
	"math"
	"slices"

	"layshaft/material"
)

// demand is what a part sees at an input torque (N·mm, ≥ 0), in the unit of its limit. It grows with the torque.
type demand func(torque float64) float64

// margin finds the torque at which a limit is reached, for each end of its band, and judges it.
func (b *Box) margin(kind Kind, item string, at demand, limit *material.Band, torque float64, notes []string) Margin {
	m := Margin{Kind: kind, Item: item, Demand: at(torque), Limit: *limit, Level: b.Limits.Strength, Notes: notes}
	for level := range m.Allowable {
		m.Allowable[level] = allowable(at, limit.At(material.Level(level)), torque)
	}
	m.Margin = m.MarginAt(torque)
	switch {
	case m.Margin < 0:
		m.State = Over
	case m.Margin < b.Limits.Reserve:
		m.State = Thin
	default:
		m.State = Clear
	}
	return m
}

// searchRange is how far from the asked torque the search for an allowable torque goes, as a factor; beyond it the limit counts as not reached.
const searchRange = 1e6

// allowable solves at(T) = limit for the torque, starting at a torque where the demand is known to be finite. It brackets the root by doubling
// steps that grow, then narrows it with the Illinois form of the regula falsi, guarded by bisection. +Inf when the demand never gets there.
func allowable(at demand, limit, start float64) float64 {
	over := func(t float64) float64 { return at(t) - limit }
	lo, hi := start, start
	flo, fhi := over(start), over(start)
	for f := 2.0; fhi < 0; f *= f {
		if hi > start*searchRange {
			return math.Inf(1)
		}
		lo, flo = hi, fhi
		hi *= f
		fhi = over(hi)
	}
	for f := 2.0; flo > 0; f *= f {
		if lo < start/searchRange {
			return 0
		}
		hi, fhi = lo, flo
		lo /= f
		flo = over(lo)
	}
	side := 0
	for i := range 200 {
		if flo == 0 {
			return lo
		}
		if fhi == 0 {
			return hi
		}
		if hi-lo <= 1e-14*hi {
			break
		}
		mid := lo + (hi-lo)*flo/(flo-fhi)
		if i%3 == 2 || !(mid > lo && mid < hi) {
			mid = lo + (hi-lo)/2
		}
		f := over(mid)
		switch {
		case f > 0:
			hi, fhi = mid, f
			if side > 0 {
				flo /= 2
			}
			side = 1
		default:
			lo, flo = mid, f
			if side < 0 {
				fhi /= 2
			}
			side = -1
		}
	}
	return lo + (hi-lo)/2
}

// sortMargins puts the limit that is reached first in front; equal ones keep the order in which kinds are shown.
func sortMargins(all []Margin) {
	slices.SortStableFunc(all, func(a, b Margin) int {
		x, y := a.Allowable[a.Level], b.Allowable[b.Level]
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return int(a.Kind - b.Kind)
	})
}

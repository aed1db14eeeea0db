package gearbox

import (
	"fmt"
	"math"
	"slices"
)

// Tried is what came of all the boxes that one may be, in one speed.
type Tried struct {
	Boxes       int
	Variant     string  // the one that is reported, in words
	Least, Most float64 // allowable torque, N·mm > 0, in the speed at the end of the bands that the box is judged by: the first of the reported one, and of the best
}

// note says it; "" when all come to the same.
func (t *Tried) note() string {
	if !(t.Most > t.Least*(1+alike)) {
		return ""
	}
	allowed := fmt.Sprintf("%.4g N·m to %.4g N·m", t.Least/1e3, t.Most/1e3)
	if math.IsInf(t.Most, 1) {
		allowed = fmt.Sprintf("%.4g N·m or more, up to no limit at all", t.Least/1e3)
	}
	return fmt.Sprintf("By what isn't known of it, the box may be any of %d. They allow %s in this speed; the least is reported: %s.", t.Boxes, allowed, t.Variant)
}

// alike is by how much two torques that are one may differ, as a share.
const alike = 1e-9

// merge makes one result of those of all the boxes that one may be, each worked out whole at the same load: every speed is that of the box in which its first limit is reached first, and
// at each end of the bands the least of all counts; the state goes by the one with the least left. The box as a whole is told by the one that allows the least in any speed. Each gear's life is the shortest.
func merge(results []*Result) *Result {
	worst := 0
	for k, r := range results {
		if r.first() < results[worst].first() {
			worst = k
		}
	}
	merged := *results[worst]
	merged.Speeds, merged.Lives = slices.Clone(merged.Speeds), slices.Clone(merged.Lives)
	for i := range merged.Speeds {
		merged.Speeds[i] = mergeSpeed(results, i)
	}
	for i := range merged.Lives {
		for _, r := range results {
			if r.Lives[i].Shortest().Asked < merged.Lives[i].Shortest().Asked {
				merged.Lives[i] = r.Lives[i]
			}
		}
	}
	return &merged
}

func mergeSpeed(results []*Result, i int) SpeedResult {
	first := &results[0].Speeds[i]
	tried := &Tried{Boxes: len(results), Least: math.Inf(1)}
	reported, ends, asked := results[0], first.Ends, slices.Clone(first.Asked)
	sooner := func(least *FirstLimit, l FirstLimit) {
		if l.Torque < least.Torque {
			*least = l
		}
	}
	var tightest *Margin
	for _, r := range results {
		s := &r.Speeds[i]
		if m := s.Deciding(); m != nil && (tightest == nil || m.Left() < tightest.Left()) {
			tightest = m
		}
		if s.First.Torque < tried.Least {
			tried.Least, reported = s.First.Torque, r
		}
		tried.Most = max(tried.Most, s.First.Torque)
		for level := range ends {
			sooner(&ends[level], s.Ends[level])
		}
		for k := range asked {
			sooner(&asked[k], s.Asked[k])
		}
	}
	tried.Variant = reported.Box.Variant
	merged := reported.Speeds[i]
	merged.Ends, merged.Asked, merged.Tried, merged.tightest = ends, asked, tried, tightest
	if note := tried.note(); note != "" {
		merged.Checks = append(slices.Clone(merged.Checks), note)
	}
	return merged
}

// first is the least torque at which a first limit is reached, over all speeds.
func (r *Result) first() float64 {
	least := math.Inf(1)
	for i := range r.Speeds {
		least = min(least, r.Speeds[i].First.Torque)
	}
	return least
}

package gearbox

import (
	"fmt"
	"math"
)

// edge is a torque past which the bearings of known elements find no balance. A torque far from that of the box is only solved in the search for a limit, and mustn't cost
// the whole report: past the edge all is taken to grow in step with the torque. Edges are looked for on a ladder of torques that goes by the torque of the box, so that they are the
// same whatever is asked.
type edge struct {
	torque float64 // the last that is solved, N·mm
	failed float64 // the first that isn't
	reason error
}

// edges are the two edges of a speed.
type edges struct {
	low, high   *edge
	least, most float64 // between these the ladder has been solved, N·mm; 0 = not begun
}

// rungs is in how many steps of equal ratio the last doubling before an edge is divided.
const rungs = 4

// before is the torque that stands for one: that of the edge that it lies past, else itself.
func (v *solver) before(torque float64) (float64, error) {
	if v.footing == nil {
		return torque, nil
	}
	own, e := v.p.box.Torque, &v.edges
	if e.most == 0 {
		if _, err := v.solve(own); err != nil {
			return 0, err
		}
		e.least, e.most = own, own
	}
	for e.high == nil && e.most < torque {
		v.climb(&e.most, &e.high, 2)
	}
	for e.low == nil && e.least > torque {
		v.climb(&e.least, &e.low, 0.5)
	}
	switch {
	case e.high != nil && torque > e.high.torque:
		return e.high.torque, nil
	case e.low != nil && torque < e.low.torque:
		return e.low.torque, nil
	}
	return torque, nil
}

// climb solves the next torque of the ladder, or finds the edge before it.
func (v *solver) climb(at *float64, found **edge, ratio float64) {
	last := *at
	_, reason := v.solve(last * ratio)
	if reason == nil {
		*at = last * ratio
		return
	}
	failed := last * ratio
	for k := 1; k < rungs; k++ {
		next := *at * math.Pow(ratio, float64(k)/rungs)
		if _, err := v.solve(next); err != nil {
			failed, reason = next, err
			break
		}
		last = next
	}
	*found = &edge{last, failed, reason}
}

// edgeNotes tells people about the edges that limits were sought past.
func (v *solver) edgeNotes() (notes []string) {
	for i, e := range []*edge{v.edges.low, v.edges.high} {
		if e != nil {
			notes = append(notes, fmt.Sprintf("%s an input torque of %.4g N·m all is taken to grow in step with the torque, since the bearings find no balance at %.4g N·m (%v). Limits that lie there are rough.",
				[2]string{"Below", "Above"}[i], e.torque/1e3, e.failed/1e3, e.reason))
		}
	}
	return notes
}

package gearbox

import (
	"fmt"
	"math"
)

// edge is where the bearings of known elements find no balance any more: a torque away from the asked one is only solved in the search for a limit, and mustn't cost
// the whole report. Past the edge all is taken to grow in step with the torque.
type edge struct {
	torque float64 // the last that was solved on the way there, N·mm
	failed float64 // the one that failed
	reason error
}

// side is 0 for torques below the asked one, 1 for those above.
func (v *solver) side(torque float64) int {
	if torque > v.asked {
		return 1
	}
	return 0
}

// stop sets an edge at the solved torque next to one that failed, on the way from the asked one to it.
func (v *solver) stop(failed float64, reason error) {
	last := v.asked
	for torque := range v.known {
		if v.side(torque) == v.side(failed) && math.Abs(torque-v.asked) > math.Abs(last-v.asked) && math.Abs(torque-v.asked) < math.Abs(failed-v.asked) {
			last = torque
		}
	}
	v.edges[v.side(failed)] = &edge{last, failed, reason}
}

// edgeBefore is the edge past which a torque lies; nil when there is none.
func (v *solver) edgeBefore(torque float64) *edge {
	if e := v.edges[v.side(torque)]; e != nil && math.Abs(torque-v.asked) > math.Abs(e.torque-v.asked) {
		return e
	}
	return nil
}

// edgeNotes tells people about the edges.
func (v *solver) edgeNotes() (notes []string) {
	for side, e := range v.edges {
		if e != nil {
			notes = append(notes, fmt.Sprintf("%s an input torque of %.4g N·m all is taken to grow in step with the torque, since the bearings find no balance at %.4g N·m (%v). Limits that lie there are rough.",
				[2]string{"Below", "Above"}[side], e.torque/1e3, e.failed/1e3, e.reason))
		}
	}
	return notes
}

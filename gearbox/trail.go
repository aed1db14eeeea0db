package gearbox

import (
	"math"
	"slices"
	"sort"

	"layshaft/gearstress/faceload"
)

// trail is where loads along the faces were found for one making, in rising order of the torque: what a search nearby starts from.
type trail struct{ marks []mark }

// mark is one of them: the contact set, and the gears in their seats, with couples over the torque.
type mark struct {
	log   float64 // of the torque over that of the coupling
	set   *faceload.Set
	seats []seated
}

// apart is how near two marks of one contact set stand, on a logarithmic scale, for one of them to do.
const marksApart = 0.02

// begin puts what is known nearby in s, as a start at a scale, and returns where the torque lies among the marks.
func (t *trail) begin(s *spread, scale float64) (at int) {
	if len(t.marks) == 0 {
		s.set = nil
		clear(s.seats)
		return 0
	}
	log := math.Log(scale)
	at = sort.Search(len(t.marks), func(i int) bool { return t.marks[i].log >= log })
	var low, high *mark
	if at > 0 {
		low = &t.marks[at-1]
	}
	if at < len(t.marks) {
		high = &t.marks[at]
	}
	near, share := low, 0.0
	switch {
	case low == nil:
		near = high
	case high != nil:
		share = (log - low.log) / (high.log - low.log)
		if share > 0.5 {
			near = high
		}
	}
	s.set = near.set
	for k := range s.seats {
		seat := near.seats[k]
		if low != nil && high != nil && low.seats[k].couple != (point{}) && high.seats[k].couple != (point{}) {
			seat.couple = low.seats[k].couple.scaled(1 - share).plus(high.seats[k].couple.scaled(share))
		}
		s.seats[k] = seated{couple: seat.couple.scaled(scale), at: seat.at, held: seat.held.scaled(scale)}
	}
	return at
}

// add marks what was found, unless it is known well enough; at is what begin returned.
func (t *trail) add(s *spread, at int) {
	log := math.Log(s.at[torqueParameter])
	known := func(i int) bool {
		return i >= 0 && i < len(t.marks) && math.Abs(t.marks[i].log-log) < marksApart && t.marks[i].set == s.set
	}
	if known(at-1) || known(at) {
		return
	}
	m := mark{log: log, set: s.set}
	if len(s.seats) > 0 {
		m.seats = slices.Clone(s.seats)
		for k := range m.seats {
			seat := &m.seats[k]
			seat.couple, seat.held = seat.couple.scaled(1/s.at[torqueParameter]), seat.held.scaled(1/s.at[torqueParameter])
		}
	}
	t.marks = append(t.marks, mark{})
	copy(t.marks[at+1:], t.marks[at:])
	t.marks[at] = m
}

package gearbox

import (
	"math"

	"layshaft/gearstress/faceload"
)

// trail is where a search for the load along the faces starts, for one making: from the solution at the nearest rung of the ladder, which itself was sought from nothing. So what is found at a torque depends on
// that torque alone, to the last digit. Where seats under bearings of known elements move there is no such rung; there it starts from what was found last.
type trail struct {
	rungs shelf[*mark]
	last  *mark
}

// mark is a solution to start from: the contact set, and the gears in their seats, with couples over the torque.
type mark struct {
	set   *faceload.Set
	seats []seated
}

// begin puts a mark in s, as a start at its torque; nil = start from nothing.
func (s *spread) begin(m *mark) {
	if m == nil {
		s.set = nil
		clear(s.seats)
		return
	}
	scale := s.at[torqueParameter]
	s.set = m.set
	for k, seat := range m.seats {
		s.seats[k] = seated{couple: seat.couple.scaled(scale), at: seat.at, held: seat.held.scaled(scale)}
	}
}

// mark keeps s to start from.
func (s *spread) mark(m *mark) *mark {
	if m == nil {
		m = &mark{seats: make([]seated, len(s.seats))}
	}
	m.set = s.set
	per := 1 / s.at[torqueParameter]
	for k, seat := range s.seats {
		m.seats[k] = seated{couple: seat.couple.scaled(per), at: seat.at, held: seat.held.scaled(per)}
	}
	return m
}

// nearestRung is the rung nearest to a torque, N·mm.
func nearestRung(torque float64) int {
	return int(math.Round(math.Log(torque) / (gridSpacing * rungStep)))
}

// find is spread with what it finds left in c.now, until the next is found.
func (c *coupling) find(scale float64, as making, moves []float64) error {
	t := &c.trails[as.place()]
	if len(moves) > 0 {
		err := c.seek(scale, as, moves, t.last)
		if err == nil {
			t.last = c.now.mark(t.last)
		}
		return err
	}
	n := nearestRung(scale * math.Abs(c.engine))
	m, ok := t.rungs.get(n)
	if !ok {
		at := rungTorque(n) / math.Abs(c.engine)
		if err := c.seek(at, as, nil, nil); err == nil {
			m = c.now.mark(nil)
		}
		t.rungs.put(n, m)
	}
	return c.seek(scale, as, moves, m)
}

// seek finds how the load lies from a start.
func (c *coupling) seek(scale float64, as making, moves []float64, from *mark) error {
	c.spreads++
	s := &c.now
	s.at[gapParameter], s.at[torqueParameter] = 1, scale
	copy(s.at[c.firstMove:], moves)
	s.begin(from)
	if from == nil {
		for i := range c.key {
			c.key[i] = 1
		}
	}
	for try := range mostSets {
		if s.set == nil {
			set, err := c.family.Set(c.key)
			if err != nil {
				break
			}
			s.set = set
		}
		if !c.lean(s, as) {
			break
		}
		c.fill(s)
		if c.right(s, try < mostSets/2) {
			return nil
		}
		s.set = nil
	}
	c.fallbacks++
	return c.fallBack(s, scale, as)
}

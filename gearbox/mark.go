package gearbox

import "layshaft/gearstress/faceload"

// A search for the load along the faces starts from the solution at the torque of the coupling, with flanks in line. So what is found at a torque depends on that torque alone, to the last digit. Where
// seats under bearings of known elements move it starts from what was found last for the same making.

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

// find is spread with what it finds left in c.now, until the next is found.
func (c *coupling) find(scale float64, as making, moves []float64) error {
	if len(moves) == 0 {
		if c.own == nil {
			if err := c.seek(1, making{}, nil, nil); err != nil {
				return err
			}
			c.own = c.now.mark(nil)
		}
		return c.seek(scale, as, nil, c.own)
	}
	last := &c.last[as.place()]
	err := c.seek(scale, as, moves, *last)
	if err == nil {
		*last = c.now.mark(*last)
	}
	return err
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

package gearbox

import (
	"math"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

// Play is not load: with the lightest touch a shaft lies down in the play of its bearings, and if it is pushed to other
// sides in them it leans. That bends nothing and presses no roller askew, so it is no slope by load. It moves the gears all
// the same, and stays in the misalignment of meshes.

// play is how far a shaft lies off the middle of a bearing before anything is pressed, mm: half its radial play, of a
// pair what its end play opens across each row.
func (s *Shaft) play(j int) float64 {
	e := s.Bearings[j].Elements
	switch last := len(s.Bearings) - 1; {
	case e == nil:
		return 0
	case s.Pair != nil && (j == 0 || j == last) && e.Kind == bearing.Tapered:
		return max(0, s.Pair.EndPlay) / 2 * math.Tan(math.Abs(e.ContactAngle))
	}
	return max(0, e.Clearance) / 2
}

// loose reports whether a shaft has play in a bearing, or sits in one that has.
func (p *prepared) loose(shaft int) bool {
	s := &p.box.Shafts[shaft]
	for j := range s.Bearings {
		if s.play(j) > 0 {
			return true
		}
	}
	line := &p.lines[shaft]
	return line.pilot >= 0 && p.loose(line.in)
}

// lying is how a shaft lies in the play of its first and last bearing: a straight line.
type lying struct {
	at   float64 // mm from its left end
	off  point   // there, mm
	lean point   // slopes in planes xy and xz, rad
}

// lies finds it from what the bearings put on the shaft, against which it lies; of is that of another shaft, for the carrier
// of a pilot.
func (p *prepared) lies(shaft int, of func(shaft int) ([]beam.Reaction, error)) (l lying, err error) {
	s, line := &p.box.Shafts[shaft], &p.lines[shaft]
	last := len(s.Bearings) - 1
	if !p.loose(shaft) || last < 1 {
		return l, nil
	}
	reactions, err := of(shaft)
	if err != nil {
		return l, err
	}
	off := func(j int) (off point, err error) {
		if push := (point{reactions[j].Fy, reactions[j].Fz}); push.norm() > 0 {
			off = push.scaled(-s.play(j) / push.norm())
		}
		if j != line.pilot {
			return off, nil
		}
		carrier, err := p.lies(line.in, of)
		return off.plus(carrier.off).plus(carrier.lean.scaled(s.Bearings[j].InAt - carrier.at)), err
	}
	first, err := off(0)
	if err != nil {
		return l, err
	}
	end, err := off(last)
	from, to := s.Bearings[0].At, s.Bearings[last].At
	return lying{from, first, end.minus(first).scaled(1 / (to - from))}, err
}

// leans is by how much a shaft leans in a bearing before anything is pressed, in a pilot against the carrier.
func (p *prepared) leans(shaft, j int, of func(shaft int) ([]beam.Reaction, error)) (point, error) {
	l, err := p.lies(shaft, of)
	if line := &p.lines[shaft]; err == nil && j == line.pilot {
		var carrier lying
		carrier, err = p.lies(line.in, of)
		return l.lean.minus(carrier.lean), err
	}
	return l.lean, err
}

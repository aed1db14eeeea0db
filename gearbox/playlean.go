package gearbox

import (
	"math"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

// Play is not load: with the lightest touch a shaft lies down in the play of its bearings, and if it is pushed to other
// sides in them it leans. That bends nothing and presses no roller askew, so it is no slope by load. It moves the gears all
// the same, and stays in the misalignment of meshes.

// standing is where shafts stand in their bearings of known elements.
type standing struct {
	p         *prepared
	mounts    []mount
	rows      []rowLoad
	moves     []float64 // of the seats
	reactions func(shaft int) ([]beam.Reaction, error)
}

// play is how far a row lets the shaft move off its middle before anything is pressed, mm: half its play, of one of a
// pair what it has opened along the axis, as far as that is end play.
func (s *standing) play(k int) float64 {
	m := &s.mounts[k]
	if m.paired < 0 {
		return max(0, m.row.Clearance) / 2
	}
	pair := s.p.box.Shafts[m.shaft].Pair
	opened := s.rows[k].ring
	if (pair.Arrangement == bearing.FaceToFace) == (m.paired < k) { // the last face to face and the first back to back are pushed in towards +x
		opened = -opened
	}
	return min(max(0, opened), max(0, pair.EndPlay)) * math.Tan(math.Abs(m.row.ContactAngle))
}

// off is how far a shaft lies off the middle of a bearing within its play, mm.
func (s *standing) off(shaft, j int, reactions []beam.Reaction) point {
	for k := range s.mounts {
		m := &s.mounts[k]
		if m.shaft != shaft || m.bearing != j {
			continue
		}
		at := point{s.moves[m.first] - reactions[j].Fy/spring, s.moves[m.first+1] - reactions[j].Fz/spring}
		if most, far := s.play(k), at.norm(); far > most {
			at = at.scaled(most / far)
		}
		return at
	}
	return point{}
}

// lying is how a shaft lies in the play of its first and last bearing: a straight line.
type lying struct {
	at   float64 // mm from its left end
	off  point   // there, mm
	lean point   // slopes in planes xy and xz, rad
}

// lies finds it; a pilot lies where its carrier lies.
func (s *standing) lies(shaft int) (l lying, err error) {
	bearings, line := s.p.box.Shafts[shaft].Bearings, &s.p.lines[shaft]
	last := len(bearings) - 1
	if !s.p.loose(shaft) || last < 1 {
		return l, nil
	}
	reactions, err := s.reactions(shaft)
	if err != nil {
		return l, err
	}
	carrier := lying{}
	if line.pilot >= 0 {
		if carrier, err = s.lies(line.in); err != nil {
			return l, err
		}
	}
	off := func(j int) point {
		off := s.off(shaft, j, reactions)
		if j == line.pilot {
			off = off.plus(carrier.off).plus(carrier.lean.scaled(bearings[j].InAt - carrier.at))
		}
		return off
	}
	first, end := off(0), off(last)
	return lying{bearings[0].At, first, end.minus(first).scaled(1 / (bearings[last].At - bearings[0].At))}, nil
}

// leans is by how much a shaft leans in a bearing before anything is pressed, in a pilot against the carrier, rad in planes xy and xz.
func (s *standing) leans(shaft, j int) (point, error) {
	l, err := s.lies(shaft)
	if line := &s.p.lines[shaft]; err == nil && j == line.pilot {
		var carrier lying
		carrier, err = s.lies(line.in)
		return l.lean.minus(carrier.lean), err
	}
	return l.lean, err
}

// loose reports whether a shaft has play in a bearing, or sits in one that has.
func (p *prepared) loose(shaft int) bool {
	s := &p.box.Shafts[shaft]
	if s.Pair != nil && s.Pair.EndPlay > 0 {
		return true
	}
	for _, br := range s.Bearings {
		if br.Elements != nil && br.Elements.Clearance > 0 {
			return true
		}
	}
	line := &p.lines[shaft]
	return line.pilot >= 0 && p.loose(line.in)
}

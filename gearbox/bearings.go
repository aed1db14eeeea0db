package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

// Rolling bearings whose elements are known are not springs: what a row carries depends on where the shaft stands in it, with all its movements at once. To
// the shaft each of them is a spring of a fixed stiffness all the same, but on a seat that is moved and tilted until the spring carries just what the elements carry at
// that place. Then force and couple are theirs exactly, whatever the spring's stiffness. settle.go finds the seats.

// spring is the stiffness that stands for a row of elements, N/mm: of the order of real ones, which keeps the digits. Results don't depend on it.
const spring = 3e5

// mount is a bearing of known elements. It has movements {y, z} and, unless it is a pilot, {slope in plane xy, in plane xz} times lever, so
// that all are lengths in mm and what goes with them are forces in N. A pilot carries radial force alone, so it doesn't feel tilting.
type mount struct {
	shaft, bearing int
	row            bearing.Elements
	lever          float64 // mm
	first, count   int     // its movements among those of all mounts
	paired         int     // the mount that shares the axial movement of this one; −1 = none

	ready *bearing.Row       // nil for one of a pair
	pair  *bearing.ReadyPair // at the first of a pair
}

// tiltLever makes the slopes in a bearing into movements at its elements, mm.
func tiltLever(e *bearing.Elements) float64 { return e.Pitch / 2 }

// support is the spring under a shaft at a bearing: in series with the case under it.
func (p *prepared) support(br Bearing) beam.Support {
	radial, tilt := br.Radial, br.Tilt
	if e := br.Elements; e != nil {
		radial, tilt = spring, 0
		if br.In == "" {
			tilt = spring * tiltLever(e) * tiltLever(e)
		}
	}
	return beam.Support{X: br.At, Radial: 1 / (1/radial + 1/p.caseUnder(br)), Tilt: tilt, Axial: br.Axial}
}

// mounts are the bearings of known elements on some shafts.
func (p *prepared) mounts(shafts []int) (all []mount, err error) {
	next := 0
	for _, i := range shafts {
		s := p.box.Shafts[i]
		start := len(all)
		for j, br := range s.Bearings {
			if br.Elements == nil {
				continue
			}
			m := mount{shaft: i, bearing: j, row: *br.Elements, lever: tiltLever(br.Elements), first: next, count: 4, paired: -1}
			if br.In != "" {
				m.count = 2
			}
			next += m.count
			all = append(all, m)
		}
		if s.Pair != nil && s.Bearings[0].Elements != nil { // the first and the last bearing of the shaft
			first, last := &all[start], &all[len(all)-1]
			first.paired, last.paired = len(all)-1, start
			pair := bearing.Pair{Arrangement: s.Pair.Arrangement, A: first.row, B: last.row, Setting: s.Pair.EndPlay}
			if first.pair, err = pair.Ready(); err != nil {
				return nil, fmt.Errorf("%s: %w", ShaftTitle(s.Name), err)
			}
		}
	}
	for k := range all {
		if m := &all[k]; m.paired < 0 {
			if m.ready, err = m.row.Ready(); err != nil {
				return nil, fmt.Errorf("%s: %w", p.title(m), err)
			}
		}
	}
	return all, nil
}

// title names a mount for people.
func (p *prepared) title(m *mount) string {
	return p.lines[m.shaft].bearings[m.bearing]
}

// stance is where the shaft stands in the bearing, from the movements of all mounts.
func (m *mount) stance(moves []float64) bearing.Stance {
	v := moves[m.first : m.first+m.count]
	s := bearing.Stance{Across: [2]float64{v[0], v[1]}}
	if m.count == 4 { // the slope in plane xz is minus the rotation about +y
		s.Tilt = [2]float64{-v[3] / m.lever, v[2] / m.lever}
	}
	return s
}

// forces writes what the shaft must put on the bearing among the forces of all mounts.
func (m *mount) forces(h bearing.Hold, all []float64) {
	f := all[m.first : m.first+m.count]
	f[0], f[1] = h.Force[1], h.Force[2]
	if m.count == 4 {
		f[2], f[3] = h.Couple[1]/m.lever, -h.Couple[0]/m.lever
	}
}

// tangent writes how the forces of a mount answer the movements of another, or its own, into a square of all movements.
func (m *mount) tangent(t *bearing.Tangent, other *mount, square []float64, n int) {
	// Which of the tangent's movements each of the mount's is, and how much of it.
	index := [4]int{0, 1, 3, 2}
	times := func(m *mount, i int) float64 { return [4]float64{1, 1, 1 / m.lever, -1 / m.lever}[i] }
	for i := range m.count {
		for j := range other.count {
			square[(m.first+i)*n+other.first+j] = times(m, i) * times(other, j) * t[index[i]][index[j]]
		}
	}
}

// hold asks all rows what they carry with the shafts standing where they stand and the thrusts on them (of a pair: all of it at its first bearing): it fills
// in axial, stiff, and miss with the forces, and returns the sum of all element loads, N.
func (p *prepared) hold(mounts []mount, s *footed) (total float64, err error) {
	moves, forces, stiffness := s.stands, s.miss, s.stiff
	n := len(moves)
	for k := range mounts {
		m := &mounts[k]
		switch {
		case m.paired < 0:
			h, t, err := m.ready.Hold(m.stance(moves), s.thrust[k])
			if err != nil {
				return 0, fmt.Errorf("%s: %w", p.title(m), err)
			}
			s.axial[k], s.rows[k] = h.Axial, rowLoad{h.Axial, -h.Force[0], h.Heaviest}
			m.forces(h, forces)
			m.tangent(&t, m, stiffness, n)
			total += h.Total
		case m.paired > k:
			last := &mounts[m.paired]
			a, b, ta, tb, cross, err := m.pair.Hold(m.stance(moves), last.stance(moves), s.thrust[k])
			if err != nil {
				return 0, fmt.Errorf("%s: %w", ShaftTitle(p.box.Shafts[m.shaft].Name), err)
			}
			s.axial[k], s.axial[m.paired] = a.Axial, b.Axial
			s.rows[k], s.rows[m.paired] = rowLoad{a.Axial, -a.Force[0], a.Heaviest}, rowLoad{b.Axial, -b.Force[0], b.Heaviest}
			m.forces(a, forces)
			last.forces(b, forces)
			m.tangent(&ta, m, stiffness, n)
			last.tangent(&tb, last, stiffness, n)
			m.tangent(&cross, last, stiffness, n)
			for i := range m.count {
				for j := range last.count {
					stiffness[(last.first+j)*n+m.first+i] = stiffness[(m.first+i)*n+last.first+j]
				}
			}
			total += a.Total + b.Total
		}
	}
	return total, nil
}

// within makes sure that the shafts stand where the law of the elements still means something.
func (p *prepared) within(mounts []mount, s *footed) error {
	for k := range mounts {
		m := &mounts[k]
		at := m.stance(s.stands)
		most := m.row.Diameter / 4
		if moved := math.Hypot(at.Across[0], at.Across[1]); moved > most {
			return fmt.Errorf("%s: the shaft moves %.3g mm across in it, more than a quarter of the diameter of its elements (%.3g mm): check its elements and the load", p.title(m), moved, most)
		}
		if moved := math.Abs(s.axial[k]); moved > most {
			return fmt.Errorf("%s: the thrust moves its ring %.3g mm along the axis, more than a quarter of the diameter of its elements (%.3g mm): check its elements and the load", p.title(m), moved, most)
		}
		if tilt := math.Hypot(at.Tilt[0], at.Tilt[1]); tilt > 0.1 {
			return fmt.Errorf("%s: the shaft tilts %.3g rad in it: check its elements and the load", p.title(m), tilt)
		}
	}
	return nil
}

// seats are the seats under the springs that stand for the mounts, by shaft, from the movements of these seats; zero for other bearings of shafts.
func (p *prepared) seats(mounts []mount, shafts []int, moves []float64) [][]beam.Seat {
	all := make([][]beam.Seat, len(p.lines))
	for _, i := range shafts {
		all[i] = make([]beam.Seat, len(p.box.Shafts[i].Bearings))
	}
	for k := range mounts {
		m := &mounts[k]
		all[m.shaft][m.bearing] = m.seat(moves)
	}
	return all
}

// seat is that under the spring of a mount, from the movements of the seats of all mounts.
func (m *mount) seat(moves []float64) (seat beam.Seat) {
	v := moves[m.first : m.first+m.count]
	seat.Move = [2]float64{v[0], v[1]}
	if m.count == 4 {
		seat.Tilt = [2]float64{v[2] / m.lever, v[3] / m.lever}
	}
	return seat
}

// springy reports whether one of the shafts has a bearing of known elements.
func (p *prepared) springy(shafts []int) bool {
	return slices.ContainsFunc(shafts, func(i int) bool {
		return slices.ContainsFunc(p.box.Shafts[i].Bearings, func(br Bearing) bool { return br.Elements != nil })
	})
}

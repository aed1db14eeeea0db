package gearbox

import (
	"fmt"
	"math"

	"layshaft/material"
)

// measure is what limits look at, at one torque. The load along the faces is solved; what follows from it is worked out when it is asked for.
type measure struct {
	solver *solver
	torque float64     // that was solved, N·mm
	grown  float64     // all but K_Hβ is over what was solved; 1 but past an edge
	load   []float64   // of all strips, N; nil for a direct speed
	moves  []float64   // of the seats under bearings of known elements
	faces  []float64   // K_Hβ by mesh on the path, with flanks in line as made
	worse  []float64   // the same with flanks out of line to the worse side; nil = not asked yet, 0 = not this mesh
	bent   [][]float64 // von Mises of the sections by shaft, MPa; nil = not asked yet
	cut    [][]cut     // what the notches carry, by shaft; nil = not asked yet
}

// measure is that of a torque, N·mm.
func (v *solver) measure(torque float64) (*measure, error) {
	if m, ok := v.known[torque]; ok {
		return m, nil
	}
	if err := v.ready(); err != nil {
		return nil, err
	}
	if v.footing != nil {
		edge, err := v.edgeBefore(torque)
		if err != nil {
			return nil, err
		}
		if edge != nil {
			m := *edge
			m.grown = torque / m.torque
			v.known[torque] = &m
			return &m, nil
		}
	}
	return v.solve(torque)
}

// solve is the measure of a torque on this side of the edges, kept.
func (v *solver) solve(torque float64) (*measure, error) {
	if m, ok := v.known[torque]; ok {
		return m, nil
	}
	s, err := v.spread(torque, making{})
	if err != nil {
		return nil, fmt.Errorf("at an input torque of %.4g N·m: %w", torque/1e3, err)
	}
	m := v.of(torque, s)
	v.known[torque] = m
	return m, nil
}

// of keeps of a spread what a measure needs.
func (v *solver) of(torque float64, s *spread) *measure {
	m := &measure{solver: v, torque: torque, grown: 1}
	if s == nil {
		return m
	}
	n, moves, meshes := len(s.state), s.at[v.fixed.firstMove:], len(v.speed.Path)
	row := make([]float64, n+len(moves)+meshes)
	m.load, m.moves, m.faces = row[:n:n], row[n:n+len(moves):n+len(moves)], row[n+len(moves):]
	for k := range m.load {
		m.load[k] = s.load(k)
	}
	copy(m.moves, moves)
	for i := range m.faces {
		m.faces[i] = v.fixed.factor(s, i)
	}
	return m
}

// factor is K_Hβ of a mesh on the path as it counts at one end of the bands: with its flanks out of line from their making to the worse side, but not at the best end. The other meshes are in line:
// what they do to this one through the shafts is small.
func (m *measure) factor(step int, level material.Level) (float64, error) {
	v := m.solver
	if level == material.High || v.p.pairs[v.fixed.steps[step].mesh].deviation == 0 {
		return m.faces[step], nil
	}
	if m.worse == nil {
		m.worse = make([]float64, len(m.faces))
	}
	if m.worse[step] == 0 {
		worse := 0.0
		for _, sign := range m.worseSigns(step) {
			s, err := v.spread(m.torque, making{step, sign})
			if err != nil {
				return 0, fmt.Errorf("at an input torque of %.4g N·m, flanks out of line: %w", m.torque/1e3, err)
			}
			worse = max(worse, v.fixed.factor(s, step))
		}
		m.worse[step] = worse
	}
	return m.worse[step], nil
}

// clearly is how far from the middle of the face its load must act, and its peak lie, as a share of the face, for it to be clear to which side flanks out of line are worse.
const clearly, clearlyPeak = 0.08, 0.35

// worseSigns are the signs of the deviation that may be the worse: a gap that opens towards the end that carries less, or both where that isn't clear.
func (m *measure) worseSigns(step int) []float64 {
	q := &m.solver.p.pairs[m.solver.fixed.steps[step].mesh]
	face, sum, moment, most, peak := q.to-q.from, 0.0, 0.0, 0.0, 0.0
	for i, xi := range q.stations {
		w := m.load[step*strips+i]
		sum += w
		moment += w * xi
		if line := w / q.widths[i]; line > most {
			most, peak = line, xi
		}
	}
	switch at := moment / sum; {
	case at > clearly*face && peak > clearlyPeak*face:
		return []float64{-1}
	case at < -clearly*face && peak < -clearlyPeak*face:
		return []float64{1}
	}
	return []float64{1, -1}
}

// factor is K_Hβ of a mesh on the path at a torque, as it counts at one end of the bands.
func (v *solver) factor(step int, torque float64, level material.Level) (float64, error) {
	m, err := v.measure(torque)
	if err != nil {
		return 0, err
	}
	return m.factor(step, level)
}

// tilt is how far the axes of a mesh on the path lean out of parallel, rad.
func (m *measure) tilt(step int) (float64, error) {
	return m.grown * m.solver.fixed.answers.axes[step].under(m.load, m.moves).norm(), nil
}

// separation is how far they part or close, mm ≥ 0.
func (m *measure) separation(step int) (float64, error) {
	c := m.solver.fixed
	return m.grown * math.Abs(c.answers.apart[step].under(m.load, m.moves).dot(c.forces[step].along)), nil
}

// slope is that of a shaft in one of its bearings, rad.
func (m *measure) slope(shaft, bearing int) (float64, error) {
	if m.load == nil {
		return 0, nil // torque alone bends nothing
	}
	return m.grown * m.solver.fixed.answers.slope[shaft][bearing].under(m.load, m.moves).norm(), nil
}

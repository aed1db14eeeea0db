package gearbox

import (
	"fmt"
	"math"
)

// measure is what limits look at, at one torque. The load along the faces is solved; what follows from it is worked out when it is asked for.
type measure struct {
	solver *solver
	torque float64     // that was solved, N·mm
	grown  float64     // all but K_Hβ is over what was solved; 1 but past an edge
	load   []float64   // of all strips, N; nil for a direct speed
	moves  []float64   // of the seats under bearings of known elements
	bent   [][]float64 // von Mises of the sections by shaft, MPa; nil = not asked yet
}

// measure is that of a torque, N·mm.
func (v *solver) measure(torque float64) (*measure, error) {
	if m, ok := v.known[torque]; ok {
		return m, nil
	}
	if err := v.ready(); err != nil {
		return nil, err
	}
	at, err := v.before(torque)
	if err != nil {
		return nil, err
	}
	if v.p.rough && at == torque {
		s, err := v.look(torque, making{})
		if err != nil {
			return nil, err
		}
		return v.of(torque, s), nil
	}
	m, err := v.solve(at)
	if err != nil || at == torque {
		return m, err
	}
	past := *m
	past.grown = torque / at
	v.known[torque] = &past
	return &past, nil
}

// solve is the measure of a torque on this side of the edges, kept.
func (v *solver) solve(torque float64) (*measure, error) {
	if m, ok := v.known[torque]; ok {
		return m, nil
	}
	s, err := v.find(torque, making{})
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
	n, moves := len(s.state), s.at[v.fixed.firstMove:]
	row := make([]float64, n+len(moves))
	m.load, m.moves = row[:n:n], row[n:]
	for k := range m.load {
		m.load[k] = s.load(k)
	}
	copy(m.moves, moves)
	return m
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

package faceload

import (
	"errors"
	"math"
	"slices"
)

// Family is the problems that share meshes and compliance and differ in a few numbers, their parameters: gaps and forces are linear in these. As long as the same
// stations carry, loads, openings and approaches are linear in them as well. What that takes is worked out once for every contact set that is asked for, and kept.
type Family struct {
	problem    Problem
	gap, force [][]float64 // by parameter: gap of all stations, mm; forces of all meshes, N
	sets       map[string]*Set
	solver     Solver
}

// Set is what follows from the parameters while the stations of one contact set carry and no others. All are by parameter, per unit of it.
type Set struct {
	Carries []byte // of all stations: 1 = it does, 0 = it doesn't

	// State of all stations: the load, N, of those that carry, and the opening, mm, of those that don't. With all of it ≥ 0 this is the contact set of the solution.
	State [][]float64
	// Approach of each mesh, mm.
	Approach [][]float64
	// Pull[i][j] is how much the loads of parameter i pull at parameter j, the sum of its gaps times these loads: N·mm, or N and N·mm per unit of what is a movement or an angle.
	Pull [][]float64
}

// NewFamily makes a family of p's meshes and compliance, whose own gaps and forces don't count. gap[i] and force[i] are those of parameter i per unit of it, each for all stations or meshes.
func NewFamily(p *Problem, gap, force [][]float64) (*Family, error) {
	n, err := p.validate()
	if err != nil {
		return nil, err
	}
	if len(gap) != len(force) {
		return nil, errors.New("a family needs gaps and forces for every parameter")
	}
	for i := range gap {
		if len(gap[i]) != n || len(force[i]) != len(p.Meshes) {
			return nil, errors.New("a family needs a gap for every station and a force for every mesh")
		}
	}
	return &Family{problem: *p, gap: gap, force: force, sets: map[string]*Set{}}, nil
}

// Sets is how many contact sets were worked out so far.
func (f *Family) Sets() int { return len(f.sets) }

// Set is the contact set in which the stations marked in key carry: one byte for each, not 0 when it carries. Every mesh needs one at least.
func (f *Family) Set(key []byte) (*Set, error) {
	if s, ok := f.sets[string(key)]; ok {
		return s, nil
	}
	s, err := f.work(key)
	if err != nil {
		return nil, err
	}
	f.sets[string(key)] = s
	return s, nil
}

func (f *Family) work(key []byte) (*Set, error) {
	s := &f.solver
	s.prepare(&f.problem, len(key))
	defer func() { s.compliance = nil }()
	r := &Set{Carries: make([]byte, len(key))}
	s.free = s.free[:0]
	lonely := len(f.problem.Meshes)
	for k, mark := range key {
		if mark != 0 {
			r.Carries[k] = 1
			if len(s.free) == 0 || s.owner[s.free[len(s.free)-1]] != s.owner[k] {
				lonely--
			}
			s.free = append(s.free, k)
		}
	}
	if lonely > 0 {
		return nil, errors.New("a mesh without a station that carries can't bear its force")
	}
	if err := s.factorise(); err != nil {
		return nil, err
	}
	for i := range f.gap {
		state, approach, err := s.parameter(f.gap[i], f.force[i])
		if err != nil {
			return nil, err
		}
		r.State, r.Approach = append(r.State, state), append(r.Approach, approach)
	}
	r.Pull = make([][]float64, len(f.gap))
	for i, state := range r.State {
		r.Pull[i] = make([]float64, len(f.gap))
		for j, gap := range f.gap {
			for _, k := range s.free {
				r.Pull[i][j] += gap[k] * state[k]
			}
		}
	}
	return r, nil
}

// parameter is what one parameter does to all stations and meshes. What rounding leaves over of the conditions is solved for once more.
func (s *Solver) parameter(gap, force []float64) (state, approach []float64, err error) {
	load, level := make([]float64, s.n), make([]float64, len(force))
	left, lacking := slices.Clone(gap), slices.Clone(force)
	for range 2 {
		s.respond(left, lacking, s.trial)
		for k := range load {
			load[k] += s.trial[k]
		}
		for m := range level {
			level[m] += s.level[m]
		}
		copy(s.load, load)
		copy(s.level, level)
		copy(s.gap, gap)
		s.measure()
		copy(left, s.slack)
		copy(lacking, force)
		for _, k := range s.free {
			lacking[s.owner[k]] -= load[k]
		}
	}
	state = slices.Clone(s.slack)
	miss := 0.0
	for _, k := range s.free {
		miss = max(miss, math.Abs(s.slack[k]))
		state[k] = load[k]
	}
	if !(miss <= accepted*slices.Max(s.size)) {
		return nil, nil, errApart
	}
	return state, level, nil
}

// Solution is that at some parameters, from the loads, N, of all stations and the approaches, mm, of all meshes. They are held against every condition as if they had come from Solve.
func (f *Family) Solution(at, load, approach []float64) (*Solution, error) {
	p := Problem{Compliance: f.problem.Compliance, Meshes: slices.Clone(f.problem.Meshes)}
	gap := make([]float64, len(load))
	first := 0
	for m := range p.Meshes {
		mesh := &p.Meshes[m]
		mesh.Force = 0
		mesh.Gap = gap[first : first+mesh.Slices]
		first += mesh.Slices
		for i, x := range at {
			mesh.Force += x * f.force[i][m]
		}
	}
	for i, x := range at {
		for k, g := range f.gap[i] {
			gap[k] += x * g
		}
	}
	n, err := p.validate()
	if err != nil {
		return nil, err
	}
	s := &f.solver
	s.prepare(&p, n)
	defer func() { s.compliance = nil }()
	copy(s.load, load)
	for m := range approach {
		s.level[m] = approach[m] - s.least[m]
	}
	s.measure()
	r := s.residual()
	if !(r.worst() <= accepted) {
		return nil, r.explain()
	}
	return s.solution(&p, r.worst()), nil
}

// Gap is that of one parameter at all stations, mm per unit of it.
func (f *Family) Gap(parameter int) []float64 { return f.gap[parameter] }

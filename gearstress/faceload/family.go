package faceload

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas/blas64"
)

// Family is the problems that share meshes and compliance and differ in a few numbers, their parameters: gaps and forces are linear in these. As long as the same
// stations carry, loads, openings and approaches are linear in them as well. What that takes is worked out once for every contact set that is asked for, and kept.
type Family struct {
	problem    Problem
	gap, force [][]float64 // by parameter: gap of all stations, mm; forces of all meshes, N
	sets       map[string]*Set
	all        *whole // nil = not asked for yet
	solver     *Solver
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

// NewFamily makes a family of p's meshes and compliance, whose own gaps and forces don't count. gap[i] and force[i] are those of parameter i per unit of it, each for all stations or meshes. The
// memory of a solver is used to work on.
func NewFamily(p *Problem, gap, force [][]float64, on *Solver) (*Family, error) {
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
	return &Family{problem: *p, gap: gap, force: force, sets: map[string]*Set{}, solver: on}, nil
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
	r := f.room(len(key))
	open, lonely, last := make([]int, 0, len(key)), len(f.problem.Meshes), -1
	for m, k := 0, 0; m < len(f.problem.Meshes); m++ {
		for range f.problem.Meshes[m].Slices {
			if key[k] == 0 {
				open = append(open, k)
			} else {
				r.Carries[k] = 1
				if last != m {
					last = m
					lonely--
				}
			}
			k++
		}
	}
	if lonely > 0 {
		return nil, errors.New("a mesh without a station that carries can't bear its force")
	}
	if len(open) == 0 || float64(len(open)) > few*float64(len(key)) {
		return r, f.alone(f.solver, r)
	}
	if f.all == nil {
		all := &whole{set: f.room(len(key)), parting: make([][]float64, len(key))}
		for k := range all.set.Carries {
			all.set.Carries[k] = 1
		}
		if err := f.alone(&all.solver, all.set); err != nil {
			return nil, err
		}
		f.all = all
	}
	if !f.all.parted(r, open) {
		return r, f.alone(f.solver, r)
	}
	f.pull(r)
	return r, nil
}

// room is a set with nothing in it.
func (f *Family) room(n int) *Set {
	count, meshes := len(f.gap), len(f.problem.Meshes)
	values, rows := make([]float64, count*(n+meshes+count)), make([][]float64, 3*count)
	take := func(n int) (part []float64) {
		part, values = values[:n:n], values[n:]
		return part
	}
	r := &Set{Carries: make([]byte, n), State: rows[:count:count], Approach: rows[count : 2*count : 2*count], Pull: rows[2*count:]}
	for i := range count {
		r.State[i], r.Approach[i], r.Pull[i] = take(n), take(meshes), take(count)
	}
	return r
}

// alone works out a set from the stations that carry.
func (f *Family) alone(s *Solver, r *Set) error {
	s.prepare(&f.problem, len(r.Carries))
	defer func() { s.compliance = nil }()
	s.free = s.free[:0]
	for k, mark := range r.Carries {
		if mark != 0 {
			s.free = append(s.free, k)
		}
	}
	if err := s.factorise(); err != nil {
		return err
	}
	for i := range f.gap {
		if err := s.parameter(f.gap[i], f.force[i], r.State[i], r.Approach[i]); err != nil {
			return err
		}
	}
	f.pull(r)
	return nil
}

// pull fills in by how much the loads of each parameter pull at every other.
func (f *Family) pull(r *Set) {
	n := len(r.Carries)
	load := resize(f.solver.trial, n)
	f.solver.trial = load
	for i, state := range r.State {
		for k, mark := range r.Carries {
			load[k] = state[k] * float64(mark)
		}
		for j, gap := range f.gap {
			r.Pull[i][j] = blas64.Dot(blas64.Vector{N: n, Inc: 1, Data: gap}, blas64.Vector{N: n, Inc: 1, Data: load})
		}
	}
}

// parameter is what one parameter does to all stations and meshes. What rounding leaves over of the conditions is solved for once more.
func (s *Solver) parameter(gap, force, state, approach []float64) error {
	clear(state)
	clear(approach)
	s.left, s.lacking = append(s.left[:0], gap...), append(s.lacking[:0], force...)
	for range 2 {
		s.answer(s.left, s.lacking, s.trial)
		for k, w := range s.trial {
			state[k] += w
		}
		for m, level := range s.level {
			approach[m] += level
		}
		copy(s.lacking, force)
		for k := range state {
			s.left[k] = s.spring[k]*state[k] + gap[k] - approach[s.owner[k]]
			if s.compliance != nil {
				row := blas64.Vector{N: s.n, Inc: 1, Data: s.compliance[k*s.n : k*s.n+s.n]}
				s.left[k] += blas64.Dot(row, blas64.Vector{N: s.n, Inc: 1, Data: state})
			}
			s.lacking[s.owner[k]] -= state[k]
		}
	}
	miss, size, f := 0.0, 0.0, 0
	for k, left := range s.left {
		size = max(size, math.Abs(s.spring[k]*state[k])+math.Abs(gap[k])+math.Abs(approach[s.owner[k]]))
		if f < len(s.free) && s.free[f] == k {
			miss = max(miss, math.Abs(left))
			f++
		} else {
			state[k] = left
		}
	}
	if !(miss <= accepted*size) {
		return errApart
	}
	return nil
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
	s := f.solver
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

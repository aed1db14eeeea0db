package faceload

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// Solver finds how load spreads along the faces. It keeps its working memory between calls; the zero value is
// ready for use. A Solver serves one goroutine at a time.
type Solver struct {
	n          int       // stations of all meshes
	compliance []float64 // n×n of the problem at hand, mm/N; nil when rigid
	first      []int     // first[m] is the first station of mesh m; one entry more than meshes
	owner      []int     // mesh of each station
	spring     []float64 // compliance of the teeth at a station 1/(c_γ Δb), mm/N
	gap        []float64 // gap less the least gap of its mesh, mm
	least      []float64 // least gap of each mesh, mm
	force      []float64 // N

	free    []int     // stations that may carry load, rising
	load    []float64 // w, N
	trial   []float64 // best load on the free stations when signs don't count, N
	slack   []float64 // w/(c_γ Δb) + C w + g − δ, mm: 0 where loaded, ≥ 0 elsewhere
	size    []float64 // sum of the sizes of the terms of slack, mm
	level   []float64 // δ of each mesh for trial, less its least gap, mm
	missing []float64 // force that trial lacks, N, then what it adds to level, mm

	factor []float64 // Cholesky factor of the free block, lower triangle
	column []float64 // V as rows of the length of free, and one row to work on
	schur  []float64 // meshes × meshes
	corner []float64 // Cholesky factor of what parts, in whole
	apart  []float64 // by how much, mm

	left, lacking []float64 // of the conditions, for parameter
	steps         int
}

// accepted is the largest relative residual of a solution that is handed out.
const accepted = 1e-9

// rounding is the share of the terms of an equation below which what is left of them counts as zero.
const rounding = 1e-14

// errApart is for numbers that can't be reckoned with together.
var errApart = errors.New("no spread of load can be worked out: compliance, mesh stiffness, gap and force are too many powers of ten apart; check their units")

// Solve returns the one spread of load that satisfies p. It leaves p unchanged and keeps nothing of it.
func (s *Solver) Solve(p *Problem) (*Solution, error) {
	n, err := p.validate()
	if err != nil {
		return nil, err
	}
	s.prepare(p, n)
	defer func() { s.compliance = nil }()
	if err := s.start(); err != nil {
		return nil, err
	}
	if err := s.improve(); err != nil {
		return nil, err
	}
	r := s.residual()
	if !(r.worst() <= accepted) {
		return nil, r.explain()
	}
	return s.solution(p, r.worst()), nil
}

func (s *Solver) prepare(p *Problem, n int) {
	meshes := len(p.Meshes)
	s.n, s.compliance, s.steps = n, p.Compliance, 0
	s.first = resize(s.first, meshes+1)
	s.least, s.force = resize(s.least, meshes), resize(s.force, meshes)
	s.level, s.missing = resize(s.level, meshes), resize(s.missing, meshes)
	s.owner, s.free = resize(s.owner, n), resize(s.free, n)
	s.spring, s.gap = resize(s.spring, n), resize(s.gap, n)
	s.load, s.trial, s.slack, s.size = resize(s.load, n), resize(s.trial, n), resize(s.slack, n), resize(s.size, n)
	s.factor, s.column, s.schur = resize(s.factor, n*n), resize(s.column, (meshes+1)*n), resize(s.schur, meshes*meshes)
	k := 0
	for m := range p.Meshes {
		q := &p.Meshes[m]
		s.first[m], s.force[m], s.least[m] = k, q.Force, 0
		if q.Gap != nil {
			s.least[m] = q.Gap[0]
			for _, g := range q.Gap {
				s.least[m] = min(s.least[m], g)
			}
		}
		for i := range q.Slices {
			s.owner[k], s.free[k] = m, k
			s.spring[k] = 1 / (q.Stiffness * width(i, q.Slices, q.Face))
			s.gap[k] = 0
			if q.Gap != nil {
				s.gap[k] = q.Gap[i] - s.least[m]
			}
			k++
		}
	}
	s.first[meshes] = n
}

// resize returns a slice of length n, reusing old where it is long enough. What is in it is not cleared.
func resize[T any](old []T, n int) []T {
	if cap(old) < n {
		return make([]T, n)
	}
	return old[:n]
}

// start finds a load that is best on its own set of stations and nowhere negative: all stations first, then again
// and again without those that would have to pull. The set shrinks at each turn, so it ends.
func (s *Solver) start() error {
	for {
		if err := s.minimise(); err != nil {
			return err
		}
		kept := s.free[:0]
		for _, k := range s.free {
			if s.trial[k] >= 0 {
				kept = append(kept, k)
			}
		}
		if len(kept) == 0 {
			return errApart // only where numbers overflow: loads that add up to a positive force can't all be negative
		}
		done := len(kept) == len(s.free)
		s.free = kept
		if done {
			copy(s.load, s.trial)
			return nil
		}
	}
}

// improve goes from one set of stations to a better one, as the package comment says, until no station outside
// wants load. The bound on the steps is far above what is ever needed; it ends the to and fro between sets that
// differ by rounding only, and what comes of that is judged by its residual.
func (s *Solver) improve() error {
	for limit := s.steps + 10*s.n; s.steps < limit; {
		s.measure()
		wanted := s.mostWanted()
		if wanted < 0 {
			return nil
		}
		s.add(wanted)
		for {
			if err := s.minimise(); err != nil {
				return err
			}
			at, share := s.block()
			if at < 0 {
				copy(s.load, s.trial)
				break
			}
			for _, k := range s.free {
				s.load[k] += share * (s.trial[k] - s.load[k])
			}
			s.free = append(s.free[:at], s.free[at+1:]...)
		}
	}
	s.measure()
	return nil
}

// add lets station k carry load.
func (s *Solver) add(k int) {
	s.free = append(s.free, k)
	for i := len(s.free) - 1; i > 0 && s.free[i-1] > s.free[i]; i-- {
		s.free[i-1], s.free[i] = s.free[i], s.free[i-1]
	}
}

// block returns where in the free set the first load reaches zero on the way from load to trial and which share of
// the way that is; -1 when all the way is open.
func (s *Solver) block() (at int, share float64) {
	at, share = -1, 1
	for i, k := range s.free {
		if s.trial[k] >= 0 {
			continue
		}
		if t := s.load[k] / (s.load[k] - s.trial[k]); t < share {
			at, share = i, t
		}
	}
	return at, share
}

// mostWanted is the station outside the free set whose flanks overlap most, -1 if none do.
func (s *Solver) mostWanted() int {
	wanted, least, f := -1, 0.0, 0
	for k := range s.n {
		if f < len(s.free) && s.free[f] == k {
			f++
			continue
		}
		if s.slack[k] < -rounding*s.size[k] && s.slack[k] < least {
			wanted, least = k, s.slack[k]
		}
	}
	return wanted
}

// minimise finds the load of least energy on the free stations, whatever its sign, and the approach of each mesh.
func (s *Solver) minimise() error {
	if err := s.factorise(); err != nil {
		return err
	}
	s.respond(s.gap, s.force, s.trial)
	return nil
}

// factorise readies the free stations for respond, A = C + D = L Lᵀ, V = L⁻¹ B, and Vᵀ V.
func (s *Solver) factorise() error {
	s.steps++
	p, meshes := len(s.free), len(s.force)
	a := blas64.Symmetric{Uplo: blas.Lower, N: p, Stride: p, Data: s.factor[:p*p]}
	for i, k := range s.free {
		row := a.Data[i*p : i*p+i+1]
		if s.compliance == nil {
			clear(row)
		} else {
			c := s.compliance[k*s.n : k*s.n+s.n]
			for j := range row {
				row[j] = c[s.free[j]]
			}
		}
		row[i] += s.spring[k]
	}
	l, ok := lapack64.Potrf(a)
	if !ok {
		return errors.New("the compliance of shafts and teeth together is not positive definite: some loads would release energy; build it from one load vector that both loads and reads")
	}
	s.column = s.column[:(meshes+1)*p]
	clear(s.column[:meshes*p])
	for i, k := range s.free {
		s.column[s.owner[k]*p+i] = 1
	}
	for m := range meshes {
		blas64.Trsv(blas.NoTrans, l, s.row(m))
	}
	b := blas64.Symmetric{Uplo: blas.Lower, N: meshes, Stride: meshes, Data: s.schur}
	for m := range meshes {
		for j := range m + 1 {
			s.schur[m*meshes+j] = blas64.Dot(s.row(m), s.row(j))
		}
	}
	if _, ok = lapack64.Potrf(b); !ok {
		return errApart
	}
	return nil
}

// row is one of the vectors over the free stations: V of each mesh, then one for answer.
func (s *Solver) row(m int) blas64.Vector {
	p := len(s.free)
	return blas64.Vector{N: p, Inc: 1, Data: s.column[m*p : m*p+p]}
}

// settle solves (Vᵀ V) x = x.
func (s *Solver) settle(x []float64) {
	meshes := len(s.force)
	root := blas64.Triangular{Uplo: blas.Lower, Diag: blas.NonUnit, N: meshes, Stride: meshes, Data: s.schur}
	v := blas64.Vector{N: meshes, Inc: 1, Data: x}
	blas64.Trsv(blas.NoTrans, root, v)
	blas64.Trsv(blas.Trans, root, v)
}

// respond fills load, whatever its sign, and level with what gaps and forces ask of the free stations that were factorised, and spreads in the same way what rounding leaves out of the forces on very soft shafts.
func (s *Solver) respond(gap, force, load []float64) {
	s.answer(gap, force, load)
	copy(s.missing, force)
	for _, k := range s.free {
		s.missing[s.owner[k]] -= load[k]
	}
	s.settle(s.missing)
	rest := s.row(len(s.force))
	clear(rest.Data)
	for m, x := range s.missing {
		blas64.Axpy(x, s.row(m), rest)
		s.level[m] += x
	}
	blas64.Trsv(blas.Trans, s.lower(), rest)
	for i, k := range s.free {
		load[k] += rest.Data[i]
	}
}

// lower is the factor L of the free stations.
func (s *Solver) lower() blas64.Triangular {
	p := len(s.free)
	return blas64.Triangular{Uplo: blas.Lower, Diag: blas.NonUnit, N: p, Stride: p, Data: s.factor[:p*p]}
}

// answer is respond without that.
//
//	A w + g = B δ,  Bᵀ w = F
//	v = L⁻¹ g;  (Vᵀ V) δ = F + Vᵀ v;  w = L⁻ᵀ (V δ − v)
func (s *Solver) answer(gap, force, load []float64) {
	meshes := len(s.force)
	l, g := s.lower(), s.row(meshes)
	for i, k := range s.free {
		g.Data[i] = gap[k]
	}
	blas64.Trsv(blas.NoTrans, l, g)
	for m := range meshes {
		s.level[m] = force[m] + blas64.Dot(s.row(m), g)
	}
	s.settle(s.level)
	blas64.Scal(-1, g)
	for m := range meshes {
		blas64.Axpy(s.level[m], s.row(m), g)
	}
	blas64.Trsv(blas.Trans, l, g)
	clear(load)
	for i, k := range s.free {
		load[k] = g.Data[i]
	}
}

// measure works out slack and size from load and level.
func (s *Solver) measure() {
	for k := range s.n {
		level := s.level[s.owner[k]]
		own := s.spring[k] * s.load[k]
		sum, size := own+s.gap[k]-level, math.Abs(own)+math.Abs(s.gap[k])+math.Abs(level)
		if s.compliance != nil {
			for j, c := range s.compliance[k*s.n : k*s.n+s.n] {
				u := c * s.load[j]
				sum += u
				size += math.Abs(u)
			}
		}
		s.slack[k], s.size[k] = sum, size
	}
}

// residual is how far a solution misses its conditions.
type residual struct {
	contact, overlap float64 // mm over the sum of the sizes of the terms
	force, pull      float64 // N over the force of the mesh
}

func (r residual) worst() float64 { return max(r.contact, r.overlap, r.force, r.pull) }

func (r residual) explain() error {
	what := "loaded flanks don't stay together"
	switch r.worst() {
	case r.overlap:
		what = "unloaded flanks overlap"
	case r.force:
		what = "the loads don't add up to the force of the mesh"
	case r.pull:
		what = "a load pulls"
	}
	return fmt.Errorf("no reliable spread of load was found: %s by %.2g of the terms, %.0e is accepted; compliance, mesh stiffness, gap and force are too many powers of ten apart, check their units", what, r.worst(), accepted)
}

// residual is taken from load, level and slack as they stand.
func (s *Solver) residual() residual {
	var r residual
	for m, f := range s.force {
		sum := 0.0
		for k := s.first[m]; k < s.first[m+1]; k++ {
			sum += s.load[k]
			r.pull = max(r.pull, -s.load[k]/f)
			if miss := s.slack[k] / s.size[k]; s.load[k] > 0 {
				r.contact = max(r.contact, math.Abs(miss))
			} else {
				r.overlap = max(r.overlap, -miss)
			}
		}
		r.force = max(r.force, math.Abs(sum-f)/f)
	}
	return r
}

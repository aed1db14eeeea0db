package faceload

import (
	"math"

	"gonum.org/v1/gonum/blas/blas64"
)

// whole is what a family does while all stations carry. Contact sets in which few stations don't carry follow from it. To part the flanks at a station by λ works like a gap of −λ, so with Z the stations
// that don't carry
//
//	(C + D) w + g = B δ + λ,  Bᵀ w = F,  w = 0 in Z, λ = 0 elsewhere
//	w = w° + H λ,  δ = δ° + T λ,  H_ZZ λ_Z = −w°_Z
//
// with w°, δ° where all carry. Column k of H and T is what a gap of −1 at station k alone does; H is symmetric, never negative, and positive as long as each mesh keeps a station.
type whole struct {
	solver  Solver      // with all stations factorised
	set     *Set        // w° and δ°
	parting [][]float64 // columns of H with those of T after them; nil = not asked for yet
}

// few is the share of the stations that may part for a set to be made from the whole. Beyond it those that carry are fewer.
const few = 0.5

// doubtful is how small a pivot of H_ZZ may be over its largest entry. Below, digits are lost, and the set is worked out on its own.
const doubtful = 1e-6

// parted works out a set from the whole; it is not ok where digits would be lost.
func (w *whole) parted(r *Set, open []int) (ok bool) {
	n, z := len(r.Carries), len(open)
	s := &w.solver
	s.corner, s.apart = resize(s.corner, z*z), resize(s.apart, z)
	most := 0.0
	for _, k := range open {
		if w.parting[k] == nil {
			w.part(k)
		}
		most = max(most, w.parting[k][k])
	}
	for i, k := range open { // H_ZZ = L Lᵀ
		row := s.corner[i*z : i*z+i+1]
		for j, q := range open[:i+1] {
			sum := w.parting[k][q]
			for c, x := range s.corner[j*z : j*z+j] {
				sum -= row[c] * x
			}
			if j < i {
				row[j] = sum / s.corner[j*z+j]
				continue
			}
			if !(sum > doubtful*most) {
				return false
			}
			row[j] = math.Sqrt(sum)
		}
	}
	for i, state := range r.State {
		copy(state, w.set.State[i])
		copy(r.Approach[i], w.set.Approach[i])
		for a, k := range open {
			sum := -state[k]
			for c, x := range s.apart[:a] {
				sum -= s.corner[a*z+c] * x
			}
			s.apart[a] = sum / s.corner[a*z+a]
		}
		for a := z - 1; a >= 0; a-- {
			s.apart[a] /= s.corner[a*z+a]
			for c := range a {
				s.apart[c] -= s.corner[a*z+c] * s.apart[a]
			}
		}
		for a, k := range open {
			column := w.parting[k]
			blas64.Axpy(s.apart[a], blas64.Vector{N: n, Inc: 1, Data: column[:n]}, blas64.Vector{N: n, Inc: 1, Data: state})
			for m, t := range column[n:] {
				r.Approach[i][m] += s.apart[a] * t
			}
		}
		for a, k := range open {
			state[k] = s.apart[a]
		}
	}
	return true
}

// part works out what it does to part the flanks at a station.
func (w *whole) part(k int) {
	s := &w.solver
	gap, none := make([]float64, s.n), make([]float64, len(s.force))
	gap[k] = -1
	column := make([]float64, s.n+len(s.force))
	s.respond(gap, none, column[:s.n])
	copy(column[s.n:], s.level)
	w.parting[k] = column
}

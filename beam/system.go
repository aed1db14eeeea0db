package beam

import (
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// system is a small set of linear equations, factorised. It is not changed by
// solving.
type system struct {
	lu    blas64.General
	pivot []int
}

// factorise takes over a, a matrix of order n stored by rows. It says whether
// the matrix could be factorised.
func factorise(a []float64, n int) (*system, bool) {
	s := &system{lu: blas64.General{Rows: n, Cols: n, Stride: n, Data: a}, pivot: make([]int, n)}
	return s, lapack64.Getrf(s.lu, s.pivot)
}

// order is the number of unknowns.
func (s *system) order() int { return s.lu.Rows }

// solve overwrites b, the right-hand sides side by side, with the solutions.
func (s *system) solve(b []float64) {
	cols := len(b) / s.lu.Rows
	lapack64.Getrs(blas.NoTrans, s.lu, blas64.General{Rows: s.lu.Rows, Cols: cols, Stride: cols, Data: b}, s.pivot)
}

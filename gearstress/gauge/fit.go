package gauge

import (
	"math"
	"slices"
)

// row is one reading as a function of the unknowns.
type row struct {
	value, sigma float64 // as read, and its standard uncertainty
	of           []int   // the unknowns it depends on
	f            func(v []float64) float64
}

func (r row) misfit(v []float64) float64 { return (r.value - r.f(v)) / r.sigma }

// fit is the point at which the readings are met best.
type fit struct {
	v      []float64   // the unknowns
	spread [][]float64 // their covariance; zero for unknowns that are held
	square float64     // sum of the squared misfits
	loose  []int       // unknowns that the readings do not fix; spread is nil then
}

// solve meets rows by the free ones of the unknowns, starting at v: least squares by Gauss and Newton, damped as
// Levenberg and Marquardt do. Each unknown is counted in units of
// its scale.
func solve(rows []row, v, scale []float64, free []int) fit {
	v = slices.Clone(v)
	square := total(rows, v)
	damping := 1e-3
	for range 200 {
		a, b := normal(rows, v, scale, free)
		better := false
		for range 25 {
			step, ok := solveDamped(a, b, damping)
			if !ok {
				damping = max(10*damping, 1e-12)
				continue
			}
			next := slices.Clone(v)
			size := 0.0
			for i, k := range free {
				next[k] += step[i] * scale[k]
				size = max(size, math.Abs(step[i]))
			}
			if now := total(rows, next); now < square || size < 1e-13 && now <= square {
				done := size < 1e-13
				v, square, better = next, now, !done
				damping /= 30
				break
			}
			if size < 1e-14 {
				break
			}
			damping = max(10*damping, 1e-12)
		}
		if !better {
			break
		}
	}
	r := fit{v: v, square: square}
	a, _ := normal(rows, v, scale, free)
	inverse, loose := invert(a)
	for _, i := range loose {
		r.loose = append(r.loose, free[i])
	}
	if len(r.loose) > 0 {
		return r
	}
	r.spread = make([][]float64, len(v))
	for i := range r.spread {
		r.spread[i] = make([]float64, len(v))
	}
	for i, k := range free {
		for j, l := range free {
			r.spread[k][l] = inverse[i][j] * scale[k] * scale[l]
		}
	}
	return r
}

// total is the sum of the squared misfits; ∞ where a reading is impossible.
func total(rows []row, v []float64) float64 {
	sum := 0.0
	for _, r := range rows {
		m := r.misfit(v)
		sum += m * m
	}
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return sum
}

// slope is how f grows with unknown k, by central differences.
func slope(f func(v []float64) float64, v []float64, k int, scale float64) float64 {
	h := 1e-6 * scale
	at := v[k]
	v[k] = at + h
	up := f(v)
	v[k] = at - h
	down := f(v)
	v[k] = at
	return (up - down) / (2 * h)
}

// normal is JᵀJ and Jᵀr of the weighted rows, by the scaled free unknowns.
func normal(rows []row, v, scale []float64, free []int) (a [][]float64, b []float64) {
	a, b = make([][]float64, len(free)), make([]float64, len(free))
	for i := range a {
		a[i] = make([]float64, len(free))
	}
	place := map[int]int{}
	for i, k := range free {
		place[k] = i
	}
	work := slices.Clone(v)
	for _, r := range rows {
		miss := r.misfit(v)
		var at []int
		var by []float64
		for _, k := range r.of {
			if i, ok := place[k]; ok {
				at, by = append(at, i), append(by, slope(r.f, work, k, scale[k])*scale[k]/r.sigma)
			}
		}
		for i, ki := range at {
			b[ki] += by[i] * miss
			for j, kj := range at {
				a[ki][kj] += by[i] * by[j]
			}
		}
	}
	return a, b
}

// solveDamped solves (a + damping·diag a) x = b by Cholesky's method.
func solveDamped(a [][]float64, b []float64, damping float64) (x []float64, ok bool) {
	n := len(b)
	l := make([][]float64, n)
	for i := range l {
		l[i] = slices.Clone(a[i])
		l[i][i] *= 1 + damping
		if l[i][i] == 0 {
			l[i][i] = 1 // an unknown that nothing depends on stays where it is
		}
	}
	for i := range n {
		for j := range i + 1 {
			sum := l[i][j]
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			if i == j {
				if !(sum > 0) {
					return nil, false
				}
				l[i][i] = math.Sqrt(sum)
			} else {
				l[i][j] = sum / l[j][j]
			}
		}
	}
	x = slices.Clone(b)
	substitute(l, x)
	return x, true
}

// substitute solves l lᵀ x = b in place of b, with l a lower triangle.
func substitute(l [][]float64, x []float64) {
	for i := range x {
		for k := range i {
			x[i] -= l[i][k] * x[k]
		}
		x[i] /= l[i][i]
	}
	for i := len(x) - 1; i >= 0; i-- {
		for k := i + 1; k < len(x); k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
}

// fixed is how much of the information on an unknown must be left when the others are allowed to move, as a share;
// less is rounding, and the unknown isn't fixed.
const fixed = 1e-11

// invert inverts a symmetric matrix; loose are the unknowns that it doesn't fix, and then there is no inverse.
func invert(a [][]float64) (inverse [][]float64, loose []int) {
	n := len(a)
	unit := make([]float64, n)
	l := make([][]float64, n)
	for i := range n {
		unit[i] = math.Sqrt(a[i][i])
		l[i] = make([]float64, n)
	}
	for i := range n {
		if !(unit[i] > 0) {
			loose = append(loose, i)
			continue
		}
		for j := range i + 1 {
			if slices.Contains(loose, j) {
				continue
			}
			sum := a[i][j] / (unit[i] * unit[j])
			for k := range j {
				sum -= l[i][k] * l[j][k]
			}
			switch {
			case i != j:
				l[i][j] = sum / l[j][j]
			case sum > fixed:
				l[i][i] = math.Sqrt(sum)
			default:
				loose = append(loose, i)
			}
		}
	}
	if len(loose) > 0 {
		return nil, loose
	}
	inverse = make([][]float64, n)
	for c := range n {
		x := make([]float64, n)
		x[c] = 1
		substitute(l, x)
		inverse[c] = x
	}
	for i := range n {
		for j := range n {
			inverse[i][j] /= unit[i] * unit[j]
		}
	}
	return inverse, nil
}

// wide is how many standard uncertainties a ± is: 95 of 100 cases lie within.
const wide = 1.959964

// value is a function of the unknowns at the fit with its ±, by linear propagation.
func (r fit) value(f func(v []float64) float64, of []int, scale []float64) Value {
	work := slices.Clone(r.v)
	slopes := make([]float64, len(of))
	for i, k := range of {
		slopes[i] = slope(f, work, k, scale[k])
	}
	sum := 0.0
	for i, k := range of {
		for j, l := range of {
			sum += slopes[i] * slopes[j] * r.spread[k][l]
		}
	}
	return Value{f(r.v), wide * math.Sqrt(max(0, sum))}
}

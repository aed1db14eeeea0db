package bearing

import (
	"errors"
	"math"
)

// errNoBalance says that no displacement found carries the load.
var errNoBalance = errors.New("no balance")

// place is where a row rests, with what it gives back and its tangent stiffness there.
type place struct {
	q vector
	answer
	tangent matrix
}

// balance finds the displacement at which the row carries the force f, moving from start in the
// directions that are free and holding the others.
//
// The potential is convex, so this is Newton's method with a search along each step: the slope of
// the potential along the step never falls, and a step is taken as far as it is about zero. Where
// nothing touches the stiffness is zero; springs too soft to matter (10⁻¹³ of the row's own) make
// that case definite. Whether they carry anything worth naming is checked at the end.
func (r *row) balance(f, start vector, free [5]bool) (place, error) {
	// Tilts times half the pitch diameter are lengths like the others.
	scale := vector{1, 1, 1, 2 / r.Pitch, 2 / r.Pitch}
	var size, way float64
	for i := range f {
		if free[i] {
			size = math.Hypot(size, f[i]*scale[i])
			way = math.Hypot(way, start[i]/scale[i])
		}
	}
	q := start
	var h matrix
	soft := 1e-13 * size / (way + math.Abs(r.Clearance) + r.touch(size))

	// residual is what is missing along each free direction, in N, with the soft springs.
	var a answer
	residual := func(q vector, h *matrix) (g vector) {
		a = r.state(q, h)
		for i := range g {
			if free[i] {
				g[i] = (a.force[i]-f[i])*scale[i] + soft*q[i]/scale[i]
			}
		}
		return g
	}
	g := residual(q, &h)
	for range 200 {
		var m matrix
		var trace, far float64
		for i := range 5 {
			for j := range 5 {
				if free[i] && free[j] {
					m[i][j] = h[i][j] * scale[i] * scale[j]
				}
			}
			trace += m[i][i]
			far = max(far, math.Abs(q[i]/scale[i]))
		}
		// No force can be had finer than the last digits of the displacement and of the sums.
		noise := 1e-15 * (trace*far + 10*a.total)
		if norm(g) <= 1e-9*size+noise {
			return place{q, a, h}, carried(a, f, scale, free, size, noise)
		}
		for i := range 5 {
			if free[i] {
				// One element alone is stiff along its line of contact and nothing across it:
				// without the second term that would be lost in the digits.
				m[i][i] += soft + 1e-12*trace
			} else {
				m[i][i] = 1
			}
		}
		p, ok := m.solve(g)
		if !ok {
			break
		}
		// slope0 < 0 is the slope of the potential along the step, at its foot.
		slope0 := -dot(p, g)
		t := 1.0
		next := q
		for range 60 {
			for i := range q {
				next[i] = q[i] - t*p[i]*scale[i]
			}
			g = residual(next, &h)
			slope := -dot(p, g)
			if slope <= -0.5*slope0 {
				break
			}
			// Too far: the false position, but never less than a tenth at once.
			t *= max(0.1, slope0/(slope0-slope))
		}
		if next == q {
			// The step is lost in the last digit: this is as near as it gets.
			return place{q, a, h}, carried(a, f, scale, free, size, noise)
		}
		q = next
	}
	return place{}, errNoBalance
}

// carried says whether the elements themselves, without the soft springs, carry the force.
func carried(a answer, f, scale vector, free [5]bool, size, noise float64) error {
	var miss float64
	for i := range f {
		if free[i] {
			miss = math.Hypot(miss, (a.force[i]-f[i])*scale[i])
		}
	}
	if miss > 1e-6*size+100*noise {
		return errNoBalance
	}
	return nil
}

// norm is the length of g, also where its square would be lost below the smallest number.
func norm(g vector) (n float64) {
	for _, x := range g {
		n = math.Hypot(n, x)
	}
	return n
}

// touch is about how far the rings close under a force in N: the approach of the heaviest element
// of a half loaded row, mm.
func (r *row) touch(force float64) float64 {
	return math.Pow(4.2*force/(float64(r.Count)*r.factor), 1/r.Kind.exponent())
}

// solve returns m⁻¹ g by Cholesky's method, and whether m is positive definite.
func (m *matrix) solve(g vector) (vector, bool) {
	var l matrix
	for j := range 5 {
		d := m[j][j]
		for k := range j {
			d -= l[j][k] * l[j][k]
		}
		if !(d > 0) {
			return g, false
		}
		l[j][j] = math.Sqrt(d)
		for i := j + 1; i < 5; i++ {
			s := m[i][j]
			for k := range j {
				s -= l[i][k] * l[j][k]
			}
			l[i][j] = s / l[j][j]
		}
	}
	for i := range 5 {
		for k := range i {
			g[i] -= l[i][k] * g[k]
		}
		g[i] /= l[i][i]
	}
	for i := 4; i >= 0; i-- {
		for k := i + 1; k < 5; k++ {
			g[i] -= l[k][i] * g[k]
		}
		g[i] /= l[i][i]
	}
	return g, true
}

// root finds where the rising function f passes zero between low (f ≤ 0) and high (f ≥ 0), to the
// last digits or to within small of zero: the false position with the weight of a standing end
// halved (Illinois), and a halving wherever that is slow.
func root(f func(float64) float64, low, high, small float64) float64 {
	fl, fh := f(low), f(high)
	if fl >= 0 {
		return low
	}
	side := 0
	for i := range 200 {
		width := high - low
		x := high - fh*width/(fh-fl)
		if i%4 == 3 || !(x > low && x < high) {
			x = low + width/2
		}
		fx := f(x)
		if math.Abs(fx) <= small || x == low || x == high {
			return x
		}
		if fx < 0 {
			low, fl = x, fx
			if side < 0 {
				fh /= 2
			}
			side = -1
		} else {
			high, fh = x, fx
			if side > 0 {
				fl /= 2
			}
			side = 1
		}
	}
	return low + (high-low)/2
}

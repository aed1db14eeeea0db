package beam

import "slices"

// Influence holds how a shaft on its supports moves at some places under unit
// loads at the same places. Shafts and supports are round, so it serves both
// planes. The matrices are stored by rows: with n places the motion at place i
// under the load at place j is element i×n + j.
//
// The slope is the rotation ψ of the section, and the couple is the one that
// turns it the positive way: Mz in plane xy, −My in plane xz. Forces are along
// +y or +z, torques about +x.
type Influence struct {
	X  []float64 // the places, mm from the left end
	VV []float64 // deflection per force, mm/N; symmetric
	// VS is the deflection at i per couple at j, 1/N. Its transpose is the
	// slope at i per force at j (Maxwell's theorem).
	VS []float64
	SS []float64 // slope per couple, rad/(N·mm); symmetric
	// TT is the twist per torque with the left end of the shaft held,
	// rad/(N·mm); symmetric. For torques that balance the twists add up to
	// those of a Solution.
	TT []float64

	points []clamped
	// Rows of 2n elements, one for each equation of the supports: the right
	// side and the solution for a force at each place, then for a couple.
	right, solution []float64
	factors         []float64
}

// Influence works out the influences between the places x, in mm and in any
// order, each kept to the shaft. It overwrites and returns reuse, and allocates
// nothing if that has held as many places before; with nil it makes a new one.
//
// The influences of the shaft clamped at its left end are known in closed form
// from the integrals of compliance up to the place nearer the clamp. What the
// supports undo is a product of matrices as narrow as the supports are few.
func (m *Model) Influence(x []float64, reuse *Influence) *Influence {
	f := reuse
	if f == nil {
		f = new(Influence)
	}
	n := len(x)
	f.X = resized(f.X, n)
	f.points = resized(f.points, n)
	for i, v := range x {
		f.points[i] = m.clampedAt(m.snap(v))
		f.X[i] = f.points[i].x
	}
	f.VV, f.VS, f.SS, f.TT = resized(f.VV, n*n), resized(f.VS, n*n), resized(f.SS, n*n), resized(f.TT, n*n)
	f.clamp()
	f.support(m)
	for i := range n {
		for j := range i {
			f.VV[j*n+i], f.SS[j*n+i], f.TT[j*n+i] = f.VV[i*n+j], f.SS[i*n+j], f.TT[i*n+j]
		}
	}
	return f
}

// resized is s with n elements of any value, in the same memory if that will
// do.
func resized[T any](s []T, n int) []T { return slices.Grow(s[:0], n)[:n] }

// clamp writes the influences of the shaft clamped at its left end; of the
// symmetric ones only what is left of the diagonal and the diagonal.
func (f *Influence) clamp() {
	n := len(f.points)
	for i := range n {
		vv, ss, tt := f.VV[i*n:][:i+1], f.SS[i*n:][:i+1], f.TT[i*n:][:i+1]
		for j := range i + 1 {
			near, far := j, i
			if f.points[near].x > f.points[far].x {
				near, far = far, near
			}
			p, q := &f.points[near], &f.points[far]
			vv[j], ss[j], tt[j] = forceForce(p, q), coupleCouple(p, q), p.t0
			f.VS[near*n+far], f.VS[far*n+near] = forceCouple(p, q), forceCouple(q, p)
		}
	}
}

// support takes off what the supports undo.
func (f *Influence) support(m *Model) {
	n, order := len(f.points), m.lateral.order()
	f.right = resized(f.right, 2*n*order)
	for l := range m.ties {
		row := f.right[2*n*l:][:2*n]
		for j := range f.points {
			row[j], row[n+j] = m.motion(&m.ties[l], &f.points[j])
		}
	}
	shift, tilt := f.right[2*n*(order-2):][:2*n], f.right[2*n*(order-1):]
	for j := range f.points {
		shift[j], shift[n+j] = 1, 0
		tilt[j], tilt[n+j] = f.points[j].x/m.length, 1/m.length
	}
	f.solution = append(f.solution[:0], f.right...)
	m.lateral.solve(f.solution)
	f.factors = resized(f.factors, 2*order)
	force, couple := f.factors[:order], f.factors[order:]
	for i := range n {
		for l := range order {
			force[l], couple[l] = -m.tip*f.right[2*n*l+i], -m.tip*f.right[2*n*l+n+i]
		}
		addRows(f.VV[i*n:][:i+1], force, f.solution, 2*n)
		addRows(f.VS[i*n:][:n], force, f.solution[n:], 2*n)
		addRows(f.SS[i*n:][:i+1], couple, f.solution[n:], 2*n)
	}
}

// addRows adds to a the rows of b, each times its k. Of a row only as many
// elements count as a has. Four rows at once spare most of the traffic.
func addRows(a, k, b []float64, stride int) {
	n := len(a)
	row := func(l int) []float64 { return b[l*stride:][:n] }
	l := 0
	for ; l+4 <= len(k); l += 4 {
		k0, k1, k2, k3 := k[l], k[l+1], k[l+2], k[l+3]
		b0, b1, b2, b3 := row(l), row(l+1), row(l+2), row(l+3)
		for i := range a {
			a[i] += k0*b0[i] + k1*b1[i] + (k2*b2[i] + k3*b3[i])
		}
	}
	for ; l < len(k); l++ {
		k0, b0 := k[l], row(l)
		for i := range a {
			a[i] += k0 * b0[i]
		}
	}
}

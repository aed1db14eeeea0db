package beam

// Beside is the internal forces under the case solved last on both sides of x, mm; no motions. They are summed from the
// nearer end, so that what carries nothing shows nothing.
func (r *Recurring) Beside(x float64) (left, right State) {
	m := r.model
	x = m.kept(x)
	tol := m.length * coincident
	// What acts within rounding of x acts at x: on its right side it counts, on its left it doesn't.
	var state State
	var none action
	at := func(i int, sign float64) {
		state.advanceForces(r.stops[i]-state.X, &none)
		state.pass(&r.actions[i], sign)
	}
	here := func() State {
		s := state
		s.advanceForces(x-s.X, &none)
		return s
	}
	if x < m.length/2 {
		i := 0
		for ; i < len(r.stops) && r.stops[i] <= x-tol; i++ {
			at(i, 1)
		}
		left = here()
		for ; i < len(r.stops) && r.stops[i] <= x+tol; i++ {
			at(i, 1)
		}
		return left, here()
	}
	state.X = m.length
	i := len(r.stops) - 1
	for ; i >= 0 && r.stops[i] > x+tol; i-- {
		at(i, -1)
	}
	right = here()
	for ; i >= 0 && r.stops[i] > x-tol; i-- {
		at(i, -1)
	}
	return here(), right
}

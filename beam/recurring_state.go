package beam

// At is the internal forces under the case solved last at x, mm, on one side of it; no motions. They are summed from the
// nearer end, so that what carries nothing shows nothing.
func (r *Recurring) At(x float64, side Side) (state State) {
	m := r.model
	x = m.kept(x)
	tol := m.length * coincident
	// What acts within rounding of x acts at x: on its right side it counts, on its left it doesn't.
	edge := x - tol
	if side == Right {
		edge = x + tol
	}
	var none action
	if x < m.length/2 {
		for i := 0; i < len(r.stops) && r.stops[i] <= edge; i++ {
			state.advanceForces(r.stops[i]-state.X, &none)
			state.pass(&r.actions[i], 1)
		}
		state.advanceForces(x-state.X, &none)
		return state
	}
	state.X = m.length
	for i := len(r.stops) - 1; i >= 0 && r.stops[i] > edge; i-- {
		state.advanceForces(r.stops[i]-state.X, &none)
		state.pass(&r.actions[i], -1)
	}
	state.advanceForces(x-state.X, &none)
	return state
}

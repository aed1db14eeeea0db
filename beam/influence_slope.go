package beam

// Slopes writes the slope to report (Solution.Slope) at place i per force, rad/N,
// and per couple, rad/(N·mm), at every place. m is the model that the influence
// was worked out of.
//
// It is the rotation ψ and what it lacks, which goes with the shear just left and
// right of the place: the sum of the forces left of it, loads and reactions.
func (f *Influence) Slopes(m *Model, i int, perForce, perCouple []float64) {
	n := len(f.X)
	for j := range n {
		perForce[j], perCouple[j] = f.VS[j*n+i], f.SS[i*n+j]
	}
	x := f.points[i].x
	left, right := m.lacks(x)
	if left == 0 && right == 0 {
		return
	}
	// weight is how much of a force at a place counts.
	weight := func(at float64) (w float64) {
		if at < x {
			w = left
		}
		if at <= x {
			w += right
		}
		return w / 2
	}
	for j := range n {
		perForce[j] += weight(f.points[j].x)
	}
	for l := range m.ties {
		t := &m.ties[l]
		if t.couple {
			continue
		}
		w := weight(t.at.x)
		if t.spread {
			w = (w + weight(t.other.x)) / 2
		}
		if w == 0 {
			continue
		}
		w *= m.lever(t)
		row := f.solution[2*n*l:][:2*n]
		for j := range n {
			perForce[j] -= w * row[j]
			perCouple[j] -= w * row[n+j]
		}
	}
}

// lacks is what the slope to report has over ψ per shear force just left and just
// right of a place, rad/N.
func (m *Model) lacks(x float64) (left, right float64) {
	for k := range m.spans {
		if m.nodes[k] < x && x <= m.nodes[k+1] {
			left = m.lack(&m.spans[k])
		}
		if m.nodes[k] <= x && x < m.nodes[k+1] {
			right = m.lack(&m.spans[k])
		}
	}
	return left, right
}

// lack is that in a piece.
func (m *Model) lack(g *give) float64 {
	c := m.shaft.Sections[g.section]
	ratio := c.Bore / c.Outer
	return g.shear * (m.shaft.shearCoefficient(ratio)/ShearCoefficient(m.shaft.Poisson, ratio) - 1)
}

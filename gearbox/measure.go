package gearbox

import (
	"fmt"
	"math"
)

// measure is what limits look at, of one state. All its numbers stand in one row, so that they can be scaled and interpolated together.
type measure struct {
	all                      []float64
	tilt, separation, factor []float64   // by mesh on the path: rad, mm, K_Hβ
	stress, slope            [][]float64 // by shaft: von Mises of each section, MPa; slope in each bearing, rad
}

// measureOn lays a measure of a speed out over a row of numbers; nil for a new row.
func (v *solver) measureOn(row []float64) *measure {
	b := v.p.box
	m := &measure{stress: make([][]float64, len(b.Shafts)), slope: make([][]float64, len(b.Shafts))}
	count := 3 * len(v.speed.Path)
	for _, i := range v.p.involved(v.speed) {
		count += len(b.Shafts[i].Sections) + len(b.Shafts[i].Bearings)
	}
	if row == nil {
		row = make([]float64, count)
	}
	m.all = row
	take := func(n int) []float64 {
		part := row[:n:n]
		row = row[n:]
		return part
	}
	m.factor, m.tilt, m.separation = take(len(v.speed.Path)), take(len(v.speed.Path)), take(len(v.speed.Path))
	for _, i := range v.p.involved(v.speed) {
		m.stress[i], m.slope[i] = take(len(b.Shafts[i].Sections)), take(len(b.Shafts[i].Bearings))
	}
	return m
}

// of reads a state.
func (v *solver) of(st *state) *measure {
	p := v.p
	m := v.measureOn(nil)
	for i := range st.flow.steps {
		pose := p.pose(st, i)
		m.tilt[i], m.separation[i], m.factor[i] = pose.axes.norm(), math.Abs(pose.separation), st.carried.faces.FaceLoadFactor(i)
	}
	for i, s := range st.solved {
		if s == nil {
			continue
		}
		for j := range m.stress[i] {
			m.stress[i][j] = s.SectionStress(j).VonMises
		}
		for j := range m.slope[i] {
			m.slope[i][j] = p.bearingSlope(st, i, j)
		}
	}
	return m
}

// measure is that of a torque, N·mm. Where all grows with the torque one state tells everything; else it is solved, or, while a limit is still being looked for,
// interpolated between torques that were.
func (v *solver) measure(torque float64) (*measure, error) {
	if m, ok := v.known[torque]; ok {
		return m, nil
	}
	var m *measure
	var err error
	switch base := v.known[v.asked]; {
	case base != nil && v.proportional():
		m = base.scaled(v, torque/v.asked)
	case base != nil && torque > v.far()*(1+1e-9):
		edge, err := v.measure(v.far())
		if err != nil {
			return nil, err
		}
		m = edge.scaled(v, torque/v.far())
	case base != nil && v.edgeBefore(torque) != nil:
		last := v.edgeBefore(torque).torque
		m = v.known[last].scaled(v, torque/last)
	case base == nil || v.p.exact:
		var st *state
		if st, err = v.at(torque); err != nil {
			if base != nil && v.footing != nil && math.Abs(math.Log(torque/v.asked)) > spacing/2 {
				v.stop(torque, err)
				return v.measure(torque)
			}
			return nil, fmt.Errorf("at an input torque of %.4g N·m: %w", torque/1e3, err)
		}
		if torque == v.asked {
			v.first = st
		}
		m = v.of(st)
	default:
		return v.between(torque)
	}
	v.known[torque] = m
	return m, nil
}

func (v *solver) proportional() bool {
	return v.speed.Direct || v.fixed.homogen
}

func (m *measure) scaled(v *solver, f float64) *measure {
	s := v.measureOn(nil)
	for i, x := range m.all {
		s.all[i] = x * f
	}
	copy(s.factor, m.factor)
	return s
}

// spacing is that of the torques between which is interpolated, on a logarithmic scale.
const spacing = 0.15

// cubic is a place between four solved torques, two on either side.
type cubic struct {
	nodes  [4]*measure
	weight [4]float64
}

// around solves the four torques that a torque is interpolated between.
func (v *solver) around(torque float64) (c cubic, err error) {
	u := math.Log(torque/v.asked) / spacing
	first := math.Floor(u) - 1
	v.p.exact = true
	defer func() { v.p.exact = false }()
	for k := range c.nodes {
		at := first + float64(k)
		if c.nodes[k], err = v.measure(v.asked * math.Exp(at*spacing)); err != nil {
			return c, err
		}
		c.weight[k] = 1
		for j := range c.nodes {
			if j != k {
				c.weight[k] *= (u - first - float64(j)) / float64(k-j)
			}
		}
	}
	return c, nil
}

// number interpolates one number of a measure, on a logarithmic scale, where it is all but straight.
func (c *cubic) number(i int) float64 {
	sum, straight := 0.0, 0.0
	for k, n := range c.nodes {
		if n.all[i] <= 0 {
			sum = math.NaN()
		}
		straight += c.weight[k] * n.all[i]
		sum += c.weight[k] * math.Log(n.all[i])
	}
	if math.IsNaN(sum) {
		return max(0, straight)
	}
	return math.Exp(sum)
}

// between interpolates a whole measure.
func (v *solver) between(torque float64) (*measure, error) {
	c, err := v.around(torque)
	if err != nil {
		return nil, err
	}
	m := v.measureOn(nil)
	for i := range m.all {
		m.all[i] = c.number(i)
	}
	return m, nil
}

// factor is K_Hβ of a mesh on the path at a torque; it spares the rest of the measure where nobody asks for it.
func (v *solver) factor(step int, torque float64) (float64, error) {
	_, solved := v.known[torque]
	if solved || v.proportional() || v.known[v.asked] == nil || torque > v.far() {
		m, err := v.measure(torque)
		if err != nil {
			return 0, err
		}
		return m.factor[step], nil
	}
	if v.p.exact {
		return v.exactFactor(step, torque)
	}
	c, err := v.around(torque)
	if err != nil {
		return 0, err
	}
	return c.number(step), nil // factors stand first in the row
}

// exactFactor solves the load along the faces alone where the bearings allow it: shafts need not be bent for it.
func (v *solver) exactFactor(step int, torque float64) (float64, error) {
	if v.footing != nil {
		m, err := v.measure(torque)
		if err != nil {
			return 0, err
		}
		return m.factor[step], nil
	}
	if row, ok := v.factors[torque]; ok {
		return row[step], nil
	}
	r, err := v.fixed.carry(torque/v.asked, nil)
	if err != nil {
		return 0, fmt.Errorf("at an input torque of %.4g N·m: %w", torque/1e3, err)
	}
	row := make([]float64, len(v.speed.Path))
	for i := range row {
		row[i] = r.faces.FaceLoadFactor(i)
	}
	v.factors[torque] = row
	return row[step], nil
}

// far is beyond what torque nothing is solved any more, N·mm.
func (v *solver) far() float64 { return math.Inf(1) }

package gearbox

import (
	"encoding/binary"
	"fmt"
	"math"
)

// Memory keeps the mechanics of speeds for boxes that are solved one after the other, as studies do: contact sets, loads along the faces and balances of bearings that were found in one box serve in the next
// where the speed has the same shafts, bearings, gears and layout. What is found doesn't depend on what was found before, but for rounding on bearings of known elements. It serves one goroutine at a time; the zero value is ready.
type Memory struct {
	trains map[string]*train
	key    []byte
}

// mostTrains is how many speeds are remembered.
const mostTrains = 512

// train is the mechanics of one speed in one layout and one sense of the torque, with all that was found of them: what depends neither on the strength of steels, nor on a duty, nor on what is asked.
type train struct {
	fixed   *coupling // nil for a direct speed
	footing *footing  // of the bearings of known elements; nil when there are none
	edges   edges
	known   map[float64]*measure
	lines   []line           // by shaft: for stresses
	ladders []shelf[*rung]   // by place of the making
	crowded shelf[[]float64] // by rung: the ends to which the meshes' loads clearly lie
	recall  recall
}

// like is the train that was kept of the same mechanics, or the one of this solver, which is kept.
func (m *Memory) like(v *solver) *train {
	m.describe(v)
	if t, ok := m.trains[string(m.key)]; ok {
		return t
	}
	if m.trains == nil || len(m.trains) >= mostTrains {
		m.trains = map[string]*train{} // all at once: which of them will be asked for again isn't known
	}
	m.trains[string(m.key)] = v.train
	return v.train
}

func (m *Memory) numbers(all ...float64) {
	for _, x := range all {
		m.key = binary.LittleEndian.AppendUint64(m.key, math.Float64bits(x))
	}
}

func (m *Memory) counts(all ...int) {
	for _, n := range all {
		m.numbers(float64(n))
	}
}

func (m *Memory) words(all ...string) {
	for _, s := range all {
		m.counts(len(s))
		m.key = append(m.key, s...)
	}
}

// describe writes down all that the mechanics of a speed follow from.
func (m *Memory) describe(v *solver) {
	p, c := v.p, v.fixed
	m.key = m.key[:0]
	m.words(v.speed.Name)
	m.numbers(c.engine)
	m.counts(len(p.lines))
	m.counts(v.shafts...)
	m.counts(p.shaft[p.box.Input.Shaft], p.shaft[p.box.Output.Shaft])
	m.numbers(p.box.Input.At, p.box.Output.At)
	for _, i := range v.shafts {
		m.shaft(p, i)
	}
	for n, st := range c.steps {
		q, f, mesh := &p.pairs[st.mesh], &c.forces[n], &c.problem.Meshes[n]
		m.words(p.box.Meshes[st.mesh].Name)
		m.counts(st.mesh, q.gears[0], q.gears[1], q.shafts[0], q.shafts[1])
		m.numbers(st.torque[0], st.torque[1], f.along[0], f.along[1], f.action[0], f.action[1], mesh.Force, mesh.Stiffness)
		m.numbers(q.from, q.to, q.at[0], q.at[1], q.follow[0], q.follow[1], q.deviation)
	}
	for _, sites := range c.sites {
		for _, a := range sites {
			m.numbers(a.follow, a.hub, a.force[0], a.force[1], a.couple[0], a.couple[1], a.twist, a.axial)
		}
	}
	for k, g := range c.seated {
		l, seat := &c.leaning[k], p.box.Gears[g].Seat
		m.counts(g)
		m.numbers(seat.Length, seat.Clearance, seat.Stiffness, l.force[0], l.force[1], l.couple[0], l.couple[1], l.small, l.face)
	}
	m.numbers(c.initial...)
	m.numbers(c.wound...)
	m.numbers(c.problem.Compliance...)
}

// shaft writes down a shaft on its bearings.
func (m *Memory) shaft(p *prepared, i int) {
	s, line := p.box.Shafts[i], &p.lines[i]
	model := line.model.Shaft()
	m.words(s.Name)
	m.counts(line.pilot, line.in, len(model.Sections), len(s.Bearings))
	m.numbers(model.Young, model.Poisson, line.length)
	for _, sec := range model.Sections {
		m.numbers(sec.Length, sec.Outer, sec.Bore)
	}
	for j, br := range s.Bearings {
		support := model.Supports[j]
		m.words(br.Name)
		m.numbers(support.X, support.Radial, support.Tilt, support.Axial, br.InAt)
		if e := br.Elements; e != nil {
			m.key = fmt.Append(m.key, *e)
		}
	}
	if s.Pair != nil {
		m.key = fmt.Append(m.key, *s.Pair)
	}
	m.counts(boolean(p.method.NoShear), boolean(p.method.NoShoulder), boolean(p.method.NoTwist))
}

func boolean(b bool) int {
	if b {
		return 1
	}
	return 0
}

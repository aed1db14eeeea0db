package gearbox

import (
	"fmt"
	"slices"

	"layshaft/beam"
)

// line is a shaft readied for the stresses of its sections at one torque after the other.
type line struct {
	shaft *beam.Recurring
	loads []beam.Load
	seats []beam.Seat // of its bearings; nil = none moves
}

// stress is the equivalent stress (von Mises) of a section of a shaft, MPa.
func (m *measure) stress(shaft, section int) (float64, error) {
	if err := m.bend(shaft); err != nil {
		return 0, err
	}
	return m.grown * m.bent[shaft][section], nil
}

// bend finds the stresses of the sections of a shaft and what its notches carry, once.
func (m *measure) bend(shaft int) error {
	v := m.solver
	if m.bent == nil {
		m.bent, m.cut, m.put = make([][]float64, len(v.lines)), make([][]cut, len(v.lines)), make([][]beam.Reaction, len(v.lines))
	}
	if m.bent[shaft] != nil {
		return nil
	}
	if err := v.bend(m, shaft); err != nil {
		return fmt.Errorf("at an input torque of %.4g N·m: %s: %w", m.torque/1e3, ShaftTitle(v.p.box.Shafts[shaft].Name), err)
	}
	bent := v.lines[shaft].shaft
	m.bent[shaft] = make([]float64, len(v.p.box.Shafts[shaft].Sections))
	bent.VonMises(m.bent[shaft])
	notches := v.p.lines[shaft].notches
	m.cut[shaft] = make([]cut, len(notches))
	all := make(cut, 0, 2*v.p.lines[shaft].stations)
	for i := range notches {
		from := len(all)
		all = notches[i].cut(bent, all)
		m.cut[shaft][i] = all[from:]
	}
	return nil
}

// reactions are what the bearings put on a shaft.
func (m *measure) reactions(shaft int) ([]beam.Reaction, error) {
	err := m.bend(shaft)
	if err != nil {
		return nil, err
	}
	return m.put[shaft], nil
}

// bend bends one shaft under a measure. The pilot of the shaft that it carries presses on it.
func (v *solver) bend(m *measure, s int) error {
	var press []beam.Load
	for _, i := range v.shafts {
		if line := &v.p.lines[i]; line.pilot >= 0 && line.in == s && m.load != nil {
			reactions, err := v.react(m, i, nil)
			if err != nil {
				return err
			}
			r := reactions[line.pilot]
			press = append(press, beam.Load{X: v.p.box.Shafts[i].Bearings[line.pilot].InAt, Fy: -r.Fy, Fz: -r.Fz})
		}
	}
	reactions, err := v.react(m, s, press)
	if err == nil {
		m.put[s] = slices.Clone(reactions)
	}
	return err
}

// react puts what a shaft carries on it, and more, and finds what its bearings put on it.
func (v *solver) react(m *measure, s int, more []beam.Load) ([]beam.Reaction, error) {
	p, l := v.p, &v.lines[s]
	if l.loads == nil {
		l.loads = v.room(s)
	}
	engine := v.sensed(m.torque)
	l.loads = p.ports(v.speed, s, engine, p.follow(v.speed, engine).output, l.loads[:0])
	if m.load != nil {
		l.loads = v.fixed.loads(s, func(strip int) float64 { return m.load[strip] }, l.loads)
		v.move(m, s)
	}
	l.loads = append(l.loads, more...)
	pair := p.box.Shafts[s].Pair != nil
	if pair {
		l.loads = append(l.loads, p.pairForce(s, 0))
	}
	if l.shaft == nil {
		places := make([]float64, len(l.loads))
		for i := range places {
			places[i] = l.loads[i].X
		}
		l.shaft = p.lines[s].model.Recurring(places)
	}
	reactions, err := l.shaft.Solve(l.loads, l.seats)
	if err != nil || !pair {
		return reactions, err
	}
	last := v.pairLoad(s, reactions, m.rows)
	l.loads[len(l.loads)-1] = last
	if reactions, err = l.shaft.Solve(l.loads, l.seats); err == nil {
		reactions[len(reactions)-1].Fx += last.Fx
	}
	return reactions, err
}

// move moves the seats of a shaft: under bearings of known elements, and that of its pilot.
func (v *solver) move(m *measure, s int) {
	l, pilot := &v.lines[s], v.p.lines[s].pilot
	if v.footing == nil && pilot < 0 {
		return
	}
	if l.seats == nil {
		l.seats = make([]beam.Seat, len(v.p.box.Shafts[s].Bearings))
	}
	clear(l.seats)
	if v.footing != nil {
		for k := range v.footing.mounts {
			if mount := &v.footing.mounts[k]; mount.shaft == s {
				l.seats[mount.bearing] = mount.seat(m.moves)
			}
		}
	}
	if pilot >= 0 {
		moved := v.fixed.answers.pilot[s].under(m.load, m.moves)
		l.seats[pilot].Move[0] += moved[0]
		l.seats[pilot].Move[1] += moved[1]
	}
}

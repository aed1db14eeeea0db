package gearbox

import (
	"math"

	"layshaft/beam"
)

// state is one speed under one torque, with all its parts in balance.
type state struct {
	torque   float64 // asked, > 0, N·mm
	engine   float64 // on the input shaft about +x, N·mm
	flow     flow
	coupling *coupling // nil for a direct speed
	carried  *carried
	models   []*beam.Model
	solved   []*beam.Solution
}

// solver finds the states of one speed in one layout and one sense of the torque. What doesn't depend on the size of the torque it keeps.
type solver struct {
	p       *prepared
	speed   Speed
	layout  layout
	engine  float64   // torque that the sense is taken from, about +x, N·mm
	asked   float64   // its size
	fixed   *coupling // nil for a direct speed
	footing *footing  // of the bearings of known elements; nil when there are none
	edges   [2]*edge  // below and above the asked torque, where bearings find no balance any more; nil = not met
	first   *state
	known   map[float64]*measure
	factors map[float64][]float64 // K_Hβ alone, by mesh on the path
	spots   map[float64]*state    // shown as the pattern grows
}

func (p *prepared) solverFor(s Speed, l layout, torque float64) *solver {
	v := &solver{p: p, speed: s, layout: l, engine: torque * float64(p.box.Turns), asked: math.Abs(torque), known: map[float64]*measure{}, factors: map[float64][]float64{}, spots: map[float64]*state{}}
	if !s.Direct {
		v.fixed = p.couple(p.follow(s, v.engine), v.engine, l, p.models())
		v.fixed.homogen = v.fixed.homogen && !p.springy(p.involved(s))
	}
	return v
}

// models are the shafts on their bearings.
func (p *prepared) models() []*beam.Model {
	models := make([]*beam.Model, len(p.lines))
	for i := range p.lines {
		models[i] = p.lines[i].model
	}
	return models
}

// at is the state at a torque of the given size, N·mm.
func (v *solver) at(torque float64) (*state, error) {
	engine := v.engine * torque / v.asked
	st := &state{torque: torque, engine: engine, flow: v.p.follow(v.speed, engine)}
	st.coupling, st.models = v.fixed, v.p.models()
	if v.fixed == nil {
		return st, v.bend(st, nil)
	}
	if shafts := v.p.involved(v.speed); v.footing == nil && v.p.springy(shafts) {
		var err error
		if v.footing, err = v.p.footing(v.fixed, shafts); err != nil {
			return st, err
		}
	}
	if v.footing != nil {
		return st, v.settle(st)
	}
	var err error
	if st.carried, err = v.fixed.carry(st.scale(), nil); err != nil {
		return st, err
	}
	return st, v.bend(st, nil)
}

// scale is the torque over that which the coupling was made for.
func (st *state) scale() float64 { return math.Abs(st.engine / st.coupling.engine) }

// bend bends the shafts of a state under what is carried, on moved seats.
func (v *solver) bend(st *state, seats [][]beam.Seat) (err error) {
	loads := v.p.ports(v.speed, st)
	if st.coupling != nil {
		st.coupling.loads(st.carried, loads)
	}
	st.solved, err = v.p.bend(st.models, loads, seats)
	return err
}

// ports are the torques that enter and leave, by shaft.
func (p *prepared) ports(s Speed, st *state) [][]beam.Load {
	b := p.box
	loads := make([][]beam.Load, len(b.Shafts))
	in, out := p.shaft[b.Input.Shaft], p.shaft[b.Output.Shaft]
	loads[in] = append(loads[in], beam.Load{X: b.Input.At, Mx: st.engine})
	if s.Direct {
		teeth, hub := b.directHubs()
		loads[in] = append(loads[in], beam.Load{X: teeth, Mx: -st.engine})
		loads[out] = append(loads[out], beam.Load{X: hub, Mx: st.engine})
	}
	loads[out] = append(loads[out], beam.Load{X: b.Output.At, Mx: -st.flow.output})
	return loads
}

// pose is how the two gears of a mesh stand to each other.
type pose struct {
	axes       point   // lean of the driver's axis against the driven gear's, slopes in planes xy and xz, rad
	lean       point   // the same of the gears themselves, with how they lean in their seats
	separation float64 // mm, > 0 opens
}

func (p *prepared) pose(st *state, step int) pose {
	q := &p.pairs[st.flow.steps[step].mesh]
	var moved, axes, leaned [2]point
	for k, s := range q.shafts {
		at := st.solved[s].At(q.at[k], beam.Left)
		moved[k] = point{at.Y.Deflection, at.Z.Deflection}
		axes[k] = point{at.Y.Slope, at.Z.Slope}
		leaned[k] = axes[k].plus(st.carried.leans[q.gears[k]])
	}
	return pose{axes[0].minus(axes[1]), leaned[0].minus(leaned[1]), moved[1].minus(moved[0]).dot(st.coupling.forces[step].along)}
}

// bearingSlope is the slope of a shaft in one of its bearings, in a pilot against the carrier, rad.
func (p *prepared) bearingSlope(st *state, shaft, bearing int) float64 {
	br := p.box.Shafts[shaft].Bearings[bearing]
	at := st.solved[shaft].At(br.At, beam.Left)
	slope := point{at.Y.Slope, at.Z.Slope}
	if line := &p.lines[shaft]; bearing == line.pilot && st.solved[line.in] != nil {
		seat := st.solved[line.in].At(br.InAt, beam.Left)
		slope = slope.minus(point{seat.Y.Slope, seat.Z.Slope})
	}
	return slope.norm()
}

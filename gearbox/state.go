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

// solver finds the states of one speed in one layout and one sense of the torque. What it finds at a torque depends neither on the asked torque nor on what was solved before, but for rounding.
type solver struct {
	p      *prepared
	speed  Speed
	layout layout
	engine float64 // the asked torque about +x, N·mm
	asked  float64 // its size
	shafts []int   // involved
	*train
	profiles map[row]*profile // how what limits look at goes with the torque
}

func (p *prepared) solverFor(s Speed, l layout, torque float64) *solver {
	v := &solver{
		p: p, speed: s, layout: l, engine: torque * float64(p.box.Turns), asked: math.Abs(torque), shafts: p.involved(s), train: &train{known: map[float64]*measure{}, lines: make([]line, len(p.lines))},
	}
	if !s.Direct {
		own := math.Copysign(p.box.Torque, v.engine)
		v.fixed = p.couple(p.follow(s, own), own, l, v.shafts, p.models())
		if p.memory != nil {
			v.train = p.memory.like(v)
		}
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

// ready makes what spreads of the load need, once.
func (v *solver) ready() (err error) {
	if v.fixed == nil || v.fixed.family != nil {
		return nil
	}
	if v.p.springy(v.shafts) {
		if v.footing, err = v.p.footing(v.fixed, v.shafts); err != nil {
			return err
		}
	}
	return v.fixed.makeFamily(v.footing)
}

// find finds how the load lies on the faces at a torque of the given size, N·mm; its memory is used again by the next. nil for a direct speed.
func (v *solver) find(torque float64, as making) (*spread, error) {
	if err := v.ready(); err != nil || v.fixed == nil {
		return nil, err
	}
	scale := torque / math.Abs(v.fixed.engine)
	if v.footing == nil {
		return &v.fixed.now, v.fixed.find(scale, as, nil)
	}
	s, err := v.footing.settle(scale, as)
	if err != nil {
		return nil, err
	}
	return &s.spread, nil
}

// look is find, or what balances nearby say of it while a search only feels its way.
func (v *solver) look(torque float64, as making) (*spread, error) {
	if v.p.rough && v.footing != nil {
		if s, err := v.footing.estimate(torque/math.Abs(v.fixed.engine), as); s != nil && err == nil {
			return s, nil
		}
	}
	return v.find(torque, as)
}

// at is the state at a torque of the given size, N·mm.
func (v *solver) at(torque float64) (*state, error) {
	engine := v.sensed(torque)
	st := &state{torque: torque, engine: engine, flow: v.p.follow(v.speed, engine), coupling: v.fixed, models: v.p.models()}
	load, err := v.find(torque, making{})
	if err != nil {
		return st, err
	}
	var seats [][]beam.Seat
	if load != nil {
		if st.carried, err = v.fixed.carried(load); err != nil {
			return st, err
		}
		if f := v.footing; f != nil {
			seats = v.p.seats(f.mounts, f.shafts, load.at[v.fixed.firstMove:])
		}
	}
	st.solved, err = v.p.bend(st.models, v.loads(st), seats)
	return st, err
}

// loads are those on the shafts, by shaft.
func (v *solver) loads(st *state) [][]beam.Load {
	loads := make([][]beam.Load, len(v.p.lines))
	for _, s := range v.shafts {
		loads[s] = v.p.ports(v.speed, s, st.engine, st.flow.output, v.room(s))
		if st.carried != nil {
			loads[s] = v.fixed.loads(s, st.carried.load, loads[s])
		}
	}
	return loads
}

// room has place for all loads on a shaft.
func (v *solver) room(shaft int) []beam.Load {
	count := 4 // where torque enters and leaves
	if v.fixed != nil {
		count += len(v.fixed.sites[shaft]) * (strips + 1)
	}
	return make([]beam.Load, 0, count)
}

// sensed is a torque of the given size with the sense of the asked one, about +x.
func (v *solver) sensed(torque float64) float64 { return math.Copysign(torque, v.engine) }

// ports adds the torques that enter and leave at a shaft: engine on the input shaft, output at the other end, N·mm about +x.
func (p *prepared) ports(s Speed, shaft int, engine, output float64, loads []beam.Load) []beam.Load {
	b := p.box
	in, out := p.shaft[b.Input.Shaft], p.shaft[b.Output.Shaft]
	teeth, hub := 0.0, 0.0
	if s.Direct {
		teeth, hub = b.directHubs()
	}
	if shaft == in {
		loads = append(loads, beam.Load{X: b.Input.At, Mx: engine})
		if s.Direct {
			loads = append(loads, beam.Load{X: teeth, Mx: -engine})
		}
	}
	if shaft == out {
		if s.Direct {
			loads = append(loads, beam.Load{X: hub, Mx: engine})
		}
		loads = append(loads, beam.Load{X: b.Output.At, Mx: -output})
	}
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
		axes[k] = slopeAt(st.solved[s], q.at[k])
		leaned[k] = axes[k].plus(st.carried.leans[q.gears[k]])
	}
	return pose{axes[0].minus(axes[1]), leaned[0].minus(leaned[1]), moved[1].minus(moved[0]).dot(st.coupling.forces[step].along)}
}

// slopeAt is the slope of a shaft at a place, planes xy and xz, rad.
func slopeAt(s *beam.Solution, x float64) point {
	y, z := s.Slope(x)
	return point{y, z}
}

// bearingSlope is the slope of a shaft in one of its bearings, in a pilot against the carrier, rad.
func (p *prepared) bearingSlope(st *state, shaft, bearing int) float64 {
	br := p.box.Shafts[shaft].Bearings[bearing]
	slope := slopeAt(st.solved[shaft], br.At)
	if line := &p.lines[shaft]; bearing == line.pilot && st.solved[line.in] != nil {
		slope = slope.minus(slopeAt(st.solved[line.in], br.InAt))
	}
	return slope.norm()
}

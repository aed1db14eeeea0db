package gearbox

import (
	"fmt"
	"math"
	"strings"

	"layshaft/beam"
	"layshaft/beam/critical"
	"layshaft/gearbox/quantity"
)

// windUp is the torsional stiffness of the shafts of a speed between input and output, as the input feels it, N·mm/rad; +Inf = nothing of them is
// twisted. Torque enters and leaves each shaft at one place. Teeth, hubs and all that lies beyond the box are left out: behind a short gear they give way
// most.
func (v *solver) windUp(f flow) (float64, error) {
	var springs []critical.Spring
	for _, s := range v.shafts {
		from, to, torque := v.twisted(f, s)
		if torque == 0 {
			continue
		}
		bent, err := v.p.lines[s].model.Solve(beam.Case{Loads: []beam.Load{{X: from, Mx: torque}, {X: to, Mx: -torque}}})
		if err != nil {
			return 0, err
		}
		if twist := bent.At(to, beam.Left).Twist - bent.At(from, beam.Left).Twist; twist != 0 {
			springs = append(springs, critical.Spring{Stiffness: math.Abs(torque / twist), Ratio: 1 / v.turnsOf(s)})
		}
	}
	if len(springs) == 0 {
		return math.Inf(1), nil
	}
	k, _ := critical.WindUp(springs)
	return k, nil
}

// twisted is where torque enters and leaves a shaft on its way, mm from its left end, and how much, N·mm; 0 = none does.
func (v *solver) twisted(f flow, shaft int) (from, to, torque float64) {
	p := v.p
	var places, torques []float64
	enter := func(at, t float64) {
		if t != 0 {
			places, torques = append(places, at), append(torques, t)
		}
	}
	for _, l := range p.ports(v.speed, shaft, v.engine, f.output, nil) {
		enter(l.X, l.Mx)
	}
	for i, step := range f.steps {
		for role, on := range p.pairs[step.mesh].shafts {
			if on == shaft && !f.handsOn(p, i, role) {
				enter(p.torqueAt(f, i, role), -step.torque[role])
			}
		}
	}
	if len(places) != 2 {
		return 0, 0, 0
	}
	return places[0], places[1], torques[0]
}

// windUpNote tells how stiff the shafts are in torsion, by speed; nil where nothing is twisted.
func windUpNote(r *Result) []string {
	var all []string
	for i := range r.Speeds {
		if k := r.Speeds[i].WindUp; k > 0 && !math.IsInf(k, 1) {
			all = append(all, fmt.Sprintf("%s %.3g° (%s)", r.Speeds[i].Name, math.Abs(r.Torque)/k*180/math.Pi, quantity.Format(k, quantity.TiltStiffness, quantity.Metric, 3)))
		}
	}
	if len(all) == 0 {
		return nil
	}
	return []string{"Wind-up of the shafts in the box between input and output, as the input feels it at the asked torque, with their torsional stiffness: " + strings.Join(all, ", ") + ". Teeth, hubs and all beyond the box come on top."}
}

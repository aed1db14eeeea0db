package gearbox

import (
	"math"
	"slices"

	"layshaft/gearbox/quantity"
)

// checkHeld finds shafts that helical gears push along their axis and that nothing holds there. Each is told once, with the speed that pushes it hardest.
func (p *prepared) checkHeld() {
	type push struct {
		force float64 // N
		speed string
	}
	hardest := make([]push, len(p.box.Shafts))
	for i, s := range p.box.Speeds {
		if s.Direct || len(p.layouts[i]) == 0 {
			continue
		}
		for shaft, thrust := range p.thrusts(s, p.layouts[i][0]) {
			if thrust > hardest[shaft].force {
				hardest[shaft] = push{thrust, s.Name}
			}
		}
	}
	for i, s := range p.box.Shafts {
		holds := s.Pair != nil || slices.ContainsFunc(s.Bearings, func(br Bearing) bool { return br.Axial > 0 })
		if hardest[i].force == 0 || holds {
			continue
		}
		p.fault(path("shafts", s.Name, "bearings"), "a shaft that nothing holds along its axis",
			"In %s its helical gears push shaft %q along its axis with %s at %.4g N·m, and none of its bearings holds it there. Give the one that locates it axial: fixed, or two tapered ones that hold it together a pair.",
			hardest[i].speed, s.Name, quantity.Format(hardest[i].force, quantity.Force, quantity.Metric, 3), p.box.Torque/1e3)
	}
}

// thrusts is the force along the axis that is left over on each shaft of a speed at the box's own torque, N; forces that take each other up to rounding leave none.
func (p *prepared) thrusts(s Speed, l layout) []float64 {
	const rounding = 1e-9 // of the largest force, as the beams have it
	sum, largest := make([]float64, len(p.box.Shafts)), make([]float64, len(p.box.Shafts))
	for _, step := range p.follow(s, p.box.Torque*float64(p.box.Turns)).steps {
		axial := p.force(step.mesh, step.torque[0], l).axial
		for k, shaft := range p.pairs[step.mesh].shafts {
			sum[shaft] += [2]float64{axial, -axial}[k]
			largest[shaft] = max(largest[shaft], math.Abs(axial))
		}
	}
	for i := range sum {
		if sum[i] = math.Abs(sum[i]); sum[i] <= rounding*largest[i] {
			sum[i] = 0
		}
	}
	return sum
}

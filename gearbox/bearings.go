package gearbox

import (
	"fmt"
	"math"

	"layshaft/beam"
	"layshaft/beam/bearing"
)

// Rolling bearings whose elements are known grow stiffer with load. Shaft and bearings are solved in turn: springs → shaft → forces in the
// bearings → secant springs at these forces, until the springs stand still. Each secant spring carries its load at the very displacement that the bearing
// has, so what stands still is the solution.

// springy reports whether one of the shafts has a bearing that changes with load.
func (p *prepared) springy(shafts []int) bool {
	for _, i := range shafts {
		for _, br := range p.box.Shafts[i].Bearings {
			if br.Elements != nil {
				return true
			}
		}
	}
	return false
}

// firstGuess is the radial stiffness from which the search starts, N/mm; least is what a bearing is given when its clearance would leave the shaft loose.
const (
	firstGuess = 3e5
	least      = 10
)

// support is a bearing as a spring of the given stiffness in series with the case under it.
func (p *prepared) support(br Bearing, radial, tilt float64) beam.Support {
	return beam.Support{X: br.At, Radial: 1 / (1/radial + 1/p.caseUnder(br)), Tilt: tilt, Axial: br.Axial}
}

// caseUnder is the stiffness of the case under a bearing, N/mm; +Inf when it is rigid, or when the bearing sits in another shaft.
func (p *prepared) caseUnder(br Bearing) float64 {
	switch {
	case br.In != "":
		return math.Inf(1)
	case br.Housing > 0:
		return br.Housing
	case p.housing > 0:
		return p.housing
	}
	return math.Inf(1)
}

// settleBearings finds the state of a speed whose bearings change with load.
func (p *prepared) settleBearings(v *solver, st *state) error {
	shafts := p.involved(v.speed)
	springs := v.warm
	for _, i := range shafts {
		for j, br := range p.box.Shafts[i].Bearings {
			if _, warm := springs[[2]int{i, j}]; br.Elements != nil && !warm {
				springs[[2]int{i, j}] = bearing.Springs{Radial: firstGuess}
			}
		}
	}
	change := math.Inf(1)
	for range 100 {
		models, err := p.modelsOn(springs)
		if err != nil {
			return err
		}
		if err := v.balance(st, p.couple(st.flow, st.engine, v.layout, models), models); err != nil {
			return err
		}
		if change < 1e-7 {
			return nil
		}
		change = 0
		for _, i := range shafts {
			if st.solved[i] == nil {
				continue
			}
			if err := p.stiffen(i, st, springs, &change); err != nil {
				return fmt.Errorf("%s: %w", ShaftTitle(p.box.Shafts[i].Name), err)
			}
		}
	}
	return fmt.Errorf("the stiffness of the bearings and their loads don't settle (still %.2g of it apart); check their clearance", change)
}

// stiffen takes the springs of one shaft's bearings to the forces they carry, and notes the largest relative change.
func (p *prepared) stiffen(i int, st *state, springs map[[2]int]bearing.Springs, change *float64) error {
	s := p.box.Shafts[i]
	reactions := st.solved[i].Reactions()
	rows, axial, err := p.thrust(i, reactions)
	if err != nil {
		return err
	}
	for j, br := range s.Bearings {
		if br.Elements == nil {
			continue
		}
		r := reactions[j] // on the shaft; the shaft puts the opposite on the bearing
		now, err := rows[j].Springs([3]float64{axial[j], -r.Fy, -r.Fz}, [2]float64{-r.My, -r.Mz})
		if err != nil {
			return fmt.Errorf("bearing %s: %w", br.Name, err)
		}
		now.Radial = max(now.Radial, least)
		k := [2]int{i, j}
		was := springs[k]
		*change = max(*change, math.Abs(now.Radial-was.Radial)/now.Radial)
		if now.Tilt > 0 {
			*change = max(*change, math.Abs(now.Tilt-was.Tilt)/now.Tilt)
		}
		springs[k] = now
	}
	return nil
}

// thrust is the axial force that the shaft puts on each bearing, N along +x, and the rows with the sign of their contact angle. A tapered pair shares
// it by its balance with the thrust that its own radial loads call up.
func (p *prepared) thrust(i int, reactions []beam.Reaction) ([]bearing.Elements, []float64, error) {
	s := p.box.Shafts[i]
	rows, axial := make([]bearing.Elements, len(s.Bearings)), make([]float64, len(s.Bearings))
	for j, br := range s.Bearings {
		if br.Elements != nil {
			rows[j] = *br.Elements
			if rows[j].Kind == bearing.Ball {
				axial[j] = -reactions[j].Fx
			}
		}
	}
	if s.Pair == nil {
		return rows, axial, nil
	}
	first, last := 0, len(s.Bearings)-1
	external := 0.0
	for _, r := range reactions {
		external -= r.Fx
	}
	pair := bearing.Pair{Arrangement: s.Pair.Arrangement, A: rows[first], B: rows[last], Setting: s.Pair.EndPlay}
	radial := func(j int) float64 { return math.Hypot(reactions[j].Fy, reactions[j].Fz) }
	settled, err := pair.Settle(radial(first), radial(last), external)
	if err != nil {
		return nil, nil, err
	}
	rows[first], rows[last] = pair.Rows()
	axial[first] = math.Copysign(settled.AxialA, rows[first].ContactAngle)
	axial[last] = math.Copysign(settled.AxialB, rows[last].ContactAngle)
	return rows, axial, nil
}

// modelsOn are all shafts, those with springs for bearings on these.
func (p *prepared) modelsOn(springs map[[2]int]bearing.Springs) ([]*beam.Model, error) {
	models := p.models()
	for _, i := range p.order {
		changed := p.lines[i].pilot >= 0 && models[p.lines[i].in] != p.lines[p.lines[i].in].model
		for j := range p.box.Shafts[i].Bearings {
			_, ok := springs[[2]int{i, j}]
			changed = changed || ok
		}
		if !changed {
			continue
		}
		m, err := p.modelOn(i, springs, models)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", ShaftTitle(p.box.Shafts[i].Name), err)
		}
		models[i] = m
	}
	return models, nil
}

// findHousing solves the bench test of the case for its stiffness: the force in the bearing at the test's torque over the movement that was read.
func (p *prepared) findHousing() error {
	test := p.box.Housing.Test
	speed := p.speedNamed(test.Speed)
	shaft := p.shaft[test.Shaft]
	for range 50 {
		p.remodel()
		v := p.solverFor(p.box.Speeds[speed], p.layouts[speed][0], test.Torque)
		st, err := v.at(test.Torque)
		if err != nil {
			return err
		}
		if st.solved[shaft] == nil {
			return fmt.Errorf("the %s carries nothing in %s", ShaftTitle(test.Shaft), test.Speed)
		}
		for j, br := range p.box.Shafts[shaft].Bearings {
			if br.Name != test.Bearing {
				continue
			}
			r := st.solved[shaft].Reactions()[j]
			found := math.Hypot(r.Fy, r.Fz) / test.Movement
			if math.Abs(found-p.housing) <= 1e-9*found {
				return nil
			}
			p.housing = found
		}
	}
	return fmt.Errorf("the movement of %.4g mm leads to no stiffness of the case; check it", test.Movement)
}

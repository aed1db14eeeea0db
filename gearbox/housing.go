package gearbox

import (
	"fmt"
	"math"
)

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

package gearbox

import (
	"fmt"
	"math"

	"layshaft/gearbox/diag"
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

// rubber is a stiffness, N/mm, that no case comes near: a tenth of what the reader of box files asks about. Common practice, no source.
const rubber = 1000

// findHousing solves the bench test of the case for its stiffness: the force in the bearing at the test's torque over the movement that was read. A test
// that can't have gone so is an error with its place in the file.
func (p *prepared) findHousing() error {
	test := p.box.Housing.Test
	fault := func(key, detail string) error {
		at := path("housing", "test", key)
		return diag.List{{Place: p.box.Place(at), Path: at, Summary: "a bench test that leads nowhere", Detail: detail}}
	}
	tooSoft := fmt.Sprintf("At %.4g N·m the case would have to be so soft for a movement of %.4g mm that it holds the shafts no more. Check both and their units.", test.Torque/1e3, test.Movement)
	speed := p.speedNamed(test.Speed)
	shaft := p.shaft[test.Shaft]
	for range 50 {
		if p.remodel(); p.found.HasErrors() {
			return fault("movement", tooSoft)
		}
		v := p.solverFor(p.box.Speeds[speed], p.layouts[speed][0], test.Torque)
		st, err := v.at(test.Torque)
		if err != nil {
			return fault("movement", tooSoft)
		}
		if st.solved[shaft] == nil {
			return fault("shaft", fmt.Sprintf("The %s carries nothing in %s, so no load moved the case there. Name a shaft that this speed loads.", ShaftTitle(test.Shaft), test.Speed))
		}
		for j, br := range p.box.Shafts[shaft].Bearings {
			if br.Name != test.Bearing {
				continue
			}
			r := st.solved[shaft].Reactions()[j]
			found := math.Hypot(r.Fy, r.Fz) / test.Movement
			if !(found > 0) || math.IsInf(found, 1) {
				return fault("bearing", fmt.Sprintf("Bearing %q of the %s carries nothing in %s, so no load moved the case there. Name another.", br.Name, ShaftTitle(test.Shaft), test.Speed))
			}
			if math.Abs(found-p.housing) <= 1e-9*found {
				if found < rubber {
					return fault("movement", fmt.Sprintf("At %.4g N·m a movement of %.4g mm means a case that gives way by 1 µm at %.2g N; cases take 10 to 10000 N for it, common practice, no source. "+
						"Check both and their units.", test.Torque/1e3, test.Movement, found*1e-3))
				}
				return nil
			}
			p.housing = found
		}
	}
	return fault("movement", fmt.Sprintf("A movement of %.4g mm at %.4g N·m fits no stiffness of the case. Check both and their units.", test.Movement, test.Torque/1e3))
}

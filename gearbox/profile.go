package gearbox

import (
	"slices"

	"layshaft/material"
)

// profile is how one number of a speed goes with the torque, as far up and down the grid as it has been asked for.
type profile struct {
	number    func(torque float64) (float64, error)
	begun     bool
	low, high int        // places of the grid, known between them
	ends      [2]float64 // the number there
	falls     []int      // places at which it is less than at the place below
}

// row names a number of a speed: that of a mesh on the path, or of a part of a shaft.
type row struct {
	kind        Kind
	part, place int
}

// loadRow is the row of the peak of the load along the face of the mesh at a step of the path: one at the best end of the bands, where flanks are in line, and one at the others.
func loadRow(step int, level material.Level) row {
	if level == material.High {
		return row{FlankPeak, step, 1}
	}
	return row{FlankPeak, step, 0}
}

// profile is that of a row, made once.
func (v *solver) profile(r row, number func(torque float64) (float64, error)) *profile {
	if v.profiles == nil {
		v.profiles = map[row]*profile{}
	}
	p, ok := v.profiles[r]
	if !ok {
		p = &profile{number: number}
		v.profiles[r] = p
	}
	return p
}

// rises reports whether the number grows all over a stretch of the grid.
func (p *profile) rises(low, high int) (bool, error) {
	if !p.begun {
		x, err := p.number(gridTorque(low))
		if err != nil {
			return false, err
		}
		p.begun, p.low, p.high, p.ends = true, low, low, [2]float64{x, x}
	}
	for p.high < high {
		x, err := p.number(gridTorque(p.high + 1))
		if err != nil {
			return false, err
		}
		p.high++
		if falls(p.ends[1], x) {
			p.falls = append(p.falls, p.high)
		}
		p.ends[1] = x
	}
	for p.low > low {
		x, err := p.number(gridTorque(p.low - 1))
		if err != nil {
			return false, err
		}
		if falls(x, p.ends[0]) {
			p.falls = append(p.falls, p.low)
		}
		p.low--
		p.ends[0] = x
	}
	return !slices.ContainsFunc(p.falls, func(place int) bool { return place > low && place <= high }), nil
}

// falls reports whether the second of two numbers is less than the first by more than rounding.
func falls(first, second float64) bool { return second < first*(1-1e-12) }

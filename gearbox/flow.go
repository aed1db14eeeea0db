package gearbox

import "math"

// step is one loaded mesh on the way of the power.
type step struct {
	mesh   int
	torque [2]float64 // about +x, of each shaft on its gear, N·mm
}

// flow follows a torque through one speed.
type flow struct {
	steps      []step
	output     float64 // torque about +x of the output shaft on what hangs on it, N·mm
	ratio      float64 // turns in per turn out; negative when input and output shaft turn opposite ways
	efficiency float64
}

// follow leads an input torque (N·mm about +x, of the engine on the input shaft) over the meshes of a path. In drive the input's torque has the
// sense in which the shaft turns; against it the power runs from the output to the input, and the losses with it.
func (p *prepared) follow(s Speed, torque float64) flow {
	f := flow{ratio: 1, efficiency: 1}
	drive := torque*float64(p.box.Turns) >= 0
	for _, name := range s.Path {
		i := p.mesh[name]
		m, teeth := p.box.Meshes[i], p.pairs[i].geometry.Teeth
		u := float64(teeth[1]) / float64(teeth[0])
		eta := m.Efficiency
		f.ratio *= -u
		f.efficiency *= eta
		if !drive {
			eta = 1 / eta
		}
		// What the driver's shaft gives, the driven gear's shaft gets turned round, u times as large: it gives the opposite to its gear.
		received := -torque * u * eta
		f.steps = append(f.steps, step{i, [2]float64{torque, -received}})
		torque = received
	}
	f.output = torque
	return f
}

// drives reports on which flank the teeth carry.
func (p *prepared) flank(torque float64) Flank {
	if math.Signbit(torque) == math.Signbit(float64(p.box.Turns)) {
		return DriveFlank
	}
	return CoastFlank
}

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
	f := flow{steps: make([]step, 0, len(s.Path)), ratio: 1, efficiency: 1}
	drive := p.drives(torque)
	for _, name := range s.Path {
		i := p.mesh[name]
		received, u := p.pass(i, torque, drive)
		f.ratio *= -u
		f.efficiency *= p.box.Meshes[i].Efficiency
		f.steps = append(f.steps, step{i, [2]float64{torque, -received}})
		torque = received
	}
	f.output = torque
	return f
}

// onDriver is what follow finds for the driver of the mesh at one step of the path: the torque about +x of the shaft on it, N·mm.
func (p *prepared) onDriver(s Speed, step int, torque float64) float64 {
	drive := p.drives(torque)
	for _, name := range s.Path[:step] {
		torque, _ = p.pass(p.mesh[name], torque, drive)
	}
	return torque
}

// pass leads a torque about +x, N·mm, of the driver's shaft over a mesh of ratio u to the shaft of the driven gear. What the driver's shaft gives,
// that one gets turned round, u times as large: it gives the opposite to its gear.
func (p *prepared) pass(mesh int, torque float64, drive bool) (received, u float64) {
	teeth, eta := &p.pairs[mesh].geometry.Teeth, p.box.Meshes[mesh].Efficiency
	u = float64(teeth[1]) / float64(teeth[0])
	if !drive {
		eta = 1 / eta
	}
	return -torque * u * eta, u
}

// drives reports whether an input torque has the sense in which the input shaft turns.
func (p *prepared) drives(torque float64) bool { return torque*float64(p.box.Turns) >= 0 }

// flank is that on which the teeth carry.
func (p *prepared) flank(torque float64) Flank {
	if math.Signbit(torque) == math.Signbit(float64(p.box.Turns)) {
		return DriveFlank
	}
	return CoastFlank
}

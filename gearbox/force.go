package gearbox

import "math"

// meshForce is what one loaded mesh does to its two shafts.
type meshForce struct {
	along      point   // e_r, from the driver's axis to the driven one's
	onDriven   point   // transverse force on the driven gear, N
	action     point   // unit vector of the line of action, along the normal force on the driven gear
	tangential float64 // F_t, N, signed: > 0 when the driver's shaft turns its gear about +x
	radial     float64 // F_r, N, ≥ 0
	axial      float64 // F_a on the driver along +x, N
}

// force resolves a mesh whose driver is given the torque (N·mm about +x) into its forces at the working pitch point.
func (p *prepared) force(i int, torque float64, l layout) meshForce {
	q := &p.pairs[i]
	g := q.geometry
	line := l[p.places.group[q.shafts[1]]].minus(l[p.places.group[q.shafts[0]]])
	f := meshForce{along: line.scaled(1 / line.norm())}
	f.tangential = 2 * torque / g.Working[0]
	f.radial = math.Abs(f.tangential) * math.Tan(g.WorkingPressureAngle)
	f.axial = f.tangential * math.Tan(g.WorkingHelix)
	if p.box.Meshes[i].Hand == Left {
		f.axial = -f.axial
	}
	f.onDriven = f.along.turned().scaled(f.tangential).plus(f.along.scaled(f.radial))
	f.action = f.onDriven.scaled(1 / f.onDriven.norm())
	return f
}

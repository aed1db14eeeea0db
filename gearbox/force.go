package gearbox

import (
	"math"

	"layshaft/beam"
)

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

// loads puts a loaded mesh on its two shafts: spread evenly over the common face and reduced to the axis. The tooth force acts at
// the working pitch point, so the axial force brings a couple along. torque is what each shaft receives from the mesh about +x: with losses it differs from
// F_t times the radius, since the friction that makes the difference isn't followed as a force.
func (p *prepared) loads(st step, f meshForce, loads [][]beam.Load) {
	q := &p.pairs[st.mesh]
	for k, s := range q.shafts {
		sign := float64(2*k - 1) // −1 driver, +1 driven
		arm := -sign * q.geometry.Working[k] / 2
		fa := -sign * f.axial
		load := beam.Load{
			X: q.at[k], Length: q.to - q.from,
			Fx: fa, Fy: sign * f.onDriven[0], Fz: sign * f.onDriven[1],
			Mx: -st.torque[k], My: arm * fa * f.along[1], Mz: -arm * fa * f.along[0],
		}
		if load.X-load.Length/2 < 0 || load.X+load.Length/2 > p.lines[s].length {
			load.Length = 0 // the face hangs over the end of its shaft: its middle carries
		}
		loads[s] = append(loads[s], load)
	}
}

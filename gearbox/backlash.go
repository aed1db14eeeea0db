package gearbox

import (
	"fmt"
	"math"
)

// close works out the backlash that a mesh loses where its axes come nearer under load, and says where it has too little. With axes nearer by Δa two flanks on either side of a tooth each come nearer
// by Δa tan α_wt along the working pitch circle.
func (r *MeshResult) close() []string {
	if r.Separation >= 0 {
		return nil
	}
	g := r.Geometry
	r.Taken = -2 * r.Separation * math.Tan(g.WorkingPressureAngle)
	has := g.Backlash / (math.Cos(g.WorkingPressureAngle) * math.Cos(g.BaseHelix)) // from normal to the flanks to along the circle
	switch {
	case r.Taken <= has:
		return nil
	case has == 0:
		return []string{fmt.Sprintf("closes under load: its axes come %.3g mm nearer, which takes %.3g mm of backlash. None is given (thinning, or shifts and centre distance); with less than that it binds.", -r.Separation, r.Taken)}
	}
	return []string{fmt.Sprintf("binds: its axes come %.3g mm nearer under load, which takes %.3g mm of backlash, and it has %.3g mm.", -r.Separation, r.Taken, has)}
}

package gearbox

import (
	"math"
	"testing"
)

// Worked numbers of a free gear that leans in its clearance. Source: derived from the equilibrium of a stiff gear on the two ends of its seat; computed with
// five digits, status "derived": no published treatment was found. There the mesh lies at +y, end 1 at −L/2 and end 2 at +L/2; forces are those of
// the gear on the shaft: the tooth pushes by F_t to +z and by F_r to −y, F_a to +x at the radius r. The tilt is (e₂ − e₁)/L.
func TestLeanOfAFreeGear(t *testing.T) {
	for _, c := range []struct {
		name                       string
		tangential, radial, axial  float64 // N
		radius, length, play, from float64 // mm; from = how far the mesh lies from the middle of the seat towards +x
		first, second              point   // on the shaft at the ends, N
		inPlaneY, inPlaneZ, tilt   float64 // mrad
		bound                      float64
	}{
		{"mesh over the middle of the seat", 6200, 2450, 2870, 55, 26, 0.04, 0,
			point{4846.15, 3100}, point{-7296.15, 3100}, -1.356, -0.1137, 1.3607, 1.5385},
		{"mesh beside it", 4000, 1500, 1865, 35, 25, 0.03, 4,
			point{2101, 1360}, point{-3601, 2640}, -0.98757, 0.028714, 0.98799, 1.2},
	} {
		t.Run(c.name, func(t *testing.T) {
			force := point{-c.radial, c.tangential}
			// The axial force at (0, r) turns the gear by −F_a r about +z; that turns slopes of plane xy. The force beside the middle adds its own.
			couple := point{-c.axial * c.radius, 0}.plus(force.scaled(c.from))
			first := force.scaled(0.5).minus(couple.scaled(1 / c.length))
			second := force.scaled(0.5).plus(couple.scaled(1 / c.length))
			for k := range 2 {
				if math.Abs(first[k]-c.first[k]) > 0.005 || math.Abs(second[k]-c.second[k]) > 0.005 {
					t.Errorf("end forces %v and %v, want %v and %v", first, second, c.first, c.second)
				}
			}
			lean, _ := (&Seat{Length: c.length, Clearance: c.play}).lean(force, couple, 0)
			for _, v := range []struct {
				what      string
				got, want float64
			}{{"plane xy", lean[0], c.inPlaneY}, {"plane xz", lean[1], c.inPlaneZ}, {"tilt", lean.norm(), c.tilt}} {
				if math.Abs(v.got*1e3-v.want) > 5e-4*c.tilt {
					t.Errorf("%s: %.5f mrad, want %.5f", v.what, v.got*1e3, v.want)
				}
			}
			if bound := c.play / c.length * 1e3; math.Abs(bound-c.bound) > 5e-5 || lean.norm()*1e3 > bound {
				t.Errorf("tilt %.4f mrad, bound %.4f, want a bound of %.4f", lean.norm()*1e3, bound, c.bound)
			}
			// Rollers that give add their own: each end R/k more.
			soft, _ := (&Seat{Length: c.length, Clearance: c.play, Stiffness: 1e5}).lean(force, couple, 0)
			extra := second.minus(first).scaled(1 / 1e5 / c.length)
			if d := soft.minus(lean).minus(extra).norm(); d > 1e-15 {
				t.Errorf("with rollers the lean grows by %v, want %v", soft.minus(lean), extra)
			}
		})
	}
}

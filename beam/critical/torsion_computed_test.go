package critical

import (
	"math"
	"testing"
)

// Discs and meshes, reckoned independently. N·m/rad and kg·m² there.
func TestTorsion(t *testing.T) {
	w, node := Discs(0.0045e6, 0.35e6, 8200e3)
	same(t, "two discs", w, 1358.547, 1e-6)
	same(t, "node", node, 0.9873061, 1e-6)
	low, high := Geared(0.0045e6, 8200e3, 0.0009e6, 0.0065e6, 52000e3, 0.9e6, 3.2)
	same(t, "through a mesh, low", low, 807.5823, 1e-6)
	same(t, "through a mesh, high", high, 3143.147, 1e-6)
	// Rigid behind the mesh it is two discs.
	if a, _ := Geared(1, 1e3, 0.1, 0.2, 1e12, 2, 2); math.Abs(a-first(Discs(1, 0.1+0.2/4+2./4, 1e3))) > 1e-3*a {
		t.Errorf("%g, two discs %g", a, first(Discs(1, 0.65, 1e3)))
	}
}

func first(a, _ float64) float64 { return a }

// Springs in series seen from the input at 400 N·m: 22.6° in first gear, three quarters of it behind the final drive.
func TestWindUp(t *testing.T) {
	k, shares := WindUp([]Spring{{9800e3, 1}, {61000e3, 3.2}, {240000e3, 3.2 * 4.1}})
	same(t, "stiffness", k/1e3, 1013.031, 1e-6)
	same(t, "wind-up", 400e3/k*180/math.Pi, 22.6235, 1e-5)
	same(t, "at the wheel", 400e3/k*180/math.Pi/3.2/4.1, 1.724352, 1e-5)
	for i, want := range []float64{0.1033705, 0.1700564, 0.7265731} {
		same(t, "share", shares[i], want, 1e-6)
	}
}

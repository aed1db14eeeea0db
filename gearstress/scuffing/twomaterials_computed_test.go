package scuffing

import (
	"math"
	"testing"

	"layshaft/gearstress/contact"
)

// A steel pinion and a bronze wheel: every station against plain Hertz and Blok with the elasticity and the heat of each
// gear, whichever of the two drives. The difference is the rounding of Blok's factor.
func TestFlashOfTwoMaterials(t *testing.T) {
	bronze := Material{Young: 110000, Poisson: 0.35, Density: 8.8e-6, Conductivity: 62, SpecificHeat: 377e3}
	peak := bandPeak()
	for _, of := range [][2]Material{{Steel, bronze}, {bronze, Steel}} {
		p := pairOf(t, helicalSpec())
		in := inputOf(p)
		in.Material = of
		r := screen(t, in)
		ze := contact.ElasticCoefficient(of[0].Young, of[0].Poisson, of[1].Young, of[1].Poisson)
		heat := func(m Material) float64 { return math.Sqrt(m.Conductivity * m.Density * m.SpecificHeat) }
		cosB := math.Cos(p.BaseHelix)
		for _, s := range r.Flash.Stations {
			load := r.LineLoad / math.Cos(p.WorkingPressureAngle) * s.Share
			radius := s.Radius[0] * s.Radius[1] / (s.Radius[0] + s.Radius[1]) / cosB
			pressure := ze * math.Sqrt(load/radius)
			half := 2 * load / (math.Pi * pressure)
			near(t, "pressure", s.Pressure, pressure, 1e-9*pressure)
			near(t, "half width", s.HalfWidth, half, 1e-9*half)
			carried := heat(of[0])*math.Sqrt(s.Speed[0]) + heat(of[1])*math.Sqrt(s.Speed[1])
			flash := peak * r.Flash.Friction * load * math.Abs(s.Speed[0]-s.Speed[1]) / (math.Sqrt(2*half) * carried)
			near(t, "flash", s.Flash, flash, 0.003*flash+1e-9)
		}
	}
	// By hand: 2/(0.91/206000 + 0.8775/110000) = 2/(4.417476e-6 + 7.977273e-6).
	near(t, "E_r", reducedModulus([2]Material{Steel, bronze}), 161358.6, 0.2)
}

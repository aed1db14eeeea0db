package iso6336

import (
	"math"
	"testing"
)

// K_Fβ goes by the taller of the two teeth, whichever gear has it: the smaller of b/h counts (ISO 6336-1:2006, 7.7, from
// memory). By hand, with one tip turned down: b/h = 30/6.75 is above the least of 3.
func TestRootFaceFactorGoesByTheTallerTooth(t *testing.T) {
	for short := range 2 {
		spec := spurSpec() // module 3, 20 and 40 teeth, dedendum 1.25: roots at 52.5 and 112.5 mm
		spec.TipDiameter = [2]float64{66, 126}
		spec.TipDiameter[short] -= 1.6
		in := inputOf(t)
		r := rate(t, formOf(t, spec, Edition2019), in)
		ratio := 30 / 6.75 // the other tooth is 2.25 modules high
		want := math.Pow(1.3, ratio*ratio/(1+ratio+ratio*ratio))
		near(t, "K_Fβ", r.K.FBeta, want, 1e-12)
	}
}

// Z_E of two materials (ISO 6336-2, clause 7): √(1/(π((1 − ν1²)/E1 + (1 − ν2²)/E2))), each with its own ratio.
func TestElasticityFactorOfTwoMaterials(t *testing.T) {
	a, b := Strength{Young: 206000, Poisson: 0.3}, Strength{Young: 110000, Poisson: 0.35}
	want := math.Sqrt(1 / (math.Pi * (0.91/206000 + 0.8775/110000)))
	near(t, "Z_E", elasticityFactor(a, b), want, 1e-9)
	near(t, "Z_E, turned round", elasticityFactor(b, a), want, 1e-9)
}

package gearbox

import (
	"math"
	"testing"

	"layshaft/gearstress/iso6336"
)

// Along the face counts 0.85 of the mean mesh stiffness (ISO 6336-1:2006, c_γβ = 0.85 c_γα, from memory); a stiffness that is given counts as it is.
func TestStiffnessAlongTheFace(t *testing.T) {
	b := threeShafts()
	b.Meshes[0].Stiffness, b.Meshes[1].Stiffness = 0, 14321
	p := prepare(b, Method{})
	q := &p.pairs[0]
	mean := iso6336.MeshStiffness(q.geometry, [2]float64{q.steels[0].Young, q.steels[1].Young}, [2]iso6336.Body{}, 100).Mean
	if math.Abs(q.stiffness-0.85*mean) > 1e-12*mean || p.pairs[1].stiffness != 14321 {
		t.Errorf("stiffness %g and %g, want %g and 14321", q.stiffness, p.pairs[1].stiffness, 0.85*mean)
	}
}

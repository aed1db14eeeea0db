package gearbox

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// anyCoupling draws a box with seats, crowned, relieved and leaning flanks in any mixture, and readies its first speed.
func anyCoupling(t *rapid.T) *solver {
	b := frameBox(t)
	face := rapid.SampledFrom([]float64{0, bare, 4, 12, 40}).Draw(t, "thrust face")
	for i := range b.Gears {
		if s := b.Gears[i].Seat; s != nil {
			s.ThrustFace = face
		}
	}
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		t.Fatal(p.found)
	}
	v := p.solverFor(b.Speeds[0], p.layouts[0][0], b.Torque*rapid.SampledFrom([]float64{1, -1}).Draw(t, "sense"))
	if err := v.ready(); err != nil {
		t.Fatal(err)
	}
	return v
}

// The load along the faces found by contact sets is that found without them: loads, K_Hβ, leans. The two share the compliance of the shafts and the law of
// the seats, which the frame of the tests knows nothing of. From a twentieth to twenty times the torque: where ends of seats float at next to no load the general way has fewer digits.
func TestSpreadIsTheGeneralSolution(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := anyCoupling(t)
		c := v.fixed
		for range 3 {
			scale := math.Exp(rapid.Float64Range(-3, 3).Draw(t, "scale"))
			want, err := c.carry(scale, nil)
			if err != nil {
				t.Fatal(err)
			}
			var s spread
			if err := c.spread(&s, scale, making{}, nil); err != nil {
				t.Fatal(err)
			}
			got, err := c.carried(&s)
			if err != nil {
				t.Fatal(err)
			}
			for m := range c.steps {
				force := c.problem.Meshes[m].Force * scale
				for i, w := range want.faces.Load[m] {
					alikeTo(t, "load", got.faces.Load[m][i], w, 1e-9, force)
				}
				k := want.faces.FaceLoadFactor(m)
				alikeTo(t, "K_Hβ", got.faces.FaceLoadFactor(m), k, 1e-9, k)
				alikeTo(t, "K_Hβ at once", c.factor(&s, m), k, 1e-9, k)
			}
			for k, g := range c.seated {
				l := &c.leaning[k]
				alikeTo(t, "lean", got.leans[g].minus(want.leans[g]).norm(), 0, 1e-9, max(l.seat.Clearance/l.seat.Length, l.stiff*scale))
			}
		}
	})
}

// Contact sets are found over eight powers of ten of the torque, from wherever the search starts; the general way is hardly ever needed.
func TestContactSetsAreFound(t *testing.T) {
	var cases, fallbacks, sets int
	rapid.Check(t, func(t *rapid.T) {
		v := anyCoupling(t)
		var s spread
		for k := range 120 {
			scale := math.Pow(10, 8*math.Mod(float64(k)*0.6180339887498949, 1)-4)
			if err := v.fixed.spread(&s, scale, making{}, nil); err != nil {
				t.Fatal(err)
			}
			cases++
		}
		fallbacks += v.fixed.fallbacks
		sets += v.fixed.family.Sets()
	})
	t.Logf("%d cases, %d contact sets, %d fallbacks", cases, sets, fallbacks)
	if 1000*fallbacks > cases {
		t.Errorf("%d of %d cases fell back to the general way", fallbacks, cases)
	}
}

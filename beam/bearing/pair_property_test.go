package bearing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The mirror image of a pair is the same pair from the other end; face to face under a thrust is
// back to back under the opposite one.
func TestPairsMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ia, ib := between(t, "A", 0, 9000), between(t, "B", 0, 9000)
		k := between(t, "thrust", -9000, 9000)
		for _, x := range []Arrangement{FaceToFace, BackToBack} {
			a, b := PairAxial(x, ia, ib, k)
			bm, am := PairAxial(x, ib, ia, -k)
			ao, bo := PairAxial(BackToBack-x, ia, ib, -k)
			if math.Abs(a-am)+math.Abs(b-bm) > 1e-9 || a != ao || b != bo {
				t.Errorf("%v: %g, %g; mirrored %g, %g; other arrangement %g, %g", x, a, b, am, bm, ao, bo)
			}
			if a < ia || b < ib || math.Abs(x.sign()*(a-b)-k) > 1e-9 {
				t.Errorf("%v: %g, %g N do not balance %g N or fall short of %g, %g N", x, a, b, k, ia, ib)
			}
			if a > ia && b > ib*(1+1e-12) && math.Abs(a-b) > 0 && math.Min(a-ia, b-ib) > 1e-9 {
				t.Errorf("%v: both carry more than they must", x)
			}
		}
		// The same of the full balance.
		e, g := anyRow(t, Tapered), anyRow(t, Tapered)
		p := Pair{Arrangement: FaceToFace, A: e, B: g, Setting: between(t, "setting", -0.02, 0.1)}
		ra, rb := e.force(t, "radial A")*0.3, g.force(t, "radial B")*0.3
		k = (ra + rb) * between(t, "share", -0.5, 0.5)
		s, err := p.Settle(ra, rb, k)
		if err != nil {
			t.Skip("beyond what they take")
		}
		if math.Abs(s.AxialB-s.AxialA-k) > 1e-6*(ra+rb) {
			t.Errorf("%g and %g N do not balance %g N", s.AxialA, s.AxialB, k)
		}
		m, err := Pair{Arrangement: FaceToFace, A: g, B: e, Setting: p.Setting}.Settle(rb, ra, -k)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(m.AxialA-s.AxialB) > 1e-6*(ra+rb) || math.Abs(m.Displacement+s.Displacement) > 1e-6 {
			t.Errorf("mirrored %v, was %v", m, s)
		}
	})
}

// Under radial loads the tangent of a pair is how its thrust grows with its movement, their rings free to move sideways.
func TestPairTangentUnderRadialLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]Kind{Ball, Tapered}).Draw(t, "kind")
		row := func() Elements {
			e := anyRow(t, kind)
			e.Clearance, e.ContactAngle = 0, between(t, "angle", 0.2, 0.5)
			return e
		}
		p := Pair{Arrangement: rapid.SampledFrom([]Arrangement{FaceToFace, BackToBack}).Draw(t, "arrangement"), A: row(), B: row()}
		preload := 0.5 * p.A.force(t, "preload")
		setting, err := p.PreloadSetting(preload)
		if err != nil {
			t.Skip("beyond what they take")
		}
		p.Setting = setting
		ra, rb, k := preload*between(t, "radial A", 0.2, 1.5), preload*between(t, "radial B", 0.2, 1.5), preload*between(t, "thrust", -0.5, 0.5)
		s, err := p.Settle(ra, rb, k)
		if err != nil {
			t.Skip("beyond what they take")
		}
		const step = 1e-3
		more, err1 := p.Settle(ra, rb, k+step*preload)
		less, err2 := p.Settle(ra, rb, k-step*preload)
		if err1 != nil || err2 != nil {
			t.Skip("beyond what they take")
		}
		want := 2 * step * preload / (more.Displacement - less.Displacement)
		// Elements that come into contact within the step bend the curve.
		if between := math.Abs(more.Tangent-less.Tangent) + 2e-4*s.Tangent; math.Abs(s.Tangent-want) > between {
			t.Errorf("%v: tangent %g N/mm, the movement says %g", p, s.Tangent, want)
		}
	})
}

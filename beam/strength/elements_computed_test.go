package strength

import "testing"

// Axisymmetric finite elements with Fourier terms, curved triangles of second order, 24 along a quarter circle (±0.5 %),
// against the classic fits: the difference is the fits', and the bounds below are what is said of them.

// Shoulders: D/d, r/d; bending, torsion, tension.
func TestShouldersAgainstElements(t *testing.T) {
	for _, c := range []struct{ wide, radius, bending, torsion, tension float64 }{
		{1.1, 0.02, 2.495, 1.744, 2.649}, {1.2, 0.05, 2.090, 1.527, 2.311}, {1.5, 0.05, 2.273, 1.615, 2.695},
		{1.5, 0.2, 1.476, 1.223, 1.706}, {2.0, 0.1, 1.827, 1.393, 2.230},
	} {
		k := Notch{Kind: Shoulder, Outer: c.wide, Bottom: 1, Radius: c.radius}.Concentration(800)
		within := func(what string, got, want, low, high float64) {
			t.Helper()
			if share := got/want - 1; share < -low || share > high {
				t.Errorf("D/d %g, r/d %g, %s: %.3f, elements %.3f (%+.1f %%)", c.wide, c.radius, what, got, want, 100*share)
			}
		}
		within("bending", k.Bending, c.bending, 0.09, 0.005)
		within("tension", k.Tension, c.tension, 0.22, 0.005)
		if h := (c.wide - 1) / 2 / c.radius; h <= 4 {
			within("torsion", k.Torsion, c.torsion, 0.025, 0.03)
		} else if within("torsion outside the fit", k.Torsion, c.torsion, 0, 0.1); len(k.Outside) == 0 {
			t.Errorf("D/d %g, r/d %g lies outside the fit of torsion, and nothing says so", c.wide, c.radius)
		}
	}
}

// Grooves: bottom, outer, radius; bending, torsion, tension. The round ones by the larger of two fits, which lie up
// to 7 % low and 12 % high (tension, 1.2 times bending, among them); those of a circlip (sizes of DIN 471) by the form of
// DIN 743-2, where a fit for round bottoms would be a third off.
func TestGroovesAgainstElements(t *testing.T) {
	for _, c := range []struct {
		kind                                              Kind
		bottom, outer, radius, width                      float64
		bending, torsion, tension                         float64
		low, high                                         float64 // bounds on all
		formBending, formTorsion, formTension, inFormOnly float64
	}{
		{RoundGroove, 32, 40, 2, 4, 2.39921, 1.71835, 2.86619, 0.068, 0.12, 0, 0, 0, 0},
		{RoundGroove, 36.4, 40, 1.7, 3.4, 2.41538, 1.69523, 2.69765, 0.068, 0.12, 0, 0, 0, 0},
		{RoundGroove, 38, 40, 0.5, 1, 3.44106, 2.20618, 3.69612, 0.068, 0.12, 0, 0, 0, 0},
		{CirclipGroove, 37.5, 40, 0.1, 1.85, 4.94113, 3.03698, 5.31075, 0.01, 0.02, 4.958377, 3.07099, 5.406575, 1},
		{CirclipGroove, 23.9, 25, 0.13, 1.3, 3.38949, 2.22125, 3.58503, 0.01, 0.085, 3.361434, 2.405598, 3.676554, 1},
	} {
		k := Notch{Kind: c.kind, Outer: c.outer, Bottom: c.bottom, Radius: c.radius, Width: c.width}.Concentration(800)
		for _, q := range []struct {
			what      string
			got, want float64
		}{{"bending", k.Bending, c.bending}, {"torsion", k.Torsion, c.torsion}, {"tension", k.Tension, c.tension}} {
			if share := q.got/q.want - 1; share < -c.low || share > c.high {
				t.Errorf("%s, bottom %g mm, %s: %.3f, elements %.3f (%+.1f %%)", c.kind, c.bottom, q.what, q.got, q.want, 100*share)
			}
		}
		if c.inFormOnly > 0 {
			same(t, "form, bending", k.Bending, c.formBending, 1e-6)
			same(t, "form, torsion", k.Torsion, c.formTorsion, 1e-6)
			same(t, "form, tension", k.Tension, c.formTension, 1e-6)
		}
		if len(k.Outside) > 0 {
			t.Error(k.Outside)
		}
	}
}

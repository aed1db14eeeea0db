package strength

import "testing"

// DIN 743-2, table 1 (from memory): factors of keyway and press fit in bending over the tensile strength, for 40 mm. All
// digits of the forms, torsion and splines among them, are a recomputation and prove only the typing.
func TestDIN743KeyFitAndSpline(t *testing.T) {
	for i, tensile := range []float64{400, 500, 600, 700, 800, 900, 1000, 1100, 1200} {
		of := func(k Kind) Factors {
			c := Notch{Kind: k, Outer: 40, Bottom: 36}.Concentration(tensile)
			if c.Sensitive || len(c.Outside) > 0 {
				t.Errorf("%s at %g MPa: %+v", k, tensile, c)
			}
			return c.Factors
		}
		key, fit, spline := of(Keyway), of(PressFit), of(SplineRoot)
		near(t, "key", key.Bending, []float64{2.1, 2.3, 2.5, 2.6, 2.8, 2.9, 3.0, 3.1, 3.2}[i], 0.05)
		near(t, "press fit", fit.Bending, []float64{1.8, 2.0, 2.2, 2.3, 2.5, 2.6, 2.7, 2.8, 2.9}[i], 0.05)
		same(t, "key, torsion", key.Torsion, []float64{1.28602, 1.390975, 1.483588, 1.567055, 1.643418, 1.714067, 1.78, 1.841961, 1.900521}[i], 1e-6)
		same(t, "press fit, torsion", fit.Torsion, []float64{1.183485, 1.302669, 1.408906, 1.50546, 1.594431, 1.677264, 1.755, 1.82842, 1.898126}[i], 1e-6)
		same(t, "spline, torsion", spline.Torsion, []float64{1.069509, 1.110711, 1.163229, 1.228507, 1.308393, 1.405229, 1.521962, 1.662296, 1.830886}[i], 1e-6)
		same(t, "spline, bending", spline.Bending, []float64{1.031279, 1.04982, 1.073453, 1.102828, 1.138777, 1.182353, 1.234883, 1.298033, 1.373899}[i], 1e-6)
		if of(PinionRoot) != spline {
			t.Error("a pinion cut into the shaft isn't taken as a spline")
		}
	}
	if out := (Notch{Kind: Keyway, Outer: 40}).Concentration(1300).Outside; len(out) != 1 {
		t.Errorf("tensile strength beyond the form: %v", out)
	}
}

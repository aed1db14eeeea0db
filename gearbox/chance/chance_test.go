package chance

import (
	"math"
	"slices"
	"testing"
)

// The intervals hold what they should in about 95 of 100 samples, or more. The answer is a sum whose chance and quantile are known: of two even numbers, triangular.
func TestIntervalsCover(t *testing.T) {
	const samples = 2000
	sum := func(x []float64) float64 { return x[0] + x[1] }
	laws := []func(float64) float64{even(0, 1), even(0, 1)}
	covered := map[string]int{}
	for seed := range uint64(samples) {
		got := answers(320, seed, laws, sum)
		for _, limit := range []float64{0.1, 0.5, 1} {
			if c := Chance(got, func(v float64) bool { return v < limit }); c.From <= limit*limit/2 && limit*limit/2 <= c.To {
				covered["chance"]++
			}
		}
		if q := Quantile(got, 0.5); q.From <= 1 && 1 <= q.To {
			covered["quantile"]++
		}
	}
	if n := covered["chance"]; n < 3*samples*93/100 {
		t.Errorf("%d of %d chances lie in their interval", n, 3*samples)
	}
	if n := covered["quantile"]; n < samples*92/100 || n == samples {
		t.Errorf("%d of %d quantiles lie in their interval", n, samples)
	}
}

func TestPointsAreTheSameForASeed(t *testing.T) {
	a, b, c := Points(100, 30, 7), Points(100, 30, 7), Points(100, 30, 8)
	if len(a) != 112 || len(a)%Replicates != 0 {
		t.Errorf("%d points", len(a))
	}
	for i := range a {
		if !slices.Equal(a[i], b[i]) {
			t.Fatal("another seed for the same points")
		}
	}
	if slices.Equal(a[0], c[0]) {
		t.Error("another seed makes the same points")
	}
	for _, p := range a {
		for _, u := range p {
			if !(u > 0 && u < 1) {
				t.Fatalf("a point at %g", u)
			}
		}
	}
	if n := len(Points(20, 0, 1)); n != 32 {
		t.Errorf("%d points without unknowns", n)
	}
}

func TestLaws(t *testing.T) {
	for _, c := range []struct {
		law                          Law
		u, from, likeliest, to, want float64
	}{
		{Even, 0.25, 2, 0, 6, 3},
		{Normal, 0.5, 2, 0, 6, 4},
		{Normal, 0.975, 2, 0, 6, 6},
		{Normal, 0.025, 2, 0, 6, 2},
		{Triangular, 0.5, 0, 1, 2, 1},
		{Triangular, 0.125, 0, 1, 2, 0.5}, // ½x² = 0.125
		{Triangular, 0.5, 0, 5, 1, math.Sqrt(0.5)},
		{Even, 0.7, 3, 0, 3, 3},
		{Triangular, 0.7, 3, 3, 3, 3},
	} {
		if got := c.law.At(c.u, c.from, c.likeliest, c.to); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s at %g between %g and %g: %g, want %g", c.law, c.u, c.from, c.to, got, c.want)
		}
	}
}

// What is no answer plays no part, and an answer without an end is one.
func TestGapsAndEndlessAnswers(t *testing.T) {
	var got []float64
	for i := range 160 {
		switch {
		case i%10 == 0:
			got = append(got, math.NaN())
		case i%10 == 9:
			got = append(got, math.Inf(1))
		default:
			got = append(got, float64(i%10))
		}
	}
	c := Chance(got, func(v float64) bool { return v < 2.5 })
	if math.Abs(c.Value-2.0/9) > 1e-12 {
		t.Errorf("chance %g, want 2 of 9", c.Value)
	}
	if q := Quantile(got, 0.5).Value; q != 5 {
		t.Errorf("median %g, want 5", q)
	}
	if q := Quantile(got, 0.99); !math.IsInf(q.Value, 1) || !math.IsNaN(q.To) {
		t.Errorf("quantile %v, want one without an end", q)
	}
	if e := NewTrials(16, 1, [][]int{{0}}, 1).Effects(make([]float64, 48)); e[0] != (Effect{}) {
		t.Errorf("an answer that doesn't vary has the effect %v", e[0])
	}
}

package chance

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// answers are those of a model of unknowns with laws of their own, at n points.
func answers(n int, seed uint64, laws []func(u float64) float64, model func(x []float64) float64) []float64 {
	var all []float64
	for _, p := range Points(n, len(laws), seed) {
		all = append(all, modelled(p, laws, model))
	}
	return all
}

func modelled(p []float64, laws []func(u float64) float64, model func(x []float64) float64) float64 {
	x := make([]float64, len(p))
	for j, u := range p {
		x[j] = laws[j](u)
	}
	return model(x)
}

func normal(mean, u float64) func(float64) float64 {
	return func(q float64) float64 { return Normal.At(q, mean-z95*u, mean, mean+z95*u) }
}

func even(from, to float64) func(float64) float64 {
	return func(q float64) float64 { return Even.At(q, from, 0, to) }
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.7g, want %.7g ± %.2g", what, got, want, within)
	}
}

// Newcombe 1998, Table I, method 3 (from memory).
func TestWilson(t *testing.T) {
	for _, c := range []struct {
		k, n     int
		from, to float64
	}{{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}} {
		got := Wilson(c.k, c.n)
		near(t, "from", got.From, c.from, 0.00005)
		near(t, "to", got.To, c.to, 0.00005)
	}
	if got := Wilson(0, 20000).To; got > 0.0002 || got < 0.00019 {
		t.Errorf("an event not seen in 20 000 trials is rarer than %g", got)
	}
	if Wilson(7, 7).To != 1 || !math.IsNaN(Wilson(0, 0).Value) {
		t.Error("the ends of the range")
	}
}

// JCGM 101:2008, 9.2.2 and 9.2.3: the sum of four inputs of mean 0 and standard uncertainty 1, all normal or all rectangular (from memory). The exact ends of the second: 2√3(2 − (3/5)^¼) = 3.879407.
func TestSumOfFour(t *testing.T) {
	sum := func(x []float64) float64 { return x[0] + x[1] + x[2] + x[3] }
	for _, c := range []struct {
		name string
		law  func(float64) float64
		end  float64
	}{{"normal", normal(0, 1), 3.919928}, {"rectangular", even(-math.Sqrt(3), math.Sqrt(3)), 3.879407}} {
		got := answers(200_000, 1, []func(float64) float64{c.law, c.law, c.law, c.law}, sum)
		near(t, c.name+", u", stat.PopStdDev(got, nil), 2, 0.002)
		for share, want := range map[float64]float64{0.025: -c.end, 0.975: c.end} {
			q := Quantile(got, share)
			near(t, c.name+", end", q.Value, want, 0.01)
			if want < q.From || want > q.To {
				t.Errorf("%s: the end %.4f isn't between %.4f and %.4f", c.name, want, q.From, q.To)
			}
		}
	}
}

// JCGM 101:2008, 9.3: a mass by comparison in air (inputs and results from memory). First order sees no effect of the density of air.
func TestMassInAir(t *testing.T) {
	got := answers(200_000, 1, []func(float64) float64{normal(100000, 0.05), normal(1.234, 0.02), even(1.1, 1.3), even(7000, 9000), even(7950, 8050)},
		func(x []float64) float64 { return (x[0]+x[1])*(1+(x[2]-1.2)*(1/x[3]-1/x[4])) - 100000 })
	near(t, "mean", stat.Mean(got, nil), 1.2341, 5e-4)
	near(t, "u", stat.PopStdDev(got, nil), 0.0754, 5e-4)
}

// The Ishigami function, a = 7, b = 0.1: analytic indices as many public suites quote them.
func TestEffectsOfIshigami(t *testing.T) {
	law := even(-math.Pi, math.Pi)
	laws := []func(float64) float64{law, law, law}
	model := func(x []float64) float64 {
		return math.Sin(x[0]) + 7*math.Sin(x[1])*math.Sin(x[1]) + 0.1*math.Pow(x[2], 4)*math.Sin(x[0])
	}
	trials := NewTrials(1<<14, 3, [][]int{{0}, {1}, {2}}, 1)
	var all []float64
	for _, p := range trials.Points {
		all = append(all, modelled(p, laws, model))
	}
	for g, e := range trials.Effects(all) {
		near(t, "alone", e.Alone, []float64{0.3139, 0.4424, 0}[g], 0.01)
		near(t, "total", e.Total, []float64{0.5576, 0.4424, 0.2437}[g], 0.01)
	}
	near(t, "variance", stat.PopVariance(all[:2*trials.n], nil), 13.84459, 0.05)
}

// A linear model in closed form.
func TestLinearModel(t *testing.T) {
	laws := []func(float64) float64{normal(0, 0.02), normal(0, 0.05), normal(0, 0.1), normal(0, 0.01)}
	model := func(x []float64) float64 { return 1 + 3*x[0] - 1.5*x[1] + 0.8*x[2] + 2.2*x[3] }
	got := answers(64_000, 2, laws, model)
	near(t, "u", stat.PopStdDev(got, nil), 0.1269212, 1e-4)
	for share, want := range map[float64]float64{0.05: 0.7912331, 0.5: 1, 0.95: 1.208767} {
		near(t, "quantile", Quantile(got, share).Value, want, 5e-4)
	}
	chance := Chance(got, func(v float64) bool { return v > 1.25 })
	if chance.From > 0.02443492 || chance.To < 0.02443492 || chance.To-chance.From > 0.003 {
		t.Errorf("the chance of 0.02443 is said to lie between %g and %g", chance.From, chance.To)
	}
	trials := NewTrials(4096, 4, [][]int{{0}, {1}, {2}, {3}, {0, 2}}, 3)
	var all []float64
	for _, p := range trials.Points {
		all = append(all, modelled(p, laws, model))
	}
	for g, e := range trials.Effects(all) {
		want := []float64{0.2234776, 0.3491837, 0.3972934, 0.03004532, 0.2234776 + 0.3972934}[g]
		near(t, "alone", e.Alone, want, 0.02)
		near(t, "total", e.Total, want, 0.01)
	}
}

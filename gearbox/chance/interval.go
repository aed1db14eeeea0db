package chance

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Interval is a number that a sample estimates, with the ends between which it lies in 95 of 100 samples.
type Interval struct {
	Value, From, To float64
}

// z95 is the number of standard deviations on either side that hold 95 of 100 of a normal distribution.
const z95 = 1.959963984540054

// Wilson is the chance of an event that was seen k times in n independent trials, by the score method: of an event that was never seen it gives how rare it must be. Source: E. B. Wilson 1927, as
// compared by R. G. Newcombe, Two-sided confidence intervals for the single proportion, 1998, method 3.
func Wilson(k, n int) Interval {
	if n == 0 {
		return Interval{math.NaN(), 0, 1}
	}
	p, m := float64(k)/float64(n), float64(n)
	centre := (p + z95*z95/(2*m)) / (1 + z95*z95/m)
	half := z95 / (1 + z95*z95/m) * math.Sqrt(p*(1-p)/m+z95*z95/(4*m*m))
	i := Interval{p, max(0, centre-half), min(1, centre+half)}
	switch k { // rounding aside these ends are exact
	case 0:
		i.From = 0
	case n:
		i.To = 1
	}
	return i
}

// Chance is the chance that an answer lies below a limit, from answers at Points. The score interval holds for independent trials, and that of the scramblings for many events in each: the wider ends
// of the two are taken. A NaN among the answers is no answer and isn't counted.
func Chance(answers []float64, below func(float64) bool) Interval {
	k, n := 0, 0
	var parts []float64
	for _, part := range replicates(answers) {
		in, of := 0, 0
		for _, v := range part {
			if !math.IsNaN(v) {
				of++
				if below(v) {
					in++
				}
			}
		}
		k, n = k+in, n+of
		if of > 0 {
			parts = append(parts, float64(in)/float64(of))
		}
	}
	w := Wilson(k, n)
	if k == 0 || k == n {
		return w
	}
	half := halfWidth(parts)
	return Interval{w.Value, max(0, min(w.From, w.Value-half)), min(1, max(w.To, w.Value+half))}
}

// Quantile is the value below which a share of the answers at Points lies (0 < share < 1), with the ends that the scramblings give it. +Inf is an answer; NaN is none. It is NaN where there are fewer
// than two answers in a scrambling.
func Quantile(answers []float64, share float64) Interval {
	value := quantile(answers, share)
	var each []float64
	for _, part := range replicates(answers) {
		each = append(each, quantile(part, share))
	}
	half := halfWidth(each)
	if math.IsInf(value, 0) || math.IsNaN(half) {
		return Interval{value, math.NaN(), math.NaN()}
	}
	return Interval{value, value - half, value + half}
}

// quantile is that of a sample, between its values in a straight line (type 7 of Hyndman and Fan 1996).
func quantile(answers []float64, share float64) float64 {
	s := sorted(answers)
	if len(s) < 2 {
		return math.NaN()
	}
	at := share * float64(len(s)-1)
	i := min(int(at), len(s)-2)
	switch f := at - float64(i); {
	case f == 0:
		return s[i]
	case math.IsInf(s[i+1], 1):
		return s[i+1]
	default:
		return s[i] + f*(s[i+1]-s[i])
	}
}

// halfWidth is half the width of the interval that holds the mean of estimates in 95 of 100 cases, by Student's t.
func halfWidth(estimates []float64) float64 {
	n := float64(len(estimates))
	if n < 2 {
		return math.NaN()
	}
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 1}.Quantile(0.975)
	return t * stat.StdDev(estimates, nil) / math.Sqrt(n)
}

package bearing

import "math"

// Stage is a part of what a bearing turns under one load.
type Stage struct {
	Turns  float64 // –, or any unit that all stages share: turns count, and not time
	Load   float64 // equivalent load P, N; 0 = turns without load, which count as turns
	Factor float64 // –, by which its life is longer than the basic one there: a₁ a_ISO of that very load and speed
}

// MeanLoad is the steady load, N, under which rollers or balls tire as fast as in all stages in turn, their factors aside.
//
//	P_m = (Σ q P^p)^(1/p), q the shares of turns
//
// Source: Palmgren's and Miner's sum with the life of ISO 281.
func MeanLoad(kind Kind, stages []Stage) float64 {
	p := kind.lifeExponent()
	sum, turns := 0.0, 0.0
	for _, s := range stages {
		turns += s.Turns
		sum += s.Turns * math.Pow(s.Load, p)
	}
	return math.Pow(sum/turns, 1/p)
}

// StagedLife is how many millions of turns a bearing of a dynamic rating C, N, lasts when the stages follow one another
// again and again.
//
//	1/L = Σ q/(a L10), q the shares of turns
//
// A mean load with one mean factor is not the same: a_ISO belongs to each load. Source: as MeanLoad.
func StagedLife(kind Kind, rating float64, stages []Stage) float64 {
	turns := 0.0
	for _, s := range stages {
		turns += s.Turns
	}
	return turns / Wear(kind, rating, stages)
}

// Wear is the sum of turns over lives, in the unit of turns over millions of turns: 1 where turns in millions are all
// that the bearing lasts.
func Wear(kind Kind, rating float64, stages []Stage) (sum float64) {
	for _, s := range stages {
		if s.Load > 0 {
			sum += s.Turns / (s.Factor * BasicLife(kind, rating, s.Load))
		}
	}
	return sum
}

// SystemLife is how long all of several bearings last together with the reliability that each has in its own life, in
// the unit of their lives.
//
//	L = (Σ L_i^−e)^(−1/e), e the slope of their scatter
//
// e is 1.5 behind a₁ of ISO 281, 10/9 for balls and 9/8 for rollers in the theory behind the ratings: four bearings
// last 22 % less together by the latter. Source: product of Weibull distributions of one slope.
func SystemLife(slope float64, lives []float64) float64 {
	sum := 0.0
	for _, l := range lives {
		sum += math.Pow(l, -slope)
	}
	return math.Pow(sum, -1/slope)
}

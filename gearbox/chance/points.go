package chance

import (
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Replicates is how many scramblings points come in: enough to tell how far they differ, few enough that each fills the space well.
const Replicates = 16

// MostUnknowns is the largest number of unknowns that points can have.
const MostUnknowns = 900

// Points are at least n points of so many unknowns: Replicates scramblings, each of the same number of points, taken in turn, so that the first points of all are a smaller sample of the same
// kind. Each point has one number in (0, 1) for each unknown. The same seed gives the same points.
//
// Each scrambling is a Halton sequence with random digits (A. B. Owen, A randomized Halton algorithm, 2017), whose points are spread evenly over (0, 1) in every unknown, and
// over every few of them together.
func Points(n, unknowns int, seed uint64) [][]float64 {
	each := (max(n, 1) + Replicates - 1) / Replicates
	points := make([][]float64, each*Replicates)
	if unknowns == 0 {
		return points
	}
	for r := range Replicates {
		batch := mat.NewDense(each, unknowns, nil)
		samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(unknowns, nil), Src: rand.NewPCG(seed, uint64(r))}.Sample(batch)
		for i := range each {
			row := batch.RawRowView(i)
			for j := range row {
				row[j] = min(max(row[j], 1e-12), 1-1e-12) // no quantile is infinite
			}
			points[i*Replicates+r] = row
		}
	}
	return points
}

// Whole is how many of the first answers make a sample of the same kind: as many of each scrambling.
func Whole(answers int) int { return answers - answers%Replicates }

// replicates are the parts of the answers at points that belong to one scrambling each.
func replicates(answers []float64) [][]float64 {
	parts := make([][]float64, Replicates)
	for i, v := range answers[:Whole(len(answers))] {
		parts[i%Replicates] = append(parts[i%Replicates], v)
	}
	return parts
}

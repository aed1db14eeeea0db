package beam

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// The metal in the corner of a sharp shoulder carries next to nothing, so the
// thin side of a step is softer than beam theory says, as if it were longer by
// λ. These λ over the small diameter d were computed with finite elements for
// solid sharp-shouldered shafts (axisymmetric body, first and zeroth Fourier
// harmonic, fillet radius 0.003 d). With a fillet of 0.02 d they are 4 to 15 %
// smaller, with 0.05 d 11 to 27 %. λ is 0 without a step; above a diameter
// ratio of 3 it is taken as constant.
var (
	shoulderRatio   = []float64{1, 1.1, 1.2, 1.35, 1.5, 2, 3} // D/d
	shoulderBending = lengthening([]float64{0, 0.0219, 0.0546, 0.0988, 0.1330, 0.1956, 0.2330})
	shoulderTorsion = lengthening([]float64{0, 0.0138, 0.0349, 0.0634, 0.0854, 0.1254, 0.1490})
)

// lengthening is the monotone curve of λ/d over D/d.
func lengthening(values []float64) *interp.FritschButland {
	var f interp.FritschButland
	if err := f.Fit(shoulderRatio, values); err != nil {
		panic("beam: shoulder table: " + err.Error())
	}
	return &f
}

// zone is a stretch of shaft that is given a smaller outer diameter.
type zone struct{ from, to, outer float64 } // mm

// run is a stretch of shaft of one outer diameter: one section or several
// that differ in their bores only.
type run struct {
	from, to    float64 // mm
	outer       float64 // mm
	first, last Section
}

func (s Shaft) runs() []run {
	var runs []run
	var x float64
	for _, c := range s.Sections {
		if n := len(runs); n > 0 && runs[n-1].outer == c.Outer {
			runs[n-1].to, runs[n-1].last = x+c.Length, c
		} else {
			runs = append(runs, run{from: x, to: x + c.Length, outer: c.Outer, first: c, last: c})
		}
		x += c.Length
	}
	return runs
}

// zones lists where the outer diameter of a neighbour is used instead of the
// real one. The zone reaches ℓ = λ/(1 − I_d/I_D) into the thicker side, so
// that it adds the compliance of a length λ of the thin shaft while all places
// stay where they are. A thicker part too short for that is used up; if both
// its ends step down they share it in proportion.
func (s Shaft) zones(lambda *interp.FritschButland) []zone {
	runs := s.runs()
	reach := func(i, neighbour int, edge Section) float64 {
		if neighbour < 0 || neighbour >= len(runs) || runs[neighbour].outer >= runs[i].outer {
			return 0
		}
		d := runs[neighbour].outer
		ratio := min(runs[i].outer/d, shoulderRatio[len(shoulderRatio)-1])
		// I and J have the same ratio.
		return lambda.Predict(ratio) * d / (1 - inertia(d, edge.Bore)/inertia(edge.Outer, edge.Bore))
	}
	var zones []zone
	for i, r := range runs {
		left, right := reach(i, i-1, r.first), reach(i, i+1, r.last)
		if share := (r.to - r.from) / (left + right); share < 1 {
			left, right = left*share, right*share
		}
		if left > 0 {
			zones = append(zones, zone{r.from, r.from + left, runs[i-1].outer})
		}
		if right > 0 {
			zones = append(zones, zone{r.to - right, r.to, runs[i+1].outer})
		}
	}
	return zones
}

// outerAt is the outer diameter to use at x for a section: the zone's, if x
// lies in one and the section's bore leaves metal there, otherwise the real.
func outerAt(zones []zone, c Section, x float64) float64 {
	for _, z := range zones {
		if x > z.from && x < z.to && z.outer > c.Bore {
			return math.Min(z.outer, c.Outer)
		}
	}
	return c.Outer
}

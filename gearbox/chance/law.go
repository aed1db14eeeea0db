package chance

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Law is how a value spreads between two ends.
type Law string

// The laws.
const (
	Normal     Law = "normal"     // 95 of 100 lie between the ends
	Even       Law = "even"       // all lie between the ends, none likelier than another
	Triangular Law = "triangular" // all lie between the ends, the likeliest is named
)

// At is the value below which a share u of all values lies, 0 < u < 1. likeliest is that of a triangle; the normal law has its middle halfway between the ends.
func (l Law) At(u, from, likeliest, to float64) float64 {
	if !(to > from) {
		return from
	}
	switch l {
	case Normal:
		return (from+to)/2 + (to-from)/2/z95*distuv.UnitNormal.Quantile(u)
	case Triangular:
		return distuv.NewTriangle(from, to, min(max(likeliest, from), to), nil).Quantile(u)
	default:
		return from + u*(to-from)
	}
}

// sorted are the answers in order, without what is none.
func sorted(answers []float64) []float64 {
	s := slices.DeleteFunc(slices.Clone(answers), math.IsNaN)
	slices.Sort(s)
	return s
}

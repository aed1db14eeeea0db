package chance

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Trials are the points at which a question must be answered so that Effects can say what each group of unknowns does: two samples, and for each group the first sample with the group's
// numbers from the second.
type Trials struct {
	Points [][]float64 // all points to answer, in the order in which Effects wants the answers
	n      int         // points of a sample
	groups int
}

// NewTrials makes points for groups of unknowns: groups[g] are the places of its unknowns in a point. n is how many points each sample has at least.
func NewTrials(n, unknowns int, groups [][]int, seed uint64) *Trials {
	both := Points(n, 2*unknowns, seed)
	t := &Trials{n: len(both), groups: len(groups)}
	for _, p := range both {
		t.Points = append(t.Points, p[:unknowns])
	}
	for _, p := range both {
		t.Points = append(t.Points, p[unknowns:])
	}
	for _, group := range groups {
		for _, p := range both {
			mixed := slices.Clone(p[:unknowns])
			for _, j := range group {
				mixed[j] = p[unknowns+j]
			}
			t.Points = append(t.Points, mixed)
		}
	}
	return t
}

// Effect is the share of the variance of the answer that a group of unknowns has in it.
type Effect struct {
	Alone float64 // by itself: what would go, on average, if it were known (first order)
	Total float64 // together with others: what would stay if all others were known (total)
}

// Effects says what each group does, from the answers at all Points. The variance is taken over both samples. A trial with an answer that is no finite number is left out. All are zero where the
// answer doesn't vary.
//
// Source: M. J. W. Jansen, Analysis of variance designs for model output, 1999, for both indices.
func (t *Trials) Effects(answers []float64) []Effect {
	a, b := answers[:t.n], answers[t.n:2*t.n]
	finite := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
	variance := stat.PopVariance(slices.DeleteFunc(slices.Clone(answers[:2*t.n]), func(v float64) bool { return !finite(v) }), nil)
	effects := make([]Effect, t.groups)
	if !(variance > 0) {
		return effects
	}
	for g := range effects {
		mixed := answers[(2+g)*t.n : (3+g)*t.n]
		alone, total, n := 0.0, 0.0, 0.0
		for i := range mixed {
			if !finite(a[i]) || !finite(b[i]) || !finite(mixed[i]) {
				continue
			}
			alone += (b[i] - mixed[i]) * (b[i] - mixed[i])
			total += (a[i] - mixed[i]) * (a[i] - mixed[i])
			n++
		}
		if n > 0 {
			effects[g] = Effect{1 - alone/(2*n*variance), total / (2 * n * variance)}
		}
	}
	return effects
}

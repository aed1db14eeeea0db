package chance

import (
	"math"
	"slices"
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

// Effects says what each group does, from the answers at all Points. A trial with an answer that is no finite number is left out. All are zero where the answer doesn't vary.
//
// Twice the variance is the mean of (a − b)² over the two samples; what stays of it when the group's numbers alone are exchanged is its total effect, what stays when all others are is what it lacks alone. Taken over
// the same trials, a group that does nothing has exactly 0 and one that does everything exactly 1.
//
// Source: M. J. W. Jansen, Analysis of variance designs for model output, 1999, for both indices.
func (t *Trials) Effects(answers []float64) []Effect {
	a, b := answers[:t.n], answers[t.n:2*t.n]
	effects := make([]Effect, t.groups)
	for g := range effects {
		mixed := answers[(2+g)*t.n : (3+g)*t.n]
		both, others, own := 0.0, 0.0, 0.0
		for i := range mixed {
			if sum := a[i] + b[i] + mixed[i]; math.IsNaN(sum) || math.IsInf(sum, 0) {
				continue
			}
			both += (a[i] - b[i]) * (a[i] - b[i])
			others += (b[i] - mixed[i]) * (b[i] - mixed[i])
			own += (a[i] - mixed[i]) * (a[i] - mixed[i])
		}
		if both > 0 {
			effects[g] = Effect{1 - others/both, own / both}
		}
	}
	return effects
}

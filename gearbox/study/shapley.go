package study

import "math/bits"

// shapley shares the difference between two ends out over players: value gives the outcome for each set of players that has changed sides, as a bit mask,
// and each player gets its mean change over all orders in which they might change,
//
//	φ_i = Σ_{S∌i} |S|! (n − |S| − 1)! / n! · (v(S ∪ i) − v(S))
//
// So no order is preferred, the shares add up to v(all) − v(none), two players that always change the same get the same, and one that never changes anything gets none.
// Source: L. S. Shapley, A value for n-person games, 1953; from memory.
func shapley(players int, value func(set uint) float64) []float64 {
	// weight of a set of k others: k! (n−k−1)!/n! = 1/(n · C(n−1, k))
	weight := make([]float64, players)
	choose := 1.0
	for k := range weight {
		weight[k] = 1 / (float64(players) * choose)
		choose = choose * float64(players-1-k) / float64(k+1)
	}
	share := make([]float64, players)
	for set := range uint(1) << players {
		v := value(set)
		for i := range share {
			others := set &^ (1 << i)
			w := weight[bits.OnesCount(others)]
			if set>>i&1 == 1 {
				share[i] += w * v
			} else {
				share[i] -= w * v
			}
		}
	}
	return share
}

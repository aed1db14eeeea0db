package study

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

// byOrders is Shapley's value from its own words: the mean over all orders in which players join of what each changes.
func byOrders(players int, value func(uint) float64) []float64 {
	share := make([]float64, players)
	orders := 0.0
	var join func(set uint)
	join = func(set uint) {
		if set == 1<<players-1 {
			orders++
		}
		for i := range players {
			if set>>i&1 == 0 {
				before := orders
				join(set | 1<<i)
				// Every order that goes on from here has this change in it.
				share[i] += (orders - before) * (value(set|1<<i) - value(set))
			}
		}
	}
	join(0)
	for i := range share {
		share[i] /= orders
	}
	return share
}

func game(t *rapid.T, players int) []float64 {
	return rapid.SliceOfN(rapid.Float64Range(-100, 100), 1<<players, 1<<players).Draw(t, "values")
}

func TestSharesAreTheMeanOverAllOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "players")
		v := game(t, n)
		value := func(set uint) float64 { return v[set] }
		got, want := shapley(n, value), byOrders(n, value)
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-10 {
				t.Fatalf("player %d of %d gets %g, by all orders %g", i, n, got[i], want[i])
			}
		}
	})
}

func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "players")
		v := game(t, n)
		sum := 0.0
		for _, s := range shapley(n, func(set uint) float64 { return v[set] }) {
			sum += s
		}
		if whole := v[len(v)-1] - v[0]; math.Abs(sum-whole) > 1e-10 {
			t.Fatalf("%d shares add up to %g, the difference is %g", n, sum, whole)
		}
	})
}

// Two players that always change the same get the same; one that never changes anything gets nothing; a player that adds the same to whatever is there gets just that.
func TestLikePlayersGetAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "players")
		v := game(t, n-3)
		more := rapid.Float64Range(-100, 100).Draw(t, "more")
		twins := [3]float64{0, rapid.Float64Range(-9, 9).Draw(t, "one twin"), rapid.Float64Range(-9, 9).Draw(t, "both twins")}
		// Players 0 and 1 are twins, 2 adds the same always.
		value := func(set uint) float64 {
			sum := v[set>>3] * (1 + twins[set&1+set>>1&1])
			return sum + float64(set>>2&1)*more
		}
		s := shapley(n, value)
		if math.Abs(s[0]-s[1]) > 1e-9 {
			t.Errorf("twins get %g and %g", s[0], s[1])
		}
		if math.Abs(s[2]-more) > 1e-9 {
			t.Errorf("who adds %g always gets %g", more, s[2])
		}
		withNull := shapley(n+1, func(set uint) float64 { return value(set &^ (1 << n)) })
		if math.Abs(withNull[n]) > 1e-12 {
			t.Errorf("who changes nothing gets %g", withNull[n])
		}
		for i := range s {
			if math.Abs(withNull[i]-s[i]) > 1e-9 {
				t.Errorf("a player that changes nothing moves the share of player %d from %g to %g", i, s[i], withNull[i])
			}
		}
	})
}

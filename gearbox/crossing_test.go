package gearbox

import (
	"math"
	"testing"
)

// A utilisation that rises beyond the limit, falls below it and rises again is met first where it rises first, wherever the search begins.
func TestTheFirstCrossingCounts(t *testing.T) {
	// sin x is 1/2 at π/6 and at 5π/6; x is one and a half times the logarithm of the torque.
	hump := func(torque float64) (float64, error) {
		x := 1.5 * math.Log(torque/1e5)
		switch {
		case x < 0:
			return 0.9 * math.Exp(x), nil
		case x < math.Pi:
			return 0.9 + 0.2*math.Sin(x), nil
		}
		return 0.9 * math.Exp(x-math.Pi), nil
	}
	v := &solver{}
	follow := []watch{{profile: &profile{number: hump}, times: 1}}
	for _, start := range []float64{5e3, 9e4, 2e5, 6e5, 3e6, 4e7} {
		f, err := v.firstCrossing(hump, start, 1, follow)
		first, last := 1e5*math.Exp(math.Pi/9), 1e5*math.Exp(5*math.Pi/9)
		if err != nil || math.Abs(f.torque/first-1) > 1e-9 || math.Abs(f.bad[1]/last-1) > 1e-9 || f.bad[0] != f.torque {
			t.Errorf("from %g: %+v, %v; want %g, over up to %g", start, f, err, first, last)
		}
	}
	// Where nothing falls there is no bad range, and nobody scans.
	straight := func(torque float64) (float64, error) { return torque / 2e5, nil }
	if f, err := v.firstCrossing(straight, 1e3, 1, []watch{{profile: &profile{number: straight}, times: 1}}); err != nil || math.Abs(f.torque-2e5) > 1e-4 || f.bad != [2]float64{} {
		t.Errorf("a straight line: %+v, %v", f, err)
	}
}

// The grid of torques is one for all boxes: what is asked moves nothing on it.
func TestTheGridKnowsNoAskedTorque(t *testing.T) {
	for _, torque := range []float64{0.5, 190e3, 1e9} {
		place := gridBelow(torque)
		if below, next := gridTorque(place), gridTorque(place+1); !(below < torque && torque <= next*(1+1e-12)) {
			t.Errorf("%g lies between %g and %g", torque, below, next)
		}
	}
}

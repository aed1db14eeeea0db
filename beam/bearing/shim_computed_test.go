package bearing

import (
	"math"
	"strings"
	"testing"
)

// Source: a straight line through two readings, its uncertainty to first order, and readings drawn at random, worked out
// outside this program; 1e-5, and 3 % of the width of what was drawn. Units of the source: µm and N·m.
func TestShimFromTwoReadings(t *testing.T) {
	for _, c := range []struct {
		name                        string
		q                           ShimQuestion
		slope, shim, lambda, unsure float64
		drawn                       [3]float64
		steps                       float64
		far                         bool
	}{
		{"between", ShimQuestion{Readings: []Reading{{50, 0.4}, {80, 1.3}}, Want: 1, Unsure: 0.08, Zero: math.NaN()},
			0.03, 70, 0.6666667, 1.987616, [3]float64{66.87929, 69.99189, 73.57258}, 0, false},
		{"five steps out", ShimQuestion{Readings: []Reading{{50, 0.4}, {60, 0.62}}, Want: 1.6, Unsure: 0.08, Zero: math.NaN()},
			0.022, 104.5455, 5.454545, 25.60864, [3]float64{79.36901, 102.9355, 241.1072}, 4.454545, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := must[ShimAnswer](t)(c.q.Shim())
			near(t, "slope", a.Slope, c.slope, 1e-5)
			near(t, "shim", a.Shim, c.shim, 1e-5)
			near(t, "u", a.Unsure, c.unsure, 1e-5)
			for i, want := range c.drawn {
				if math.Abs(a.Range[i]-want) > 0.03*(c.drawn[2]-c.drawn[0]) {
					t.Errorf("drawn %d: %g, want %g", i, a.Range[i], want)
				}
			}
			if math.Abs(a.Steps-c.steps) > 1e-5 {
				t.Errorf("%g steps out, want %g", a.Steps, c.steps)
			}
			if far := strings.Contains(strings.Join(a.Notes, " "), "says little"); far != c.far {
				t.Errorf("warned: %v, want %v: %q", far, c.far, a.Notes)
			}
		})
	}
}

// More readings on one line narrow it; the formula is that of least squares, checked by the spread of what is drawn.
func TestShimFromManyReadings(t *testing.T) {
	q := ShimQuestion{Readings: []Reading{{40, 0.11}, {50, 0.38}, {60, 0.72}, {70, 0.98}}, Want: 0.6, Unsure: 0.02, Zero: math.NaN()}
	a := must[ShimAnswer](t)(q.Shim())
	near(t, "width", a.Range[2]-a.Range[0], 2*1.6449*a.Unsure, 0.03)
}

// Zero clearance known, one reading gives the wanted torque back by the law of rollers, and what is drawn goes by the
// uncertainty of both: s − s₀ ∝ T^0.9.
func TestShimFromZeroClearance(t *testing.T) {
	q := ShimQuestion{Readings: []Reading{{75, 0.8}}, Want: 1.2, Unsure: 0.04, Zero: 55, ZeroUnsure: 2}
	a := must[ShimAnswer](t)(q.Shim())
	grown := math.Pow(1.2/0.8, 0.9)
	near(t, "shim", a.Shim, 55+20*grown, 1e-12)
	near(t, "slope", a.Slope, 1.2/0.9/(20*grown), 1e-12)
	// To first order: the zero moves the shim by 1 − grown, the torque by 0.9·20·grown/T.
	near(t, "u", a.Unsure, math.Hypot(2*(1-grown), 0.04*0.9*20*grown/0.8), 0.03)
	// A line through zero clearance would overshoot, since preload grows faster than the shim.
	if line := 55 + 20*1.2/0.8; !(line > a.Shim) {
		t.Errorf("line %g, curve %g", line, a.Shim)
	}
	q.Readings = append(q.Readings, Reading{50, 0.02})
	with := must[ShimAnswer](t)(q.Shim())
	if with.Shim != a.Shim || !strings.Contains(strings.Join(with.Notes, " "), "taken with play") {
		t.Errorf("a reading with play moves the shim from %g to %g: %q", a.Shim, with.Shim, with.Notes)
	}
}

func TestShimMistakes(t *testing.T) {
	for _, c := range []struct {
		q    ShimQuestion
		want string
	}{
		{ShimQuestion{Want: 1, Zero: math.NaN()}, "0 readings given"},
		{ShimQuestion{Readings: []Reading{{50, 1}, {60, 1}}, Want: 1, Zero: math.NaN()}, "doesn't grow"},
		{ShimQuestion{Readings: []Reading{{50, 1}, {50, 2}}, Want: 1, Zero: math.NaN()}, "doesn't grow"},
		{ShimQuestion{Readings: []Reading{{50, 1}, {60, 2}}, Zero: math.NaN()}, "wanted torque of 0"},
		{ShimQuestion{Readings: []Reading{{50, 1}, {60, math.NaN()}}, Want: 1, Zero: math.NaN()}, "numbers are expected"},
	} {
		if _, err := c.q.Shim(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v, want %q", err, c.want)
		}
	}
}

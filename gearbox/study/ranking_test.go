package study

import (
	"math"
	"slices"
	"testing"

	"layshaft/gearbox"
	"layshaft/material"
)

// rankBox is a box of one steel whose speeds allow these torques at the poorest, the typical and the best steel.
func rankBox(steel, batch string, torques ...[3]float64) *gearbox.Result {
	r := &gearbox.Result{Box: &gearbox.Box{
		Gears: []gearbox.Gear{{Name: "g", Steel: steel}}, Steels: []material.Steel{{Name: steel, Batch: batch}},
	}}
	for i, t := range torques {
		s := gearbox.SpeedResult{Name: string(rune('a' + i))}
		for l, torque := range t {
			s.Ends[l].Torque = torque
		}
		r.Speeds = append(r.Speeds, s)
	}
	return r
}

func TestRanking(t *testing.T) {
	inf := math.Inf(1)
	for _, w := range []struct {
		name        string
		a, b        *gearbox.Result
		common      bool
		least, most []float64
		holds       []bool
	}{
		// 160/200, 270/300, 380/400 and 110/100, 200/200, 285/300
		{"one steel", rankBox("x", "", [3]float64{200, 300, 400}, [3]float64{100, 200, 300}), rankBox("x", "", [3]float64{160, 270, 380}, [3]float64{110, 200, 285}),
			true, []float64{0.8, 0.95}, []float64{0.95, 1.1}, []bool{true, false}},
		{"one batch", rankBox("x", "1", [3]float64{200, 300, 400}), rankBox("x", "1", [3]float64{160, 270, 380}), true, []float64{0.8}, []float64{0.95}, []bool{true}},
		// 160/400 to 380/200
		{"two batches", rankBox("x", "1", [3]float64{200, 300, 400}), rankBox("x", "2", [3]float64{160, 270, 380}), false, []float64{0.4}, []float64{1.9}, []bool{false}},
		{"two steels", rankBox("x", "", [3]float64{200, 300, 400}), rankBox("y", "", [3]float64{410, 420, 430}), false, []float64{1.025}, []float64{2.15}, []bool{true}},
		{"without end", rankBox("x", "", [3]float64{inf, inf, inf}, [3]float64{1, 1, inf}), rankBox("x", "", [3]float64{inf, inf, inf}, [3]float64{2, inf, inf}),
			true, []float64{1, 1}, []float64{1, inf}, []bool{true, true}},
		{"less than anybody measures", rankBox("x", "", [3]float64{1000, 1000, 1000}), rankBox("x", "", [3]float64{998, 1001, 1100}), true, []float64{0.998}, []float64{1.1}, []bool{true}},
	} {
		r := ranked([]*gearbox.Result{w.a, w.b})[0]
		if r.Common != w.common {
			t.Errorf("%s: common %v", w.name, r.Common)
		}
		for i, s := range r.Speeds {
			if math.Abs(s.Least-w.least[i]) > 1e-12 || !(math.Abs(s.Most-w.most[i]) <= 1e-12 || s.Most == w.most[i]) || s.Holds != w.holds[i] {
				t.Errorf("%s, %s: %g to %g, holds %v; want %g to %g, %v", w.name, s.Name, s.Least, s.Most, s.Holds, w.least[i], w.most[i], w.holds[i])
			}
		}
	}
	brief := rankBox("x", "", [3]float64{math.NaN(), 1, math.NaN()})
	if r := ranked([]*gearbox.Result{brief, brief})[0]; len(r.Speeds) != 0 {
		t.Error("a brief solution is ranked")
	}
}

// Every ratio is that of the results.
func TestRankingOfTheDemonstration(t *testing.T) {
	alder, birch := demo(t)
	r := Compare([]*gearbox.Result{alder, birch}).Ranking[0]
	if !r.Common || r.Batch || !slices.Equal(r.Steels, []string{gearbox.DefaultSteel}) || len(r.Speeds) != 5 {
		t.Fatalf("%+v", r)
	}
	for i, s := range r.Speeds {
		for l, got := range s.Ratio {
			if want := birch.Speeds[i].Ends[l].Torque / alder.Speeds[i].Ends[l].Torque; got != want {
				t.Errorf("%s at level %d: %g, want %g", s.Name, l, got, want)
			}
		}
		if s.Least != slices.Min(s.Ratio[:]) || s.Most != slices.Max(s.Ratio[:]) {
			t.Errorf("%s: %g to %g of %v", s.Name, s.Least, s.Most, s.Ratio)
		}
	}
}

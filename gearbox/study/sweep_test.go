package study

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

func evenly(from, to float64, n int) (all []float64) {
	for i := range n {
		all = append(all, from+(to-from)*float64(i)/float64(n-1))
	}
	return all
}

// changing builds boxes by copying the one given and changing the copy.
func changing(b *gearbox.Box, change func(b *gearbox.Box, v []float64)) Build {
	return func(v []float64) (*gearbox.Box, error) {
		c := *b
		c.Shafts, c.Gears = slices.Clone(b.Shafts), slices.Clone(b.Gears)
		for i := range c.Shafts {
			c.Shafts[i].Sections, c.Shafts[i].Bearings = slices.Clone(c.Shafts[i].Sections), slices.Clone(c.Shafts[i].Bearings)
		}
		change(&c, v)
		return &c, nil
	}
}

func sweep(t *testing.T, b *gearbox.Box, axes []Axis, load gearbox.Load, target *Target, build Build) *Sweep {
	t.Helper()
	s, err := SweepOver(context.Background(), b, axes, load, target, build, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Which torque is asked says nothing of what is allowed. What remains is how exactly the first limit is searched for (its logarithm
// to 10⁻¹¹). The torques go from a twentieth to twenty times the box's own.
func TestSweptTorqueAllowsTheSame(t *testing.T) {
	alder, _ := demoBoxes(t)
	torques := Axis{Key: "input.torque", Dimension: quantity.Torque, Values: evenly(9.5e3, 3.8e6, 6)}
	s := sweep(t, alder, []Axis{torques}, gearbox.Load{}, nil, changing(alder, func(b *gearbox.Box, v []float64) { b.Torque = v[0] }))
	for i, p := range s.Points {
		if p.Asked != torques.Values[i] {
			t.Fatalf("point %d is asked for %g", i, p.Asked)
		}
		for k := range p.Speeds {
			got, want := p.Speeds[k].First, s.Points[0].Speeds[k].First
			if math.Abs(got.Torque/want.Torque-1) > 1e-8 || got.Kind != want.Kind || got.Item != want.Item {
				t.Errorf("%s, asked %g: %+v, asked %g: %+v", s.Speeds[k], p.Asked, got, s.Points[0].Asked, want)
			}
			if m := got.Torque/p.Asked - 1; math.Abs(p.Speeds[k].Margin-m) > 1e-12 {
				t.Errorf("margin %g, want %g", p.Speeds[k].Margin, m)
			}
		}
	}
	if all, _ := s.Governors(); len(all) != 1 {
		t.Errorf("governed by %+v, want one", all)
	}
}

// A margin of the torque that is varied is met where the torque is the allowable one over the wanted share: a closed form for the search.
func TestTargetMetByTheTorque(t *testing.T) {
	alder, _ := demoBoxes(t)
	torques := Axis{Key: "input.torque", Dimension: quantity.Torque, Values: evenly(80e3, 300e3, 5)}
	s := sweep(t, alder, []Axis{torques}, gearbox.Load{}, &Target{Margin: 0.15}, changing(alder, func(b *gearbox.Box, v []float64) { b.Torque = v[0] }))
	_, first := s.Points[0].First()
	if len(s.Met) != 1 {
		t.Fatalf("met %v", s.Met)
	}
	m := s.Met[0]
	if want := first.Torque / 1.15; math.Abs(m.At-want) > m.Within+1e-9*want || m.Within > 1e-6*220e3 || m.Rising || m.Jump || !math.IsNaN(m.Other) {
		t.Errorf("met %+v, want at %g from below", m, want)
	}
}

// A target of torque is met: a box with the value found allows just that.
func TestTargetMetByADimension(t *testing.T) {
	alder, _ := demoBoxes(t)
	build := changing(alder, func(b *gearbox.Box, v []float64) {
		for i := range b.Gears {
			if strings.HasPrefix(b.Gears[i].Name, "first") {
				b.Gears[i].Face = v[0]
			}
		}
	})
	faces := Axis{Key: "face", Dimension: quantity.Length, Values: evenly(12, 28, 5)}
	load := gearbox.Load{Torque: 190e3, Speeds: []string{"1st"}}
	plain := sweep(t, alder, []Axis{faces}, load, nil, build)
	_, low := plain.Points[1].First()
	_, high := plain.Points[2].First()
	if !(high.Torque > low.Torque) {
		t.Fatalf("a wider face bears less: %g and %g", low.Torque, high.Torque)
	}
	target := &Target{Torque: (low.Torque + high.Torque) / 2}
	s := sweep(t, alder, []Axis{faces}, load, target, build)
	if len(s.Met) != 1 || !s.Met[0].Rising || !(s.Met[0].At > faces.Values[1] && s.Met[0].At < faces.Values[2]) {
		t.Fatalf("met %+v", s.Met)
	}
	b, _ := build([]float64{s.Met[0].At})
	r, err := gearbox.Solve(b, gearbox.Load{Torque: target.Torque, Speeds: load.Speeds})
	if err != nil {
		t.Fatal(err)
	}
	if m := r.Speeds[0].Governing().Margin; math.Abs(m) > 1e-6 {
		t.Errorf("at %g mm the margin at the wanted torque is %g", s.Met[0].At, m)
	}
}

// What can't be is a gap with its reason, and the rest of the sweep goes on.
func TestPointsThatMakeNoBox(t *testing.T) {
	alder, _ := demoBoxes(t)
	ends := Axis{Key: "at", Dimension: quantity.Length, Values: evenly(184, 304, 4)}
	move := changing(alder, func(b *gearbox.Box, v []float64) {
		gearOf(b, "fourth pinion").At = v[0]
		gearOf(b, "fourth wheel").At = v[0]
	})
	s := sweep(t, alder, []Axis{ends}, gearbox.Load{Speeds: []string{"4th"}}, nil, func(v []float64) (*gearbox.Box, error) {
		if v[0] == 224 {
			return nil, errors.New("not this one")
		}
		return move(v)
	})
	if s.Points[0].Gap != "" || s.Points[1].Gap != "not this one" || s.Points[3].Gap == "" || s.Points[3].Worst != -1 {
		t.Fatalf("%+v", s.Points)
	}
	if _, of := s.Governors(); of[0] != 0 || of[1] != -1 || of[3] != -1 {
		t.Errorf("%v", of)
	}
}

// Two axes: each point is the one that a sweep of one axis has there, and the target is met along the first for each value of the second.
func TestTwoAxes(t *testing.T) {
	alder, _ := demoBoxes(t)
	build := changing(alder, func(b *gearbox.Box, v []float64) {
		b.Torque = v[0]
		if len(v) == 2 {
			gearOf(b, "third wheel").Face = v[1]
		}
	})
	torques := Axis{Key: "input.torque", Dimension: quantity.Torque, Values: evenly(150e3, 700e3, 3)}
	faces := Axis{Key: "face", Dimension: quantity.Length, Values: evenly(14, 20, 2)}
	load := gearbox.Load{Speeds: []string{"3rd"}}
	s := sweep(t, alder, []Axis{torques, faces}, load, &Target{Margin: 0}, build)
	for j, face := range faces.Values {
		one := sweep(t, alder, []Axis{torques}, load, nil, func(v []float64) (*gearbox.Box, error) { return build([]float64{v[0], face}) })
		for i := range one.Points {
			if a, b := s.Points[2*i+j], one.Points[i]; a.Speeds[0] != b.Speeds[0] {
				t.Errorf("point %v: %+v, alone %+v", a.Values, a.Speeds, b.Speeds)
			}
		}
	}
	if len(s.Met) != 2 || s.Met[0].Other != 14 || s.Met[1].Other != 20 {
		t.Fatalf("met %+v", s.Met)
	}
	for j, m := range s.Met {
		if _, first := s.Points[j].First(); math.Abs(m.At-first.Torque) > m.Within+1e-8*m.At {
			t.Errorf("met at %g, allowed %g", m.At, first.Torque)
		}
	}
}

// A target over whole numbers is met at the first that bears it.
func TestWholeNumbers(t *testing.T) {
	solve := func(v []float64) Point {
		return Point{Values: v, Speeds: []SpeedPoint{{First: gearbox.FirstLimit{Torque: v[0] * v[0]}}}}
	}
	for _, c := range []struct{ target, want float64 }{{50, 8}, {49, 7}, {99.5, 10}, {26, 6}} {
		s := Sweep{Axes: []Axis{{Values: []float64{5, 10}, Whole: true}}, Target: &Target{Torque: c.target}}
		from, to := solve([]float64{5}), solve([]float64{10})
		if m := s.between(context.Background(), &from, &to, solve); m.At != c.want || m.Within != 0 {
			t.Errorf("squares reach %g at %+v, want %g", c.target, m, c.want)
		}
	}
}

// A torque that jumps over the target is said to.
func TestJump(t *testing.T) {
	solve := func(v []float64) Point {
		torque := 1.0
		if v[0] > math.Sqrt2 {
			torque = 3
		}
		return Point{Values: v, Speeds: []SpeedPoint{{First: gearbox.FirstLimit{Torque: torque}}}}
	}
	s := Sweep{Axes: []Axis{{Values: []float64{1, 2}}}, Target: &Target{Torque: 2}}
	from, to := solve([]float64{1}), solve([]float64{2})
	if m := s.between(context.Background(), &from, &to, solve); !m.Jump || math.Abs(m.At-math.Sqrt2) > m.Within || m.Within > 1e-6 {
		t.Errorf("%+v", m)
	}
}

func TestSweepStops(t *testing.T) {
	alder, _ := demoBoxes(t)
	ctx, stop := context.WithCancel(context.Background())
	torques := Axis{Key: "input.torque", Values: evenly(80e3, 300e3, 50)}
	done := 0
	_, err := SweepOver(ctx, alder, []Axis{torques}, gearbox.Load{Speeds: []string{"1st"}}, nil, changing(alder, func(b *gearbox.Box, v []float64) { b.Torque = v[0] }), func(n, all int) {
		if done = n; n == 2 {
			stop()
		}
	})
	if err != context.Canceled || done > 10 {
		t.Errorf("%v after %d points", err, done)
	}
	for _, axes := range [][]Axis{nil, {torques, torques, torques}, {{Key: "x", Values: []float64{1}}}, {{Key: "x", Values: []float64{2, 1}}}} {
		if _, err := SweepOver(context.Background(), alder, axes, gearbox.Load{}, nil, nil, nil); err == nil {
			t.Errorf("%d axes: no error", len(axes))
		}
	}
}

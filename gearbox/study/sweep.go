package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
)

// Axis is one number of the box that is varied.
type Axis struct {
	Key       string             // its key path: "shafts.output.bearings.right.at"
	Dimension quantity.Dimension // of the values
	Unit      string             // in which the file gives it, or the range where the file doesn't; "" = the usual one of Dimension
	Values    []float64          // inner units, rising
	Whole     bool               // only whole numbers make sense, as of teeth
	Now       float64            // what the file says, inner unit; NaN = nothing
}

// Sweep is how the first limit moves when one or two numbers of a box are varied.
type Sweep struct {
	Box    *gearbox.Box   // as the file has it
	Torque float64        // torque asked at every point, N·mm; negative in coast, 0 = that of each box, as when the torque itself is varied
	Axes   []Axis         // one or two
	Speeds []string       // the speeds looked at, in the order of the box
	Points []Point        // of two axes all of the second axis for the first value of the first, then for the next
	Kinds  []gearbox.Kind // that alone decide, as asked; nil = the usual ones
	Target *Target        // nil = none
	Met    []Met          // where the target is met, along the first axis
}

// Point is one make of the box.
type Point struct {
	Values []float64    // one for each axis, inner units
	Gap    string       // why there is no such box; "" when there is
	Asked  float64      // torque asked, N·mm; negative in coast
	Speeds []SpeedPoint // as Sweep.Speeds; nil in a gap
	Worst  int          // of Speeds, the one with the least torque; -1 in a gap
}

// SpeedPoint is one speed of one make of the box.
type SpeedPoint struct {
	First      gearbox.FirstLimit
	Margin     float64 // First.Torque ÷ torque asked − 1
	FaceFactor float64 // largest K_Hβ of its meshes; NaN when it has none
	FaceMesh   string  // the mesh that has it
}

// First is the limit of all speeds looked at that is reached first, and the speed it belongs to. The point must be no gap.
func (p *Point) First() (speed int, first gearbox.FirstLimit) {
	return p.Worst, p.Speeds[p.Worst].First
}

// Target is what is wanted of the first limit of all speeds looked at: one of the two.
type Target struct {
	Torque float64 // allowable torque, N·mm; 0 = a margin is wanted
	Margin float64 // allowable torque ÷ torque asked − 1
}

// miss is how far a point is above the target, as a share of the torque wanted; its sign tells whether it is met.
func (t *Target) miss(p *Point) float64 {
	_, first := p.First()
	wanted := t.Torque
	if wanted == 0 {
		wanted = math.Abs(p.Asked) * (1 + t.Margin)
	}
	if math.IsInf(first.Torque, 1) {
		return 1e6 // finite, so that differences can be taken
	}
	return first.Torque/wanted - 1
}

// Met tells whether a point that is no gap meets the target.
func (t *Target) Met(p *Point) bool { return t.miss(p) >= 0 }

// Met is where a target is just met.
type Met struct {
	At     float64 // value of the first axis, inner unit
	Within float64 // half the width of the stretch in which it lies, same unit; 0 for whole numbers
	Other  float64 // value of the second axis; NaN when there is one axis
	Rising bool    // the target is met from here on upwards; else up to here
	Jump   bool    // the torque jumps here instead of passing through the target
}

// Build makes the box with the values of the axes. Its error tells why there is no such box.
type Build func(values []float64) (*gearbox.Box, error)

// SweepOver solves the box at every value of one axis or at every pair of values of two, and finds where the target is met. A value that makes no box is a gap with its reason. Build and the box it gives
// are used by several goroutines at once. progress is told how many points are solved; nil = nobody is. An error says what is wrong with the question, or is that of the context.
func SweepOver(ctx context.Context, b *gearbox.Box, axes []Axis, load gearbox.Load, target *Target, build Build, progress func(done, all int)) (*Sweep, error) {
	if len(axes) < 1 || len(axes) > 2 {
		return nil, fmt.Errorf("%d numbers to vary; one or two can be", len(axes))
	}
	count := 1
	for _, a := range axes {
		if len(a.Values) < 2 || !slices.IsSorted(a.Values) {
			return nil, fmt.Errorf("%s has %d values; two or more, rising, are needed", a.Key, len(a.Values))
		}
		count *= len(a.Values)
	}
	load.Brief, load.Second = true, nil
	s := &Sweep{Box: b, Torque: load.Torque, Kinds: load.Kinds, Axes: axes, Target: target, Points: make([]Point, count)}
	for _, speed := range b.Speeds {
		if load.Speeds == nil || slices.Contains(load.Speeds, speed.Name) {
			s.Speeds = append(s.Speeds, speed.Name)
		}
	}
	solve := func(values []float64) Point { return s.point(values, load, build) }
	if err := abreast(ctx, count, progress, func(i int) error {
		s.Points[i] = solve(s.values(i))
		return nil
	}); err != nil {
		return nil, err
	}
	if target != nil {
		return s, s.meet(ctx, solve)
	}
	return s, nil
}

// values are those of a point.
func (s *Sweep) values(i int) []float64 {
	if len(s.Axes) == 1 {
		return []float64{s.Axes[0].Values[i]}
	}
	n := len(s.Axes[1].Values)
	return []float64{s.Axes[0].Values[i/n], s.Axes[1].Values[i%n]}
}

// point solves one make of the box.
func (s *Sweep) point(values []float64, load gearbox.Load, build Build) Point {
	p := Point{Values: values, Worst: -1}
	b, err := build(values)
	if err == nil {
		var r *gearbox.Result
		if r, err = gearbox.Solve(b, load); err == nil {
			p.take(r)
			return p
		}
	}
	p.Gap = reason(err)
	return p
}

// reason is why there is no box, in one sentence: the first finding where there are several.
func reason(err error) string {
	if list, ok := errors.AsType[diag.List](err); ok {
		for _, d := range list {
			if d.Severity == diag.Error {
				return d.Summary + ": " + d.Detail
			}
		}
	}
	return err.Error()
}

func (p *Point) take(r *gearbox.Result) {
	p.Asked = r.Torque
	for i := range r.Speeds {
		sp := &r.Speeds[i]
		mesh, factor := worstFace(sp)
		p.Speeds = append(p.Speeds, SpeedPoint{sp.First, sp.First.Torque/math.Abs(r.Torque) - 1, factor, mesh})
		if p.Worst < 0 || sp.First.Torque < p.Speeds[p.Worst].First.Torque {
			p.Worst = i
		}
	}
}

// Governor is what limits a part of a sweep.
type Governor struct {
	Speed string
	Kind  gearbox.Kind
	Item  string
}

// Governors lists what governs anywhere in the sweep, in the order of first appearance, and for each point the number of its governor; -1 for a gap.
func (s *Sweep) Governors() (all []Governor, of []int) {
	for i := range s.Points {
		if s.Points[i].Gap != "" {
			of = append(of, -1)
			continue
		}
		k, first := s.Points[i].First()
		g := Governor{s.Speeds[k], first.Kind, first.Item}
		n := slices.Index(all, g)
		if n < 0 {
			n, all = len(all), append(all, g)
		}
		of = append(of, n)
	}
	return all, of
}

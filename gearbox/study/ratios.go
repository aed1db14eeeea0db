package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"layshaft/gearbox"
)

// RatioTable is the ratio table of a box: what each speed makes of the engine's speed and torque.
type RatioTable struct {
	Box    *gearbox.Box
	Revs   float64    // speed of the engine (the input shaft) at which it is shifted up, rad/s; 0 = not told
	Torque float64    // of the engine, N·mm > 0
	Tyres  bool       // whether the tyre radius is told, so that there is a speed over ground and a pull
	Grip   bool       // whether it is told what the tyres hold
	Speeds []RatioRow // forward speeds from the shortest to the longest, then those that go backwards
}

// RatioRow is one row of the table. What isn't known is NaN.
type RatioRow struct {
	Name    string
	Reverse bool
	Box     float64 // turns of the input shaft per turn of the output shaft, > 0
	Total   float64 // the same per turn of the driven wheels

	Ground   float64 // speed over ground at Revs, mm/s
	Thousand float64 // speed over ground at 1000 turns a minute, mm/s

	Next  string  // the speed it is shifted up to; "" for the longest and for reverse
	Step  float64 // ratio over that of the next speed
	After float64 // speed of the engine after the shift up at Revs, with the car as fast as before, rad/s
	Drop  float64 // Revs − After, rad/s

	Wheels float64 // torque at the driven wheels together, after losses, N·mm
	Pull   float64 // force along the ground that this torque stands for, N
	Holds  float64 // force along the ground that the tyres hold, N
	Used   float64 // Pull over Holds; above 1 the wheels spin
}

// Lost is the part of the engine's speed that the shift up costs, 0 to 1.
func (r *RatioRow) Lost() float64 { return 1 - 1/r.Step }

// TableOfRatios works out the ratio table of a box. revs is the speed of the engine, rad/s, torque its torque, N·mm; 0 takes either from the box. It takes the
// tyres to roll without slip: with v the speed of the car, ω of the engine, r the rolling radius and i the total ratio, v = ω r/i, so that a shift from i1 to i2 takes the engine from ω to ω i2/i1.
func TableOfRatios(b *gearbox.Box, revs, torque float64) (*RatioTable, error) {
	t := &RatioTable{Box: b, Revs: revs, Torque: torque, Tyres: b.Car != nil}
	if revs == 0 {
		t.Revs = b.Revs
	}
	if torque == 0 {
		t.Torque = b.Torque
	}
	if !(t.Torque > 0) || math.IsInf(t.Torque, 0) || t.Revs < 0 || math.IsNaN(t.Revs) || math.IsInf(t.Revs, 0) {
		return nil, fmt.Errorf("a ratio table is for an engine that drives: its torque must be greater than 0 and its speed not below")
	}
	gearings, err := gearbox.Gearings(b, t.Torque)
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(gearings, func(a, b gearbox.Gearing) int {
		if a.Reverse != b.Reverse {
			if a.Reverse {
				return 1
			}
			return -1
		}
		return cmp.Compare(b.Total, a.Total)
	})
	const rpm = math.Pi / 30
	for i, g := range gearings {
		nan := math.NaN()
		r := RatioRow{
			Name: g.Name, Reverse: g.Reverse, Box: math.Abs(g.Ratio), Total: g.Total,
			Ground: nan, Thousand: nan, Step: nan, After: nan, Drop: nan, Wheels: t.Torque * g.Total * g.ToWheels, Pull: nan, Holds: nan, Used: nan,
		}
		if t.Tyres {
			r.Thousand = b.Car.Ground(1000*rpm, g.Total)
			r.Pull = r.Wheels / b.Car.TyreRadius
			if t.Revs > 0 {
				r.Ground = b.Car.Ground(t.Revs, g.Total)
			}
		}
		if g.Reach != nil && !math.IsInf(g.Reach.Force, 1) {
			t.Grip = true
			r.Holds, r.Used = g.Reach.Force, r.Pull/g.Reach.Force
		}
		if i+1 < len(gearings) && !g.Reverse && !gearings[i+1].Reverse {
			r.Next, r.Step = gearings[i+1].Name, g.Total/gearings[i+1].Total
			if t.Revs > 0 {
				r.After = t.Revs / r.Step
				r.Drop = t.Revs - r.After
			}
		}
		t.Speeds = append(t.Speeds, r)
	}
	return t, nil
}

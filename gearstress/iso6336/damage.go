package iso6336

import (
	"errors"
	"fmt"
	"math"
)

// Step is one step of a load spectrum.
type Step struct {
	Torque float64 // on the driver, N·mm, > 0
	Speed  float64 // of the driver, rad/s, ≥ 0
	Turns  float64 // turns of the driver at this load, –, ≥ 0
	KHb    float64 // K_Hβ at this load, –, ≥ 1; 0 = that of the Input
}

// Damage is the sum of damage of a load spectrum by Miner's rule, –; 1 is the end of life,
// +Inf a step above the static strength. Index 0 is the driver.
type Damage struct {
	Flank [2]float64 // U of the flank, –
	Root  [2]float64 // U of the root, –
	// FlankShare and RootShare hold what each step adds, – ([step][gear]).
	FlankShare [][2]float64
	RootShare  [][2]float64
	Ratings    []*Rating // each step rated by itself
}

// Damage adds up a load spectrum. Torque, speed, turns and K_Hβ come from the steps,
// all else from in; K_A should be 1, as the spectrum already holds the shocks.
//
//	U = Σ n_i/N_i,  N_i the load cycles that the stress of step i would be borne
//
// with K_v, K_Hα and the strength worked out for each step. The least safeties
// count: N_i is read at the stress times S_Hmin or S_Fmin.
// Source: ISO 6336-6, service life by Palmgren–Miner.
func (f *Form) Damage(in Input, steps []Step) (*Damage, error) {
	if len(steps) == 0 {
		return nil, errors.New("the load spectrum is empty; give at least one step with torque, speed and turns")
	}
	d := &Damage{
		FlankShare: make([][2]float64, len(steps)),
		RootShare:  make([][2]float64, len(steps)),
		Ratings:    make([]*Rating, len(steps)),
	}
	var errs []error
	for k, s := range steps {
		one := in
		one.Torque, one.Speed, one.Turns, one.KHb = s.Torque, s.Speed, s.Turns, or(s.KHb, in.KHb)
		r, err := f.Rate(one)
		if err != nil {
			errs = append(errs, fmt.Errorf("step %d of the load spectrum: %w", k+1, err))
			continue
		}
		d.Ratings[k] = r
		for i := range sides {
			d.FlankShare[k][i] = r.Flank[i].damage(or(in.MinFlank, 1))
			d.RootShare[k][i] = r.Root[i].damage(or(in.MinRoot, 1))
			d.Flank[i] += d.FlankShare[k][i]
			d.Root[i] += d.RootShare[k][i]
		}
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return d, nil
}

// Repeats is how often the whole spectrum can be run before the first of both roots
// and flanks reaches the end of its life, –; +Inf = for ever.
func (d *Damage) Repeats() float64 {
	worst := max(d.Flank[0], d.Flank[1], d.Root[0], d.Root[1])
	if worst == 0 {
		return math.Inf(1)
	}
	return 1 / worst
}

func (o *Outcome) damage(least float64) float64 {
	return o.Curve.DamageOf(o.Stress*least, o.Cycles)
}

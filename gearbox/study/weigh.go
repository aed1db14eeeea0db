package study

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// WeighedBox is one box with what it bears for its mass.
type WeighedBox struct {
	Result  *gearbox.Result
	Whole   bool      // Mass is that of the whole box, as weighed; else that of shafts and gears
	Mass    float64   // kg
	PerMass []float64 // allowable torque over Mass, by speed of Result, N·mm/kg; +Inf where no limit is reached
	Least   int       // the speed with the least allowable torque; −1 = none has a limit
}

// Weigh puts allowable torques over masses. All boxes are told on one basis: the whole box where each was weighed whole, else shafts and gears. It is nil when
// a result doesn't tell its weights.
func Weigh(results []*gearbox.Result) []WeighedBox {
	whole := true
	for _, r := range results {
		if r.Weights == nil {
			return nil
		}
		whole = whole && r.Box.Weighed.Box > 0
	}
	all := make([]WeighedBox, len(results))
	for i, r := range results {
		w := WeighedBox{Result: r, Whole: whole, Mass: r.Weights.Turning(), Least: -1}
		if whole {
			w.Mass = r.Box.Weighed.Box
		}
		for k := range r.Speeds {
			torque := r.Speeds[k].First.Torque
			w.PerMass = append(w.PerMass, torque/w.Mass)
			if !math.IsInf(torque, 1) && (w.Least < 0 || torque < r.Speeds[w.Least].First.Torque) {
				w.Least = k
			}
		}
		all[i] = w
	}
	return all
}

// PerMassOf is the allowable torque over the mass in a speed, N·mm/kg; NaN when the box hasn't got it.
func (w *WeighedBox) PerMassOf(speed string) float64 {
	for i := range w.Result.Speeds {
		if w.Result.Speeds[i].Name == speed {
			return w.PerMass[i]
		}
	}
	return math.NaN()
}

// Synchroniser is that of a speed; nil when the box hasn't got the speed.
func (w *WeighedBox) Synchroniser(speed string) *gearbox.Synchroniser {
	for i := range w.Result.Weights.Synchronisers {
		if y := &w.Result.Weights.Synchronisers[i]; y.Speed == speed {
			return y
		}
	}
	return nil
}

// addMass adds the mass of shafts and gears by their dimensions, which can be shared out over causes as what the scales showed can't. It is the same in every speed.
func (row *SpeedRow) addMass(results []*gearbox.Result) {
	values := make([]float64, len(results))
	for i, r := range results {
		values[i] = math.NaN()
		if r.Weights == nil {
			return
		}
		if row.Boxes[i] != nil {
			values[i] = r.Weights.ByDimensions()
		}
	}
	d := Difference{Name: "mass of shafts and gears by dimensions", Key: "mass", Dimension: quantity.Mass, Values: values}
	for i, v := range values {
		d.Change = append(d.Change, change(v, values[0], i == 0))
	}
	row.Items = append(row.Items, d)
}

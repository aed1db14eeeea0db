package study

import (
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// transmitted adds the torque that clutch and tyres let through to the teeth, and what is left of the allowable torque
// against it, where a box tells of clutch or tyres.
func (row *SpeedRow) transmitted() {
	if !slices.ContainsFunc(row.Boxes, func(s *gearbox.SpeedResult) bool { return s != nil && s.Reach != nil }) {
		return
	}
	of := func(f func(*gearbox.SpeedResult) float64) func(int, *gearbox.SpeedResult) float64 {
		return func(_ int, s *gearbox.SpeedResult) float64 {
			if s.Reach == nil {
				return math.NaN()
			}
			return f(s)
		}
	}
	row.add("torque transmitted, peak", "transmitted_peak", "", quantity.Torque, of(func(s *gearbox.SpeedResult) float64 { return s.Reach.Peak.Torque }))
	row.add("torque transmitted, continuous", "transmitted", "", quantity.Torque, of(func(s *gearbox.SpeedResult) float64 { return s.Reach.Running.Torque }))
	if slices.ContainsFunc(row.Boxes, func(s *gearbox.SpeedResult) bool { return s != nil && s.Margins != nil }) {
		row.add("margin against the torque transmitted", "transmitted_margin", "", quantity.Number, of(marginTransmitted))
		d := &row.Items[len(row.Items)-1]
		for i, v := range d.Values {
			d.Change[i] = v - d.Values[0]
		}
	}
}

// marginTransmitted is the least margin of a speed against the torque transmitted: allowable over transmitted torque − 1.
func marginTransmitted(s *gearbox.SpeedResult) float64 {
	if s.Reach == nil || s.Reach.First < 0 {
		return math.NaN()
	}
	return s.Margins[s.Reach.First].Reached
}

// gearings are those of all boxes that can tell them; nil for one box alone.
func gearings(results []*gearbox.Result) (all [][]gearbox.Gearing) {
	if len(results) < 2 {
		return nil
	}
	for _, r := range results {
		g, err := gearbox.Gearings(r.Box, 0)
		if err != nil {
			g = nil // the box was solved, so only what isn't needed to solve it is at fault
		}
		all = append(all, g)
	}
	return all
}

// addWheels adds the allowable torque at the wheels where ratios differ: at the input the longer ratio looks the stronger
// one.
func (row *SpeedRow) addWheels(wheels [][]gearbox.Gearing) {
	d := Difference{Name: "allowable torque at the wheels", Key: "wheel_torque", Dimension: quantity.Torque}
	ratios := map[float64]bool{}
	for i, s := range row.Boxes {
		v := math.NaN()
		if s != nil && len(wheels) > 0 {
			if k := slices.IndexFunc(wheels[i], func(g gearbox.Gearing) bool { return g.Name == row.Name }); k >= 0 {
				g := &wheels[i][k]
				ratios[g.Total] = true
				v = s.First.Torque * g.Total * g.ToWheels
			}
		}
		d.Values = append(d.Values, v)
		d.Change = append(d.Change, change(v, d.Values[0], i == 0))
	}
	if len(ratios) > 1 {
		row.Items = slices.Insert(row.Items, 1, d) // beside that at the input
	}
}

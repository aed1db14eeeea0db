package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearstress/agma2001"
	"layshaft/material"
)

// Second opinions stand beside the rating by ISO 6336 and decide nothing. They differ in definition, not only in digits: see the package comments of lewis and agma2001.

// agmaCycles is for how many load cycles the AGMA opinion is given, whatever the duty: that of its allowable stress numbers.
const agmaCycles = 1e7

// usualQuality is the transmission accuracy number Q_v taken for car gears; common practice, no source.
const usualQuality = 9

// opinions adds what was asked for beside ISO to a judged mesh.
func (v *solver) opinions(sr *SpeedResult, n int, q *pair, add func(Margin)) error {
	if slices.Contains(v.p.second, Lewis) && q.form != nil {
		v.lewis(sr, n, q, add)
	}
	if slices.Contains(v.p.second, AGMA) {
		return v.agma(sr, n, q, add)
	}
	return nil
}

// lewis is the hand calculation: load even along the face, no load factors.
func (v *solver) lewis(sr *SpeedResult, n int, q *pair, add func(Margin)) {
	m := &sr.Meshes[n]
	linear := func(s float64) demand { return func(t float64) float64 { return s * t / v.asked } }
	for k, name := range m.Gears {
		stress, notes := m.Root[k], v.p.box.rests(RootLewis, q.steels[k].Name)
		if math.IsNaN(stress) {
			stress = m.RootReal[k]
			notes = append(notes, fmt.Sprintf("%s: no published Lewis table covers this tooth; the parabola in the real tooth stands in.", name))
		}
		if !math.IsNaN(stress) {
			add(v.margin(RootLewis, name, linear(stress), &q.steels[k].Yield, notes))
		}
	}
	root := func(t float64) float64 { return m.Contact * math.Sqrt(t/v.asked) }
	add(v.margin(FlankHertz, q.name, root, &q.flank, nil))
}

// agma is ANSI/AGMA 2001-D04 with the load along the face from the bent shafts.
func (v *solver) agma(sr *SpeedResult, n int, q *pair, add func(Margin)) error {
	m := &sr.Meshes[n]
	form, err := agma2001.NewForm(q.geometry, agma2001.ToolOf(q.geometry.Rack))
	if err != nil {
		m.Notes = append(m.Notes, "no AGMA rating: "+err.Error())
		return nil
	}
	rate := func(torque float64, level material.Level) (*agma2001.Rating, error) {
		seen, err := v.measure(torque)
		if err != nil {
			return nil, err
		}
		factor, err := seen.factor(n, level)
		if err != nil {
			return nil, err
		}
		in := agma2001.Input{Form: form, Turns: agmaCycles, Quality: usualQuality, FaceLoad: max(1, factor), FaceLoadOrigin: "load along the face from the bent shafts"}
		in.Torque, in.Speed = v.driver(n, torque, v.p.box.Revs)
		for k, s := range q.steels {
			if in.Gear[k].Strength, err = agma2001.StrengthOf(s, level); err != nil {
				return nil, err
			}
			in.Gear[k].Reversed = v.p.idler(q.gears[k], v.speed)
			if rim := v.p.box.Gears[q.gears[k]].Rim; rim > 0 {
				in.Gear[k].Backup = 2 * rim / (q.geometry.Tip[k] - q.geometry.Root[k])
			}
		}
		return agma2001.Rate(in)
	}
	if m.AGMA, err = rate(v.asked, v.p.box.Limits.Strength); err != nil {
		m.Notes = append(m.Notes, "no AGMA rating: "+err.Error())
		return nil
	}
	m.Checks = append(m.Checks, sentences("AGMA rating: ", m.AGMA.Notes)...)
	for k, name := range m.Gears {
		for _, a := range []struct {
			kind    Kind
			outcome func(*agma2001.Rating) *agma2001.Outcome
		}{
			{RootAGMA, func(r *agma2001.Rating) *agma2001.Outcome { return &r.Root[k].Outcome }},
			{FlankAGMA, func(r *agma2001.Rating) *agma2001.Outcome { return &r.Flank[k].Outcome }},
		} {
			// Permissible at the cycles of the rating, taken back to those of the allowable number.
			limit := func(o *agma2001.Outcome) float64 { return o.Permissible / o.LifeFactor }
			margin := Margin{Kind: a.kind, Item: name, Level: v.p.box.Limits.Strength, Demand: a.outcome(m.AGMA).Stress}
			var limits [material.High + 1]float64
			for level := range limits {
				used := func(torque float64) float64 {
					r, e := rate(torque, material.Level(level))
					if e != nil {
						err = e
						return math.NaN()
					}
					limits[level] = limit(a.outcome(r))
					return a.outcome(r).Stress / limits[level]
				}
				margin.Allowable[level] = allowable(used, 1, v.asked, a.kind.power())
			}
			if err != nil {
				return err
			}
			margin.Limit = material.Band{Low: limits[0], Typical: limits[1], High: limits[2], Source: "ANSI/AGMA 2001-D04 at 10⁷ cycles, whatever the duty, 99 % reliability; " + agmaSource(q.steels[k], a.kind)}
			v.p.box.judge(&margin, v.asked)
			add(margin)
		}
	}
	return nil
}

func agmaSource(s material.Steel, kind Kind) string {
	if kind == RootAGMA {
		return s.AGMARoot.Source
	}
	return s.AGMAFlank.Source
}

package gearbox

import (
	"layshaft/gearstress/agma2001"
	"layshaft/material"
)

// Second opinions stand beside the rating by ISO 6336 and decide nothing. They differ in definition, not only in digits: see the package comments of lewis and agma2001.

// agmaCycles is for how many load cycles the AGMA opinion is given, whatever the duty: that of its allowable stress numbers.
const agmaCycles = 1e7

// usualQuality is the transmission accuracy number Q_v taken for car gears; common practice, no source.
const usualQuality = 9

// rateAGMA rates the mesh at a step of the path by ANSI/AGMA 2001-D04 at an input torque, N·mm, at one end of the steel bands.
func (v *solver) rateAGMA(step int, q *pair, form *agma2001.Form, torque float64, level material.Level) (*agma2001.Rating, error) {
	factor, err := v.factor(step, torque)
	if err != nil {
		return nil, err
	}
	in := agma2001.Input{Form: form, Turns: agmaCycles, Quality: usualQuality, FaceLoad: max(1, factor), FaceLoadOrigin: "load along the face from the bent shafts"}
	in.Torque, in.Speed = v.driver(step, torque, v.p.box.Revs)
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

func agmaSource(s material.Steel, kind Kind) string {
	if kind == RootAGMA {
		return s.AGMARoot.Source
	}
	return s.AGMAFlank.Source
}

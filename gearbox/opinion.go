package gearbox

import (
	"layshaft/gearstress/agma2001"
	"layshaft/material"
)

// Second opinions stand beside the rating by ISO 6336 and decide nothing. They differ in definition, not only in digits: see the package comments of lewis and agma2001.

// agmaCycles is for how many load cycles the AGMA opinion is given, whatever the duty: that of its allowable stress numbers.
const agmaCycles = 1e7

// agmaReliability is the share of gears that outlast the AGMA opinion: that of its allowable stress numbers, and of those of ISO 6336.
const agmaReliability = 0.99

// quality is the transmission accuracy number Q_v of a mesh: that of its coarser gear, of the usual grade where none is given.
func (p *prepared) quality(q *pair) float64 {
	coarsest := 0
	for _, g := range q.gears {
		grade := p.box.Gears[g].Grade
		if grade == 0 {
			grade = usualGrade
		}
		coarsest = max(coarsest, grade)
	}
	return agma2001.QualityOfAccuracy(float64(coarsest))
}

// rateAGMA rates the mesh at a step of the path by ANSI/AGMA 2001-D04 at an input torque, N·mm, at one end of the steel bands.
func (v *solver) rateAGMA(step int, q *pair, form *agma2001.Form, torque float64, level material.Level) (*agma2001.Rating, error) {
	factor, err := v.factor(step, torque, level)
	if err != nil {
		return nil, err
	}
	in := agma2001.Input{Form: form, Turns: agmaCycles, Quality: v.p.quality(q), Reliability: agmaReliability,
		FaceLoad: max(1, factor), FaceLoadOrigin: "load along the face from the bent shafts"}
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

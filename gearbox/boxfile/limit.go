package boxfile

import (
	"layshaft/beam/strength"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// slopes are angles by which a shaft may stand askew in a bearing, tilts those of two gears: more than a ball joint turns, or than backlash lets teeth turn, is
// no limit.
var (
	slopes = within(0.001, 300, 1e-3, " mrad")
	tilts  = within(0.001, 100, 1e-3, " mrad").usually(0.05, 5, 1e-3, " mrad", "the tilt that a mesh bears")
)

var limitFields = []field[gearbox.Limits]{
	{key: "strength", about: "end of each steel band by which the states are judged", fallback: "low", value: word("level", []string{"low", "typical", "high"}, func(l *gearbox.Limits, w string) {
		if level, err := material.ParseLevel(w); err == nil {
			l.Strength = level
		}
	})},
	{key: "reserve", about: "wanted torque margin", fallback: "10 %", value: number(quantity.Number, percent(-50, 500), func(l *gearbox.Limits) *float64 { return &l.Reserve })},
	{key: "tilt_rule", about: "rule for the mesh tilt: textbook spur 0.5 mrad, vehicle practice 2 mrad", fallback: "by the teeth of each mesh: vehicle practice for helical, crowned or relieved ones, textbook spur for others", value: word("rule", gearbox.TiltRules(), func(l *gearbox.Limits, t gearbox.TiltRule) { l.Tilt = t })},
	{key: "mesh_tilt", about: "largest mesh tilt; goes before the rule", fallback: "by the rule", value: number(quantity.Slope, tilts, func(l *gearbox.Limits) *float64 { return &l.MeshTilt })},
	{key: "separation", about: "largest separation of two gears", fallback: "by the table in the result", value: number(quantity.Length, within(0.0001, 10, 1, " mm").such("0.1 mm").usually(0.005, 0.5, 1, " mm", "the separation that a mesh bears"), func(l *gearbox.Limits) *float64 { return &l.Separation })},
	{key: "static_safety", about: "C₀/P₀ that every bearing must keep at the peak", fallback: "1", value: number(quantity.Number, within(0.3, 10, 1, ""), func(l *gearbox.Limits) *float64 { return &l.StaticSafety })},
	{key: "bearing_reliability", about: "share of bearings that must outlast the duty", fallback: "90 %, that of the basic life", value: number(quantity.Number, percent(50, 99.95), func(l *gearbox.Limits) *float64 { return &l.BearingReliability })},
	{key: "bearing_slope", about: "largest slope of a shaft in any bearing", fallback: "by the type of bearing", value: number(quantity.Slope, slopes.usually(0.1, 10, 1e-3, " mrad", "what a bearing bears"), func(l *gearbox.Limits) *float64 { return &l.Slope })},
	{key: "shaft_criterion", about: "how mean stress takes from the fatigue strength of shafts; the criteria disagree on whether steady or pulsating torsion is worse", fallback: "Goodman", value: word("criterion", strength.Criteria(), func(l *gearbox.Limits, c strength.Criterion) { l.ShaftCriterion = c })},
	{key: "shaft_torsion", about: "whether the torque on a turning shaft stays or comes and goes, for its fatigue", fallback: "steady", value: word("way of torsion", strength.Torsions(), func(l *gearbox.Limits, t strength.Torsion) { l.ShaftTorsion = t })},
	{key: "pitting", about: "whether a little pitting of the flanks may be borne", fallback: "no", value: yesNo(func(l *gearbox.Limits, yes bool) { l.Pitting = yes })},
}

package study

import (
	"slices"

	"layshaft/gearbox"
	"layshaft/material"
)

// Learned gives a changed box the steels that service history has narrowed in the box it was made of: what the parts survived was survived with the dimensions that they
// had. A strength that the change itself describes anew stays as the change has it. What bearings and meshes leaned at those loads, they leaned in the box as it was: of the
// changed one nothing is known of that.
func Learned(narrowed, changed *gearbox.Box) *gearbox.Box {
	if len(narrowed.Narrowed) == 0 {
		return changed
	}
	before := unnarrowed(narrowed)
	c := *changed
	c.Steels = slices.Clone(changed.Steels)
	c.Narrowed, c.Lessons, c.Survived = nil, narrowed.Lessons, nil
	for _, n := range narrowed.Narrowed {
		was, known := before.Steel(n.Steel)
		is, there := changed.Steel(n.Steel)
		now, learned := narrowed.Steel(n.Steel)
		if !known || !there || !learned || n.Strength.Band(&was) != n.Strength.Band(&is) {
			continue
		}
		c.Narrowed = append(c.Narrowed, n)
		at := slices.IndexFunc(c.Steels, func(s material.Steel) bool { return s.Name == n.Steel })
		if at < 0 {
			at = len(c.Steels)
			c.Steels = append(c.Steels, is)
		}
		to := &c.Steels[at]
		*n.Strength.Of(to) = *n.Strength.Of(&now)
		if static, ok := n.Strength.Static(); ok { // it may stay as it was while that of fatigue moves
			*static.Of(to) = *static.Of(&now)
		}
	}
	return &c
}

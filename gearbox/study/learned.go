package study

import (
	"slices"

	"layshaft/gearbox"
	"layshaft/material"
)

// Learned gives a changed box the steels that evidence has narrowed in the box it was made of: what the parts have lived through was lived through with the dimensions that they
// had. A steel that the change itself describes anew stays as the change has it.
func Learned(narrowed, changed *gearbox.Box) *gearbox.Box {
	if len(narrowed.Narrowed) == 0 {
		return changed
	}
	before := unnarrowed(narrowed)
	c := *changed
	c.Steels = slices.Clone(changed.Steels)
	c.Narrowed, c.Lessons = nil, narrowed.Lessons
	for _, n := range narrowed.Narrowed {
		was, known := before.Steel(n.Steel)
		is, there := changed.Steel(n.Steel)
		now, learned := narrowed.Steel(n.Steel)
		if !known || !there || !learned || *n.Strength.Of(&was) != *n.Strength.Of(&is) {
			continue
		}
		c.Narrowed = append(c.Narrowed, n)
		at := slices.IndexFunc(c.Steels, func(s material.Steel) bool { return s.Name == n.Steel })
		if at < 0 {
			c.Steels = append(c.Steels, now)
			continue
		}
		c.Steels[at] = now
	}
	return &c
}

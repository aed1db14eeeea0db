package study

import (
	"reflect"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// field is a number of a box that is told where it differs.
type field struct {
	part, what string
	dimension  quantity.Dimension
	value      *float64
}

// fields are the numbers of a group that mean what they say: none of those whose 0 stands for "as usual".
func fields(b *gearbox.Box, g Group) (all []field) {
	add := func(part, what string, d quantity.Dimension, value *float64) {
		all = append(all, field{part, what, d, value})
	}
	switch g {
	case Teeth:
		for i := range b.Gears {
			gear := &b.Gears[i]
			add(gear.Name, "crowning", quantity.Deflection, &gear.Crowning)
			add(gear.Name, "lead error", quantity.Deflection, &gear.LeadError)
			add(gear.Name, "tip relief", quantity.Deflection, &gear.TipRelief)
		}
		for i := range b.Meshes {
			add("mesh "+b.Meshes[i].Name, "module", quantity.Length, &b.Meshes[i].Module)
			add("mesh "+b.Meshes[i].Name, "helix", quantity.Angle, &b.Meshes[i].Helix)
		}
		for i := range b.Centres {
			c := &b.Centres[i]
			add(c.Between[0]+" to "+c.Between[1], "distance", quantity.Length, &c.Distance)
		}
	case Losses:
		for i := range b.Meshes {
			add("mesh "+b.Meshes[i].Name, "efficiency", quantity.Number, &b.Meshes[i].Efficiency)
		}
	case Seats:
		for i := range b.Shafts {
			s := &b.Shafts[i]
			for j := range s.Bearings {
				br := &s.Bearings[j]
				part := "bearing " + br.Name + " of the " + gearbox.ShaftTitle(s.Name)
				add(part, "stiffness", quantity.RadialStiffness, &br.Radial)
				add(part, "tilt stiffness", quantity.TiltStiffness, &br.Tilt)
			}
		}
	case Oil:
		add("", "viscosity", quantity.Viscosity, &b.Oil.Viscosity)
		add("", "temperature", quantity.Temperature, &b.Oil.Temperature)
	case Asked:
		add("", "torque", quantity.Torque, &b.Torque)
		add("", "shock", quantity.Number, &b.Shock)
		add("", "revs", quantity.RotationalSpeed, &b.Revs)
	case Judging:
		add("", "reserve", quantity.Number, &b.Limits.Reserve)
	}
	return all
}

// differingFields are the facts about the fields of a group, and whether the boxes differ in more than these. The boxes
// differ in no other group.
func differingFields(a, b *gearbox.Box, g Group) (all []Fact, more bool) {
	x, y := fields(a, g), fields(b, g)
	if len(x) != len(y) {
		return nil, true
	}
	level := *b // b with the fields of a
	level.Shafts, level.Gears = slices.Clone(b.Shafts), slices.Clone(b.Gears)
	level.Meshes, level.Centres = slices.Clone(b.Meshes), slices.Clone(b.Centres)
	for i := range level.Shafts {
		level.Shafts[i].Bearings = slices.Clone(level.Shafts[i].Bearings)
	}
	for i, to := range fields(&level, g) {
		if from := x[i]; *from.value != *to.value {
			all = append(all, Fact{Part: from.part, What: from.what, Dimension: from.dimension, From: *from.value, To: *to.value})
			*to.value = *from.value
		}
	}
	return all, !reflect.DeepEqual(a, &level)
}

package study

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// field is a value of a box that is told where it differs.
type field struct {
	part, what string
	dimension  quantity.Dimension
	value      any           // a pointer to it; a number is a float64, an int or a *float64, of which nil is not given
	zero       float64       // what a 0 stands for: NaN = not given, +Inf = rigid
	name       func() string // of what has a name instead of a number
	path       string        // where the file may say that it is unknown; "" = nowhere
}

// number is what a field says; NaN = nothing.
func (f *field) number() float64 {
	v := math.NaN()
	if f.name != nil {
		return v
	}
	switch value := f.value.(type) {
	case *float64:
		v = *value
	case *int:
		v = float64(*value)
	case **float64:
		if *value != nil {
			return **value
		}
	}
	if v == 0 {
		return f.zero
	}
	return v
}

// text is the name of what has none but a name, or isn't known; "" of a number.
func (f *field) text(b *gearbox.Box) string {
	switch {
	case b.Unknown[f.path]:
		return "unknown"
	case f.name != nil:
		return f.name()
	}
	return ""
}

// fields are the numbers of a group.
func fields(b *gearbox.Box, g Group) (all []field) {
	notGiven, rigid := math.NaN(), math.Inf(1)
	add := func(part, what string, d quantity.Dimension, value any, zero float64) {
		all = append(all, field{part: part, what: what, dimension: d, value: value, zero: zero})
	}
	named := func(part, what, path string, value any, name func() string) {
		all = append(all, field{part: part, what: what, value: value, name: name, path: path})
	}
	unless := func(path string) { all[len(all)-1].path = path }
	switch g {
	case Teeth:
		for i := range b.Gears {
			gear := &b.Gears[i]
			add(gear.Name, "crowning", quantity.Deflection, &gear.Crowning, 0)
			add(gear.Name, "lead error", quantity.Deflection, &gear.LeadError, 0)
			add(gear.Name, "tip relief", quantity.Deflection, &gear.TipRelief, 0)
			add(gear.Name, "tooth thinning", quantity.Deflection, &gear.Thinning, 0)
			add(gear.Name, "profile shift", quantity.Number, &gear.Shift, 0)
			add(gear.Name, "tip diameter", quantity.Length, &gear.TipDiameter, notGiven)
			add(gear.Name, "accuracy grade", quantity.Number, &gear.Grade, notGiven)
			unless("gears." + gear.Name + ".grade")
		}
		for i := range b.Meshes {
			m := &b.Meshes[i]
			add("mesh "+m.Name, "module", quantity.Length, &m.Module, 0)
			add("mesh "+m.Name, "helix", quantity.Angle, &m.Helix, 0)
			add("mesh "+m.Name, "pressure angle", quantity.Angle, &m.Rack.PressureAngle, 0)
			named("mesh "+m.Name, "hand of the driver", "meshes."+m.Name+".hand", &m.Hand, func() string { return cmp.Or(string(m.Hand), "spur") })
		}
		for i := range b.Centres {
			c := &b.Centres[i]
			add(c.Between[0]+" to "+c.Between[1], "distance", quantity.Length, &c.Distance, 0)
		}
	case Bodies:
		for i := range b.Gears {
			gear := &b.Gears[i]
			add(gear.Name, "rim", quantity.Length, &gear.Rim, notGiven)
			add(gear.Name, "web", quantity.Length, &gear.Web, notGiven)
			add(gear.Name, "bore", quantity.Length, &gear.Bore, notGiven)
		}
	case Efficiencies:
		for i := range b.Meshes {
			add("mesh "+b.Meshes[i].Name, "efficiency", quantity.Number, &b.Meshes[i].Efficiency, 0)
		}
	case Seats:
		for i := range b.Shafts {
			s := &b.Shafts[i]
			for j := range s.Bearings {
				br := &s.Bearings[j]
				add(bearingTitle(s, j), "stiffness", quantity.RadialStiffness, &br.Radial, 0)
				add(bearingTitle(s, j), "tilt stiffness", quantity.TiltStiffness, &br.Tilt, 0)
				named(bearingTitle(s, j), "type", "", &br.Type, func() string { return string(br.Type) })
			}
		}
		for i := range b.Gears {
			if gear := &b.Gears[i]; gear.Seat != nil {
				add(gear.Name, "seat length", quantity.Length, &gear.Seat.Length, 0)
				add(gear.Name, "seat clearance", quantity.Length, &gear.Seat.Clearance, 0)
				add(gear.Name, "seat offset", quantity.Length, &gear.Seat.Offset, 0)
				add(gear.Name, "seat stiffness", quantity.RadialStiffness, &gear.Seat.Stiffness, rigid)
			}
		}
		for i := range b.Gears {
			gear := &b.Gears[i]
			named(gear.Name, "seat", "gears."+gear.Name+".seat", &gear.Seat, func() string {
				if gear.Seat == nil {
					return "fast"
				}
				return "free"
			})
		}
	case Case:
		add("", "stiffness", quantity.RadialStiffness, &b.Housing.Radial, rigid)
		unless("housing")
		for i := range b.Shafts {
			s := &b.Shafts[i]
			for j := range s.Bearings {
				add(bearingTitle(s, j), "stiffness", quantity.RadialStiffness, &s.Bearings[j].Housing, notGiven)
				unless("shafts." + s.Name + ".bearings." + s.Bearings[j].Name + ".housing")
			}
		}
	case Steel:
		for i := range b.Gears {
			gear := &b.Gears[i]
			named(gear.Name, "steel", "gears."+gear.Name+".steel", &gear.Steel, func() string { return gear.Steel })
		}
		for i := range b.Shafts {
			s := &b.Shafts[i]
			named(gearbox.ShaftTitle(s.Name), "steel", "shafts."+s.Name+".steel", &s.Steel, func() string { return s.Steel })
		}
	case Sense:
		named("", "sense of rotation", "input.turns", &b.Turns, func() string {
			if b.Turns < 0 {
				return "anticlockwise"
			}
			return "clockwise"
		})
	case Oil:
		add("", "viscosity", quantity.Viscosity, &b.Oil.Viscosity, notGiven)
		add("", "temperature", quantity.Temperature, &b.Oil.Temperature, notGiven)
	case Asked:
		add("", "torque", quantity.Torque, &b.Torque, 0)
		add("", "shock", quantity.Number, &b.Shock, 1)
		add("", "revs", quantity.RotationalSpeed, &b.Revs, notGiven)
		if c := b.Clutch; c != nil {
			add("clutch", "torque", quantity.Torque, &c.Torque, notGiven)
			add("clutch", "clamp", quantity.Force, &c.Clamp, notGiven)
			add("clutch", "friction", quantity.Number, &c.Friction, notGiven)
			add("clutch", "mean radius", quantity.Length, &c.Radius, notGiven)
		}
		if c := b.Car; c != nil {
			add("car", "tyre radius", quantity.Length, &c.TyreRadius, notGiven)
			add("car", "mass", quantity.Mass, &c.Mass, notGiven)
			add("car", "driven share", quantity.Number, &c.DrivenShare, notGiven)
			add("car", "grip", quantity.Number, &c.Grip, notGiven)
		}
		if d := b.Duty; d != nil {
			add("duty", "passes", quantity.Number, &d.Passes, 0)
			for i := range d.Steps {
				step := &d.Steps[i]
				part := fmt.Sprintf("duty, step %d in %s", i+1, step.Speed)
				add(part, "turns", quantity.Number, &step.Turns, notGiven)
				add(part, "torque over the asked one", quantity.Number, &step.Share, 0)
				add(part, "time", quantity.Time, &step.Time, notGiven)
				add(part, "revs", quantity.RotationalSpeed, &step.Revs, notGiven)
			}
		}
	case Judging:
		add("", "reserve", quantity.Number, &b.Limits.Reserve, 0)
		named("", "strength", "", &b.Limits.Strength, func() string { return b.Limits.Strength.String() })
	}
	return all
}

// differingFields are the facts about the fields of a group that both boxes have, and whether the boxes differ in more than
// these. The boxes differ in no other group.
func differingFields(a, b *gearbox.Box, g Group) (all []Fact, more bool) {
	level := own(b) // with the fields of a
	to := fields(level, g)
	for _, from := range fields(a, g) {
		k := slices.IndexFunc(to, func(f field) bool { return f.part == from.part && f.what == from.what })
		if k < 0 {
			continue
		}
		f := Fact{Part: from.part, What: from.what, Dimension: from.dimension, From: from.number(), To: to[k].number()}
		f.Names = [2]string{from.text(a), to[k].text(level)}
		v, w := reflect.ValueOf(from.value).Elem(), reflect.ValueOf(to[k].value).Elem()
		switch {
		case f.Names[0] != f.Names[1], f.Names[0] == "" && f.From != f.To && !(math.IsNaN(f.From) && math.IsNaN(f.To)):
			all = append(all, f)
		}
		w.Set(v)
	}
	// What is unknown has been told.
	level.Unknown = unknown(level, func(d doubt, _ int) bool {
		told := slices.ContainsFunc(to, func(f field) bool { return f.path == d.path })
		return told && a.Unknown[d.path] || !told && level.Unknown[d.path]
	})
	return all, !reflect.DeepEqual(a, level)
}

// own is a box whose fields can be set without touching the original.
func own(b *gearbox.Box) *gearbox.Box {
	c := *b
	c.Shafts, c.Gears = slices.Clone(b.Shafts), slices.Clone(b.Gears)
	c.Meshes, c.Centres = slices.Clone(b.Meshes), slices.Clone(b.Centres)
	for i := range c.Shafts {
		c.Shafts[i].Bearings = slices.Clone(c.Shafts[i].Bearings)
	}
	for i := range c.Gears {
		c.Gears[i].Seat = copied(c.Gears[i].Seat)
	}
	if c.Clutch, c.Car, c.Duty = copied(b.Clutch), copied(b.Car), copied(b.Duty); c.Duty != nil {
		c.Duty.Steps = slices.Clone(c.Duty.Steps)
	}
	return &c
}

// copied is a thing of its own with the same value; nil of nil.
func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}

package view

import (
	"fmt"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// SenseWords says which way the input shaft turns, and what that does to the first pair that carries, in words that can be held against the parts; "" where no pair carries.
func SenseWords(r *gearbox.Result) string {
	for i := range r.Speeds {
		s := &r.Speeds[i]
		if len(s.Meshes) == 0 {
			continue
		}
		m := &s.Meshes[0]
		if m.FlankSide() == "" {
			continue
		}
		assumed := ""
		if !r.Box.Given("input.turns") {
			assumed = " (assumed)"
		}
		text := fmt.Sprintf("Seen from the left end, the %s turns %s%s; in %s ", gearbox.ShaftTitle(Clean(m.Shafts[0])), gearbox.SenseName(m.Sense(0)), assumed, Clean(s.Name))
		if way := m.Thrust(0); way != "" {
			text += fmt.Sprintf("the %s pushes its shaft to the %s, and ", Clean(m.Gears[0]), way)
		}
		return text + fmt.Sprintf("the %s flanks of its teeth carry.", m.FlankSide())
	}
	return ""
}

// SenseTable has one row per speed and loaded mesh: which way its driver turns, which flanks carry, and which way its shafts are pushed.
func SenseTable(speeds []gearbox.SpeedResult, o Options) *Table {
	t := o.table("Which way it turns and pushes, seen from the left end, the tooth on top", once("speed", 5), words("driving gear", 8), words("turns", 0),
		words("flanks\nthat carry", 0), words("pushes its\nshaft", 0), words("the other\ngear its", 0), numbers("thrust", quantity.Force))
	for _, s := range speeds {
		for i := range s.Meshes {
			m := &s.Meshes[i]
			if m.FlankSide() == "" {
				t.add(word(s.Name), word(m.Gears[0]), absent(), absent(), absent(), absent(), absent())
				continue
			}
			t.add(word(s.Name), word(m.Gears[0]), word(gearbox.SenseName(m.Sense(0))), word(m.FlankSide()), word(pushed(m, 0)), word(pushed(m, 1)), number(max(m.Axial, -m.Axial)))
		}
	}
	return t.done()
}

// pushed is which way a gear pushes its shaft.
func pushed(m *gearbox.MeshResult, gear int) string {
	if way := m.Thrust(gear); way != "" {
		return way
	}
	return Absent
}

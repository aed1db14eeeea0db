package reports

import (
	"bytes"
	"fmt"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
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
		text := fmt.Sprintf("Seen from the left end, the %s turns %s%s; in %s ", gearbox.ShaftTitle(view.Clean(m.Shafts[0])), gearbox.SenseName(m.Sense(0)), assumed, view.Clean(s.Name))
		if way := m.Thrust(0); way != "" {
			text += fmt.Sprintf("the %s pushes its shaft to the %s, and ", view.Clean(m.Gears[0]), way)
		}
		return text + fmt.Sprintf("the %s flanks of its teeth carry.", m.FlankSide())
	}
	return ""
}

// senseTable has one row per speed and loaded mesh: which way its driver turns, which flanks carry, and which way its shafts are pushed.
func senseTable(b *bytes.Buffer, r *gearbox.Result, o Options) {
	var thrusts []float64
	for _, s := range r.Speeds {
		for i := range s.Meshes {
			thrusts = append(thrusts, max(s.Meshes[i].Axial, -s.Meshes[i].Axial))
		}
	}
	if len(thrusts) == 0 {
		return
	}
	thrust := view.AlikeIn(thrusts, quantity.Force, o.Units)
	var rows [][]cell
	for _, s := range r.Speeds {
		for i := range s.Meshes {
			m := &s.Meshes[i]
			speed := ""
			if i == 0 {
				speed = view.Clean(s.Name)
			}
			row := []cell{{text: speed}, {text: view.Clean(m.Gears[0])}}
			if m.FlankSide() == "" {
				rows = append(rows, append(row, texts(view.Absent, view.Absent, view.Absent, view.Absent, view.Absent)...))
				continue
			}
			rows = append(rows, append(row, texts(gearbox.SenseName(m.Sense(0)), m.FlankSide(), pushed(m, 0), pushed(m, 1), thrust[len(rows)])...))
		}
	}
	b.WriteString("\n  Which way it turns and pushes, seen from the left end, the tooth on top\n")
	table(b, o.width(), []head{
		{text: "speed", least: 5},
		{text: "driving gear", least: 8},
		{text: "turns"},
		{text: "flanks\nthat carry"},
		{text: "pushes its\nshaft"},
		{text: "the other\ngear its"},
		{text: "thrust\n" + quantity.Unit(quantity.Force, o.Units), right: true},
	}, rows)
}

// pushed is which way a gear pushes its shaft.
func pushed(m *gearbox.MeshResult, gear int) string {
	if way := m.Thrust(gear); way != "" {
		return way
	}
	return view.Absent
}

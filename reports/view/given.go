package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// sumDigits is how many digits of a fingerprint are shown: enough to tell two states of a file apart.
const sumDigits = 12

// Given lists what was given of a box and nothing that was assumed, as headings and words with no-break blanks between numbers and units: the file, steel, work and one line for each loaded mesh.
func Given(r *gearbox.Result, o Options) [][2]string {
	b := r.Box
	var all [][2]string
	add := func(head, words string) {
		if words != "" {
			all = append(all, [2]string{head, words})
		}
	}
	add("File", originWords(b.Origin, true))
	add("Steel", SteelWords(b, false))
	add("Duty", dutyWords(b, o))
	add("Speed of the input shaft", ifGiven(b.Revs > 0, With(b.Revs, quantity.RotationalSpeed, o.Units)))
	add("Shock", ifGiven(b.Shock > 1, "the peak is "+Plain(b.Shock)+" times the torque"))
	add("Oil", oilWords(b.Oil, o))
	add("Case", ifGiven(r.Case > 0, "gives way by "+With(r.Case, quantity.RadialStiffness, o.Units)+" under each bearing"))
	for _, m := range meshesOf(r.Speeds) {
		add("Mesh "+Clean(m.Name), meshWords(m, o))
	}
	return all
}

// ifGiven are the words for what is given, none for what isn't: that is an assumption.
func ifGiven(is bool, words string) string {
	if is {
		return words
	}
	return ""
}

// originWords names the file a box was read from; "" when there is none. The date is that of the file system, which a copy may change.
func originWords(f gearbox.Origin, date bool) string {
	if f.File == "" {
		return ""
	}
	text := Clean(f.File)
	if date && !f.Written.IsZero() {
		text += ", written on " + f.Written.Format("2 January 2006 at 15:04")
	}
	if len(f.Sum) >= sumDigits {
		text += ", SHA-256 begins " + f.Sum[:sumDigits]
	}
	return text
}

// SteelWords names the steels of a box: one for all, or each with the parts that are made of it. Those that the file doesn't give are marked, or left out.
func SteelWords(b *gearbox.Box, assumed bool) string {
	type use struct {
		steel string
		given bool
	}
	var uses []use
	parts := map[use][]string{}
	add := func(steel, where, part string) {
		u := use{cmp.Or(steel, gearbox.DefaultSteel), b.SteelGiven(where)}
		if parts[u] == nil {
			uses = append(uses, u)
		}
		parts[u] = append(parts[u], part)
	}
	for _, g := range b.Gears {
		add(g.Steel, "gears."+g.Name, Clean(g.Name))
	}
	for _, s := range b.Shafts {
		add(s.Steel, "shafts."+s.Name, gearbox.ShaftTitle(Clean(s.Name)))
	}
	var words []string
	for _, u := range uses {
		if !u.given && !assumed {
			continue
		}
		text, remarks := Clean(u.steel), []string(nil)
		if !u.given {
			remarks = append(remarks, "assumed")
		}
		switch {
		case slices.ContainsFunc(b.Narrowed, func(n gearbox.Narrowed) bool { return n.Steel == u.steel }):
			remarks = append(remarks, "narrowed by its service history")
		case slices.ContainsFunc(b.Steels, func(s material.Steel) bool { return s.Name == u.steel }):
			remarks = append(remarks, "given in the file itself")
		}
		if len(remarks) > 0 {
			text += " (" + strings.Join(remarks, ", ") + ")"
		}
		if len(uses) > 1 {
			text += ": " + List(parts[u])
		}
		words = append(words, text)
	}
	return strings.Join(words, "; ")
}

// dutyWords is what a box has to last.
func dutyWords(b *gearbox.Box, o Options) string {
	d := b.Duty
	if d == nil {
		return ""
	}
	var steps []string
	for _, s := range d.Steps {
		step := fmt.Sprintf("%s %.6g turns", Clean(s.Speed), s.Turns)
		if s.Turns == 0 {
			step = fmt.Sprintf("%s %.6g"+NoBreak+"s", Clean(s.Speed), s.Time)
			if s.Revs > 0 {
				step += " at " + With(s.Revs, quantity.RotationalSpeed, o.Units)
			}
		}
		switch {
		case s.Share < 0:
			step += fmt.Sprintf(" of coast at %.3g"+NoBreak+"%%", -100*s.Share)
		case s.Share != 1:
			step += fmt.Sprintf(" at %.3g"+NoBreak+"%%", 100*s.Share)
		}
		steps = append(steps, step)
	}
	return fmt.Sprintf("%.6g passes, each of: %s", d.Passes, strings.Join(steps, ", "))
}

func oilWords(oil gearbox.Oil, o Options) string {
	var all []string
	if oil.Viscosity > 0 {
		all = append(all, With(oil.Viscosity, quantity.Viscosity, o.Units)+" at 40"+NoBreak+"°C")
	}
	if oil.Temperature > 0 {
		all = append(all, With(oil.Temperature, quantity.Temperature, o.Units)+" in the sump")
	}
	if oil.Stage > 0 {
		all = append(all, fmt.Sprintf("fails the FZG test A/8.3/90 at load stage %d", oil.Stage))
	}
	return strings.Join(all, ", ")
}

// meshesOf are the meshes that some speeds load, each once.
func meshesOf(speeds []gearbox.SpeedResult) (all []*gearbox.MeshResult) {
	for i := range speeds {
		for k := range speeds[i].Meshes {
			m := &speeds[i].Meshes[k]
			if !slices.ContainsFunc(all, func(other *gearbox.MeshResult) bool { return other.Name == m.Name }) {
				all = append(all, m)
			}
		}
	}
	return all
}

// meshWords are the measures of a mesh in a line.
func meshWords(m *gearbox.MeshResult, o Options) string {
	g := m.Geometry
	if g == nil {
		return ""
	}
	length := func(mm float64) string {
		return Trimmed(quantity.Convert(mm, quantity.Length, o.Units)) + NoBreak + quantity.Unit(quantity.Length, o.Units)
	}
	helix := "spur"
	if g.Helix != 0 {
		helix = "helix " + Trimmed(quantity.Convert(g.Helix, quantity.Angle, o.Units)) + "°"
	}
	return fmt.Sprintf("%d and %d teeth, module %s, pressure angle %s°, %s, distance %s, face %s", g.Teeth[0], g.Teeth[1], Trimmed(g.Module)+NoBreak+"mm",
		Trimmed(quantity.Convert(g.Rack.PressureAngle, quantity.Angle, o.Units)), helix, length(g.Centre), length(m.Face))
}

package reports

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports/view"
)

// sumDigits is how many digits of a fingerprint are shown: enough to tell two states of a file apart.
const sumDigits = 12

// Told lists what was given of a box and nothing that was assumed, as headings and words with no-break blanks between numbers and units: the file, steel, work and one line for each loaded mesh.
func Told(r *gearbox.Result, o Options) [][2]string {
	b := r.Box
	var all [][2]string
	add := func(head, words string) {
		if words != "" {
			all = append(all, [2]string{head, words})
		}
	}
	add("File", originWords(b.Origin, true))
	add("Steel", steelWords(b, false))
	add("Duty", dutyWords(b, o))
	add("Speed of the input shaft", given(b.Revs > 0, view.With(b.Revs, quantity.RotationalSpeed, o.Units)))
	add("Shock", given(b.Shock > 1, "the peak is "+view.Plain(b.Shock)+" times the torque"))
	add("Oil", oilWords(b.Oil, o))
	add("Case", given(r.Case > 0, "gives way by "+view.With(r.Case, quantity.RadialStiffness, o.Units)+" under each bearing"))
	for _, m := range meshesOf(r) {
		add("Mesh "+view.Clean(m.Name), meshWords(m, o))
	}
	return all
}

// given are the words for what is given, none for what isn't: that is an assumption.
func given(is bool, words string) string {
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
	text := view.Clean(f.File)
	if date && !f.Written.IsZero() {
		text += ", written on " + f.Written.Format("2 January 2006 at 15:04")
	}
	if len(f.Sum) >= sumDigits {
		text += ", SHA-256 begins " + f.Sum[:sumDigits]
	}
	return text
}

// steelWords names the steels of a box: one for all, or each with the parts that are made of it. Those that the file doesn't give are marked, or left out.
func steelWords(b *gearbox.Box, assumed bool) string {
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
		add(g.Steel, "gears."+g.Name, view.Clean(g.Name))
	}
	for _, s := range b.Shafts {
		add(s.Steel, "shafts."+s.Name, gearbox.ShaftTitle(view.Clean(s.Name)))
	}
	var words []string
	for _, u := range uses {
		if !u.given && !assumed {
			continue
		}
		text, remarks := view.Clean(u.steel), []string(nil)
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
			text += ": " + view.List(parts[u])
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
		step := fmt.Sprintf("%s %.6g turns", view.Clean(s.Speed), s.Turns)
		if s.Turns == 0 {
			step = fmt.Sprintf("%s %.6g"+view.NoBreak+"s", view.Clean(s.Speed), s.Time)
			if s.Revs > 0 {
				step += " at " + view.With(s.Revs, quantity.RotationalSpeed, o.Units)
			}
		}
		switch {
		case s.Share < 0:
			step += fmt.Sprintf(" of coast at %.3g"+view.NoBreak+"%%", -100*s.Share)
		case s.Share != 1:
			step += fmt.Sprintf(" at %.3g"+view.NoBreak+"%%", 100*s.Share)
		}
		steps = append(steps, step)
	}
	return fmt.Sprintf("%.6g passes, each of: %s", d.Passes, strings.Join(steps, ", "))
}

func oilWords(oil gearbox.Oil, o Options) string {
	var all []string
	if oil.Viscosity > 0 {
		all = append(all, view.With(oil.Viscosity, quantity.Viscosity, o.Units)+" at 40"+view.NoBreak+"°C")
	}
	if oil.Temperature > 0 {
		all = append(all, view.With(oil.Temperature, quantity.Temperature, o.Units)+" in the sump")
	}
	if oil.Stage > 0 {
		all = append(all, fmt.Sprintf("fails the FZG test A/8.3/90 at load stage %d", oil.Stage))
	}
	return strings.Join(all, ", ")
}

// meshesOf are the meshes that the solved speeds load, each once.
func meshesOf(r *gearbox.Result) (all []*gearbox.MeshResult) {
	for i := range r.Speeds {
		for k := range r.Speeds[i].Meshes {
			m := &r.Speeds[i].Meshes[k]
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
		return view.Trimmed(quantity.Convert(mm, quantity.Length, o.Units)) + view.NoBreak + quantity.Unit(quantity.Length, o.Units)
	}
	helix := "spur"
	if g.Helix != 0 {
		helix = "helix " + view.Trimmed(g.Helix*toDegrees) + "°"
	}
	return fmt.Sprintf("%d and %d teeth, module %s, pressure angle %s°, %s, distance %s, face %s", g.Teeth[0], g.Teeth[1], view.Trimmed(g.Module)+view.NoBreak+"mm",
		view.Trimmed(g.Rack.PressureAngle*toDegrees), helix, length(g.Centre), length(m.Face))
}

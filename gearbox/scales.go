package gearbox

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// checkWeighed warns of bores and readings of the scales that can't be, and keeps the others. They decide over nothing but mass and inertia, so that a box is
// solved with them too.
func (p *prepared) checkWeighed() {
	p.bores = make([]float64, len(p.box.Gears))
	for i, g := range p.box.Gears {
		if g.Bore == 0 {
			continue
		}
		where := path("gears", g.Name, "bore")
		thickest := slices.MaxFunc(p.under(i, g.Face), func(a, b Section) int { return cmp.Compare(a.Outer, b.Outer) }).Outer
		switch _, root, ok := p.outline(i); {
		case ok && g.Bore >= root:
			p.warn(where, "bore wider than the gear", "The bore is %.6g mm, but the root circle of the teeth is %.6g mm. The bore is left out.", g.Bore, root)
		case g.Bore < thickest-closing:
			p.warn(where, "bore narrower than the shaft", "The bore is %.6g mm, but the shaft under the gear is %.6g mm. The bore is left out.", g.Bore, thickest)
		default:
			p.bores[i] = g.Bore
		}
	}
	seen := map[lain]bool{}
	for n, w := range p.box.Weighed.Pieces {
		where := path("weighed", "pieces", fmt.Sprint(n))
		parts := p.onScales(w)
		sound := len(parts) > 0
		if !sound {
			p.warn(where, "nothing on the scales", "Say what was weighed: shaft, gears, or both. The reading is left out.")
		}
		for _, part := range parts {
			switch {
			case seen[part]:
				p.warn(where, "weighed twice", "%s lay on the scales in a reading before. Each part can be in one only, and a gear cut into its shaft is weighed with it. The reading is left out.", part.title())
				sound = false
			case part.kind == GearPart && p.cut(p.gear[part.name]) && p.box.Gears[p.gear[part.name]].Shaft != w.Shaft:
				on := p.box.Gears[p.gear[part.name]].Shaft
				p.warn(where, "a gear that can't be weighed apart", "The teeth of %q reach into the section under them, so it is cut into the %s. Weigh them together, with shaft: %s. The reading is left out.", part.name, ShaftTitle(on), on)
				sound = false
			}
		}
		if !sound {
			continue
		}
		for _, part := range parts {
			seen[part] = true
		}
		p.readings = append(p.readings, w)
	}
}

// lain is a part that lay on the scales.
type lain struct {
	kind PartKind
	name string
}

func (s lain) title() string {
	if s.kind == ShaftPart {
		return "The " + ShaftTitle(s.name)
	}
	return quoted(s.name)
}

// onScales lists what lay on the scales: a shaft brings along the gears that are cut into it.
func (p *prepared) onScales(w Weighing) (all []lain) {
	if w.Shaft != "" {
		all = append(all, lain{ShaftPart, w.Shaft})
		for i, g := range p.box.Gears {
			if g.Shaft == w.Shaft && p.cut(i) && !slices.Contains(w.Gears, g.Name) {
				all = append(all, lain{GearPart, g.Name})
			}
		}
	}
	for _, g := range w.Gears {
		all = append(all, lain{GearPart, g})
	}
	return all
}

// putOnScales puts weighed masses in the place of computed ones: all parts of one reading are scaled alike.
func (p *prepared) putOnScales(w *Weights) {
	for _, reading := range p.readings {
		piece := Piece{Weighed: reading.Mass}
		var parts []*Weight
		for _, s := range p.onScales(reading) {
			i := slices.IndexFunc(w.Parts, func(part Weight) bool { return part.Kind == s.kind && part.Name == s.name })
			part := &w.Parts[i]
			name := part.Name
			if s.kind == ShaftPart {
				name = ShaftTitle(name)
			}
			piece.Names = append(piece.Names, name)
			if !math.IsNaN(part.Computed) {
				piece.Computed += part.Computed
				parts = append(parts, part)
			}
		}
		w.Pieces = append(w.Pieces, piece)
		if len(parts) == 0 && len(piece.Names) == 1 {
			// A gear whose teeth no mesh tells: its mass is known now, its inertia isn't.
			i := slices.IndexFunc(w.Parts, func(part Weight) bool { return part.Kind == GearPart && part.Name == piece.Names[0] })
			w.Parts[i].Mass, w.Parts[i].Weighed = piece.Weighed, true
		}
		for _, part := range parts {
			part.Weighed = true
			part.Mass *= piece.Weighed / piece.Computed
			part.Inertia *= piece.Weighed / piece.Computed
		}
	}
}

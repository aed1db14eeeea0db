package study

import (
	"fmt"
	"math"
	"strings"

	"layshaft/gearbox"
)

// PartLimit is one limit of one part, followed from one box to another.
type PartLimit struct {
	Kind gearbox.Kind
	Item string // as in gearbox.Margin, but a shaft as a whole: its sections are numbered otherwise in other boxes
}

// limitOf is the limit that a margin or a first limit tells of.
func limitOf(kind gearbox.Kind, item string) PartLimit {
	if kind == gearbox.ShaftYield {
		item, _, _ = strings.Cut(item, ", section ")
	}
	return PartLimit{kind, item}
}

// parts are the mesh and the shafts that a limit of a speed belongs to, as a comparison names them.
func (l PartLimit) parts(b *gearbox.Box, speed string) map[string]bool {
	parts := map[string]bool{}
	s, _ := speedOf(b, speed)
	gear := strings.TrimSuffix(l.Item, ", coast flank")
	for _, name := range s.Path {
		m := meshOf(b, name)
		for k, g := range []string{m.Driver, m.Driven} {
			if l.Item != name && gear != g {
				continue
			}
			parts[name], parts[name+", "+sides[k]] = true, true
			for _, g := range []string{m.Driver, m.Driven} {
				parts[gearbox.ShaftTitle(gearOf(b, g).Shaft)] = true
			}
		}
	}
	for _, s := range b.Shafts {
		if title := gearbox.ShaftTitle(s.Name); l.Item == title || strings.HasPrefix(l.Item, title+", ") {
			parts[title] = true
		}
	}
	return parts
}

// wanted asks for the limits of every speed of a box by the names that it gives them.
func wanted(b *gearbox.Box, limits [][]PartLimit) (all []gearbox.Wanted) {
	for i, of := range limits {
		for _, l := range of {
			items := []string{l.Item}
			for _, s := range b.Shafts {
				if l.Kind != gearbox.ShaftYield || l.Item != gearbox.ShaftTitle(s.Name) {
					continue
				}
				items = nil
				for j := range s.Sections {
					items = append(items, fmt.Sprintf("%s, section %d", l.Item, j+1))
				}
			}
			for _, item := range items {
				all = append(all, gearbox.Wanted{Speed: b.Speeds[i].Name, Kind: l.Kind, Item: item})
			}
		}
	}
	return all
}

// torqueOf is the torque at which a limit that was asked for is reached in a solved speed, at the end of the bands that the
// box is judged by, N·mm; +Inf = it isn't, NaN = it wasn't asked for.
func torqueOf(s *gearbox.SpeedResult, l PartLimit) float64 {
	torque := math.NaN()
	for _, f := range s.Asked {
		if limitOf(f.Kind, f.Item) == l && !(f.Torque >= torque) {
			torque = f.Torque
		}
	}
	return torque
}

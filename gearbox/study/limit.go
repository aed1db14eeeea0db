package study

import (
	"math"
	"slices"
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
		if title := gearbox.ShaftTitle(s.Name); l.Item == title || strings.HasPrefix(l.Item, title+", bearing ") {
			parts[title] = true
		}
	}
	return parts
}

// torqueOf is the torque at which a limit of a solved speed is reached, at the end of the bands that the box is judged by,
// N·mm; +Inf = it isn't. It is not ok when the solution doesn't tell, as a brief one of all limits but the first; the
// torque is NaN then.
func torqueOf(s *gearbox.SpeedResult, l PartLimit) (torque float64, ok bool) {
	if limitOf(s.First.Kind, s.First.Item) == l {
		return s.First.Torque, true
	}
	torque = math.NaN()
	for i := range s.Margins {
		if m := &s.Margins[i]; limitOf(m.Kind, m.Item) == l && !(m.Allowable[m.Level] >= torque) {
			torque, ok = m.Allowable[m.Level], true
		}
	}
	return torque, ok
}

// solveFor solves a box in brief, and those speeds in full of which that doesn't tell the torques of some limits.
func solveFor(b *gearbox.Box, load gearbox.Load, limits [][]PartLimit) (*gearbox.Result, error) {
	load.Brief = true
	r, err := gearbox.Solve(b, load)
	if err != nil {
		return nil, err
	}
	var untold []string
	for i, of := range limits {
		if slices.ContainsFunc(of, func(l PartLimit) bool { _, ok := torqueOf(&r.Speeds[i], l); return !ok }) {
			untold = append(untold, r.Speeds[i].Name)
		}
	}
	if len(untold) == 0 {
		return r, nil
	}
	load.Brief, load.Speeds = false, untold
	whole, err := gearbox.Solve(b, load)
	if err != nil {
		return nil, err
	}
	for _, s := range whole.Speeds {
		r.Speeds[slices.IndexFunc(r.Speeds, named(s.Name))] = s
	}
	return r, nil
}

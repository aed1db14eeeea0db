package study

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"layshaft/gearbox"
)

// common cuts two solved boxes down to what both have: speeds of the same name over meshes of the same names, whose gears and shafts bear the same names too. left names
// the speeds that only one has or that are made up otherwise.
func common(results [2]*gearbox.Result) (boxes [2]*gearbox.Box, left []string, err error) {
	a, b := results[0].Box, results[1].Box
	if a.Input.Shaft != b.Input.Shaft || a.Output.Shaft != b.Output.Shaft {
		return boxes, nil, fmt.Errorf("input and output shaft bear other names in %s and %s; give the same parts the same names", a.Name, b.Name)
	}
	meshes, gears, shafts := map[string]bool{}, map[string]bool{}, map[string]bool{a.Input.Shaft: true, a.Output.Shaft: true}
	speeds := map[string]bool{}
	for _, s := range a.Speeds {
		same, ok := speedOf(b, s.Name)
		if !ok || s.Direct != same.Direct || !slices.Equal(s.Path, same.Path) || !slices.ContainsFunc(results[0].Speeds, named(s.Name)) || !slices.ContainsFunc(results[1].Speeds, named(s.Name)) {
			continue
		}
		if slices.ContainsFunc(s.Path, func(m string) bool { return !alike(a, b, m) }) {
			continue
		}
		speeds[s.Name] = true
		for _, name := range s.Path {
			m := meshOf(a, name)
			meshes[name] = true
			for _, g := range []string{m.Driver, m.Driven} {
				gears[g], shafts[gearOf(a, g).Shaft] = true, true
			}
		}
	}
	for _, r := range results {
		for _, s := range r.Speeds {
			if !speeds[s.Name] && !slices.Contains(left, s.Name) {
				left = append(left, s.Name)
			}
		}
	}
	if len(speeds) == 0 {
		return boxes, left, errors.New("the boxes have no speed in common whose meshes, gears and shafts bear the same names")
	}
	for range a.Shafts { // shafts that carry others come along
		for name := range shafts {
			for _, box := range []*gearbox.Box{a, b} {
				for _, br := range shaftOf(box, name).Bearings {
					if br.In != "" {
						shafts[br.In] = true
					}
				}
			}
		}
	}
	for name := range shafts {
		for _, box := range []*gearbox.Box{a, b} {
			if !slices.ContainsFunc(box.Shafts, func(s gearbox.Shaft) bool { return s.Name == name }) {
				return boxes, left, fmt.Errorf("%s has no shaft %q", box.Name, name)
			}
		}
		if x, y := pilots(a, name), pilots(b, name); x != y {
			return boxes, left, fmt.Errorf("the %s is carried by other shafts in %s than in %s", gearbox.ShaftTitle(name), a.Name, b.Name)
		}
	}
	for i, r := range results {
		box := *r.Box
		box.Alternatives, box.Tried = nil, nil
		box.Shafts = slices.DeleteFunc(slices.Clone(box.Shafts), func(s gearbox.Shaft) bool { return !shafts[s.Name] })
		box.Gears = slices.DeleteFunc(slices.Clone(box.Gears), func(g gearbox.Gear) bool { return !gears[g.Name] })
		box.Meshes = slices.DeleteFunc(slices.Clone(box.Meshes), func(m gearbox.Mesh) bool { return !meshes[m.Name] })
		box.Speeds = slices.DeleteFunc(slices.Clone(box.Speeds), func(s gearbox.Speed) bool { return !speeds[s.Name] })
		box.Centres = slices.DeleteFunc(slices.Clone(box.Centres), func(c gearbox.Centre) bool { return !shafts[c.Between[0]] || !shafts[c.Between[1]] })
		if box.Duty != nil {
			duty := *box.Duty
			duty.Steps = slices.DeleteFunc(slices.Clone(duty.Steps), func(d gearbox.DutyStep) bool { return !speeds[d.Speed] })
			if box.Duty = &duty; len(duty.Steps) == 0 {
				box.Duty = nil
			}
		}
		box.Housing = gearbox.Housing{Radial: r.Case}
		boxes[i] = &box
	}
	return boxes, left, nil
}

// alike reports whether a mesh joins the same gears on the same shafts in both boxes.
func alike(a, b *gearbox.Box, mesh string) bool {
	if !slices.ContainsFunc(b.Meshes, func(m gearbox.Mesh) bool { return m.Name == mesh }) {
		return false
	}
	x, y := meshOf(a, mesh), meshOf(b, mesh)
	return x.Driver == y.Driver && x.Driven == y.Driven && gearOf(a, x.Driver).Shaft == gearOf(b, y.Driver).Shaft && gearOf(a, x.Driven).Shaft == gearOf(b, y.Driven).Shaft
}

// pilots names the shafts that carry a shaft.
func pilots(b *gearbox.Box, shaft string) string {
	var in []string
	for _, br := range shaftOf(b, shaft).Bearings {
		in = append(in, br.In)
	}
	slices.Sort(in)
	return strings.TrimSpace(strings.Join(slices.Compact(in), " "))
}

func speedOf(b *gearbox.Box, name string) (gearbox.Speed, bool) {
	i := slices.IndexFunc(b.Speeds, func(s gearbox.Speed) bool { return s.Name == name })
	if i < 0 {
		return gearbox.Speed{}, false
	}
	return b.Speeds[i], true
}

func named(name string) func(gearbox.SpeedResult) bool {
	return func(s gearbox.SpeedResult) bool { return s.Name == name }
}

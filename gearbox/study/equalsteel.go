package study

import (
	"cmp"
	"slices"

	"layshaft/gearbox"
	"layshaft/material"
)

// EqualSteel fills in Equal, the boxes with the steels of the first, where they differ, and puts their allowable torques in front of the other quantities of each speed: of
// two boxes of unlike steel the better one may owe it to its steel alone. load says what was asked of each box for the results.
func (c *Comparison) EqualSteel(load func(*gearbox.Box) gearbox.Load) error {
	first := c.Results[0]
	equal := []*gearbox.Result{first}
	differ := false
	for _, r := range c.Results[1:] {
		b, changed := atSteelOf(first.Box, r.Box)
		if !changed {
			equal = append(equal, r)
			continue
		}
		differ = true
		again, err := gearbox.Solve(b, load(b))
		if err != nil {
			return err
		}
		equal = append(equal, again)
	}
	if !differ {
		return nil
	}
	c.Equal, c.Ranking = equal, ranked(equal)
	for i, row := range Compare(equal).Speeds {
		d := row.Items[0]
		d.Name, d.Key = "allowable torque at equal steel", "allowable_torque_equal_steel"
		c.Speeds[i].Items = slices.Insert(c.Speeds[i].Items, 0, d)
	}
	return nil
}

// atSteelOf is a box whose parts have the steels of another: a part that of the same name, any other part the one that most parts of its sort have there. changed reports
// whether anything else than names came of it.
func atSteelOf(first, b *gearbox.Box) (same *gearbox.Box, changed bool) {
	of := func(names []string, steels []string) func(name string) string {
		usual := mode(steels)
		return func(name string) string {
			if i := slices.Index(names, name); i >= 0 {
				return steels[i]
			}
			return usual
		}
	}
	split := func(box *gearbox.Box) (shafts, shaftSteels, gears, gearSteels []string) {
		for _, s := range box.Shafts {
			shafts, shaftSteels = append(shafts, s.Name), append(shaftSteels, s.Steel)
		}
		for _, g := range box.Gears {
			gears, gearSteels = append(gears, g.Name), append(gearSteels, g.Steel)
		}
		return shafts, shaftSteels, gears, gearSteels
	}
	shafts, shaftSteels, gears, gearSteels := split(first)
	ofShaft, ofGear := of(shafts, shaftSteels), of(gears, gearSteels)
	differs := func(mine, theirs string) bool {
		x, _ := b.Steel(mine)
		y, _ := first.Steel(theirs)
		return bare(x) != bare(y)
	}
	c := *b
	c.Steels, c.Narrowed, c.Lessons, c.Alternatives, c.Tried = first.Steels, first.Narrowed, nil, nil, nil
	c.Shafts, c.Gears = slices.Clone(b.Shafts), slices.Clone(b.Gears)
	for i := range c.Shafts {
		theirs := ofShaft(c.Shafts[i].Name)
		changed = changed || differs(c.Shafts[i].Steel, theirs)
		c.Shafts[i].Steel = theirs
	}
	for i := range c.Gears {
		theirs := ofGear(c.Gears[i].Name)
		changed = changed || differs(c.Gears[i].Steel, theirs)
		c.Gears[i].Steel = theirs
	}
	return &c, changed
}

// mode is the steel that comes most often, the first of those that come equally often.
func mode(steels []string) (most string) {
	count := map[string]int{}
	for _, s := range steels {
		count[cmp.Or(s, gearbox.DefaultSteel)]++
	}
	for _, s := range steels {
		if s = cmp.Or(s, gearbox.DefaultSteel); count[s] > count[most] {
			most = s
		}
	}
	return most
}

// bare is a steel without what it is called and where it comes from.
func bare(s material.Steel) material.Steel {
	s.Name, s.Title, s.About, s.Batch, s.ElasticSource = "", "", "", "", ""
	for _, b := range []*material.Band{&s.Yield, &s.Tensile, &s.Contact, &s.SurfaceHardness, &s.CoreHardness, &s.FlankLimit, &s.RootLimit, &s.FlankStatic, &s.RootStatic, &s.AGMAFlank, &s.AGMARoot} {
		b.Source = ""
	}
	return s
}

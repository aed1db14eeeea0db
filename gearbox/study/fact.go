package study

import (
	"math"
	"reflect"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Fact is one dimension in which two boxes differ.
type Fact struct {
	Part      string // the shaft or gear it belongs to, by its name: "output", "first wheel"; "" = the box
	What      string // "span", "diameter", "bore", "length", "place", "face", "teeth", "stiffness", "crowning", …
	Sections  [2]int // of a section of a shaft: its number in each file, from 1; 0 = it is about the whole shaft, or no shaft
	Dimension quantity.Dimension
	From, To  float64   // as both files have it, inner units; +Inf = rigid, NaN = not given
	Names     [2]string // of what has a name instead of a number, as a steel, and of what is unknown; "" = by From or To
	size      float64   // how much it weighs beside others of its sort
}

// Way is the direction of a difference: +1 when every dimension that differs in it grew, −1 when all shrank, 0 when they
// don't agree or have no direction. Of a bore less is more: it leaves more of the shaft.
func (c *SplitCause) Way() int {
	if len(c.Groups) > 1 || len(c.Facts) == 0 || c.More || len(c.Aside) > 0 {
		return 0
	}
	way := 0
	for _, f := range c.Facts {
		if f.Names != [2]string{} || math.IsNaN(f.From-f.To) {
			return 0
		}
		w := 1
		if f.From > f.To {
			w = -1
		}
		switch f.What {
		case "bore":
			w = -w
		case "span", "diameter", "face", "teeth", "stiffness":
		default:
			return 0
		}
		if way != 0 && w != way {
			return 0
		}
		way = w
	}
	return way
}

// describe tells what differs in a cause, by the values that stand in the files.
func (c *SplitCause) describe(both *shared) {
	for _, g := range c.Groups {
		// Everything else is that of the first box, so that what only moves along with the bearings is no difference.
		with, err1 := swap{both.boxes, maskOf(g)}.mixed()
		without, err2 := swap{both.boxes, 0}.mixed()
		mixed := err1 == nil && err2 == nil
		if !mixed {
			with, without = both.boxes[1], both.boxes[0]
		}
		switch g {
		case Sections:
			for i := range without.Shafts {
				x, y := without.Shafts[i], with.Shafts[i]
				if reflect.DeepEqual(x, y) {
					continue
				}
				x.Notches, x.Joints, x.Surface = y.Notches, y.Joints, y.Surface
				if reflect.DeepEqual(x, y) { // they differ in these alone, which no fact tells of
					c.More = true
					continue
				}
				c.More = c.More || !reflect.DeepEqual(without.Shafts[i].Notches, y.Notches) || !reflect.DeepEqual(without.Shafts[i].Joints, y.Joints)
				name := without.Shafts[i].Name
				facts, aside := sectionFacts(shaftOf(both.files[0], name), shaftOf(both.files[1], name))
				if c.Facts = append(c.Facts, facts...); aside {
					c.Aside = append(c.Aside, name)
				}
			}
		case Positions:
			c.Facts = append(c.Facts, placeFacts(without, with, both.files)...)
		case Span:
			for _, s := range without.Shafts {
				c.Facts = append(c.Facts, spans(shaftOf(both.files[0], s.Name), shaftOf(both.files[1], s.Name))...)
			}
		case Faces, Ratios:
			c.Facts = append(c.Facts, facts(without, with, g)...)
		default:
			facts, more := differingFields(without, with, g)
			c.Facts, c.More = append(c.Facts, facts...), c.More || more
		}
		if g == Span && mixed {
			c.Gears, c.Steps = movedAlong(without, with)
		}
	}
}

// movedAlong tells whether places of gears and of steps of the shafts differ.
func movedAlong(a, b *gearbox.Box) (gears, steps bool) {
	for i := range a.Gears {
		g, h := &a.Gears[i], &b.Gears[i]
		gears = gears || placeOf(a, g.Shaft, g.At) != placeOf(b, h.Shaft, h.At)
	}
	for i := range a.Shafts {
		steps = steps || !slices.Equal(borders(&a.Shafts[i]), borders(&b.Shafts[i]))
	}
	return gears, steps
}

// facts are the dimensions of a group that differ, part by part: all of them, as these groups are made of nothing else.
func facts(a, b *gearbox.Box, g Group) (all []Fact) {
	add := func(part, what string, d quantity.Dimension, from, to float64) {
		if from != to {
			all = append(all, Fact{Part: part, What: what, Dimension: d, From: from, To: to})
		}
	}
	switch g {
	case Faces:
		for i := range a.Gears {
			add(a.Gears[i].Name, "face", quantity.Length, a.Gears[i].Face, b.Gears[i].Face)
		}
	case Ratios:
		for i := range a.Gears {
			add(a.Gears[i].Name, "teeth", quantity.Number, float64(a.Gears[i].Teeth), float64(b.Gears[i].Teeth))
		}
	}
	return all
}

// bearingTitle is a bearing by its name and shaft.
func bearingTitle(s *gearbox.Shaft, bearing int) string {
	return "bearing " + s.Bearings[bearing].Name + " of the " + gearbox.ShaftTitle(s.Name)
}

// spans are the distances between neighbouring bearings that differ, and where none does the bearings that stand elsewhere.
func spans(a, b *gearbox.Shaft) (all []Fact) {
	s := between(a, b)
	for k := 1; k < len(s.from); k++ {
		if from, to := rounded(s.from[k]-s.from[k-1]), rounded(s.to[k]-s.to[k-1]); from != to {
			all = append(all, Fact{Part: a.Name, What: "span", Dimension: quantity.Length, From: from, To: to})
		}
	}
	if len(all) > 0 {
		return all
	}
	for _, j := range ordered(a.Bearings) {
		br := &a.Bearings[j]
		other := bearingOf(b, br.Name)
		if other == nil || rounded(a.Start+br.At) == rounded(b.Start+other.At) {
			continue
		}
		f := Fact{Part: bearingTitle(a, j), What: "place", Dimension: quantity.Length, From: br.At, To: other.At}
		if rounded(a.Start) != rounded(b.Start) {
			f.What, f.From, f.To = alongTheBox(f.What), rounded(a.Start+br.At), rounded(b.Start+other.At)
		}
		all = append(all, f)
	}
	return all
}

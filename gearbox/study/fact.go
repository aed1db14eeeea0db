package study

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Fact is one dimension in which two boxes differ.
type Fact struct {
	Part      string     // the shaft or gear it belongs to, by its name: "output", "first wheel"; "" = the box
	What      string     // "span", "diameter", "bore", "length", "place", "face", "teeth", "stiffness", "crowning", …
	Stretch   [2]float64 // of a diameter or bore: from where to where along the box in the first box, mm
	Dimension quantity.Dimension
	From, To  float64 // in both boxes, inner units; +Inf = rigid
}

// Way is the direction of a difference: +1 when every dimension that differs in it grew, −1 when all shrank, 0 when they
// don't agree or have no direction. Of a bore less is more: it leaves more of the shaft.
func (c *SplitCause) Way() int {
	if len(c.Groups) > 1 || len(c.Facts) == 0 || c.More {
		return 0
	}
	way := 0
	for _, f := range c.Facts {
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

// describe tells what differs in a cause.
func (c *SplitCause) describe(boxes [2]*gearbox.Box) {
	for _, g := range c.Groups {
		// Everything else is that of the first box, so that what only moves along with the bearings is no difference.
		with, err1 := swap{boxes, maskOf(g)}.mixed()
		without, err2 := swap{boxes, 0}.mixed()
		if err1 != nil || err2 != nil {
			with, without = boxes[1], boxes[0]
		}
		switch g {
		case Span, Sections, Positions, Faces, Ratios, Case:
			c.Facts = append(c.Facts, facts(without, with, g)...)
		default:
			facts, more := differingFields(without, with, g)
			c.Facts, c.More = append(c.Facts, facts...), c.More || more
		}
		if g == Span && err1 == nil {
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
		if math.Abs(from-to) > 1e-9*math.Max(math.Abs(from), math.Abs(to)) || math.IsInf(from, 0) != math.IsInf(to, 0) {
			all = append(all, Fact{Part: part, What: what, Dimension: d, From: from, To: to})
		}
	}
	switch g {
	case Span:
		for i := range a.Shafts {
			all = append(all, spans(&a.Shafts[i], &b.Shafts[i])...)
		}
	case Sections:
		for i := range a.Shafts {
			all = append(all, pieces(&a.Shafts[i], &b.Shafts[i])...)
		}
	case Positions:
		for i := range a.Gears {
			x, y := &a.Gears[i], &b.Gears[i]
			add(x.Name, "place", quantity.Length, placeOf(a, x.Shaft, x.At), placeOf(b, y.Shaft, y.At))
		}
		add("input", "place", quantity.Length, placeOf(a, a.Input.Shaft, a.Input.At), placeOf(b, b.Input.Shaft, b.Input.At))
		add("output", "place", quantity.Length, placeOf(a, a.Output.Shaft, a.Output.At), placeOf(b, b.Output.Shaft, b.Output.At))
	case Faces:
		for i := range a.Gears {
			add(a.Gears[i].Name, "face", quantity.Length, a.Gears[i].Face, b.Gears[i].Face)
		}
	case Ratios:
		for i := range a.Gears {
			add(a.Gears[i].Name, "teeth", quantity.Number, float64(a.Gears[i].Teeth), float64(b.Gears[i].Teeth))
		}
	case Case:
		add("", "stiffness", quantity.RadialStiffness, orRigid(a.Housing.Radial), orRigid(b.Housing.Radial))
		for i, s := range a.Shafts {
			for j, br := range s.Bearings {
				part := "bearing " + br.Name + " of the " + gearbox.ShaftTitle(s.Name)
				add(part, "stiffness", quantity.RadialStiffness, orRigid(br.Housing), orRigid(b.Shafts[i].Bearings[j].Housing))
			}
		}
	}
	return all
}

// orRigid is a stiffness of which 0 stands for a rigid one.
func orRigid(stiffness float64) float64 {
	if stiffness == 0 {
		return math.Inf(1)
	}
	return stiffness
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
	for k := range s.from {
		if s.from[k] != s.to[k] {
			all = append(all, Fact{Part: a.Name, What: "place", Dimension: quantity.Length, From: s.from[k], To: s.to[k]})
		}
	}
	return all
}

// pieces are the stretches along the box at which a shaft has another diameter or bore than it has there in the other box.
func pieces(a, b *gearbox.Shaft) (all []Fact) {
	cuts := append(borders(a), borders(b)...)
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	length := func(s *gearbox.Shaft) float64 { x := borders(s); return rounded(x[len(x)-1] - x[0]) }
	add := func(f Fact) {
		if f.From == f.To {
			return
		}
		f.Part, f.Dimension = a.Name, quantity.Length
		for i := range all { // the same change on both sides of a step of the other box is one
			if o := &all[i]; o.What == f.What && o.From == f.From && o.To == f.To && o.Stretch[1] == f.Stretch[0] {
				o.Stretch[1] = f.Stretch[1]
				return
			}
		}
		all = append(all, f)
	}
	for k := 1; k < len(cuts); k++ {
		x, y := sectionAt(a, cuts[k-1]), sectionAt(b, cuts[k-1])
		if x == nil || y == nil {
			continue // beyond the end of one of them: that is its length
		}
		add(Fact{What: "diameter", Stretch: [2]float64{cuts[k-1], cuts[k]}, From: x.Outer, To: y.Outer})
		add(Fact{What: "bore", Stretch: [2]float64{cuts[k-1], cuts[k]}, From: x.Bore, To: y.Bore})
	}
	add(Fact{What: "length", From: length(a), To: length(b)})
	slices.SortStableFunc(all, func(f, g Fact) int { return cmp.Compare(g.weight(), f.weight()) })
	return all
}

// weight puts the stretches first that differ most in diameter over the longest length, and the length of the shaft last.
func (f *Fact) weight() float64 { return (f.Stretch[1] - f.Stretch[0]) * math.Abs(f.To-f.From) }

// sectionAt is the section of a shaft that goes on to the right of a place along the box; nil beyond its ends.
func sectionAt(s *gearbox.Shaft, x float64) *gearbox.Section {
	all := borders(s)
	for i := range s.Sections {
		if all[i] <= x && x < all[i+1] {
			return &s.Sections[i]
		}
	}
	return nil
}

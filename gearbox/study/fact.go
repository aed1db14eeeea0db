package study

import (
	"math"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Fact is one dimension in which two boxes differ, told beside what its group explains.
type Fact struct {
	Part      string             // the shaft or gear it belongs to: "output", "first wheel"
	Section   int                // of the shaft in the first box, from 1; 0 = no section
	Dimension quantity.Dimension // of both numbers
	From, To  float64            // in both boxes, inner units
}

// facts are what a group of dimensions differs in most, part by part: the spans of the shafts, the section of each shaft whose stiffness changes most, the faces. Other groups have no one
// number to show.
func facts(boxes [2]*gearbox.Box, g Group) (all []Fact) {
	add := func(f Fact) {
		if math.Abs(f.From-f.To) > 1e-9*math.Max(math.Abs(f.From), math.Abs(f.To)) {
			all = append(all, f)
		}
	}
	switch g {
	case Span:
		for _, s := range boxes[0].Shafts {
			add(Fact{s.Name, 0, quantity.Length, spanOf(s), spanOf(*shaftOf(boxes[1], s.Name))})
		}
	case Sections:
		for _, s := range boxes[0].Shafts {
			if f, ok := mostChanged(s, *shaftOf(boxes[1], s.Name)); ok {
				add(f)
			}
		}
	case Faces:
		for _, a := range boxes[0].Gears {
			add(Fact{a.Name, 0, quantity.Length, a.Face, gearOf(boxes[1], a.Name).Face})
		}
	case Ratios:
		for _, a := range boxes[0].Gears {
			add(Fact{a.Name, 0, quantity.Number, float64(a.Teeth), float64(gearOf(boxes[1], a.Name).Teeth)})
		}
	}
	return all
}

// spanOf is the distance between the outermost bearings, mm.
func spanOf(s gearbox.Shaft) float64 {
	order := ordered(s.Bearings)
	if len(order) == 0 {
		return 0
	}
	return s.Bearings[order[len(order)-1]].At - s.Bearings[order[0]].At
}

// mostChanged is the section of a shaft whose bending stiffness, by its length, differs most from what stands at the same place along the span of the other make.
func mostChanged(a, b gearbox.Shaft) (f Fact, ok bool) {
	along, err := between(b, a)
	if err != nil {
		return f, false
	}
	most := 0.0
	from := 0.0
	for i, sec := range a.Sections {
		to := from + sec.Length
		left, x := 0.0, 0.0
		for _, other := range b.Sections {
			x += other.Length
			right := along.at(x)
			if shared := math.Min(to, right) - math.Max(from, left); shared > 0 {
				if change := shared * math.Abs(math.Log(second(sec)/second(other))); change > most {
					most, ok = change, true
					f = Fact{a.Name, i + 1, quantity.Length, sec.Outer, other.Outer}
				}
			}
			left = right
		}
		from = to
	}
	return f, ok
}

// second is the second moment of area of a section up to a constant, mm⁴.
func second(s gearbox.Section) float64 { return math.Pow(s.Outer, 4) - math.Pow(s.Bore, 4) }

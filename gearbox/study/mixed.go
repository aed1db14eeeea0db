package study

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearbox"
)

// mixed builds the box in which some groups of dimensions are those of the second box.
//
// Places along a shaft are kept as they lie between its ends and its bearings: a gear in the middle of a span stays in the middle when the span becomes another. So the span
// can be changed without pushing gears off their shafts. Gears of one mesh keep how they stand to each other, driver and driven. An error says what can't be mixed.
func (w swap) mixed() (*gearbox.Box, error) {
	b := *w.of(Asked)
	b.Name, b.About, b.Origin, b.Places, b.Tolerances = w.boxes[0].Name, w.boxes[0].About, gearbox.Origin{}, nil, nil
	b.Parts, b.Weighed = nil, gearbox.Weighed{} // masses go by the dimensions
	b.Steels = w.of(Steel).Steels
	b.Evidence, b.Lessons, b.Narrowed = nil, nil, nil // they have spoken already: the bands are in the steels
	b.Housing = w.of(Case).Housing
	b.Centres, b.Side = w.of(Teeth).Centres, w.of(Teeth).Side
	// Lists stand in the order of the first box.
	first := w.boxes[0]
	b.Speeds = first.Speeds
	b.Shafts = make([]gearbox.Shaft, len(first.Shafts))
	scales := map[string]scale{} // from places of Positions to places of Span
	for i, s := range first.Shafts {
		var err error
		if b.Shafts[i], err = w.shaft(s.Name); err != nil {
			return nil, err
		}
		if scales[s.Name], err = between(*shaftOf(w.of(Positions), s.Name), *shaftOf(w.of(Span), s.Name)); err != nil {
			return nil, err
		}
	}
	b.Gears = make([]gearbox.Gear, len(first.Gears))
	for i, g := range first.Gears {
		b.Gears[i] = w.gear(g.Name)
	}
	b.Meshes = make([]gearbox.Mesh, len(first.Meshes))
	for i, m := range first.Meshes {
		teeth := *meshOf(w.of(Teeth), m.Name)
		b.Meshes[i] = teeth
	}
	w.place(&b, scales)
	in, out := w.of(Positions).Input, w.of(Positions).Output
	b.Input = gearbox.Port{Shaft: in.Shaft, At: scales[in.Shaft].at(in.At)}
	b.Output = gearbox.Port{Shaft: out.Shaft, At: scales[out.Shaft].at(out.At)}
	direct := w.of(Positions).DirectAt
	b.DirectAt = gearbox.DirectAt{Input: scales[in.Shaft].moved(direct.Input), Output: scales[out.Shaft].moved(direct.Output)}
	return &b, nil
}

// shaft mixes one shaft.
func (w swap) shaft(name string) (gearbox.Shaft, error) {
	span, sections, seats := shaftOf(w.of(Span), name), shaftOf(w.of(Sections), name), shaftOf(w.of(Seats), name)
	if len(span.Bearings) != len(seats.Bearings) {
		return gearbox.Shaft{}, fmt.Errorf("the %s has %d bearings in one box and %d in the other", gearbox.ShaftTitle(name), len(span.Bearings), len(seats.Bearings))
	}
	s := *shaftOf(w.boxes[0], name)
	s.Start, s.Axis, s.Steel, s.Pair = span.Start, shaftOf(w.of(Teeth), name).Axis, shaftOf(w.of(Steel), name).Steel, seats.Pair
	along, err := between(*sections, *span)
	if err != nil {
		return s, err
	}
	s.Sections = nil
	x, from := 0.0, 0.0
	for _, sec := range sections.Sections {
		x += sec.Length
		to := along.at(x)
		if to > from {
			s.Sections = append(s.Sections, gearbox.Section{Length: nanometre(to - from), Outer: sec.Outer, Bore: sec.Bore})
		}
		from = max(from, to)
	}
	s.Bearings = make([]gearbox.Bearing, len(seats.Bearings))
	housing := shaftOf(w.of(Case), name)
	for k, j := range ordered(seats.Bearings) {
		br, at := seats.Bearings[j], span.Bearings[ordered(span.Bearings)[k]]
		br.At, br.In, br.InAt = at.At, at.In, at.InAt
		br.Housing = 0
		if len(housing.Bearings) == len(seats.Bearings) {
			br.Housing = housing.Bearings[ordered(housing.Bearings)[k]].Housing
		}
		s.Bearings[j] = br
	}
	return s, nil
}

// gear mixes one gear; its place is left to place.
func (w swap) gear(name string) gearbox.Gear {
	g := *gearOf(w.of(Teeth), name)
	g.Shaft = gearOf(w.boxes[0], name).Shaft
	g.Teeth = gearOf(w.of(Ratios), name).Teeth
	g.Face = gearOf(w.of(Faces), name).Face
	g.Seat = gearOf(w.of(Seats), name).Seat
	g.Steel, g.Peened = gearOf(w.of(Steel), name).Steel, gearOf(w.of(Steel), name).Peened
	g.At = gearOf(w.of(Positions), name).At
	return g
}

// place puts the gears where they are on shafts of another span. In each mesh the driver stays where it is along its span and the driven gear where it is to the driver.
func (w swap) place(b *gearbox.Box, scales map[string]scale) {
	positions := w.of(Positions)
	placed := map[string]bool{}
	set := func(name string, at float64) {
		g, from := gearOf(b, name), gearOf(positions, name)
		g.At, g.EngagesAt = nanometre(at), nil
		if from.EngagesAt != nil { // the hub stays beside its gear
			hub := nanometre(at + *from.EngagesAt - from.At)
			g.EngagesAt = &hub
		}
		placed[name] = true
	}
	start := func(box *gearbox.Box, gear string) float64 { return shaftOf(box, gearOf(box, gear).Shaft).Start }
	for _, m := range b.Meshes {
		if !placed[m.Driver] {
			g := gearOf(positions, m.Driver)
			set(m.Driver, scales[g.Shaft].at(g.At))
		}
		if !placed[m.Driven] {
			apart := start(positions, m.Driven) + gearOf(positions, m.Driven).At - start(positions, m.Driver) - gearOf(positions, m.Driver).At
			set(m.Driven, start(b, m.Driver)+gearOf(b, m.Driver).At+apart-start(b, m.Driven))
		}
	}
	for i := range b.Gears {
		if name := b.Gears[i].Name; !placed[name] {
			set(name, scales[b.Gears[i].Shaft].at(b.Gears[i].At))
		}
	}
}

// scale leads from places along one make of a shaft to places along another: straight between the ends and the bearings.
type scale struct{ from, to []float64 }

// between is the scale from one make of a shaft to another.
func between(from, to gearbox.Shaft) (scale, error) {
	if len(from.Bearings) != len(to.Bearings) {
		return scale{}, fmt.Errorf("the %s has %d bearings in one box and %d in the other", gearbox.ShaftTitle(from.Name), len(from.Bearings), len(to.Bearings))
	}
	return scale{knots(from), knots(to)}, nil
}

// knots are the ends of a shaft and its bearings, from left to right.
func knots(s gearbox.Shaft) []float64 {
	x, length := []float64{0}, 0.0
	for _, j := range ordered(s.Bearings) {
		x = append(x, s.Bearings[j].At)
	}
	for _, sec := range s.Sections {
		length += sec.Length
	}
	return append(x, length)
}

// moved is a place that need not be given.
func (s scale) moved(x *float64) *float64 {
	if x == nil {
		return nil
	}
	at := s.at(*x)
	return &at
}

func (s scale) at(x float64) float64 {
	k := 1
	for k < len(s.from)-1 && x > s.from[k] {
		k++
	}
	if s.from[k] == s.from[k-1] {
		return s.to[k]
	}
	share := (x - s.from[k-1]) / (s.from[k] - s.from[k-1])
	return nanometre(s.to[k-1] + share*(s.to[k]-s.to[k-1]))
}

// ordered are the indices of bearings from left to right.
func ordered(all []gearbox.Bearing) []int {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case all[i].At < all[j].At:
			return -1
		case all[i].At > all[j].At:
			return 1
		}
		return 0
	})
	return order
}

// nanometre rounds a place, so that one that comes back to where it was is the same number again.
func nanometre(mm float64) float64 { return math.Round(mm*1e6) / 1e6 }

func shaftOf(b *gearbox.Box, name string) *gearbox.Shaft {
	return &b.Shafts[slices.IndexFunc(b.Shafts, func(s gearbox.Shaft) bool { return s.Name == name })]
}

func gearOf(b *gearbox.Box, name string) *gearbox.Gear {
	return &b.Gears[slices.IndexFunc(b.Gears, func(g gearbox.Gear) bool { return g.Name == name })]
}

func meshOf(b *gearbox.Box, name string) *gearbox.Mesh {
	return &b.Meshes[slices.IndexFunc(b.Meshes, func(m gearbox.Mesh) bool { return m.Name == name })]
}

package study

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"layshaft/beam/strength"
	"layshaft/gearbox"
)

// mixed builds the box in which some groups of dimensions are those of the second box.
//
// Each place along the box is one that is equal in both files, and stays where it is, or one that differs. Places that
// differ move along in proportion when the bearings of their shaft are those of the other box: a gear in the middle of a
// span stays in the middle. So a bearing that is moved alone is a change of span and of nothing else. An error says what
// can't be mixed.
func (w swap) mixed() (*gearbox.Box, error) {
	b := *w.boxes[0]
	w.loads(&b)
	b.Steels = w.of(Steel).Steels
	b.Evidence, b.Lessons, b.Narrowed, b.Survived = nil, nil, nil, nil // they have spoken already: the bands are in the steels
	b.Housing = w.of(Case).Housing
	b.Centres, b.Side = w.of(Teeth).Centres, w.of(Teeth).Side
	// Lists stand in the order of the first box.
	b.Shafts = slices.Clone(b.Shafts)
	scales := map[string]scale{} // from places of Positions to places of Span
	for i, s := range b.Shafts {
		var err error
		if b.Shafts[i], err = w.shaft(s.Name); err != nil {
			return nil, err
		}
		scales[s.Name] = between(shaftOf(w.of(Positions), s.Name), shaftOf(w.of(Span), s.Name))
	}
	for _, s := range b.Shafts {
		for j := range s.Bearings {
			if br := &s.Bearings[j]; br.In != "" {
				br.InAt = rounded(placeOf(w.of(Span), br.In, br.InAt) - shaftOf(&b, br.In).Start)
			}
		}
	}
	b.Gears = slices.Clone(b.Gears)
	for i, g := range b.Gears {
		b.Gears[i] = w.gear(g.Name)
	}
	b.Meshes = slices.Clone(b.Meshes)
	for i, m := range b.Meshes {
		b.Meshes[i] = *meshOf(w.of(Teeth), m.Name)
		b.Meshes[i].Efficiency = meshOf(w.of(Efficiencies), m.Name).Efficiency
		b.Meshes[i].TiltLimit = meshOf(w.of(Judging), m.Name).TiltLimit
	}
	w.place(&b, scales)
	b.Input = w.port(&b, scales, func(b *gearbox.Box) gearbox.Port { return b.Input })
	b.Output = w.port(&b, scales, func(b *gearbox.Box) gearbox.Port { return b.Output })
	b.DirectAt = gearbox.DirectAt{
		Input:  w.hub(&b, scales, b.Input.Shaft, func(b *gearbox.Box) *float64 { return b.DirectAt.Input }),
		Output: w.hub(&b, scales, b.Output.Shaft, func(b *gearbox.Box) *float64 { return b.DirectAt.Output }),
	}
	b.Unknown = unknown(&b, func(d doubt, _ int) bool { return w.of(d.group).Unknown[d.path] })
	return &b, nil
}

// loads takes what is asked of a box, and how it is judged.
func (w swap) loads(b *gearbox.Box) {
	asked := w.of(Asked)
	b.Torque, b.Shock, b.Revs = asked.Torque, asked.Shock, asked.Revs
	b.Clutch, b.Car, b.Duty = asked.Clutch, asked.Car, asked.Duty
	b.Oil, b.Turns, b.Limits = w.of(Oil).Oil, w.of(Sense).Turns, w.of(Judging).Limits
}

// shaft mixes one shaft.
func (w swap) shaft(name string) (gearbox.Shaft, error) {
	span, sections, seats := shaftOf(w.of(Span), name), shaftOf(w.of(Sections), name), shaftOf(w.of(Seats), name)
	s := *shaftOf(w.boxes[0], name)
	s.Axis, s.Steel, s.Pair = shaftOf(w.of(Teeth), name).Axis, shaftOf(w.of(Steel), name).Steel, seats.Pair
	stay := borders(shaftOf(w.other(Sections), name))
	along := between(sections, span)
	if !slices.IsSorted(along.to) {
		return s, fmt.Errorf("the bearings of the %s stand in another order", gearbox.ShaftTitle(name))
	}
	all := borders(sections)
	for i, x := range all {
		if !slices.Contains(stay, x) {
			all[i] = along.at(x)
		}
		if i > 0 && all[i] <= all[i-1] {
			return s, fmt.Errorf("with the bearings at their other places, a step of the %s would stand beyond the next", gearbox.ShaftTitle(name))
		}
	}
	s.Start, s.Sections = all[0], slices.Clone(sections.Sections)
	for i := range s.Sections {
		s.Sections[i].Length = rounded(all[i+1] - all[i])
	}
	s.Surface, s.Notches, s.Joints = sections.Surface, slices.Clone(sections.Notches), slices.Clone(sections.Joints)
	others := notchPlaces(shaftOf(w.other(Sections), name))
	goes := func(at float64) float64 {
		x := rounded(sections.Start + at)
		if !slices.Contains(others, x) {
			x = along.at(x)
		}
		return rounded(x - s.Start)
	}
	for i := range s.Notches {
		if n := &s.Notches[i]; n.Shape == strength.Shoulder {
			n.At = rounded(stepAt(n, sections, all) - s.Start)
		} else {
			n.At = goes(n.At)
		}
	}
	for i := range s.Joints {
		s.Joints[i].At = goes(s.Joints[i].At)
	}
	s.Bearings = slices.Clone(seats.Bearings)
	for j := range s.Bearings {
		br := &s.Bearings[j]
		at, housing, judged := bearingOf(span, br.Name), bearingOf(shaftOf(w.of(Case), name), br.Name), bearingOf(shaftOf(w.of(Judging), name), br.Name)
		if len(span.Bearings) != len(s.Bearings) || at == nil {
			return s, fmt.Errorf("the %s hasn't got the same bearings in both boxes", gearbox.ShaftTitle(name))
		}
		br.At, br.In, br.InAt = rounded(span.Start+at.At-s.Start), at.In, at.InAt
		if housing != nil { // else it comes with the bearing
			br.Housing = housing.Housing
		}
		if judged != nil {
			br.SlopeLimit = judged.SlopeLimit
		}
	}
	return s, nil
}

// notchPlaces are the places of the notches and joints of a shaft.
func notchPlaces(s *gearbox.Shaft) (all []float64) {
	for _, n := range s.Notches {
		all = append(all, rounded(s.Start+n.At))
	}
	for _, j := range s.Joints {
		all = append(all, rounded(s.Start+j.At))
	}
	return all
}

// stepAt is where a shoulder goes along the box: with the step it stands at. to are the borders of the sections where they go.
func stepAt(n *gearbox.Notch, s *gearbox.Shaft, to []float64) float64 {
	x := rounded(s.Start + n.At)
	from := borders(s)
	nearest := 0
	for i := range from {
		if math.Abs(from[i]-x) < math.Abs(from[nearest]-x) {
			nearest = i
		}
	}
	return x + to[nearest] - from[nearest]
}

// gear mixes one gear; its place is left to place.
func (w swap) gear(name string) gearbox.Gear {
	g := *gearOf(w.of(Teeth), name)
	g.Teeth = gearOf(w.of(Ratios), name).Teeth
	g.Face = gearOf(w.of(Faces), name).Face
	g.Seat = gearOf(w.of(Seats), name).Seat
	g.Steel, g.Peened = gearOf(w.of(Steel), name).Steel, gearOf(w.of(Steel), name).Peened
	body := gearOf(w.of(Bodies), name)
	g.Rim, g.Web, g.Bore, g.Hub = body.Rim, body.Web, body.Bore, body.Hub
	return g
}

// place puts the gears where they are on shafts of another span. Gears that are joined by meshes keep how they stand to
// each other: where one of them stays, all do; else they move as one, by the mean of what each would move.
func (w swap) place(b *gearbox.Box, scales map[string]scale) {
	from, other := w.of(Positions), w.other(Positions)
	for _, train := range trains(b) {
		move := 0.0
		for _, name := range train {
			g := gearOf(from, name)
			x := placeOf(from, g.Shaft, g.At)
			if x == placeOf(other, g.Shaft, gearOf(other, name).At) {
				move = 0
				break
			}
			move += (scales[g.Shaft].at(x) - x) / float64(len(train))
		}
		for _, name := range train {
			g := gearOf(b, name)
			was := gearOf(from, name)
			g.At, g.EngagesAt = rounded(placeOf(from, g.Shaft, was.At)+move-shaftOf(b, g.Shaft).Start), nil
			if was.EngagesAt != nil { // the hub stays beside its gear
				hub := rounded(g.At + *was.EngagesAt - was.At)
				g.EngagesAt = &hub
			}
		}
	}
}

// port puts the place where torque enters or leaves on shafts of another span.
func (w swap) port(b *gearbox.Box, scales map[string]scale, of func(*gearbox.Box) gearbox.Port) gearbox.Port {
	p := of(w.of(Positions))
	x := placeOf(w.of(Positions), p.Shaft, p.At)
	if x != placeOf(w.other(Positions), p.Shaft, of(w.other(Positions)).At) {
		x = scales[p.Shaft].at(x)
	}
	p.At = rounded(x - shaftOf(b, p.Shaft).Start)
	return p
}

// hub is the same of the hub of a direct speed; nil where the box that places are taken from doesn't give it.
func (w swap) hub(b *gearbox.Box, scales map[string]scale, shaft string, of func(*gearbox.Box) *float64) *float64 {
	if of(w.of(Positions)) == nil {
		return nil
	}
	p := w.port(b, scales, func(b *gearbox.Box) gearbox.Port {
		if at := of(b); at != nil {
			return gearbox.Port{Shaft: shaft, At: *at}
		}
		return gearbox.Port{Shaft: shaft, At: math.NaN()}
	})
	return &p.At
}

// trains are the gears of a box, those together that are joined by meshes, by name.
func trains(b *gearbox.Box) (all [][]string) {
	number := map[string]int{}
	for i, g := range b.Gears {
		number[g.Name] = i
	}
	for range b.Meshes {
		for _, m := range b.Meshes {
			least := min(number[m.Driver], number[m.Driven])
			number[m.Driver], number[m.Driven] = least, least
		}
	}
	for i := range b.Gears {
		var train []string
		for name, n := range number {
			if n == i {
				train = append(train, name)
			}
		}
		if len(train) > 0 {
			slices.SortFunc(train, cmp.Compare[string])
			all = append(all, train)
		}
	}
	return all
}

package gearbox

import (
	"fmt"
	"maps"
	"math"
	"slices"
)

// places knows what is given about where the shaft axes lie: coordinates, or distances between axes. Shafts on one axis (a mainshaft piloted
// in the input shaft) are one group.
type places struct {
	group     []int // shaft → group; a group is named by its first shaft
	fixed     map[int]point
	chosen    map[int]point // where nothing settles it, by Box.Layout
	distances map[[2]int]float64
	teeth     map[[2]int]string // mesh from whose teeth a distance follows that nobody gave
	doubts    []doubt           // of distances that their gears hardly want
	notes     []string
}

type point [2]float64 // y, z, mm

func (a point) minus(b point) point    { return point{a[0] - b[0], a[1] - b[1]} }
func (a point) norm() float64          { return math.Hypot(a[0], a[1]) }
func (a point) dot(b point) float64    { return a[0]*b[0] + a[1]*b[1] }
func (a point) scaled(f float64) point { return point{a[0] * f, a[1] * f} }
func (a point) plus(b point) point     { return point{a[0] + b[0], a[1] + b[1]} }

// turned is e_x × a: a turned by a right angle about +x.
func (a point) turned() point { return point{-a[1], a[0]} }

// closing is how far two statements about the same distance may differ, mm: what a caliper on two mandrels reads apart.
const closing = 0.05

// anglesTried is the number of directions tried for a shaft whose direction from its neighbour is not known.
const anglesTried = 24

func newPlaces(p *prepared) places {
	b := p.box
	pl := places{group: make([]int, len(b.Shafts)), fixed: map[int]point{}, chosen: map[int]point{}, distances: map[[2]int]float64{}, teeth: map[[2]int]string{}}
	for i := range b.Shafts {
		pl.group[i] = i
		for j := i; p.lines[j].pilot >= 0; {
			j = p.lines[j].in
			pl.group[i] = j
		}
	}
	for i, s := range b.Shafts {
		if at, ok := b.Layout[s.Name]; ok {
			pl.chosen[pl.group[i]] = at
		}
		if s.Axis == nil {
			continue
		}
		at, g := point(*s.Axis), pl.group[i]
		if before, ok := pl.fixed[g]; ok && before.minus(at).norm() > closing {
			p.fault(path("shafts", s.Name, "axis"), "axis doesn't agree", "This shaft sits in another, so both have one axis, but the other's lies at y %.6g, z %.6g mm.", before[0], before[1])
		}
		pl.fixed[g] = at
	}
	for i, c := range b.Centres {
		where := path("centres", fmt.Sprint(i))
		from, to := p.shaft[c.Between[0]], p.shaft[c.Between[1]]
		k := pl.key(from, to)
		if k[0] == k[1] {
			p.fault(where, "no distance here", "Shafts %q and %q lie on one axis.", c.Between[0], c.Between[1])
			continue
		}
		if before, ok := pl.distance(from, to); ok && math.Abs(before-c.Distance) > closing {
			p.fault(where+".distance", "distances don't agree", "%q to %q is %.6g mm here, but %.6g mm by what is said elsewhere in the file.", c.Between[0], c.Between[1], c.Distance, before)
		}
		pl.distances[k] = c.Distance
	}
	return pl
}

func (pl *places) key(i, j int) [2]int {
	a, b := pl.group[i], pl.group[j]
	return [2]int{min(a, b), max(a, b)}
}

// distance between the axes of two shafts, as given.
func (pl *places) distance(i, j int) (float64, bool) {
	k := pl.key(i, j)
	if d, ok := pl.distances[k]; ok {
		return d, true
	}
	a, ok1 := pl.fixed[k[0]]
	b, ok2 := pl.fixed[k[1]]
	if ok1 && ok2 {
		return a.minus(b).norm(), true
	}
	return 0, false
}

// fromMesh takes a distance that nobody gave from the teeth.
func (pl *places) fromMesh(p *prepared, i int) {
	q := p.pairs[i]
	if _, known := pl.distance(q.shafts[0], q.shafts[1]); known {
		return
	}
	k := pl.key(q.shafts[0], q.shafts[1])
	pl.distances[k], pl.teeth[k] = q.geometry.Centre, p.box.Meshes[i].Name
	pl.notes = append(pl.notes, fmt.Sprintf("The distance of %s and %s is not given; %.3f mm follow from the teeth of mesh %q without backlash. Measure it.",
		ShaftTitle(p.box.Shafts[q.shafts[0]].Name), ShaftTitle(p.box.Shafts[q.shafts[1]].Name), q.geometry.Centre, p.box.Meshes[i].Name))
}

// layout is one way the axes of some shafts can lie, by group.
type layout map[int]point

// placing is a layout with what had to be tried for it, in words; none where all of it follows from what is given.
type placing struct {
	layout layout
	words  []string
}

// openPlace is a shaft whose place what is given doesn't settle.
type openPlace struct {
	shaft      string
	directions int // how many are tried; 0 = both sides of a line are
}

// String says what was tried, and what would settle it.
func (o openPlace) String() string {
	if o.directions > 0 {
		return fmt.Sprintf("Only one distance of the %s is known, so its direction isn't: %d directions were tried, and the least is reported. Its distance to a third shaft would settle it.", ShaftTitle(o.shaft), o.directions)
	}
	return fmt.Sprintf("The %s can lie on either side of the line through its neighbours: both were tried, and the least is reported. Say which under side.", ShaftTitle(o.shaft))
}

// placings lists every way the axes of the given shafts can lie as far as is known, with the shafts that are open.
func (pl *places) placings(p *prepared, shafts []int) ([]placing, []openPlace, error) {
	var want []int // groups, in the order of the file
	for _, s := range shafts {
		if g := pl.group[s]; !slices.Contains(want, g) {
			want = append(want, g)
		}
	}
	slices.Sort(want)
	start := layout{}
	for _, g := range want {
		if at, ok := pl.chosen[g]; ok {
			start[g] = at
		} else if at, ok := pl.fixed[g]; ok {
			start[g] = at
		}
	}
	if len(start) == 0 {
		start[want[0]] = point{}
	}
	var open []openPlace
	all := []placing{{layout: start}}
	for len(all[0].layout) < len(want) {
		g, near := pl.next(p, want, all[0].layout)
		shaft := p.box.Shafts[g].Name
		name := ShaftTitle(shaft)
		var grown []placing
		switch len(near) {
		case 0:
			return nil, nil, fmt.Errorf("%s: nothing says where its axis lies; give its axis, or its distance to another shaft under centres", name)
		case 1:
			tried := anglesTried
			if alone(all[0].layout) {
				tried = 1 // the first direction is free: only angles between shafts matter
			} else {
				open = append(open, openPlace{shaft, tried})
			}
			d, _ := pl.distance(g, near[0])
			for _, l := range all {
				for k := range tried {
					angle := 2 * math.Pi * float64(k) / float64(tried)
					at := l.layout[near[0]].plus(point{d * math.Cos(angle), d * math.Sin(angle)})
					words := ""
					if tried > 1 {
						words = fmt.Sprintf("%s at %.0f° from y towards z", name, angle*180/math.Pi)
					}
					grown = append(grown, l.with(g, at, words))
				}
			}
		default:
			side, known := p.box.Side[shaft]
			both := false
			for _, l := range all {
				corners, err := pl.corners(p, g, near[0], near[1], l.layout)
				if err != nil {
					return nil, nil, err
				}
				if !known {
					corners = pl.fitting(g, near, corners, l.layout)
					both = both || len(corners) > 1
				}
				for _, c := range corners {
					switch {
					case !known && c.side != 0:
						grown = append(grown, l.with(g, c.at, name+" on the "+sideWords(c.side)))
					case c.side == 0 || c.side == side:
						grown = append(grown, l.with(g, c.at, ""))
					}
				}
			}
			if both {
				open = append(open, openPlace{shaft: shaft})
			}
		}
		if len(grown) > anglesTried*anglesTried*4 {
			return nil, nil, fmt.Errorf("%s: too little is known about where the shafts lie; give more distances under centres", name)
		}
		all = grown
	}
	return all, open, nil
}

// next is the unplaced group that is best known, with up to two placed groups at known distances: two distances before one, and of
// equals first the one whose side is not stated, since a side is meant against shafts that lie already.
func (pl *places) next(p *prepared, want []int, l layout) (group int, near []int) {
	group = -1
	stated := false
	for _, g := range want {
		if _, placed := l[g]; placed {
			continue
		}
		var known []int
		for _, other := range want {
			at, placed := l[other]
			if _, ok := pl.distance(g, other); !placed || !ok || len(known) == 2 {
				continue
			}
			if len(known) == 0 || l[known[0]].minus(at).norm() > closing {
				known = append(known, other)
			}
		}
		_, side := p.box.Side[p.box.Shafts[g].Name]
		if group < 0 || len(known) > len(near) || len(known) == len(near) && stated && !side {
			group, near, stated = g, known, side
		}
	}
	return group, near
}

func alone(l layout) bool {
	var first *point
	for _, at := range l {
		if first != nil && first.minus(at).norm() > closing {
			return false
		}
		first = &at
	}
	return true
}

// with is the placing with one more group in it, and with what was tried for it, if anything was.
func (l placing) with(g int, at point, words string) placing {
	grown := placing{maps.Clone(l.layout), l.words}
	grown.layout[g] = at
	if words != "" {
		grown.words = append(slices.Clone(l.words), words)
	}
	return grown
}

// corner is one solution of the triangle: side +1 lies clockwise from the line a → b looking along +x, 0 on the line.
type corner struct {
	at   point
	side int
}

// misplaced is by how much more one of two corners must miss a further distance than the other to be ruled out by it, mm: far beyond what measuring errors of a triangle come to.
const misplaced = 1

// fitting are the corners that agree with what is known of the distances to further shafts: a third one settles the side.
func (pl *places) fitting(g int, near []int, corners []corner, l layout) []corner {
	if len(corners) < 2 {
		return corners
	}
	var miss [2]float64
	for other, at := range l {
		if d, ok := pl.distance(g, other); ok && !slices.Contains(near, other) {
			for k, c := range corners {
				miss[k] = max(miss[k], math.Abs(c.at.minus(at).norm()-d))
			}
		}
	}
	switch {
	case miss[0] > miss[1]+misplaced:
		return corners[1:]
	case miss[1] > miss[0]+misplaced:
		return corners[:1]
	}
	return corners
}

// corners solves the triangle of two placed axes and two distances.
func (pl *places) corners(p *prepared, g, a, b int, l layout) ([]corner, error) {
	from, to := l[a], l[b]
	base := to.minus(from)
	c := base.norm()
	ra, _ := pl.distance(g, a)
	rb, _ := pl.distance(g, b)
	along := (ra*ra - rb*rb + c*c) / (2 * c)
	h2 := ra*ra - along*along
	foot := from.plus(base.scaled(along / c))
	switch {
	case ra+rb < c-closing || math.Abs(ra-rb) > c+closing:
		name := func(i int) string { return p.box.Shafts[i].Name }
		return nil, fmt.Errorf("the distances %q–%q %.6g mm, %q–%q %.6g mm and %q–%q %.6g mm don't make a triangle; measure them again",
			name(a), name(b), c, name(a), name(g), ra, name(b), name(g), rb)
	case h2 <= 0:
		return []corner{{foot, 0}}, nil
	}
	up := base.turned().scaled(math.Sqrt(h2) / c)
	return []corner{{foot.plus(up), 1}, {foot.minus(up), -1}}, nil
}

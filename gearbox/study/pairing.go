package study

import (
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
)

// Rename is one part that is called otherwise in the second of two boxes. It is told apart from others by where it is and
// by its teeth.
type Rename struct {
	Sort          PartSort
	First, Second string // its name in each box
	On            string // the shaft that a bearing carries, as the first box calls it; "" of other parts
}

// Unpaired is a part of one box for which the other has none.
type Unpaired struct {
	Box  int // 0 or 1 of the two
	Sort PartSort
	Name string
	On   string // the shaft that a bearing carries; "" of other parts
}

// PartSort is a sort of parts that bear names.
type PartSort string

// The sorts of parts.
const (
	ShaftSort   PartSort = "shaft"
	GearSort    PartSort = "gear"
	BearingSort PartSort = "bearing"
	MeshSort    PartSort = "mesh"
)

// pairing says which parts of two boxes are the same.
type pairing struct {
	second  *gearbox.Box // the second box with its parts called as in the first; what has no partner there keeps out of the way
	renamed []Rename
	alone   []Unpaired
}

// paired finds the parts of one box in another: those of the same name, and of the others shafts by what they do and
// carry, gears by shaft, teeth and place, meshes by their gears, bearings by their order along the shaft.
func paired(a, b *gearbox.Box) pairing {
	p := pairing{}
	shafts := p.match(ShaftSort, shaftNames(a), shaftNames(b), func(x, y string) float64 { return likeness(a, b, x, y) })
	b = together(a, b, shafts)
	gears := p.match(GearSort, gearNames(a), gearNames(b), func(x, y string) float64 {
		g, h := gearOf(a, x), gearOf(b, y)
		if shafts[h.Shaft] != g.Shaft || x != y && g.Teeth != h.Teeth {
			return none
		}
		apart := math.Abs(placeOf(a, g.Shaft, g.At) - placeOf(b, h.Shaft, h.At))
		if x != y && apart > (g.Face+h.Face)/2 {
			return none
		}
		return -apart
	})
	meshes := p.match(MeshSort, meshNames(a), meshNames(b), func(x, y string) float64 {
		m, n := meshOf(a, x), meshOf(b, y)
		if gears[n.Driver] != m.Driver || gears[n.Driven] != m.Driven {
			return none
		}
		return 0
	})
	p.second = called(b, shafts, gears, meshes)
	for i := range p.second.Shafts {
		if s := &p.second.Shafts[i]; slices.ContainsFunc(a.Shafts, func(t gearbox.Shaft) bool { return t.Name == s.Name }) {
			p.bearings(shaftOf(a, s.Name), s)
		}
	}
	return p
}

// together is the second box with its shafts moved to where the first box has them, if all of them start elsewhere by the
// same length: that is another zero of the ruler, not another box.
func together(a, b *gearbox.Box, shafts map[string]string) *gearbox.Box {
	var moves []float64
	for _, s := range b.Shafts {
		if slices.Contains(shaftNames(a), shafts[s.Name]) {
			moves = append(moves, rounded(s.Start-shaftOf(a, shafts[s.Name]).Start))
		}
	}
	if len(moves) == 0 || slices.Min(moves) != slices.Max(moves) {
		return b
	}
	moved := *b
	moved.Shafts = slices.Clone(b.Shafts)
	for i := range moved.Shafts {
		moved.Shafts[i].Start = rounded(moved.Shafts[i].Start - moves[0])
	}
	return &moved
}

// none is the likeness of what can't be the same.
var none = math.Inf(-1)

// match pairs names: equal ones first, then the likest of those left, as long as there are any that can be the same. It
// gives the name in the first box by that in the second; one without a partner gets a name that the first box hasn't got.
func (p *pairing) match(sort PartSort, a, b []string, like func(x, y string) float64) map[string]string {
	first := map[string]string{}
	taken := map[string]bool{}
	for _, y := range b {
		if slices.Contains(a, y) && !math.IsInf(like(y, y), -1) {
			first[y], taken[y] = y, true
		}
	}
	for {
		best, x, y := none, "", ""
		for _, i := range a {
			for _, k := range b {
				if _, done := first[k]; done || taken[i] {
					continue
				}
				if l := like(i, k); l > best {
					best, x, y = l, i, k
				}
			}
		}
		if math.IsInf(best, -1) {
			break
		}
		first[y], taken[x] = x, true
		p.renamed = append(p.renamed, Rename{Sort: sort, First: x, Second: y})
	}
	for _, x := range a {
		if !taken[x] {
			p.alone = append(p.alone, Unpaired{Box: 0, Sort: sort, Name: x})
		}
	}
	for _, y := range b {
		if _, ok := first[y]; !ok {
			p.alone = append(p.alone, Unpaired{Box: 1, Sort: sort, Name: y})
			free := y
			for slices.Contains(a, free) || free != y && slices.Contains(b, free) {
				free += "′"
			}
			first[y] = free
		}
	}
	return first
}

// likeness says how much alike two shafts are by what they do and by the gears on them.
func likeness(a, b *gearbox.Box, x, y string) float64 {
	l := 0.0
	for _, same := range []bool{x == y, a.Input.Shaft == x && b.Input.Shaft == y, a.Output.Shaft == x && b.Output.Shaft == y} {
		if same {
			l += 100
		}
	}
	for i := range a.Gears {
		for k := range b.Gears {
			g, h := &a.Gears[i], &b.Gears[k]
			if g.Shaft == x && h.Shaft == y && (g.Name == h.Name || g.Teeth == h.Teeth && rounded(g.At) == rounded(h.At)) {
				l++
			}
		}
	}
	if l == 0 {
		return none
	}
	return l
}

// bearings pairs the bearings of a shaft: by their order where both boxes have as many, else by their names.
func (p *pairing) bearings(a, b *gearbox.Shaft) {
	x, y := ordered(a.Bearings), ordered(b.Bearings)
	names := make([]string, len(b.Bearings))
	if len(x) == len(y) {
		for k, j := range y {
			names[j] = a.Bearings[x[k]].Name
			if old := b.Bearings[j].Name; old != names[j] {
				p.renamed = append(p.renamed, Rename{BearingSort, names[j], old, a.Name})
			}
		}
	} else {
		for j, br := range b.Bearings {
			if names[j] = br.Name; bearingOf(a, br.Name) == nil {
				p.alone = append(p.alone, Unpaired{1, BearingSort, br.Name, a.Name})
			}
		}
		for _, br := range a.Bearings {
			if bearingOf(b, br.Name) == nil {
				p.alone = append(p.alone, Unpaired{0, BearingSort, br.Name, a.Name})
			}
		}
	}
	b.Bearings = slices.Clone(b.Bearings)
	for j := range b.Bearings {
		b.Bearings[j].Name = names[j]
	}
	rank := func(br gearbox.Bearing) int {
		if i := slices.IndexFunc(a.Bearings, func(o gearbox.Bearing) bool { return o.Name == br.Name }); i >= 0 {
			return i
		}
		return len(a.Bearings)
	}
	slices.SortStableFunc(b.Bearings, func(s, t gearbox.Bearing) int { return rank(s) - rank(t) })
}

// called is a box whose shafts, gears and meshes are called by other names.
func called(box *gearbox.Box, shafts, gears, meshes map[string]string) *gearbox.Box {
	b := *box
	b.Input.Shaft, b.Output.Shaft = shafts[b.Input.Shaft], shafts[b.Output.Shaft]
	b.Shafts = slices.Clone(b.Shafts)
	for i := range b.Shafts {
		s := &b.Shafts[i]
		s.Name, s.Bearings = shafts[s.Name], slices.Clone(s.Bearings)
		for j := range s.Bearings {
			if in := &s.Bearings[j].In; *in != "" {
				*in = shafts[*in]
			}
		}
		s.Joints = slices.Clone(s.Joints)
		for j := range s.Joints {
			if held := &s.Joints[j].Holds; *held != "" {
				*held = gears[*held]
			}
		}
	}
	b.Gears, b.Meshes, b.Speeds, b.Centres = slices.Clone(b.Gears), slices.Clone(b.Meshes), slices.Clone(b.Speeds), slices.Clone(b.Centres)
	for i := range b.Gears {
		g := &b.Gears[i]
		g.Name, g.Shaft = gears[g.Name], shafts[g.Shaft]
	}
	for i := range b.Meshes {
		m := &b.Meshes[i]
		m.Name, m.Driver, m.Driven = meshes[m.Name], gears[m.Driver], gears[m.Driven]
	}
	for i := range b.Speeds {
		b.Speeds[i].Path = slices.Clone(b.Speeds[i].Path)
		for k, m := range b.Speeds[i].Path {
			b.Speeds[i].Path[k] = meshes[m]
		}
	}
	for i := range b.Centres {
		for k, s := range b.Centres[i].Between {
			b.Centres[i].Between[k] = shafts[s]
		}
	}
	if b.Side != nil {
		b.Side = map[string]int{}
		for s, side := range box.Side {
			b.Side[shafts[s]] = side
		}
	}
	before := doubts(box)
	b.Unknown = unknown(&b, func(_ doubt, i int) bool { return box.Unknown[before[i].path] })
	return &b
}

func shaftNames(b *gearbox.Box) (all []string) {
	for _, s := range b.Shafts {
		all = append(all, s.Name)
	}
	return all
}

func gearNames(b *gearbox.Box) (all []string) {
	for _, g := range b.Gears {
		all = append(all, g.Name)
	}
	return all
}

func meshNames(b *gearbox.Box) (all []string) {
	for _, m := range b.Meshes {
		all = append(all, m.Name)
	}
	return all
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

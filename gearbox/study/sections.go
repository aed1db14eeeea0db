package study

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Shafts are described by the sections of their files. Sections of two boxes are matched by where they are once the
// bearings of both stand at the same places, as a builder would lay the shafts beside each other.

// piece is a section of a shaft: its number in the file, counted from 1, and where along the box it lies, mm.
type piece struct {
	number int
	gearbox.Section
	from, to float64
}

// overlap is the length over which two pieces lie beside each other, mm; not above 0 = they don't.
func (p *piece) overlap(q *piece) float64 { return math.Min(p.to, q.to) - math.Max(p.from, q.from) }

// sameSize tells whether two pieces have the same diameters.
func (p *piece) sameSize(q *piece) bool { return p.Outer == q.Outer && p.Bore == q.Bore }

// pieces are the sections of a shaft, put along the box by a scale; places of stay are where they are already.
func pieces(s *gearbox.Shaft, along scale, stay []float64) (all []piece) {
	x := borders(s)
	for i, place := range x {
		if !slices.Contains(stay, place) {
			x[i] = along.at(place)
		}
	}
	for i, sec := range s.Sections {
		all = append(all, piece{i + 1, sec, x[i], x[i+1]})
	}
	return all
}

// whole makes one piece of neighbours of the same size: a file may cut a section anywhere.
func whole(all []piece) (w []piece) {
	for _, p := range all {
		if n := len(w) - 1; n >= 0 && w[n].sameSize(&p) {
			w[n].to, w[n].Length = p.to, rounded(w[n].Length+p.Length)
			continue
		}
		w = append(w, p)
	}
	return w
}

// sectionFacts are the sections of a shaft that differ in diameter, bore or length, those that differ most first. aside
// tells whether steps stand elsewhere than the bearings would take them, and no fact says so.
func sectionFacts(a, b *gearbox.Shaft) (all []Fact, aside bool) {
	back := between(b, a)
	p, q := pieces(a, scale{}, nil), pieces(b, back, borders(a))
	for _, match := range matches(p, q) {
		x, y := match[0], match[1]
		for _, d := range []struct {
			what     string
			from, to float64
		}{{"diameter", x.Outer, y.Outer}, {"bore", x.Bore, y.Bore}} {
			if d.from != d.to {
				all = append(all, Fact{
					Part: a.Name, What: d.what, Sections: [2]int{x.number, y.number}, Dimension: quantity.Length, From: d.from, To: d.to,
					size: x.overlap(y) * math.Abs(d.to-d.from),
				})
			}
		}
	}
	lengths, aside := lengthFacts(a.Name, p, q, back.moves())
	if from, to := rounded(a.Start), rounded(b.Start); !back.moves() && from != to {
		lengths = append(lengths, Fact{Part: a.Name, What: "start", Dimension: quantity.Length, From: from, To: to, size: math.Abs(to - from)})
		aside = false
	}
	for _, some := range [][]Fact{all, lengths} {
		slices.SortStableFunc(some, func(f, g Fact) int { return cmp.Compare(g.size, f.size) })
	}
	all = append(all, lengths...) // what is thicker or thinner says more than what is longer
	return all, aside
}

// matches are the sections of two shafts that stand for each other and differ in size. A section that has its like beside
// it in the other box is left alone; every other one stands for that which it lies beside most.
func matches(p, q []piece) (all [][2]*piece) {
	add := func(x, y *piece) {
		if !slices.Contains(all, [2]*piece{x, y}) {
			all = append(all, [2]*piece{x, y})
		}
	}
	for i := range p {
		if y := unlike(&p[i], q); y != nil {
			add(&p[i], y)
		}
	}
	for i := range q {
		if x := unlike(&q[i], p); x != nil {
			add(x, &q[i])
		}
	}
	slices.SortStableFunc(all, func(s, t [2]*piece) int { return cmp.Compare(s[0].number, t[0].number) })
	return all
}

// unlike is the section that another one stands for, if it has another size; nil when it has its like there, which lies
// beside at least half of the shorter of the two, or nothing lies beside it.
func unlike(p *piece, others []piece) (most *piece) {
	for i := range others {
		o := &others[i]
		beside := p.overlap(o)
		if p.sameSize(o) && beside >= math.Min(p.to-p.from, o.to-o.from)/2 {
			return nil
		}
		if beside > 0 && (most == nil || beside > p.overlap(most)) {
			most = o
		}
	}
	if most != nil && p.sameSize(most) {
		return nil
	}
	return most
}

// inProportion is the share of its length by which a section may differ from what the bearings make of it without being
// named, on a shaft whose bearings stand elsewhere: there every length differs.
const inProportion = 0.1

// lengthFacts are the sections of another length, where both shafts have as many; else the length of the shaft. moved tells
// that the bearings stand elsewhere, so that lengths in proportion to them are no difference.
func lengthFacts(shaft string, p, q []piece, moved bool) (all []Fact, aside bool) {
	add := func(sections [2]int, from, to, off float64) {
		all = append(all, Fact{Part: shaft, What: "length", Sections: sections, Dimension: quantity.Length, From: from, To: to, size: off})
	}
	x, y := whole(p), whole(q)
	if len(x) != len(y) {
		x, y = p, q
	}
	if len(x) != len(y) {
		from, to := total(p), total(q)
		if !moved && from != to {
			add([2]int{}, from, to, math.Abs(to-from))
		}
		return all, moved || len(all) == 0 && len(matches(p, q)) == 0
	}
	for k := range x {
		was, is := x[k].to-x[k].from, y[k].to-y[k].from
		off := math.Abs(is - was)
		switch {
		case off < 1e-9:
		case !moved || off > inProportion*math.Max(was, is):
			add([2]int{x[k].number, y[k].number}, x[k].Length, y[k].Length, off)
		default:
			aside = true
		}
	}
	return all, aside && len(all) == 0
}

func total(all []piece) (length float64) {
	for _, p := range all {
		length += p.Length
	}
	return rounded(length)
}

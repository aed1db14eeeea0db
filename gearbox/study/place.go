package study

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
)

// Places are told along the box here, mm, so that a shaft that is written from another end of its own is the same shaft.

// placeOf is where a place along a shaft lies in the box.
func placeOf(b *gearbox.Box, shaft string, at float64) float64 {
	return rounded(shaftOf(b, shaft).Start + at)
}

// rounded is a place to a millionth of a micrometre, so that one that comes back to where it was is the same number again.
func rounded(mm float64) float64 { return math.Round(mm*1e9) / 1e9 }

// scale leads from places along a shaft of one box to where they go when its bearings move to where they are in another.
type scale struct{ from, to []float64 } // places of the bearings that both boxes have, from left to right

// between is the scale from one make of a shaft to another.
func between(from, to *gearbox.Shaft) (s scale) {
	for _, j := range ordered(from.Bearings) {
		if other := bearingOf(to, from.Bearings[j].Name); other != nil {
			s.from = append(s.from, rounded(from.Start+from.Bearings[j].At))
			s.to = append(s.to, rounded(to.Start+other.At))
		}
	}
	return s
}

// moves tells whether any bearing moves.
func (s scale) moves() bool { return !slices.Equal(s.from, s.to) }

// at is where a place goes: between two bearings in proportion, beyond the outermost as far as that one.
func (s scale) at(x float64) float64 {
	if !s.moves() {
		return x
	}
	last := len(s.from) - 1
	switch {
	case x <= s.from[0]:
		return rounded(x + s.to[0] - s.from[0])
	case x >= s.from[last]:
		return rounded(x + s.to[last] - s.from[last])
	}
	k := 1
	for x > s.from[k] {
		k++
	}
	share := (x - s.from[k-1]) / (s.from[k] - s.from[k-1])
	return rounded(s.to[k-1] + share*(s.to[k]-s.to[k-1]))
}

// borders are the places where a shaft begins, changes and ends.
func borders(s *gearbox.Shaft) []float64 {
	x := s.Start
	all := []float64{rounded(x)}
	for _, sec := range s.Sections {
		x += sec.Length
		all = append(all, rounded(x))
	}
	return all
}

// ordered are the indices of bearings from left to right.
func ordered(all []gearbox.Bearing) []int {
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(all[i].At, all[j].At) })
	return order
}

func shaftOf(b *gearbox.Box, name string) *gearbox.Shaft {
	return &b.Shafts[slices.IndexFunc(b.Shafts, func(s gearbox.Shaft) bool { return s.Name == name })]
}

func gearOf(b *gearbox.Box, name string) *gearbox.Gear {
	return &b.Gears[slices.IndexFunc(b.Gears, func(g gearbox.Gear) bool { return g.Name == name })]
}

func meshOf(b *gearbox.Box, name string) *gearbox.Mesh {
	return &b.Meshes[slices.IndexFunc(b.Meshes, func(m gearbox.Mesh) bool { return m.Name == name })]
}

// bearingOf is a bearing of a shaft; nil when it has none of that name.
func bearingOf(s *gearbox.Shaft, name string) *gearbox.Bearing {
	if i := slices.IndexFunc(s.Bearings, func(b gearbox.Bearing) bool { return b.Name == name }); i >= 0 {
		return &s.Bearings[i]
	}
	return nil
}

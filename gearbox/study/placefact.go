package study

import (
	"cmp"
	"math"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// given is a place along a shaft that a file gives.
type given struct {
	part, what string
	shaft      string
	at         *float64 // mm from the shaft's left end; nil = not given
}

// givenPlaces are the places of gears, hubs, input and output, in an order that two boxes of the same make-up share.
func givenPlaces(b *gearbox.Box, gears []gearbox.Gear) (all []given) {
	for _, of := range gears {
		g := gearOf(b, of.Name)
		all = append(all, given{g.Name, "place", g.Shaft, &g.At})
	}
	all = append(all, given{"input", "place", b.Input.Shaft, &b.Input.At}, given{"output", "place", b.Output.Shaft, &b.Output.At})
	for _, of := range gears {
		g := gearOf(b, of.Name)
		all = append(all, given{g.Name, "hub (engages_at)", g.Shaft, g.EngagesAt})
	}
	return append(all, given{"direct speed", "hub on the input shaft (direct)", b.Input.Shaft, b.DirectAt.Input},
		given{"direct speed", "hub on the output shaft (direct)", b.Output.Shaft, b.DirectAt.Output})
}

// placeFacts are the places that differ between two mixes of two boxes, as the files give them: those first that stand
// farthest from where the bearings would take them. A hub that only keeps beside its gear is no difference.
func placeFacts(without, with *gearbox.Box, files [2]*gearbox.Box) (all []Fact) {
	x, y := givenPlaces(without, without.Gears), givenPlaces(with, without.Gears)
	p, q := givenPlaces(files[0], without.Gears), givenPlaces(files[1], without.Gears)
	hubs := len(without.Gears) + 2 // those of the gears begin here
	for i := range x {
		aside := y[i].along(with) - x[i].along(without)
		if gear := i - hubs; gear >= 0 && gear < len(without.Gears) {
			aside -= y[gear].along(with) - x[gear].along(without)
		}
		from, to := p[i].number(), q[i].number()
		if x[i].at == nil && y[i].at == nil || math.Abs(aside) < 1e-9 {
			continue
		}
		f := Fact{Part: x[i].part, What: x[i].what, Dimension: quantity.Length, From: from, To: to, size: math.Abs(aside)}
		if rounded(shaftOf(files[0], p[i].shaft).Start) != rounded(shaftOf(files[1], q[i].shaft).Start) {
			f.What, f.From, f.To = alongTheBox(f.What), p[i].along(files[0]), q[i].along(files[1])
		}
		if f.From != f.To {
			all = append(all, f)
		}
	}
	slices.SortStableFunc(all, func(f, g Fact) int { return cmp.Compare(g.size, f.size) })
	return all
}

// alongTheBox is what a place is called that is told along the box, as the shaft begins elsewhere in the other file.
func alongTheBox(what string) string { return what + " along the box" }

// number is the place as the file gives it; NaN = it doesn't.
func (g *given) number() float64 {
	if g.at == nil {
		return math.NaN()
	}
	return *g.at
}

// along is the place along the box.
func (g *given) along(b *gearbox.Box) float64 { return rounded(shaftOf(b, g.shaft).Start + g.number()) }

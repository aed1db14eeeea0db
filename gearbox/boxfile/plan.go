package boxfile

import (
	"fmt"
	"strings"

	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"

	"gopkg.in/yaml.v3"
)

// plan is what a file is composed of beside what it says itself.
type plan struct {
	base      string
	basePlace diag.Place
	take      []taking
	drop      []partName
}

// taking are parts out of one other file.
type taking struct {
	from                           string
	place                          diag.Place // of the name of the file
	shafts, pairs, gears, bearings []partName
	caseToo                        bool
	keepGears, keepBearings        bool
	shift                          float64 // mm
	turned                         bool
}

// partName is one part by its name there and its name here.
type partName struct {
	name, as string
	place    diag.Place
}

var planFields = []field[plan]{
	{key: "base", about: "box file that this one starts from: what isn't given here is as it is there, but for its name, its service history and what was weighed", fallback: "none", value: fileName(func(p *plan, name string, place diag.Place) {
		p.base, p.basePlace = name, place
	})},
	{key: "take", about: "parts out of other box files", fallback: "none", value: list("set of parts", takeFields, func(p *plan) *[]taking { return &p.take }, nil)},
	{key: "drop", about: "what is not wanted of all that, by paths such as speeds.5th", fallback: "nothing", value: partNames("path", func(p *plan) *[]partName { return &p.drop })},
}

var takeFields = []field[taking]{
	{key: "from", need: true, about: "box file that they come from, as seen from this file", value: fileName(func(t *taking, name string, place diag.Place) { t.from, t.place = name, place })},
	{key: "shafts", about: "shafts, each with its bearings, its gears and the pairs among them", fallback: "none", value: partNames("shaft", func(t *taking) *[]partName { return &t.shafts })},
	{key: "pairs", about: "meshes with their two gears, which go where gears of their names sit, else to the same place in the box", fallback: "none", value: partNames("mesh", func(t *taking) *[]partName { return &t.pairs })},
	{key: "gears", about: "single gears, likewise", fallback: "none", value: partNames("gear", func(t *taking) *[]partName { return &t.gears })},
	{key: "bearings", about: "bearings by shaft and name, such as output.left, which go where the bearing of that name sits", fallback: "none", value: partNames("bearing", func(t *taking) *[]partName { return &t.bearings })},
	{key: "case", about: "whether the case is taken too: centre distances, sides, stiffness, and where its bearings sit", fallback: "no", value: yesNo(func(t *taking, yes bool) { t.caseToo = yes })},
	{key: "keep", about: "what of a shaft that is taken stays as it is in this box, at its place in the box: gears, bearings", fallback: "nothing", value: keeps()},
	{key: "shift", about: "how far the shafts taken move along the box, to the right", fallback: "0 mm", value: number(quantity.Length, anyNumber, func(t *taking) *float64 { return &t.shift })},
	{key: "turned", about: "whether the shafts taken are turned end for end, with what sits on them", fallback: "no", value: yesNo(func(t *taking, yes bool) { t.turned = yes })},
}

// keeps reads what of a shaft stays.
func keeps() value[taking] {
	return value[taking]{
		written: "list of gears, bearings",
		read: func(r *reader, at spot, t *taking) {
			readList(r, at, "gears or bearings", func(at spot) {
				word("part", []string{"gears", "bearings"}, func(t *taking, w string) {
					t.keepGears, t.keepBearings = t.keepGears || w == "gears", t.keepBearings || w == "bearings"
				}).read(r, at, t)
			})
		},
	}
}

// fileName is the name of another file.
func fileName[T any](set func(*T, string, diag.Place)) value[T] {
	return value[T]{
		written: "name of a box file",
		read: func(r *reader, at spot, to *T) {
			if name, ok := r.scalar(at, "the name of a box file"); ok {
				set(to, name, at.place)
			}
		},
	}
}

// partNames are names in a list, or a map from the names there to the names here.
func partNames[T any](what string, part func(*T) *[]partName) value[T] {
	expected := fmt.Sprintf("a list of names, or a map from the name of a %s there to its name here", what)
	return value[T]{
		written: "list of names, or map from names there to names here",
		read: func(r *reader, at spot, to *T) {
			all := part(to)
			if at.node.Kind == yaml.MappingNode {
				pairs, _ := r.pairs(at, expected)
				for _, p := range pairs {
					if child, ok := r.enter(p.value, join(at.path, p.key), p.place); ok {
						if as, ok := r.scalar(child, "its name here"); ok {
							*all = append(*all, partName{p.key, as, p.place})
						}
					}
				}
				return
			}
			readList(r, at, "the name of a "+what, func(at spot) {
				if name, ok := r.scalar(at, "the name of a "+what); ok {
					*all = append(*all, partName{strings.TrimSpace(name), strings.TrimSpace(name), at.place})
				}
			})
		},
	}
}

// readBefore are the keys of a plan in the table of a box: they were read before all else, when the file was composed.
func readBefore() (all []field[boxDraft]) {
	for _, f := range planFields {
		keys := f.value.keys
		all = append(all, field[boxDraft]{key: f.key, about: f.about, fallback: f.fallback, value: value[boxDraft]{written: f.value.written, read: func(*reader, spot, *boxDraft) {}, keys: keys}})
	}
	return all
}

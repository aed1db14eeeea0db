package study

import "layshaft/gearbox"

// doubt is a place in a file at which a builder may say that something is unknown, and the group that it belongs to.
type doubt struct {
	group Group
	path  string
}

// doubts are the places of a box at which something may be unknown, in the order of its parts.
func doubts(b *gearbox.Box) []doubt {
	all := []doubt{{Sense, "input.turns"}, {Steel, "steel"}, {Case, "housing"}}
	for _, s := range b.Shafts {
		all = append(all, doubt{Steel, "shafts." + s.Name + ".steel"}, doubt{Teeth, "side." + s.Name})
		for _, br := range s.Bearings {
			all = append(all, doubt{Case, "shafts." + s.Name + ".bearings." + br.Name + ".housing"})
		}
	}
	for _, g := range b.Gears {
		all = append(all, doubt{Seats, "gears." + g.Name + ".seat"}, doubt{Teeth, "gears." + g.Name + ".grade"}, doubt{Steel, "gears." + g.Name + ".steel"})
	}
	for _, m := range b.Meshes {
		all = append(all, doubt{Teeth, "meshes." + m.Name + ".hand"})
	}
	return all
}

// unknown says what isn't known of a box, by the places of the box itself, when each doubt stands as in another one; nil =
// all is known.
func unknown(b *gearbox.Box, as func(d doubt, i int) bool) map[string]bool {
	var paths map[string]bool
	for i, d := range doubts(b) {
		if as(d, i) {
			if paths == nil {
				paths = map[string]bool{}
			}
			paths[d.path] = true
		}
	}
	return paths
}

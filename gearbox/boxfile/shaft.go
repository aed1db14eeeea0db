package boxfile

import (
	"fmt"
	"maps"
	"math"
	"slices"

	rolling "layshaft/beam/bearing"
	"layshaft/beam/strength"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

var shaftFields = []field[gearbox.Shaft]{
	{key: "axis", about: "place of the axis in the box", fallback: "from the centre distances", value: group(axisFields, func(s *gearbox.Shaft) *[2]float64 {
		s.Axis = new([2]float64)
		return s.Axis
	}, nil)},
	{key: "start", about: "place of the left end along the box (x)", fallback: "0 mm", value: number(quantity.Length, anywhere, func(s *gearbox.Shaft) *float64 { return &s.Start })},
	{key: "steel", about: "its steel", fallback: "the steel of the box", value: orUnknown(nameOf(steel, func(s *gearbox.Shaft) *string { return &s.Steel }))},
	{key: "sections", need: true, about: "its pieces of one diameter, from the left end on", value: list("section", sectionFields,
		func(s *gearbox.Shaft) *[]gearbox.Section { return &s.Sections }, checkSection)},
	{key: "bearings", need: true, about: "what carries it", value: named(bearing, bearingFields,
		func(name string) gearbox.Bearing { return gearbox.Bearing{Name: name, Radial: math.Inf(1)} },
		func(s *gearbox.Shaft, b gearbox.Bearing) { s.Bearings = append(s.Bearings, b) }, checkBearing)},
	{key: "notches", about: "places where stress is raised, for its fatigue: shoulders, grooves, holes, keyways, fits, teeth", fallback: "none: its fatigue isn't judged", value: named(notch, notchFields,
		func(name string) gearbox.Notch { return gearbox.Notch{Name: name} },
		func(s *gearbox.Shaft, n gearbox.Notch) { s.Notches = append(s.Notches, n) }, checkNotch)},
	{key: "joints", about: "where torque or thrust passes between it and what sits on it: splines, keys, press fits, circlips", fallback: "none: they aren't judged", value: named(joint, jointFields,
		func(name string) gearbox.Joint { return gearbox.Joint{Name: name} },
		func(s *gearbox.Shaft, j gearbox.Joint) { s.Joints = append(s.Joints, j) }, checkJoint)},
	{key: "surface", about: "how its surface was left at its notches, for its fatigue", fallback: "machined", value: word("surface", strength.Surfaces(), func(s *gearbox.Shaft, w strength.Surface) { s.Surface = w })},
	{key: "pair", about: "how its first and its last bearing, tapered rollers both, are set against each other", fallback: "not told", value: group(pairFields, func(s *gearbox.Shaft) *gearbox.BearingPair {
		s.Pair = new(gearbox.BearingPair)
		return s.Pair
	}, checkSetting)},
}

var axisFields = []field[[2]float64]{
	{key: "y", need: true, about: "to the left, seen from the left end of the shafts along x with z upwards", value: number(quantity.Length, anywhere, func(a *[2]float64) *float64 { return &a[0] })},
	{key: "z", need: true, about: "upwards", value: number(quantity.Length, anywhere, func(a *[2]float64) *float64 { return &a[1] })},
}

var sectionFields = []field[gearbox.Section]{
	{key: "length", need: true, about: "length along the shaft", value: number(quantity.Length, sizes, func(s *gearbox.Section) *float64 { return &s.Length })},
	{key: "outer", need: true, about: "outer diameter", value: number(quantity.Length, sizes, func(s *gearbox.Section) *float64 { return &s.Outer })},
	{key: "bore", about: "diameter of the hole", fallback: "solid", value: number(quantity.Length, alongShaft, func(s *gearbox.Section) *float64 { return &s.Bore })},
}

var arrangements = map[string]rolling.Arrangement{"face to face": rolling.FaceToFace, "back to back": rolling.BackToBack}

var pairFields = []field[gearbox.BearingPair]{
	{key: "arrangement", need: true, about: "which faces of the two look at each other: face to face (X), back to back (O)", value: word("arrangement", slices.Sorted(maps.Keys(arrangements)),
		func(p *gearbox.BearingPair, w string) { p.Arrangement = arrangements[w] })},
	{key: "end_play", about: "axial play of the shaft; this or preload is needed where the elements are given", fallback: "–", value: number(quantity.Deflection, within(0, 0.5, 1, " mm"), func(p *gearbox.BearingPair) *float64 { return &p.EndPlay })},
	{key: "preload", about: "how far the two are pushed together, instead of end play", fallback: "–", value: preload()},
}

// preload is an end play the other way round.
func preload() value[gearbox.BearingPair] {
	push := number(quantity.Deflection, within(0, 0.2, 1, " mm"), func(v *float64) *float64 { return v })
	return value[gearbox.BearingPair]{
		written: push.written,
		read: func(r *reader, at spot, p *gearbox.BearingPair) {
			var by float64
			push.read(r, at, &by)
			p.EndPlay = 0 - by // not −by, which would make a minus zero
		},
	}
}

// checkSetting looks at how a pair is set; the bearings that make it are looked at when the whole shaft is read.
func checkSetting(r *reader, at spot, _ *gearbox.BearingPair, given map[string]bool) {
	play, push := join(at.path, "end_play"), join(at.path, "preload")
	switch {
	case given["end_play"] && given["preload"]:
		r.fault(r.box.Places[push], push, "two values for one thing", "A pair has end play or preload: keep one of them.")
	case given["preload"]:
		// The end play is what everything after this asks for; it stands where the preload stands.
		r.box.Places[play] = r.box.Places[push]
		if t, ok := r.box.Tolerances[push]; ok {
			r.box.Tolerances[play] = t
		}
	}
}

func checkSection(r *reader, at spot, s *gearbox.Section, _ map[string]bool) {
	if s.Outer > 0 && s.Bore >= s.Outer {
		path := join(at.path, "bore")
		r.fault(r.box.Places[path], path, "value out of range", "The bore is not smaller than the outer diameter.")
	}
}

func checkShaft(r *reader, at spot, s *gearbox.Shaft, given map[string]bool) {
	if given["pair"] && s.Pair != nil && len(s.Bearings) > 0 {
		r.checkPair(at, s)
	}
	for _, b := range s.Bearings {
		if b.In == s.Name {
			path := join(at.path, "bearings."+b.Name+".in")
			r.fault(r.box.Places[path], path, "a shaft that carries itself", fmt.Sprintf("Bearing %q sits in another shaft than its own, or in the case: then leave out in and in_at.", b.Name))
		}
	}
}

// checkPair makes sure that there are two bearings to be set against each other, and asks the model whether there can be such a pair.
func (r *reader) checkPair(at spot, s *gearbox.Shaft) {
	path := join(at.path, "pair")
	place := r.box.Places[path]
	first, last := s.Bearings[0], s.Bearings[len(s.Bearings)-1]
	if len(s.Bearings) < 2 {
		r.fault(place, path, "a pair of one bearing", "A pair needs two bearings, and the shaft has one.")
		return
	}
	if first.Elements == nil && last.Elements == nil && first.Rating != nil && last.Rating != nil {
		r.checkRatedPair(at, s)
		return
	}
	if _, set := r.box.Places[join(path, "end_play")]; !set {
		r.fault(place, path, `missing key "end_play"`, "A pair is set with end_play, such as 20 µm, or with preload.")
		return
	}
	sound := !r.faulty(path)
	for _, b := range []gearbox.Bearing{first, last} {
		where := join(at.path, "bearings."+b.Name)
		elements := join(where, "elements")
		switch {
		case r.faulty(where):
			sound = false
		case b.Type != gearbox.TaperedRoller:
			sound = false
			r.fault(place, path, "the wrong type of bearing for a pair", fmt.Sprintf("The first and the last bearing of the shaft make the pair, and %q is a %s bearing. Expected: tapered roller.", b.Name, b.Type))
		case b.Elements == nil:
			sound = false
			r.fault(place, path, "a pair without its rollers", fmt.Sprintf("Bearing %q needs elements: without its rollers a pair can't be reckoned with.", b.Name))
		case b.Elements.Clearance != 0:
			sound = false
			path := join(elements, "clearance")
			r.fault(r.box.Places[path], path, "two values for one thing", "The pair says how its bearings are set: leave out the clearance.")
		}
	}
	if !sound {
		return
	}
	if first.At >= last.At {
		r.fault(place, path, "a pair in the wrong order", fmt.Sprintf("The first bearing %q must lie to the left of the last, %q.", first.Name, last.Name))
	}
	pair := rolling.Pair{Arrangement: s.Pair.Arrangement, A: *first.Elements, B: *last.Elements, Setting: s.Pair.EndPlay}
	for _, err := range parts(pair.Check()) {
		r.fault(place, path, "an impossible pair", sentence(err.Error()))
	}
}

// checkRatedPair makes sure that a pair whose rollers aren't known has what shares its thrust by the rule of catalogues. How it is set means nothing there.
func (r *reader) checkRatedPair(at spot, s *gearbox.Shaft) {
	path := join(at.path, "pair")
	for _, key := range []string{"preload", "end_play"} { // a preload stands in the place of the end play too
		if place, set := r.box.Places[join(path, key)]; set {
			r.fault(place, join(path, key), "a setting without rollers", "What end play or preload does follows from the rollers: give elements of both bearings, or leave "+key+" out.")
			break
		}
	}
	for _, b := range []gearbox.Bearing{s.Bearings[0], s.Bearings[len(s.Bearings)-1]} {
		where := join(at.path, "bearings."+b.Name)
		switch {
		case r.faulty(where):
		case b.Type != gearbox.TaperedRoller:
			r.fault(r.box.Places[path], path, "the wrong type of bearing for a pair", fmt.Sprintf("The first and the last bearing of the shaft make the pair, and %q is a %s bearing. Expected: tapered roller.", b.Name, b.Type))
		case b.Rating.Y == 0:
			where = join(where, "rating")
			r.fault(r.box.Places[where], where, `missing key "y"`, fmt.Sprintf("What bearing %q pushes along the shaft follows from its axial factor Y. Expected: y, such as 1.6.", b.Name))
		}
	}
}

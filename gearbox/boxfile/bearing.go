package boxfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	rolling "layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

var bearingFields = []field[gearbox.Bearing]{
	{key: "at", need: true, about: "effective centre, from the left end of the shaft", value: number(quantity.Length, alongShaft, func(b *gearbox.Bearing) *float64 { return &b.At })},
	{key: "type", need: true, about: "type of bearing, for its limit of slope and what its elements are", value: word("bearing type", gearbox.BearingTypes(), func(b *gearbox.Bearing, t gearbox.BearingType) { b.Type = t })},
	{key: "radial", about: "stiffness across the shaft", fallback: "rigid", value: stiffness(quantity.RadialStiffness, springs, []string{"rigid"},
		map[string]float64{"rigid": math.Inf(1)}, func(b *gearbox.Bearing) *float64 { return &b.Radial })},
	{key: "tilt", about: "stiffness against tilting", fallback: "free", value: stiffness(quantity.TiltStiffness, tiltSprings, []string{"free", "rigid"},
		map[string]float64{"free": 0, "rigid": math.Inf(1)}, func(b *gearbox.Bearing) *float64 { return &b.Tilt })},
	{key: "axial", about: "stiffness along the shaft; a shaft with a pair is held by it, whatever stands here", fallback: "free", value: stiffness(quantity.RadialStiffness, springs, []string{"free", "fixed"},
		map[string]float64{"free": 0, "fixed": math.Inf(1)}, func(b *gearbox.Bearing) *float64 { return &b.Axial })},
	{key: "housing", about: "stiffness of the case under this bearing", fallback: "by the housing of the box", value: orUnknown(number(quantity.RadialStiffness, cases, func(b *gearbox.Bearing) *float64 { return &b.Housing }))},
	{key: "elements", about: "its balls or rollers, from which its stiffness follows; instead of radial and tilt", fallback: "by radial, tilt and axial", value: group(elementFields, func(b *gearbox.Bearing) *rolling.Elements {
		b.Elements = new(rolling.Elements)
		return b.Elements
	}, nil)},
	{key: "rating", about: "what its catalogue says it bears", fallback: "not known", value: group(ratingFields, func(b *gearbox.Bearing) *rolling.Rating {
		b.Rating = new(rolling.Rating)
		return b.Rating
	}, nil)},
	{key: "slope_limit", about: "largest slope of the shaft here", fallback: "by the type", value: number(quantity.Slope, slopes.usually(0.1, 60, 1e-3, " mrad", "a bearing, and up to 10 mrad for any but a self-aligning one"), func(b *gearbox.Bearing) *float64 { return &b.SlopeLimit })},
	{key: "in", about: "shaft that carries this bearing (a pilot)", fallback: "the case", value: nameOf(shaft, func(b *gearbox.Bearing) *string { return &b.In })},
	{key: "in_at", about: "where on that shaft, from its left end; goes with in", fallback: "–", value: number(quantity.Length, alongShaft, func(b *gearbox.Bearing) *float64 { return &b.InAt })},
}

var elementFields = []field[rolling.Elements]{
	{key: "count", need: true, about: "number of balls or rollers", value: count(3, 1000, func(e *rolling.Elements) *int { return &e.Count })},
	{key: "diameter", need: true, about: "diameter of a ball or roller; of a tapered one in its middle", value: number(quantity.Length, sizes, func(e *rolling.Elements) *float64 { return &e.Diameter })},
	{key: "length", about: "length of a roller without its chamfers; needed for rollers, balls have none", fallback: "–", value: number(quantity.Length, sizes, func(e *rolling.Elements) *float64 { return &e.Length })},
	{key: "pitch", need: true, about: "diameter of the circle through their middles", value: number(quantity.Length, sizes, func(e *rolling.Elements) *float64 { return &e.Pitch })},
	{key: "contact_angle", about: "angle between the line of contact and the plane across the shaft, positive where the bearing holds a shaft that is pushed to the right; of a pair the size alone counts; needed for tapered rollers",
		fallback: "0°", value: number(quantity.Angle, contactAngle, func(e *rolling.Elements) *float64 { return &e.ContactAngle })},
	{key: "clearance", about: "play across the diameter, negative where the rollers are squeezed", fallback: "0 µm", value: number(quantity.Deflection, within(-0.2, 0.5, 1, " mm"), func(e *rolling.Elements) *float64 { return &e.Clearance })},
}

// contactAngle is what angles the model of a bearing bears: nearly none would make a bearing nearly without hold along the shaft, and
// beyond 80° the thrust bearings begin.
var contactAngle = func() limit {
	const least, most = 0.6 * degree, 80 * degree
	return limit{
		holds: func(v float64) bool {
			const hair = 1e-12
			return v == 0 || math.Abs(v) >= least-hair && math.Abs(v) <= most+hair
		},
		words: "0°, or from 0.6° to 80° with the sign of the side",
	}
}()

var ratingFields = []field[rolling.Rating]{
	{key: "dynamic", about: "dynamic load rating (C), for the life; this or static is needed", fallback: "not known", value: number(quantity.Force, upTo(100000, 1000, " kN"), func(c *rolling.Rating) *float64 { return &c.Dynamic })},
	{key: "static", about: "static load rating (C0)", fallback: "not known", value: number(quantity.Force, upTo(100000, 1000, " kN"), func(c *rolling.Rating) *float64 { return &c.Static })},
	{key: "e", about: "of a tapered roller bearing: axial over radial load up to which the axial load doesn't count (e)", fallback: "not known", value: number(quantity.Number, within(0.01, 100, 1, ""), func(c *rolling.Rating) *float64 { return &c.E })},
	{key: "y", about: "of a tapered roller bearing: axial factor (Y)", fallback: "not known", value: number(quantity.Number, within(0.01, 100, 1, ""), func(c *rolling.Rating) *float64 { return &c.Y })},
	{key: "y0", about: "of a tapered roller bearing: static axial factor (Y0)", fallback: "not known", value: number(quantity.Number, within(0.01, 100, 1, ""), func(c *rolling.Rating) *float64 { return &c.Y0 })},
	{key: "fatigue_limit", about: "fatigue load limit (C_u), for the life in clean oil", fallback: "C₀/22 of balls, C₀/8.2 of rollers", value: number(quantity.Force, upTo(100000, 1000, " kN"), func(c *rolling.Rating) *float64 { return &c.Fatigue })},
	{key: "mean_diameter", about: "half way from bore to outside, for the oil film", fallback: "that of its elements", value: number(quantity.Length, within(1, 1000, 1, " mm"), func(c *rolling.Rating) *float64 { return &c.Mean })},
}

// elementKind is which rolling elements a type of bearing has; not ok for types whose elements can't be reckoned with.
func elementKind(t gearbox.BearingType) (kind rolling.Kind, ok bool) {
	kind, ok = map[gearbox.BearingType]rolling.Kind{
		gearbox.DeepGrooveBall:    rolling.Ball,
		gearbox.CylindricalRoller: rolling.Cylindrical,
		gearbox.NeedleRoller:      rolling.Needle,
		gearbox.TaperedRoller:     rolling.Tapered,
	}[t]
	return kind, ok
}

func checkBearing(r *reader, at spot, b *gearbox.Bearing, given map[string]bool) {
	if given["in"] != given["in_at"] {
		missing := "in"
		if given["in"] {
			missing = "in_at"
		}
		r.fault(at.owner, at.path, "missing key "+strconv.Quote(missing), "A bearing in another shaft needs both in (which shaft) and in_at (where on it).")
	}
	if given["housing"] && given["in"] {
		path := join(at.path, "housing")
		r.fault(r.box.Places[path], path, "no case there", "A bearing in another shaft isn't held by the case: leave out housing.")
	}
	if given["elements"] {
		r.checkElements(at, b, given)
	}
	if given["rating"] {
		r.checkRating(at, b)
	}
}

// checkElements settles of which kind the elements of a bearing are and asks the model whether there can be such.
func (r *reader) checkElements(at spot, b *gearbox.Bearing, given map[string]bool) {
	path := join(at.path, "elements")
	place := r.box.Places[path]
	for _, key := range []string{"radial", "tilt"} {
		if given[key] {
			path := join(at.path, key)
			r.fault(r.box.Places[path], path, "two values for one thing", "The stiffness follows from the elements: keep "+key+" or elements.")
		}
	}
	kind, ok := r.kindFor(at, b, "elements")
	if !ok || b.Elements == nil || r.faulty(path) {
		return
	}
	b.Elements.Kind = kind
	length, angle := join(path, "length"), join(path, "contact_angle")
	switch roller := kind != rolling.Ball; {
	case roller && b.Elements.Length == 0:
		r.fault(place, path, `missing key "length"`, "Rollers have a length. Expected: length, such as 9 mm, without the chamfers.")
	case !roller && b.Elements.Length != 0:
		r.fault(r.box.Places[length], length, "a length of balls", "Balls have no length: leave it out.")
	}
	switch bare := b.Elements.ContactAngle == 0; {
	case kind == rolling.Tapered && bare:
		r.fault(place, path, `missing key "contact_angle"`, "Tapered rollers stand at an angle. Expected: contact_angle, such as 15°.")
	case (kind == rolling.Cylindrical || kind == rolling.Needle) && !bare:
		r.fault(r.box.Places[angle], angle, "an angle of straight rollers", fmt.Sprintf("A %s bearing has no contact angle: leave it out.", b.Type))
	}
	if r.faulty(path) {
		return
	}
	for _, err := range parts(b.Elements.Check()) {
		r.fault(place, path, "impossible elements", sentence(err.Error()))
	}
}

func (r *reader) checkRating(at spot, b *gearbox.Bearing) {
	path := join(at.path, "rating")
	kind, ok := r.kindFor(at, b, "rating")
	if !ok || b.Rating == nil || r.faulty(path) {
		return
	}
	b.Rating.Kind = kind
	if b.Rating.Dynamic == 0 && b.Rating.Static == 0 {
		r.fault(r.box.Places[path], path, `missing key "dynamic"`, "A rating has at least one of dynamic (C), such as 62 kN, and static (C0).")
	}
	for _, f := range []struct {
		key   string
		value float64
	}{{"e", b.Rating.E}, {"y", b.Rating.Y}, {"y0", b.Rating.Y0}} {
		if f.value != 0 && kind != rolling.Tapered {
			inner := join(path, f.key)
			r.fault(r.box.Places[inner], inner, "a factor of tapered rollers", fmt.Sprintf("A %s bearing needs no %s: leave it out.", b.Type, f.key))
		}
	}
	for _, err := range parts(b.Rating.Check()) {
		r.fault(r.box.Places[path], path, "an impossible rating", sentence(err.Error()))
	}
}

// kindFor is the kind of the rolling elements of a bearing that has key. It is not ok when its type was refused, or is one that
// can have no such key, which is then among the findings.
func (r *reader) kindFor(at spot, b *gearbox.Bearing, key string) (kind rolling.Kind, ok bool) {
	kind, ok = elementKind(b.Type)
	if !ok && b.Type != "" {
		path := join(at.path, key)
		var types []string
		for _, t := range gearbox.BearingTypes() {
			if _, ok := elementKind(t); ok {
				types = append(types, string(t))
			}
		}
		r.fault(r.box.Places[path], path, "the wrong type of bearing for "+key, fmt.Sprintf("A %s bearing can't have %s here; these can: %s.", b.Type, key, strings.Join(types, ", ")))
	}
	return kind, ok
}

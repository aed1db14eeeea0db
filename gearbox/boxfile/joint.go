package boxfile

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

var jointFields = []field[gearbox.Joint]{
	{key: "type", need: true, about: "what it is", value: word("type of joint", gearbox.JointTypes(), func(j *gearbox.Joint, t gearbox.JointType) { j.Type = t })},
	{key: "at", need: true, about: "its middle, from the left end of the shaft; torque that enters or leaves the shaft within its length passes through it", value: number(quantity.Length, alongShaft, func(j *gearbox.Joint) *float64 { return &j.At })},
	{key: "length", about: "over which it carries", fallback: "needed by all but a circlip", value: number(quantity.Length, positive, func(j *gearbox.Joint) *float64 { return &j.Length })},
	{key: "teeth", about: "teeth of a spline", fallback: "needed by it", value: count(4, 120, func(j *gearbox.Joint) *int { return &j.Teeth })},
	{key: "outer", about: "diameter of a spline over the teeth of the shaft; of a press fit the outside of the hub", fallback: "needed by these", value: number(quantity.Length, positive, func(j *gearbox.Joint) *float64 { return &j.Outer })},
	{key: "inner", about: "diameter of a spline over the tips of the teeth in the hub", fallback: "needed by it", value: number(quantity.Length, positive, func(j *gearbox.Joint) *float64 { return &j.Inner })},
	{key: "width", about: "width of a key", fallback: "needed by it", value: number(quantity.Length, positive, func(j *gearbox.Joint) *float64 { return &j.Width })},
	{key: "height", about: "height of a key, all of it", fallback: "needed by it", value: number(quantity.Length, positive, func(j *gearbox.Joint) *float64 { return &j.Height })},
	{key: "depth", about: "depth of the groove of a circlip", fallback: "needed by it", value: number(quantity.Length, depths, func(j *gearbox.Joint) *float64 { return &j.Depth })},
	{key: "holds", about: "the gear whose thrust a circlip takes", fallback: "needed by it", value: nameOf(gear, func(j *gearbox.Joint) *string { return &j.Holds })},
	{key: "interference", about: "of a press fit, on the diameter: measured less 0.8 times the roughness (Rz) of both", fallback: "needed by it", value: number(quantity.Deflection, upTo(0.5, 1, " mm"), func(j *gearbox.Joint) *float64 { return &j.Interference })},
	{key: "friction", about: "of a press fit", fallback: "0.12, common practice", value: number(quantity.Number, upTo(0.5, 1, ""), func(j *gearbox.Joint) *float64 { return &j.Friction })},
}

var jointKeys = keyNames(jointFields)

// What a joint needs, and what more it may have.
var jointNeeds = map[gearbox.JointType]struct{ needs, may []string }{
	gearbox.InvoluteSpline: {[]string{"length", "teeth", "outer", "inner"}, nil},
	gearbox.StraightSpline: {[]string{"length", "teeth", "outer", "inner"}, nil},
	gearbox.ParallelKey:    {[]string{"length", "width", "height"}, nil},
	gearbox.PressedOn:      {[]string{"length", "outer", "interference"}, []string{"friction"}},
	gearbox.CirclipRing:    {[]string{"depth", "holds"}, nil},
}

// checkJoint makes sure that a joint has the sizes that its type asks for, and no others.
func checkJoint(r *reader, at spot, j *gearbox.Joint, given map[string]bool) {
	if of, ok := jointNeeds[j.Type]; ok {
		r.sizes(at, jointKeys, []string{"type", "at"}, of.needs, of.may, given, string(j.Type))
	}
}

// sizes makes sure that of some keys those are given that a thing needs, and none that it has not; always are those that all have.
func (r *reader) sizes(at spot, keys, always, needs, may []string, given map[string]bool, thing string) {
	for _, key := range needs {
		if !given[key] {
			r.fault(at.owner, at.path, "missing key "+strconv.Quote(key), fmt.Sprintf("A %s needs its %s.", thing, key))
		}
	}
	for _, key := range keys {
		if given[key] && !slices.Contains(always, key) && !slices.Contains(needs, key) && !slices.Contains(may, key) {
			path := join(at.path, key)
			r.fault(r.box.Places[path], path, "a size of another kind", fmt.Sprintf("A %s has no %s here: delete it.", thing, key))
		}
	}
}

var dogFields = []field[gearbox.Dogs]{
	{key: "teeth", need: true, about: "how many there are on the ring", value: count(2, 120, func(d *gearbox.Dogs) *int { return &d.Teeth })},
	{key: "diameter", need: true, about: "diameter in the middle of the flanks that touch", value: number(quantity.Length, positive, func(d *gearbox.Dogs) *float64 { return &d.Diameter })},
	{key: "height", need: true, about: "radial height that touches", value: number(quantity.Length, positive, func(d *gearbox.Dogs) *float64 { return &d.Height })},
	{key: "length", need: true, about: "how far they are in when engaged, along the shaft", value: number(quantity.Length, positive, func(d *gearbox.Dogs) *float64 { return &d.Length })},
	{key: "thickness", need: true, about: "thickness of a tooth along the circle", value: number(quantity.Length, positive, func(d *gearbox.Dogs) *float64 { return &d.Thick })},
	{key: "share", about: "share of the teeth that carries", fallback: "50 %, common practice", value: number(quantity.Number, percent(5, 100), func(d *gearbox.Dogs) *float64 { return &d.Share })},
	{key: "back_angle", about: "angle of the flanks from the axis, above zero where they are undercut so that torque draws them in", fallback: "0°", value: number(quantity.Angle, within(-15, 15, degree, "°").such("4°"), func(d *gearbox.Dogs) *float64 { return &d.Back })},
	{key: "radial", about: "whether they are radial teeth under a sleeve, else dogs on a face", fallback: "no", value: yesNo(func(d *gearbox.Dogs, yes bool) { d.Radial = yes })},
}

var boltFields = []field[gearbox.Bolts]{
	{key: "count", need: true, about: "how many there are", value: count(2, 60, func(b *gearbox.Bolts) *int { return &b.Count })},
	{key: "thread", need: true, about: "their thread, coarse pitch", value: word("thread", slices.Sorted(maps.Keys(gearbox.Threads)), func(b *gearbox.Bolts, w string) { b.Thread = w })},
	{key: "class", need: true, about: "their class, as stamped on the heads", value: word("class", slices.Sorted(maps.Keys(gearbox.BoltClasses)), func(b *gearbox.Bolts, w string) { b.Class = w })},
	{key: "circle", need: true, about: "diameter of the circle they stand on", value: number(quantity.Length, positive, func(b *gearbox.Bolts) *float64 { return &b.Circle })},
	{key: "friction", about: "friction between wheel and flange", fallback: "0.12, common practice", value: number(quantity.Number, upTo(0.5, 1, ""), func(b *gearbox.Bolts) *float64 { return &b.Friction })},
	{key: "scatter", about: "largest force after tightening over the least (α_A)", fallback: "1.6, a torque wrench", value: number(quantity.Number, within(1, 4, 1, ""), func(b *gearbox.Bolts) *float64 { return &b.Scatter })},
	{key: "embedding", about: "force that each loses as the surfaces bed down", fallback: "0 N", value: number(quantity.Force, alongShaft, func(b *gearbox.Bolts) *float64 { return &b.Embedding })},
}

package boxfile

import (
	"layshaft/beam/strength"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Sizes of a notch: what lies outside was measured in another unit.
var (
	radii  = upTo(50, 1, " mm").usually(0.05, 10, 1, " mm", "the radius in a corner of a shaft")
	depths = upTo(50, 1, " mm").usually(0.2, 15, 1, " mm", "the depth of a groove in a shaft")
)

var notchFields = []field[gearbox.Notch]{
	{key: "shape", need: true, about: "what it is", value: word("shape of a notch", strength.Kinds(), func(n *gearbox.Notch, k strength.Kind) { n.Shape = k })},
	{key: "at", need: true, about: "its middle, from the left end of the shaft; of a shoulder where the diameter changes", value: number(quantity.Length, alongShaft, func(n *gearbox.Notch) *float64 { return &n.At })},
	{key: "length", about: "how far it reaches along the shaft, with its middle at that place", fallback: "one place", value: number(quantity.Length, positive, func(n *gearbox.Notch) *float64 { return &n.Length })},
	{key: "radius", about: "radius in the corner of a shoulder, in the corners of a circlip groove, or of the bottom of a round groove", fallback: "needed by these", value: number(quantity.Length, radii, func(n *gearbox.Notch) *float64 { return &n.Radius })},
	{key: "depth", about: "depth of a groove or keyway from the surface", fallback: "needed by these", value: number(quantity.Length, depths, func(n *gearbox.Notch) *float64 { return &n.Depth })},
	{key: "width", about: "width of a circlip groove", fallback: "not known: its factors are taken to hold", value: number(quantity.Length, positive, func(n *gearbox.Notch) *float64 { return &n.Width })},
	{key: "hole", about: "diameter of a cross hole", fallback: "needed by it", value: number(quantity.Length, positive, func(n *gearbox.Notch) *float64 { return &n.Hole })},
	{key: "root", about: "diameter at the root of a spline or of the teeth of a pinion cut into the shaft", fallback: "the diameter of the section", value: number(quantity.Length, positive, func(n *gearbox.Notch) *float64 { return &n.Root })},
}

var notchKeys = keyNames(notchFields)

// What a shape needs, and what more it may have.
var notchNeeds = map[strength.Kind]struct{ needs, may []string }{
	strength.Shoulder:      {[]string{"radius"}, nil},
	strength.CirclipGroove: {[]string{"radius", "depth"}, []string{"width"}},
	strength.RoundGroove:   {[]string{"radius", "depth"}, []string{"length"}},
	strength.CrossHole:     {[]string{"hole"}, nil},
	strength.Keyway:        {[]string{"depth"}, []string{"length"}},
	strength.PressFit:      {nil, []string{"length"}},
	strength.SplineRoot:    {nil, []string{"root", "length"}},
	strength.PinionRoot:    {nil, []string{"root", "length"}},
}

// checkNotch makes sure that a notch has the sizes that its shape asks for, and no others.
func checkNotch(r *reader, at spot, n *gearbox.Notch, given map[string]bool) {
	if of, ok := notchNeeds[n.Shape]; ok {
		r.sizes(at, notchKeys, []string{"shape", "at"}, of.needs, of.may, given, string(n.Shape))
	}
}

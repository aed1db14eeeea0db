package boxfile

import (
	"fmt"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

var gearFields = []field[gearbox.Gear]{
	{key: "shaft", need: true, about: "the shaft it sits on", value: nameOf(shaft, func(g *gearbox.Gear) *string { return &g.Shaft })},
	{key: "at", need: true, about: "middle of its face, from the left end of the shaft", value: number(quantity.Length, alongShaft, func(g *gearbox.Gear) *float64 { return &g.At })},
	{key: "teeth", need: true, about: "number of teeth", value: count(5, 500, func(g *gearbox.Gear) *int { return &g.Teeth })},
	{key: "face", need: true, about: "face width", value: number(quantity.Length, sizes, func(g *gearbox.Gear) *float64 { return &g.Face })},
	{key: "shift", about: "profile shift coefficient (x)", fallback: "not known", value: optional(quantity.Number, within(-2, 2, 1, ""), func(g *gearbox.Gear) **float64 { return &g.Shift })},
	{key: "tip_diameter", about: "measured diameter over the tips", fallback: "not measured", value: number(quantity.Length, sizes, func(g *gearbox.Gear) *float64 { return &g.TipDiameter })},
	{key: "root_diameter", about: "measured diameter in the roots, to be held against what the gear data make", fallback: "not measured", value: number(quantity.Length, sizes, func(g *gearbox.Gear) *float64 { return &g.RootDiameter })},
	{key: "spans", about: "measured base tangent lengths, by the number of teeth between the jaws, to be held against what the gear data make", fallback: "not measured", value: spansRead()},
	{key: "crowning", about: "lead crowning: how much lower the ends of the face are than its middle", fallback: "none", value: number(quantity.Deflection, fewMicrons, func(g *gearbox.Gear) *float64 { return &g.Crowning })},
	{key: "lead_error", about: "how far the flank stands back at the right end of the face against the left", fallback: "0 µm", value: number(quantity.Deflection, within(-500, 500, micron, " µm"), func(g *gearbox.Gear) *float64 { return &g.LeadError })},
	{key: "relief_left", about: "material taken off towards the left end of the face", fallback: "none", value: group(reliefFields, func(g *gearbox.Gear) *gearbox.Relief { return &g.Relief[0] }, nil)},
	{key: "relief_right", about: "material taken off towards the right end of the face", fallback: "none", value: group(reliefFields, func(g *gearbox.Gear) *gearbox.Relief { return &g.Relief[1] }, nil)},
	{key: "tip_relief", about: "material taken off the profile towards the tip (C_a)", fallback: "none", value: number(quantity.Deflection, fewMicrons, func(g *gearbox.Gear) *float64 { return &g.TipRelief })},
	{key: "seat", about: "the bearing on which it turns freely on its shaft until it is engaged", fallback: "fast on its shaft", value: orUnknown(group(seatFields, func(g *gearbox.Gear) *gearbox.Seat {
		g.Seat = new(gearbox.Seat)
		return g.Seat
	}, nil))},
	{key: "engages_at", about: "where the hub of a gear that turns freely gives its torque to the shaft, from the left end of the shaft", fallback: "assumed, common practice: at the end of the gear towards the next free gear or the direct speed if there is room for a hub, else towards the larger room",
		value: optional(quantity.Length, alongShaft, func(g *gearbox.Gear) **float64 { return &g.EngagesAt })},
	{key: "grade", about: "accuracy grade of ISO 1328-1", fallback: "not known", value: orUnknown(count(1, 11, func(g *gearbox.Gear) *int { return &g.Grade }))},
	{key: "flank_roughness", about: "roughness of the flanks (Rz)", fallback: "not known", value: number(quantity.Deflection, rough, func(g *gearbox.Gear) *float64 { return &g.Roughness[0] })},
	{key: "root_roughness", about: "roughness of the fillets (Rz)", fallback: "not known", value: number(quantity.Deflection, rough, func(g *gearbox.Gear) *float64 { return &g.Roughness[1] })},
	{key: "peened", about: "whether the roots are shot-peened", fallback: "no", value: yesNo(func(g *gearbox.Gear, yes bool) { g.Peened = yes })},
	{key: "rim", about: "thickness of the rim under the teeth", fallback: "solid", value: number(quantity.Length, sizes, func(g *gearbox.Gear) *float64 { return &g.Rim })},
	{key: "web", about: "thickness of the web that carries the rim", fallback: "as wide as the face", value: number(quantity.Length, sizes, func(g *gearbox.Gear) *float64 { return &g.Web })},
	{key: "thinning", about: "thickness taken off each tooth for backlash, in the normal section", fallback: "none", value: number(quantity.Deflection, upTo(1, 1, " mm"), func(g *gearbox.Gear) *float64 { return &g.Thinning })},
	{key: "bore", about: "diameter of the hole in it, for its mass", fallback: "the shaft fills it", value: number(quantity.Length, sizes, func(g *gearbox.Gear) *float64 { return &g.Bore })},
	{key: "hub", about: "thick ring around its bore, for its mass", fallback: "none", value: group(hubFields, func(g *gearbox.Gear) *gearbox.Hub {
		g.Hub = new(gearbox.Hub)
		return g.Hub
	}, nil)},
	{key: "dogs", about: "its engagement teeth, of a gear that turns freely", fallback: "not judged", value: group(dogFields, func(g *gearbox.Gear) *gearbox.Dogs {
		g.Dogs = new(gearbox.Dogs)
		return g.Dogs
	}, nil)},
	{key: "bolts", about: "bolts that hold it on its flange", fallback: "not judged", value: group(boltFields, func(g *gearbox.Gear) *gearbox.Bolts {
		g.Bolts = new(gearbox.Bolts)
		return g.Bolts
	}, nil)},
	{key: "steel", about: "its steel", fallback: "the steel of the box", value: orUnknown(nameOf(steel, func(g *gearbox.Gear) *string { return &g.Steel }))},
}

var reliefFields = []field[gearbox.Relief]{
	{key: "length", need: true, about: "length along the face", value: number(quantity.Length, sizes, func(f *gearbox.Relief) *float64 { return &f.Length })},
	{key: "amount", need: true, about: "how much is taken off at the end", value: number(quantity.Deflection, fewMicrons, func(f *gearbox.Relief) *float64 { return &f.Amount })},
}

var hubFields = []field[gearbox.Hub]{
	{key: "length", need: true, about: "length along the shaft, all of it", value: number(quantity.Length, sizes, func(h *gearbox.Hub) *float64 { return &h.Length })},
	{key: "outer", need: true, about: "outer diameter", value: number(quantity.Length, sizes, func(h *gearbox.Hub) *float64 { return &h.Outer })},
}

var seatFields = []field[gearbox.Seat]{
	{key: "length", need: true, about: "length along the shaft", value: number(quantity.Length, sizes, func(s *gearbox.Seat) *float64 { return &s.Length })},
	{key: "clearance", need: true, about: "play across the diameter", value: number(quantity.Deflection, within(0, 0.5, 1, " mm").usually(0.005, 0.15, 1, " mm", "the play of a gear on its shaft, across the diameter"), func(s *gearbox.Seat) *float64 { return &s.Clearance })},
	{key: "offset", about: "middle of the seat from the middle of the face, positive to the right", fallback: "0 mm", value: number(quantity.Length, anywhere, func(s *gearbox.Seat) *float64 { return &s.Offset })},
	{key: "thrust_face", about: "radius of the face that takes its axial force and keeps it upright", fallback: "half the pitch radius, common practice", value: number(quantity.Length, sizes, func(s *gearbox.Seat) *float64 { return &s.ThrustFace })},
	{key: "stiffness", about: "stiffness of each end of the seat", fallback: "rigid", value: stiffness(quantity.RadialStiffness, springs, []string{"rigid"},
		map[string]float64{"rigid": 0}, func(s *gearbox.Seat) *float64 { return &s.Stiffness })},
}

// More of either was measured in another unit, or isn't what it is called.
var (
	fewMicrons = within(0, 200, micron, " µm")
	rough      = upTo(100, micron, " µm")
)

func checkGear(r *reader, at spot, g *gearbox.Gear, given map[string]bool) {
	g.LeadKnown = given["lead_error"]
	checkSpans(r, at, g)
	if path := join(at.path, "dogs"); given["dogs"] && !given["seat"] {
		r.warn(r.box.Places[path], path, "engagement teeth of a fast gear", "A gear without a seat is fast on its shaft, so they aren't judged. If it turns freely until it is engaged, give its seat; else delete dogs.")
	}
	if given["engages_at"] && !given["seat"] {
		path := join(at.path, "engages_at")
		r.fault(r.box.Places[path], path, "a hub of a gear without a seat", "A gear without a seat is fast on its shaft: torque passes where it sits. If it turns freely until it is engaged, give its seat; else leave out engages_at.")
	}
	if together := g.Relief[0].Length + g.Relief[1].Length; g.Face > 0 && together > g.Face {
		key := "relief_right"
		if !given[key] {
			key = "relief_left"
		}
		path := join(at.path, key+".length")
		r.fault(r.box.Places[path], path, "value out of range", fmt.Sprintf("Relief along %g mm doesn't fit on a face of %g mm.", together, g.Face))
	}
}

package boxfile

import (
	"fmt"
	"math"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/involute"
)

// The tables of the parts of a box: shafts with their sections and bearings, gears, meshes, limits.

var shaftFields = []field[gearbox.Shaft]{
	{key: "axis", about: "place of the axis in the box", fallback: "from the centre distances", value: group(axisFields, func(s *gearbox.Shaft) *[2]float64 {
		s.Axis = new([2]float64)
		return s.Axis
	}, nil)},
	{key: "start", about: "place of the left end along the box (x)", fallback: "0 mm", value: number(quantity.Length, anyNumber, func(s *gearbox.Shaft) *float64 { return &s.Start })},
	{key: "steel", about: "its steel", fallback: "the steel of the box", value: nameOf(steel, func(s *gearbox.Shaft) *string { return &s.Steel })},
	{key: "sections", need: true, about: "its pieces of one diameter, from the left end on", value: list("section", sectionFields,
		func(s *gearbox.Shaft) *[]gearbox.Section { return &s.Sections }, checkSection)},
	{key: "bearings", need: true, about: "what carries it", value: named(bearing, bearingFields,
		func(name string) gearbox.Bearing { return gearbox.Bearing{Name: name, Radial: math.Inf(1)} },
		func(s *gearbox.Shaft, b gearbox.Bearing) { s.Bearings = append(s.Bearings, b) }, checkBearing)},
}

var axisFields = []field[[2]float64]{
	{key: "y", need: true, about: "to the side", value: number(quantity.Length, anyNumber, func(a *[2]float64) *float64 { return &a[0] })},
	{key: "z", need: true, about: "upwards", value: number(quantity.Length, anyNumber, func(a *[2]float64) *float64 { return &a[1] })},
}

var sectionFields = []field[gearbox.Section]{
	{key: "length", need: true, about: "length along the shaft", value: number(quantity.Length, positive, func(s *gearbox.Section) *float64 { return &s.Length })},
	{key: "outer", need: true, about: "outer diameter", value: number(quantity.Length, positive, func(s *gearbox.Section) *float64 { return &s.Outer })},
	{key: "bore", about: "diameter of the hole", fallback: "solid", value: number(quantity.Length, notNegative, func(s *gearbox.Section) *float64 { return &s.Bore })},
}

var bearingFields = []field[gearbox.Bearing]{
	{key: "at", need: true, about: "effective centre, from the left end of the shaft", value: number(quantity.Length, notNegative, func(b *gearbox.Bearing) *float64 { return &b.At })},
	{key: "type", need: true, about: "type of bearing, for its limit of slope", value: word("bearing type", gearbox.BearingTypes(), func(b *gearbox.Bearing, t gearbox.BearingType) { b.Type = t })},
	{key: "radial", about: "stiffness across the shaft", fallback: "rigid", value: stiffness(quantity.RadialStiffness, []string{"rigid"},
		map[string]float64{"rigid": math.Inf(1)}, func(b *gearbox.Bearing) *float64 { return &b.Radial })},
	{key: "tilt", about: "stiffness against tilting", fallback: "free", value: stiffness(quantity.TiltStiffness, []string{"free", "rigid"},
		map[string]float64{"free": 0, "rigid": math.Inf(1)}, func(b *gearbox.Bearing) *float64 { return &b.Tilt })},
	{key: "axial", about: "stiffness along the shaft", fallback: "free", value: stiffness(quantity.RadialStiffness, []string{"free", "fixed"},
		map[string]float64{"free": 0, "fixed": math.Inf(1)}, func(b *gearbox.Bearing) *float64 { return &b.Axial })},
	{key: "slope_limit", about: "largest slope of the shaft here", fallback: "by the type", value: number(quantity.Slope, positive, func(b *gearbox.Bearing) *float64 { return &b.SlopeLimit })},
	{key: "in", about: "shaft that carries this bearing (a pilot)", fallback: "the case", value: nameOf(shaft, func(b *gearbox.Bearing) *string { return &b.In })},
	{key: "in_at", about: "where on that shaft, from its left end; goes with in", fallback: "–", value: number(quantity.Length, notNegative, func(b *gearbox.Bearing) *float64 { return &b.InAt })},
}

var gearFields = []field[gearbox.Gear]{
	{key: "shaft", need: true, about: "the shaft it sits on", value: nameOf(shaft, func(g *gearbox.Gear) *string { return &g.Shaft })},
	{key: "at", need: true, about: "middle of its face, from the left end of the shaft", value: number(quantity.Length, notNegative, func(g *gearbox.Gear) *float64 { return &g.At })},
	{key: "teeth", need: true, about: "number of teeth", value: count(5, 500, func(g *gearbox.Gear) *int { return &g.Teeth })},
	{key: "face", need: true, about: "face width", value: number(quantity.Length, positive, func(g *gearbox.Gear) *float64 { return &g.Face })},
	{key: "shift", about: "profile shift coefficient (x)", fallback: "not known", value: optional(quantity.Number, within(-2, 2, 1, ""), func(g *gearbox.Gear) **float64 { return &g.Shift })},
	{key: "tip_diameter", about: "measured diameter over the tips", fallback: "not measured", value: number(quantity.Length, positive, func(g *gearbox.Gear) *float64 { return &g.TipDiameter })},
	{key: "steel", about: "its steel", fallback: "the steel of the box", value: nameOf(steel, func(g *gearbox.Gear) *string { return &g.Steel })},
}

// meshDraft is a mesh while it is read.
type meshDraft struct {
	gearbox.Mesh
	pitch float64 // normal diametral pitch, 1/in
}

func newMesh(name string) meshDraft {
	return meshDraft{Mesh: gearbox.Mesh{Name: name, Efficiency: 1, Rack: involute.StandardRack}}
}

var meshFields = []field[meshDraft]{
	{key: "driver", need: true, about: "the gear that drives", value: nameOf(gear, func(m *meshDraft) *string { return &m.Driver })},
	{key: "driven", need: true, about: "the gear that is driven", value: nameOf(gear, func(m *meshDraft) *string { return &m.Driven })},
	{key: "module", about: "normal module; this or diametral_pitch is needed", fallback: "–", value: number(quantity.Length, positive, func(m *meshDraft) *float64 { return &m.Module })},
	{key: "diametral_pitch", about: "normal diametral pitch, instead of the module", fallback: "–", value: number(quantity.PitchPerInch, positive, func(m *meshDraft) *float64 { return &m.pitch })},
	{key: "pressure_angle", about: "normal pressure angle", fallback: "20°", value: number(quantity.Angle, within(10, 30, degree, "°"), func(m *meshDraft) *float64 { return &m.Rack.PressureAngle })},
	{key: "helix", about: "helix angle at the reference cylinder", fallback: "0° (spur)", value: number(quantity.Angle, within(0, 45, degree, "°"), func(m *meshDraft) *float64 { return &m.Helix })},
	{key: "hand", about: "hand of the driver's helix; needed with a helix", fallback: "–", value: word("hand", []gearbox.Hand{gearbox.Right, gearbox.Left}, func(m *meshDraft, h gearbox.Hand) { m.Hand = h })},
	{key: "efficiency", about: "power out over power in", fallback: "1", value: number(quantity.Number, within(0.5, 1, 1, ""), func(m *meshDraft) *float64 { return &m.Efficiency })},
	{key: "rack", about: "basic rack profile, in modules", fallback: "profile A of ISO 53: 1, 1.25, 0.38", value: group(rackFields, func(m *meshDraft) *involute.Rack { return &m.Rack }, nil)},
	{key: "tilt_limit", about: "largest mesh tilt here", fallback: "by the limits", value: number(quantity.Slope, positive, func(m *meshDraft) *float64 { return &m.TiltLimit })},
}

var rackFields = []field[involute.Rack]{
	{key: "addendum", need: true, about: "addendum (h_aP)", value: number(quantity.Number, positive, func(k *involute.Rack) *float64 { return &k.Addendum })},
	{key: "dedendum", need: true, about: "dedendum (h_fP)", value: number(quantity.Number, positive, func(k *involute.Rack) *float64 { return &k.Dedendum })},
	{key: "tip_radius", need: true, about: "fillet radius (ρ_fP)", value: number(quantity.Number, notNegative, func(k *involute.Rack) *float64 { return &k.TipRadius })},
}

func checkSection(r *reader, at spot, s *gearbox.Section, _ map[string]bool) {
	if s.Outer > 0 && s.Bore >= s.Outer {
		path := join(at.path, "bore")
		r.fault(r.box.Places[path], path, "value out of range", "The bore is not smaller than the outer diameter.")
	}
}

func checkShaft(r *reader, at spot, s *gearbox.Shaft, _ map[string]bool) {
	for _, b := range s.Bearings {
		if b.In == s.Name {
			path := join(at.path, "bearings."+b.Name+".in")
			r.fault(r.box.Places[path], path, "a shaft that carries itself", fmt.Sprintf("Bearing %q sits in another shaft than its own, or in the case: then leave out in and in_at.", b.Name))
		}
	}
}

func checkBearing(r *reader, at spot, _ *gearbox.Bearing, given map[string]bool) {
	if given["in"] != given["in_at"] {
		missing := "in"
		if given["in"] {
			missing = "in_at"
		}
		r.fault(at.owner, at.path, "missing key "+strconv.Quote(missing), "A bearing in another shaft needs both in (which shaft) and in_at (where on it).")
	}
}

func checkMesh(r *reader, at spot, m *meshDraft, given map[string]bool) {
	place := func(key string) (diag.Place, string) {
		path := join(at.path, key)
		return r.box.Places[path], path
	}
	pitchPlace, pitchPath := place("diametral_pitch")
	switch {
	case given["module"] && given["diametral_pitch"]:
		r.fault(pitchPlace, pitchPath, "two values for one thing", "Module and diametral pitch say the same: keep one of them.")
	case !given["module"] && !given["diametral_pitch"]:
		r.fault(at.owner, at.path, `missing key "module"`, "The size of the teeth is missing. Expected: module, such as 2.5 mm, or diametral_pitch, such as 10 /in.")
	case m.pitch > 0:
		// The module is what everything after this asks for; it stands where the pitch stands.
		const inch = 25.4
		m.Module = inch / m.pitch
		_, modulePath := place("module")
		r.box.Places[modulePath] = pitchPlace
		if t, ok := r.box.Tolerances[pitchPath]; ok {
			r.box.Tolerances[modulePath] = m.Module * t / m.pitch
		}
	}
	switch handPlace, handPath := place("hand"); {
	case m.Helix > 0 && !given["hand"]:
		r.fault(at.owner, at.path, `missing key "hand"`, "A helix needs the hand of the driver. Expected: right | left.")
	case given["hand"] && !given["helix"]:
		r.fault(handPlace, handPath, "a hand without a helix", "A spur gear has no hand: give the helix or leave out the hand.")
	case m.Helix == 0:
		m.Hand = gearbox.Spur
	}
	if m.Driver != "" && m.Driver == m.Driven {
		driven, path := place("driven")
		r.fault(driven, path, "a gear that drives itself", "Driver and driven are two gears.")
	}
	if err := m.Rack.Validate(); err != nil {
		where, path := at.owner, at.path
		for _, key := range []string{"pressure_angle", "rack"} {
			if given[key] {
				where, path = place(key)
			}
		}
		r.fault(where, path, "an impossible rack", sentence(err.Error()))
	}
}

package boxfile

import (
	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/involute"
)

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
	{key: "module", about: "normal module; this or diametral_pitch is needed", fallback: "–", value: number(quantity.Length, within(0.1, 100, 1, " mm").such("2.5 mm"), func(m *meshDraft) *float64 { return &m.Module })},
	{key: "diametral_pitch", about: "normal diametral pitch, instead of the module", fallback: "–", value: number(quantity.PitchPerInch, within(0.5, 300, 1, " /in"), func(m *meshDraft) *float64 { return &m.pitch })},
	{key: "pressure_angle", about: "normal pressure angle", fallback: "20°", value: number(quantity.Angle, within(10, 30, degree, "°"), func(m *meshDraft) *float64 { return &m.Rack.PressureAngle })},
	{key: "helix", about: "helix angle at the reference cylinder", fallback: "0° (spur)", value: number(quantity.Angle, within(0, 45, degree, "°"), func(m *meshDraft) *float64 { return &m.Helix })},
	{key: "hand", about: "hand of the driver's helix; needed with a helix; unknown: as another mesh of its gears has it, else right", fallback: "–",
		value: orUnknown(word("hand", []gearbox.Hand{gearbox.Right, gearbox.Left}, func(m *meshDraft, h gearbox.Hand) { m.Hand = h }))},
	{key: "efficiency", about: "power out over power in", fallback: "100 %", value: number(quantity.Number, percent(50, 100), func(m *meshDraft) *float64 { return &m.Efficiency })},
	{key: "rack", about: "basic rack profile, in modules", fallback: "profile A of ISO 53: 1, 1.25, 0.38", value: group(rackFields, func(m *meshDraft) *involute.Rack { return &m.Rack }, nil)},
	{key: "stiffness", about: "stiffness of the teeth in mesh, in the transverse plane, per mm of face, for the load along it (c_γβ)", fallback: "by ISO 6336-1", value: number(quantity.MeshStiffness, within(1, 100, 1000, " N/(mm·µm)"), func(m *meshDraft) *float64 { return &m.Stiffness })},
	{key: "pattern_checked", about: "whether the contact pattern was looked at with marking ink and the parts chosen by it", fallback: "no", value: yesNo(func(m *meshDraft, yes bool) { m.PatternChecked = yes })},
	{key: "tilt_limit", about: "largest mesh tilt here", fallback: "by the limits", value: number(quantity.Slope, tilts, func(m *meshDraft) *float64 { return &m.TiltLimit })},
}

var rackFields = []field[involute.Rack]{
	{key: "addendum", need: true, about: "addendum (h_aP)", value: number(quantity.Number, within(0.01, 100, 1, ""), func(k *involute.Rack) *float64 { return &k.Addendum })},
	{key: "dedendum", need: true, about: "dedendum (h_fP)", value: number(quantity.Number, within(0.01, 100, 1, ""), func(k *involute.Rack) *float64 { return &k.Dedendum })},
	{key: "tip_radius", need: true, about: "fillet radius (ρ_fP)", value: number(quantity.Number, within(0, 10, 1, ""), func(k *involute.Rack) *float64 { return &k.TipRadius })},
	{key: "residual_undercut", about: "undercut that a protuberance tool leaves under the ground flank (s_pr)", fallback: "0", value: number(quantity.Number, within(0, 10, 1, ""), func(k *involute.Rack) *float64 { return &k.Protuberance })},
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
		r.fault(at.owner, at.path, `missing key "hand"`, "A helix needs the hand of the driver. Expected: right | left | unknown.")
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

package boxfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

var evidenceFields = []field[gearbox.Evidence]{
	{key: "survived", about: "input torque it was driven with without a broken tooth, with the shock of the box on top; this or broke", fallback: "–", value: number(quantity.Torque, torques, func(e *gearbox.Evidence) *float64 { return &e.Torque })},
	{key: "broke", about: "input torque it was driven with when teeth broke or pitted, or a shaft stayed bent; leave out what else can fail, such as bearings, splines, forks, cracked shafts", fallback: "–",
		value: number(quantity.Torque, torques, func(e *gearbox.Evidence) *float64 { return &e.Torque })},
	{key: "passes", about: "passes of the duty it had behind it, all with that torque", fallback: "not known: of what survived the peak alone counts, what broke may have been driven for ever",
		value: number(quantity.Number, upTo(most, 1, ""), func(e *gearbox.Evidence) *float64 { return &e.Passes })},
	{key: "speed", about: "the speed it was driven in, or broke in", fallback: "every speed of the duty, or of the box", value: nameOf(speed, func(e *gearbox.Evidence) *string { return &e.Speed })},
	{key: "gear", about: "the gear that broke", fallback: "not known", value: nameOf(gear, func(e *gearbox.Evidence) *string { return &e.Gear })},
	{key: "by", about: "how it broke: teeth at the root, pitted flanks, or a shaft that stayed bent or twisted", fallback: "not known", value: word("way to break", gearbox.Failures(), func(e *gearbox.Evidence, f gearbox.Failure) { e.By = f })},
	{key: "opened", about: "whether what survived was opened then, with no pitted flank and no bent shaft; a box can run on with both", fallback: "no: it tells of the tooth roots alone", value: yesNo(func(e *gearbox.Evidence, yes bool) { e.Opened = yes })},
	{key: "note", about: "where and when, shown in reports", fallback: "none", value: prose(func(e *gearbox.Evidence) *string { return &e.Note })},
}

// checkEvidence makes sure that a piece of evidence says one thing.
func checkEvidence(r *reader, at spot, e *gearbox.Evidence, given map[string]bool) {
	e.Broke = given["broke"]
	switch {
	case given["survived"] && given["broke"]:
		path := join(at.path, "broke")
		r.fault(r.box.Places[path], path, "two things in one", "It survived, or it broke: write a piece of evidence for each.")
	case !given["survived"] && !given["broke"]:
		r.fault(at.owner, at.path, `missing key "survived"`, "A piece of evidence has the torque that the box survived, such as survived: 300 N·m, or at which it broke.")
	}
	for _, key := range []string{"gear", "by"} {
		if path := join(at.path, key); given[key] && given["survived"] && !given["broke"] {
			r.fault(r.box.Places[path], path, "nothing broke", "The key "+key+" says what broke; all of the box survived. Delete it, or write broke.")
		}
	}
	if path := join(at.path, "opened"); given["opened"] && given["broke"] && !given["survived"] {
		r.fault(r.box.Places[path], path, "opened, and broken", "The key opened says that a box that survived was found sound. Something broke here: delete it.")
	}
	if path := join(at.path, "gear"); given["gear"] && e.By == gearbox.BentShaft {
		r.fault(r.box.Places[path], path, "a gear and a shaft", "By "+string(gearbox.BentShaft)+" it was a shaft that gave way, not a gear: delete one of them.")
	}
}

// checkEvidence reports evidence that could not have been seen in this box. Its names are known to name something.
func (r *reader) checkEvidence() {
	for i, e := range r.box.Evidence {
		at := func(key string) string { return join(join("evidence", strconv.Itoa(i)), key) }
		if e.Passes > 0 && r.box.Duty == nil {
			r.fault(r.box.Places[at("passes")], at("passes"), "passes of what?", "Passes are counted of the duty, and the box has none: say under duty what a pass is, or leave passes out.")
		}
		if d := r.box.Duty; e.Passes > 0 && e.Speed != "" && d != nil && !slices.ContainsFunc(d.Steps, func(s gearbox.DutyStep) bool { return s.Speed == e.Speed }) {
			r.fault(r.box.Places[at("speed")], at("speed"), "a speed without duty", fmt.Sprintf("The duty has no step in %s, so its passes tell nothing about it: leave passes out, or add a step.", e.Speed))
		}
		if e.Gear == "" {
			continue
		}
		var where []string // speeds that load the gear
		for _, s := range r.box.Speeds {
			if slices.ContainsFunc(s.Path, func(m string) bool {
				return slices.ContainsFunc(r.box.Meshes, func(k gearbox.Mesh) bool { return k.Name == m && (k.Driver == e.Gear || k.Driven == e.Gear) })
			}) {
				where = append(where, s.Name)
			}
		}
		switch {
		case len(where) == 0:
			r.fault(r.box.Places[at("gear")], at("gear"), "a gear without load", fmt.Sprintf("No speed loads gear %q, so it can't have broken by its torque.", e.Gear))
		case e.Speed != "" && !slices.Contains(where, e.Speed):
			r.fault(r.box.Places[at("gear")], at("gear"), "a gear without load", fmt.Sprintf("Gear %q carries nothing in %s, but in %s. Change the gear or the speed.", e.Gear, e.Speed, strings.Join(where, ", ")))
		}
	}
}

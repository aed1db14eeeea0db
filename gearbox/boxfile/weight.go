package boxfile

import (
	"fmt"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// The tables of what weighs: parts that are neither shafts nor gears, and what lay on the scales.

var partFields = []field[gearbox.Part]{
	{key: "mass", about: "its mass; this or inertia is needed", fallback: "not known", value: number(quantity.Mass, within(0.001, 10000, 1, " kg"), func(p *gearbox.Part) *float64 { return &p.Mass })},
	{key: "inertia", about: "moment of inertia about its axis", fallback: "not known", value: number(quantity.MomentOfInertia, upTo(1000, 1e6, " kg·m²"), func(p *gearbox.Part) *float64 { return &p.Inertia })},
	{key: "turns_with", about: "the shaft that it turns with, clutch open", fallback: "stands still", value: nameOf(shaft, func(p *gearbox.Part) *string { return &p.TurnsWith })},
}

func checkPart(r *reader, at spot, _ *gearbox.Part, given map[string]bool) {
	if !given["mass"] && !given["inertia"] {
		r.fault(at.owner, at.path, `missing key "mass"`, "A part is here for its mass, such as 1.2 kg, or its inertia, such as 0.0042 kg·m².")
	}
}

var weighedFields = []field[gearbox.Weighed]{
	{key: "box", about: "all of the box, dry", fallback: "not weighed", value: number(quantity.Mass, within(0.001, 10000, 1, " kg"), func(w *gearbox.Weighed) *float64 { return &w.Box })},
	{key: "pieces", about: "single shafts and gears, or several together", fallback: "none", value: list("weighing", pieceFields, func(w *gearbox.Weighed) *[]gearbox.Weighing { return &w.Pieces }, checkPiece)},
}

var pieceFields = []field[gearbox.Weighing]{
	{key: "shaft", about: "a shaft, with the gears that are cut into it; this or gears is needed", fallback: "none", value: nameOf(shaft, func(w *gearbox.Weighing) *string { return &w.Shaft })},
	{key: "gears", about: "gears that lay on the scales with it, or alone", fallback: "none", value: gearNames()},
	{key: "mass", need: true, about: "what the scales showed", value: number(quantity.Mass, within(0.001, 10000, 1, " kg"), func(w *gearbox.Weighing) *float64 { return &w.Mass })},
}

// gearNames is a list of gears.
func gearNames() value[gearbox.Weighing] {
	return value[gearbox.Weighing]{
		written: "list of gears",
		read: func(r *reader, at spot, w *gearbox.Weighing) {
			n, ok := readList(r, at, "the name of a gear", func(at spot) {
				if name, ok := r.refer(at, gear); ok {
					w.Gears = append(w.Gears, name)
				}
			})
			if ok && n == 0 {
				r.fault(at.owner, at.path, "missing value", "Expected: at least one gear.")
			}
		},
	}
}

func checkPiece(r *reader, at spot, _ *gearbox.Weighing, given map[string]bool) {
	if !given["shaft"] && !given["gears"] {
		r.fault(at.owner, at.path, `missing key "gears"`, "Say what lay on the scales: a shaft, gears, or both.")
	}
}

// checkWeighed reports parts that lay on the scales twice.
func (r *reader) checkWeighed() {
	seen := map[string]string{}
	for i, w := range r.box.Weighed.Pieces {
		path := join("weighed.pieces", strconv.Itoa(i))
		once := func(what, path string) {
			if before, twice := seen[what]; twice {
				place := r.box.Places[before]
				r.fault(r.box.Places[path], path, "weighed twice", fmt.Sprintf("The %s lay on the scales already, in line %d, column %d. Each part can be in one reading only.", what, place.Line, place.Column))
				return
			}
			seen[what] = path
		}
		if w.Shaft != "" {
			once("shaft "+strconv.Quote(w.Shaft), join(path, "shaft"))
		}
		for k, g := range w.Gears {
			once("gear "+strconv.Quote(g), join(path, "gears."+strconv.Itoa(k)))
		}
	}
}

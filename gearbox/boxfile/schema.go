package boxfile

import (
	"fmt"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// boxDraft is a box while it is read, with what is not kept in it.
type boxDraft struct {
	*gearbox.Box
	steel string // of everything that names none
}

var boxFields = append(ownFields, readBefore()...)

// ownFields are what a file says of its box itself.
var ownFields = []field[boxDraft]{
	{key: "layshaft", need: true, about: "version of the box file schema", value: version()},
	{key: "name", need: true, about: "name of the box", value: name(func(b *boxDraft) *string { return &b.Name })},
	{key: "about", about: "remarks, shown in reports", fallback: "none", value: prose(func(b *boxDraft) *string { return &b.About })},
	{key: "units", about: "units in which answers are shown, unless --units says otherwise; of several files those of the first count", fallback: "metric",
		value: word("units", []string{"metric", "us"}, func(b *boxDraft, w string) { b.Units = map[string]quantity.System{"us": quantity.US}[w] })},
	{key: "input", need: true, about: "where the torque enters", value: group(inputFields, func(b *boxDraft) *gearbox.Box { return b.Box }, nil)},
	{key: "output", need: true, about: "where the torque leaves", value: group(outputFields, func(b *boxDraft) *gearbox.Port { return &b.Output }, nil)},
	{key: "oil", about: "what the gears run in", fallback: "not known", value: group(oilFields, func(b *boxDraft) *gearbox.Oil { return &b.Oil }, nil)},
	{key: "steel", about: "steel of every shaft and gear that names none", fallback: gearbox.DefaultSteel, value: orUnknown(nameOf(steel, func(b *boxDraft) *string { return &b.steel }))},
	{key: "steels", about: "steels of your own", fallback: "none", value: named(steel, steelFields, newSteel, addSteel, checkSteel)},
	{key: "shafts", need: true, about: "the shafts, from input to output", value: named(shaft, shaftFields,
		func(name string) gearbox.Shaft { return gearbox.Shaft{Name: name} },
		func(b *boxDraft, s gearbox.Shaft) { b.Shafts = append(b.Shafts, s) }, checkShaft)},
	{key: "centres", about: "measured distances between shaft axes", fallback: "from the axes", value: list("centre distance", centreFields,
		func(b *boxDraft) *[]gearbox.Centre { return &b.Centres }, nil)},
	{key: "side", about: "on which side of the line through its two neighbours a shaft lies, seen along +x with z up", fallback: "not known", value: sides()},
	{key: "direct", about: "where a direct speed joins the input and the output shaft", fallback: "as below", value: group(directFields, func(b *boxDraft) *gearbox.DirectAt { return &b.DirectAt }, nil)},
	{key: "gears", about: "the gears; needed unless every speed is direct", fallback: "none", value: named(gear, gearFields,
		func(name string) gearbox.Gear { return gearbox.Gear{Name: name} },
		func(b *boxDraft, g gearbox.Gear) { b.Gears = append(b.Gears, g) }, checkGear)},
	{key: "meshes", about: "the pairs of gears in contact; needed unless every speed is direct", fallback: "none", value: named(mesh, meshFields,
		newMesh, func(b *boxDraft, m meshDraft) { b.Meshes = append(b.Meshes, m.Mesh) }, checkMesh)},
	{key: "speeds", need: true, about: "the ratios that can be selected", value: speeds()},
	{key: "clutch", about: "what the clutch holds, which bounds the torque", fallback: "not known", value: group(clutchFields, newClutch, checkClutch)},
	{key: "car", about: "the car on its tyres, which bound the torque too", fallback: "not known", value: group(carFields, newCar, checkCar)},
	{key: "duty", about: "what the box has to live through", fallback: "endless life at the torque asked for", value: group(dutyFields, func(b *boxDraft) *gearbox.Duty {
		b.Duty = new(gearbox.Duty)
		return b.Duty
	}, nil)},
	{key: "housing", about: "how the case gives way under the bearings", fallback: "rigid", value: orUnknown(group(housingFields, func(b *boxDraft) *gearbox.Housing { return &b.Housing }, checkHousing))},
	{key: "parts", about: "what is neither shaft nor gear, for mass and inertia", fallback: "none", value: named(part, partFields,
		func(name string) gearbox.Part { return gearbox.Part{Name: name} },
		func(b *boxDraft, p gearbox.Part) { b.Parts = append(b.Parts, p) }, checkPart)},
	{key: "weighed", about: "what lay on the scales; goes before the mass by dimensions", fallback: "nothing", value: group(weighedFields, func(b *boxDraft) *gearbox.Weighed { return &b.Weighed }, nil)},
	{key: "history", once: "evidence", about: "service history: what the box has survived and what broke, which bounds how strong its steel is; evidence is read as history too",
		fallback: "none", value: list("piece of service history", evidenceFields,
			func(b *boxDraft) *[]gearbox.Evidence { return &b.Evidence }, checkEvidence)},
	{key: "uncertainty", about: "how what isn't known exactly spreads, for chances; without it the command spread tells ranges alone", fallback: "not given",
		value: group(uncertaintyFields, newUncertainty, nil)},
	{key: "limits", about: "what counts as too much", fallback: "as below", value: group(limitFields, func(b *boxDraft) *gearbox.Limits { return &b.Limits }, nil)},
}

var inputFields = []field[gearbox.Box]{
	{key: "shaft", need: true, about: "the shaft it enters", value: nameOf(shaft, func(b *gearbox.Box) *string { return &b.Input.Shaft })},
	{key: "at", need: true, about: "where, from the left end of the shaft", value: number(quantity.Length, alongShaft, func(b *gearbox.Box) *float64 { return &b.Input.At })},
	{key: "torque", need: true, about: "input torque in drive", value: number(quantity.Torque, torques.hinting(coast), func(b *gearbox.Box) *float64 { return &b.Torque })},
	{key: "shock", about: "peak of the input torque over the torque, for static strength", fallback: "1", value: number(quantity.Number, within(1, 10, 1, ""), func(b *gearbox.Box) *float64 { return &b.Shock })},
	{key: "revs", about: "speed of the input shaft, for the dynamic factor", fallback: "not known", value: number(quantity.RotationalSpeed, turning, func(b *gearbox.Box) *float64 { return &b.Revs })},
	{key: "turns", about: "sense of the input shaft in drive, looking along it from its left end", fallback: "clockwise", value: orUnknown(word("sense", []string{"clockwise", "anticlockwise"},
		func(b *gearbox.Box, w string) {
			b.Turns = 1
			if w == "anticlockwise" {
				b.Turns = -1
			}
		}))},
}

// torques are those that an input shaft can have, in words and numbers as gearbox.Solve has them; turning is how fast one turns.
var (
	torques = within(gearbox.LeastTorque/1000, gearbox.MostTorque/1000, 1000, " N·m").such("170 N·m").usually(1, 20000, 1000, " N·m", "the input of a gearbox")
	turning = upTo(100000, rpm, " rpm").usually(100, 20000, rpm, " rpm", "an input shaft")
)

// coast says how the other direction is asked for.
func coast(text string, v float64) string {
	if v < 0 {
		return fmt.Sprintf("The file has the torque of drive; coast is asked with --torque %q.", strings.TrimSpace(text))
	}
	return ""
}

var outputFields = []field[gearbox.Port]{
	{key: "shaft", need: true, about: "the shaft it leaves", value: nameOf(shaft, func(p *gearbox.Port) *string { return &p.Shaft })},
	{key: "at", need: true, about: "where, from the left end of the shaft", value: number(quantity.Length, alongShaft, func(p *gearbox.Port) *float64 { return &p.At })},
}

var centreFields = []field[gearbox.Centre]{
	{key: "between", need: true, about: "the two shafts", value: between()},
	{key: "distance", need: true, about: "distance of their axes", value: number(quantity.Length, sizes, func(c *gearbox.Centre) *float64 { return &c.Distance })},
}

var directFields = []field[gearbox.DirectAt]{
	{key: "input_at", about: "engagement teeth, from the left end of the input shaft", fallback: "assumed, common practice: at the end in which the output shaft sits",
		value: optional(quantity.Length, alongShaft, func(d *gearbox.DirectAt) **float64 { return &d.Input })},
	{key: "output_at", about: "hub, from the left end of the output shaft", fallback: "assumed, common practice: at the end of its first gear that looks to the input shaft",
		value: optional(quantity.Length, alongShaft, func(d *gearbox.DirectAt) **float64 { return &d.Output })},
}

// version is the value that says which schema the file follows.
func version() value[boxDraft] {
	only := strconv.Itoa(Version)
	return value[boxDraft]{
		written: only,
		read: func(r *reader, at spot, _ *boxDraft) {
			if text, ok := r.scalar(at, "the version "+only); ok && text != only {
				r.fault(at.place, at.path, "unknown version", fmt.Sprintf("Found %q; this program reads version %s: write \"layshaft: %s\".", short(text), only, only))
			}
		},
	}
}

// another reports a bench sheet, and a file of a later version, whose other keys this reader can't judge.
func (r *reader) another(root spot) bool {
	for i := 0; i+1 < len(root.node.Content); i += 2 {
		key, value := root.node.Content[i], root.node.Content[i+1]
		if key.Value == "bench" {
			r.fault(r.extent(key), "", "a bench sheet",
				"This is a bench sheet, not a box file: ask layshaft gauge; its --write makes a box file of a sheet that describes the rest of its box.")
			return true
		}
		n, err := strconv.Atoi(value.Value)
		if key.Value == "layshaft" && err == nil && n > Version {
			r.fault(r.extent(value), "layshaft", "a newer version", fmt.Sprintf("The file is of version %d; this program reads version %d. Use a newer program.", n, Version))
			return true
		}
	}
	return false
}

// between are the two shafts of a centre distance.
func between() value[gearbox.Centre] {
	return value[gearbox.Centre]{
		written: "list of two shafts",
		read: func(r *reader, at spot, c *gearbox.Centre) {
			var names []string
			n, ok := readList(r, at, "the name of a shaft", func(at spot) {
				name, _ := r.refer(at, shaft)
				names = append(names, name)
			})
			switch {
			case !ok:
			case n != 2:
				r.fault(at.place, at.path, "wrong number of shafts", fmt.Sprintf("Found %d; a distance is between two shafts.", n))
			case len(names) == 2 && names[0] == names[1] && names[0] != "":
				r.fault(at.place, at.path, "the same shaft twice", "A distance is between two different shafts.")
			case len(names) == 2:
				c.Between = [2]string(names)
			}
		},
	}
}

// sides says of shafts on which side they lie.
func sides() value[boxDraft] {
	sign := orUnknown(word("side", []string{"positive", "negative"}, func(to *int, w string) {
		*to = 1
		if w == "negative" {
			*to = -1
		}
	}))
	return value[boxDraft]{
		written: "map from shafts to " + sign.written,
		read: func(r *reader, at spot, b *boxDraft) {
			pairs, ok := r.pairs(at, "a map from shafts to positive, negative or unknown")
			if !ok {
				return
			}
			r.inside(at, func() {
				for _, p := range pairs {
					path := join(at.path, p.key)
					r.refs = append(r.refs, reference{shaft, p.key, p.place, path})
					if child, ok := r.enter(p.value, path, p.place); ok {
						side := 0
						if sign.read(r, child, &side); side != 0 {
							b.Side[p.key] = side
						}
					}
				}
			})
		},
	}
}

// speeds are the selectable ratios: each a list of meshes or the word direct.
func speeds() value[boxDraft] {
	return value[boxDraft]{
		written: "map from names to lists of meshes in the order of power flow, or to the word direct",
		read: func(r *reader, at spot, b *boxDraft) {
			readNamed(r, at, speed, func(name string, at spot) {
				s := gearbox.Speed{Name: name}
				if text := at.node.Value; isText(at.node) && text == "direct" {
					s.Direct = true
				} else if isText(at.node) {
					r.fault(at.place, at.path, "wrong kind of value",
						fmt.Sprintf("Found %q. Expected: a list of meshes, such as [first, final], or the word direct.", short(text))+didYouMean(text, []string{"direct"}))
				} else if n, ok := readList(r, at, "the name of a mesh", func(at spot) {
					if name, ok := r.refer(at, mesh); ok {
						s.Path = append(s.Path, name)
					}
				}); ok && n == 0 {
					r.fault(at.place, at.path, "missing value", "A speed needs at least one mesh, or is the word direct.")
				}
				b.Speeds = append(b.Speeds, s)
			})
		},
	}
}

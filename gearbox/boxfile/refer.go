package boxfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/material"
)

// A kind is what a name names.
type kind string

const (
	shaft   kind = "shaft"
	gear    kind = "gear"
	mesh    kind = "mesh"
	speed   kind = "speed"
	steel   kind = "steel"
	bearing kind = "bearing"
	part    kind = "part"
	notch   kind = "notch"
	joint   kind = "joint"
)

func (k kind) plural() string {
	if k == mesh || k == notch {
		return string(k) + "es"
	}
	return string(k) + "s"
}

// A reference is a name used in one place for something described in another, checked when the whole file is known.
type reference struct {
	kind  kind
	name  string
	place diag.Place
	path  string
}

// refer reads the name of something of a kind.
func (r *reader) refer(at spot, of kind) (name string, ok bool) {
	if name, ok = r.scalar(at, "the name of a "+string(of)); ok {
		r.box.Places[at.path] = at.place
		r.refs = append(r.refs, reference{of, name, at.place, at.path})
	}
	return name, ok
}

// nameOf is a value that is the name of something of a kind.
func nameOf[T any](of kind, part func(*T) *string) value[T] {
	return value[T]{
		written: "name of a " + string(of),
		read: func(r *reader, at spot, to *T) {
			if name, ok := r.refer(at, of); ok {
				*part(to) = name
			}
		},
	}
}

// checkReferences reports names that name nothing. Where a kind was left out altogether that has been said already. It is
// true when it reported none.
func (r *reader) checkReferences() (sound bool) {
	sound = true
	for _, ref := range r.refs {
		known := r.known[ref.kind]
		if ref.kind == steel {
			known = append(slices.Clone(known), material.Names()...)
		}
		if len(known) == 0 || slices.Contains(known, ref.name) {
			continue
		}
		sound = false
		shown := known
		if len(shown) > 20 {
			shown = append(slices.Clone(shown[:20]), "…")
		}
		detail := "The " + ref.kind.plural() + " are: " + strings.Join(shown, ", ") + "."
		if i := slices.IndexFunc(known, func(k string) bool { return asSeen(k) == asSeen(ref.name) }); i >= 0 {
			detail += " " + toldApart(known[i], ref.name)
		} else {
			detail += didYouMean(ref.name, known)
		}
		if ref.kind == steel {
			detail += ownUp
		}
		r.fault(ref.place, ref.path, fmt.Sprintf("unknown %s %q", ref.kind, short(ref.name)), detail)
	}
	return sound
}

// finish makes the checks that need the whole file.
func (r *reader) finish(d *boxDraft) {
	r.checkGearsGiven()
	r.checkDuty()
	if r.checkReferences() {
		r.settleHands()
		r.checkPaths()
		r.checkHousingTest()
		r.checkWeighed()
		r.checkEvidence()
	}
	if !r.list.HasErrors() {
		r.checkUnused()
	}
	d.applyDefaultSteel()
	r.applyInstrument()
}

// checkGearsGiven asks for gears and meshes, without which only a direct speed works.
func (r *reader) checkGearsGiven() {
	geared := slices.ContainsFunc(r.box.Speeds, func(s gearbox.Speed) bool { return !s.Direct })
	if !geared {
		return
	}
	for _, key := range []string{"gears", "meshes"} {
		if _, ok := r.box.Places[key]; !ok {
			r.fault(r.box.Places[""], "", "missing key "+strconv.Quote(key), "A speed that is not direct needs gears and meshes.")
		}
	}
}

// checkPaths reports speeds whose meshes don't hand the power on from the input shaft to the output shaft. A path with a gear
// whose shaft was not given is left alone.
func (r *reader) checkPaths() {
	shaftOf := map[string]string{}
	for _, g := range r.box.Gears {
		shaftOf[g.Name] = g.Shaft
	}
	meshes := map[string]gearbox.Mesh{}
	for _, m := range r.box.Meshes {
		meshes[m.Name] = m
	}
	for _, s := range r.box.Speeds {
		at, from := r.box.Input.Shaft, "the input shaft"
		for i, name := range s.Path {
			m := meshes[name]
			driver, driven := shaftOf[m.Driver], shaftOf[m.Driven]
			if at == "" || driver == "" || driven == "" {
				at = ""
				break
			}
			if driver != at {
				path := join("speeds."+s.Name, strconv.Itoa(i))
				r.fault(r.box.Places[path], path, "a broken power path",
					fmt.Sprintf("Power arrives on shaft %q (%s), but the driver of mesh %q sits on shaft %q. Each mesh must begin on the shaft where the one before ends.", at, from, name, driver))
				at = ""
				break
			}
			at, from = driven, "where mesh "+strconv.Quote(name)+" ends"
		}
		if out := r.box.Output.Shaft; at != "" && out != "" && at != out && len(s.Path) > 0 {
			path := join("speeds."+s.Name, strconv.Itoa(len(s.Path)-1))
			r.fault(r.box.Places[path], path, "a broken power path",
				fmt.Sprintf("The last mesh of speed %q ends on shaft %q, but the output is on shaft %q.", s.Name, at, out))
		}
	}
}

// checkUnused warns of gears and meshes that carry nothing: most often a name was forgotten.
func (r *reader) checkUnused() {
	usedGear, usedMesh := map[string]bool{}, map[string]bool{}
	for _, m := range r.box.Meshes {
		usedGear[m.Driver], usedGear[m.Driven] = true, true
	}
	for _, s := range r.box.Speeds {
		for _, name := range s.Path {
			usedMesh[name] = true
		}
	}
	if place, given := r.box.Places["direct"]; given && !slices.ContainsFunc(r.box.Speeds, func(s gearbox.Speed) bool { return s.Direct }) {
		r.warn(place, "direct", "no direct speed", "The file says where a direct speed joins the shafts, but no speed is direct.")
	}
	for _, g := range r.box.Gears {
		if path := "gears." + g.Name; !usedGear[g.Name] {
			r.warn(r.box.Places[path], path, "unused gear", fmt.Sprintf("No mesh uses gear %q.", g.Name))
		}
	}
	for _, m := range r.box.Meshes {
		if path := "meshes." + m.Name; !usedMesh[m.Name] {
			r.warn(r.box.Places[path], path, "unused mesh", fmt.Sprintf("No speed uses mesh %q.", m.Name))
		}
	}
}

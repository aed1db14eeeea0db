package gearbox

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"layshaft/beam"
	"layshaft/beam/bearing"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/faceload"
	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// DefaultSteel is used where a box names none.
const DefaultSteel = "case-carburised"

// prepared is a box with everything worked out once that depends neither on the speed nor on the torque.
type prepared struct {
	box    *Box
	method Method
	second []Opinion
	brief  bool
	least  float64 // torque from which first limits aren't looked for, N·mm; +Inf = they are wherever they lie
	kinds  []Kind
	wanted []Wanted

	// By name, indices into the lists of the box.
	shaft, gear, mesh map[string]int
	steels            map[string]material.Steel // those in use, by name
	carries           map[string]string         // carrier → the shaft that sits in it

	lines    []shaftLine
	order    []int // shafts, carriers before what they carry
	pairs    []pair
	unlike   []string // gears that the published Lewis table doesn't describe
	places   places
	layouts  [][]layout // by speed; one of each in a box whose shafts are settled
	bores    []float64  // of the gears, mm; 0 = the shaft fills it
	readings []Weighing // of the scales, those that can be
	housing  float64    // stiffness of the case under each bearing, N/mm; 0 = rigid

	memory     *Memory            // of mechanics that boxes have in common; nil = none
	faces      faceload.Solver    // memory that all couplings work on
	bent       int                // how often a shaft was bent
	onElements bool               // a bearing is known by its elements
	rough      bool               // a search only feels its way: balances of bearings may be estimated
	worn       map[wornKey]found  // where the duty ends what it wears, found already
	loaded     map[loaded][]share // where gears are loaded in the duty, found already
	turning    map[int][]share    // where shafts are, likewise
	holding    map[wornKey]*held  // how far it is known to hold
	inputs     map[inputKey]iso6336.Input
	// Ratings ready for any torque, found already.
	ratings map[compiledKey]*iso6336.Compiled
	other   map[inputKey]*iso6336.Compiled // one of them at any speed, for any number of turns
	steel   int                            // how often the steels were changed
	found   diag.List
}

// shaftLine is a shaft ready to be bent.
type shaftLine struct {
	steel     material.Steel
	model     *beam.Model
	length    float64
	along     []span          // its sections, along the box
	influence *beam.Influence // memory that couplings use in turn
	pilot     int             // index of the bearing that sits in another shaft; −1 = none
	in        int             // index of that shaft
	notches   []notchLine
	stations  int // of all of its notches
	// What its parts are called in margins, and the slope each bearing bears.
	sections []string
	bearings []string
	slopes   []bound
}

// Validate finds what is wrong with a box beyond the single values: parts that sit off their shaft, gears that don't meet, teeth that
// can't exist, distances that don't close, shafts that are loose, solids that would stand in one another. Warnings don't stop it from being solved.
func Validate(b *Box) diag.List {
	p := prepare(b, Method{})
	p.checkSolids()
	p.found.Sort()
	return p.found
}

func prepare(b *Box, method Method) *prepared {
	p := prepareTeeth(b, method)
	if p.found.HasErrors() {
		return p
	}
	p.housing = b.Housing.Radial
	p.prepareModels()
	for _, s := range b.Speeds {
		placings, _, err := p.places.placings(p, p.involved(s))
		if err != nil {
			p.fault(path("speeds", s.Name), "shafts can't be placed", "%s.", err)
		}
		var layouts []layout
		for _, l := range placings {
			layouts = append(layouts, l.layout)
		}
		p.layouts = append(p.layouts, layouts)
	}
	if !p.found.HasErrors() {
		p.checkHeld()
	}
	return p
}

// prepareTeeth goes as far as the teeth: what mass and ratios follow from.
func prepareTeeth(b *Box, method Method) *prepared {
	p := &prepared{box: b, method: method, least: math.Inf(1), shaft: map[string]int{}, gear: map[string]int{}, mesh: map[string]int{}, carries: map[string]string{}, steels: map[string]material.Steel{}, worn: map[wornKey]found{}, holding: map[wornKey]*held{}, inputs: map[inputKey]iso6336.Input{}, ratings: map[compiledKey]*iso6336.Compiled{}, other: map[inputKey]*iso6336.Compiled{}}
	for i, s := range b.Shafts {
		p.shaft[s.Name] = i
	}
	for i, g := range b.Gears {
		p.gear[g.Name] = i
	}
	for i, m := range b.Meshes {
		p.mesh[m.Name] = i
	}
	for _, s := range b.Steels {
		p.steels[s.Name] = s
	}
	p.checkReferences()
	if p.found.HasErrors() {
		return p
	}
	p.lines = make([]shaftLine, len(b.Shafts))
	p.onElements = slices.ContainsFunc(b.Shafts, func(s Shaft) bool {
		return slices.ContainsFunc(s.Bearings, func(br Bearing) bool { return br.Elements != nil })
	})
	for i := range b.Shafts {
		p.checkSeats(i)
	}
	if p.found.HasErrors() {
		return p
	}
	p.places = newPlaces(p)
	p.preparePairs()
	if !p.found.HasErrors() {
		p.checkWeighed()
	}
	return p
}

func (p *prepared) report(severity diag.Severity, path, summary, detail string, args ...any) {
	p.found = append(p.found, diag.Diagnostic{
		Severity: severity, Place: p.box.Place(path), Path: path, Summary: summary, Detail: fmt.Sprintf(detail, args...),
	})
}

func (p *prepared) fault(path, summary, detail string, args ...any) {
	p.report(diag.Error, path, summary, detail, args...)
}

func (p *prepared) warn(path, summary, detail string, args ...any) {
	p.report(diag.Warning, path, summary, detail, args...)
}

// checkReferences makes sure that every name leads somewhere, so that the rest may use the maps without looking.
// A box file has been through this already, with nearest words; a box built in Go has not.
func (p *prepared) checkReferences() {
	b := p.box
	known := func(index map[string]int, kind, name string, steps ...string) {
		if _, ok := index[name]; !ok {
			p.fault(path(steps...), "unknown "+kind, "There is no %s %q in this box.", kind, name)
		}
	}
	if len(b.Speeds) == 0 {
		p.fault("speeds", "no speeds", "A box needs at least one speed.")
	}
	if !(b.Torque > 0) || math.IsInf(b.Torque, 0) {
		p.fault("input.torque", "torque must be positive", "The box's own input torque is that of drive; ask for coast by a negative torque of the load.")
	}
	if b.Turns != 1 && b.Turns != -1 {
		p.fault("input.turns", "sense of rotation not set", "Turns must be +1 or -1.")
	}
	known(p.shaft, "shaft", b.Input.Shaft, "input.shaft")
	known(p.shaft, "shaft", b.Output.Shaft, "output.shaft")
	for _, s := range b.Shafts {
		for _, br := range s.Bearings {
			if br.In != "" {
				known(p.shaft, "shaft", br.In, "shafts", s.Name, "bearings", br.Name, "in")
			}
		}
		if _, ok := p.steelNamed(s.Steel); !ok {
			p.fault(path("shafts", s.Name, "steel"), "unknown steel", "There is no steel %q.", s.Steel)
		}
	}
	for _, g := range b.Gears {
		known(p.shaft, "shaft", g.Shaft, "gears", g.Name, "shaft")
		if _, ok := p.steelNamed(g.Steel); !ok {
			p.fault(path("gears", g.Name, "steel"), "unknown steel", "There is no steel %q.", g.Steel)
		}
	}
	for _, m := range b.Meshes {
		known(p.gear, "gear", m.Driver, "meshes", m.Name, "driver")
		known(p.gear, "gear", m.Driven, "meshes", m.Name, "driven")
	}
	for i, c := range b.Centres {
		for j, s := range c.Between {
			known(p.shaft, "shaft", s, "centres", strconv.Itoa(i), "between", strconv.Itoa(j))
		}
	}
	speeds := map[string]int{}
	for i, s := range b.Speeds {
		speeds[s.Name] = i
		for k, m := range s.Path {
			known(p.mesh, "mesh", m, "speeds", s.Name, strconv.Itoa(k))
		}
	}
	if b.Duty != nil {
		for i, d := range b.Duty.Steps {
			known(speeds, "speed", d.Speed, "duty", "steps", strconv.Itoa(i), "speed")
		}
		p.checkDuty()
	}
	p.checkCar()
	for _, part := range b.Parts {
		if part.TurnsWith != "" {
			known(p.shaft, "shaft", part.TurnsWith, "parts", part.Name, "turns_with")
		}
	}
	for i, w := range b.Weighed.Pieces {
		if w.Shaft != "" {
			known(p.shaft, "shaft", w.Shaft, "weighed", "pieces", strconv.Itoa(i), "shaft")
		}
		for k, g := range w.Gears {
			known(p.gear, "gear", g, "weighed", "pieces", strconv.Itoa(i), "gears", strconv.Itoa(k))
		}
	}
	for i, e := range b.Evidence {
		if e.Speed != "" {
			known(speeds, "speed", e.Speed, "history", strconv.Itoa(i), "speed")
		}
		if e.Gear != "" {
			known(p.gear, "gear", e.Gear, "history", strconv.Itoa(i), "gear")
		}
	}
	if t := b.Housing.Test; t != nil {
		known(speeds, "speed", t.Speed, "housing.test.speed")
		known(p.shaft, "shaft", t.Shaft, "housing.test.shaft")
	}
	if p.found.HasErrors() {
		return
	}
	p.checkPaths()
	p.checkOneGear()
}

// checkPaths makes sure that each speed leads from the input shaft to the output shaft without a gap.
func (p *prepared) checkPaths() {
	b := p.box
	for _, s := range b.Speeds {
		at := b.Input.Shaft
		where := path("speeds", s.Name)
		if s.Direct {
			if !p.piloted(b.Output.Shaft, b.Input.Shaft) {
				p.fault(where, "direct speed without a pilot", "A direct speed locks the input shaft %q to the output shaft %q; the output shaft then needs a bearing that sits in the input shaft (in: %s).", b.Input.Shaft, b.Output.Shaft, b.Input.Shaft)
			}
			continue
		}
		if len(s.Path) == 0 {
			p.fault(where, "speed without meshes", "List the meshes it loads in the order of power flow, or write the word direct.")
			continue
		}
		for i, name := range s.Path {
			m := b.Meshes[p.mesh[name]]
			from, to := b.Gears[p.gear[m.Driver]].Shaft, b.Gears[p.gear[m.Driven]].Shaft
			if from != at {
				p.fault(path("speeds", s.Name, fmt.Sprint(i)), "broken power path", "The torque is on shaft %q here, but the driver of mesh %q sits on shaft %q.", at, name, from)
			}
			if from == to {
				p.fault(path("meshes", name), "mesh on one shaft", "Driver and driven gear both sit on shaft %q.", from)
			}
			at = to
		}
		if at != b.Output.Shaft {
			p.fault(where, "broken power path", "The last mesh leaves the torque on shaft %q, but it leaves the box on shaft %q.", at, b.Output.Shaft)
		}
	}
}

func (p *prepared) piloted(shaft, carrier string) bool {
	for _, br := range p.box.Shafts[p.shaft[shaft]].Bearings {
		if br.In == carrier {
			return true
		}
	}
	return false
}

func (p *prepared) steelNamed(name string) (material.Steel, bool) {
	if name == "" {
		name = DefaultSteel
	}
	if s, ok := p.steels[name]; ok {
		return s, true
	}
	s, ok := material.Find(name)
	if ok {
		p.steels[name] = s
	}
	return s, ok
}

// checkSeats makes sure that everything on a shaft is on it, and finds its pilot.
func (p *prepared) checkSeats(i int) {
	s := p.box.Shafts[i]
	line := &p.lines[i]
	line.pilot = -1
	line.steel, _ = p.steelNamed(s.Steel)
	title := ShaftTitle(s.Name)
	line.sections, line.bearings = make([]string, len(s.Sections)), make([]string, len(s.Bearings))
	line.slopes, line.along = make([]bound, len(s.Bearings)), make([]span, len(s.Sections))
	for j, sec := range s.Sections {
		line.along[j] = span{s.Start + line.length, s.Start + line.length + sec.Length}
		line.length += sec.Length
		line.sections[j] = title + ", section " + strconv.Itoa(j+1)
	}
	for j, br := range s.Bearings {
		line.bearings[j] = title + ", bearing " + br.Name
		line.slopes[j] = p.box.slopeLimit(br)
	}
	on := func(at float64, what, name string, steps ...string) {
		if at >= 0 && at <= line.length {
			return
		}
		if name != "" {
			what += " " + quoted(name)
		}
		p.fault(path(steps...), "off the shaft", "%s sits at %.6g mm, but shaft %q runs from 0 to %.6g mm.", what, at, s.Name, line.length)
	}
	for j, br := range s.Bearings {
		on(br.At, "Bearing", br.Name, "shafts", s.Name, "bearings", br.Name, "at")
		if br.In == "" {
			continue
		}
		where := path("shafts", s.Name, "bearings", br.Name)
		switch {
		case line.pilot >= 0:
			p.fault(where, "second pilot", "Shaft %q has two bearings in other shafts; only one can be followed.", s.Name)
		case br.Axial != 0 || br.Tilt != 0:
			p.fault(where, "pilot must be free", "A bearing in another shaft carries radial force alone: leave tilt and axial free.")
		case p.carriedBy(br.In, s.Name):
			p.fault(where, "shafts carry each other", "Shaft %q already sits in shaft %q, directly or through others.", br.In, s.Name)
		}
		for _, seat := range p.box.Shafts[p.shaft[br.In]].Bearings {
			if seat.In != "" && seat.In != s.Name {
				p.fault(where, "pilot in a piloted shaft", "Shaft %q sits in shaft %q itself; only one shaft in another can be followed.", br.In, seat.In)
			}
		}
		if other, taken := p.carries[br.In]; taken {
			p.fault(where, "two shafts in one", "Shaft %q carries shaft %q already; only one can be followed.", br.In, other)
		}
		p.carries[br.In] = s.Name
		line.pilot, line.in = j, p.shaft[br.In]
		if length := p.lengthOf(br.In); br.InAt < 0 || br.InAt > length {
			p.fault(where+".in_at", "off the shaft", "Bearing %q sits at %.6g mm in shaft %q, which runs from 0 to %.6g mm.", br.Name, br.InAt, br.In, length)
		}
	}
	p.checkRollers(s)
	p.checkBearings(s)
	p.prepareNotches(i)
	p.checkJoints(i)
	for _, g := range p.box.Gears {
		if g.Shaft == s.Name {
			on(g.At, "Gear", g.Name, "gears", g.Name, "at")
			if g.EngagesAt != nil {
				on(*g.EngagesAt, "The hub of gear", g.Name, "gears", g.Name, "engages_at")
			}
		}
	}
	if p.box.Input.Shaft == s.Name {
		on(p.box.Input.At, "The input", "", "input.at")
	}
	if p.box.Output.Shaft == s.Name {
		on(p.box.Output.At, "The output", "", "output.at")
	}
	if at := p.box.DirectAt.Input; at != nil && p.box.Input.Shaft == s.Name {
		on(*at, "The teeth of the direct speed", "", "direct.input_at")
	}
	if at := p.box.DirectAt.Output; at != nil && p.box.Output.Shaft == s.Name {
		on(*at, "The hub of the direct speed", "", "direct.output_at")
	}
	p.checkEnd(i)
}

// checkRollers makes sure that tapered rollers have another row to push against.
func (p *prepared) checkRollers(s Shaft) {
	for j, br := range s.Bearings {
		if br.Elements == nil || br.Elements.Kind != bearing.Tapered {
			continue
		}
		if last := len(s.Bearings) - 1; s.Pair == nil || j != 0 && j != last || last < 1 {
			p.fault(path("shafts", s.Name, "bearings", br.Name), "tapered bearing without its pair", "Tapered rollers need a second row to push against: only the first and the last bearing of a shaft can have them, and the shaft's pair must say how they are set.")
		}
	}
	if s.Pair == nil {
		return
	}
	if len(s.Bearings) < 2 {
		p.fault(path("shafts", s.Name, "pair"), "a pair of one bearing", "A pair needs two bearings.")
		return
	}
	first, last := s.Bearings[0], s.Bearings[len(s.Bearings)-1]
	for _, br := range []Bearing{first, last} {
		switch e := br.Elements; {
		case e != nil && e.Kind == bearing.Tapered:
		case e == nil && br.Type == TaperedRoller && br.Rating != nil && br.Rating.Y > 0:
		default:
			p.fault(path("shafts", s.Name, "pair"), "pair of other bearings", "The first and the last bearing of a shaft with a pair must have tapered rollers, of which the elements are known or the axial factor Y.")
			return
		}
	}
	if (first.Elements == nil) != (last.Elements == nil) {
		p.fault(path("shafts", s.Name, "pair"), "half a pair", "Of the two bearings of a pair the elements of one alone are known: give those of both, or the axial factor Y of both.")
	}
}

func (p *prepared) lengthOf(shaft string) (sum float64) {
	for _, sec := range p.box.Shafts[p.shaft[shaft]].Sections {
		sum += sec.Length
	}
	return sum
}

// carriedBy follows the pilots of a shaft; it reports whether carrier is among those that carry it, or is the shaft itself.
func (p *prepared) carriedBy(shaft, carrier string) bool {
	for range p.box.Shafts {
		if shaft == carrier {
			return true
		}
		next := ""
		for _, br := range p.box.Shafts[p.shaft[shaft]].Bearings {
			if br.In != "" {
				next = br.In
			}
		}
		if next == "" {
			return false
		}
		shaft = next
	}
	return true
}

// parts takes a joined error apart.
func parts(err error) []error {
	if joined, ok := errors.AsType[interface {
		error
		Unwrap() []error
	}](err); ok {
		return joined.Unwrap()
	}
	return []error{err}
}

// involved lists the shafts a speed loads, with those that carry them.
func (p *prepared) involved(s Speed) []int {
	shafts := []int{p.shaft[p.box.Input.Shaft], p.shaft[p.box.Output.Shaft]}
	for _, m := range s.Path {
		shafts = append(shafts, p.pairs[p.mesh[m]].shafts[:]...)
	}
	for k := 0; k < len(shafts); k++ {
		if line := p.lines[shafts[k]]; line.pilot >= 0 && !slices.Contains(shafts, line.in) {
			shafts = append(shafts, line.in)
		}
	}
	slices.Sort(shafts)
	return slices.Compact(shafts)
}

// speedNamed is the index of a speed.
func (p *prepared) speedNamed(name string) int {
	return slices.IndexFunc(p.box.Speeds, func(s Speed) bool { return s.Name == name })
}

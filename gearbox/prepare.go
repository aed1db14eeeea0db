package gearbox

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"layshaft/beam"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/contact"
	"layshaft/gearstress/faceload"
	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/gearstress/lewis"
	"layshaft/material"
)

// DefaultSteel is used where a box names none.
const DefaultSteel = "case-carburised"

// prepared is a box with everything worked out once that depends neither on the speed nor on the torque.
type prepared struct {
	second      []Opinion
	housing     float64 // stiffness of the case under each bearing, N/mm; 0 = rigid
	method      Method
	box         *Box
	shaft       map[string]int // by name, indices into box.Shafts …
	gear        map[string]int
	mesh        map[string]int
	lines       []shaftLine
	order       []int // shafts, carriers before what they carry
	pairs       []pair
	carries     map[string]string         // carrier → the shaft that sits in it
	steels      map[string]material.Steel // those in use, by name
	places      places
	exact       bool                // solve at every torque, don't interpolate between solved ones
	worn        map[wornKey]float64 // torques that the duty allows, found already
	unlike      []string            // gears that the published Lewis table doesn't describe
	layouts     [][]layout          // by speed
	layoutNotes [][]string
	found       diag.List
}

// shaftLine is a shaft ready to be bent.
type shaftLine struct {
	steel     material.Steel
	model     *beam.Model
	length    float64
	influence *beam.Influence // memory that couplings use in turn
	pilot     int             // index of the bearing that sits in another shaft; −1 = none
	in        int             // index of that shaft
	// What its parts are called in margins, and the slope each bearing bears.
	sections []string
	bearings []string
	slopes   []material.Band
}

// pair is a mesh with its geometry and the tooth forms that go with it.
type pair struct {
	geometry   *involute.Pair
	gears      [2]int
	shafts     [2]int
	from, to   float64    // common face, x in the box
	at         [2]float64 // its middle on each shaft
	steels     [2]material.Steel
	formTable  [2]float64    // Lewis form factor by the table; NaN = none fits
	stations   []float64     // of the strips of the face, mm from its middle
	widths     []float64     // of the strips, mm
	follow     [2]float64    // how much of its shaft\'s wind-up across the face each gear follows, 0 to 1
	gap        []float64     // of the unloaded flanks there, mm
	stiffness  float64       // c_γ, N/mm²
	form       *iso6336.Form // nil when it can't be rated
	formReal   [2]float64    // of the real tooth
	elasticity float64       // Z_E
	name       string        // in margins
	flank      material.Band
	tilt       material.Band
	separation material.Band
	derived    []string // what follows from the rest
	notes      []string // guesses and warnings
}

// Validate finds what is wrong with a box beyond the single values: parts that sit off their shaft, gears that don't meet, teeth that
// can't exist, distances that don't close, shafts that are loose. Warnings don't stop it from being solved.
func Validate(b *Box) diag.List {
	p := prepare(b, Method{})
	p.found.Sort()
	return p.found
}

func prepare(b *Box, method Method) *prepared {
	p := &prepared{box: b, method: method, shaft: map[string]int{}, gear: map[string]int{}, mesh: map[string]int{}, carries: map[string]string{}, steels: map[string]material.Steel{}, worn: map[wornKey]float64{}}
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
	for i := range b.Shafts {
		p.checkSeats(i)
	}
	if p.found.HasErrors() {
		return p
	}
	p.places = newPlaces(p)
	p.preparePairs()
	if p.found.HasErrors() {
		return p
	}
	p.housing = b.Housing.Radial
	p.prepareModels()
	for _, s := range b.Speeds {
		l, notes, err := p.places.layouts(p, p.involved(s))
		if err != nil {
			p.fault(path("speeds", s.Name), "shafts can't be placed", "%s.", err)
		}
		p.layouts = append(p.layouts, l)
		p.layoutNotes = append(p.layoutNotes, notes)
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
	known := func(index map[string]int, path, kind, name string) {
		if _, ok := index[name]; !ok {
			p.fault(path, "unknown "+kind, "There is no %s %q in this box.", kind, name)
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
	known(p.shaft, "input.shaft", "shaft", b.Input.Shaft)
	known(p.shaft, "output.shaft", "shaft", b.Output.Shaft)
	for _, s := range b.Shafts {
		for _, br := range s.Bearings {
			if br.In != "" {
				known(p.shaft, path("shafts", s.Name, "bearings", br.Name, "in"), "shaft", br.In)
			}
		}
		if _, ok := p.steelNamed(s.Steel); !ok {
			p.fault(path("shafts", s.Name, "steel"), "unknown steel", "There is no steel %q.", s.Steel)
		}
	}
	for _, g := range b.Gears {
		known(p.shaft, path("gears", g.Name, "shaft"), "shaft", g.Shaft)
		if _, ok := p.steelNamed(g.Steel); !ok {
			p.fault(path("gears", g.Name, "steel"), "unknown steel", "There is no steel %q.", g.Steel)
		}
	}
	for _, m := range b.Meshes {
		known(p.gear, path("meshes", m.Name, "driver"), "gear", m.Driver)
		known(p.gear, path("meshes", m.Name, "driven"), "gear", m.Driven)
	}
	for i, c := range b.Centres {
		for j, s := range c.Between {
			known(p.shaft, path("centres", fmt.Sprint(i), "between", fmt.Sprint(j)), "shaft", s)
		}
	}
	for _, s := range b.Speeds {
		for i, m := range s.Path {
			known(p.mesh, path("speeds", s.Name, fmt.Sprint(i)), "mesh", m)
		}
	}
	if p.found.HasErrors() {
		return
	}
	p.checkPaths()
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
	for j, sec := range s.Sections {
		line.length += sec.Length
		line.sections = append(line.sections, fmt.Sprintf("%s, section %d", ShaftTitle(s.Name), j+1))
	}
	for _, br := range s.Bearings {
		line.bearings = append(line.bearings, fmt.Sprintf("%s, bearing %s", ShaftTitle(s.Name), br.Name))
		line.slopes = append(line.slopes, p.box.slopeLimit(br))
	}
	on := func(where, what string, at float64) {
		if at < 0 || at > line.length {
			p.fault(where, "off the shaft", "%s sits at %.6g mm, but shaft %q runs from 0 to %.6g mm.", what, at, s.Name, line.length)
		}
	}
	for j, br := range s.Bearings {
		where := path("shafts", s.Name, "bearings", br.Name)
		on(where+".at", "Bearing "+quoted(br.Name), br.At)
		if br.In == "" {
			continue
		}
		switch {
		case line.pilot >= 0:
			p.fault(where, "second pilot", "Shaft %q has two bearings in other shafts; only one can be followed.", s.Name)
		case br.Axial != 0 || br.Tilt != 0:
			p.fault(where, "pilot must be free", "A bearing in another shaft carries radial force alone: leave tilt and axial free.")
		case p.carriedBy(br.In, s.Name):
			p.fault(where, "shafts carry each other", "Shaft %q already sits in shaft %q, directly or through others.", br.In, s.Name)
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
	for _, g := range p.box.Gears {
		if g.Shaft == s.Name {
			on(path("gears", g.Name, "at"), "Gear "+quoted(g.Name), g.At)
		}
	}
	if p.box.Input.Shaft == s.Name {
		on("input.at", "The input", p.box.Input.At)
	}
	if p.box.Output.Shaft == s.Name {
		on("output.at", "The output", p.box.Output.At)
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

// preparePairs works out the geometry of every mesh.
func (p *prepared) preparePairs() {
	p.pairs = make([]pair, len(p.box.Meshes))
	for i, m := range p.box.Meshes {
		q := &p.pairs[i]
		q.gears = [2]int{p.gear[m.Driver], p.gear[m.Driven]}
		where := path("meshes", m.Name)
		var left, right [2]float64
		spec := involute.Spec{Module: m.Module, Helix: m.Helix, Rack: m.Rack}
		for k, gi := range q.gears {
			g := p.box.Gears[gi]
			q.shafts[k] = p.shaft[g.Shaft]
			start := p.box.Shafts[q.shafts[k]].Start
			left[k], right[k] = start+g.At-g.Face/2, start+g.At+g.Face/2
			q.steels[k], _ = p.steelNamed(g.Steel)
			spec.Teeth[k] = g.Teeth
			spec.TipDiameter[k] = g.TipDiameter
			if g.Shift != nil {
				spec.Shift[k], spec.ShiftKnown[k] = *g.Shift, true
			}
		}
		q.from, q.to = max(left[0], left[1]), min(right[0], right[1])
		spec.Face = q.to - q.from
		if spec.Face <= 0 {
			p.fault(where, "gears don't meet", "In the box the face of %q runs from %.6g to %.6g mm and that of %q from %.6g to %.6g mm: they don't overlap. Check where the gears sit and the start of their shafts.", m.Driver, left[0], right[0], m.Driven, left[1], right[1])
			continue
		}
		if narrow := min(right[0]-left[0], right[1]-left[1]); spec.Face < 0.9*narrow {
			p.warn(where, "gears meet over part of their face", "Only %.4g mm of the narrower face of %.4g mm carry. Check where the gears sit.", spec.Face, narrow)
		}
		for k, s := range q.shafts {
			q.at[k] = (q.from+q.to)/2 - p.box.Shafts[s].Start
			if q.at[k] < 0 || q.at[k] > p.lines[s].length {
				p.fault(where, "mesh off the shaft", "The middle of the common face lies at %.6g mm on shaft %q, which runs from 0 to %.6g mm.", q.at[k], p.box.Shafts[s].Name, p.lines[s].length)
			}
		}
		spec.CentreDistance, _ = p.places.distance(q.shafts[0], q.shafts[1])
		geometry, err := involute.New(spec)
		if err != nil {
			for _, e := range parts(err) {
				p.fault(where, "these gears can't run together", "%s", e.Error())
			}
			continue
		}
		q.geometry = geometry
		q.derived = append(q.derived, geometry.Derived...)
		q.notes = append(q.notes, geometry.Notes...)
		p.places.fromMesh(p, i)
		p.prepareStress(i)
		p.prepareFace(i)
		p.prepareRating(i)
	}
}

// prepareStress finds the tooth forms of a mesh and its limits.
func (p *prepared) prepareStress(i int) {
	q := &p.pairs[i]
	for k := range q.gears {
		name := p.box.Gears[q.gears[k]].Name
		table, fits, note := lewis.TableFor(q.geometry, k)
		if !fits {
			q.derived = append(q.derived, name+": "+note)
			p.unlike = append(p.unlike, name)
		}
		var err error
		if q.formTable[k], err = table.Y(q.geometry.VirtualTeeth[k]); err != nil {
			q.formTable[k] = math.NaN()
			q.notes = append(q.notes, name+": "+err.Error())
		}
		if q.formReal[k], err = lewis.RealForm(q.geometry, k); err != nil {
			q.formReal[k] = math.NaN()
			q.notes = append(q.notes, name+": "+err.Error())
		}
	}
	a, b, m := q.steels[0], q.steels[1], p.box.Meshes[i]
	q.elasticity = contact.ElasticCoefficient(a.Young, a.Poisson, b.Young, b.Poisson)
	q.name = "mesh " + m.Name
	q.flank, q.tilt, q.separation = weaker(a.Contact, b.Contact), p.box.tiltLimit(m), p.box.separationLimit(m)
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

// prepareFace cuts the face of a mesh into strips, with the gap that the flanks have there unloaded and the stiffness of the teeth.
func (p *prepared) prepareFace(i int) {
	q := &p.pairs[i]
	face := q.to - q.from
	q.stations, q.widths = faceload.Stations(strips, face), faceload.Widths(strips, face)
	var profiles []faceload.Profile
	for k, gi := range q.gears {
		g := p.box.Gears[gi]
		// A gear's own modifications count from the middle of its own face; the common face lies beside it where the gears are not in line.
		aside := q.at[k] - g.At
		own := func(f faceload.Profile) faceload.Profile { return func(xi float64) float64 { return f(xi + aside) } }
		if g.Crowning != 0 {
			profiles = append(profiles, own(faceload.Crowning(g.Face, g.Crowning)))
		}
		if g.LeadError != 0 {
			profiles = append(profiles, own(faceload.LeadError(g.Face, g.LeadError)))
		}
		if g.Relief != [2]Relief{} {
			end := func(r Relief) faceload.Relief { return faceload.Relief{Length: r.Length, Amount: r.Amount, Power: 1} }
			profiles = append(profiles, own(faceload.EndRelief(g.Face, end(g.Relief[0]), end(g.Relief[1]))))
		}
	}
	q.gap = faceload.Gap(strips, face, profiles...)
	for k := range q.gears {
		q.follow[k] = p.follows(i, k)
	}
	q.stiffness = p.box.Meshes[i].Stiffness
	if q.stiffness == 0 {
		var bodies [2]iso6336.Body
		for k, gi := range q.gears {
			bodies[k] = iso6336.Body{Rim: p.box.Gears[gi].Rim, Web: p.box.Gears[gi].Web}
		}
		// c' falls below 100 N/mm; it is taken at that, since the torque that matters is above.
		q.stiffness = iso6336.MeshStiffness(q.geometry, [2]float64{q.steels[0].Young, q.steels[1].Young}, bodies, 100).Mean
	}
}

// speedNamed is the index of a speed.
func (p *prepared) speedNamed(name string) int {
	return slices.IndexFunc(p.box.Speeds, func(s Speed) bool { return s.Name == name })
}

// follows is how much of the wind-up of its shaft across the face a gear follows: all of it when its teeth are cut into the shaft, next to nothing when it is a wheel
// on a thin shaft, whose body up to the root circle is that much stiffer in torsion; nothing when it sits on a bearing of its own and takes its torque by its dogs.
func (p *prepared) follows(mesh, k int) float64 {
	q := &p.pairs[mesh]
	if p.box.Gears[q.gears[k]].Seat != nil {
		return 0
	}
	// The mean over the face of how much weaker shaft and body together are than the body alone.
	half := (q.to - q.from) / 2
	left, right := q.at[k]-half, q.at[k]+half
	fourth := func(d float64) float64 { return d * d * d * d }
	x, covered, sum := 0.0, 0.0, 0.0
	for _, sec := range p.box.Shafts[q.shafts[k]].Sections {
		part := min(right, x+sec.Length) - max(left, x)
		x += sec.Length
		if part > 0 {
			bore := fourth(sec.Bore)
			covered += part
			sum += part * min(1, (fourth(sec.Outer)-bore)/(fourth(q.geometry.Root[k])-bore))
		}
	}
	if covered == 0 {
		return 1 // a face thinner than rounding
	}
	return sum / covered
}

package gearbox

import (
	"layshaft/gearstress/contact"
	"layshaft/gearstress/faceload"
	"layshaft/gearstress/involute"
	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// pair is a mesh with its geometry and the tooth forms that go with it.
type pair struct {
	teeth      *teeth
	geometry   *involute.Pair // that of its teeth
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
	deviation  float64       // how far the flanks are out of line from their making, to either side, mm over the face
	stiffness  float64       // along the face, c_γβ, N/mm²
	form       *iso6336.Form // nil when it can't be rated
	formReal   [2]float64    // of the real tooth
	elasticity float64       // Z_E
	name       string        // in margins
	flank      material.Band
	tilt       bound
	separation bound
	derived    []string // what follows from the rest
	notes      []string // guesses and warnings
}

// preparePairs works out the geometry of every mesh.
func (p *prepared) preparePairs() {
	p.pairs = make([]pair, len(p.box.Meshes))
	told := map[int]float64{} // profile shifts, by gear
	for _, i := range p.meshOrder() {
		q, m := &p.pairs[i], p.box.Meshes[i]
		q.gears = [2]int{p.gear[m.Driver], p.gear[m.Driven]}
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
			spec.Thinning[k] = g.Thinning
			if g.Shift != nil {
				spec.Shift[k], spec.ShiftKnown[k] = *g.Shift, true
			}
		}
		q.from, q.to = max(left[0], left[1]), min(right[0], right[1])
		spec.Face = q.to - q.from
		if spec.Face <= 0 {
			p.fault(path("meshes", m.Name), "gears don't meet", "In the box the face of %q runs from %.6g to %.6g mm and that of %q from %.6g to %.6g mm: they don't overlap. Check where the gears sit and the start of their shafts.", m.Driver, left[0], right[0], m.Driven, left[1], right[1])
			continue
		}
		if narrow := min(right[0]-left[0], right[1]-left[1]); spec.Face < 0.9*narrow {
			p.warn(path("meshes", m.Name), "gears meet over part of their face", "Only %.4g mm of the narrower face of %.4g mm carry. Check where the gears sit.", spec.Face, narrow)
		}
		for k, s := range q.shafts {
			q.at[k] = (q.from+q.to)/2 - p.box.Shafts[s].Start
			if q.at[k] < 0 || q.at[k] > p.lines[s].length {
				p.fault(path("meshes", m.Name), "mesh off the shaft", "The middle of the common face lies at %.6g mm on shaft %q, which runs from 0 to %.6g mm.", q.at[k], p.box.Shafts[s].Name, p.lines[s].length)
			}
		}
		spec.CentreDistance, _ = p.places.distance(q.shafts[0], q.shafts[1])
		carryShift(&spec, q.gears, told)
		teeth, err := knownTeeth.of(spec)
		if err != nil {
			p.faultPair(i, spec, err)
			continue
		}
		q.teeth, q.geometry = teeth, teeth.geometry
		for k, g := range q.gears {
			told[g] = q.geometry.X[k]
		}
		p.places.fromMesh(p, i)
	}
	p.oneTip()
	for i := range p.pairs {
		q := &p.pairs[i]
		if q.geometry == nil {
			continue
		}
		q.derived = append(q.derived, q.geometry.Derived...)
		q.notes = append(q.notes, q.geometry.Notes...)
		p.prepareStress(i)
		p.prepareFace(i)
		p.prepareRating(i)
	}
	p.checkPairs()
}

// prepareStress finds the tooth forms of a mesh and its limits.
func (p *prepared) prepareStress(i int) {
	q := &p.pairs[i]
	for k := range q.gears {
		name := p.box.Gears[q.gears[k]].Name
		f := &q.teeth.lewis[k]
		if f.unlike != "" {
			q.derived = append(q.derived, name+": "+f.unlike)
			p.unlike = append(p.unlike, name)
		}
		for _, note := range f.notes {
			q.notes = append(q.notes, name+": "+note)
		}
		q.formTable[k], q.formReal[k] = f.table, f.real
	}
	a, b, m := q.steels[0], q.steels[1], p.box.Meshes[i]
	q.elasticity = contact.ElasticCoefficient(a.Young, a.Poisson, b.Young, b.Poisson)
	q.name = "mesh " + m.Name
	q.flank, q.tilt, q.separation = weaker(a.Contact, b.Contact), p.box.tiltLimit(m), p.box.separationLimit(m)
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
	if skew := p.box.Meshes[i].Skew; skew != 0 {
		profiles = append(profiles, faceload.LeadError(face, skew))
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
		q.stiffness = alongFace * iso6336.MeshStiffness(q.geometry, [2]float64{q.steels[0].Young, q.steels[1].Young}, bodies, 100).Mean
	}
}

// alongFace is the mesh stiffness that counts for the load along the face over the mean one, c_γβ/c_γα (ISO 6336-1:2006, clause 9, from memory).
const alongFace = 0.85

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

package gearbox

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearstress/involute"
)

// Weights is what the parts of a box weigh and how hard they are to spin.
type Weights struct {
	Box           *Box
	Parts         []Weight // shafts, then gears, then other parts, in the order of the file
	Shafts, Gears float64  // sums, kg, each ≥ 0
	Others        float64  // sum of the other parts whose mass is told, kg
	Pieces        []Piece  // what was weighed, beside what it should weigh
	Synchronisers []Synchroniser
	Notes         []string
}

// Turning is the mass of shafts and gears together, kg.
func (w *Weights) Turning() float64 { return w.Shafts + w.Gears }

// ByDimensions is the mass of shafts and gears by their dimensions, whatever the scales showed, kg.
func (w *Weights) ByDimensions() (sum float64) {
	for _, p := range w.Parts {
		if !math.IsNaN(p.Computed) {
			sum += p.Computed
		}
	}
	return sum
}

// Rest is what is left of the weighed box when all parts are taken off, kg; NaN when the box was not weighed.
func (w *Weights) Rest() float64 {
	if w.Box.Weighed.Box == 0 {
		return math.NaN()
	}
	return w.Box.Weighed.Box - w.Turning() - w.Others
}

// PartKind tells shafts, gears and the rest apart.
type PartKind string

// The kinds of part.
const (
	ShaftPart PartKind = "shaft"
	GearPart  PartKind = "gear"
	OtherPart PartKind = "part"
)

// Weight is one part.
type Weight struct {
	Name     string
	Kind     PartKind
	On       string  // the shaft that a gear sits on, or that another part turns with; "" = none
	Cut      bool    // a gear cut into its shaft: it counts with what it has beyond the section under it, which may be less than nothing
	Mass     float64 // kg; NaN = not known
	Inertia  float64 // about its axis, kg·mm²; NaN = not known
	Computed float64 // mass by its dimensions, kg; NaN where there are none
	Weighed  bool    // Mass comes from the scales, and Inertia is scaled with it
}

// Piece is one reading of the scales beside what the same parts should weigh by their dimensions.
type Piece struct {
	Names    []string // shaft first
	Weighed  float64  // kg
	Computed float64  // kg
}

// Difference is how much more the piece weighs than its dimensions say, as a fraction of the latter; without end when they say nothing.
func (p Piece) Difference() float64 { return p.Weighed/p.Computed - 1 }

// unlike is a difference between scales and dimensions above which a measurement is more likely wrong than the steel; common practice, no source.
const unlike = 0.1

// body is mass (kg) and moment of inertia about the axis (kg·mm²) of a solid of revolution.
type body struct{ mass, inertia float64 }

// ring is a hollow cylinder: m = ρ π/4 (D² − d²) L, J = ρ π/32 (D⁴ − d⁴) L. A negative length takes it away.
func ring(outer, bore, length, density float64) body {
	o, i := outer*outer, bore*bore
	return body{density * math.Pi / 4 * (o - i) * length, density * math.Pi / 32 * (o*o - i*i) * length}
}

func (b body) plus(o body) body { return body{b.mass + o.mass, b.inertia + o.inertia} }

// Weigh works out mass and inertia of every part of a box, and the inertia that each synchroniser has to bring to speed, as Solve does too. The error is a
// diag.List when the box itself is at fault.
//
// A shaft is its sections. A gear is the real outline of its teeth (involute.Section) from the bore outwards, of the whole face; where the shaft fills its bore, that is
// from the shaft's outer diameter outwards, so that nothing is counted twice, also where the teeth are cut into a section wider than their root circle.
func Weigh(b *Box) (*Weights, error) {
	p := prepareTeeth(b, Method{})
	if p.found.HasErrors() {
		p.found.Sort()
		return nil, p.found
	}
	return p.weigh(), nil
}

// weigh is Weigh of a box that is ready.
func (p *prepared) weigh() *Weights {
	b := p.box
	w := &Weights{Box: b}
	for i, s := range b.Shafts {
		c := p.shaftBody(i)
		w.Parts = append(w.Parts, Weight{Name: s.Name, Kind: ShaftPart, Mass: c.mass, Computed: c.mass, Inertia: c.inertia})
	}
	var loose, negative []string
	for i, g := range b.Gears {
		part := Weight{Name: g.Name, Kind: GearPart, On: g.Shaft, Mass: math.NaN(), Inertia: math.NaN(), Computed: math.NaN()}
		if c, ok := p.gearBody(i); ok {
			part.Cut = p.cut(i)
			part.Mass, part.Computed, part.Inertia = c.mass, c.mass, c.inertia
			if c.mass < 0 {
				negative = append(negative, g.Name)
			}
		} else {
			loose = append(loose, g.Name)
		}
		w.Parts = append(w.Parts, part)
	}
	for _, o := range b.Parts {
		part := Weight{Name: o.Name, Kind: OtherPart, On: o.TurnsWith, Mass: math.NaN(), Inertia: math.NaN(), Computed: math.NaN()}
		if o.Mass > 0 {
			part.Mass = o.Mass
		}
		if o.Inertia > 0 {
			part.Inertia = o.Inertia
		}
		w.Parts = append(w.Parts, part)
	}
	p.putOnScales(w)
	for i := range w.Parts {
		part := &w.Parts[i]
		switch {
		case math.IsNaN(part.Mass):
		case part.Kind == ShaftPart:
			w.Shafts += part.Mass
		case part.Kind == GearPart:
			w.Gears += part.Mass
		default:
			w.Others += part.Mass
		}
	}
	w.Synchronisers = p.synchronisers(w)
	w.note(loose, negative)
	p.noteSynchronisers(w)
	for _, f := range p.found {
		if strings.HasPrefix(f.Path, "weighed.") || strings.HasSuffix(f.Path, ".bore") {
			w.Notes = append(w.Notes, f.Path+": "+f.Summary+". "+f.Detail)
		}
	}
	return w
}

// note says what the numbers rest on and what they lack.
func (w *Weights) note(loose, negative []string) {
	add := func(format string, args ...any) { w.Notes = append(w.Notes, fmt.Sprintf(format, args...)) }
	add("Mass and inertia follow from the dimensions in the file and the density of the steel, teeth from their real outline. A gear whose bore isn't told begins where its shaft ends.")
	add("Not counted: bearings, synchroniser rings, hubs and sleeves, forks, splines, oil, chamfers, and holes that the file doesn't tell.")
	if slices.ContainsFunc(w.Parts, func(p Weight) bool { return p.Weighed }) {
		add("A weighed mass goes before the computed one; the inertia is scaled with it, as if the difference were spread evenly.")
	}
	if len(negative) > 0 {
		add("Less than nothing: the section under %s is given wider than its teeth fill it, so what lacks between the teeth is taken off the shaft here.", strings.Join(negative, ", "))
	}
	if len(loose) > 0 {
		add("Not counted, since no mesh tells the size of their teeth: %s.", strings.Join(loose, ", "))
	}
	var solid, webs []string
	for _, g := range w.Box.Gears {
		switch {
		case g.Web > 0 && g.Rim == 0:
			solid = append(solid, g.Name)
		case g.Web > 0 && g.Hub == nil:
			webs = append(webs, g.Name)
		}
	}
	if len(solid) > 0 {
		add("Counted as solid, since a web is told without its rim: %s.", strings.Join(solid, ", "))
	}
	if len(webs) > 0 {
		add("The web is taken to reach down to the bore, since no hub is told: %s.", strings.Join(webs, ", "))
	}
	for _, p := range w.Pieces {
		if d := p.Difference(); p.Computed > 0 && math.Abs(d) > unlike {
			add("%s: weighed %.4g kg, by the dimensions %.4g kg, %+.0f %%. Measure it again, or see what the file leaves out.", strings.Join(p.Names, " with "), p.Weighed, p.Computed, 100*d)
		}
	}
	if rest := w.Rest(); rest < 0 {
		add("The parts add up to %.4g kg more than the whole box weighs. Weigh again, or look for a part that is counted twice.", -rest)
	}
	for _, o := range w.Parts {
		if o.Kind == OtherPart && o.On != "" && math.IsNaN(o.Inertia) {
			add("%s turns with the %s, but its inertia isn't told, so it is left out of what the synchronisers see.", o.Name, ShaftTitle(o.On))
		}
	}
}

// shaftBody is a shaft without its gears.
func (p *prepared) shaftBody(i int) (sum body) {
	for _, s := range p.box.Shafts[i].Sections {
		sum = sum.plus(ring(s.Outer, s.Bore, s.Length, p.lines[i].steel.Density))
	}
	return sum
}

// gearBody is a gear from its bore outwards; not ok when no mesh tells its teeth.
func (p *prepared) gearBody(i int) (body, bool) {
	g := p.box.Gears[i]
	section, root, ok := p.outline(i)
	if !ok {
		return body{}, false
	}
	steel, _ := p.steelNamed(g.Steel)
	density := steel.Density
	sum := body{density * section.Area * g.Face, density * section.Polar * g.Face}
	width := g.Face // of the steel around the bore
	inside := p.insideRim(i, root)
	if inside > 0 {
		sum = sum.plus(ring(inside, 0, g.Web-g.Face, density))
		width = g.Web
	}
	if h := g.Hub; h != nil {
		// Between the sides of the face it fills what the web leaves free, up to the rim; beside the face it stands out.
		sum = sum.plus(ring(min(h.Outer, inside), 0, max(0, min(h.Length, g.Face)-width), density))
		sum = sum.plus(ring(h.Outer, 0, max(0, h.Length-g.Face), density))
		width = max(width, h.Length)
	}
	for _, hole := range p.under(i, width) {
		sum = sum.plus(ring(hole.Outer, 0, -hole.Length, density))
	}
	return sum, true
}

// insideRim is the inner diameter of a rim that a web carries; 0 for a solid gear, or when shaft or bore reach up to the rim.
func (p *prepared) insideRim(i int, root float64) float64 {
	g := p.box.Gears[i]
	inside := root - 2*g.Rim
	reaches := func(s Section) bool { return s.Outer >= inside }
	if g.Rim == 0 || g.Web == 0 || g.Web >= g.Face || slices.ContainsFunc(p.under(i, g.Face), reaches) {
		return 0
	}
	return inside
}

// under lists the diameters of the hole in a gear over a width about the middle of its face: its bore, or the shaft that fills it. Beyond the end of the shaft the hole goes on as
// wide as there.
func (p *prepared) under(i int, width float64) (list []Section) {
	g := p.box.Gears[i]
	if bore := p.bores[i]; bore > 0 {
		return []Section{{Length: width, Outer: bore}}
	}
	left, right := g.At-width/2, g.At+width/2
	x := 0.0
	sections := p.box.Shafts[p.shaft[g.Shaft]].Sections
	for k, s := range sections {
		from, to := x, x+s.Length
		x = to
		if k == 0 {
			from = math.Inf(-1)
		}
		if k == len(sections)-1 {
			to = math.Inf(1)
		}
		if part := min(right, to) - max(left, from); part > 0 {
			list = append(list, Section{Length: part, Outer: s.Outer})
		}
	}
	return list
}

// teethOf is a gear's teeth and whether it drives (0) or is driven (1) there, in the first mesh it runs in; nil where it runs in none.
func (p *prepared) teethOf(gear int) (t *teeth, k int) {
	for i := range p.pairs {
		if k := slices.Index(p.pairs[i].gears[:], gear); k >= 0 {
			return p.pairs[i].teeth, k
		}
	}
	return nil, 0
}

// outline is the transverse section of a gear with its root diameter.
func (p *prepared) outline(gear int) (section involute.Section, root float64, ok bool) {
	t, k := p.teethOf(gear)
	if t == nil {
		return involute.Section{}, 0, false
	}
	section, err := t.section[k]()
	return section, t.geometry.Root[k], err == nil
}

// cut reports whether a gear must be cut into its shaft: it is fast, and its teeth reach down into the section under it.
func (p *prepared) cut(i int) bool {
	g := p.box.Gears[i]
	_, root, ok := p.outline(i)
	if !ok || g.Seat != nil || p.bores[i] > 0 {
		return false
	}
	return slices.ContainsFunc(p.under(i, g.Face), func(s Section) bool { return s.Outer >= root })
}

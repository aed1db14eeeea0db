package gearbox

import (
	"fmt"
	"math"
	"strings"

	"layshaft/beam/bearing"
	"layshaft/gearbox/diag"
	"layshaft/gearstress/gauge"
	"layshaft/gearstress/involute"
)

// What is more likely a slip of the pen, of a unit or of a count than made so; common practice, no source.
const (
	largestShift = 0.8  // profile shift of one gear, modules
	centreLeeway = 0.04 // of the centre distance against that of gears without profile shift

	// Sums of profile shifts, modules. Below, the teeth of both gears are thin at the root and mostly undercut, which nobody designs; above, they come to a point or hardly overlap.
	leastShifts, mostShifts = -0.5, 1.5

	rubbing = 0.1  // modules along the line of action by which a tip may reach below the start of the other's involute
	softest = 5000 // stiffness of a bearing across the shaft, N/mm
	bareEnd = 0.5  // of the length of a shaft, on which nothing sits behind the last of its parts
)

// checkPairs warns of pairs that can be worked out but are hard to believe. Of the meshes that one distance doesn't suit one finding tells it for all.
func (p *prepared) checkPairs() {
	for i := range p.pairs {
		q := &p.pairs[i]
		if q.geometry == nil {
			continue
		}
		rubs, shifts := p.rubs(q), p.largeShifts(i)
		switch k := p.places.key(q.shafts[0], q.shafts[1]); {
		case p.unlikelyCentre(q.geometry.Spec):
			words := append(append(p.expectation(i, q.geometry.Spec), rubs...), advice(q.geometry.Spec))
			p.doubtDistance(k, i, diag.Warning, "unlikely gears", strings.Join(words, " "))
		case len(rubs) > 0:
			words := append(append(p.expectation(i, q.geometry.Spec), rubs...), advice(q.geometry.Spec))
			p.warn(path("meshes", p.box.Meshes[i].Name), "unlikely gears", "%s", strings.Join(words, " "))
		case shifts != "":
			p.doubtDistance(k, i, diag.Warning, "unlikely profile shift", shifts)
		}
	}
	p.tellDistances()
	p.checkMeasured()
}

// largeShifts tells of the shifts of a mesh that are large for one gear; "" when there are none.
func (p *prepared) largeShifts(i int) string {
	q := &p.pairs[i]
	var large []string
	for k, gi := range q.gears {
		if x := q.geometry.X[k]; math.Abs(x) > largestShift {
			large = append(large, fmt.Sprintf("%s would have a profile shift of %.2f modules for this centre distance.", p.box.Gears[gi].Name, x))
		}
	}
	if large == nil {
		return ""
	}
	return strings.Join(large, " ") + " Count the teeth and measure the distance, module and helix again."
}

// faultPair reports why a pair can't be. Where the distance of the shafts is hard to believe, it is the likely reason of all the rest and comes first.
func (p *prepared) faultPair(i int, spec involute.Spec, err error) {
	const summary = "these gears can't run together"
	if !p.unlikelyCentre(spec) {
		for _, e := range parts(err) {
			p.fault(path("meshes", p.box.Meshes[i].Name), summary, "%s", e.Error())
		}
		return
	}
	var reasons []string
	for _, e := range parts(err) {
		reasons = append(reasons, e.Error())
	}
	told := append(p.expectation(i, spec), "At that distance: "+strings.Join(reasons, "; ")+".", advice(spec))
	p.doubtDistance(p.places.key(p.pairs[i].shafts[0], p.pairs[i].shafts[1]), i, diag.Error, summary, strings.Join(told, " "))
}

// unlikelyCentre reports whether gears of these teeth would hardly be put so far apart.
func (p *prepared) unlikelyCentre(spec involute.Spec) bool {
	reference, sum := spec.Closing()
	return math.Abs(spec.CentreDistance/reference-1) > centreLeeway && spec.CentreDistance > 0 || sum < leastShifts || sum > mostShifts
}

// expectation is how far apart a pair would stand, against how far it does; nothing when the distance isn't known.
func (p *prepared) expectation(i int, spec involute.Spec) []string {
	if spec.CentreDistance == 0 {
		return []string{fmt.Sprintf("Mesh %q:", p.box.Meshes[i].Name)}
	}
	m := p.box.Meshes[i]
	size := fmt.Sprintf("module %.5g mm", m.Module)
	if _, given := p.box.Places[path("meshes", m.Name, "diametral_pitch")]; given {
		size = fmt.Sprintf("pitch %.5g", inch/m.Module)
	}
	if m.Helix > 0 {
		size += fmt.Sprintf(" and helix %.4g°", m.Helix*180/math.Pi)
	}
	reference, sum := spec.Closing()
	said := "the file says"
	if from := p.places.teeth[p.places.key(p.pairs[i].shafts[0], p.pairs[i].shafts[1])]; from != "" {
		said = fmt.Sprintf("by mesh %q it is", from)
	}
	s := fmt.Sprintf("Mesh %q: %d and %d teeth of %s would stand %.2f mm apart without profile shift; %s %.2f mm (%+.1f %%)", m.Name, spec.Teeth[0], spec.Teeth[1], size, reference, said, spec.CentreDistance, 100*(spec.CentreDistance/reference-1))
	if !math.IsNaN(sum) {
		s += fmt.Sprintf(", for which the profile shifts would have to add up to %.2f (%g to %g is usual: below, teeth are thin and undercut, above, they come to a point or hardly overlap)", sum, leastShifts, mostShifts)
	}
	return []string{s + "."}
}

// rubs are the tips that would reach below the involute of the other gear, in words.
func (p *prepared) rubs(q *pair) (told []string) {
	g := q.geometry
	for k, gi := range q.gears {
		if g.Rub[k] > rubbing*g.Module {
			told = append(told, fmt.Sprintf("The tip of %q would rub on %q, %.3g mm along the line of action below where its involute begins (diameter %.5g mm).", p.box.Gears[q.gears[1-k]].Name, p.box.Gears[gi].Name, g.Rub[k], g.Form[k]))
		}
	}
	return told
}

// advice is what to look at, with the helix or else the module that fits the distance.
func advice(spec involute.Spec) string {
	const steepest = 45 * math.Pi / 180
	if spec.CentreDistance == 0 {
		return "Check the teeth, the tip diameters and the profile shifts."
	}
	s := "Check the distance, the teeth, the module (or pitch) and the helix, and tip diameters if given"
	// The distance alone leads to a helix for any module: with both tips it leads to the tool.
	if sets := fitting(gauge.Pairing{Teeth: spec.Teeth, Distance: spec.CentreDistance, Tip: spec.TipDiameter}); sets != "" {
		return s + ". " + sets
	}
	spur := float64(spec.Teeth[0]+spec.Teeth[1]) / 2 // modules
	if cos := spur * spec.Module / spec.CentreDistance; cos <= 1 && cos >= math.Cos(steepest) {
		return s + fmt.Sprintf("; by the distance alone a helix of about %.1f° would fit.", math.Acos(cos)*180/math.Pi)
	}
	return s + fmt.Sprintf("; at any helix these teeth are too large or too small for it: a module of about %.3g mm would fit.", spec.CentreDistance*math.Cos(spec.Helix)/spur)
}

// checkBearings warns of bearings that are hard to believe.
func (p *prepared) checkBearings(s Shaft) {
	var fixed []Bearing
	for _, br := range s.Bearings {
		if br.Elements == nil && br.Radial > 0 && br.Radial < softest {
			p.warn(path("shafts", s.Name, "bearings", br.Name, "radial"), "a very soft bearing", "Bearing %q of shaft %q gives way by 1 µm at %.3g N (%.5g N/mm); rolling bearings stand at hundreds of N/µm. Were N/µm meant? A bearing in rubber may be that soft.", br.Name, s.Name, br.Radial/1000, br.Radial)
		}
		p.checkSqueeze(s, br)
		if math.IsInf(br.Axial, 1) {
			fixed = append(fixed, br)
		}
	}
	if len(fixed) < 2 || p.tapered(fixed) {
		return
	}
	last := fixed[len(fixed)-1]
	p.warn(path("shafts", s.Name, "bearings", last.Name, "axial"), "a shaft held twice", "Bearings %q and %q of shaft %q are both fixed along it: the shaft is clamped between them, and a case that warms up differently loads both. One locates the shaft; let the other slide (axial: free).", fixed[0].Name, last.Name, s.Name)
}

// checkSqueeze asks about a row that is squeezed before it carries anything.
func (p *prepared) checkSqueeze(s Shaft, br Bearing) {
	e := br.Elements
	if e == nil || !(e.Clearance < 0) || e.Check() != nil {
		return
	}
	rest, _, err := e.Hold(bearing.Stance{}, 0)
	if err != nil {
		return
	}
	p.warn(path("shafts", s.Name, "bearings", br.Name, "elements", "clearance"), "a squeezed bearing", "Bearing %q of shaft %q is squeezed by %.3g µm: each of its elements carries %.3g N before the shaft is loaded. Is that so when it runs warm? Squeeze stiffens a bearing and shortens its life.", br.Name, s.Name, -1e3*e.Clearance, rest.Heaviest)
}

// tapered reports whether bearings are all of tapered rollers, which hold a shaft as a pair.
func (p *prepared) tapered(all []Bearing) bool {
	for _, br := range all {
		if br.Type != TaperedRoller {
			return false
		}
	}
	return true
}

// checkEnd warns of a shaft that goes on and on behind everything that sits on it: most often a length was written in another unit.
func (p *prepared) checkEnd(i int) {
	s, length := p.box.Shafts[i], p.lines[i].length
	last := 0.0
	for _, br := range s.Bearings {
		last = max(last, br.At)
	}
	for _, other := range p.box.Shafts {
		for _, br := range other.Bearings {
			if br.In == s.Name {
				last = max(last, br.InAt)
			}
		}
	}
	for _, g := range p.box.Gears {
		if g.Shaft == s.Name {
			last = max(last, g.At+g.Face/2)
		}
	}
	for _, port := range []Port{p.box.Input, p.box.Output} {
		if port.Shaft == s.Name {
			last = max(last, port.At)
		}
	}
	if length-last <= bareEnd*length {
		return
	}
	longest := 0
	for k, sec := range s.Sections {
		if sec.Length > s.Sections[longest].Length {
			longest = k
		}
	}
	p.report(diag.Warning, path("shafts", s.Name, "sections", fmt.Sprint(longest), "length"), "a long bare end", "The sections of shaft %q add up to %.6g mm, %.6g mm of them in section %d, but nothing sits beyond %.6g mm. Check the lengths and their units.",
		s.Name, length, s.Sections[longest].Length, longest+1, last)
}

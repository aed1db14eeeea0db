package gearbox

import (
	"fmt"
	"math"
	"strconv"

	"layshaft/gearbox/diag"
)

// Shafts and gears are solids: two of them can't be in one place. A box in which they are isn't wrong by a little. A shaft that is too thick hardly bends and a gear that is too
// wide hardly feels its load, so that a slip in the file would be rewarded.

// What is let pass, common practice, no source.
const (
	rootLeeway = 0.5  // modules by which a section may be thicker than the root of the gear on it: fillets stiffen a shaft somewhat
	tipLeeway  = 0.5  // modules by which a tip that nobody measured may be in another's way before it is an error
	faceLeeway = 0.05 // of a face, along which a section may reach under a gear without being the one it sits on
)

// span is a stretch along the box, mm.
type span struct{ from, to float64 }

func (s span) length() float64     { return s.to - s.from }
func (s span) common(o span) span  { return span{max(s.from, o.from), min(s.to, o.to)} }
func (s span) meets(o span) bool   { return s.common(o).length() > closing }
func (s span) less(x float64) span { return span{s.from - x, s.to - x} }
func (s span) String() string      { return fmt.Sprintf("%.6g to %.6g mm", s.from, s.to) }

// blank is the outline of a gear as far as its meshes tell it; tip is 0 where none could be worked out.
type blank struct {
	face     span // along the box
	tip      float64
	root     float64 // mm
	module   float64 // mm
	measured bool    // the tip was measured
	partners []int   // gears it meshes with
}

// checkSolids finds shafts and gears that would have to stand in one another. It wants the places of the shafts; what keeps them from being known is among the findings already.
func (p *prepared) checkSolids() {
	if p.places.group == nil {
		return
	}
	p.checkLikely()
	blanks := p.blanks()
	for i := range p.box.Shafts {
		p.checkFaces(i, blanks)
		p.checkUnderGears(i, blanks)
	}
	for i := range p.box.Shafts {
		for j := range i {
			if d, known := p.places.distance(i, j); known && d > closing && p.places.group[i] != p.places.group[j] && !p.wrongDistance(i, j) {
				p.checkBeside(j, i, d, blanks)
			}
		}
	}
}

func (p *prepared) blanks() []blank {
	all := make([]blank, len(p.box.Gears))
	for i, g := range p.box.Gears {
		start := p.box.Shafts[p.shaft[g.Shaft]].Start
		all[i] = blank{face: span{start + g.At - g.Face/2, start + g.At + g.Face/2}, root: math.Inf(1), measured: g.TipDiameter > 0}
	}
	for i, m := range p.box.Meshes {
		driver, driven := p.gear[m.Driver], p.gear[m.Driven]
		all[driver].partners = append(all[driver].partners, driven)
		all[driven].partners = append(all[driven].partners, driver)
		if i >= len(p.pairs) || p.pairs[i].geometry == nil {
			continue
		}
		for k, gi := range p.pairs[i].gears {
			b := &all[gi]
			b.tip, b.root, b.module = max(b.tip, p.pairs[i].geometry.Tip[k]), min(b.root, p.pairs[i].geometry.Root[k]), m.Module
		}
	}
	return all
}

func (p *prepared) outer(shaft, section int) string {
	return path("shafts", p.box.Shafts[shaft].Name, "sections", strconv.Itoa(section), "outer")
}

// checkFaces looks at what stands along one shaft: faces in the air, faces in one another, bearings inside gears.
func (p *prepared) checkFaces(shaft int, blanks []blank) {
	s := p.box.Shafts[shaft]
	length := p.lines[shaft].length
	for i, g := range p.box.Gears {
		if g.Shaft != s.Name {
			continue
		}
		face := blanks[i].face.less(s.Start)
		if air := g.Face - face.common(span{0, length}).length(); air > closing {
			key := "at"
			if g.Face > length {
				key = "face"
			}
			p.fault(path("gears", g.Name, key), "a face beyond the end of its shaft", "The face of gear %q runs from %v, but shaft %q from 0 to %.6g mm: %.4g mm of it have no shaft under them. Check at and face of the gear and the lengths of the sections.", g.Name, face, s.Name, length, air)
		}
		for j, other := range p.box.Gears[:i] {
			if beside := blanks[j].face.less(s.Start); other.Shaft == s.Name && face.meets(beside) {
				p.fault(path("gears", g.Name, "at"), "two gears in one place", "On shaft %q the face of %q runs from %v and that of %q from %v: they overlap by %.4g mm. Check at and face of both.", s.Name, other.Name, beside, g.Name, face, face.common(beside).length())
			}
		}
		for _, br := range s.Bearings {
			if br.In == "" && br.At > face.from+closing && br.At < face.to-closing {
				p.warn(path("shafts", s.Name, "bearings", br.Name, "at"), "a bearing inside a gear", "Bearing %q of shaft %q has its centre at %.6g mm, but there the face of gear %q runs from %v. Check at of both.", br.Name, s.Name, br.At, g.Name, face)
			}
		}
	}
}

// checkUnderGears looks at the sections on which the gears of one shaft sit.
func (p *prepared) checkUnderGears(shaft int, blanks []blank) {
	s := p.box.Shafts[shaft]
	for i, g := range p.box.Gears {
		b := blanks[i]
		if g.Shaft != s.Name || b.tip == 0 {
			continue
		}
		thickest := -1
		for k, along := range p.lines[shaft].along {
			if under := along.common(b.face).length(); under > closing && under > faceLeeway*g.Face && (thickest < 0 || s.Sections[k].Outer > s.Sections[thickest].Outer) {
				thickest = k
			}
		}
		if thickest < 0 {
			continue
		}
		switch outer := s.Sections[thickest].Outer; {
		case outer >= b.tip:
			p.fault(p.outer(shaft, thickest), "a gear inside its shaft", "Section %d of shaft %q is %.5g mm thick, and gear %q on it has a tip diameter of %.5g mm: no teeth would be left. Check outer, and the teeth and the module of the gear.", thickest+1, s.Name, outer, g.Name, b.tip)
		case outer > b.root+rootLeeway*b.module:
			p.warn(p.outer(shaft, thickest), "a shaft thicker than the root of its gear", "Section %d of shaft %q is %.5g mm thick, but the teeth of gear %q on it begin at a root diameter of %.5g mm. Check outer; under a pinion that is cut into its shaft the section counts at the root, with sections of their own to both sides.", thickest+1, s.Name, outer, g.Name, b.root)
		}
	}
}

// checkBeside looks at two shafts whose axes are so far apart, and at the gears on them.
func (p *prepared) checkBeside(a, b int, distance float64, blanks []blank) {
	touching := p.checkShafts(a, b, distance)
	for i := range p.box.Gears {
		switch p.shaft[p.box.Gears[i].Shaft] {
		case a:
			p.checkGearBeside(i, b, distance, blanks, touching[1])
			for j := range p.box.Gears {
				if p.shaft[p.box.Gears[j].Shaft] == b {
					p.checkGears(i, j, distance, blanks)
				}
			}
		case b:
			p.checkGearBeside(i, a, distance, blanks, touching[0])
		}
	}
}

// checkShafts reports two shafts that touch, where they do most. It tells which sections of each are in the way of the other.
func (p *prepared) checkShafts(a, b int, distance float64) (touching [2]map[int]bool) {
	touching = [2]map[int]bool{{}, {}}
	one, other := p.box.Shafts[a], p.box.Shafts[b]
	deepest, at := closing, [2]int{}
	var where span
	for k, along := range p.lines[a].along {
		for l, beside := range p.lines[b].along {
			deep := (one.Sections[k].Outer+other.Sections[l].Outer)/2 - distance
			if deep <= closing || !along.meets(beside) {
				continue
			}
			touching[0][k], touching[1][l] = true, true
			if deep > deepest {
				deepest, at, where = deep, [2]int{k, l}, along.common(beside)
			}
		}
	}
	if deepest > closing {
		thick := p.outer(a, at[0])
		if other.Sections[at[1]].Outer > one.Sections[at[0]].Outer {
			thick = p.outer(b, at[1])
		}
		p.fault(thick, "two shafts in one place", "Section %d of shaft %q is %.5g mm thick and section %d of shaft %q %.5g mm; from %v along the box they lie side by side with their axes %.6g mm apart, so that they overlap by %.4g mm. Check outer of both, the distance, and start and lengths of the shafts.",
			at[0]+1, one.Name, one.Sections[at[0]].Outer, at[1]+1, other.Name, other.Sections[at[1]].Outer, where, distance, deepest)
	}
	return touching
}

// checkGearBeside reports a gear whose tips run into another shaft, where they do most. Where that shaft carries a gear that it meshes with, the section was looked at under
// that gear; sections that touch the other shaft itself were told too.
func (p *prepared) checkGearBeside(gear, shaft int, distance float64, blanks []blank, told map[int]bool) {
	b := blanks[gear]
	if b.tip == 0 {
		return
	}
	s := p.box.Shafts[shaft]
	deepest, at := closing, -1
	for k, along := range p.lines[shaft].along {
		beside := along.common(b.face)
		free := beside.length()
		for _, partner := range b.partners {
			if p.shaft[p.box.Gears[partner].Shaft] == shaft {
				free -= max(0, beside.common(blanks[partner].face).length())
			}
		}
		if deep := (b.tip+s.Sections[k].Outer)/2 - distance; !told[k] && free > closing && deep > deepest {
			deepest, at = deep, k
		}
	}
	if at < 0 {
		return
	}
	severity := diag.Error
	if !b.measured && deepest <= tipLeeway*b.module {
		severity = diag.Warning
	}
	name := p.box.Gears[gear].Name
	p.report(severity, p.outer(shaft, at), "a shaft in the way of a gear", "Section %d of shaft %q is %.5g mm thick; gear %q beside it has a tip diameter of %.5g mm and their axes are %.6g mm apart, so that they overlap by %.4g mm. Check outer, the distance and where the gear sits.",
		at+1, s.Name, s.Sections[at].Outer, name, b.tip, distance, deepest)
}

// checkGears warns of two gears of two shafts that stand in one another without being a mesh. It is no error: a gear that slides out of the way is described where it works.
func (p *prepared) checkGears(a, b int, distance float64, blanks []blank) {
	one, other := blanks[a], blanks[b]
	for _, partner := range one.partners {
		if partner == b {
			return
		}
	}
	leeway := tipLeeway * max(one.module, other.module)
	if one.tip == 0 || other.tip == 0 || !one.face.meets(other.face) || (one.tip+other.tip)/2-distance <= leeway {
		return
	}
	p.warn(path("gears", p.box.Gears[b].Name, "at"), "two gears in one another", "Gears %q and %q are no mesh, but their faces overlap from %v along the box, and their tip diameters of %.5g and %.5g mm reach %.4g mm too far for axes %.6g mm apart. Check at of both, unless one of them slides out of the way.",
		p.box.Gears[a].Name, p.box.Gears[b].Name, one.face.common(other.face), one.tip, other.tip, (one.tip+other.tip)/2-distance, distance)
}

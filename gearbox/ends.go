package gearbox

import (
	"fmt"
	"math"
	"slices"
)

// What sits on a shaft, or turns in it, against the sections it has there.

// checkEnds asks about a shaft on which things don't fit as its sections are written, and would if they had been written from the other end.
func (p *prepared) checkEnds(shaft int) {
	s := p.box.Shafts[shaft]
	turned := slices.Clone(s.Sections)
	slices.Reverse(turned)
	if slices.Equal(turned, s.Sections) {
		return
	}
	misfits := p.misfits(shaft, s.Sections)
	if len(misfits) == 0 || len(p.misfits(shaft, turned)) > 0 {
		return
	}
	p.warn(path("shafts", s.Name, "sections"), "sections from the wrong end", "On shaft %q %s. With the sections in the opposite order all of it would fit. Sections are listed from the left end of the shaft, from which places are counted too: check the order.",
		s.Name, joined(misfits))
}

// misfits are what doesn't fit on a shaft with the given sections, in words: gears that its sections would swallow, or two or more that would sit astride a
// step; a spigot too thick for its hole.
func (p *prepared) misfits(shaft int, sections []Section) (misfits []string) {
	const step, share = 1.0, 0.1 // mm on the diameter; of a face on either side
	s := p.box.Shafts[shaft]
	var astride []string
	for i, m := range p.box.Meshes {
		q := &p.pairs[i]
		for k, g := range q.gears {
			gear := p.box.Gears[g]
			if q.shafts[k] != shaft || q.geometry == nil {
				continue
			}
			face := span{gear.At - gear.Face/2, gear.At + gear.Face/2}
			thickest, thinnest, x := 0.0, math.Inf(1), 0.0
			for _, sec := range sections {
				if under := face.common(span{x, x + sec.Length}).length(); under > share*gear.Face {
					thickest, thinnest = max(thickest, sec.Outer), min(thinnest, sec.Outer)
				}
				x += sec.Length
			}
			if thickest > q.geometry.Root[k]+rootLeeway*m.Module {
				misfits = append(misfits, fmt.Sprintf("the section under gear %q is thicker than its root", gear.Name))
			} else if name := quoted(gear.Name); thickest-thinnest > step && !slices.Contains(astride, name) {
				astride = append(astride, name)
			}
		}
	}
	if len(astride) > 1 {
		misfits = append(misfits, "gears "+joined(astride)+" sit astride steps")
	}
	fits := func(spigot, hole []Section, br Bearing) bool {
		return sectionAt(spigot, br.At).Outer <= sectionAt(hole, br.InAt).Bore+closing
	}
	for _, br := range s.Bearings {
		if j, ok := p.shaft[br.In]; br.In != "" && ok && !fits(sections, p.box.Shafts[j].Sections, br) {
			misfits = append(misfits, fmt.Sprintf("the spigot at bearing %q is thicker than the hole in shaft %q", br.Name, br.In))
		}
	}
	for _, other := range p.box.Shafts {
		for _, br := range other.Bearings {
			if br.In == s.Name && !fits(other.Sections, sections, br) {
				misfits = append(misfits, fmt.Sprintf("there is no hole in which the spigot of shaft %q fits", other.Name))
			}
		}
	}
	return misfits
}

// sectionAt is the section at a place, of two that meet there the left one.
func sectionAt(sections []Section, at float64) Section {
	x := 0.0
	for _, sec := range sections {
		if x += sec.Length; at <= x {
			return sec
		}
	}
	return Section{}
}

// checkSpigot reports a spigot that is thicker than the hole in which it turns, as far as the file has a hole there.
func (p *prepared) checkSpigot(shaft int) {
	s := p.box.Shafts[shaft]
	for _, br := range s.Bearings {
		j, ok := p.shaft[br.In]
		if br.In == "" || !ok {
			continue
		}
		if thick, hole := sectionAt(s.Sections, br.At).Outer, sectionAt(p.box.Shafts[j].Sections, br.InAt).Bore; hole > 0 && thick > hole+closing {
			p.warn(path("shafts", s.Name, "bearings", br.Name), "a spigot thicker than its hole", "At bearing %q shaft %q is %.5g mm thick, but the hole in shaft %q in which it turns is %.5g mm wide there. Check outer and bore, and at and in_at of the bearing.",
				br.Name, s.Name, thick, br.In, hole)
		}
	}
}

// checkHubs asks about hubs that the file puts where a gear is.
func (p *prepared) checkHubs() {
	check := func(where, shaft string, at *float64) {
		for i := range p.box.Gears {
			g := &p.box.Gears[i]
			if at != nil && g.Shaft == shaft && *at > g.along().from+closing && *at < g.along().to-closing {
				p.warn(where, "a hub inside a gear", "The hub sits at %.6g mm of shaft %q, but there is gear %q, with face and seat from %v. A hub sits beside its gear.", *at, shaft, g.Name, g.along())
			}
		}
	}
	for i := range p.box.Gears {
		if g := &p.box.Gears[i]; g.Seat != nil {
			check(path("gears", g.Name, "engages_at"), g.Shaft, g.EngagesAt)
		}
	}
	check("direct.output_at", p.box.Output.Shaft, p.box.DirectAt.Output)
}

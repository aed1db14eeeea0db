package gearbox

import (
	"slices"
	"strings"
)

// NotJudged is something that a box may fail by and that was not judged.
type NotJudged struct {
	What string // "splines, keys and grooves of shafts"
	Why  string // what would have to be given; "" where nothing can be given yet
}

// notJudged lists what the limits of a box leave out. Everybody who acts on an allowable torque has to know it.
func (p *prepared) notJudged() []NotJudged {
	b := p.box
	var all []NotJudged
	add := func(what, why string) { all = append(all, NotJudged{what, why}) }
	if b.Duty == nil {
		add("wear of the teeth", "a duty")
	} else {
		for _, s := range b.Speeds {
			if !p.inDuty(s.Name) {
				add("wear of the teeth in "+s.Name, "a step of the duty in it")
			}
		}
	}
	if slices.ContainsFunc(p.pairs, func(q pair) bool { return q.form == nil }) {
		add("teeth by ISO 6336 where a steel has no limits of it", "root_limit and flank_limit of the steel")
	}
	if b.Shock <= 1 {
		add("peaks above the asked torque", "shock")
	}
	if b.Oil.Stage == 0 || b.Revs == 0 {
		add("scuffing", "the oil's load stage and the speed of the input shaft")
	}
	var plain []string // shafts of which no notch is given
	for _, shaft := range b.Shafts {
		if len(shaft.Notches) == 0 {
			plain = append(plain, ShaftTitle(shaft.Name))
		}
	}
	of := "shafts"
	if len(plain) < len(b.Shafts) {
		of = joined(plain)
	}
	if len(plain) > 0 {
		add("fatigue of "+of+" at shoulders, splines, keys and grooves", "notches of the shaft: the radius in each corner, depth and width of grooves, holes, the root of splines")
	}
	p.bearingsNotJudged(add)
	p.joints(add)
	add("the case, lubrication and heat", "")
	return all
}

// joints adds the joints that nothing is given of.
func (p *prepared) joints(add func(what, why string)) {
	b := p.box
	has := func(types ...JointType) bool {
		return slices.ContainsFunc(b.Shafts, func(s Shaft) bool {
			return slices.ContainsFunc(s.Joints, func(j Joint) bool { return slices.Contains(types, j.Type) })
		})
	}
	var what, why []string
	missing := func(given bool, part, key string) {
		if !given {
			what, why = append(what, part), append(why, key)
		}
	}
	free := slices.ContainsFunc(b.Gears, func(g Gear) bool { return g.Seat != nil && g.Dogs == nil && p.takesTorque(g.Name) })
	missing(has(StraightSpline, InvoluteSpline, ParallelKey, PressedOn), "splines, keys and fits", "joints of the shafts")
	missing(!free, "engagement teeth", "dogs of the free gears")
	missing(slices.ContainsFunc(b.Gears, func(g Gear) bool { return g.Bolts != nil }), "bolts of wheels", "bolts of a gear")
	missing(has(CirclipRing), "circlips", "joints of type circlip")
	if len(what) > 0 {
		add(joined(what), strings.Join(why, "; "))
	}
	add("synchronisers", "")
}

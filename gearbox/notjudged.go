package gearbox

import (
	"fmt"
	"math"
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
	p.notchesNotJudged(add)
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
	given := has(StraightSpline, InvoluteSpline, ParallelKey, PressedOn)
	missing(given, "splines, keys and fits", "joints of the shafts")
	missing(!free, "engagement teeth", "dogs of the free gears")
	missing(slices.ContainsFunc(b.Gears, func(g Gear) bool { return g.Bolts != nil }), "bolts of wheels", "bolts of a gear")
	missing(has(CirclipRing), "circlips", "joints of type circlip")
	if len(what) > 0 {
		add(joined(what), strings.Join(why, "; "))
	}
	if given {
		add("splines, keys and fits beside those that the file gives", "joints of the shafts, also under the hubs of free gears")
	}
	add("synchronisers", "")
}

// notchesNotJudged lists the shafts of which no notch is given, and how many steps of the others are none.
func (p *prepared) notchesNotJudged(add func(what, why string)) {
	var plain, some []string
	for i, s := range p.box.Shafts {
		switch open := p.openSteps(i); {
		case len(s.Notches) == 0:
			plain = append(plain, ShaftTitle(s.Name))
		case open == 1:
			some = append(some, "1 step of the "+ShaftTitle(s.Name))
		case open > 1:
			some = append(some, fmt.Sprintf("%d steps of the %s", open, ShaftTitle(s.Name)))
		}
	}
	const why = "notches of the shaft: the radius in each corner, depth and width of grooves, holes, the root of splines"
	switch {
	case len(plain) == len(p.box.Shafts):
		add("fatigue of shafts at shoulders, splines, keys and grooves", why)
	case len(plain) > 0:
		add("fatigue of "+joined(plain)+" at shoulders, splines, keys and grooves", why)
	}
	if len(some) > 0 {
		add("fatigue at "+joined(some)+" without a notch", "the radius in each corner")
	}
}

// openSteps is how many steps of the outside of a shaft have no shoulder among its notches.
func (p *prepared) openSteps(i int) (open int) {
	const beside = 0.5 // mm by which a shoulder may stand off its step
	s, x := &p.box.Shafts[i], 0.0
	for k := 0; k+1 < len(s.Sections); k++ {
		x += s.Sections[k].Length
		if s.Sections[k].Outer == s.Sections[k+1].Outer {
			continue
		}
		if !slices.ContainsFunc(s.Notches, func(n Notch) bool { return math.Abs(n.At-x) <= beside+n.Length/2 }) {
			open++
		}
	}
	return open
}

package gearbox

import "slices"

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
	add("fatigue of shafts at shoulders, splines, keys and grooves", "")
	p.bearingsNotJudged(add)
	add("engagement teeth, synchronisers, bolts and circlips", "")
	add("the case, lubrication and heat", "")
	return all
}

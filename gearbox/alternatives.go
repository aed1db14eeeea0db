package gearbox

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox/diag"
)

// mostAlternatives is how many boxes may be made of one by what isn't known of it. More would take minutes, and tell that too little is known.
const mostAlternatives = 300

// Alternatives are all the boxes that a box may be by what isn't known of it: each way in which its shafts can lie, with each value that something said to be unknown may have. In each of
// them everything is settled for all speeds at once. tried says what was tried and what would settle it, in sentences. A box of which all is known is its own
// only alternative, and so is one that can't be worked out: what is wrong with it is for Solve to say.
func Alternatives(b *Box) (boxes []*Box, tried []string, err error) {
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		return []*Box{b}, nil, nil
	}
	return p.alternatives()
}

func (p *prepared) alternatives() (boxes []*Box, tried []string, err error) {
	b := p.box
	if len(b.Alternatives) > 0 {
		return b.Alternatives, b.Tried, nil
	}
	placings, open, err := p.wholeLayouts()
	if err != nil {
		return nil, nil, diag.List{{Place: b.Place("centres"), Path: "centres", Summary: "shafts can't be placed", Detail: sentences("", []string{err.Error()})[0]}}
	}
	q := p.asker()
	if len(b.Unknown) > 0 {
		q.values()
	}
	unknown := slices.DeleteFunc(q.all, func(a Assumption) bool { return !a.Unknown })
	if placings == nil && len(unknown) == 0 {
		return []*Box{b}, nil, nil
	}
	count := max(1, len(placings))
	var words []string
	for _, o := range open {
		tried, words = append(tried, o.String()), append(words, "where the "+ShaftTitle(o.shaft)+" lies")
	}
	for _, a := range unknown {
		count *= len(a.Others)
		tried, words = append(tried, capitalised(a.String())+": "+a.Value+", and the least is reported."), append(words, a.String())
		if count > mostAlternatives {
			break
		}
	}
	if count > mostAlternatives {
		return nil, nil, fmt.Errorf("box %s: too much is unknown. It may be any of %d boxes or more, and %d are tried at most; settle some of: %s", quoted(b.Name), count, mostAlternatives, strings.Join(words, "; "))
	}
	boxes = p.placed(placings)
	for _, a := range unknown {
		var grown []*Box
		for _, box := range boxes {
			for _, other := range a.Others {
				c := other.In(box)
				c.Variant = strings.Join(slices.DeleteFunc([]string{box.Variant, other.Words}, func(s string) bool { return s == "" }), ", ")
				grown = append(grown, c)
			}
		}
		boxes = grown
	}
	return boxes, tried, nil
}

// capitalised begins a sentence with a capital letter.
func capitalised(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// placed are boxes with their shafts where some placings have them; the box itself where there are none.
func (p *prepared) placed(placings []placing) (boxes []*Box) {
	for _, l := range placings {
		c := p.box.apart()
		c.Variant, c.Layout = strings.Join(l.words, ", "), map[string][2]float64{}
		for i, s := range c.Shafts {
			if at, ok := l.layout[p.places.group[i]]; ok {
				c.Layout[s.Name] = at
			}
		}
		boxes = append(boxes, c)
	}
	if len(boxes) == 0 {
		boxes = []*Box{p.box.apart()}
	}
	return boxes
}

// wholeLayouts lists every way in which the shafts of all speeds can lie together, with the shafts that are open; none when the shafts of each speed are settled by themselves. Ways that
// look the same in every speed, as when two shafts never carry load together, are one.
func (p *prepared) wholeLayouts() ([]placing, []openPlace, error) {
	var shafts []int
	settled := true
	for i, s := range p.box.Speeds {
		shafts = append(shafts, p.involved(s)...)
		settled = settled && len(p.layouts[i]) == 1
	}
	if settled {
		return nil, nil, nil
	}
	slices.Sort(shafts)
	placings, open, err := p.places.placings(p, slices.Compact(shafts))
	if err != nil {
		return nil, nil, err
	}
	seen := map[string]bool{}
	placings = slices.DeleteFunc(placings, func(l placing) bool {
		look := p.looks(l.layout)
		again := seen[look]
		seen[look] = true
		return again
	})
	if len(placings) == 1 {
		open = nil
		placings[0].words = nil
	}
	return placings, open, nil
}

// looks is how a layout looks in every speed, wherever the box is put and however it is turned: the axes of each seen from the first, with the first other one to the left.
func (p *prepared) looks(l layout) string {
	var b strings.Builder
	for _, s := range p.box.Speeds {
		shafts := p.involved(s)
		from, ahead := l[p.places.group[shafts[0]]], point{}
		for _, i := range shafts {
			d := l[p.places.group[i]].minus(from)
			if size := d.norm(); ahead == (point{}) && size > closing {
				ahead = d.scaled(1 / size)
			}
			const hair = 1e-6 // mm
			fmt.Fprintf(&b, "%.0f %.0f;", math.Round(d.dot(ahead)/hair)+0, math.Round(d.dot(ahead.turned())/hair)+0)
		}
		b.WriteByte('\n')
	}
	return b.String()
}

package gearbox

import (
	"fmt"
	"math"
	"slices"

	"layshaft/gearstress/involute"
)

// A gear was cut once: in all its meshes it has one module, one pressure angle, one helix with its hand, one rack, and, where they follow from the rest, one
// profile shift and one tip diameter.

// What may come from writing one thing in two ways.
const (
	sameSize  = 1e-3            // of a length
	sameAngle = math.Pi / 18000 // 0.01°
)

// handOf is the hand of a gear in one of its meshes.
func (m *Mesh) handOf(gear string) Hand {
	if gear == m.Driver {
		return m.Hand
	}
	return m.Hand.Opposite()
}

// checkOneGear reports gears that would have to be cut in two ways, with both places.
func (p *prepared) checkOneGear() {
	for i := range p.box.Gears {
		name := p.box.Gears[i].Name
		var first *Mesh
		for k := range p.box.Meshes {
			switch m := &p.box.Meshes[k]; {
			case m.Driver != name && m.Driven != name:
			case first == nil:
				first = m
			default:
				p.checkSameCut(name, first, m)
			}
		}
	}
}

// checkSameCut compares what two meshes say of one gear.
func (p *prepared) checkSameCut(gear string, a, b *Mesh) {
	differ := func(key, what, inA, inB, advice string) {
		where := func(m *Mesh, found string) string {
			role := "driver"
			if gear == m.Driven {
				role = "driven gear"
			}
			s := fmt.Sprintf("%s as %s of mesh %q", found, role, m.Name)
			if place := p.box.Place(path("meshes", m.Name, key)).String(); place != "" {
				s += " (" + place + ")"
			}
			return s
		}
		p.fault(path("meshes", b.Name, key), "one gear cut in two ways", "Gear %q has %s, and %s. A gear has one %s in all its meshes: %s", gear, where(a, inA), where(b, inB), what, advice)
	}
	const check = "check both."
	degrees := func(rad float64) string { return fmt.Sprintf("%.4g°", rad*180/math.Pi) }
	if math.Abs(a.Module-b.Module) > sameSize*a.Module {
		differ("module", "module", fmt.Sprintf("a module of %.5g mm", a.Module), fmt.Sprintf("one of %.5g mm", b.Module), check)
	}
	if math.Abs(a.Rack.PressureAngle-b.Rack.PressureAngle) > sameAngle {
		differ("pressure_angle", "pressure angle", "a pressure angle of "+degrees(a.Rack.PressureAngle), "one of "+degrees(b.Rack.PressureAngle), check)
	}
	if math.Abs(a.Helix-b.Helix) > sameAngle {
		differ("helix", "helix", "a helix of "+degrees(a.Helix), "one of "+degrees(b.Helix), check)
	} else if before, here := a.handOf(gear), b.handOf(gear); a.Helix > 0 && before != here {
		differ("hand", "hand", fmt.Sprintf("a %s-hand helix", before), fmt.Sprintf("a %s-hand one", here),
			fmt.Sprintf("the two gears of a mesh have opposite hands, and hand is that of the driver. If mesh %q is right, write hand: %s here.", a.Name, b.Hand.Opposite()))
	}
	off := func(x, y float64) bool { return math.Abs(x-y) > sameSize }
	if x, y := a.Rack, b.Rack; off(x.Addendum, y.Addendum) || off(x.Dedendum, y.Dedendum) || off(x.TipRadius, y.TipRadius) || off(x.Protuberance, y.Protuberance) {
		differ("rack", "rack", "a rack of "+rackWords(x), "one of "+rackWords(y), check)
	}
}

func rackWords(r involute.Rack) string {
	s := fmt.Sprintf("addendum %.4g, dedendum %.4g and fillet radius %.4g", r.Addendum, r.Dedendum, r.TipRadius)
	if r.Protuberance > 0 {
		s += fmt.Sprintf(" with a residual undercut of %.4g", r.Protuberance)
	}
	return s
}

// meshOrder is the order in which pairs are worked out: a pair with a given profile shift before those that may need what it tells of a gear of theirs.
func (p *prepared) meshOrder() []int {
	order := make([]int, len(p.box.Meshes))
	rank := make([]int, len(order))
	for i, m := range p.box.Meshes {
		order[i] = i
		if p.box.Gears[p.gear[m.Driver]].Shift == nil && p.box.Gears[p.gear[m.Driven]].Shift == nil {
			rank[i] = 1
		}
	}
	if p.sharedGear() {
		slices.SortStableFunc(order, func(i, j int) int { return rank[i] - rank[j] })
	}
	return order
}

// sharedGear reports whether some gear without a given shift is in more than one mesh.
func (p *prepared) sharedGear() bool {
	meshes := map[int]int{}
	for _, m := range p.box.Meshes {
		for _, name := range []string{m.Driver, m.Driven} {
			g := p.gear[name]
			if meshes[g]++; meshes[g] > 1 && p.box.Gears[g].Shift == nil {
				return true
			}
		}
	}
	return false
}

// carryShift takes a profile shift that an earlier pair told of a gear into another of its meshes. Where both are told already, the distance decides over the driven gear's.
func carryShift(spec *involute.Spec, gears [2]int, told map[int]float64) {
	for k, g := range gears {
		if x, ok := told[g]; ok && !spec.ShiftKnown[k] && !spec.ShiftKnown[1-k] {
			spec.Shift[k], spec.ShiftKnown[k] = x, true
		}
	}
}

// oneTip gives a gear whose tip diameter isn't measured the least of those that its meshes ask for, and works out anew the pairs that asked for more.
func (p *prepared) oneTip() {
	least := map[int]float64{}
	for _, q := range p.pairs {
		for k, g := range q.gears {
			if q.geometry != nil && (least[g] == 0 || q.geometry.Tip[k] < least[g]) {
				least[g] = q.geometry.Tip[k]
			}
		}
	}
	for i := range p.pairs {
		q := &p.pairs[i]
		if q.geometry == nil {
			continue
		}
		spec, again := q.geometry.Spec, false
		for k, g := range q.gears {
			if spec.TipDiameter[k] == 0 && q.geometry.Tip[k] > least[g]*(1+1e-9) {
				spec.TipDiameter[k], again = least[g], true
			}
		}
		// Two tips would share the sum of shifts anew.
		if !again || spec.TipDiameter[0] > 0 && spec.TipDiameter[1] > 0 && !spec.ShiftKnown[0] && !spec.ShiftKnown[1] {
			continue
		}
		teeth, err := knownTeeth.of(spec)
		if err != nil {
			q.geometry = nil
			p.faultPair(i, spec, err)
			continue
		}
		q.teeth, q.geometry = teeth, teeth.geometry
	}
}

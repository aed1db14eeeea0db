package gearbox

import (
	"cmp"
	"math"
	"slices"

	"layshaft/material"
)

// FirstLimit is the limit of a speed that is reached first, at the end of the bands that the box is judged by.
type FirstLimit struct {
	Kind   Kind
	Item   string  // what runs out: "first pinion", "output shaft, section 3"
	Torque float64 // input torque at which it is reached, N·mm > 0; +Inf when no limit is reached
}

// contender is a limit that may be the first.
type contender struct {
	kind  Kind
	item  string
	used  demand   // share of the limit that is used up, 1 at the limit
	power float64  // as in allowable
	guess float64  // torque at which it would be reached if all grew in step with the torque, N·mm
	rank  int      // in the order shown to people
	worn  *wornKey // of what wears over the whole duty, which allows the same torque in whichever speed it is asked; nil for all else
}

// findFirst finds the first limit of a speed without asking where the others are reached: most are only asked whether they hold at the torque that another allows.
func (v *solver) findFirst(sr *SpeedResult, solvers map[work]*solver) (err error) {
	p := v.p
	level := p.box.Limits.Strength
	var all []contender
	add := func(kind Kind, item string, power float64, used demand) *contender {
		all = append(all, contender{kind: kind, item: item, used: used, power: power, guess: v.asked * math.Pow(used(v.asked), -power), rank: int(kind)<<16 + len(all)})
		return &all[len(all)-1]
	}
	over := func(limit float64, of func(*measure) (float64, error)) demand {
		return func(torque float64) float64 {
			m, e := v.measure(torque)
			if e != nil {
				err = e
				return math.NaN()
			}
			number, e := of(m)
			if e != nil {
				err = e
				return math.NaN()
			}
			return number / limit
		}
	}
	for n := range sr.Meshes {
		i := p.mesh[sr.Meshes[n].Name]
		q := &p.pairs[i]
		if q.form != nil {
			for _, t := range v.trials(n, i, solvers) {
				used, power := v.usedUp(t, level, v.rater(t, level, &err), &err)
				add(t.kind, p.item(i, t), power, used).worn = t.key(level)
			}
		} else {
			v.lewis(sr, n, q, func(m Margin) {
				add(m.Kind, m.Item, m.Kind.power(), func(torque float64) float64 { return math.Pow(torque/m.Allowable[level], 1/m.Kind.power()) })
			})
		}
		add(MeshTilt, q.name, 1, over(q.tilt.At(level), func(m *measure) (float64, error) { return m.tilt(n) }))
		add(MeshSeparation, q.name, 1, over(q.separation.At(level), func(m *measure) (float64, error) { return m.separation(n) }))
	}
	for n := range sr.Shafts {
		i := p.shaft[sr.Shafts[n].Name]
		line := &p.lines[i]
		for j, sec := range sr.Shafts[n].Sections {
			if sec.Stress.VonMises > 0 {
				add(ShaftYield, line.sections[j], 1, v.shocked(over(line.steel.Yield.At(level), func(m *measure) (float64, error) { return m.stress(i, j) })))
			}
		}
		for j := range sr.Shafts[n].Bearings {
			add(BearingSlope, line.bearings[j], 1, over(line.slopes[j].At(level), func(m *measure) (float64, error) { return m.slope(i, j) }))
		}
	}
	// The likeliest first: then the others only have to hold.
	slices.SortStableFunc(all, func(a, b contender) int { return cmp.Compare(a.guess, b.guess) })
	sr.First = FirstLimit{Torque: math.Inf(1)}
	best := math.MaxInt
	for _, c := range all {
		t := sr.First.Torque
		found := c.reached(t, v.asked, p.worn)
		// Of two that are reached together the one that is shown first to people: pinion and wheel often bear the very same stress.
		if together := found == t || math.Abs(found-t) <= 1e-9*min(found, t); found < t && !together || together && c.rank < best {
			sr.First, best = FirstLimit{c.kind, c.item, found}, c.rank
		}
		if err != nil {
			return err
		}
	}
	sr.Allowable = [material.High + 1]float64{math.NaN(), math.NaN(), math.NaN()}
	sr.Allowable[level] = sr.First.Torque
	return nil
}

// reached is the torque at which the limit is reached, as far as it matters: +Inf when it holds at the torque that another allows. worn is what has been found of
// the whole duty already.
func (c *contender) reached(other, asked float64, worn map[wornKey]float64) float64 {
	if c.worn != nil {
		if found, ok := worn[*c.worn]; ok {
			return found
		}
	}
	if !math.IsInf(other, 1) {
		switch used := c.used(other); {
		case math.Abs(used-1) <= 1e-9:
			return other
		case !(used > 1):
			return math.Inf(1)
		}
	}
	// As demands grow with the torque, it is reached below the other's and there alone.
	found := allowable(c.used, 1, min(other, max(asked/1e3, min(c.guess, 1e3*asked))), c.power)
	if c.worn != nil {
		worn[*c.worn] = found
	}
	return found
}

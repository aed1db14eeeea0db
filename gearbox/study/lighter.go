package study

import (
	"math"
	"reflect"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// LighterCase is what speaks for a lighter box, and what against it. It holds facts alone; nothing is weighed against anything else.
type LighterCase struct {
	Lighter, Other int     // places in Comparison.Results
	Mass           [2]Mass // of the lighter box and of the other
	For, Against   []Reason
	Shared         []Reason // the same in both
	Gaps           []Gap    // what isn't known
	Balance        []Balance
}

// Balance is by how much the lighter box differs from the other in one quantity, over all speeds that both have.
type Balance struct {
	Kind        ReasonKind
	More        bool    // whether more is better
	Least, Most float64 // relative change, (lighter − other)/other, in the speeds where it is least and most
}

// Mass is what a case goes by.
type Mass struct {
	Value float64 // kg
	Whole bool    // of the whole box, as weighed; else of shafts and gears
}

// Reason is one fact, in the speeds in which it holds.
type Reason struct {
	Kind      ReasonKind
	Dimension quantity.Dimension // of Values; Number for limits and states
	Speeds    []string           // nil when it is about the whole box
	Every     bool               // Speeds are all that both boxes have
	Values    [][2]float64       // by speed, or one: of the lighter box and of the other, inner units
	Limits    []LimitPair        // by speed, where the reason is about what limits it
}

// LimitPair is what limits one speed, in the lighter box and in the other.
type LimitPair [2]gearbox.FirstLimit

// ReasonKind is what a reason is about.
type ReasonKind string

// The kinds of reason, as machines know them.
const (
	ByMass        ReasonKind = "mass"
	ByTorque      ReasonKind = "allowable_torque"
	ByState       ReasonKind = "state"
	ByPerMass     ReasonKind = "torque_per_mass"
	ByTransmitted ReasonKind = "allowable_over_transmitted_torque"
	ByWheels      ReasonKind = "allowable_torque_at_the_wheels"
	ByLife        ReasonKind = "life"
	BySpin        ReasonKind = "synchroniser_inertia"
	ByDeflection  ReasonKind = "largest_deflection"
	ByRoot        ReasonKind = "root_stress"
	ByFlank       ReasonKind = "flank_stress"
	SameLimit     ReasonKind = "same_limit"
)

// sameNumber is the relative difference below which two numbers count as the same: less than anybody measures.
const sameNumber = 0.005

// lighter makes the case for the lightest box against each other one. There is none when nothing is lighter.
func (c *Comparison) lighter() (all []LighterCase) {
	if len(c.Weighed) < 2 {
		return nil
	}
	least := 0
	for i, w := range c.Weighed {
		if w.Mass < c.Weighed[least].Mass {
			least = i
		}
	}
	for i, w := range c.Weighed {
		if i != least && differs(c.Weighed[least].Mass, w.Mass) {
			all = append(all, c.caseOf(least, i))
		}
	}
	return all
}

func differs(a, b float64) bool { return math.Abs(a-b) > sameNumber*math.Max(math.Abs(a), math.Abs(b)) }

// caseOf makes the case for one box against another.
func (c *Comparison) caseOf(lighter, other int) LighterCase {
	boxes := [2]*WeighedBox{&c.Weighed[lighter], &c.Weighed[other]}
	k := LighterCase{Lighter: lighter, Other: other}
	for i, b := range boxes {
		k.Mass[i] = Mass{b.Mass, b.Whole}
	}
	k.balance(ByMass, false, boxes[0].Mass/boxes[1].Mass-1)
	k.For = append(k.For, Reason{Kind: ByMass, Dimension: quantity.Mass, Values: [][2]float64{{boxes[0].Mass, boxes[1].Mass}}})
	var shared []*SpeedRow
	for i := range c.Speeds {
		if row := &c.Speeds[i]; row.Boxes[lighter] != nil && row.Boxes[other] != nil {
			shared = append(shared, row)
		}
	}
	at := func(row *SpeedRow) [2]*gearbox.SpeedResult {
		return [2]*gearbox.SpeedResult{row.Boxes[lighter], row.Boxes[other]}
	}
	sameTorque := boxes[0].Result.Torque == boxes[1].Result.Torque

	k.limits(shared, at, sameTorque)
	k.sort(ByTransmitted, quantity.Number, shared, true, func(row *SpeedRow, i int) float64 { return 1 + marginTransmitted(at(row)[i]) })
	k.sort(ByWheels, quantity.Torque, shared, true, func(row *SpeedRow, i int) float64 { return row.most("wheel_torque", [2]int{lighter, other}[i]) })
	k.life([2]*gearbox.Result{boxes[0].Result, boxes[1].Result})
	k.sort(ByPerMass, quantity.TorquePerMass, shared, true, func(row *SpeedRow, i int) float64 { return boxes[i].PerMassOf(row.Name) })
	k.sort(BySpin, quantity.MomentOfInertia, shared, false, func(row *SpeedRow, i int) float64 {
		if y := boxes[i].Synchroniser(row.Name); y != nil {
			return y.Inertia
		}
		return math.NaN()
	})
	if sameTorque {
		of := [2]int{lighter, other}
		for _, q := range []struct {
			kind ReasonKind
			dim  quantity.Dimension
		}{{ByDeflection, quantity.Deflection}, {ByRoot, quantity.Stress}, {ByFlank, quantity.Stress}} {
			k.sort(q.kind, q.dim, shared, false, func(row *SpeedRow, i int) float64 { return row.most(string(q.kind), of[i]) })
		}
	}
	k.gaps(c, sameTorque)
	return k
}

// life sets the lives of what the duty wears out first against each other, in repeats of a duty that both boxes have: at the
// torque transmitted where both tell it, else at the torque asked.
func (k *LighterCase) life(of [2]*gearbox.Result) {
	if of[0].Box.Duty == nil || !reflect.DeepEqual(of[0].Box.Duty, of[1].Box.Duty) {
		return
	}
	asked, reached := [2]float64{}, [2]float64{}
	for i, r := range of {
		l := shortest(r.Lives)
		asked[i], reached[i] = l.Asked, l.Reached
	}
	v := asked
	if reached[0] > 0 && reached[1] > 0 {
		v = reached
	}
	if !(v[0] > 0 && v[1] > 0) || v[0] == v[1] || finite(v[0]) && finite(v[1]) && !differs(v[0], v[1]) {
		return
	}
	r := Reason{Kind: ByLife, Dimension: quantity.Number, Values: [][2]float64{v}}
	if v[0] > v[1] {
		k.For = append(k.For, r)
	} else {
		k.Against = append(k.Against, r)
	}
}

// shortest is the life of the gear that tires first; 0 when the duty wears none.
func shortest(all []gearbox.GearLife) (least gearbox.Life) {
	of := func(least, v float64) float64 {
		if v > 0 && (least == 0 || v < least) {
			return v
		}
		return least
	}
	for i := range all {
		l := all[i].Shortest()
		least.Asked, least.Reached = of(least.Asked, l.Asked), of(least.Reached, l.Reached)
	}
	return least
}

// most is the largest value of a quantity over all parts of one box; NaN when there is none.
func (row *SpeedRow) most(key string, box int) float64 {
	most := math.NaN()
	for i := range row.Items {
		if d := &row.Items[i]; d.Key == key && !math.IsNaN(d.Values[box]) && !(d.Values[box] <= most) {
			most = d.Values[box]
		}
	}
	return most
}

// sort looks in which speeds a quantity is better in the lighter box, and in which worse, and adds a reason for each; more says that more is better.
func (k *LighterCase) sort(kind ReasonKind, dim quantity.Dimension, shared []*SpeedRow, more bool, value func(row *SpeedRow, i int) float64) {
	better, worse := Reason{Kind: kind, Dimension: dim}, Reason{Kind: kind, Dimension: dim}
	var changes []float64
	for _, row := range shared {
		v := [2]float64{value(row, 0), value(row, 1)}
		if finite(v[0]) && finite(v[1]) {
			changes = append(changes, v[0]/v[1]-1)
		}
		// A limit that is never reached can't be set against one that is by a number.
		if !finite(v[0]) || !finite(v[1]) || !differs(v[0], v[1]) {
			continue
		}
		to := &worse
		if (v[0] > v[1]) == more {
			to = &better
		}
		to.Speeds, to.Values = append(to.Speeds, row.Name), append(to.Values, v)
	}
	k.add(&k.For, better, shared)
	k.add(&k.Against, worse, shared)
	k.balance(kind, more, changes...)
}

// balance adds the least and the most of changes, if there are any.
func (k *LighterCase) balance(kind ReasonKind, more bool, changes ...float64) {
	if len(changes) > 0 {
		k.Balance = append(k.Balance, Balance{kind, more, slices.Min(changes), slices.Max(changes)})
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// add adds a reason that holds somewhere.
func (k *LighterCase) add(to *[]Reason, r Reason, shared []*SpeedRow) {
	if len(r.Speeds) > 0 {
		r.Every = len(r.Speeds) == len(shared) && len(shared) > 1
		*to = append(*to, r)
	}
}

// limits adds what there is to say of allowable torques: by how much they differ, one reason for each pair of limits that decide; where the states differ; and where the same limit
// decides in both.
func (k *LighterCase) limits(shared []*SpeedRow, at func(*SpeedRow) [2]*gearbox.SpeedResult, sameTorque bool) {
	type found struct {
		reason Reason
		side   *[]Reason
	}
	var torques, states []*found
	same := Reason{Kind: SameLimit}
	var changes []float64
	put := func(all *[]*found, side *[]Reason, kind ReasonKind, dim quantity.Dimension, speed string, v [2]float64, limits LimitPair, together func(r *Reason) bool) {
		for _, f := range *all {
			if f.side == side && together(&f.reason) {
				f.reason.Speeds, f.reason.Values, f.reason.Limits = append(f.reason.Speeds, speed), append(f.reason.Values, v), append(f.reason.Limits, limits)
				return
			}
		}
		*all = append(*all, &found{Reason{Kind: kind, Dimension: dim, Speeds: []string{speed}, Values: [][2]float64{v}, Limits: []LimitPair{limits}}, side})
	}
	for _, row := range shared {
		s := at(row)
		limits := LimitPair{s[0].First, s[1].First}
		v := [2]float64{limits[0].Torque, limits[1].Torque}
		if limits[0].Kind == limits[1].Kind && limits[0].Item == limits[1].Item && finite(v[0]) && finite(v[1]) {
			same.Speeds, same.Values, same.Limits = append(same.Speeds, row.Name), append(same.Values, v), append(same.Limits, limits)
		}
		if finite(v[0]) && finite(v[1]) {
			changes = append(changes, v[0]/v[1]-1)
		}
		if finite(v[0]) && finite(v[1]) && differs(v[0], v[1]) {
			side := &k.Against
			if v[0] > v[1] {
				side = &k.For
			}
			put(&torques, side, ByTorque, quantity.Torque, row.Name, v, limits, func(r *Reason) bool { return sameParts(r.Limits[0], limits) })
		}
		if m, n := s[0].Deciding(), s[1].Deciding(); m != nil && n != nil {
			if a, b := m.Judged(), n.Judged(); a != b {
				side := &k.Against
				if a > b {
					side = &k.For
				}
				v := [2]float64{float64(a), float64(b)}
				put(&states, side, ByState, quantity.Number, row.Name, v, limits, func(r *Reason) bool { return r.Values[0] == v })
			}
		}
	}
	for _, all := range [][]*found{torques, states} {
		for _, f := range all {
			k.add(f.side, f.reason, shared)
		}
	}
	k.add(&k.Shared, same, shared)
	k.balance(ByTorque, true, changes...)
}

// sameParts reports whether in two speeds the same limits of the same parts decide, box by box.
func sameParts(a, b LimitPair) bool {
	for i := range a {
		if a[i].Kind != b[i].Kind || a[i].Item != b[i].Item {
			return false
		}
	}
	return true
}

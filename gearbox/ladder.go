package gearbox

import (
	"math"
	"slices"

	"layshaft/material"
)

// How uneven the load along a face can be between two torques follows from how it lies at both.
//
// The loads w of all strips are where shafts, teeth and seats store least energy: half of what the loads do on elastic parts, plus loads times gaps, plus the play of the ends of the seats (h|R|, half
// the clearance times the load on the end), with the couples M of thrust faces within what they can take, |M| ≤ f. At a torque a share θ of the way from one that is solved to another take the loads, the
// openings o, the places e of the ends, the couples of the faces and the leans ℓ of the gears on them to be that share of the way too. All conditions that are linear hold there. What is missed is that a strip has
// a load and an opening at once, an end doesn't stand where its load pushes it, or a gear leans while its face could take more: by no more than
//
//	θ(1−θ) G,  G = Σ (w₁o₂ + w₂o₁) + Σ (R₂ − R₁)·(e₂ − e₁) + Σ (f₁|ℓ₂| + f₂|ℓ₁| − M₁·ℓ₂ − M₂·ℓ₁)
//
// of energy, the gap between a problem and its dual. The loads that are sought store that much less at most, and a
// strip of width b stores w²/(2c b) at least. So that of a strip differs from the straight way by no more than √(2 c
// b θ(1−θ) G). Within one contact set, with the seats pushed one way, that is nothing. No torque is taken on trust.
//
// A torque of nothing is one of the two as well: no loads, the ends where they are at the other torque, the openings those of the gaps that this leaves. A mesh that is out of line from its making is another
// problem, with a ladder of its own.

// rungStep is how many places of the grid lie between two torques of the ladder that is solved for this.
const rungStep = 4

// rungsAbove is how many rungs above a torque one is looked for that is solved already.
const rungsAbove = 8

// mostUneven is K_Hβ when all load lies on a strip at an end, which is 5/12 of the others wide.
const mostUneven = 2.4 * (strips - 1)

// rung is how the load lies at one torque of the ladder.
type rung struct {
	scale float64   // the torque over that of the coupling
	loads []float64 // of all strips, N
	open  []float64 // by how much the flanks of a strip are apart, mm
	rests []rested  // as coupling.leaning
	foot  float64   // G from a torque of nothing, N·mm
	next  float64   // G up to the next rung, N·mm
	known bool      // whether it was asked already
	// The most that K_Hβ is from here up to the next rung, by mesh on the path; nil = not asked yet.
	uneven []float64
}

// rested is a gear in its seat at one torque.
type rested struct {
	ends   [2]point   // loads on them, N
	at     [2]point   // where they stand in their play, mm
	left   [2]float64 // the share of the play that loads so small leave them
	small  float64    // load below which they float, N
	lean   point      // rad
	face   float64    // couple that its thrust face can take, N·mm
	couple point      // and does take, N·mm
}

// rungTorque is the torque of a rung, N·mm; rungBelow the last rung that lies below a torque.
func rungTorque(n int) float64 { return gridTorque(n * rungStep) }
func rungBelow(torque float64) int {
	return int(math.Ceil(math.Log(torque)/(gridSpacing*rungStep)-1e-9)) - 1 // what is on a rung lies above the one before
}

// rung is one of the ladder of a making, solved once.
func (v *solver) rung(place int, as making) (*rung, error) {
	if r := v.solved(place, as); r != nil {
		return r, nil
	}
	s, err := v.find(rungTorque(place), as)
	if err != nil {
		return nil, err
	}
	c := v.fixed
	n, both := len(s.state), make([]float64, 2*len(s.state))
	r := &rung{scale: rungTorque(place) / math.Abs(c.engine), loads: both[:n:n], open: both[n:]}
	for k, x := range s.state {
		if s.set.Carries[k] != 0 {
			r.loads[k] = max(0, x)
		} else {
			r.open[k] = max(0, x)
		}
	}
	if len(s.seats) > 0 {
		r.rests = make([]rested, len(s.seats))
		for k := range r.rests {
			r.rests[k] = c.leaning[k].rested(r.scale, r.loads, s.seats[k])
		}
	}
	r.foot = c.fromNothing(r, as)
	v.ladders[as.place()].put(place, r)
	return r, nil
}

// solved is a rung that was solved; nil = it wasn't.
func (v *solver) solved(n int, as making) *rung {
	if v.ladders == nil {
		v.ladders = make([]shelf[*rung], len(v.fixed.trails))
	}
	r, _ := v.ladders[as.place()].get(n)
	return r
}

// rested is the gear in its seat under the loads on all strips.
func (l *leaning) rested(scale float64, loads []float64, seat seated) rested {
	r := rested{small: l.small * scale, lean: seat.lean, face: l.face * scale, couple: l.under(scale, loads).minus(seat.couple)}
	r.ends[0], r.ends[1] = l.seat.ends(l.force.scaled(scale), seat.couple)
	for i, load := range r.ends {
		r.left[i] = 1
		if size := math.Hypot(load.norm(), r.small); size > 0 {
			r.at[i], r.left[i] = load.scaled(l.seat.Clearance/2/size), r.small/size
		}
	}
	return r
}

// between is G of two torques, N·mm.
func (c *coupling) between(a, b *rung) (sum float64) {
	for k := range a.loads {
		sum += a.loads[k]*b.open[k] + b.loads[k]*a.open[k]
	}
	for k := range a.rests {
		from, to := &a.rests[k], &b.rests[k]
		for i := range from.ends {
			sum += max(0, to.ends[i].minus(from.ends[i]).dot(to.at[i].minus(from.at[i])))
			// An end that floats stands where its load and the least that counts push it.
			sum += c.leaning[k].seat.Clearance / 2 * math.Abs((to.small-from.small)*(to.left[i]-from.left[i]))
		}
		sum += max(0, from.face*to.lean.norm()+to.face*from.lean.norm()-from.couple.dot(to.lean)-to.couple.dot(from.lean))
	}
	return sum
}

// fromNothing is G of a torque of nothing and another.
func (c *coupling) fromNothing(r *rung, as making) (sum float64) {
	gap := slices.Clone(c.family.Gap(gapParameter))
	made := c.made(as)
	for k, g := range c.family.Gap(firstTilt + as.mesh) {
		gap[k] += made * g
	}
	for j := range r.rests {
		seat := &r.rests[j]
		lean := seat.at[1].minus(seat.at[0]).scaled(1 / c.leaning[j].seat.Length)
		c.leaning[j].open(lean, gap)
		sum += seat.face*lean.norm() - seat.couple.dot(lean)
	}
	for m := range c.steps {
		of := gap[m*strips : (m+1)*strips]
		closest := math.Inf(1)
		for _, g := range of {
			closest = min(closest, g)
		}
		for i, g := range of {
			sum += r.loads[m*strips+i] * (g - closest)
		}
	}
	return sum
}

// mostFactor is the most that K_Hβ of a mesh can be from a scale of torque up to that of the second of two rungs, or
// of one and a torque of nothing (a nil).
func (c *coupling) mostFactor(step int, a, b *rung, energy, from float64) float64 {
	mesh := &c.problem.Meshes[step]
	even, far := mesh.Force/mesh.Face, 0.0
	if a == nil {
		r := from / b.scale
		far = math.Sqrt((1-r)/r) / b.scale
	} else {
		far = 1 / (2 * math.Sqrt(a.scale*b.scale))
	}
	most := 1.0
	for i, width := range c.p.pairs[c.steps[step].mesh].widths {
		k := step*strips + i
		load := b.loads[k] / b.scale
		if a != nil {
			load = max(load, a.loads[k]/a.scale)
		}
		most = max(most, (load/width+math.Sqrt(2*mesh.Stiffness*energy/width)*far)/even)
	}
	return min(most, mostUneven)
}

// uneven is the most that K_Hβ of a mesh on the path is at any torque between two, N·mm, as it counts at one end of the bands; from 0 = at any up to the second. It makes do with the rungs that are
// solved unless it is told to solve more.
func (v *solver) uneven(step int, from, to float64, level material.Level, solve bool) (most float64, err error) {
	if from == 0 {
		return mostUneven, nil
	}
	if err := v.ready(); err != nil {
		return 0, err
	}
	if v.footing != nil {
		return v.unevenOnElements(step, rungBelow(from*(1+1e-9)), rungBelow(to)+1, level, solve)
	}
	if level == material.High || v.p.pairs[v.p.mesh[v.speed.Path[step]]].deviation == 0 {
		return v.unevenAs(step, from, to, making{}, solve)
	}
	for _, sign := range []float64{1, -1} {
		one, err := v.unevenAs(step, from, to, making{step, sign}, solve)
		if err != nil {
			return 0, err
		}
		most = max(most, one)
	}
	return most, nil
}

// unevenAs is the same for one making of the mesh.
func (v *solver) unevenAs(step int, from, to float64, as making, solve bool) (most float64, err error) {
	low, high := rungBelow(from*(1+1e-9)), rungBelow(to)+1
	if !solve {
		for n := high; n < high+rungsAbove; n++ {
			if v.solved(n, as) != nil {
				high = n
				break
			}
		}
	}
	above, err := v.rung(high, as)
	if err != nil {
		return 0, err
	}
	most = 1
	for n := high - 1; n >= low; n-- {
		below := v.solved(n, as)
		if below == nil {
			if !solve {
				return max(most, v.fixed.mostFactor(step, nil, above, above.foot, from/math.Abs(v.fixed.engine))), nil
			}
			if below, err = v.rung(n, as); err != nil {
				return 0, err
			}
		}
		if below.uneven == nil {
			energy, err := v.stretch(n, as)
			if err != nil {
				return 0, err
			}
			for m := range v.fixed.steps {
				below.uneven = append(below.uneven, v.fixed.mostFactor(m, below, above, energy, 0))
			}
		}
		most, above = max(most, below.uneven[step]), below
	}
	return most, nil
}

// unevenOnElements is the same where shafts stand on balls and rollers, whose energy isn't followed: between two rungs K_Hβ is taken to rise above both by no more than a share.
func (v *solver) unevenOnElements(step, low, high int, level material.Level, solve bool) (most float64, err error) {
	for n := low; n <= high; n++ {
		torque := rungTorque(n)
		if !solve && !v.recalls(step, torque, level) {
			return mostUneven, nil
		}
		k, err := v.factor(step, torque, level)
		if err != nil {
			return 0, err
		}
		most = max(most, k)
	}
	return min((1+bulges)*most, mostUneven), nil
}

// stretch is G of a rung and the next, N·mm.
func (v *solver) stretch(n int, as making) (float64, error) {
	if v.fixed == nil {
		return 0, nil
	}
	below, err := v.rung(n, as)
	if err != nil {
		return 0, err
	}
	if !below.known {
		above, err := v.rung(n+1, as)
		if err != nil {
			return 0, err
		}
		below.known, below.next = true, v.fixed.between(below, above)
	}
	return below.next, nil
}

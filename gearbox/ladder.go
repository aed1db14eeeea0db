package gearbox

import (
	"math"
	"slices"
)

// How uneven the load along a face can be between two torques follows from how it lies at both.
//
// The loads w of all strips are where shafts, teeth and seats store least energy: half of what the loads do on
// elastic parts, plus loads times gaps, plus the play of the ends of the seats (h|R|, half the clearance times the
// load on the end). At a torque a share θ of the way from one that is solved to another take the loads, the openings
// o and the places e of the ends to be that share of the way too. All conditions that are linear hold there. What is
// missed is that a strip has a load and an opening at once, or an end doesn't stand where its load pushes it: by
//
//	θ(1−θ) G,  G = Σ (w₁o₂ + w₂o₁) + Σ (R₂ − R₁)·(e₂ − e₁)
//
// of energy, the gap between a problem and its dual. The loads that are sought store that much less at most, and a
// strip of width b stores w²/(2c b) at least. So that of a strip differs from the straight way by no more than √(2 c
// b θ(1−θ) G). Within one contact set, with the seats pushed one way, that is nothing. No torque is taken on trust.
//
// A torque of nothing is one of the two as well: no loads, the ends where they are at the other torque, the openings
// those of the gaps that this leaves.

// rungStep is how many places of the grid lie between two torques of the ladder that is solved for this.
const rungStep = 4

// rungsAbove is how many rungs above a torque one is looked for that is solved already.
const rungsAbove = 4

// mostUneven is K_Hβ when all load lies on a strip at an end, which is 5/12 of the others wide.
const mostUneven = 2.4 * (strips - 1)

// rung is how the load lies at one torque of the ladder.
type rung struct {
	spread
	scale float64   // the torque over that of the coupling
	loads []float64 // of all strips, N
	ends  []point   // loads on the ends of the seats, N
	small []float64 // those below which they float, N
	foot  float64   // G from a torque of nothing, N·mm
	next  float64   // G up to the next rung, N·mm
	known bool      // whether it was asked already
	// The most that K_Hβ is from here up to the next rung, by mesh on the path; nil = not asked yet.
	uneven []float64
}

// rungTorque is the torque of a rung, N·mm; rungBelow the last rung that lies below a torque.
func rungTorque(n int) float64 { return gridTorque(n * rungStep) }
func rungBelow(torque float64) int {
	return int(math.Ceil(math.Log(torque)/(gridSpacing*rungStep)-1e-9)) - 1 // what is on a rung lies above the one before
}

// opening is by how much the flanks of a strip are apart, mm.
func (r *rung) opening(k int) float64 {
	if r.set.Carries[k] {
		return 0
	}
	return max(0, r.state[k])
}

// rung is one of the ladder, solved once.
func (v *solver) rung(n int) (*rung, error) {
	if r, ok := v.ladder[n]; ok {
		return r, nil
	}
	s, err := v.spread(rungTorque(n))
	if err != nil {
		return nil, err
	}
	c := v.fixed
	r := &rung{scale: rungTorque(n) / math.Abs(c.engine), loads: make([]float64, len(s.state))}
	r.copyFrom(s)
	for k := range r.loads {
		r.loads[k] = s.load(k)
	}
	for i := range c.ends {
		small := 0.0
		for _, w := range r.loads[c.ends[i].from:c.ends[i].to] {
			small += floats * w
		}
		r.ends, r.small = append(r.ends, c.ends[i].under(r.loads)), append(r.small, small)
	}
	r.foot = c.fromNothing(r)
	if v.ladder == nil {
		v.ladder = map[int]*rung{}
	}
	v.ladder[n] = r
	return r, nil
}

// played is where an end of a seat stands in its play, mm, and the share of the play that a load so small leaves it.
func (r *rung) played(c *coupling, end int) (at point, left float64) {
	size := math.Hypot(r.ends[end].norm(), r.small[end])
	if size == 0 {
		return point{}, 1
	}
	return r.ends[end].scaled(c.ends[end].seat.Clearance / 2 / size), r.small[end] / size
}

// between is G of two torques, N·mm.
func (c *coupling) between(a, b *rung) (sum float64) {
	for k := range a.loads {
		sum += a.loads[k]*b.opening(k) + b.loads[k]*a.opening(k)
	}
	for i := range a.ends {
		at, leftA := a.played(c, i)
		to, leftB := b.played(c, i)
		sum += max(0, b.ends[i].minus(a.ends[i]).dot(to.minus(at)))
		// An end that floats stands where its load and the least that counts push it.
		sum += c.ends[i].seat.Clearance / 2 * math.Abs((b.small[i]-a.small[i])*(leftB-leftA))
	}
	return sum
}

// fromNothing is G of a torque of nothing and another.
func (c *coupling) fromNothing(r *rung) (sum float64) {
	gap := slices.Clone(c.family.Gap(gapParameter))
	for j := range c.seated {
		at, _ := r.played(c, 2*j)
		to, _ := r.played(c, 2*j+1)
		lean := to.minus(at).scaled(1 / c.ends[2*j].seat.Length)
		for plane, slope := range lean {
			for k, g := range c.family.Gap(firstLean + 2*j + plane) {
				gap[k] += slope * g
			}
		}
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

// uneven is the most that K_Hβ of a mesh on the path is at any torque between two, N·mm; from 0 = at any up to the
// second. It makes do with the rungs that are solved unless it is told to solve more.
func (v *solver) uneven(step int, from, to float64, solve bool) (most float64, err error) {
	if from == 0 {
		return mostUneven, nil
	}
	if err := v.ready(); err != nil {
		return 0, err
	}
	low, high := rungBelow(from*(1+1e-9)), rungBelow(to)+1
	if v.footing != nil {
		return v.unevenOnElements(step, low, high, solve)
	}
	if !solve {
		for n := high; n < high+rungsAbove; n++ {
			if v.ladder[n] != nil {
				high = n
				break
			}
		}
	}
	above, err := v.rung(high)
	if err != nil {
		return 0, err
	}
	most = 1
	for n := high - 1; n >= low; n-- {
		below := v.ladder[n]
		if below == nil {
			if !solve {
				return max(most, v.fixed.mostFactor(step, nil, above, above.foot, from/math.Abs(v.fixed.engine))), nil
			}
			if below, err = v.rung(n); err != nil {
				return 0, err
			}
		}
		if below.uneven == nil {
			energy, err := v.stretch(n)
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

// unevenOnElements is the same where shafts stand on balls and rollers, whose energy isn't followed: between two
// rungs K_Hβ is taken to rise above both by no more than a share.
func (v *solver) unevenOnElements(step, low, high int, solve bool) (most float64, err error) {
	for n := low; n <= high; n++ {
		torque := rungTorque(n)
		if _, ok := v.known[torque]; !ok && !solve {
			return mostUneven, nil
		}
		k, err := v.factor(step, torque)
		if err != nil {
			return 0, err
		}
		most = max(most, k)
	}
	return min((1+bulges)*most, mostUneven), nil
}

// stretch is G of a rung and the next, N·mm.
func (v *solver) stretch(n int) (float64, error) {
	if v.fixed == nil {
		return 0, nil
	}
	below, err := v.rung(n)
	if err != nil {
		return 0, err
	}
	if !below.known {
		above, err := v.rung(n + 1)
		if err != nil {
			return 0, err
		}
		below.known, below.next = true, v.fixed.between(below, above)
	}
	return below.next, nil
}

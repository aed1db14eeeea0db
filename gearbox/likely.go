package gearbox

import (
	"fmt"
	"math"
	"slices"
)

// What each number of a file says may be sound, and the box they make still not be the one that was meant.

// farthest is by how much the ratio of a speed may lie beyond those of all others and be believed; common practice, no source.
const farthest = 2.5

// Faces narrower or wider than so many modules are hardly made for gearboxes; common practice, no source.
const leastFace, mostFace = 2.5, 25

// checkLikely asks about a box as a whole.
func (p *prepared) checkLikely() {
	p.checkLocked()
	p.checkRatios()
	p.checkFaceWidths()
	p.checkSlopes()
	p.checkHubs()
	p.checkRules()
	for i := range p.box.Shafts {
		p.checkEnds(i)
		p.checkSpigot(i)
	}
}

// checkRatios asks about a forward speed whose ratio stands out of the order of the others, as where teeth of a pair were swapped. Speeds in no order at all are let be.
func (p *prepared) checkRatios() {
	var speeds []int
	var ratios []float64
	forward := p.forward()
	for i, s := range p.box.Speeds {
		if r := p.speedRatio(s) * forward; r > 0 {
			speeds, ratios = append(speeds, i), append(ratios, r)
		}
	}
	if len(ratios) < 3 || inOrder(ratios) {
		return
	}
	odd, swapped, otherwise := -1, -1, 0.0
	for k := range ratios {
		others := slices.Delete(slices.Clone(ratios), k, k+1)
		if !inOrder(others) {
			continue
		}
		if odd < 0 {
			odd = k
		}
		// Of several that may be the odd one it is rather the one that swapped teeth would put in its place.
		for _, name := range p.box.Speeds[speeds[k]].Path {
			u := p.ratio(p.mesh[name])
			try := slices.Clone(ratios)
			try[k] *= u * u
			near := try[k] > slices.Min(others)/farthest && try[k] < slices.Max(others)*farthest
			if swapped < 0 && near && !p.always(p.mesh[name]) && inOrder(try) {
				odd, swapped, otherwise = k, p.mesh[name], try[k]
			}
		}
	}
	if odd < 0 {
		return
	}
	s := p.box.Speeds[speeds[odd]]
	beside := func(k int) string { return fmt.Sprintf("%.4g of %q", ratios[k], p.box.Speeds[speeds[k]].Name) }
	near := []string{}
	for _, k := range []int{odd - 1, odd + 1} {
		if k >= 0 && k < len(ratios) {
			near = append(near, beside(k))
		}
	}
	advice := ""
	if swapped >= 0 {
		m := p.box.Meshes[swapped]
		advice = fmt.Sprintf("With the teeth of %q and %q the other way round it would be %.4g. ", m.Driver, m.Driven, otherwise)
	}
	p.warn(path("speeds", s.Name), "a ratio out of order", "Speed %q has a ratio of %.4g, beside %s: without it the ratios of the forward speeds rise or fall in the order of the file. %sCount the teeth of its gears again, or check the order of the speeds.",
		s.Name, ratios[odd], joined(near), advice)
}

// speedRatio is turns of the input per turn of the output, negative where they turn opposite ways. It wants no teeth that can run together.
func (p *prepared) speedRatio(s Speed) float64 {
	r := 1.0
	for _, name := range s.Path {
		r /= p.ratio(p.mesh[name])
	}
	return r
}

// forward is the sign of the ratio of most speeds, of as many either way that of the first.
func (p *prepared) forward() float64 {
	balance := 0.5
	for i, s := range p.box.Speeds {
		sign := math.Copysign(1, p.speedRatio(s))
		if i == 0 {
			balance = math.Copysign(balance, sign)
		}
		balance += sign
	}
	return math.Copysign(1, balance)
}

// inOrder reports whether numbers only rise or only fall.
func inOrder(v []float64) bool {
	rises, falls := true, true
	for k := 1; k < len(v); k++ {
		rises, falls = rises && v[k] >= v[k-1], falls && v[k] <= v[k-1]
	}
	return rises || falls
}

// checkFaceWidths asks about faces that are narrow or wide for their module.
func (p *prepared) checkFaceWidths() {
	told := map[int]bool{}
	for i, m := range p.box.Meshes {
		for _, g := range p.pairs[i].gears {
			gear := p.box.Gears[g]
			modules := gear.Face / m.Module
			if told[g] || modules >= leastFace && modules <= mostFace {
				continue
			}
			told[g] = true
			p.warn(path("gears", gear.Name, "face"), "an unusual face", "The face of gear %q is %.4g mm, %.2g times its module of %.4g mm; %g to %g times is usual. Check the face, the module and their units.",
				gear.Name, gear.Face, modules, m.Module, leastFace, float64(mostFace))
		}
	}
}

// steepest is the slope that a bearing that doesn't align itself may bear, rad; common practice, no source.
const steepest = 0.010

// checkSlopes asks about a limit of the slope that is one of a self-aligning bearing.
func (p *prepared) checkSlopes() {
	for _, s := range p.box.Shafts {
		for _, br := range s.Bearings {
			if br.SlopeLimit > steepest && br.Type != SelfAligning {
				p.warn(path("shafts", s.Name, "bearings", br.Name, "slope_limit"), "a large slope", "Bearing %q of shaft %q may slope by %.3g mrad by the file; a %s bearing bears a few, at most %.3g mrad are usual. Check the number and its unit.",
					br.Name, s.Name, br.SlopeLimit*1e3, br.Type, steepest*1e3)
			}
		}
	}
}

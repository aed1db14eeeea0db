package gauge

import (
	"cmp"
	"math"
	"slices"
)

// Label is a set of tool data that fits the readings of gears that mesh.
type Label struct {
	Tool
	Helix    Value // β at the reference cylinder, rad; without ± where it was held to a whole or half degree
	Around   Value // what the readings alone make of the helix under this tool, rad
	Snapped  bool  // the helix is held
	Gears    []Labelled
	Residual []Residual // of every reading
	Growth   float64    // –, by how much the sum of squared misfits is larger than with the flank free; over a label without helix where the flank is not fixed
	order    float64    // Growth, how far tip and root lie from a full tooth, and how unusual the tool is
	fit      fit
	u        *unknowns
}

// Labelled is one gear under a label.
type Labelled struct {
	Bare     bool  // nothing was read of the thickness of its teeth: there is no more to say of it
	Shift    Value // profile shift x of the full tooth, in modules: that from which backlash is taken
	Cut      Value // generating profile shift of the tooth as it is, in modules
	Thinning Value // taken off each tooth for backlash, in the normal section, mm: half of what the pair has
	Addendum Value // h_a of the tool that this tip would need, in modules; 0 where no tip was read
	Dedendum Value // likewise of the root
}

// Residual is what a reading says beyond what the label makes.
type Residual struct {
	Gear, Pair, Centre int // of the whole set; -1 = none of them
	Reading            Reading
	Made               float64 // mm or rad
}

// Off is the reading less what is made, mm or rad.
func (r Residual) Off() float64 { return r.Reading.Value - r.Made }

// Share is Off in units of the ± of the reading.
func (r Residual) Share() float64 { return r.Off() / r.Reading.Width() }

// How much the sum of squares may grow when one thing is held, or two: 999 of 1000 true labels keep within (χ² of one
// and two degrees of freedom).
const (
	growOne = 10.828
	growTwo = 13.816
)

// The steps of helix that are tried, and how many of them at the most.
const (
	halfDegree = 0.5 * degree
	mostSteps  = 13
)

// How far a tip and a root lie from those of a full tooth, addendum 1 and dedendum 1.25 modules, usually and at the
// most, in modules. Common practice, no source: tips are
// shortened for clearance and lose their edges, roots are cut by tools of 1.157 to 1.4.
const (
	fullAddendum, usualAddendum         = 1.0, 0.06
	shortestAddendum, longestAddendum   = 0.6, 1.5
	fullDedendum, usualDedendum         = 1.25, 0.1
	shallowestDedendum, deepestDedendum = 0.9, 1.7
	steepest                            = 45 * degree
	leastShift, mostShift               = -1.0, 1.5
	leastUsualShift, mostUsualShift     = -0.3, 0.6
	shiftStep                           = 0.2 // beyond them by this much is as unlikely as one standard uncertainty
)

// labels are the labels that fit one group, best first. free is the group with its flank free, nil when the readings
// do not fix it.
func labels(u *unknowns, s Set, free *fit) []Label {
	var all []Label
	least := 0.0
	if free != nil {
		least = free.square
	}
	for _, tool := range Tools {
		if free != nil {
			at := u.pitch[0]
			off := (tool.basePitch() - free.v[at]) / math.Sqrt(free.spread[at][at])
			if off*off > 2*growOne+20 { // far beyond what can be kept: the search is spared
				continue
			}
		} else if r := tool.basePitch() / u.start[u.pitch[0]]; r < 0.8 || r > 1.25 {
			continue
		}
		loose, ok := u.hold(tool, -1)
		if !ok || loose.square-least > growOne && free != nil {
			continue
		}
		all = append(all, u.under(s, tool, loose, false, loose.square-least))
		if u.helix[0] < 0 {
			continue
		}
		helix := all[len(all)-1].Helix
		middle := math.Round(helix.Value/halfDegree) * halfDegree
		reach := helix.Tolerance*2 + halfDegree/2
		for step := -mostSteps / 2; step <= mostSteps/2; step++ {
			beta := middle + float64(step)*halfDegree
			if math.Abs(beta-helix.Value) > reach || beta <= 0 || beta > steepest {
				continue
			}
			held, ok := u.hold(tool, beta)
			if ok && held.square-least <= growTwo {
				l := u.under(s, tool, held, true, held.square-least)
				l.Around = helix
				all = append(all, l)
			}
		}
	}
	all = slices.DeleteFunc(all, func(l Label) bool { return !l.plausible() })
	slices.SortStableFunc(all, func(a, b Label) int { return cmp.Compare(a.order, b.order) })
	return all
}

// hold meets the readings with the base pitch, and a helix (rad) unless it is negative, held to those of a tool.
func (u *unknowns) hold(tool Tool, helix float64) (f fit, ok bool) {
	v := slices.Clone(u.start)
	at := u.pitch[0]
	for i := range u.thick { // the spans tell the thickness at this pitch
		v[u.thick[i]] *= tool.basePitch() / v[at]
	}
	v[at] = tool.basePitch()
	held := []int{at}
	if helix >= 0 && u.helix[0] >= 0 {
		v[u.helix[0]] = math.Asin(math.Sin(helix) * math.Cos(tool.PressureAngle))
		held = append(held, u.helix[0])
	}
	f = solve(u.rows, v, u.scale, u.freeBut(held))
	return f, f.spread != nil && !math.IsInf(f.square, 1)
}

// freeBut are all unknowns but those held, and thicknesses of which nothing was read.
func (u *unknowns) freeBut(held []int) (free []int) {
	for i, bare := range u.bare {
		if bare {
			held = append(held, u.thick[i])
		}
	}
	for k := range u.start {
		if !slices.Contains(held, k) {
			free = append(free, k)
		}
	}
	return free
}

// under works out what a label says of each gear and reading.
func (u *unknowns) under(s Set, tool Tool, f fit, snapped bool, growth float64) Label {
	l := Label{Tool: tool, Snapped: snapped, Growth: max(0, growth), fit: f, u: u}
	l.order = l.Growth + tool.Rare
	if at := u.helix[0]; at >= 0 {
		l.Helix = f.value(func(v []float64) float64 {
			return math.Asin(min(1,
				math.Sin(v[at])/math.Cos(tool.PressureAngle)))
		}, []int{at}, u.scale)
		if snapped {
			l.Helix = Value{Value: math.Round(l.Helix.Value/halfDegree) * halfDegree}
			if math.Abs(math.Mod(l.Helix.Value/degree+0.25, 1)-0.25) > 0.1 {
				l.order++ // half a degree is rarer than a whole one; common practice, no source
			}
		} else {
			l.Around = l.Helix
			l.order += 4 // a helix between the half degrees
		}
	}
	for i := range u.gears {
		l.Gears = append(l.Gears, u.labelled(s, tool, f, i))
		g := l.Gears[i]
		if !g.Bare {
			over := max(0, leastUsualShift-g.Shift.Value, g.Shift.Value-mostUsualShift) / shiftStep
			l.order += over * over
		}
		l.order += beyond(g.Addendum, fullAddendum, usualAddendum) + beyond(g.Dedendum, fullDedendum, usualDedendum)
	}
	for k, r := range u.rows {
		from := u.readings[k]
		l.Residual = append(l.Residual, Residual{from.gear, from.pair, from.centre, from.reading, r.f(f.v)})
	}
	return l
}

// beyond is the squared misfit of a height of tooth against that of a full one; 0 when it wasn't read.
func beyond(v Value, full, usual float64) float64 {
	if v.Value == 0 {
		return 0
	}
	off := v.Value - full
	return off * off / (usual*usual + v.Tolerance*v.Tolerance/(wide*wide))
}

// labelled is what a tool says of gear i.
func (u *unknowns) labelled(s Set, tool Tool, f fit, i int) Labelled {
	l := Labelled{Bare: u.bare[i]}
	if l.Bare {
		return l
	}
	tan := math.Tan(tool.PressureAngle)
	cut := func(v []float64) float64 { _, x := u.flank(v, i).label(tool.PressureAngle); return x }
	thinning := func(v []float64) float64 { return 0 }
	of := u.ofFlank(i)
	for _, p := range s.Pairs {
		if (p.Gears[0] != i && p.Gears[1] != i) || p.Centre < 0 || s.Centres[p.Centre].Reading.Value <= 0 || u.bare[p.Gears[0]] || u.bare[p.Gears[1]] {
			continue
		}
		// At the distance as it was read, since that is what a box file says.
		centre := s.Centres[p.Centre].Reading.Value
		thinning = func(v []float64) float64 {
			m := u.mesh(v, p)
			working := m.working(centre)
			if normal := m.backlash(centre) * math.Cos(working) * math.Cos(m.driver.helix); normal > 0 {
				return normal / (2 * math.Cos(tool.PressureAngle))
			}
			return 0
		}
		of = append(u.ofFlank(p.Gears[0]), u.thick[p.Gears[1]])
		break
	}
	full := func(v []float64) float64 { return cut(v) + thinning(v)/(2*tool.Module*tan) }
	l.Cut = f.value(cut, u.ofFlank(i), u.scale)
	l.Thinning = f.value(thinning, of, u.scale)
	l.Shift = f.value(full, of, u.scale)
	if t := l.Thinning.Value; t > 0 {
		// One gear may have all of it, the other none.
		l.Shift.Tolerance = math.Hypot(l.Shift.Tolerance, t/(2*tool.Module*tan))
		l.Thinning.Tolerance = math.Hypot(l.Thinning.Tolerance, t)
	}
	height := func(at int, sign float64) Value {
		if at < 0 {
			return Value{}
		}
		return f.value(func(v []float64) float64 {
			g, _ := u.flank(v, i).label(tool.PressureAngle)
			d := float64(g.Teeth) * g.Module / math.Cos(g.Helix)
			return sign*(v[at]-d)/(2*g.Module) - sign*full(v)
		}, append(slices.Clone(of), at), u.scale)
	}
	l.Addendum, l.Dedendum = height(u.tip[i], 1), height(u.root[i], -1)
	return l
}

// plausible reports whether teeth are cut like that.
func (l Label) plausible() bool {
	if l.Helix.Value > steepest*1.1 {
		return false
	}
	for _, g := range l.Gears {
		if g.Bare {
			continue
		}
		a, d := g.Addendum, g.Dedendum
		switch {
		case g.Shift.Value+g.Shift.Tolerance < leastShift, g.Shift.Value-g.Shift.Tolerance > mostShift:
			return false
		case a.Value != 0 && (a.Value+a.Tolerance < shortestAddendum || a.Value-a.Tolerance > longestAddendum):
			return false
		case d.Value != 0 && (d.Value+d.Tolerance < shallowestDedendum || d.Value-d.Tolerance > deepestDedendum):
			return false
		}
	}
	return true
}

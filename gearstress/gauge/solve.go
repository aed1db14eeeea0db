package gauge

import (
	"errors"
	"fmt"
	"math"
)

// Result is what the readings of a set say.
type Result struct {
	Set    Set     // with the readings put aside marked
	Groups []Group // gears that mesh, in the order of their first gear
	Closes []Close // of each pair on a measured centre distance whose label is known
	Notes  []Note
}

// Group is gears that mesh, which have one base pitch and one base helix.
type Group struct {
	Gears     []int // places in Set.Gears
	Spur      bool
	Fixed     bool  // the readings fix the flank; otherwise Missing says what they lack, and the values of the flank are zero
	BasePitch Value // p_bn, mm
	BaseHelix Value // β_b, rad
	Flanks    []Flank
	Labels    []Label // best first
	Others    []Name  // the flank of the best label, named by other pressure angles
	Twins     []Twin  // labels of other tools that the readings can't exclude
	Missing   []Note
}

// Flank is what the readings fix of one gear.
type Flank struct {
	Base      Value // d_b, mm
	Thickness Value // s_b along the base circle, mm; 0 where nothing was read of it
	Tip, Root Value // d_a and d_f, mm; 0 where not read
}

// Name is one of the names of a flank.
type Name struct {
	Module, PressureAngle, Helix float64   // mm, rad, rad
	Shift                        []float64 // by gear, of the tooth as it is, –
}

// Close is how a pair closes on the centre distance that was measured.
type Close struct {
	Pair     int
	Backlash Value // along the working circle at the measured distance by the spans alone, mm
	Own      Value // the centre distance at which the pair has its backlash, mm
	Assumed  bool  // the backlash was not read: the usual one is taken
}

// Usual backlash along the pitch circle of gearbox gears, mm: the middle and how far it goes to each side. Common
// practice, no source.
const usualBacklash, backlashReach = 0.12, 0.10

// Limits of what is read; beyond them a slip of the pen is likelier.
const (
	leastTeeth, mostTeeth = 5, 500
	mostGears             = 60
	mostRead              = 1e5 // mm; a lead may be metres long
)

// Solve finds the flanks of a set and the labels that fit them. What is impossible in the set alone is an error;
// readings that the flank shows to be impossible are
// put aside, with the reason in the notes.
func Solve(s Set) (*Result, error) {
	if err := s.validate(); err != nil {
		return nil, err
	}
	s = s.clone()
	r := &Result{Set: s}
	s.lackTips(r)
	whole := arrangeGroups(s)
	for _, members := range whole {
		r.Groups = append(r.Groups, r.group(members))
	}
	for i := range s.Pairs {
		r.close(i)
	}
	return r, nil
}

// clone is a set whose readings may be marked.
func (s Set) clone() Set {
	gears := make([]Gear, len(s.Gears))
	for i, g := range s.Gears {
		g.Readings = append([]Reading(nil), g.Readings...)
		gears[i] = g
	}
	s.Gears = gears
	s.Pairs, s.Centres = append([]Pair(nil), s.Pairs...), append([]Centre(nil), s.Centres...)
	return s
}

func (s Set) validate() error {
	var errs []error
	bad := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	if n := len(s.Gears); n == 0 || n > mostGears {
		bad("there are %d gears; expected 1 to %d, those of one box", n, mostGears)
	}
	for _, g := range s.Gears {
		if g.Teeth < leastTeeth || g.Teeth > mostTeeth {
			bad("%s has %d teeth; expected %d to %d", g.Name, g.Teeth, leastTeeth, mostTeeth)
		}
		for _, r := range g.Readings {
			switch {
			case !(r.Value > 0 && r.Value < mostRead) || !(r.Tolerance >= 0):
				bad("%s: %s of %v ± %v; expected more than 0", g.Name, r.Name(), r.Value, r.Tolerance)
			case r.Kind == TipHelix && r.Value > 60*degree:
				bad("%s: a helix of %.4g° at the tips; expected up to 60°", g.Name, r.Value/degree)
			case r.Kind == Span && (r.Teeth < 1 || r.Teeth > g.Teeth/2):
				bad("%s: a span over %d of %d teeth; expected 1 to half of them", g.Name, r.Teeth, g.Teeth)
			case (r.Kind == OverBalls || r.Kind == Chord) && !(r.Size > 0):
				bad("%s: %s needs their size", g.Name, r.Kind)
			case g.Spur && (r.Kind == TipHelix || r.Kind == Lead):
				bad("%s is called a spur gear, but a helix was read", g.Name)
			case r.Kind == Distance || r.Kind == Backlash:
				bad("%s: a %s belongs to a pair", g.Name, r.Kind)
			}
		}
	}
	for _, p := range s.Pairs {
		for _, g := range p.Gears {
			if g < 0 || g >= len(s.Gears) {
				bad("pair %s names no gear", p.Name)
			}
		}
		if p.Gears[0] == p.Gears[1] || p.Centre >= len(s.Centres) {
			bad("pair %s needs two gears and a centre distance of the set", p.Name)
		}
	}
	return errors.Join(errs...)
}

// arrangeGroups lists the gears of each group.
func arrangeGroups(s Set) (groups [][]int) {
	var u unknowns
	u.joinGroups(s)
	for i, g := range u.group {
		if g == len(groups) {
			groups = append(groups, nil)
		}
		groups[g] = append(groups[g], i)
	}
	return groups
}

// part is the set of some gears, and where its gears, pairs and centres stand in the whole.
func (s Set) part(members []int) (sub Set, gears, pairs, centres []int) {
	place, at := map[int]int{}, map[int]int{}
	for _, i := range members {
		place[i] = len(sub.Gears)
		sub.Gears, gears = append(sub.Gears, s.Gears[i]), append(gears, i)
	}
	for i, p := range s.Pairs {
		driver, ok := place[p.Gears[0]]
		if !ok {
			continue
		}
		p.Gears = [2]int{driver, place[p.Gears[1]]}
		if p.Centre >= 0 {
			c, seen := at[p.Centre]
			if !seen {
				c = len(sub.Centres)
				at[p.Centre] = c
				sub.Centres, centres = append(sub.Centres, s.Centres[p.Centre]), append(centres, p.Centre)
			}
			p.Centre = c
		}
		sub.Pairs, pairs = append(sub.Pairs, p), append(pairs, i)
	}
	return sub, gears, pairs, centres
}

// hardlyFixed is from which share of the base pitch on its ± tells nothing, and from which base helix (rad).
const hardlyFixed, hardlyHelix = 0.02, 6 * degree

// group works out one group.
func (r *Result) group(members []int) Group {
	g := Group{Gears: members}
	sub, gears, pairs, centres := r.Set.part(members)
	u := arrange(sub)
	free := solve(u.rows, u.start, u.scale, u.freeBut(nil))
	if r.putAside(u, sub, free, members) {
		return r.group(members)
	}
	g.Spur = u.helix[0] < 0
	g.Fixed = free.spread != nil && !math.IsInf(free.square,
		1) && wide*math.Sqrt(free.spread[u.pitch[0]][u.pitch[0]]) < hardlyFixed*free.v[u.pitch[0]] &&
		(g.Spur || wide*math.Sqrt(free.spread[u.helix[0]][u.helix[0]]) < hardlyHelix)
	if g.Fixed {
		r.flanks(&g, u, free)
		g.Labels = labels(u, sub, &free)
		r.contradictions(u, free, members)
	} else {
		g.Missing = missing(u, sub, free)
		g.Labels = labels(u, sub, nil)
	}
	for i := range g.Labels {
		for k, res := range g.Labels[i].Residual {
			g.Labels[i].Residual[k].Gear, g.Labels[i].Residual[k].Pair,
				g.Labels[i].Residual[k].Centre = whole(res.Gear, gears), whole(res.Pair, pairs), whole(res.Centre, centres)
		}
	}
	if len(g.Labels) > 0 {
		g.Others = g.Labels[0].names()
		g.Twins = twins(g.Labels, sub, members)
	}
	r.remarks(g, u)
	return g
}

// whole is the place in the whole set of place i of a part.
func whole(i int, of []int) int {
	if i < 0 {
		return -1
	}
	return of[i]
}

// flanks writes down what the readings fix.
func (r *Result) flanks(g *Group, u *unknowns, f fit) {
	one := func(at int) Value {
		if at < 0 {
			return Value{}
		}
		return f.value(func(v []float64) float64 { return v[at] }, []int{at}, u.scale)
	}
	g.BasePitch, g.BaseHelix = one(u.pitch[0]), one(u.helix[0])
	for i := range u.gears {
		of := u.ofFlank(i)
		flank := Flank{Base: f.value(func(v []float64) float64 { return u.flank(v, i).base() }, of, u.scale),
			Tip: one(u.tip[i]), Root: one(u.root[i])}
		if !u.bare[i] {
			flank.Thickness = f.value(func(v []float64) float64 { return u.flank(v, i).transverseThick() }, of, u.scale)
		}
		g.Flanks = append(g.Flanks, flank)
	}
}

// names are the flank of a label by the names that other pressure angles give it.
func (l Label) names() (all []Name) {
	for _, a := range angles {
		if a.angle == l.PressureAngle {
			continue
		}
		n := Name{PressureAngle: a.angle}
		for i := range l.u.gears {
			g, x := l.u.flank(l.fit.v, i).label(a.angle)
			n.Module, n.Helix = g.Module, g.Helix
			n.Shift = append(n.Shift, x)
		}
		all = append(all, n)
	}
	return all
}

// close works out how pair i closes on its centre distance by the best label of its gears: the spans and the rest of
// each gear alone, without what the centre distance says of them.
func (r *Result) close(i int) {
	p := r.Set.Pairs[i]
	if p.Centre < 0 || r.Set.Centres[p.Centre].Reading.Value <= 0 {
		return
	}
	for _, g := range r.Groups {
		sub, _, pairs, _ := r.Set.part(g.Gears)
		for k, at := range pairs {
			if at != i || len(g.Labels) == 0 {
				continue
			}
			measured := sub.Centres[sub.Pairs[k].Centre].Reading
			alone := sub.clone()
			for c := range alone.Centres {
				alone.Centres[c].Reading = Reading{}
			}
			u := arrange(alone)
			if pair := sub.Pairs[k]; u.bare[pair.Gears[0]] || u.bare[pair.Gears[1]] {
				return
			}
			helix := -1.0
			if l := g.Labels[0]; l.Snapped || l.Helix.Tolerance > 0 {
				helix = l.Helix.Value
			}
			f, ok := u.hold(g.Labels[0].Tool, helix)
			if !ok {
				return
			}
			j, reach, assumed := p.Backlash.Value, p.Backlash.Width(), false
			if j <= 0 {
				j, reach, assumed = usualBacklash, backlashReach, true
			}
			pair := sub.Pairs[k]
			of := append(u.ofFlank(pair.Gears[0]), u.thick[pair.Gears[1]])
			c := Close{Pair: i, Assumed: assumed,
				Backlash: f.value(func(v []float64) float64 { return u.mesh(v, pair).backlash(measured.Value) }, of, u.scale),
				Own:      f.value(func(v []float64) float64 { return u.mesh(v, pair).centre(j) }, of, u.scale)}
			if math.IsNaN(c.Own.Value) || math.IsNaN(c.Backlash.Value) {
				return
			}
			working := u.mesh(f.v, pair).working(c.Own.Value)
			c.Own.Tolerance = math.Hypot(c.Own.Tolerance, reach/(2*math.Tan(working)))
			c.Backlash.Tolerance = math.Hypot(c.Backlash.Tolerance, measured.Width()*2*math.Tan(working))
			r.Closes = append(r.Closes, c)
			r.closing(c, measured)
		}
	}
}

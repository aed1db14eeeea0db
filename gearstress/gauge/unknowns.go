package gauge

import (
	"math"

	"layshaft/gearstress/involute"
)

// unknowns says where in the list of unknowns each quantity of a set stands; -1 where it isn't one.
type unknowns struct {
	group            []int // of each gear, in the order of its first gear
	pitch, helix     []int // by group
	thick, tip, root []int // by gear
	centre           []int // by centre
	gears            []Gear
	start, scale     []float64
	rows             []row
	readings         []source // of each row
	spurs            []bool   // by group
	bare             []bool   // by gear: nothing was read of the thickness of its teeth, which is then no unknown
}

// source says which reading a row is.
type source struct {
	gear, pair, centre int // -1 = none of them
	reading            Reading
}

// arrange numbers the unknowns of a set and makes a row of every reading that counts. Gears that mesh are one group.
func arrange(s Set) *unknowns {
	u := &unknowns{gears: s.Gears}
	u.joinGroups(s)
	u.findBare(s)
	groups := 0
	for _, g := range u.group {
		groups = max(groups, g+1)
	}
	u.spurs = make([]bool, groups)
	for i, g := range s.Gears {
		u.spurs[u.group[i]] = u.spurs[u.group[i]] || g.Spur
	}
	for g := range groups {
		pitch, helix := u.guess(s, g)
		u.pitch = append(u.pitch, u.add(pitch, pitch))
		if u.spurs[g] {
			u.helix = append(u.helix, -1)
		} else {
			u.helix = append(u.helix, u.add(helix, 0.3))
		}
	}
	for i, g := range s.Gears {
		pitch := u.start[u.pitch[u.group[i]]]
		thick := involute.Gauge{Module: pitch / (math.Pi * math.Cos(20*degree)), PressureAngle: 20 * degree, Teeth: g.Teeth}.Span(1, 0.1)
		tip, root := -1, -1
		for _, r := range g.Readings {
			switch {
			case r.Aside != "":
			case r.Kind == Span:
				thick = r.Value - float64(r.Teeth-1)*pitch
			case r.Kind == Tip:
				tip = u.once(tip, r.Value, pitch)
			case r.Kind == TipToRoot, r.Kind == Depth:
				d := pitch / math.Pi * float64(g.Teeth+2)
				tip, root = u.once(tip, d, pitch), u.once(root, d-1.5*pitch, pitch)
			case r.Kind == Root:
				root = u.once(root, r.Value, pitch)
			}
		}
		u.thick = append(u.thick, u.add(thick, pitch))
		u.tip, u.root = append(u.tip, tip), append(u.root, root)
	}
	for _, c := range s.Centres {
		at := -1
		if c.Reading.Value > 0 && c.Reading.Aside == "" {
			at = u.add(c.Reading.Value, 1)
		}
		u.centre = append(u.centre, at)
	}
	u.measure(s)
	return u
}

// joinGroups gives gears that mesh one number.
func (u *unknowns) joinGroups(s Set) {
	u.group = make([]int, len(s.Gears))
	for i := range u.group {
		u.group[i] = i
	}
	for range s.Pairs { // each turn hands the least number on by one mesh at least
		for _, p := range s.Pairs {
			least := min(u.group[p.Gears[0]], u.group[p.Gears[1]])
			u.group[p.Gears[0]], u.group[p.Gears[1]] = least, least
		}
	}
	number := map[int]int{}
	for i, g := range u.group {
		if _, ok := number[g]; !ok {
			number[g] = len(number)
		}
		u.group[i] = number[g]
	}
}

// findBare finds the gears of whose thickness nothing was read: no span, no balls, no chord, and no backlash against
// a gear that has one of them.
func (u *unknowns) findBare(s Set) {
	own := make([]bool, len(s.Gears))
	for i, g := range s.Gears {
		for _, r := range g.Readings {
			own[i] = own[i] || r.Aside == "" && (r.Kind == Span || r.Kind == OverBalls || r.Kind == Chord)
		}
	}
	u.bare = make([]bool, len(s.Gears))
	for i := range own {
		u.bare[i] = !own[i]
	}
	for _, p := range s.Pairs {
		if p.Backlash.Value <= 0 || p.Centre < 0 || s.Centres[p.Centre].Reading.Value <= 0 {
			continue
		}
		for k, i := range p.Gears {
			if own[p.Gears[1-k]] {
				u.bare[i] = false
			}
		}
	}
}

func (u *unknowns) add(start, scale float64) int {
	u.start, u.scale = append(u.start, start), append(u.scale, scale)
	return len(u.start) - 1
}

// once adds an unknown unless it is there already.
func (u *unknowns) once(at int, start, scale float64) int {
	if at >= 0 {
		return at
	}
	return u.add(start, scale)
}

// guess is where to begin with the base pitch (mm) and base helix (rad) of a group: near enough for the search.
func (u *unknowns) guess(s Set, group int) (pitch, helix float64) {
	tipHelix, lead := 0.0, 0.0
	for i, g := range s.Gears {
		for _, r := range g.Readings {
			if u.group[i] == group && r.Kind == TipHelix && tipHelix == 0 {
				tipHelix = r.Value
			}
		}
	}
	if !u.spurs[group] {
		helix = math.Atan(0.85 * math.Tan(tipHelix))
		if tipHelix == 0 {
			helix = 0.35
		}
	}
	for i, g := range s.Gears {
		if u.group[i] != group {
			continue
		}
		spans := map[int]float64{}
		for _, r := range g.Readings {
			if r.Kind == Span {
				spans[r.Teeth] = r.Value
			}
			if r.Kind == Lead {
				lead = r.Value / float64(g.Teeth)
			}
		}
		for k, w := range spans {
			for l, v := range spans {
				if l > k {
					pitch = max(pitch, (v-w)/float64(l-k)) // the same whatever order the map has
				}
			}
		}
		size := 0.0
		for _, r := range g.Readings {
			if r.Kind == Tip || r.Kind == OverBalls {
				size = max(size, r.Value/(float64(g.Teeth)/math.Cos(helix)+2.4))
			}
		}
		if pitch == 0 && size > 0 {
			pitch = math.Pi * size * math.Cos(20*degree)
		}
	}
	for _, p := range s.Pairs {
		if pitch == 0 && u.group[p.Gears[0]] == group && p.Centre >= 0 && s.Centres[p.Centre].Reading.Value > 0 {
			z := float64(s.Gears[p.Gears[0]].Teeth + s.Gears[p.Gears[1]].Teeth)
			pitch = 2 * math.Pi * s.Centres[p.Centre].Reading.Value * math.Cos(helix) / z * math.Cos(20*degree)
		}
	}
	if pitch == 0 {
		pitch = 7
	}
	if lead > 0 && tipHelix == 0 && !u.spurs[group] {
		helix = math.Asin(min(0.7, pitch/lead))
	}
	return pitch, helix
}

// flank is the flank of gear i.
func (u *unknowns) flank(v []float64, i int) flank {
	f := flank{teeth: u.gears[i].Teeth, pitch: v[u.pitch[u.group[i]]], thick: v[u.thick[i]]}
	if at := u.helix[u.group[i]]; at >= 0 {
		f.helix = v[at]
	}
	return f
}

// ofFlank are the unknowns of the flank of gear i.
func (u *unknowns) ofFlank(i int) []int {
	of := []int{u.pitch[u.group[i]], u.thick[i]}
	if at := u.helix[u.group[i]]; at >= 0 {
		of = append(of, at)
	}
	return of
}

// measure makes the rows.
func (u *unknowns) measure(s Set) {
	add := func(from source, of []int, f func(v []float64) float64) {
		r := from.reading
		u.rows = append(u.rows, row{r.Value, r.Width() / wide, of, f})
		u.readings = append(u.readings, from)
	}
	for i, g := range s.Gears {
		for _, r := range g.Readings {
			if r.Aside == "" {
				of, f := u.reads(i, r)
				add(source{i, -1, -1, r}, of, f)
			}
		}
	}
	for i, c := range s.Centres {
		if at := u.centre[i]; at >= 0 {
			add(source{-1, -1, i, c.Reading}, []int{at}, func(v []float64) float64 { return v[at] })
		}
	}
	for i, p := range s.Pairs {
		if p.Backlash.Value > 0 && p.Backlash.Aside == "" && p.Centre >= 0 && u.centre[p.Centre] >= 0 && !u.bare[p.Gears[0]] && !u.bare[p.Gears[1]] {
			at := u.centre[p.Centre]
			of := append(append(u.ofFlank(p.Gears[0]), u.thick[p.Gears[1]]), at)
			add(source{-1, i, -1, p.Backlash}, of, func(v []float64) float64 { return u.mesh(v, p).backlash(v[at]) })
		}
	}
}

func (u *unknowns) mesh(v []float64, p Pair) mesh {
	return mesh{u.flank(v, p.Gears[0]), u.flank(v, p.Gears[1])}
}

// reads is what a reading of gear i shows, and the unknowns it depends on.
func (u *unknowns) reads(i int, r Reading) (of []int, f func(v []float64) float64) {
	of = u.ofFlank(i)
	tip, root := u.tip[i], u.root[i]
	switch r.Kind {
	case Span:
		f = func(v []float64) float64 { return u.flank(v, i).span(r.Teeth) }
	case OverBalls:
		f = func(v []float64) float64 { return u.flank(v, i).overBalls(r.Size) }
	case Lead:
		f = func(v []float64) float64 { return u.flank(v, i).lead() }
	case Tip:
		return append(of, tip), func(v []float64) float64 { return u.tipAsRead(u.flank(v, i), v[tip], i) }
	case TipHelix:
		return append(of, tip), func(v []float64) float64 { return u.flank(v, i).helixAt(v[tip]) }
	case Chord:
		return append(of, tip), func(v []float64) float64 { return u.flank(v, i).chord(r.Size, v[tip]) }
	case Root:
		return []int{root}, func(v []float64) float64 { return v[root] }
	case TipToRoot:
		return []int{tip, root}, func(v []float64) float64 { return (v[tip] + v[root]) / 2 }
	case Depth:
		return []int{tip, root}, func(v []float64) float64 { return (v[tip] - v[root]) / 2 }
	}
	return of, f
}

// tipAsRead is what the caliper shows of a tip diameter (mm), mm.
func (u *unknowns) tipAsRead(f flank, tip float64, i int) float64 {
	switch g := u.gears[i]; {
	case g.Teeth%2 == 0 || g.Across == Round:
		return tip
	case g.Across == FlatJaws:
		return f.betweenJaws(tip)
	default:
		return f.acrossTips(tip)
	}
}

package gearbox

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"layshaft/gearstress/involute"
	"layshaft/material"
)

// Assumption is something that can move the answer and that the file doesn't give: it left it out, or says that nobody knows.
type Assumption struct {
	Path    string        // where it would be given, of several parts for the first; "" = the file has no key for it
	Parts   []string      // of which parts it is assumed, by their names; nil = of the box as a whole
	Words   string        // what it is: "sense of rotation"
	Value   string        // what is taken for it: "clockwise seen from the left end"
	Unknown bool          // Others were all tried, and the least is what the box is judged by; else Value was left out and is taken for granted
	Others  []Alternative // what else it may be; of what is unknown, all that it may be
}

// String names what is assumed, with the parts it is assumed of where they are few: "crowning of final", "tips (12 parts)".
func (a Assumption) String() string {
	const few = 2
	switch n := len(a.Parts); {
	case n == 0:
		return a.Words
	case n <= few:
		return a.Words + " of " + joined(a.Parts)
	default:
		return fmt.Sprintf("%s (%d parts)", a.Words, n)
	}
}

// Alternative is another value for what is assumed.
type Alternative struct {
	Words  string
	Change func(*Box) // puts it into a box that is the caller's alone, as In makes it
}

// In is a box with the other value in place.
func (a *Alternative) In(b *Box) *Box {
	c := b.apart()
	a.Change(c)
	return c
}

// apart is a copy in which a change of any part of the box leaves the box alone. What was worked out for the box as it was is gone.
func (b *Box) apart() *Box {
	c := *b
	c.Shafts = slices.Clone(b.Shafts)
	for i := range c.Shafts {
		c.Shafts[i].Bearings = slices.Clone(c.Shafts[i].Bearings)
	}
	c.Gears, c.Meshes = slices.Clone(b.Gears), slices.Clone(b.Meshes)
	c.Side, c.Unknown = maps.Clone(b.Side), maps.Clone(b.Unknown)
	c.Alternatives, c.Tried = nil, nil
	return &c
}

// What stands in for values that a file doesn't give when their effect is asked for. All of it is common practice for car gears, no source.
const (
	usualCase        = 3e5                 // stiffness of an aluminium case under a bearing, N/mm
	usualPlay        = 0.03                // of a seat, across the diameter, mm
	usualSeat        = 4e5                 // stiffness of each end of a seat on needles, N/mm
	usualPeak        = 2.0                 // of a dropped clutch, over the torque
	usualRevs        = 6000 * math.Pi / 30 // of a petrol engine at work, rad/s
	usualShift       = 0.2                 // by which the shifts of a pair are shared out otherwise, modules
	usualStub        = 0.1                 // by which tips are lower than the rack has them, modules
	usualSkew        = 1e-4                // by which bores are out of parallel: 10 µm in 100 mm
	usualCrown       = 0.005               // of a shaved or ground flank, mm
	usualLoss        = 0.02                // of the power, in a mesh
	thinOil          = 50.0                // ν_40, mm²/s
	roughFlank       = 0.006               // Rz of a flank as hobbed and shaved, mm
	roughFillet      = 0.030               // Rz of a fillet as hobbed, mm
	shortFillet      = 0.25                // ρ_fP of profile C of ISO 53, modules
	usualPasses      = 200                 // of a short duty
	usualTurns       = 500                 // of the input shaft in each speed of a pass of it
	otherSteel       = "through-hardened"  // where teeth are taken for case-hardened
	usualEngineWords = "6000 rpm"
)

// usualBearing is how stiff a rolling bearing of a car gearbox is across its shaft, N/mm, by type; common practice, no source.
var usualBearing = map[BearingType]float64{
	DeepGrooveBall: 2e5, CylindricalRoller: 5e5, NeedleRoller: 5e5, TaperedRoller: 4.5e5, SelfAligning: 1.5e5, Plain: 3e5,
}

// Assumptions lists everything that can move the answer and that a box doesn't give, in the order of a box file. A box without Places was written in Go: what it has, is given.
func Assumptions(b *Box) []Assumption {
	p := prepare(b, Method{})
	if p.found.HasErrors() {
		return nil
	}
	q := p.asker()
	q.values()
	q.places()
	return q.all
}

func (p *prepared) asker() *asker { return &asker{b: p.box, p: p} }

// values asks for everything but the places of shafts.
func (q *asker) values() {
	q.work()
	q.steels()
	q.supports()
	q.rollers()
	q.seats()
	q.hubs()
	q.thrusts()
	q.gears()
	q.meshes()
}

// asker looks for what isn't given.
type asker struct {
	b   *Box
	p   *prepared
	all []Assumption
}

// part is something of which a value may not be given.
type part struct {
	name  string // "" = the box
	paths []string
	at    int // index for the change
}

// option is one value it may have.
type option struct {
	words  string
	change func(b *Box, at int)
}

// as is the value that a box has anyway.
func as(words string) option { return option{words, func(*Box, int) {}} }

func (q *asker) unknown(path string) bool { return q.b.Unknown[path] }

func (q *asker) absent(path string) bool { return !q.b.Given(path) }

// Given reports whether the file has a value at a path, other than the word unknown. What a box without Places has, is given.
func (b *Box) Given(path string) bool {
	_, written := b.Places[path]
	return !b.Unknown[path] && (written || len(b.Places) == 0)
}

// SteelGiven reports whether the file says of which steel a part is, by the path of the part: for itself, or for all that name none.
func (b *Box) SteelGiven(part string) bool {
	own := path(part, "steel")
	return b.Given(own) || !b.Unknown[own] && b.Given("steel")
}

// ask adds what isn't given of some parts, apart what was left out and what is unknown. The first option is what the box has.
func (q *asker) ask(words string, parts []part, options ...option) {
	for _, unknown := range []bool{false, true} {
		var open []part
		for _, p := range parts {
			if slices.ContainsFunc(p.paths, q.absent) && slices.ContainsFunc(p.paths, q.unknown) == unknown {
				open = append(open, p)
			}
		}
		if len(open) == 0 {
			continue
		}
		first := slices.IndexFunc(open[0].paths, func(path string) bool { return q.absent(path) && q.unknown(path) == unknown })
		a := Assumption{Path: open[0].paths[first], Words: words, Value: options[0].words, Unknown: unknown}
		var paths []string
		for _, p := range open {
			paths = append(paths, p.paths...)
			if p.name != "" {
				a.Parts = append(a.Parts, p.name)
			}
		}
		var tried []string
		for i, o := range options {
			if i == 0 && !unknown {
				continue
			}
			tried = append(tried, o.words)
			a.Others = append(a.Others, Alternative{o.words, func(b *Box) {
				for _, path := range paths {
					delete(b.Unknown, path)
				}
				for _, p := range open {
					o.change(b, p.at)
				}
			}})
		}
		if unknown {
			a.Value = "unknown: tried " + joined(tried)
		}
		q.all = append(q.all, a)
	}
}

// of is a value of the box as a whole.
func of(path string) []part { return []part{{paths: []string{path}}} }

// ofGears is a value of every gear that keep picks.
func (q *asker) ofGears(key string, keep func(*Gear) bool) (parts []part) {
	for i := range q.b.Gears {
		if g := &q.b.Gears[i]; keep == nil || keep(g) {
			parts = append(parts, part{g.Name, []string{path("gears", g.Name, key)}, i})
		}
	}
	return parts
}

// ofMeshes is a value of every mesh that keep picks.
func (q *asker) ofMeshes(key string, keep func(i int) bool) (parts []part) {
	for i, m := range q.b.Meshes {
		if keep == nil || keep(i) {
			parts = append(parts, part{m.Name, []string{path("meshes", m.Name, key)}, i})
		}
	}
	return parts
}

// ofPairs is a value that either gear of a mesh may give, of the meshes in which neither does.
func (q *asker) ofPairs(key string) (parts []part) {
	for i, m := range q.b.Meshes {
		paths := []string{path("gears", m.Driver, key), path("gears", m.Driven, key)}
		if q.absent(paths[0]) && q.absent(paths[1]) {
			parts = append(parts, part{m.Name, paths, i})
		}
	}
	return parts
}

// work asks for what the box is driven with.
func (q *asker) work() {
	sense := func(turns int) option {
		return option{SenseName(float64(turns)) + " seen from the left end", func(b *Box, _ int) { b.Turns = turns }}
	}
	q.ask("sense of rotation", of("input.turns"), sense(q.b.Turns), sense(-q.b.Turns))
	q.ask("peak of the torque", of("input.shock"), as("no more than the torque itself"),
		option{fmt.Sprintf("%g times the torque, as from a dropped clutch", usualPeak), func(b *Box, _ int) { b.Shock = usualPeak }})
	if !slices.ContainsFunc(q.p.pairs, func(q pair) bool { return q.form != nil }) {
		return // nothing that is judged looks at the rest
	}
	q.ask("speed of the input shaft", of("input.revs"), as("not counted, without dynamic load (K_v = 1)"),
		option{usualEngineWords, func(b *Box, _ int) { b.Revs = usualRevs }})
	q.ask("oil", of("oil.viscosity"), as(fmt.Sprintf("%g mm²/s at 40 °C", usualViscosity)),
		option{fmt.Sprintf("%g mm²/s at 40 °C", thinOil), func(b *Box, _ int) { b.Oil.Viscosity = thinOil }})
	q.ask("duty", of("duty"), as("none, so only what breaks counts"),
		option{fmt.Sprintf("%d passes, each of %d turns of the input shaft in every speed", usualPasses, usualTurns), func(b *Box, _ int) {
			b.Duty = &Duty{Passes: usualPasses}
			for _, s := range b.Speeds {
				b.Duty.Steps = append(b.Duty.Steps, DutyStep{Speed: s.Name, Turns: usualTurns, Share: 1})
			}
		}})
}

// steels asks for the steel of the parts that neither name one nor have the box's.
func (q *asker) steels() {
	byName := map[string][]part{} // what is taken → parts
	var names []string
	add := func(name, where, steel string, at int) {
		steel = cmp.Or(steel, DefaultSteel)
		if q.b.SteelGiven(where) {
			return
		}
		own := path(where, "steel")
		if byName[steel] == nil {
			names = append(names, steel)
		}
		paths := []string{own}
		if q.absent("steel") {
			paths = []string{"steel", own}
		}
		byName[steel] = append(byName[steel], part{name, paths, at})
	}
	for i, g := range q.b.Gears {
		add(g.Name, path("gears", g.Name), g.Steel, i)
	}
	shafts := len(q.b.Gears) // shafts are numbered behind the gears
	for i, s := range q.b.Shafts {
		add(ShaftTitle(s.Name), path("shafts", s.Name), s.Steel, shafts+i)
	}
	for _, name := range names {
		other := otherSteel
		if s, ok := q.b.Steel(name); ok && s.Group != material.GroupCaseHardened {
			other = DefaultSteel
		}
		q.ask("steel", byName[name], as(name), option{other, func(b *Box, at int) {
			if at < shafts {
				b.Gears[at].Steel = other
			} else {
				b.Shafts[at-shafts].Steel = other
			}
		}})
	}
}

// places asks where shafts lie whose place isn't settled.
func (q *asker) places() {
	placings, open, err := q.p.wholeLayouts()
	if err != nil {
		return
	}
	for _, o := range open {
		a := Assumption{Path: path("side", o.shaft), Parts: []string{ShaftTitle(o.shaft)}, Words: "side of the line through its neighbours", Value: "unknown: tried both", Unknown: true}
		if o.directions > 0 {
			a.Path, a.Words, a.Value = "centres", "direction from its neighbour", fmt.Sprintf("unknown: tried %d directions all round", o.directions)
			if len(open) == 1 {
				a.Others = q.quarters(placings)
			}
		} else {
			for _, side := range []int{1, -1} {
				a.Others = append(a.Others, Alternative{sideWords(side), func(b *Box) {
					if b.Side == nil {
						b.Side = map[string]int{}
					}
					b.Side[o.shaft] = side
					delete(b.Unknown, path("side", o.shaft))
				}})
			}
		}
		q.all = append(q.all, a)
	}
}

// quarters are four of many directions, for a table that shows what the direction does.
func (q *asker) quarters(placings []placing) (others []Alternative) {
	for k := 0; k < len(placings); k += max(1, len(placings)/4) {
		at := q.p.placed(placings[k : k+1])[0]
		others = append(others, Alternative{at.Variant, func(b *Box) { b.Layout = at.Layout }})
	}
	return others
}

func sideWords(side int) string {
	if side < 0 {
		return "negative side"
	}
	return "positive side"
}

// supports asks how case and bearings give way.
func (q *asker) supports() {
	boxed := !q.absent("housing")
	var held, loose []part
	shaftOf := make([][2]int, 0, 2*len(q.b.Shafts)) // number of a bearing → shaft, bearing
	for i, s := range q.b.Shafts {
		for j, br := range s.Bearings {
			where := path("shafts", s.Name, "bearings", br.Name)
			p := part{ShaftTitle(s.Name) + ", bearing " + br.Name, []string{path(where, "housing")}, len(shaftOf)}
			shaftOf = append(shaftOf, [2]int{i, j})
			if br.Elements == nil {
				loose = append(loose, part{p.name, []string{path(where, "radial")}, p.at})
			}
			own := q.unknown(p.paths[0])
			if br.In != "" || br.Housing > 0 || boxed && !own {
				continue
			}
			if !boxed {
				p.paths = append([]string{"housing"}, p.paths...)
			}
			held = append(held, p)
		}
	}
	bearingAt := func(b *Box, at int) *Bearing { return &b.Shafts[shaftOf[at][0]].Bearings[shaftOf[at][1]] }
	taken := as("rigid under the bearings")
	if boxed {
		taken = as("as under the other bearings")
	}
	q.ask("case", held, taken, option{fmt.Sprintf("%g N/µm under each bearing", usualCase/1e3), func(b *Box, at int) {
		if boxed {
			bearingAt(b, at).Housing = usualCase
		} else {
			b.Housing = Housing{Radial: usualCase}
		}
	}})
	q.ask("stiffness of bearings", loose, as("rigid"), option{"as usual for their type (150 to 500 N/µm)", func(b *Box, at int) {
		br := bearingAt(b, at)
		br.Radial = usualBearing[br.Type]
	}})
}

// seats asks how gears sit on their shafts.
func (q *asker) seats() {
	seated := func(b *Box, gear string) {
		g := &b.Gears[slices.IndexFunc(b.Gears, func(g Gear) bool { return g.Name == gear })]
		if g.Seat == nil {
			g.Seat = &Seat{Length: g.Face, Clearance: usualPlay, Stiffness: usualSeat}
		}
	}
	free := fmt.Sprintf("free, on seats with %g µm of play", 1e3*usualPlay)
	var pairs, alone []part
	locking := q.locking()
	for i, m := range q.b.Meshes {
		paths := []string{path("gears", m.Driven, "seat"), path("gears", m.Driver, "seat")}
		both := q.unknown(paths[0]) && q.unknown(paths[1])
		for k, name := range []string{m.Driven, m.Driver} {
			p := part{name, paths[k : k+1], q.p.gear[name]}
			if q.unknown(paths[k]) && !both && !slices.ContainsFunc(alone, func(a part) bool { return a.name == name }) {
				alone = append(alone, p)
			}
		}
		if both || slices.Contains(locking, i) && q.absent(paths[0]) && q.absent(paths[1]) && !q.unknown(paths[0]) && !q.unknown(paths[1]) {
			pairs = append(pairs, part{m.Name, paths, i})
		}
	}
	q.ask("which gear of a pair turns free", pairs, as("none: both fast on their shafts"),
		option{"the driven one " + free, func(b *Box, at int) { seated(b, b.Meshes[at].Driven) }},
		option{"the driving one " + free, func(b *Box, at int) { seated(b, b.Meshes[at].Driver) }})
	q.ask("how a gear sits", alone, as("fast on its shaft"), option{free, func(b *Box, at int) { seated(b, b.Gears[at].Name) }})
	seat := q.ofGears("seat.stiffness", func(g *Gear) bool { return g.Seat != nil && g.Seat.Stiffness == 0 })
	q.ask("stiffness of seats", seat, as("rigid"), option{fmt.Sprintf("%g N/µm at each end", usualSeat/1e3), func(b *Box, at int) {
		softer := *b.Gears[at].Seat
		softer.Stiffness = usualSeat
		b.Gears[at].Seat = &softer
	}})
}

// hubs asks where gears that turn free hand their torque to their shafts.
func (q *asker) hubs() {
	parts := q.ofGears("engages_at", func(g *Gear) bool { return g.Seat != nil && q.p.takesTorque(g.Name) })
	q.ask("hubs of gears that turn free", parts, as("the usual end of each"), option{"the other end", func(b *Box, at int) {
		g := &b.Gears[at]
		ends := g.along().common(span{0, b.shaftNamed(g.Shaft).length()})
		other := ends.from + ends.to - q.b.HubAt(&q.b.Gears[at])
		g.EngagesAt = &other
	}})
}

// thrusts tells of what a file has no key for: where a gear that turns free rests along its shaft.
func (q *asker) thrusts() {
	var names []string
	for i, m := range q.b.Meshes {
		for _, gear := range q.p.pairs[i].gears {
			if g := q.b.Gears[gear]; g.Seat != nil && m.Helix > 0 && !slices.Contains(names, g.Name) {
				names = append(names, g.Name)
			}
		}
	}
	if len(names) > 0 && len(q.b.Places) > 0 {
		q.all = append(q.all, Assumption{Parts: names, Words: "thrust faces of gears that turn free", Value: "their thrust tilts the shaft as that of a fast gear does"})
	}
}

// locking are the meshes that would lock the box while a speed is engaged if both of their gears were fast.
func (q *asker) locking() (meshes []int) {
	for _, s := range q.b.Speeds {
		if t, _, ok := q.p.engaged(s); ok {
			meshes = append(meshes, q.p.lockedBy(s, t)...)
		}
	}
	return meshes
}

// gears asks for what is measured on single gears.
func (q *asker) gears() {
	rated := func(g *Gear) bool {
		return slices.ContainsFunc(q.p.pairs, func(p pair) bool { return p.form != nil && slices.Contains(p.gears[:], q.p.gear[g.Name]) })
	}
	q.ask("accuracy grade", q.ofGears("grade", rated), as(fmt.Sprintf("%d of ISO 1328-1", usualGrade)),
		option{fmt.Sprint(usualGrade + 1), func(b *Box, at int) { b.Gears[at].Grade = usualGrade + 1 }})
	rough := func(words, key string, k int, usual, other float64) {
		q.ask(words, q.ofGears(key, rated), as(fmt.Sprintf("Rz %g µm", 1e3*usual)),
			option{fmt.Sprintf("Rz %g µm", 1e3*other), func(b *Box, at int) { b.Gears[at].Roughness[k] = other }})
	}
	rough("roughness of flanks", "flank_roughness", 0, usualFlank, roughFlank)
	rough("roughness of fillets", "root_roughness", 1, usualFillet, roughFillet)
	tip := q.ofGears("tip_diameter", func(g *Gear) bool { return q.geometryOf(g.Name) != nil })
	q.ask("tips", tip, as("full height, as the rack makes them"), option{fmt.Sprintf("lower by %g modules", usualStub), func(b *Box, at int) {
		g := &b.Gears[at]
		for _, pair := range q.p.pairs {
			if k := slices.Index(pair.gears[:], at); k >= 0 {
				g.TipDiameter = pair.geometry.Tip[k] - 2*usualStub*pair.geometry.Module
				break
			}
		}
	}})
}

// geometryOf is that of the first mesh of a gear; nil when it has none.
func (q *asker) geometryOf(gear string) *involute.Pair {
	for _, p := range q.p.pairs {
		if slices.Contains(p.gears[:], q.p.gear[gear]) {
			return p.geometry
		}
	}
	return nil
}

// meshes asks for what two gears have in common.
func (q *asker) meshes() {
	angles := []option{as("20°")}
	for _, degrees := range []float64{17.5, 14.5} {
		angles = append(angles, option{fmt.Sprintf("%g°", degrees), func(b *Box, at int) { b.Meshes[at].Rack.PressureAngle = degrees * math.Pi / 180 }})
	}
	q.ask("pressure angle", q.ofMeshes("pressure_angle", nil), angles...)
	q.ask("basic rack", q.ofMeshes("rack", nil), as("profile A of ISO 53"),
		option{"profile C of ISO 53, with sharper fillets", func(b *Box, at int) { b.Meshes[at].Rack.TipRadius = shortFillet }})
	for _, group := range q.hands() {
		q.ask("hand of the helix", group, as(q.handWords(group, false)), option{q.handWords(group, true), func(b *Box, at int) {
			b.Meshes[at].Hand = otherHand(b.Meshes[at].Hand)
		}})
	}
	q.ask("efficiency of a mesh", q.ofMeshes("efficiency", nil), as("nothing lost"),
		option{fmt.Sprintf("%g %% lost", 100*usualLoss), func(b *Box, at int) { b.Meshes[at].Efficiency = 1 - usualLoss }})
	shares := []option{as("shared evenly, as distance and rack ask")}
	for _, by := range []float64{usualShift, -usualShift} {
		shares = append(shares, option{fmt.Sprintf("%+g on the driving gear, as much the other way on the driven one", by), func(b *Box, at int) {
			q.share(b, at, by)
		}})
	}
	q.ask("profile shifts", q.ofPairs("shift"), shares...)
	skews := []option{as("parallel, flanks true to them")}
	for _, end := range []struct {
		words string
		sign  float64
	}{{"gap towards the right end", 1}, {"gap towards the left end", -1}} {
		skews = append(skews, option{fmt.Sprintf("out by %g µm in 100 mm, %s", 1e5*usualSkew, end.words), func(b *Box, at int) {
			b.Meshes[at].Skew = end.sign * usualSkew * (q.p.pairs[at].to - q.p.pairs[at].from)
		}})
	}
	q.ask("bores of the case", q.ofPairs("lead_error"), skews...)
	doubtful := func(i int) bool { return q.p.pairs[i].deviation > 0 }
	q.ask("contact pattern", q.ofMeshes("pattern_checked", doubtful), as("not checked: flanks out of line as their accuracy grade lets them"),
		option{"checked", func(b *Box, at int) { b.Meshes[at].PatternChecked = true }})
	q.ask("crowning", q.ofPairs("crowning"), as("none"), option{fmt.Sprintf("%g µm", 1e3*usualCrown), func(b *Box, at int) {
		b.Gears[q.p.pairs[at].gears[0]].Crowning = usualCrown
	}})
}

// share moves profile shift from one gear of a mesh to the other, unless one of them has got its own by another mesh.
func (q *asker) share(b *Box, mesh int, by float64) {
	pair := &q.p.pairs[mesh]
	driver, driven := &b.Gears[pair.gears[0]], &b.Gears[pair.gears[1]]
	if driver.Shift != nil || driven.Shift != nil {
		return
	}
	x, y := pair.geometry.X[0]+by, pair.geometry.X[1]-by
	driver.Shift, driven.Shift = &x, &y
}

// hands are the meshes of unknown hand, those together that hang together by a gear: the hand of one settles that of the others.
func (q *asker) hands() (groups [][]part) {
	for _, p := range q.ofMeshes("hand", func(i int) bool { return q.unknown(path("meshes", q.b.Meshes[i].Name, "hand")) }) {
		group := []part{p}
		groups = slices.DeleteFunc(groups, func(other []part) bool {
			joins := slices.ContainsFunc(other, func(o part) bool {
				a, b := q.p.pairs[o.at].gears, q.p.pairs[p.at].gears
				return slices.Contains(a[:], b[0]) || slices.Contains(a[:], b[1])
			})
			if joins {
				group = append(other, group...)
			}
			return joins
		})
		groups = append(groups, group)
	}
	return groups
}

// handWords are the hands of the drivers of a group of meshes, or all of them the other way.
func (q *asker) handWords(group []part, other bool) string {
	var words []string
	for _, p := range group {
		m := q.b.Meshes[p.at]
		hand := m.Hand
		if other {
			hand = otherHand(hand)
		}
		words = append(words, m.Driver+" "+string(hand)+"-handed")
	}
	return strings.Join(words, ", ")
}

func otherHand(h Hand) Hand {
	switch h {
	case Right:
		return Left
	case Left:
		return Right
	}
	return h
}

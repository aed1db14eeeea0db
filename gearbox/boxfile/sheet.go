package boxfile

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/gauge"

	"gopkg.in/yaml.v3"
)

// SheetVersion is the version of the bench sheet schema that ReadSheet understands.
const SheetVersion = 1

//go:embed bench.yaml
var bench []byte

// Bench is a bench sheet to start from, which explains each reading. All its numbers are invented.
func Bench() []byte { return append([]byte(nil), bench...) }

// Sheet is a bench sheet: what was read of the gears of a box, and whatever else a box file made of it should say.
type Sheet struct {
	Name       string
	Set        gauge.Set
	gears      []sheetGear
	pairs      []sheetPair
	shafts     [][2]string // of each centre distance
	rest       *yaml.Node  // the other keys of a box file; nil = none
	places     map[string]diag.Place
	tolerances map[string]float64
}

// MakesBox reports whether the sheet says enough of the rest of the box for a box file.
func (s *Sheet) MakesBox() bool { return s.rest != nil }

// sheetGear is a gear while it is read, with what the gauge does not look at.
type sheetGear struct {
	gauge.Gear
	shaft string
	hand  gearbox.Hand
	rest  *yaml.Node // further keys of a box file for it
}

type sheetPair struct {
	gauge.Pair
	names [2]string
	rest  *yaml.Node
}

type sheetCentre struct {
	gearbox.Centre
	reading gauge.Reading
}

// sheetDraft is a sheet while it is read.
type sheetDraft struct {
	*Sheet
	centres []sheetCentre
}

func (g *sheetGear) add(r gauge.Reading) { g.Readings = append(g.Readings, r) }

func gearReading(k gauge.Kind) value[sheetGear] { return reading(k, (*sheetGear).add) }

var sheetFields = []field[sheetDraft]{
	{key: "bench", need: true, about: "version of the bench sheet schema", value: sheetVersion()},
	{key: "name", need: true, about: "name of what lies on the bench", value: name(func(s *sheetDraft) *string { return &s.Name })},
	{key: "gears", need: true, about: "the gears with their readings", value: named(gear, sheetGearFields,
		func(name string) sheetGear { return sheetGear{Gear: gauge.Gear{Name: name}} },
		func(s *sheetDraft, g sheetGear) { s.gears = append(s.gears, g) }, checkSheetGear)},
	{key: "pairs", about: "the pairs of gears that mesh", fallback: "none", value: named(mesh, sheetPairFields,
		func(name string) sheetPair { return sheetPair{Pair: gauge.Pair{Name: name, Centre: -1}} },
		func(s *sheetDraft, p sheetPair) { s.pairs = append(s.pairs, p) }, nil)},
	{key: "centres", about: "distances between shaft axes", fallback: "not read", value: list("centre distance", sheetCentreFields,
		func(s *sheetDraft) *[]sheetCentre { return &s.centres }, nil)},
	{key: "box", about: "every other key of the box file that is made of the sheet: input, output, shafts, speeds …",
		fallback: "no box file", value: verbatim(func(s *sheetDraft) **yaml.Node { return &s.rest })},
}

var sheetGearFields = []field[sheetGear]{
	{key: "teeth", need: true, about: "number of teeth, counted twice", value: count(5, 500, func(g *sheetGear) *int { return &g.Teeth })},
	{key: "spur", about: "whether the teeth are straight", fallback: "no: the helix is looked for",
		value: yesNo(func(g *sheetGear, yes bool) { g.Spur = yes })},
	{key: "hand", about: "hand of the helix: right-handed teeth lean to the right, seen with the axis upright",
		fallback: "unknown", value: orUnknown(word("hand", []gearbox.Hand{gearbox.Right, gearbox.Left},
			func(g *sheetGear, h gearbox.Hand) { g.hand = h }))},
	{key: "face", about: "face width", fallback: "not read", value: number(quantity.Length, positive,
		func(g *sheetGear) *float64 { return &g.Face })},
	{key: "tip", about: "diameter over the tips as the caliper shows it; odd counts are put right",
		fallback: "not read", value: gearReading(gauge.Tip)},
	{key: "tip_read", about: "how the tip of an odd count was read", fallback: "two tips", value: word("way",
		[]string{"two tips", "flat jaws", "round"}, func(g *sheetGear, w string) {
			g.Across = map[string]gauge.Across{"two tips": gauge.TwoTips, "flat jaws": gauge.FlatJaws, "round": gauge.Round}[w]
		})},
	{key: "root", about: "diameter in the roots", fallback: "not read", value: gearReading(gauge.Root)},
	{key: "tip_to_root", about: "from a tip to the root opposite, for odd counts", fallback: "not read",
		value: gearReading(gauge.TipToRoot)},
	{key: "depth", about: "depth of the teeth", fallback: "not read", value: gearReading(gauge.Depth)},
	{key: "spans", about: "base tangent lengths, by the number of teeth between the jaws", fallback: "not read",
		value: readings(gauge.Span, "numbers of teeth", (*sheetGear).add)},
	{key: "balls", about: "sizes over two balls in opposite spaces, by the diameter of the balls; pins on spur gears only",
		fallback: "not read", value: readings(gauge.OverBalls, "ball diameters", (*sheetGear).add)},
	{key: "chords", about: "thickness of a tooth by tooth caliper, by the height below the tip", fallback: "not read",
		value: readings(gauge.Chord, "heights below the tip", (*sheetGear).add)},
	{key: "tip_helix", about: "helix angle as the tips roll it on paper: that of the tips, not of the reference circle",
		fallback: "not read", value: gearReading(gauge.TipHelix)},
	{key: "lead", about: "advance of a tooth in one turn", fallback: "not read", value: gearReading(gauge.Lead)},
	{key: "shaft", about: "the shaft it sits on", fallback: "not known", value: name(func(g *sheetGear) *string { return &g.shaft })},
	{key: "box", about: "further keys of the gear in the box file: at, seat, crowning …", fallback: "none",
		value: verbatim(func(g *sheetGear) **yaml.Node { return &g.rest })},
}

var sheetPairFields = []field[sheetPair]{
	{key: "driver", need: true, about: "the gear that drives", value: nameOf(gear, func(p *sheetPair) *string { return &p.names[0] })},
	{key: "driven", need: true, about: "the gear that is driven", value: nameOf(gear, func(p *sheetPair) *string { return &p.names[1] })},
	{key: "backlash", about: "play along the pitch circle by dial gauge, one gear held", fallback: "not read",
		value: reading(gauge.Backlash, func(p *sheetPair, r gauge.Reading) { p.Backlash = r })},
	{key: "box", about: "further keys of the mesh in the box file: efficiency, rack …", fallback: "none",
		value: verbatim(func(p *sheetPair) **yaml.Node { return &p.rest })},
}

var sheetCentreFields = []field[sheetCentre]{
	{key: "between", need: true, about: "the two shafts", value: value[sheetCentre]{written: "list of two shafts",
		read: func(r *reader, at spot, c *sheetCentre) { between().read(r, at, &c.Centre) }}},
	{key: "distance", need: true, about: "distance of their axes",
		value: reading(gauge.Distance, func(c *sheetCentre, r gauge.Reading) { c.reading = r })},
}

// SheetSchema lists every key of a bench sheet in the order in which people should write them.
func SheetSchema() []Key { return describe("", sheetFields) }

func sheetVersion() value[sheetDraft] {
	only := strconv.Itoa(SheetVersion)
	return value[sheetDraft]{
		written: only,
		read: func(r *reader, at spot, _ *sheetDraft) {
			if text, ok := r.scalar(at, "the version "+only); ok && text != only {
				r.fault(at.place, at.path, "unknown version",
					fmt.Sprintf("Found %q; this program reads version %s: write \"bench: %s\".", short(text), only, only))
			}
		},
	}
}

// A gear on paper or in a pair may have few readings; one that has none at all was forgotten.
func checkSheetGear(r *reader, at spot, g *sheetGear, given map[string]bool) {
	if given["tip_read"] && g.Teeth%2 == 0 && g.Teeth > 0 {
		path := join(at.path, "tip_read")
		r.warn(r.box.Places[path], path, "no odd count",
			fmt.Sprintf("With %d teeth two tips stand opposite each other: any caliper reads the diameter itself.", g.Teeth))
	}
	for _, reading := range g.Readings {
		if path := join(at.path, "spans"); reading.Kind == gauge.Span && g.Teeth > 0 && reading.Teeth > g.Teeth/2 {
			r.fault(r.box.Places[path], path, "a span over too many teeth",
				fmt.Sprintf("Over %d of %d teeth the jaws don't reach: a span goes over half of them at the most.", reading.Teeth, g.Teeth))
		}
	}
	if g.Spur {
		for _, key := range []string{"tip_helix", "lead", "hand"} {
			if given[key] {
				path := join(at.path, key)
				r.fault(r.box.Places[path], path, "a helix of straight teeth",
					"The gear is called a spur gear: leave out "+key+", or spur.")
			}
		}
	}
}

// ReadSheet reads a bench sheet. Name is what the findings call it. The sheet is nil when there are errors. The
// findings are in the order of the file.
func ReadSheet(name string, data []byte) (*Sheet, diag.List) {
	r := newReader(name)
	r.begins = fmt.Sprintf("A bench sheet begins with \"bench: %d\".", SheetVersion)
	s := &Sheet{places: r.box.Places, tolerances: r.box.Tolerances}
	if root := r.parse(data); root != nil {
		r.walkSheet(root, s)
	}
	r.list.Sort()
	if r.list.HasErrors() {
		return nil, r.list
	}
	return s, r.list
}

func (r *reader) walkSheet(root *yaml.Node, s *Sheet) {
	at, ok := r.enter(root, "", diag.Place{})
	if !ok {
		return
	}
	at.owner = at.place
	r.box.Places[""] = at.place
	for i := 0; i+1 < len(root.Content); i += 2 {
		if root.Kind == yaml.MappingNode && root.Content[i].Value == "layshaft" {
			r.fault(r.extent(root.Content[i]), "", "a box file",
				"This is a box file, not a bench sheet: ask layshaft check. layshaft new --bench writes a sheet.")
			return
		}
	}
	before := len(r.list)
	draft := sheetDraft{Sheet: s}
	readMap(r, at, sheetFields, &draft)
	if r.visits > budget {
		r.list = r.list[:before]
		r.fault(at.place, "", "too many values",
			fmt.Sprintf("With its aliases written out the file has more than %d keys and values: a sheet has some hundreds.", budget))
		return
	}
	if r.checkReferences() && !r.list.HasErrors() {
		r.joinSheet(&draft)
	}
}

// joinSheet makes the set of the gears, pairs and centre distances.
func (r *reader) joinSheet(d *sheetDraft) {
	at := map[string]int{}
	for i, g := range d.gears {
		at[g.Name] = i
		d.Set.Gears = append(d.Set.Gears, g.Gear)
	}
	shafts := map[[2]string]int{}
	for i, c := range d.centres {
		pair := c.Between
		if _, twice := shafts[pair]; twice {
			path := join("centres", strconv.Itoa(i))
			r.fault(r.box.Places[path], path, "the same distance twice",
				fmt.Sprintf("The distance of %q and %q is given already. Keep one of them.", pair[0], pair[1]))
		}
		shafts[pair], shafts[[2]string{pair[1], pair[0]}] = i, i
		d.shafts = append(d.shafts, pair)
		d.Set.Centres = append(d.Set.Centres, gauge.Centre{Name: pair[0] + " – " + pair[1], Reading: c.reading})
	}
	used := map[int]bool{}
	for i := range d.pairs {
		p := &d.pairs[i]
		path := "pairs." + p.Name
		p.Gears = [2]int{at[p.names[0]], at[p.names[1]]}
		if p.Gears[0] == p.Gears[1] {
			r.fault(r.box.Places[path], path, "a gear that drives itself", "Driver and driven are two gears.")
			continue
		}
		driver, driven := d.gears[p.Gears[0]], d.gears[p.Gears[1]]
		if driver.Spur != driven.Spur {
			r.fault(r.box.Places[path], path, "a spur gear with a helical one",
				fmt.Sprintf("%q and %q mesh: both have straight teeth or neither.", driver.Name, driven.Name))
		}
		if driver.hand != gearbox.Spur && driver.hand == driven.hand {
			r.fault(r.box.Places[path], path, "two gears of one hand",
				fmt.Sprintf("%q and %q mesh and are both %s-handed: two gears that mesh have opposite hands.",
					driver.Name, driven.Name, driver.hand))
		}
		if c, ok := shafts[[2]string{driver.shaft, driven.shaft}]; ok && driver.shaft != "" {
			p.Centre = c
			used[c] = true
		}
		d.Set.Pairs = append(d.Set.Pairs, p.Pair)
	}
	for i, c := range d.centres {
		if !used[i] && len(d.pairs) > 0 && !d.MakesBox() {
			path := join("centres", strconv.Itoa(i))
			r.warn(r.box.Places[path], path, "a distance of no pair",
				fmt.Sprintf("No pair has its gears on %q and %q: give each gear its shaft.", c.Between[0], c.Between[1]))
		}
	}
	for i, g := range d.gears {
		if len(g.Readings) == 0 && !slices.ContainsFunc(d.Set.Pairs,
			func(p gauge.Pair) bool { return p.Gears[0] == i || p.Gears[1] == i }) {
			path := "gears." + g.Name
			r.warn(r.box.Places[path], path, "no reading", fmt.Sprintf("Nothing but the teeth is known of %q.", g.Name))
		}
	}
}

// verbatim is a map that is handed on as it is, its aliases written out. Places of all that is in it are kept.
func verbatim[T any](part func(*T) **yaml.Node) value[T] {
	return value[T]{
		written: "map of keys of a box file",
		read: func(r *reader, at spot, to *T) {
			if at.node.Kind != yaml.MappingNode {
				r.wrongKind(at, "a map of keys of a box file")
				return
			}
			*part(to) = r.copied(at)
		},
	}
}

// copied is a node without anchors and aliases.
func (r *reader) copied(at spot) *yaml.Node {
	n := *at.node
	n.Anchor, n.Content = "", nil
	r.box.Places[at.path] = at.place
	r.inside(at, func() {
		for i, child := range at.node.Content {
			path, owner := join(at.path, strconv.Itoa(i)), r.extent(child)
			if n.Kind == yaml.MappingNode {
				key := at.node.Content[i&^1]
				path, owner = join(at.path, key.Value), r.extent(key)
			}
			if spot, ok := r.enter(child, path, owner); ok {
				n.Content = append(n.Content, r.copied(spot))
			}
		}
	})
	return &n
}

package boxfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox/diag"

	"gopkg.in/yaml.v3"
)

// takeAll takes shafts first, then pairs, gears and bearings, and cases at last, so that the order in which a file names them doesn't matter.
func (c *composer) takeAll(p *plan) {
	each := func(take func(t *taking, doc *yaml.Node)) {
		for i := range p.take {
			t := &p.take[i]
			if doc := c.open(t.from, t.place); doc != nil && !c.r.list.HasErrors() {
				take(t, doc)
			}
		}
	}
	each(func(t *taking, doc *yaml.Node) {
		for _, n := range t.shafts {
			c.takeShaft(t, doc, n)
		}
		if len(t.shafts) == 0 && (t.keepGears || t.keepBearings || t.shift != 0 || t.turned) {
			c.r.fault(t.place, "take", "no shaft to move", "keep, shift and turned are said of shafts that are taken, and none is.")
		}
	})
	each(func(t *taking, doc *yaml.Node) {
		for _, n := range t.pairs {
			c.takePair(doc, n)
		}
		for _, n := range t.gears {
			c.takeGear(doc, n)
		}
		for _, n := range t.bearings {
			c.takeBearing(doc, n)
		}
	})
	each(func(t *taking, doc *yaml.Node) {
		if t.caseToo {
			c.takeCase(doc, t.place)
		}
	})
}

// claim notes what goes where; a part that was taken from somewhere already is a fault.
func (c *composer) claim(path string, doc *yaml.Node, place diag.Place) bool {
	if before, twice := c.taken[path]; twice {
		c.r.fault(place, "take", "the same part twice", fmt.Sprintf("%s is taken already in line %d. Take it once.", strconv.Quote(path), before.Line))
		return false
	}
	c.taken[path], c.from[path] = place, doc
	return true
}

// there is a part of another file; nil when it has no such part.
func (c *composer) there(doc *yaml.Node, kinds string, n partName) *yaml.Node {
	all := inner(doc, kinds)
	if found := inner(all, n.name); found != nil {
		return found
	}
	c.r.fault(n.place, "take", "no such part", fmt.Sprintf("That file has no %s among its %s: %s.%s", strconv.Quote(short(n.name)), kinds, strings.Join(keysOf(all), ", "), didYouMean(n.name, keysOf(all))))
	return nil
}

// takeShaft takes a shaft, with its bearings, its gears and the pairs among them as far as they aren't to stay.
func (c *composer) takeShaft(t *taking, doc *yaml.Node, n partName) {
	theirs := c.there(doc, "shafts", n)
	if theirs == nil || !c.claim("shafts."+n.as, doc, n.place) {
		return
	}
	taken := c.clone(theirs)
	before := inner(c.root, "shafts", n.as)
	sum := 0.0
	if at := keyIndex(taken, "sections"); at >= 0 && t.turned {
		sections := resolved(taken.Content[at+1])
		slices.Reverse(sections.Content)
		for _, s := range sections.Content {
			sum += millimetres(s, "length")
		}
	}
	turn := func(x float64) float64 { return x }
	if t.turned {
		turn = func(x float64) float64 { return sum - x }
		for _, kind := range []string{"bearings", "notches", "joints"} {
			of := inner(taken, kind)
			for _, name := range keysOf(of) {
				c.move(inner(of, name), "at", turn)
			}
		}
	}
	start := millimetres(theirs, "start") + t.shift
	if t.shift != 0 {
		if keyIndex(taken, "start") < 0 {
			zero := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "0 mm"}
			c.r.placed[zero] = n.place
			c.put(taken, "start", zero)
		}
		c.move(taken, "start", func(float64) float64 { return start })
	}
	stays := func(x float64) float64 { return x + millimetres(before, "start") - start } // at its place in the box
	if t.keepBearings {
		kept := inner(before, "bearings")
		if kept == nil {
			c.r.fault(n.place, "take", "no bearings to keep", fmt.Sprintf("This box has no shaft %s before one is taken, so no bearings of it stay.", strconv.Quote(n.as)))
			return
		}
		kept = c.clone(kept)
		for _, name := range keysOf(kept) {
			c.move(inner(kept, name), "at", stays)
		}
		c.put(taken, "bearings", kept)
		remove(taken, "pair")
		if at := keyIndex(before, "pair"); at >= 0 {
			c.put(taken, "pair", c.clone(before.Content[at+1]))
		}
	}
	c.bringSteel(doc, taken, n.place)
	for _, port := range []string{"input", "output"} {
		if in := inner(c.root, port); before != nil && text(in, "shaft") == n.as {
			c.move(in, "at", stays)
		}
	}
	c.put(c.within(c.root, "shafts", n.place), n.as, taken)
	if t.keepGears {
		gears := inner(c.root, "gears")
		for _, name := range keysOf(gears) {
			if g := inner(gears, name); text(g, "shaft") == n.as {
				c.move(g, "at", stays)
				c.move(g, "engages_at", stays)
			}
		}
		return
	}
	c.takeGearsOf(t, doc, n, turn)
}

// takeGearsOf puts the gears of a taken shaft in the place of those that sat there, and takes the pairs of the other file whose gears are all here from there.
func (c *composer) takeGearsOf(t *taking, doc *yaml.Node, n partName, turn func(float64) float64) {
	gears := c.within(c.root, "gears", n.place)
	for _, name := range keysOf(gears) {
		if text(inner(gears, name), "shaft") == n.as {
			remove(gears, name)
		}
	}
	theirs := inner(doc, "gears")
	for _, name := range keysOf(theirs) {
		g := inner(theirs, name)
		if text(g, "shaft") != n.name {
			continue
		}
		if other := inner(gears, name); other != nil {
			c.r.fault(n.place, "take", "the same name twice", fmt.Sprintf("Gear %s comes with the shaft, and another of that name sits on %s. Drop one, or give it another name in its file.", strconv.Quote(name), text(other, "shaft")))
			continue
		}
		taken := c.clone(g)
		c.sit(taken, n)
		if t.turned {
			c.move(taken, "at", turn)
			c.move(taken, "engages_at", turn)
			c.mirror(taken)
		}
		c.bringSteel(doc, taken, n.place)
		c.put(gears, name, taken)
		if c.from["gears."+name] == nil {
			c.from["gears."+name] = doc
		}
	}
	c.takeMeshes(doc, n.place)
}

// takeMeshes takes the pairs of another file of which both gears are from there now.
func (c *composer) takeMeshes(doc *yaml.Node, place diag.Place) {
	theirs := inner(doc, "meshes")
	for _, name := range keysOf(theirs) {
		m := inner(theirs, name)
		if c.from["gears."+text(m, "driver")] == doc && c.from["gears."+text(m, "driven")] == doc {
			c.put(c.within(c.root, "meshes", place), name, c.clone(m))
			c.from["meshes."+name] = doc
		}
	}
}

// sit puts a gear on a shaft by its name here.
func (c *composer) sit(g *yaml.Node, n partName) {
	if n.name != n.as {
		on := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: n.as}
		c.r.placed[on] = n.place
		c.put(g, "shaft", on)
	}
}

// mirror turns what has a left and a right end on a gear.
func (c *composer) mirror(g *yaml.Node) {
	for i := 0; i < len(g.Content); i += 2 {
		key := *g.Content[i]
		switch key.Value {
		case "relief_left":
			key.Value = "relief_right"
		case "relief_right":
			key.Value = "relief_left"
		default:
			continue
		}
		c.r.placed[&key] = c.r.placed[g.Content[i]]
		g.Content[i] = &key
	}
	minus := func(x float64) float64 { return 0 - x }
	c.move(g, "lead_error", minus)
	c.move(inner(g, "seat"), "offset", minus)
}

// takeGear takes one gear. It goes where the gear of its name sits, else to the same place in the box.
func (c *composer) takeGear(doc *yaml.Node, n partName) {
	theirs := c.there(doc, "gears", n)
	if theirs == nil || !c.claim("gears."+n.as, doc, n.place) {
		return
	}
	taken := c.clone(theirs)
	gears := c.within(c.root, "gears", n.place)
	if before := inner(gears, n.as); before != nil {
		for _, key := range []string{"shaft", "at", "engages_at"} {
			remove(taken, key)
			if at := keyIndex(before, key); at >= 0 {
				c.put(taken, key, before.Content[at+1])
			}
		}
	} else {
		shaft := text(taken, "shaft")
		on := inner(c.root, "shafts", shaft)
		if on == nil {
			c.r.fault(n.place, "take", "no shaft for a gear", fmt.Sprintf("Gear %s sits on shaft %s there, and this box has none of that name. Take the shaft too, or give its shaft and at here.", strconv.Quote(n.name), strconv.Quote(shaft)))
			return
		}
		by := millimetres(inner(doc, "shafts", shaft), "start") - millimetres(on, "start")
		for _, key := range []string{"at", "engages_at"} {
			c.move(taken, key, func(x float64) float64 { return x + by })
		}
	}
	c.bringSteel(doc, taken, n.place)
	c.put(gears, n.as, taken)
}

// takePair takes a mesh with its gears.
func (c *composer) takePair(doc *yaml.Node, n partName) {
	m := c.there(doc, "meshes", n)
	if m == nil || !c.claim("meshes."+n.as, doc, n.place) {
		return
	}
	taken := c.clone(m)
	old := inner(c.root, "meshes", n.as)
	for _, key := range []string{"driver", "driven"} {
		theirs := text(m, key)
		as := theirs
		if ours := text(old, key); ours != "" { // the pair that goes leaves its gears' names
			as = ours
			name := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: as}
			c.r.placed[name] = n.place
			c.put(taken, key, name)
		}
		c.takeGear(doc, partName{theirs, as, n.place})
	}
	c.put(c.within(c.root, "meshes", n.place), n.as, taken)
}

// takeBearing takes one bearing, which goes where the bearing of its name sits.
func (c *composer) takeBearing(doc *yaml.Node, n partName) {
	find := func(root *yaml.Node, path string) (in *yaml.Node, name string) {
		for _, s := range keysOf(inner(root, "shafts")) {
			if rest, ok := strings.CutPrefix(path, s+"."); ok {
				return inner(root, "shafts", s, "bearings"), rest
			}
		}
		return nil, path
	}
	in, name := find(doc, n.name)
	theirs := inner(in, name)
	into, as := find(c.root, n.as)
	ours := inner(into, as)
	if theirs == nil || ours == nil {
		c.r.fault(n.place, "take", "no such bearing", fmt.Sprintf("Found %s; a bearing is named by its shaft and its name, such as output.left, and both files must have it.", strconv.Quote(short(n.name))))
		return
	}
	if !c.claim("shafts."+n.as, doc, n.place) {
		return
	}
	taken := c.clone(theirs)
	for _, key := range []string{"at", "in", "in_at"} {
		remove(taken, key)
		if at := keyIndex(ours, key); at >= 0 {
			c.put(taken, key, ours.Content[at+1])
		}
	}
	c.put(into, as, taken)
}

// takeCase takes what a case settles: distances, sides, stiffness, its mass, and where the bearings sit in the box.
func (c *composer) takeCase(doc *yaml.Node, place diag.Place) {
	if !c.claim("case", doc, place) {
		return
	}
	for _, key := range []string{"centres", "side", "housing"} {
		remove(c.root, key)
		if at := keyIndex(doc, key); at >= 0 {
			c.put(c.root, key, c.clone(doc.Content[at+1]))
		}
	}
	if theirs := inner(doc, "parts", "case"); theirs != nil {
		c.put(c.within(c.root, "parts", place), "case", c.clone(theirs))
	}
	c.cases = casePlaces(doc)
	for _, p := range c.cases {
		on := inner(c.root, "shafts", p.shaft)
		c.move(inner(on, "bearings", p.bearing), "at", func(float64) float64 { return p.at - millimetres(on, "start") })
	}
}

// bringSteel gives a part from another file the steel that it has there, and brings that steel's own description.
func (c *composer) bringSteel(doc, taken *yaml.Node, place diag.Place) {
	if keyIndex(taken, "steel") < 0 {
		at := keyIndex(doc, "steel")
		if theirs, ours := text(doc, "steel"), text(c.root, "steel"); at < 0 || theirs == ours {
			if at < 0 && ours != "" {
				c.r.fault(place, "take", "a steel that isn't given", "The file it comes from says no steel for it, and this box has one for all parts that name none. Write steel there.")
			}
			return
		}
		c.put(taken, "steel", c.clone(doc.Content[at+1]))
	}
	name := text(taken, "steel")
	own := inner(doc, "steels", name)
	if own == nil {
		return
	}
	if ours := inner(c.root, "steels", name); ours == nil {
		c.put(c.within(c.root, "steels", place), name, c.clone(own))
	} else if !alike(ours, own) {
		c.r.fault(place, "take", "two steels of one name", fmt.Sprintf("Both files describe a steel %s, differently. Give one of them another name.", strconv.Quote(name)))
	}
}

// alike reports whether two values say the same, key by key.
func alike(a, b *yaml.Node) bool {
	a, b = resolved(a), resolved(b)
	if a.Kind != b.Kind || a.Value != b.Value || len(a.Content) != len(b.Content) {
		return false
	}
	if a.Kind == yaml.MappingNode {
		for i := 0; i+1 < len(a.Content); i += 2 {
			at := keyIndex(b, a.Content[i].Value)
			if at < 0 || !alike(a.Content[i+1], b.Content[at+1]) {
				return false
			}
		}
		return true
	}
	for i := range a.Content {
		if !alike(a.Content[i], b.Content[i]) {
			return false
		}
	}
	return true
}

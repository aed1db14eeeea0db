package boxfile

import (
	"crypto/sha256"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"

	"gopkg.in/yaml.v3"
)

// deepest is how many files may stand on one another as bases.
const deepest = 8

// A composer makes one document out of a file, the file that it is based on and the parts that it takes from others. What it makes is read like any other file; each value still knows
// in which file and line it was written.
type composer struct {
	r     *reader
	root  *yaml.Node            // what has been composed so far
	files map[string]*yaml.Node // documents of other files, by their paths; nil = can't be used, which is among the findings
	taken map[string]diag.Place // what was taken, by where it went: "shafts.output"
	from  map[string]*yaml.Node // the same: the document it was taken from
	cases []casePlace           // where the bearings of the base sit in its case
}

// composed is the root of a document with its base and the parts of others in it; the root itself when it stands alone. Nil when that can't be: the findings say why.
func (r *reader) composed(root *yaml.Node) *yaml.Node {
	if root == nil || root.Kind != yaml.MappingNode || keyIndex(root, "base") < 0 && keyIndex(root, "take") < 0 && keyIndex(root, "drop") < 0 {
		return root
	}
	if r.placed == nil {
		r.placed = map[*yaml.Node]diag.Place{}
	}
	c := &composer{r: r, files: map[string]*yaml.Node{}, taken: map[string]diag.Place{}, from: map[string]*yaml.Node{}}
	plan := c.plan(root)
	if r.list.HasErrors() {
		return nil
	}
	c.root = c.base(plan)
	if r.list.HasErrors() {
		return nil
	}
	c.takeAll(plan)
	c.drop(plan)
	c.override(c.root, root, "")
	if r.list.HasErrors() {
		return nil
	}
	c.checkFit(plan)
	return c.root
}

// plan reads what a file is composed of.
func (c *composer) plan(root *yaml.Node) *plan {
	p := &plan{}
	for i := 0; i+1 < len(root.Content); i += 2 {
		key := root.Content[i]
		j := slices.IndexFunc(planFields, func(f field[plan]) bool { return f.key == key.Value })
		if j < 0 {
			continue
		}
		if at, ok := c.r.enter(root.Content[i+1], key.Value, c.r.extent(key)); ok {
			planFields[j].value.read(c.r, at, p)
		}
	}
	return p
}

// base is the document to start from: that of the base without what belongs to that box alone, or an empty one.
func (c *composer) base(p *plan) *yaml.Node {
	if p.base == "" {
		return &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	}
	doc := c.open(p.base, p.basePlace)
	if doc == nil {
		return nil
	}
	root := c.clone(doc)
	for _, key := range []string{"name", "about", "history", "evidence", "weighed", "base", "take", "drop"} {
		remove(root, key)
	}
	c.cases = casePlaces(root)
	return root
}

// open reads another file, once. Paths are as seen from the file that names them.
func (c *composer) open(name string, place diag.Place) *yaml.Node {
	path := name
	if !filepath.IsAbs(name) {
		path = filepath.Join(filepath.Dir(c.r.file), name)
	}
	if doc, known := c.files[path]; known {
		return doc
	}
	c.files[path] = nil
	fault := func(summary, detail string) *yaml.Node {
		c.r.fault(place, "", summary, detail)
		return nil
	}
	if c.r.above >= deepest || slices.Contains(c.r.under, path) {
		return fault("a file that stands on itself", fmt.Sprintf("%q leads back to this file, or over more than %d others.", name, deepest))
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return fault("not a file", fmt.Sprintf("%q is no plain file.", name))
	}
	data, list := Load(path)
	if list != nil {
		return fault("can't read "+filepath.Base(name), list[0].Detail)
	}
	other := newReader(path)
	other.above, other.under = c.r.above+1, append(slices.Clone(c.r.under), path)
	doc := other.composed(other.parse(data))
	c.r.list = append(c.r.list, other.list...)
	if doc == nil || doc.Kind != yaml.MappingNode || other.list.HasErrors() {
		return nil
	}
	for _, o := range append(other.others, gearbox.Origin{File: filepath.Base(path), Sum: fmt.Sprintf("%x", sha256.Sum256(data))}) {
		if !slices.ContainsFunc(c.r.others, func(have gearbox.Origin) bool { return have.File == o.File && have.Sum == o.Sum }) {
			c.r.others = append(c.r.others, o)
		}
	}
	if !c.settle(other, doc, map[*yaml.Node]bool{}, new(int)) {
		return fault("too many values", fmt.Sprintf("%q holds more than %d values, or an alias that repeats the very thing it stands in.", name, budget))
	}
	c.files[path] = doc
	return doc
}

// settle notes where each node of another file stands. Not ok when there are too many.
func (c *composer) settle(other *reader, n *yaml.Node, open map[*yaml.Node]bool, visits *int) bool {
	if *visits++; *visits > budget || open[n] {
		return false
	}
	open[n] = true
	defer delete(open, n)
	c.r.placed[n] = other.extent(n)
	if n.Kind == yaml.AliasNode {
		return c.settle(other, n.Alias, open, visits)
	}
	for _, child := range n.Content {
		if !c.settle(other, child, open, visits) {
			return false
		}
	}
	return true
}

// clone is a copy of a node and all in it, aliases written out, each with the place of what it is a copy of.
func (c *composer) clone(n *yaml.Node) *yaml.Node {
	place, known := c.r.placed[n]
	if n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	copied := *n
	copied.Anchor, copied.Content = "", make([]*yaml.Node, len(n.Content))
	for i, child := range n.Content {
		copied.Content[i] = c.clone(child)
	}
	if known {
		c.r.placed[&copied] = place
	}
	return &copied
}

// override puts what the file itself says over what was composed: maps key by key, all else whole.
func (c *composer) override(over, own *yaml.Node, path string) {
	seen := map[string]bool{}
	for i := 0; i+1 < len(own.Content); i += 2 {
		key, value := own.Content[i], own.Content[i+1]
		if seen[key.Value] {
			c.r.fault(c.r.extent(key), join(path, key.Value), "the same key twice", fmt.Sprintf("%q is given twice. Keep one of them.", key.Value))
		}
		seen[key.Value] = true
		if at := keyIndex(over, key.Value); at >= 0 {
			if before := resolved(over.Content[at+1]); before.Kind == yaml.MappingNode && value.Kind == yaml.MappingNode {
				over.Content[at] = key
				c.override(before, value, join(path, key.Value))
				continue
			}
			over.Content[at], over.Content[at+1] = key, value
			continue
		}
		over.Content = append(over.Content, key, value)
	}
}

// drop takes things away that the file doesn't want of its base.
func (c *composer) drop(p *plan) {
	for _, d := range p.drop {
		in, key, found := c.root, "", false
		for rest := d.name; rest != ""; {
			key, _, _ = strings.Cut(rest, ".")
			for i := 0; i+1 < len(in.Content); i += 2 { // names may hold points: the longest that fits
				if k := in.Content[i].Value; (rest == k || strings.HasPrefix(rest, k+".")) && len(k) > len(key) {
					key = k
				}
			}
			at := keyIndex(in, key)
			if rest = behind(rest, key); at < 0 {
				break
			}
			if found = rest == ""; !found {
				if in = resolved(in.Content[at+1]); in.Kind != yaml.MappingNode {
					break
				}
			}
		}
		if !found {
			c.r.fault(d.place, "drop", "nothing there", fmt.Sprintf("Found %q; what was composed has no such thing. Write the path of it, such as speeds.5th.", short(d.name)))
			continue
		}
		remove(in, key)
	}
}

// inner is the map below some keys; nil where there is none.
func inner(n *yaml.Node, keys ...string) *yaml.Node {
	for _, key := range keys {
		at := -1
		if n != nil {
			at = keyIndex(n, key)
		}
		if at < 0 {
			return nil
		}
		n = resolved(n.Content[at+1])
	}
	if n.Kind != yaml.MappingNode {
		return nil
	}
	return n
}

// within is the map below a key, which is begun where there is none.
func (c *composer) within(n *yaml.Node, key string, place diag.Place) *yaml.Node {
	if m := inner(n, key); m != nil {
		return m
	}
	m := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	c.r.placed[m] = place
	c.put(n, key, m)
	return m
}

// put sets the value of a key. A new key stands where its value does.
func (c *composer) put(in *yaml.Node, key string, value *yaml.Node) {
	if at := keyIndex(in, key); at >= 0 {
		in.Content[at+1] = value
		return
	}
	k := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: key}
	c.r.placed[k] = c.r.placed[value]
	in.Content = append(in.Content, k, value)
}

// remove takes a key and its value away.
func remove(in *yaml.Node, key string) {
	if at := keyIndex(in, key); at >= 0 {
		in.Content = slices.Delete(slices.Clone(in.Content), at, at+2)
	}
}

// text is the value of a key as written; "" where there is none.
func text(in *yaml.Node, key string) string {
	if in == nil {
		return ""
	}
	if at := keyIndex(in, key); at >= 0 {
		if n := resolved(in.Content[at+1]); n.Kind == yaml.ScalarNode {
			return n.Value
		}
	}
	return ""
}

// millimetres is the value of a key in mm; 0 where it isn't given or can't be read, which the reader then says.
func millimetres(in *yaml.Node, key string) float64 { return measure(in, key, quantity.Length) }

func measure(in *yaml.Node, key string, d quantity.Dimension) float64 {
	written, _ := byInstrument(text(in, key), d)
	q, err := quantity.Parse(written, d)
	if err != nil {
		return 0
	}
	return q.Value
}

// move adds to a length that is given, keeping its ± and the place where it was written. Nothing moves by nothing, so that what is moved to where it was stays letter for letter.
func (c *composer) move(in *yaml.Node, key string, to func(float64) float64) {
	at := -1
	if in != nil {
		at = keyIndex(in, key)
	}
	if at < 0 {
		return
	}
	before := resolved(in.Content[at+1])
	if q, err := quantity.Parse(before.Value, quantity.Length); err == nil && to(q.Value) == q.Value {
		return
	}
	written, plus := byInstrument(before.Value, quantity.Length)
	q, err := quantity.Parse(written, quantity.Length)
	if err != nil {
		return
	}
	if plus > 0 {
		q.Tolerance = plus
	}
	const digits = 9 // of a mm: rounding leaves no tail of digits
	now := strconv.FormatFloat(to(q.Value), 'f', digits, 64)
	now = strings.TrimSuffix(strings.TrimRight(now, "0"), ".") + " mm"
	if q.Tolerance > 0 {
		now = strings.TrimSuffix(now, " mm") + " ± " + strconv.FormatFloat(q.Tolerance, 'g', 6, 64) + " mm"
	}
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: now}
	c.r.placed[n] = c.r.extent(before)
	in.Content[at+1] = n
}

// keysOf are the keys of a map; none of what is no map.
func keysOf(n *yaml.Node) (keys []string) {
	if n == nil {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		keys = append(keys, n.Content[i].Value)
	}
	return keys
}

// places are the parts taken, in order.
func (c *composer) places() []string { return slices.Sorted(maps.Keys(c.taken)) }

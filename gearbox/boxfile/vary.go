package boxfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"

	"gopkg.in/yaml.v3"
)

// A File is a box file that was read without errors and can be read again with values in it changed. It never changes itself, so several
// goroutines may read variations of it at once.
type File struct {
	name     string
	lines    [][]rune
	root     *yaml.Node
	readings []Reading
	placed   map[*yaml.Node]diag.Place // of nodes from other files
}

// Open reads a box file as Read does, and keeps it for variations. The file is nil when there are errors.
func Open(name string, data []byte) (*File, *gearbox.Box, diag.List) {
	r := newReader(name)
	root := r.composed(r.parse(data))
	box, list := r.finished(root)
	if box == nil {
		return nil, nil, list
	}
	f := &File{name: name, lines: r.lines, root: root, placed: r.placed}
	f.readings = f.uncertain(box, r.dimensions)
	return f, box, list
}

// A Change puts a value in the place of another, or adds a key that the file leaves out.
type Change struct {
	Path  string // of the value, with the names as the file has them: "shafts.output.sections.3.outer"; lists are counted from 1
	Value string // as it would stand in the file: "54 mm"
	Key   Key    // what the schema says of the value; the zero Key where the file gives the names, as in speeds

	steps []step
	key   diag.Place // of the path in what was typed
	place diag.Place // of the value there
}

// step leads from a map or list to something in it.
type step struct {
	key   string // of a map
	index int    // in a list, from 0; -1 = a key
}

// Change reads "path=value", as typed behind a flag. Findings call what was typed by the name typed and its line, so that several flags can be shown as
// the lines of one source. An error is in the list, which then is all that counts.
func (f *File) Change(typed string, line int, text string) (Change, diag.List) {
	from := phrase{typed, line, []rune(text)}
	if at := slices.IndexFunc(from.text, unseen); at >= 0 {
		return Change{}, from.fault(at, 1, "a control character", "The text holds a character that can't be seen. Delete it.")
	}
	equals := indices(from.text, '=')
	if len(equals) == 0 {
		return Change{}, from.fault(0, len(from.text), "no value", "Expected: a key path, =, and a value, such as input.torque=250 N·m.")
	}
	// Names may hold a "=" too: the first that stands behind a path is the one.
	var first diag.List
	for _, at := range equals {
		c, found := f.find(from, at)
		if found == nil {
			c.Value = strings.TrimSpace(string(from.text[at+1:]))
			c.place = from.trimmed(at+1, len(from.text))
			return c, nil
		}
		if first == nil {
			first = found
		}
	}
	return Change{}, first
}

// WithValue is the same change to another value. Findings about the value show the whole of what was typed.
func (c Change) WithValue(value string) Change {
	c.Value = value
	return c
}

// Place is where the value stands in what was typed.
func (c Change) Place() diag.Place { return c.place }

// Value is what the file has where a change would go, as written there; not ok when it has no single value there.
func (f *File) Value(c Change) (text string, ok bool) {
	node := f.root
	for _, s := range c.steps {
		node = resolved(node)
		at := s.index
		if at < 0 {
			if at = keyIndex(node, s.key); at < 0 {
				return "", false
			}
			at++
		}
		node = node.Content[at]
	}
	node = resolved(node)
	return node.Value, node.Kind == yaml.ScalarNode
}

// With reads the file anew with the changes in it. As with Read, the box is nil when there are errors.
func (f *File) With(changes ...Change) (*gearbox.Box, diag.List) {
	r := newReader(f.name)
	r.lines, r.placed, r.typed = f.lines, f.placed, map[*yaml.Node]typed{}
	root := *f.root
	for i, c := range changes {
		for _, before := range changes[:i] {
			if before.Path == c.Path {
				r.fault(c.key, c.Path, "changed twice", fmt.Sprintf("%s is given another value already. Keep one of them.", strconv.Quote(c.Path)))
			}
		}
		r.put(&root, c.steps, c)
	}
	box, list := r.finished(&root)
	for i, d := range list {
		if d.Severity == diag.Error && d.Place.File == f.name {
			list[i].Detail += " The file alone is right: this comes with what was changed."
		}
	}
	return box, list
}

// put sets a value below a map or list that is a copy already. What it goes through is copied, what it doesn't is shared with the file.
func (r *reader) put(in *yaml.Node, steps []step, c Change) {
	in.Content = slices.Clone(in.Content)
	at := steps[0].index
	if at < 0 {
		at = 1 + keyIndex(in, steps[0].key)
		if at == 0 {
			key := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: steps[0].key}
			r.typed[key] = typed{place: c.key}
			in.Content = append(in.Content, key, &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"})
			at = len(in.Content) - 1
			r.typed[in.Content[at]] = typed{place: c.key}
		}
	}
	if len(steps) > 1 {
		inner := *resolved(in.Content[at])
		if t, ok := r.typed[in.Content[at]]; ok {
			r.typed[&inner] = t
		} else {
			r.typed[&inner] = typed{original: in.Content[at]}
		}
		in.Content[at] = &inner
		r.put(&inner, steps[1:], c)
		return
	}
	value := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: c.Value}
	r.typed[value] = typed{place: c.place}
	in.Content[at] = value
	if steps[0].index < 0 {
		// The key too, so that what is said of it points at what was typed.
		key := *in.Content[at-1]
		r.typed[&key] = typed{place: c.key}
		in.Content[at-1] = &key
	}
}

// typed is where a node of a variation comes from: the place in what was typed, or the node of the file it is a copy of.
type typed struct {
	place    diag.Place
	original *yaml.Node
}

func keyIndex(in *yaml.Node, key string) int {
	for i := 0; i+1 < len(in.Content); i += 2 {
		if in.Content[i].Value == key {
			return i
		}
	}
	return -1
}

func resolved(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		return n.Alias
	}
	return n
}

// phrase is what a person typed behind a flag.
type phrase struct {
	typed string
	line  int
	text  []rune
}

func (p phrase) place(from, width int) diag.Place {
	return diag.Place{File: p.typed, Line: p.line, Column: from + 1, Width: max(width, 1)}
}

func (p phrase) fault(from, width int, summary, detail string) diag.List {
	return diag.List{{Place: p.place(from, width), Summary: summary, Detail: detail}}
}

// trimmed is the place of a stretch without the blanks around it.
func (p phrase) trimmed(from, to int) diag.Place {
	for from < to && p.text[from] == ' ' {
		from++
	}
	for to > from && p.text[to-1] == ' ' {
		to--
	}
	return p.place(from, to-from)
}

func indices(text []rune, of rune) (all []int) {
	for i, c := range text {
		if c == of {
			all = append(all, i)
		}
	}
	return all
}

// find follows the path that ends before a place in what was typed.
func (f *File) find(from phrase, end int) (Change, diag.List) {
	whole := string(from.text[:end])
	at := len(whole) - len(strings.TrimLeft(whole, " "))
	whole = strings.TrimSpace(whole)
	c := Change{Path: whole, key: from.place(at, utf8.RuneCountInString(whole))}
	if whole == "" {
		return c, from.fault(0, end, "no key", "Expected: a key path before the =, such as input.torque=250 N·m.")
	}
	node, pattern := f.root, ""
	for rest := whole; rest != ""; {
		column := at + utf8.RuneCountInString(whole) - utf8.RuneCountInString(rest)
		word, _, _ := strings.Cut(rest, ".")
		refuse := func(summary, detail string) (Change, diag.List) {
			return c, from.fault(column, utf8.RuneCountInString(word), summary, detail)
		}
		node = resolvedOrNil(node)
		if node != nil && node.Kind == yaml.ScalarNode {
			return refuse("nothing inside a value", fmt.Sprintf("%s is a value: nothing lies in it.", strconv.Quote(strings.TrimSuffix(whole[:len(whole)-len(rest)], "."))))
		}
		if node != nil && node.Kind == yaml.SequenceNode {
			n, err := strconv.Atoi(word)
			if err != nil || n < 1 || n > len(node.Content) {
				return refuse("no such place in the list", fmt.Sprintf("Found %q. Expected: a whole number from 1 to %d.", short(word), len(node.Content)))
			}
			c.steps = append(c.steps, step{index: n - 1})
			node, pattern, rest = node.Content[n-1], pattern+"[]", behind(rest, word)
			continue
		}
		key, child, known := inside(node, pattern, rest)
		if !known {
			return refuse("unknown key "+strconv.Quote(short(word)), child.advice(word))
		}
		c.steps = append(c.steps, step{key: key, index: -1})
		rest, pattern = behind(rest, key), child.pattern
		var next *yaml.Node
		if node != nil {
			if i := keyIndex(node, key); i >= 0 {
				next = node.Content[i+1]
			}
		}
		if next == nil && rest != "" && !child.group {
			return refuse("nothing there", fmt.Sprintf("The file has no %s, and only whole keys with a single value can be added.", strconv.Quote(short(key))))
		}
		node = next
	}
	c.Key = schemaKey(pattern)
	return c, nil
}

func resolvedOrNil(n *yaml.Node) *yaml.Node {
	if n == nil {
		return nil
	}
	return resolved(n)
}

// behind is the rest of a path behind its first word.
func behind(rest, word string) string { return strings.TrimPrefix(rest[len(word):], ".") }

// opening is what may stand in a map of a box file.
type opening struct {
	pattern string   // of what was found, as in Key.Path
	group   bool     // what was found is a map that can be begun anew
	known   []string // keys and names that there are or may be
}

func (o opening) advice(word string) string {
	shown := o.known
	if len(shown) > 20 {
		shown = append(slices.Clone(shown[:20]), "…")
	}
	if len(shown) == 0 {
		return "Nothing can be set here."
	}
	return "Known here: " + strings.Join(shown, ", ") + "." + didYouMean(word, o.known)
}

// inside finds with which key of a map a path goes on: one that the file has, the longest that fits, or one that the schema knows. node is nil where the file has no
// such map.
func inside(node *yaml.Node, pattern, rest string) (key string, o opening, known bool) {
	fits := func(k string) bool { return rest == k || strings.HasPrefix(rest, k+".") }
	schema := children(pattern)
	if node != nil {
		for i := 0; i+1 < len(node.Content); i += 2 {
			k := node.Content[i].Value
			o.known = append(o.known, k)
			if k != "" && fits(k) && len(k) > len(key) {
				key, known = k, true
			}
		}
	}
	named := slices.Contains(schema, "NAME")
	if !named {
		for _, k := range schema {
			if !slices.Contains(o.known, k) {
				o.known = append(o.known, k)
			}
			if fits(k) && len(k) > len(key) {
				key, known = k, true
			}
		}
		slices.Sort(o.known)
	}
	if len(schema) == 0 && !known && node != nil { // names of the user's own with a plain value each: sides, speeds
		key, known = rest, true
	}
	if named {
		o.pattern = join(pattern, "NAME")
	} else {
		o.pattern = join(pattern, key)
	}
	below := children(o.pattern)
	o.group = len(below) > 0 && !slices.Contains(below, "NAME")
	return key, o, known
}

// children are the keys in a map of the schema, "NAME" where the user gives the names.
func children(pattern string) (keys []string) {
	for _, k := range Schema() {
		rest := k.Path
		if pattern != "" {
			var ok bool
			if rest, ok = strings.CutPrefix(k.Path, pattern+"."); !ok {
				continue
			}
		}
		word, _, _ := strings.Cut(rest, ".")
		if word = strings.TrimSuffix(word, "[]"); !slices.Contains(keys, word) {
			keys = append(keys, word)
		}
	}
	return keys
}

func schemaKey(pattern string) Key {
	for _, k := range Schema() {
		if k.Path == pattern {
			return k
		}
	}
	return Key{}
}

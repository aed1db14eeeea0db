package boxfile

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"

	"gopkg.in/yaml.v3"
)

// budget is how many keys and values may be visited. An alias is a visit of everything it stands for, so a short file could otherwise stand for 10⁹
// values.
const budget = 10_000

// longestName is the length of a name in runes.
const longestName = 60

// A reader walks over the nodes of one file, fills the box and collects what is wrong.
type reader struct {
	file       string
	begins     string // what a file of this kind is and begins with, as a sentence
	lines      [][]rune
	box        *gearbox.Box
	list       diag.List
	visits     int
	open       map[*yaml.Node]bool // the maps and lists the reader stands in
	known      map[kind][]string   // names the file gives, by what they name
	refs       []reference
	dimensions map[string]quantity.Dimension // of the numbers that were read, by path
	placed     map[*yaml.Node]diag.Place     // where nodes stand that were composed into the file from others; nil when it stands alone
	above      int                           // files that stand on this one
	under      []string                      // their paths
	others     []gearbox.Origin              // the files that this one was composed of beside itself
	typed      map[*yaml.Node]typed          // nodes of a variation that don't stand in the file; nil when there are none
}

// A spot is a value in the file.
type spot struct {
	node  *yaml.Node // never an alias
	alias bool       // the value is written as an alias of the node
	path  string
	place diag.Place // of the value
	owner diag.Place // of the key or name it is the value of
}

func (r *reader) fault(place diag.Place, path, summary, detail string) {
	r.list = append(r.list, diag.Diagnostic{Place: place, Path: path, Summary: summary, Detail: detail})
}

func (r *reader) warn(place diag.Place, path, summary, detail string) {
	r.list = append(r.list, diag.Diagnostic{Severity: diag.Warning, Place: place, Path: path, Summary: summary, Detail: detail})
}

// faulty reports whether there is an error among the findings about the value of a path or anything in it.
func (r *reader) faulty(path string) bool {
	return slices.ContainsFunc(r.list, func(d diag.Diagnostic) bool {
		return d.Severity == diag.Error && (d.Path == path || strings.HasPrefix(d.Path, path+"."))
	})
}

// parts are the errors that were joined into one.
func parts(err error) []error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return joined.Unwrap()
	}
	if err != nil {
		return []error{err}
	}
	return nil
}

// enter makes a spot of a node. It is not ok when the node can't be followed; the reason is then among the findings.
func (r *reader) enter(n *yaml.Node, path string, owner diag.Place) (at spot, ok bool) {
	if r.visits++; r.visits > budget {
		return spot{}, false
	}
	at = spot{node: n, path: path, place: r.extent(n), owner: owner}
	if n.Kind == yaml.AliasNode {
		at.node, at.alias = n.Alias, true
	}
	switch {
	case r.open[at.node]:
		r.fault(at.place, path, "an alias inside itself", fmt.Sprintf("*%s repeats the very thing it stands in. Write the values out.", n.Value))
		return at, false
	case at.node.Style&yaml.TaggedStyle != 0:
		r.fault(at.place, path, "a tag", fmt.Sprintf("Tags such as %s are not used in box files: write the value alone.", at.node.Tag))
		return at, false
	}
	return at, true
}

// A pair is a key of a map and its value.
type pair struct {
	key     string
	place   diag.Place // of the key
	value   *yaml.Node
	refused bool // what is wrong with the value is told already
}

// pairs are the keys and values of a map, each key once. Not ok when the value is no map or the budget is used up.
func (r *reader) pairs(at spot, expected string) (all []pair, ok bool) {
	if at.node.Kind != yaml.MappingNode {
		r.wrongKind(at, expected)
		return nil, false
	}
	first := map[string]diag.Place{}
	for i := 0; i+1 < len(at.node.Content); i += 2 {
		if r.visits++; r.visits > budget {
			return nil, false
		}
		n := at.node.Content[i]
		if r.comma(at, i) {
			all[len(all)-1].refused = true
			continue
		}
		p := pair{key: n.Value, place: r.extent(n), value: at.node.Content[i+1]}
		before, twice := first[p.key]
		switch {
		case n.Kind != yaml.ScalarNode:
			r.fault(p.place, at.path, "not a key", "A key is plain text; here it is "+kindOf(n)+".")
			continue
		case n.ShortTag() == "!!merge":
			r.fault(p.place, at.path, "a merge key", "<< hides where a value comes from and isn't read here. Write the keys out; a single value may be an alias.")
			continue
		case twice:
			r.fault(p.place, join(at.path, p.key), "the same key twice", fmt.Sprintf("%q is already given in line %d, column %d. Keep one of them.", p.key, before.Line, before.Column))
			continue
		}
		first[p.key] = p.place
		all = append(all, p)
	}
	return all, true
}

// comma reports a decimal comma within braces, where YAML ends the value at the comma and takes the rest for a key: {distance: 67,5 mm} is the distance 67 and a key "5 mm" without
// a value. The key is the one at place i.
func (r *reader) comma(at spot, i int) bool {
	if i == 0 || at.node.Style&yaml.FlowStyle == 0 {
		return false
	}
	value, rest, nothing := at.node.Content[i-1], at.node.Content[i], at.node.Content[i+1]
	plain := func(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Style == 0 }
	place := r.extent(value)
	if !plain(value) || !plain(rest) || !isNull(nothing) || nothing.Value != "" || !lastDigit.MatchString(value.Value) || !firstDigit.MatchString(rest.Value) || rest.Line != value.Line {
		return false
	}
	between := rest.Column - place.Column - place.Width // a comma and nothing else
	written := value.Value + "," + rest.Value
	if between != 1 {
		return false
	}
	place.Width += 1 + utf8.RuneCountInString(rest.Value)
	detail := "write " + value.Value + "." + rest.Value + "."
	if decimals := firstDigit.FindString(rest.Value); len(decimals) == 3 {
		detail = fmt.Sprintf("write %s.%s, or %s%s if thousands are meant.", value.Value, rest.Value, value.Value, rest.Value)
	}
	r.fault(place, join(at.path, at.node.Content[i-2].Value), "a comma in a number", strconv.Quote(short(written))+": the decimal sign is a point: "+detail)
	return true
}

var (
	lastDigit  = regexp.MustCompile(`[0-9]$`)
	firstDigit = regexp.MustCompile(`^[0-9]+`)
)

// inside runs f while the reader stands in the map or list at.
func (r *reader) inside(at spot, f func()) {
	r.open[at.node] = true
	f()
	delete(r.open, at.node)
}

// wrongKind reports a value of another kind than expected: "a list of sections".
func (r *reader) wrongKind(at spot, expected string) {
	if isNull(at.node) {
		r.fault(at.owner, at.path, "missing value", "Expected: "+expected+".")
		return
	}
	found := kindOf(at.node)
	if at.node.Kind == yaml.ScalarNode {
		found = strconv.Quote(short(at.node.Value))
	}
	r.fault(at.place, at.path, "wrong kind of value", "Found "+found+". Expected: "+expected+".")
}

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && (n.ShortTag() == "!!null" || strings.TrimSpace(n.Value) == "")
}

func isText(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && !isNull(n) }

func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a map (key: value)"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "an alias"
	default:
		return "plain text"
	}
}

// scalar is the text of a value. Not ok when it is empty or no plain value.
func (r *reader) scalar(at spot, expected string) (text string, ok bool) {
	if !isText(at.node) {
		r.wrongKind(at, expected)
		return "", false
	}
	return at.node.Value, true
}

// checkName reports whether text can be the name of something; what is the thing: "the gear".
func (r *reader) checkName(text string, place diag.Place, path string) bool {
	switch {
	case strings.TrimSpace(text) == "":
		r.fault(place, path, "an empty name", "A name is any text of 1 to 60 characters.")
	case utf8.RuneCountInString(text) > longestName:
		r.fault(place, path, "a name too long", fmt.Sprintf("The name has %d characters; at most %d are read, so that tables stay readable.", utf8.RuneCountInString(text), longestName))
	case strings.ContainsFunc(text, unseen):
		r.fault(place, path, "a control character in a name", strconv.Quote(text)+" holds a character that can't be seen. Delete it.")
	case strings.TrimSpace(text) != text:
		r.fault(place, path, "a space around a name", strconv.Quote(text)+" begins or ends with a space, which nobody sees. Delete it.")
	default:
		return true
	}
	return false
}

// unseen are the characters that break lines, move the cursor or turn the direction of writing.
func unseen(c rune) bool {
	return unicode.IsControl(c) || unicode.In(c, unicode.Zl, unicode.Zp, unicode.Bidi_Control) || c == '\uFEFF'
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// short is text cut to what fits into a sentence.
func short(text string) string {
	if r := []rune(text); len(r) > longestName {
		return string(r[:longestName-1]) + "…"
	}
	return text
}

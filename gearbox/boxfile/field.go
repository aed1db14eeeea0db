package boxfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"

	"gopkg.in/yaml.v3"
)

// A field is one key of a map that is read into a T. The same tables of fields steer the reader and make the description of the schema.
type field[T any] struct {
	key      string
	once     string // what older files call it, which is read too; "" = nothing else
	about    string // what it is, with the place or sign it counts from
	need     bool
	fallback string // what holds when the key is left out, in words
	value    value[T]
}

// A value says how a value is written and how it is read into a T.
type value[T any] struct {
	written string // "length", "list of sections"
	read    func(r *reader, at spot, to *T)
	keys    func(prefix string) []Key // of the values inside; nil when there are none
	number  numeric                   // of a value that is a number
	owns    bool                      // the word unknown is among its values
}

// numeric says what kind of number a value is.
type numeric struct {
	is, whole bool
	dimension quantity.Dimension
}

// A check looks at a map when it was read; given are its keys. Values that were refused have their defaults then.
type check[T any] func(r *reader, at spot, to *T, given map[string]bool)

// readMap reads a map by its fields and reports keys that are unknown or missing; one that is missing because it stands there misspelt is reported once. It returns the known keys that were given; nil when there
// is no map.
func readMap[T any](r *reader, at spot, fields []field[T], to *T) (given map[string]bool) {
	pairs, ok := r.pairs(at, "a map with the keys "+keyList(fields))
	if !ok {
		return nil
	}
	given = map[string]bool{}
	meant := map[string]bool{} // by keys that are unknown
	r.inside(at, func() {
		for _, p := range pairs {
			i := slices.IndexFunc(fields, func(f field[T]) bool { return f.key == p.key || f.once != "" && f.once == p.key })
			if i < 0 {
				key, says := keyFor(p.key, keyNames(fields))
				meant[key] = true
				r.fault(p.place, join(at.path, p.key), "unknown key "+strconv.Quote(short(p.key)), "Known here: "+keyList(fields)+"."+says)
				continue
			}
			key := fields[i].key
			if given[key] { // by its older name too: the same one twice was refused before
				r.fault(p.place, join(at.path, key), "the same key twice", fmt.Sprintf("%q is what older files call %q, which is given too. Keep one of them.", fields[i].once, key))
				continue
			}
			given[key] = true
			if p.refused {
				continue
			}
			if child, ok := r.enter(p.value, join(at.path, key), p.place); ok {
				r.box.Places[child.path] = p.place
				if !refusesUnknown(r, child, fields[i]) {
					fields[i].value.read(r, child, to)
				}
			}
		}
	})
	for _, f := range fields {
		if f.need && !given[f.key] && !meant[f.key] {
			r.fault(at.owner, at.path, "missing key "+strconv.Quote(f.key), sentence(f.about)+" "+"Expected: "+f.value.written+".")
		}
	}
	return given
}

// readNamed reads a map from names to things of one kind, in the order of the file. Names that differ in capitals or spaces alone are refused.
func readNamed(r *reader, at spot, of kind, read func(name string, at spot)) {
	pairs, ok := r.pairs(at, "a map from names to "+of.plural())
	if !ok {
		return
	}
	if len(pairs) == 0 {
		r.fault(at.owner, at.path, "missing value", "Expected: at least one "+string(of)+".")
	}
	folded, seen := map[string]string{}, map[string]string{}
	r.inside(at, func() {
		for _, p := range pairs {
			path := join(at.path, p.key)
			if !r.checkName(p.key, p.place, path) {
				continue
			}
			like := strings.ToLower(strings.Join(strings.Fields(p.key), " "))
			if other, clash := folded[like]; clash {
				r.fault(p.place, path, "names too alike", fmt.Sprintf("%q and %q differ in capitals or spaces alone. Give one of them another name.", other, p.key))
			} else if other, clash := seen[asSeen(p.key)]; clash {
				r.warn(p.place, path, "names that look alike", toldApart(other, p.key)+" Give one of them another name, or write both with the same letters if they are one.")
			}
			folded[like], seen[asSeen(p.key)] = p.key, p.key
			r.known[of] = append(r.known[of], p.key)
			if p.refused {
				continue
			}
			if child, ok := r.enter(p.value, path, p.place); ok {
				r.box.Places[path] = p.place
				read(p.key, child)
			}
		}
	})
}

// readList reads a list of things; one is what each of them is.
func readList(r *reader, at spot, one string, read func(at spot)) (n int, ok bool) {
	if at.node.Kind != yaml.SequenceNode {
		r.wrongKind(at, "a list, each item "+one)
		return 0, false
	}
	r.inside(at, func() {
		for i, n := range at.node.Content {
			if child, ok := r.enter(n, join(at.path, strconv.Itoa(i)), r.extent(n)); ok {
				r.box.Places[child.path] = child.place
				read(child)
			}
		}
	})
	return len(at.node.Content), true
}

// group is a value that is itself a map, read into a part of T. Check may be nil.
func group[T, U any](fields []field[U], part func(*T) *U, check check[U]) value[T] {
	return value[T]{
		written: "map",
		read: func(r *reader, at spot, to *T) {
			u := part(to)
			if given := readMap(r, at, fields, u); given != nil && check != nil {
				check(r, at, u, given)
			}
		},
		keys: func(prefix string) []Key { return describe(prefix, fields) },
	}
}

// list is a value that is a list of maps, each read into a U and added to a slice of T.
func list[T, U any](one string, fields []field[U], slice func(*T) *[]U, check check[U]) value[T] {
	item := group(fields, func(u *U) *U { return u }, check)
	return value[T]{
		written: "list of maps",
		read: func(r *reader, at spot, to *T) {
			n, ok := readList(r, at, "a map that describes a "+one, func(at spot) {
				var u U
				item.read(r, at, &u)
				*slice(to) = append(*slice(to), u)
			})
			if ok && n == 0 {
				r.fault(at.owner, at.path, "missing value", "Expected: at least one "+one+".")
			}
		},
		keys: func(prefix string) []Key { return item.keys(prefix + "[]") },
	}
}

// named is a value that is a map from names to maps, each read into a U that begins as start makes it and is handed to add.
func named[T, U any](of kind, fields []field[U], start func(name string) U, add func(to *T, u U), check check[U]) value[T] {
	item := group(fields, func(u *U) *U { return u }, check)
	return value[T]{
		written: "map from names to maps",
		read: func(r *reader, at spot, to *T) {
			readNamed(r, at, of, func(name string, at spot) {
				u := start(name)
				item.read(r, at, &u)
				add(to, u)
			})
		},
		keys: func(prefix string) []Key { return item.keys(prefix + ".NAME") },
	}
}

func keyNames[T any](fields []field[T]) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.key
	}
	return names
}

func keyList[T any](fields []field[T]) string {
	return strings.Join(slices.Sorted(slices.Values(keyNames(fields))), ", ")
}

// didYouMean is the sentence that proposes the nearest of the known words, with a space before it; "" when none is near. Among
// very many words none is sought: the time grows with their number, and no box has so many.
func didYouMean(word string, known []string) string {
	const many = 100
	if len(known) > many {
		return ""
	}
	if near, ok := diag.Nearest(word, known); ok {
		return " Did you mean " + strconv.Quote(near) + "?"
	}
	return ""
}

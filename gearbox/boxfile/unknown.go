package boxfile

import (
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"

	"gopkg.in/yaml.v3"
)

// unknown is the word for what a builder may not know. The key then counts as left out, and Box.Unknown keeps that the file owns up to it.
const unknown = "unknown"

// ownUp is said where a value is wrong that may be unknown.
const ownUp = " If nobody knows it: unknown."

// orUnknown is a value that may be that word too.
func orUnknown[T any](v value[T]) value[T] {
	inner := v.read
	v.owns = true
	if strings.Contains(v.written, " | ") {
		v.written += " | " + unknown
	} else {
		v.written = unknown + " or " + v.written
	}
	v.read = func(r *reader, at spot, to *T) {
		if isText(at.node) && at.node.Value == unknown {
			r.box.Unknown[at.path] = true
			r.box.Places[at.path] = at.place
			return
		}
		before := len(r.list)
		inner(r, at, to)
		for i, d := range r.list[before:] {
			if d.Severity == diag.Error && d.Path == at.path && at.node.Kind != yaml.MappingNode {
				r.list[before+i].Detail += ownUp
			}
		}
	}
	return v
}

// refusesUnknown reports the word where a number or a map is expected that can't be unknown, and says what to do instead.
func refusesUnknown[T any](r *reader, at spot, f field[T]) bool {
	if f.value.owns || !f.value.number.is && f.value.keys == nil || !isText(at.node) || at.node.Value != unknown {
		return false
	}
	advice := "It is needed: measure it. Expected: " + f.value.written + "."
	switch {
	case f.need:
	case f.fallback == "–":
		advice = "Leave the key out."
	default:
		advice = "Leave the key out (default: " + f.fallback + ")."
	}
	r.fault(at.place, at.path, "not a value here", sentence(f.about)+" "+advice)
	return true
}

// settleHands gives every hand that is unknown: the two gears of a mesh have opposite hands, and a gear has one in all its meshes, so one known hand
// settles those that hang together with it, which are unknown no longer. Where none is known the file's first is right-handed.
func (r *reader) settleHands() {
	of := map[string]gearbox.Hand{} // by gear
	settle := func(i int) bool {
		m := &r.box.Meshes[i]
		hand := of[m.Driver]
		if hand == gearbox.Spur {
			hand = of[m.Driven].Opposite()
		}
		if hand == gearbox.Spur {
			return false
		}
		m.Hand, of[m.Driver], of[m.Driven] = hand, hand, hand.Opposite()
		return true
	}
	var open []int
	for i, m := range r.box.Meshes {
		switch {
		case m.Helix == 0:
		case r.box.Unknown[handPath(m)]:
			open = append(open, i)
		default:
			of[m.Driver], of[m.Driven] = m.Hand, m.Hand.Opposite()
		}
	}
	assumed := false // whether a hand that settles the rest was itself assumed
	for len(open) > 0 {
		i := slices.IndexFunc(open, settle)
		if i < 0 {
			i, assumed = 0, true
			of[r.box.Meshes[open[0]].Driver] = gearbox.Right
			settle(open[0])
		}
		if !assumed {
			delete(r.box.Unknown, handPath(r.box.Meshes[open[i]]))
		}
		open = slices.Delete(open, i, i+1)
	}
}

func handPath(m gearbox.Mesh) string { return join("meshes."+m.Name, "hand") }

package boxfile

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// spansRead is a map from numbers of teeth to measured base tangent lengths.
func spansRead() value[gearbox.Gear] {
	const expected = "a map from numbers of teeth to lengths"
	return value[gearbox.Gear]{
		written: "map from numbers of teeth to lengths",
		read: func(r *reader, at spot, g *gearbox.Gear) {
			pairs, ok := r.pairs(at, expected)
			if !ok {
				return
			}
			if len(pairs) == 0 {
				r.fault(at.owner, at.path, "missing value", "Expected: "+expected+".")
			}
			r.inside(at, func() {
				for _, p := range pairs {
					path := at.path // one key of the schema, whatever teeth it is of
					child, ok := r.enter(p.value, path, p.place)
					if !ok || p.refused {
						continue
					}
					n, err := strconv.Atoi(p.key)
					if err != nil || n < 1 || strconv.Itoa(n) != p.key {
						r.fault(p.place, path, "not a key here", fmt.Sprintf("Found %q; expected %s.", short(p.key), expected))
						continue
					}
					if q, ok := r.quantity(child, quantity.Length, positive); ok {
						g.Spans = append(g.Spans, gearbox.SpanRead{Teeth: n, Length: q.Value, Within: q.Tolerance})
					}
				}
			})
			r.box.Places[at.path] = at.owner
			delete(r.box.Tolerances, at.path) // each span keeps its own
			slices.SortFunc(g.Spans, func(a, b gearbox.SpanRead) int { return cmp.Compare(a.Teeth, b.Teeth) })
		},
	}
}

// checkSpans refuses spans over more teeth than jaws reach.
func checkSpans(r *reader, at spot, g *gearbox.Gear) {
	for _, s := range g.Spans {
		if path := join(at.path, "spans"); g.Teeth > 0 && s.Teeth > g.Teeth/2 {
			r.fault(r.box.Places[path], path, "a span over too many teeth",
				fmt.Sprintf("Over %d of %d teeth the jaws don't reach: a span goes over half of them at the most.", s.Teeth, g.Teeth))
		}
	}
}

package study

import (
	"fmt"
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
)

// Known is Narrow for boxes of which not all may be known. What a box that survived says of its steel depends on where its shafts lie and which way it turned: so each of its alternatives is
// narrowed by itself, beside one of each other box, and one that its history rules out is left out. The box itself has the steels of the first that is left. Without
// evidence nothing is done, and a box of which all is known is narrowed as ever.
func Known(boxes []*gearbox.Box, method gearbox.Method) ([]*gearbox.Box, diag.List, error) {
	if !slices.ContainsFunc(boxes, func(b *gearbox.Box) bool { return len(b.Evidence) > 0 }) {
		return boxes, nil, nil
	}
	alternatives, tried := make([][]*gearbox.Box, len(boxes)), make([][]string, len(boxes))
	taken := make([]*gearbox.Box, len(boxes)) // one alternative of each
	for i, b := range boxes {
		var err error
		if alternatives[i], tried[i], err = gearbox.Alternatives(b); err != nil {
			return nil, nil, err
		}
		taken[i] = alternatives[i][0]
	}
	for i, b := range boxes {
		if taken[i] == b {
			continue
		}
		left, out, list, err := possible(taken, i, alternatives[i], method)
		if err != nil || len(left) == 0 {
			return nil, list, err
		}
		alternatives[i], tried[i], taken[i] = left, append(slices.Clone(tried[i]), out...), left[0]
	}
	narrowed, found, err := Narrow(taken, method)
	if err != nil || found.HasErrors() {
		return nil, found, err
	}
	for i, b := range boxes {
		if alternatives[i][0] == b {
			continue
		}
		c := *b
		c.Steels, c.Narrowed, c.Lessons, c.Survived = narrowed[i].Steels, narrowed[i].Narrowed, narrowed[i].Lessons, narrowed[i].Survived
		c.Alternatives, c.Tried = alternatives[i], tried[i]
		narrowed[i] = &c
	}
	return narrowed, found, nil
}

// possible are the alternatives of one of some boxes that its evidence allows, narrowed; out says why others are left out. The list has the errors of the last when none is left.
func possible(boxes []*gearbox.Box, i int, alternatives []*gearbox.Box, method gearbox.Method) (left []*gearbox.Box, out []string, list diag.List, err error) {
	for _, a := range alternatives {
		beside := slices.Clone(boxes)
		beside[i] = a
		narrowed, found, err := Narrow(beside, method)
		switch {
		case err != nil:
			return nil, nil, nil, err
		case found.HasErrors():
			list = found
			out = append(out, fmt.Sprintf("The service history rules out %s: %s", a.Variant, reason(found)))
		default:
			left = append(left, narrowed[i])
		}
	}
	return left, out, list, nil
}

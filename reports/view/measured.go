package view

import (
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// MeasuredTable has one row for each tip, root and span that was measured, beside what the gear data make.
func MeasuredTable(r *gearbox.Result, o Options) *Table {
	decimals := 3
	if o.Units == quantity.US {
		decimals = 4
	}
	length := func(head string) Column { return numbers(head, quantity.Length).rounded(decimals) }
	t := o.table("Measured, and what the gear data make", wrapped("gear", 10), wrapped("size", 12), length("measured"), length("±"), length("made"),
		length("off"), wrapped("do they fit", 14))
	for _, m := range r.Measured {
		fits := "fits"
		if m.Doubt != "" {
			fits = "? " + m.Doubt
		}
		off := number(m.Read - m.Made)
		off.signed = true
		t.add(word(m.Gear), word(m.What), number(m.Read), number(m.Within), number(m.Made), off, word(fits))
	}
	return t.done()
}

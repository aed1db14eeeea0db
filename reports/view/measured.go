package view

import (
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// MeasuredTable has one row for each tip, root and span that was measured, beside what the gear data make; nil where none was.
func MeasuredTable(r *gearbox.Result, o Options) *Table {
	digits := 3
	if o.Units == quantity.US {
		digits = 4
	}
	unit := quantity.Unit(quantity.Length, o.Units)
	t := o.table("Measured, and what the gear data make", wrapped("gear", 10), wrapped("size", 12), right("measured", unit), right("±", unit), right("made", unit), right("off", unit), wrapped("", 14))
	in := func(v float64) string { return Fixed(quantity.Convert(v, quantity.Length, o.Units), digits) }
	for _, m := range r.Measured {
		fits := "fits"
		if m.Doubt != "" {
			fits = "? " + m.Doubt
		}
		t.add(wordsOf(m.Gear, m.What, in(m.Read), in(m.Within), in(m.Made), Signed(in(m.Read-m.Made)), fits)...)
	}
	return t.done()
}

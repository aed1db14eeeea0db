package reports

import (
	"bytes"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/reports/view"
)

// measuredTable has one row for each tip, root and span that was measured, beside what the gear data make.
func measuredTable(b *bytes.Buffer, r *gearbox.Result, o Options) {
	if len(r.Measured) == 0 {
		return
	}
	b.WriteString("\n  Measured, and what the gear data make\n")
	digits := 3
	if o.Units == quantity.US {
		digits = 4
	}
	in := func(v float64) string { return view.Fixed(quantity.Convert(v, quantity.Length, o.Units), digits) }
	var rows [][]cell
	for _, m := range r.Measured {
		fits := "fits"
		if m.Doubt != "" {
			fits = "? " + m.Doubt
		}
		rows = append(rows, texts(view.Clean(m.Gear), m.What, in(m.Read), in(m.Within), in(m.Made), view.Signed(in(m.Read-m.Made)), fits))
	}
	unit := "\n" + quantity.Unit(quantity.Length, o.Units)
	table(b, o.width(), []head{{text: "gear", least: 10, wrap: true}, {text: "size", least: 12, wrap: true},
		{text: "measured" + unit, right: true}, {text: "±" + unit, right: true}, {text: "made" + unit, right: true},
		{text: "off" + unit, right: true}, {text: "", least: 14, wrap: true}}, rows)
}

type measuredJSON struct {
	Gear   string `json:"gear"`
	What   string `json:"size"`
	Read   number `json:"measured_mm"`
	Within number `json:"within_mm"`
	Made   number `json:"made_mm"`
	Doubt  string `json:"doubt"`
}

func newMeasured(m gearbox.Measured) measuredJSON {
	return measuredJSON{m.Gear, m.What, number(m.Read), number(m.Within), number(m.Made), m.Doubt}
}

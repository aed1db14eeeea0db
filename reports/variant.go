package reports

import (
	"bytes"
	"math"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// variantTables tell what changes to a box buy: all of them together, and then each alone.
func variantTables(b *bytes.Buffer, h *study.Headroom, o Options) {
	if len(h.Variants) == 0 {
		return
	}
	b.WriteString("\n  What the change buys\n")
	for i, c := range h.Variants[0].Changes {
		paragraph(b, o.width(), indent+changeMark(h, i), view.Clean(c))
	}
	boughtTable(b, h, &h.Variants[0], o)
	if len(h.Variants) > 1 {
		aloneTable(b, h, o)
	}
}

// changeMark is the letter of one of several changes; nothing when there is one.
func changeMark(h *study.Headroom, i int) string {
	if len(h.Variants[0].Changes) < 2 {
		return ""
	}
	return view.Letter(i) + "  "
}

// boughtTable has each speed before and after the changes.
func boughtTable(b *bytes.Buffer, h *study.Headroom, v *study.Variant, o Options) {
	var torques, factors []float64
	for i := range h.Speeds {
		now, then := &h.Speeds[i], v.Reserve(h.Speeds[i].Speed)
		torques, factors = append(torques, now.Allowable()), append(factors, now.FaceFactor)
		if then == nil {
			torques, factors = append(torques, math.NaN()), append(factors, math.NaN())
			continue
		}
		torques, factors = append(torques, then.Allowable()), append(factors, then.FaceFactor)
	}
	torque, factor := view.AlikeIn(torques, quantity.Torque, o.Units), view.Alike(factors)
	for i, f := range factors {
		if math.IsNaN(f) {
			factor[i] = view.Absent
		}
	}
	var rows [][]cell
	for i := range h.Speeds {
		now, then := &h.Speeds[i], v.Reserve(h.Speeds[i].Speed)
		row := []cell{{text: view.Clean(now.Speed)}, {text: torque[2*i]}}
		if then == nil {
			rows = append(rows, append(row, texts(view.Absent, view.Absent, view.Absent, "has no such speed any more", factor[2*i], view.Absent)...))
			continue
		}
		first := view.NotReached
		if view.Finite(then.Allowable()) {
			first = limitWords(then.Limits[0])
			if view.Finite(now.Allowable()) && first == limitWords(now.Limits[0]) {
				first = "as before"
			}
		}
		rows = append(rows, append(row, cell{text: torque[2*i+1]}, cell{text: relative(then.Allowable()/now.Allowable() - 1)}, stateCell(then.State, o.Colour),
			cell{text: first}, cell{text: factor[2*i]}, cell{text: factor[2*i+1]}))
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	table(b, o.width(), []head{
		{text: "speed", least: 5},
		{text: "allowable\nnow, " + unit, right: true},
		{text: "then\n" + unit, right: true},
		{text: "change\n%", right: true},
		{text: "state\nthen"},
		{text: "limited by\nthen", least: 14, wrap: true},
		{text: "K_Hβ\nnow", right: true},
		{text: "\nthen", right: true},
	}, rows)
	paragraph(b, o.width(), indent, "K_Hβ is the peak over the mean load along the face, of the mesh where it is largest, at the torque asked.")
}

// aloneTable has by how much each change alone moves the allowable torque of each speed.
func aloneTable(b *bytes.Buffer, h *study.Headroom, o Options) {
	b.WriteString("\n  Change of the allowable torque, %\n")
	heads := []head{{text: "speed", least: 5}, {text: "together", right: true}}
	for i := range h.Variants[1:] {
		heads = append(heads, head{text: view.Letter(i) + " alone", right: true})
	}
	var rows [][]cell
	for i := range h.Speeds {
		now := &h.Speeds[i]
		row := []cell{{text: view.Clean(now.Speed)}}
		for k := range h.Variants {
			text := view.Absent
			if then := h.Variants[k].Reserve(now.Speed); then != nil {
				text = relative(then.Allowable()/now.Allowable() - 1)
			}
			row = append(row, cell{text: text})
		}
		rows = append(rows, row)
	}
	const most = 8 // columns that fit
	for from := 1; from < len(heads); from += most {
		to := min(from+most, len(heads))
		var part [][]cell
		for _, r := range rows {
			part = append(part, append([]cell{r[0]}, r[from:to]...))
		}
		table(b, o.width(), append([]head{heads[0]}, heads[from:to]...), part)
	}
}

// variantName is the changes of a variant in one line, for CSV.
func variantName(v *study.Variant) string { return strings.Join(v.Changes, "; ") }

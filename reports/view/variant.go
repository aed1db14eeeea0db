package view

import (
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// VariantTables tell what changes to a box buy: all of them together, and then each alone.
func VariantTables(h *study.Headroom, o Options) []*Table {
	if len(h.Variants) == 0 {
		return nil
	}
	return []*Table{boughtTable("What the change buys", h, &h.Variants[0], o), aloneTable(h, o)}
}

// AloneTables tell the same of each change alone as of all together.
func AloneTables(h *study.Headroom, o Options) (all []*Table) {
	for k := 1; k < len(h.Variants); k++ {
		all = append(all, boughtTable("What change "+Letter(k-1)+" buys alone", h, &h.Variants[k], o))
	}
	return all
}

// Changes are the changes of the first variant, each behind its letter where there are several.
func Changes(h *study.Headroom) (lettered [][2]string) {
	if len(h.Variants) == 0 {
		return nil
	}
	for i, c := range h.Variants[0].Changes {
		letter := ""
		if len(h.Variants[0].Changes) > 1 {
			letter = Letter(i)
		}
		lettered = append(lettered, [2]string{letter, Clean(c)})
	}
	return lettered
}

// boughtTable has each speed before and after the changes.
func boughtTable(caption string, h *study.Headroom, v *study.Variant, o Options) *Table {
	torque, factor := numbers("allowable\nnow", quantity.Torque).alike(1), numbers("K_Hβ\nnow", quantity.Number).alike(2)
	then := func(c Column) Column { c.Head = "then"; return c }
	t := o.table(caption, words("speed", 5), torque, then(torque), right("change", "%"), words("state\nthen", 0), wrapped("limited by\nthen", 14), factor, then(factor))
	for i := range h.Speeds {
		now, then := &h.Speeds[i], v.Reserve(h.Speeds[i].Speed)
		if then == nil {
			t.add(word(now.Speed), known(now.Allowable()), absent(), absent(), absent(), word("has no such speed any more"), known(now.FaceFactor), absent())
			continue
		}
		first := NotReached
		if Finite(then.Allowable()) {
			first = limitWords(then.Limits[0])
			if Finite(now.Allowable()) && first == limitWords(now.Limits[0]) {
				first = "as before"
			}
		}
		t.add(word(now.Speed), known(now.Allowable()), known(then.Allowable()), word(relative(then.Allowable()/now.Allowable()-1)), state(then.State), word(first), known(now.FaceFactor), known(then.FaceFactor))
	}
	t.say("K_Hβ is the peak over the mean load along the face, of the mesh where it is largest, at the torque asked.")
	return t.done()
}

// aloneTable has by how much each change alone moves the allowable torque of each speed; nothing where there is only one.
func aloneTable(h *study.Headroom, o Options) *Table {
	if len(h.Variants) < 2 {
		return nil
	}
	t := o.table("Change of the allowable torque", words("speed", 5), right("together", "%"))
	for i := range h.Variants[1:] {
		t.columns(right(Letter(i)+" alone", "%"))
	}
	for i := range h.Speeds {
		now := &h.Speeds[i]
		row := []Cell{word(now.Speed)}
		for k := range h.Variants {
			text := Absent
			if then := h.Variants[k].Reserve(now.Speed); then != nil {
				text = relative(then.Allowable()/now.Allowable() - 1)
			}
			row = append(row, word(text))
		}
		t.add(row...)
	}
	return t.done()
}

package view

import (
	"fmt"
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// ShaftLetter is how a shaft is called in a drawing.
func ShaftLetter(i int) string { return string(rune('A' + i%26)) }

// GearNumber is how a gear is called in a drawing.
func GearNumber(i int) string { return strconv.Itoa(i + 1) }

// Turning is the sign of a sense about +x, for who looks along +x.
func Turning(sense float64) string {
	if sense < 0 {
		return "↺"
	}
	return "↻"
}

// DrawnGears has one row per gear; nil where there is none.
func DrawnGears(a *gearbox.Arrangement, o Options) *Table {
	t := o.table("Gears; middle counted from the same place for all shafts", right("no.", ""), words("gear", 10), Column{Head: "shaft"}, right("teeth", ""), Column{Head: "hand"},
		numbers("middle", quantity.Length).alike(1), numbers("face", quantity.Length).alike(1), Column{Head: "on its shaft"})
	for i, g := range a.Gears {
		hold, hand := "fast", "spur"
		if g.Free {
			hold = "free"
		}
		if g.Hand != gearbox.Spur {
			hand = string(g.Hand)
		}
		row := append(wordsOf(GearNumber(i), g.Name, ShaftLetter(g.Shaft), strconv.Itoa(g.Teeth), hand), number((g.From+g.To)/2), number(g.To-g.From))
		t.add(append(row, word(hold))...)
	}
	return t.done()
}

// PowerPaths has one row per speed and loaded mesh: the way of the power, and which way the teeth push the shafts.
func PowerPaths(a *gearbox.Arrangement) *Table {
	t := Options{}.table("The way of the power in drive, and which way the teeth push each shaft", words("speed", 5), right("ratio", ""), Column{Head: "gears"}, Column{Head: "driver turns"},
		Column{Head: "driver\npushes"}, Column{Head: "driven\npushes"})
	turns := func(sense float64) string { return Turning(sense) + " " + gearbox.SenseName(sense) }
	push := func(thrust float64, shaft int) string {
		switch {
		case thrust > 0:
			return ShaftLetter(shaft) + " → right"
		case thrust < 0:
			return ShaftLetter(shaft) + " ← left"
		}
		return Absent
	}
	for _, m := range a.Moves {
		speed, ratio := m.Name, Fixed(m.Ratio, 2)
		if m.Direct {
			t.add(wordsOf(speed, ratio, "direct", turns(float64(a.Box.Turns)), Absent, Absent)...)
			continue
		}
		for i, st := range m.Steps {
			if i > 0 {
				speed, ratio = "", ""
			}
			driver, driven := a.Gears[st.Gears[0]], a.Gears[st.Gears[1]]
			way := fmt.Sprintf("%s %s ─ %s %s", ShaftLetter(driver.Shaft), GearNumber(st.Gears[0]), GearNumber(st.Gears[1]), ShaftLetter(driven.Shaft))
			t.add(wordsOf(speed, ratio, way, turns(st.Sense[0]), push(st.Thrust[0], driver.Shaft), push(st.Thrust[1], driven.Shaft))...)
		}
	}
	return t.done()
}

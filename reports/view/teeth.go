package view

import (
	"strconv"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// derivedMark stands behind a measure that the box file doesn't give.
const derivedMark = "*"

// TeethTable has two rows for each mesh that the solved speeds load, the driver's first: what a micrometer and a count of teeth can be held against.
func TeethTable(speeds []gearbox.SpeedResult, o Options) *Table {
	places := lengthDecimals(o.Units)
	length := func(head string) Column { return numbers(head, quantity.Length).rounded(places) }
	t := o.table("The teeth of each loaded mesh", once("mesh", 5), words("gear", 8), right("teeth\nz", ""), right("module\nm_n", "mm"), numbers("helix\nβ", quantity.Angle).rounded(2),
		length("centres\na"), numbers("profile \nshift \nx ", quantity.Number).rounded(3), length("tip \nd_a "), length("root\nd_f"))
	derived := false
	marked := func(v float64, given bool) Cell {
		c := number(v)
		if c.after = " "; !given {
			c.after, derived = derivedMark, true
		}
		return c
	}
	for _, m := range meshesOf(speeds) {
		g := m.Geometry
		if g == nil {
			continue
		}
		for k := range g.Teeth {
			row := []Cell{word(m.Name), word(m.Gears[k]), word(strconv.Itoa(g.Teeth[k])), word(""), word(""), word("")}
			if k == 0 {
				row[3], row[4], row[5] = word(Trimmed(g.Module)), number(g.Helix), number(g.Centre)
			}
			t.add(append(row, marked(g.X[k], g.ShiftKnown[k]), marked(g.Tip[k], g.TipDiameter[k] > 0), number(g.Root[k]))...)
		}
	}
	if derived {
		t.say(derivedMark + " isn't given in the file and follows from the rest. The root diameter follows from the rack. Hold a micrometer against them: a shift or a rack that was guessed wrong shows here first.")
	}
	return t.done()
}

// lengthDecimals is how many decimals show a length to about what a micrometer reads.
func lengthDecimals(s quantity.System) int {
	if s == quantity.US {
		return 4
	}
	return 2
}

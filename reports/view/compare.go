package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// SideBySide are the quantities of the boxes of a comparison, each beside the first box and with the change against it; before them what
// is called otherwise and what is the same in all.
func SideBySide(c *study.Comparison, o Options) (words []string, tables []*Table) {
	names := BoxNames(c.Results)
	for i, renamed := range c.Renamed {
		if len(renamed) > 0 {
			words = append(words, "Under another name: "+renames(renamed, names[i])+".")
		}
	}
	all := groups(c.Speeds)
	if same := sameWords(all, len(names)); same != "" {
		words = append(words, same)
	}
	for _, g := range all {
		if g.same() || g.key == equalSteel && SameAtEqualSteel(c, o) {
			continue // nothing to set side by side, or the next table has the same numbers
		}
		tables = append(tables, g.table(names, o))
	}
	return words, tables
}

// SpeedDifferences are all quantities of one speed, each beside the first box and with the change against it.
func SpeedDifferences(row study.SpeedRow, names []string, o Options) *Table {
	t := o.table("What differs", wrapped("quantity", 12), words("part", 12), words("unit", 0), right(names[0], ""))
	for _, name := range names[1:] {
		t.columns(right(name, ""), right("change", "%"))
	}
	for _, g := range groups([]study.SpeedRow{row}) {
		unit := quantity.Unit(g.dimension, o.Units)
		if g.key == transmittedMargin {
			unit = "%"
		}
		for _, part := range g.rows {
			values := AlikeIn(part.difference.Values, g.dimension, o.Units)
			cells := wordsOf(g.name, part.part, unit)
			for i, v := range part.difference.Values {
				if g.key == transmittedMargin {
					values[i] = Percent(v)
				}
				if math.IsNaN(v) {
					values[i] = Absent
				}
				cells = append(cells, word(values[i]))
				if i > 0 {
					cells = append(cells, word(g.change(part.difference, i, o)))
				}
			}
			t.add(cells...)
		}
	}
	return t.done()
}

// transmittedMargin is the key of the margins against the torque transmitted.
const transmittedMargin = "transmitted_margin"

// group is one quantity in all speeds: the rows of one table, which share a unit.
type group struct {
	name, key string
	dimension quantity.Dimension
	rows      []groupRow
}

type groupRow struct {
	speed, part string
	difference  *study.Difference
}

// groups sorts the differences of some speeds by quantity. A part that has the same numbers in every speed gets one row: a bearing span stands once.
func groups(speeds []study.SpeedRow) []*group {
	var all []*group
	for _, row := range speeds {
		for i := range row.Items {
			d := &row.Items[i]
			n := slices.IndexFunc(all, func(g *group) bool { return g.key == d.Key })
			if n < 0 {
				n = len(all)
				all = append(all, &group{name: d.Name, key: d.Key, dimension: d.Dimension})
			}
			all[n].rows = append(all[n].rows, groupRow{row.Name, d.Part, d})
		}
	}
	for _, g := range all {
		g.fold(len(speeds))
	}
	return all
}

// fold puts the parts that have the same numbers in all speeds in front, with one row each.
func (g *group) fold(speeds int) {
	var folded, rest []groupRow
	for i, row := range g.rows {
		alike, first := 0, true
		for j, other := range g.rows {
			if other.part == row.part && same(other.difference.Values, row.difference.Values) {
				alike++
				first = first && j >= i
			}
		}
		switch {
		case alike < speeds || speeds < 2:
			rest = append(rest, row)
		case first:
			row.speed = "all"
			folded = append(folded, row)
		}
	}
	g.rows = append(folded, rest...)
}

// same reports whether all boxes have the same numbers in a quantity, throughout. What is the answer is shown all the same.
func (g *group) same() bool {
	return g.key != "allowable_torque" && !slices.ContainsFunc(g.rows, func(row groupRow) bool {
		v := row.difference.Values
		return slices.ContainsFunc(v, func(x float64) bool { return math.IsNaN(x) || !alike(x, v[0]) })
	})
}

// sameWords names the quantities that are the same in all boxes; "" = there are none.
func sameWords(all []*group, boxes int) string {
	var names []string
	for _, g := range all {
		if g.same() {
			names = append(names, Clean(g.name))
		}
	}
	if len(names) == 0 || boxes < 2 {
		return ""
	}
	of := "both"
	if boxes > 2 {
		of = "all"
	}
	return "The same in " + of + ": " + strings.Join(names, "; ") + "."
}

func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return x == y || math.IsNaN(x) && math.IsNaN(y) })
}

// table sets one quantity of all boxes, each beside the first box and with the change against it.
func (g *group) table(names []string, o Options) *Table {
	margins := g.key == transmittedMargin
	parts := slices.ContainsFunc(g.rows, func(row groupRow) bool { return row.part != "" })
	unit, change := quantity.Unit(g.dimension, o.Units), right("change", "%")
	if margins {
		unit, change = "%", right("change", "points")
	}
	caption := Clean(g.name)
	if unit != "" {
		caption += ", " + unit
	}
	if direction := better(g); direction != "" {
		caption += ": " + direction + " is better"
	}
	box := func(i int) Column {
		if margins {
			return right(Shorten(names[i], 12), "")
		}
		c := numbers(Shorten(names[i], 12), g.dimension).alike(1)
		c.Unit = " " // it stands in the caption
		return c
	}
	t := o.table(caption, once("speed", 8))
	if parts {
		t.columns(words("part", 12))
	}
	t.columns(box(0))
	t.Lead, t.Together = len(t.Columns), 2
	for i := 1; i < len(names); i++ {
		t.columns(box(i), change)
	}
	for i := range t.Columns {
		t.Columns[i].Unit = strings.TrimSpace(t.Columns[i].Unit)
	}
	// A box without such a part has no number, which is not the same as a number that couldn't be found; here both are shown as absent.
	value := func(v float64) Cell {
		if margins && !math.IsNaN(v) {
			return Cell{Text: Percent(v)}
		}
		return known(v)
	}
	for _, row := range g.rows {
		cells := []Cell{word(row.speed)}
		if parts {
			cells = append(cells, word(row.part))
		}
		cells = append(cells, value(row.difference.Values[0]))
		for i := 1; i < len(names); i++ {
			cells = append(cells, value(row.difference.Values[i]), word(g.change(row.difference, i, o)))
		}
		t.add(cells...)
	}
	return t.done()
}

// change tells by how much box k differs from the first one: in percent, or as a difference in the unit of the group where per cent would mislead: of numbers with a sign, whose
// zero is only where they change it, and of numbers too small to matter.
func (g *group) change(d *study.Difference, k int, o Options) string {
	from, to := d.Values[0], d.Values[k]
	if g.key == transmittedMargin { // a margin of per cent has no per cent of its own
		if !Finite(d.Change[k]) {
			return Absent
		}
		return Percent(d.Change[k])
	}
	if Finite(from) && Finite(to) && from != to && (from < 0 || to < 0 || max(math.Abs(from), math.Abs(to)) < NotWorth*g.largest()) {
		u := quantity.Convert(to, g.dimension, o.Units) - quantity.Convert(from, g.dimension, o.Units)
		text := Signed(Fixed(u, DecimalsFor(u, 3)))
		return strings.TrimSpace(text + " " + quantity.Unit(g.dimension, o.Units))
	}
	return relative(d.Change[k])
}

// relative is a relative change in percent; what has no number is absent.
func relative(fraction float64) string {
	switch {
	case !Finite(fraction):
		return Absent
	case fraction >= 9.995: // thousands of per cent say less than a factor
		return "×" + strconv.FormatFloat(1+fraction, 'g', 3, 64)
	}
	return Percent(fraction)
}

// largest is the largest size of the numbers of a group.
func (g *group) largest() (most float64) {
	for _, row := range g.rows {
		most = max(most, largest(row.difference.Values))
	}
	return most
}

// better says which direction of a quantity is the good one; "" where there is none.
func better(g *group) string {
	switch {
	case g.key == "largest_deflection", g.key == "misalignment", g.key == "face_factor", g.key == "mass", strings.HasSuffix(g.key, "_stress"):
		return "less"
	case g.key == "allowable_torque", g.key == equalSteel, g.key == "wheel_torque", g.key == transmittedMargin:
		return "more"
	}
	return ""
}

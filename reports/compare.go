package reports

import (
	"bytes"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// Compare writes the text report of boxes side by side.
func Compare(w io.Writer, c *study.Comparison, o Options) error {
	if err := checkComparison(c); err != nil {
		return err
	}
	names := view.BoxNames(c.Results)
	return write(w, annotated(o, func(b *bytes.Buffer, notes *footnotes, sources limitSources) {
		for _, text := range compareHeadline(c, o) {
			paragraph(b, o.width(), "", text)
		}
		b.WriteByte('\n')
		title(b, o.width(), view.List(names), "")
		for i, r := range c.Results {
			if about := strings.TrimSpace(r.Box.About); about != "" {
				paragraph(b, o.width(), indent, names[i]+": "+about)
			}
			paragraph(b, o.width(), indent, madeOf(r.Box)+" "+service(r.Box, o))
		}
		switch {
		case c.Equal == nil:
			boxTable(b, "Each box", c.Results, names, o, notes)
		case sameAtEqualSteel(c, o):
			boxTable(b, "Each box, at equal steel (that of "+names[0]+") and of its own", c.Results, names, o, notes)
		default:
			boxTable(b, "Each box, at equal steel: that of "+names[0], c.Equal, names, o, notes)
			boxTable(b, "Each box, of its own steel", c.Results, names, o, notes)
		}
		firstLimitTables(b, c, names, o, notes, sources)
		lessonTables(b, c.Results, names, o)
		splitSection(b, c, names, o)
		lighterSection(b, c, names, o, notes)
		b.WriteByte('\n')
		title(b, o.width(), "Side by side", "")
		for i, renamed := range c.Renamed {
			if len(renamed) > 0 {
				paragraph(b, o.width(), indent, "Under another name: "+renames(renamed, names[i])+".")
			}
		}
		all := groups(c)
		if same := sameWords(all, len(names)); same != "" {
			paragraph(b, o.width(), indent, same)
		}
		for _, g := range all {
			if g.same() || g.key == equalSteel && sameAtEqualSteel(c, o) {
				continue // nothing to set side by side, or the next table has the same numbers
			}
			sideBySide(b, g, names, o)
		}
		opinionTable(b, c.Results, names, o, notes, sources)
	}))
}

// equalSteel is the key of the allowable torques at the steel of the first box.
const equalSteel = "allowable_torque_equal_steel"

// transmittedMargin is the key of the margins against the torque transmitted.
const transmittedMargin = "transmitted_margin"

// sameAtEqualSteel reports whether boxes of unlike steel bear the same at equal steel as with their own.
func sameAtEqualSteel(c *study.Comparison, o Options) bool {
	for _, row := range c.Speeds {
		find := func(key string) []float64 {
			if i := slices.IndexFunc(row.Items, func(d study.Difference) bool { return d.Key == key }); i >= 0 {
				return row.Items[i].Values
			}
			return nil
		}
		if !slices.Equal(view.AlikeIn(find(equalSteel), quantity.Torque, o.Units), view.AlikeIn(find("allowable_torque"), quantity.Torque, o.Units)) {
			return false
		}
	}
	return headline(c.Equal, o) == headline(c.Results, o)
}

// boxTable has one row per box: what is asked of it and how it stands, and what it bears.
func boxTable(b *bytes.Buffer, title string, results []*gearbox.Result, names []string, o Options, notes *footnotes) {
	verdicts := each(results, study.Judge)
	var torques []float64
	for i := range verdicts {
		v := &verdicts[i]
		torques = append(torques, math.Abs(v.Torque), v.Bears[v.Level].Torque, v.Bears[material.Low].Torque, v.Bears[material.High].Torque)
	}
	torque := view.AlikeIn(torques, quantity.Torque, o.Units)
	var rows [][]cell
	doubtful, arrives, broke := false, false, false
	for i, r := range results {
		v := &verdicts[i]
		sense, state, margin, allowable, ends := "drive", cell{text: view.Absent}, view.Absent, view.Absent, view.Absent
		if r.Torque < 0 {
			sense = "coast"
		}
		if v.Least != nil {
			state, margin, allowable = stateCell(v.State, o.Colour), view.Percent(v.Least.Left), torque[4*i+1]
			ends = span([material.High + 1]float64{v.Bears[0].Torque, v.Bears[1].Torque, v.Bears[2].Torque}, torque[4*i+2], torque[4*i+3])
			if v.State != gearbox.Over && !v.Arrives && v.Bears[material.Low].Torque < math.Abs(r.Torque) {
				state.text, doubtful = state.text+doubt, true
			}
		}
		if v.Record.BrokeAt != nil {
			state, margin, broke = stateCell(gearbox.Over, o.Colour), "broke", true
		}
		arrives = arrives || v.Arrives
		rows = append(rows, []cell{
			{text: names[i], mark: notes.mark(remarks("", r.Checks, r.Notes))},
			{text: torque[4*i]}, {text: sense}, state, {text: margin},
			{text: allowable}, {text: ends},
		})
	}
	unit := quantity.Unit(quantity.Torque, o.Units)
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, title)
	table(b, o.width(), []head{
		{text: "box", least: 3 + o.widestMark()},
		{text: "asked\n" + unit, right: true},
		{text: "sense"},
		{text: "state"},
		{text: "left\n%", right: true},
		{text: "allowable\n" + unit, right: true},
		{text: "poorest … best\n" + unit, right: true},
	}, rows)
	text := rangeWords(doubtful)
	if arrives {
		text += " State and left go by what clutch and tyres let through, the allowable torque by what comes to the input."
	}
	if broke {
		text += " Broke: at no more than the asked torque, by the service history."
	}
	paragraph(b, o.width(), indent, text)
	if slices.ContainsFunc(results, func(r *gearbox.Result) bool { return r.Box.Limits.Strength != results[0].Box.Limits.Strength }) {
		for i, r := range results {
			paragraph(b, o.width(), indent, names[i]+" is judged by "+levelName(r.Box.Limits.Strength)+".")
		}
	}
}

// allRemarks are those of a speed and of all that it loads.
func allRemarks(s *gearbox.SpeedResult) []remark {
	all := remarks("", s.Checks, s.Notes)
	for i := range s.Meshes {
		all = append(all, remarks(s.Meshes[i].Name, s.Meshes[i].Checks, s.Meshes[i].Notes)...)
	}
	for _, sh := range s.Shafts {
		all = append(all, remarks("", nil, sh.Notes)...)
	}
	for _, m := range s.Margins {
		all = append(all, remarks("", nil, m.Notes)...)
	}
	return all
}

// remove leaves out the remarks that stand elsewhere.
func remove(all []remark, gone []string) []remark {
	elsewhere := remarks("", nil, gone)
	return slices.DeleteFunc(all, func(r remark) bool { return slices.Contains(elsewhere, r) })
}

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

// groups sorts the differences by quantity. A part that has the same numbers in every speed gets one row: a bearing span stands once.
func groups(c *study.Comparison) []*group {
	var all []*group
	for _, row := range c.Speeds {
		for i := range row.Items {
			d := &row.Items[i]
			n := slices.IndexFunc(all, func(g *group) bool { return g.key == d.Key })
			if n < 0 {
				n = len(all)
				all = append(all, &group{name: d.Name, key: d.Key, dimension: d.Dimension})
			}
			all[n].rows = append(all[n].rows, groupRow{view.Clean(row.Name), view.Clean(d.Part), d})
		}
	}
	for _, g := range all {
		g.fold(len(c.Speeds))
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
			names = append(names, view.Clean(g.name))
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

// mostBeside is how many boxes stand beside the first one in one table; more go into further tables.
const mostBeside = 2

// sideBySide writes one quantity of all boxes, each beside the first box and with the change against it.
func sideBySide(b *bytes.Buffer, g *group, names []string, o Options) {
	var values []float64
	parts := false
	for _, row := range g.rows {
		values = append(values, row.difference.Values...)
		parts = parts || row.part != ""
	}
	// A box without such a part has no number, which is not the same as a number that couldn't be found; here both are shown as absent.
	text := view.AlikeIn(values, g.dimension, o.Units)
	if g.key == transmittedMargin {
		text = each(values, view.Percent)
	}
	for i, v := range values {
		if math.IsNaN(v) {
			text[i] = view.Absent
		}
	}
	unit := quantity.Unit(g.dimension, o.Units)
	if g.key == transmittedMargin {
		unit = "%"
	}
	heading := view.Clean(g.name)
	if unit != "" {
		heading += ", " + unit
	}
	if direction := better(g); direction != "" {
		heading += ": " + direction + " is better"
	}
	boxes := len(names)
	changes := "change\n%"
	if g.key == transmittedMargin {
		changes = "change\npoints"
	}
	for from := 1; from == 1 || from < boxes; from += mostBeside {
		to := min(from+mostBeside, boxes)
		heads := []head{{text: "speed", least: 8}}
		if parts {
			heads = append(heads, head{text: "part", least: 8})
		}
		heads = append(heads, head{text: view.Shorten(names[0], 12), right: true})
		for _, name := range names[from:to] {
			heads = append(heads, head{text: view.Shorten(name, 12), right: true}, head{text: changes, right: true})
		}
		var rows [][]cell
		speed := ""
		for n, row := range g.rows {
			cells := []cell{{text: row.speed}}
			if n > 0 && row.speed == speed {
				cells[0].text = ""
			}
			speed = row.speed
			if parts {
				cells = append(cells, cell{text: row.part})
			}
			cells = append(cells, cell{text: text[n*boxes]})
			for i := from; i < to; i++ {
				cells = append(cells, cell{text: text[n*boxes+i]}, cell{text: g.change(row.difference, i, o)})
			}
			rows = append(rows, cells)
		}
		b.WriteByte('\n')
		paragraph(b, o.width(), indent, heading)
		table(b, o.width(), heads, rows)
	}
}

// change tells by how much box k differs from the first one: in percent, or as a difference in the unit of the group where per cent would mislead: of numbers with a sign, whose
// zero is only where they change it, and of numbers too small to matter.
func (g *group) change(d *study.Difference, k int, o Options) string {
	from, to := d.Values[0], d.Values[k]
	if g.key == transmittedMargin { // a margin of per cent has no per cent of its own
		if !view.Finite(d.Change[k]) {
			return view.Absent
		}
		return view.Percent(d.Change[k])
	}
	if view.Finite(from) && view.Finite(to) && from != to && (from < 0 || to < 0 || max(math.Abs(from), math.Abs(to)) < view.NotWorth*g.largest()) {
		u := quantity.Convert(to, g.dimension, o.Units) - quantity.Convert(from, g.dimension, o.Units)
		text := view.Signed(view.Fixed(u, view.DecimalsFor(u, 3)))
		return strings.TrimSpace(text + " " + quantity.Unit(g.dimension, o.Units))
	}
	return relative(d.Change[k])
}

// relative is a relative change in percent; what has no number is absent.
func relative(fraction float64) string {
	switch {
	case !view.Finite(fraction):
		return view.Absent
	case fraction >= 9.995: // thousands of per cent say less than a factor
		return "×" + strconv.FormatFloat(1+fraction, 'g', 3, 64)
	}
	return view.Percent(fraction)
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

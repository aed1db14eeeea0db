package view

import (
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
)

// Table is a table of an answer. Printers shorten, wrap and colour it; they change no number and no word.
type Table struct {
	Caption string
	Columns []Column
	Rows    [][]Cell
	Foot    []string // sentences below it

	// A table that is wider than its medium is parted between columns: the first Lead columns (0 = one) stand in every part, and of
	// the others so many as Together says (0 = one) stay beside each other.
	Lead, Together int

	system quantity.System
}

// Column is the head of a column, and how its cells are set.
type Column struct {
	Head  string // a line break is where a narrow head breaks; one behind a hyphen is inside of a word
	Unit  string
	Right bool // numbers stand right
	Least int  // to how many characters its cells may be shortened where there is little room; 0 = not at all
	Wrap  bool // what doesn't fit goes on below it, instead of losing its middle
	Aside bool // only for those who have room for it
	Once  bool // said once of rows below each other that have the same in this column and in those in front of it

	dimension quantity.Dimension
	group     int // columns of one group have one number of decimals; 0 = a group of its own
	decimals  func(values []float64) int
}

// Cell is one entry of a table.
type Cell struct {
	Text  string
	Notes []Remark        // what is to be said of it
	Limit *gearbox.Margin // the limit that it shows, whose source is listed
	State *gearbox.State  // that it shows as sign and word

	values []float64 // inner ones that its column rounds: a number, or the ends of a range
	after  string    // words behind the number
}

// Columns of words: that may lose their middle, that wrap, and that are said once.
func words(head string, least int) Column   { return Column{Head: head, Least: least} }
func wrapped(head string, least int) Column { return Column{Head: head, Least: least, Wrap: true} }
func once(head string, least int) Column    { return Column{Head: head, Least: least, Once: true} }

// numbers is a column of numbers of one dimension.
func numbers(head string, d quantity.Dimension) Column {
	return Column{Head: head, Right: true, dimension: d, decimals: Decimals}
}

// right is a column of texts that stand right, such as per cent.
func right(head, unit string) Column { return Column{Head: head, Unit: unit, Right: true} }

// alike puts a column into a group whose numbers have one number of decimals.
func (c Column) alike(group int) Column { c.group = group; return c }

// rounded gives the column so many decimals.
func (c Column) rounded(decimals int) Column {
	c.decimals = func([]float64) int { return decimals }
	return c
}

// roughly gives the column as many decimals as two digits of its largest number need.
func (c Column) roughly() Column {
	c.decimals = func(values []float64) int { return DecimalsFor(largest(values), 2) }
	return c
}

// HeadLine is the head in one line with its unit: "Allowable, N·m".
func (c *Column) HeadLine() string {
	head := strings.ReplaceAll(strings.ReplaceAll(c.Head, "-\n", ""), "\n", " ")
	if c.Unit != "" {
		head = strings.TrimPrefix(head+", "+c.Unit, ", ")
	}
	return Capital(head)
}

// table begins a table.
func (o Options) table(caption string, columns ...Column) *Table {
	t := &Table{Caption: caption, system: o.Units}
	t.columns(columns...)
	return t
}

// columns adds columns, with the units of their dimensions.
func (t *Table) columns(columns ...Column) {
	for _, c := range columns {
		if c.decimals != nil && c.Unit == "" {
			c.Unit = quantity.Unit(c.dimension, t.system)
		}
		t.Columns = append(t.Columns, c)
	}
}

func (t *Table) add(cells ...Cell) { t.Rows = append(t.Rows, cells) }

// say puts sentences below the table; empty ones are left out.
func (t *Table) say(sentences ...string) {
	for _, s := range sentences {
		if s != "" {
			t.Foot = append(t.Foot, s)
		}
	}
}

// done rounds the numbers of a table; nil when it has no rows.
func (t *Table) done() *Table {
	if len(t.Rows) == 0 {
		return nil
	}
	for i, c := range t.Columns {
		if c.decimals == nil {
			continue
		}
		var values []float64
		for k, other := range t.Columns {
			if k == i || c.group != 0 && other.group == c.group {
				for _, row := range t.Rows {
					values = append(values, Converted(row[k].values, c.dimension, t.system)...)
				}
			}
		}
		decimals := c.decimals(values)
		for _, row := range t.Rows {
			row[i].round(decimals, c.dimension, t.system)
		}
	}
	return t
}

// round gives a number its text.
func (c *Cell) round(decimals int, d quantity.Dimension, s quantity.System) {
	if len(c.values) == 0 {
		return
	}
	texts := Each(Converted(c.values, d, s), func(v float64) string {
		if len(c.values) > 1 && math.IsInf(v, 1) {
			return NotReached
		}
		return Fixed(v, decimals)
	})
	c.Text = texts[0]
	if len(texts) > 1 && texts[1] != texts[0] {
		c.Text += " … " + texts[1]
	}
	c.Text += c.after
}

// Without is the table without a column.
func (t *Table) Without(column int) *Table {
	if t == nil {
		return nil
	}
	out := *t
	out.Columns = append(append([]Column{}, t.Columns[:column]...), t.Columns[column+1:]...)
	out.Rows = Each(t.Rows, func(row []Cell) []Cell { return append(append([]Cell{}, row[:column]...), row[column+1:]...) })
	out.Lead = max(t.Lead-1, 0)
	return &out
}

// Of is the part of a table of all speeds that is about one, without the column that names it. The numbers stay as they are rounded in
// the whole.
func (t *Table) Of(speed string) *Table {
	if t == nil {
		return nil
	}
	out := *t
	out.Rows = nil
	for _, row := range t.Rows {
		if row[0].Text == Clean(speed) {
			out.Rows = append(out.Rows, row)
		}
	}
	if len(out.Rows) == 0 {
		return nil
	}
	return out.Without(0)
}

// A cell of words, which may come from a box file.
func word(s string) Cell { return Cell{Text: Clean(s)} }

// A row of cells of words.
func wordsOf(texts ...string) []Cell { return Each(texts, word) }

// absent is a cell with nothing to show.
func absent() Cell { return Cell{Text: Absent} }

func absents(n int) []Cell { return slices.Repeat([]Cell{absent()}, n) }

// number is an inner value that its column rounds.
func number(v float64) Cell { return Cell{values: []float64{v}} }

// known is a number, or nothing where there is none to have.
func known(v float64) Cell {
	if !Finite(v) {
		return absent()
	}
	return number(v)
}

// between is a range, or one number where its ends look alike.
func between(low, high float64) Cell { return Cell{values: []float64{low, high}} }

// percent is a margin or a change; nothing where no torque reaches the limit, which words beside it say.
func percent(fraction float64) Cell {
	if math.IsInf(fraction, 0) {
		return absent()
	}
	return Cell{Text: Percent(fraction)}
}

// doubt is the mark behind a state that would be over if every range of limits and strengths sat at its low end.
const doubt = " ▾"

// state is a state as sign and word.
func state(s gearbox.State) Cell { return Cell{Text: s.Sign() + " " + s.String(), State: &s} }

// noting puts remarks to a cell.
func (c Cell) noting(lists ...[]Remark) Cell {
	for _, l := range lists {
		c.Notes = append(c.Notes, l...)
	}
	return c
}

// of says which limit a cell shows, and what is noted of it.
func (c Cell) of(m *gearbox.Margin) Cell {
	c.Limit = m
	return c.noting(remarks("", nil, m.Notes))
}

// largest is the largest size of some numbers.
func largest(all []float64) (most float64) {
	for _, v := range all {
		if Finite(v) {
			most = max(most, math.Abs(v))
		}
	}
	return most
}

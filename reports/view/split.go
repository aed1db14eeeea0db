package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// Difference is what makes the difference between the first box and another one.
type Difference struct {
	Caption   string   // "What makes the difference: Alder → Birch"
	Words     []string // how it was shared out, or why it can't be
	Tables    []*Table
	Sentences []string // about what decides
}

// Differences are those against each other box.
func Differences(c *study.Comparison, o Options) (all []Difference) {
	names := BoxNames(c.Results)
	for _, s := range c.Splits {
		d := Difference{Caption: "What makes the difference: " + names[0] + " → " + names[s.Box], Words: SplitWords(&s, o)}
		if s.Causes != nil && s.Causes.Mixed > 0 {
			ends := [2]string{names[0], names[s.Box]}
			d.Tables = append(d.Tables, splitTorques(s.Causes, ends, o))
			if speed := slices.IndexFunc(s.Causes.Speeds, func(sp study.SpeedSplit) bool { return sp.Name == s.Causes.Decides }); speed >= 0 {
				d.Tables = append(d.Tables, splitSpeed(s.Causes, speed, ends, o))
				d.Sentences = splitSentences(s.Causes, speed, o)
			}
		}
		all = append(all, d)
	}
	return all
}

// splitSentences are the sentences of the text report: about what decides in the speed with the least torque, and where
// that hardly moves, about the torques of other speeds that do.
func splitSentences(c *study.CauseSplit, speed int, o Options) (all []string) {
	moves := func(it *study.ItemSplit) bool { return largest(it.Shares) >= hardly*math.Abs(it.From) }
	for _, k := range picked(c.Speeds[speed].Items) {
		it := &c.Speeds[speed].Items[k]
		if it.Limit == nil && math.Abs(it.To-it.From) < worthWords*math.Abs(it.From) || !moves(it) {
			continue
		}
		if t := SplitSentence(c, speed, k, o); t != "" {
			all = append(all, t)
		}
	}
	if len(all) > 0 {
		return all
	}
	all = []string{"In " + Clean(c.Speeds[speed].Name) + ", where least torque is allowed, what differs moves no torque by 0.5" + NoBreak + "% and nothing else by 5" + NoBreak + "%."}
	var said []*study.ItemSplit
	for i := range c.Speeds {
		for k := range c.Speeds[i].Items {
			it := &c.Speeds[i].Items[k]
			if it.Limit == nil || !Finite(it.From) || !Finite(it.To) || !moves(it) || slices.ContainsFunc(said, func(other *study.ItemSplit) bool { return oneColumn(it, other) }) {
				continue
			}
			all, said = append(all, SplitSentence(c, i, k, o)), append(said, it)
		}
	}
	return all
}

// worthWords is the relative difference from which on the text report tells a quantity in words.
const worthWords = 0.05

// hardly is the share of a quantity below which nobody measures what moves it.
const hardly = 0.005

// splitTable has quantities as columns and causes as rows, from one box down to the other.
func splitTable(caption string, c *study.CauseSplit, items []*study.ItemSplit, heads []Column, ends [2]string, o Options) *Table {
	t := o.table(caption, words("", 20))
	t.add(word(ends[0]))
	active := []int{}
	for i := range c.Causes {
		if !c.Causes[i].Same {
			active = append(active, i)
			t.add(word(CauseName(&c.Causes[i])))
		}
	}
	t.add(word(ends[1]))
	for k, it := range items {
		t.columns(heads[k])
		values := []float64{it.From}
		for _, i := range active {
			share := math.NaN()
			if it.Shares != nil {
				share = it.Shares[i]
			}
			values = append(values, share)
		}
		for r, text := range Steps(Converted(append(values, it.To), it.Dimension, o.Units)) {
			t.Rows[r] = append(t.Rows[r], word(text))
		}
	}
	return t.done()
}

// Steps sets the values of two boxes and what leads from one to the other.
func Steps(values []float64) []string {
	last := len(values) - 1
	// Shares may need more decimals than the ends, but not so many that a hair is told of what is a thousand times as wide.
	n := Decimals([]float64{values[0], values[last]})
	n = min(max(n, DecimalsFor(largest(values[1:last]), 2)), n+1)
	texts := Each(values, func(v float64) string { return Fixed(v, n) })
	for r := 1; r < last; r++ {
		switch {
		case math.IsNaN(values[r]):
			texts[r] = Absent
		case values[r] == 0:
			texts[r] = "0"
		case isZero(texts[r]):
			texts[r] = "≈ 0"
		default:
			texts[r] = Signed(texts[r])
		}
	}
	return texts
}

// splitTorques are the torques of the limits that are the first in one of the boxes. A limit that has the same numbers in
// several speeds, as what a duty wears has, gets one column.
func splitTorques(c *study.CauseSplit, ends [2]string, o Options) *Table {
	var items []*study.ItemSplit
	var speeds [][]string
	for i := range c.Speeds {
		for k := range c.Speeds[i].Items {
			it := &c.Speeds[i].Items[k]
			if it.Limit == nil {
				continue
			}
			name := Clean(c.Speeds[i].Name)
			n := slices.IndexFunc(items, func(other *study.ItemSplit) bool { return other.First == it.First && oneColumn(it, other) })
			if n >= 0 {
				speeds[n] = append(speeds[n], name)
				continue
			}
			items, speeds = append(items, it), append(speeds, []string{name})
		}
	}
	var heads []Column
	for k := range items {
		heads = append(heads, right(fmt.Sprintf("%s\n(%d)", Shorten(strings.Join(speeds[k], ", "), 13), k+1), ""))
	}
	t := splitTable("Allowable torque of the limits that come first in one of the boxes, "+quantity.Unit(quantity.Torque, o.Units), c, items, heads, ends, o)
	for k, it := range items {
		t.say(fmt.Sprintf("(%d) %s, which limits %s.", k+1, partLimitName(it.Limit), limited(it, ends)))
	}
	return t
}

// oneColumn reports whether two torques are of one limit and have the same numbers.
func oneColumn(a, b *study.ItemSplit) bool {
	return *a.Limit == *b.Limit && alike(a.From, b.From) && alike(a.To, b.To)
}

func alike(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

// limited names the boxes that a limit is the first of.
func limited(it *study.ItemSplit, ends [2]string) string {
	switch it.First {
	case [2]bool{true, false}:
		return ends[0]
	case [2]bool{false, true}:
		return ends[1]
	}
	return "both"
}

func partLimitName(l *study.PartLimit) string {
	return Clean(l.Kind.Of(l.Item))
}

// splitSpeed shows what bends, is misaligned and strained in the mesh and the shafts that decide in one speed; nil where nothing is.
func splitSpeed(c *study.CauseSplit, speed int, ends [2]string, o Options) *Table {
	s := &c.Speeds[speed]
	var items []*study.ItemSplit
	var heads []Column
	for _, k := range picked(s.Items) {
		if it := &s.Items[k]; it.Limit == nil && !strings.HasPrefix(it.Key, "transmitted") {
			items, heads = append(items, it), append(heads, splitHead(it, o))
		}
	}
	if len(items) == 0 {
		return nil
	}
	return splitTable("Where it is decided, in "+Clean(s.Name), c, items, heads, ends, o)
}

func splitHead(it *study.ItemSplit, o Options) Column {
	name := map[string]string{
		"largest_deflection": "bends", "misalignment": "F_βy", "face_factor": "K_Hβ", "root_stress": "σ_F", "mass": "mass", "flank_stress": "σ_H",
	}[it.Key]
	part := Shorten(strings.TrimSuffix(Clean(it.Part), " shaft"), 14)
	return right(strings.TrimRight(name+"\n"+part, "\n"), quantity.Unit(it.Dimension, o.Units))
}

// picked picks the quantities of a speed that are put in words, from the answer down: the torques of the limits, and of
// the mesh and the shafts that they belong to how they bend, how far the mesh is out of line and what that does to its teeth.
func picked(items []study.ItemSplit) (all []int) {
	for i, it := range items {
		switch it.Key {
		case "allowable_torque", "transmitted_peak", "transmitted", "largest_deflection", "misalignment", "face_factor", "flank_stress", "root_stress", "mass":
			if it.Decides && Finite(it.From) && Finite(it.To) {
				all = append(all, i)
			}
		}
	}
	return all
}

// negligible is the share of the largest part below which a part isn't put in words.
const negligible = 0.05

// SplitSentence says in words what makes the difference in one quantity of one speed; "" when there is none.
func SplitSentence(c *study.CauseSplit, speed, item int, o Options) string {
	it := &c.Speeds[speed].Items[item]
	most := largest(it.Shares)
	if most == 0 {
		return ""
	}
	text := fmt.Sprintf("%s: %s → %s. ", Capital(itemName(c, speed, it)), With(it.From, it.Dimension, o.Units), With(it.To, it.Dimension, o.Units))
	order := make([]int, 0, len(it.Shares))
	for i, s := range it.Shares {
		if math.Abs(s) >= negligible*most {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return int(math.Copysign(1, math.Abs(it.Shares[j])-math.Abs(it.Shares[i])))
	})
	way := math.Copysign(1, it.To-it.From)
	var along, against []string
	for _, i := range order {
		part := CauseWords(&c.Causes[i], o) + " " + With(math.Abs(it.Shares[i]), it.Dimension, o.Units)
		if it.Shares[i]*way > 0 {
			along = append(along, part)
		} else {
			against = append(against, part)
		}
	}
	does, undoes := "Increased by ", "; reduced by "
	if way < 0 {
		does, undoes = "Reduced by ", "; increased by "
	}
	switch {
	case len(along) == 0: // the shares cancel each other but for rounding
		return text + Capital(strings.TrimPrefix(undoes, "; ")) + List(against) + "."
	case len(against) == 0:
		return text + does + List(along) + "."
	}
	return text + does + List(along) + undoes + List(against) + "."
}

// itemName is a quantity of a speed in words: "allowable torque in 1st by flank fatigue of first pinion".
func itemName(c *study.CauseSplit, speed int, it *study.ItemSplit) string {
	in := " in " + Clean(c.Speeds[speed].Name)
	switch {
	case it.Limit != nil:
		name := "allowable torque" + in + " by " + partLimitName(it.Limit)
		if it.First[0] != it.First[1] {
			name += " (which limits " + limited(it, [2]string{Clean(c.From), Clean(c.To)}) + ")"
		}
		return name
	case it.Key == "mass":
		return Clean(it.Name) // in every speed the same
	case it.Part != "":
		return Clean(it.Part) + ", " + Clean(it.Name) + in
	}
	return Clean(it.Name) + in
}

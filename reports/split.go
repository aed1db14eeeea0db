package reports

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// splitSection tells what makes the difference between the first box and each other one.
func splitSection(b *bytes.Buffer, c *study.Comparison, names []string, o Options) {
	for _, s := range c.Splits {
		b.WriteByte('\n')
		title(b, o.width(), "What makes the difference: "+names[0]+" → "+names[s.Box], "")
		if s.Causes == nil {
			paragraph(b, o.width(), indent, "It can't be shared out over dimensions: "+view.Clean(s.Why)+".")
			continue
		}
		for _, p := range splitWords(s.Causes, o) {
			paragraph(b, o.width(), indent, p)
		}
		if s.Causes.Mixed == 0 {
			continue
		}
		ends := [2]string{names[0], names[s.Box]}
		splitTorques(b, s.Causes, ends, o)
		speed := slices.IndexFunc(s.Causes.Speeds, func(sp study.SpeedSplit) bool { return sp.Name == s.Causes.Decides })
		if speed < 0 {
			continue
		}
		splitSpeed(b, s.Causes, speed, ends, o)
		sentences := splitSentences(s.Causes, speed, o)
		b.WriteByte('\n')
		for _, t := range sentences {
			paragraph(b, o.width(), indent, t)
		}
	}
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
		if t := splitSentence(c, speed, k, o); t != "" {
			all = append(all, t)
		}
	}
	if len(all) > 0 {
		return all
	}
	all = []string{"In " + view.Clean(c.Speeds[speed].Name) + ", where least torque is allowed, what differs moves no torque by 0.5" + view.NoBreak + "% and nothing else by 5" + view.NoBreak + "%."}
	var said []*study.ItemSplit
	for i := range c.Speeds {
		for k := range c.Speeds[i].Items {
			it := &c.Speeds[i].Items[k]
			if it.Limit == nil || !view.Finite(it.From) || !view.Finite(it.To) || !moves(it) || slices.ContainsFunc(said, func(other *study.ItemSplit) bool { return oneColumn(it, other) }) {
				continue
			}
			all, said = append(all, splitSentence(c, i, k, o)), append(said, it)
		}
	}
	return all
}

// worthWords is the relative difference from which on the text report tells a quantity in words.
const worthWords = 0.05

// hardly is the share of a quantity below which nobody measures what moves it.
const hardly = 0.005

// largest is the largest size of some numbers.
func largest(all []float64) (most float64) {
	for _, v := range all {
		if view.Finite(v) {
			most = max(most, math.Abs(v))
		}
	}
	return most
}

// splitTable writes quantities as columns and causes as rows, from one box down to the other.
func splitTable(b *bytes.Buffer, c *study.CauseSplit, items []*study.ItemSplit, heads []string, ends [2]string, o Options) {
	columns := []head{{text: "", least: 20}}
	rows := [][]cell{{{text: ends[0]}}}
	active := []int{}
	for i, cause := range c.Causes {
		if !cause.Same {
			active = append(active, i)
			rows = append(rows, []cell{{text: causeName(&cause)}})
		}
	}
	rows = append(rows, []cell{{text: ends[1]}})
	for k, it := range items {
		columns = append(columns, head{text: heads[k], right: true})
		values := []float64{it.From}
		for _, i := range active {
			share := math.NaN()
			if it.Shares != nil {
				share = it.Shares[i]
			}
			values = append(values, share)
		}
		values = view.Converted(append(values, it.To), it.Dimension, o.Units)
		// Shares may need more decimals than the ends, but not so many that a hair is told of what is a thousand times as wide.
		n := view.Decimals([]float64{values[0], values[len(values)-1]})
		n = min(max(n, view.DecimalsFor(largest(values[1:len(values)-1]), 2)), n+1)
		for r, v := range values {
			text := view.Fixed(v, n)
			switch {
			case math.IsNaN(v):
				text = view.Absent
			case r > 0 && r < len(values)-1 && v == 0:
				text = "0"
			case r > 0 && r < len(values)-1 && strings.Trim(text, "-0.") == "":
				text = "≈ 0"
			case r > 0 && r < len(values)-1:
				text = view.Signed(text)
			}
			rows[r] = append(rows[r], cell{text: text})
		}
	}
	table(b, o.width(), columns, rows)
}

// splitTorques are the torques of the limits that are the first in one of the boxes. A limit that has the same numbers in
// several speeds, as what a duty wears has, gets one column.
func splitTorques(b *bytes.Buffer, c *study.CauseSplit, ends [2]string, o Options) {
	var items []*study.ItemSplit
	var speeds [][]string
	for i := range c.Speeds {
		for k := range c.Speeds[i].Items {
			it := &c.Speeds[i].Items[k]
			if it.Limit == nil {
				continue
			}
			name := view.Clean(c.Speeds[i].Name)
			n := slices.IndexFunc(items, func(other *study.ItemSplit) bool {
				return other.First == it.First && oneColumn(it, other)
			})
			if n >= 0 {
				speeds[n] = append(speeds[n], name)
				continue
			}
			items, speeds = append(items, it), append(speeds, []string{name})
		}
	}
	fmt.Fprintf(b, "\n  Allowable torque of the limits that come first in one of the boxes, %s\n", quantity.Unit(quantity.Torque, o.Units))
	for from := 0; from < len(items); from += mostSplit {
		to := min(from+mostSplit, len(items))
		var heads []string
		for k := from; k < to; k++ {
			heads = append(heads, fmt.Sprintf("%s\n(%d)", view.Shorten(strings.Join(speeds[k], ", "), 13), k+1))
		}
		splitTable(b, c, items[from:to], heads, ends, o)
	}
	for k, it := range items {
		paragraph(b, o.width(), indent, fmt.Sprintf("(%d) %s, which limits %s.", k+1, partLimitName(it.Limit), limited(it, ends)))
	}
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
	return view.Clean(l.Kind.Of(l.Item))
}

// mostSplit is how many quantities of a speed stand beside each other.
const mostSplit = 7

// splitSpeed shows what bends, is misaligned and strained in the mesh and the shafts that decide in one speed.
func splitSpeed(b *bytes.Buffer, c *study.CauseSplit, speed int, ends [2]string, o Options) {
	s := &c.Speeds[speed]
	var items []*study.ItemSplit
	var heads []string
	for _, k := range picked(s.Items) {
		it := &s.Items[k]
		if it.Limit != nil || strings.HasPrefix(it.Key, "transmitted") || len(items) == mostSplit {
			continue
		}
		items = append(items, it)
		heads = append(heads, splitHead(it, o))
	}
	if len(items) == 0 {
		return
	}
	fmt.Fprintf(b, "\n  Where it is decided, in %s\n", view.Clean(s.Name))
	splitTable(b, c, items, heads, ends, o)
}

func splitHead(it *study.ItemSplit, o Options) string {
	name := map[string]string{
		"largest_deflection": "bends", "misalignment": "F_βy", "face_factor": "K_Hβ", "root_stress": "σ_F", "mass": "mass", "flank_stress": "σ_H",
	}[it.Key]
	part := view.Shorten(strings.TrimSuffix(view.Clean(it.Part), " shaft"), 14)
	return strings.TrimRight(name+"\n"+part+"\n"+quantity.Unit(it.Dimension, o.Units), "\n")
}

// picked picks the quantities of a speed that are put in words, from the answer down: the torques of the limits, and of
// the mesh and the shafts that they belong to how they bend, how far the mesh is out of line and what that does to its teeth.
func picked(items []study.ItemSplit) (all []int) {
	for i, it := range items {
		switch it.Key {
		case "allowable_torque", "transmitted_peak", "transmitted", "largest_deflection", "misalignment", "face_factor", "flank_stress", "root_stress", "mass":
			if it.Decides && view.Finite(it.From) && view.Finite(it.To) {
				all = append(all, i)
			}
		}
	}
	return all
}

// SplitSentence says in words what makes the difference in one quantity of one speed; "" when there is none.
func SplitSentence(c *study.CauseSplit, speed, item int, o Options) string {
	return strings.ReplaceAll(splitSentence(c, speed, item, o), view.NoBreak, " ")
}

// negligible is the share of the largest part below which a part isn't put in words.
const negligible = 0.05

func splitSentence(c *study.CauseSplit, speed, item int, o Options) string {
	it := &c.Speeds[speed].Items[item]
	most := largest(it.Shares)
	if most == 0 {
		return ""
	}
	text := fmt.Sprintf("%s: %s → %s. ", view.Capital(itemName(c, speed, it)), view.With(it.From, it.Dimension, o.Units), view.With(it.To, it.Dimension, o.Units))
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
		part := causeWords(&c.Causes[i], o) + " " + view.With(math.Abs(it.Shares[i]), it.Dimension, o.Units)
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
		return text + view.Capital(strings.TrimPrefix(undoes, "; ")) + view.List(against) + "."
	case len(against) == 0:
		return text + does + view.List(along) + "."
	}
	return text + does + view.List(along) + undoes + view.List(against) + "."
}

// itemName is a quantity of a speed in words: "allowable torque in 1st by flank fatigue of first pinion".
func itemName(c *study.CauseSplit, speed int, it *study.ItemSplit) string {
	in := " in " + view.Clean(c.Speeds[speed].Name)
	switch {
	case it.Limit != nil:
		name := "allowable torque" + in + " by " + partLimitName(it.Limit)
		if it.First[0] != it.First[1] {
			name += " (which limits " + limited(it, [2]string{view.Clean(c.From), view.Clean(c.To)}) + ")"
		}
		return name
	case it.Key == "mass":
		return view.Clean(it.Name) // in every speed the same
	case it.Part != "":
		return view.Clean(it.Part) + ", " + view.Clean(it.Name) + in
	}
	return view.Clean(it.Name) + in
}

package reports

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// splitSection tells what makes the difference between the first box and each other one.
func splitSection(b *bytes.Buffer, c *study.Comparison, names []string, o Options) {
	for _, s := range c.Splits {
		b.WriteByte('\n')
		title(b, o.width(), "What makes the difference: "+names[0]+" → "+names[s.Box], "")
		if s.Causes == nil {
			paragraph(b, o.width(), indent, "It can't be shared out over dimensions: "+harmless(s.Why)+".")
			continue
		}
		for _, p := range SplitWords(s.Causes) {
			paragraph(b, o.width(), indent, p)
		}
		if len(s.Causes.Speeds) == 0 {
			continue
		}
		ends := [2]string{names[0], names[s.Box]}
		splitTorques(b, s.Causes, ends, o)
		speed := weakest(s.Causes)
		splitSpeed(b, s.Causes, speed, ends, o)
		b.WriteByte('\n')
		for _, k := range picked(s.Causes.Speeds[speed].Items) {
			it := &s.Causes.Speeds[speed].Items[k]
			if it.Key != "allowable_torque" && math.Abs(it.To-it.From) < worthWords*math.Abs(it.From) {
				continue
			}
			if t := splitSentence(s.Causes, speed, k, o); t != "" {
				paragraph(b, o.width(), indent, t)
			}
		}
	}
}

// worthWords is the relative difference from which on the text report tells a quantity in words.
const worthWords = 0.05

// largest is the largest size of some numbers.
func largest(all []float64) (most float64) {
	for _, v := range all {
		if finite(v) {
			most = max(most, math.Abs(v))
		}
	}
	return most
}

// SplitWords says how a difference was shared out: a paragraph each on the way, on what is the same in both boxes, on what is joined, and on what is left out.
func SplitWords(c *study.CauseSplit) []string {
	var same, joined []string
	for _, cause := range c.Causes {
		switch {
		case cause.Same:
			same = append(same, causeName(cause))
		case cause.Why != "":
			joined = append(joined, fmt.Sprintf("Some groups can't be swapped alone and go together: %s (else: %s).", causeName(cause), strings.TrimRight(harmless(firstLine(cause.Why)), ".")))
		}
	}
	if c.Mixed == 0 {
		return []string{"Nothing does: all dimensions that are compared are the same in both."}
	}
	words := []string{fmt.Sprintf("Each group of dimensions is swapped from one box to the other, in every order, and its mean effect is shown (Shapley's value), "+
		"so the parts add up to the whole difference. Places along a shaft keep where they lie between its bearings. %d mixed boxes were solved.", c.Mixed)}
	if len(same) > 0 {
		words = append(words, "The same in both: "+list(same)+".")
	}
	words = append(words, joined...)
	if len(c.Left) > 0 {
		words = append(words, "Not shared out, since only one box has it or its meshes are others: "+list(each(c.Left, harmless))+", and its part of the duty.")
	}
	return words
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}

func causeName(c study.SplitCause) string {
	return list(each(c.Groups, study.Group.String))
}

// weakest is the speed with the least allowable torque of either box.
func weakest(c *study.CauseSplit) (speed int) {
	least := math.Inf(1)
	for i, s := range c.Speeds {
		for _, it := range s.Items {
			if it.Key == "allowable_torque" && min(it.From, it.To) < least {
				least, speed = min(it.From, it.To), i
			}
		}
	}
	return speed
}

// splitTable writes quantities as columns and causes as rows, from one box down to the other.
func splitTable(b *bytes.Buffer, c *study.CauseSplit, items []*study.ItemSplit, heads []string, ends [2]string, o Options) {
	columns := []head{{text: "", least: 20}}
	rows := [][]cell{{{text: ends[0]}}}
	active := []int{}
	for i, cause := range c.Causes {
		if !cause.Same {
			active = append(active, i)
			rows = append(rows, []cell{{text: causeName(cause)}})
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
		values = convertAll(append(values, it.To), it.Dimension, o.Units)
		n := max(decimals([]float64{values[0], values[len(values)-1]}), decimalsFor(largest(values[1:len(values)-1]), 2))
		for r, v := range values {
			text := fixed(v, n)
			switch {
			case math.IsNaN(v):
				text = none
			case r > 0 && r < len(values)-1 && strings.Trim(text, "-0.") == "":
				text = "0"
			case r > 0 && r < len(values)-1:
				text = signed(text)
			}
			rows[r] = append(rows[r], cell{text: text})
		}
	}
	table(b, o.width(), columns, rows)
}

// splitTorques is the allowable torque in every speed.
func splitTorques(b *bytes.Buffer, c *study.CauseSplit, ends [2]string, o Options) {
	var items []*study.ItemSplit
	var heads []string
	for i := range c.Speeds {
		for k := range c.Speeds[i].Items {
			if it := &c.Speeds[i].Items[k]; it.Key == "allowable_torque" {
				items, heads = append(items, it), append(heads, shorten(harmless(c.Speeds[i].Name), 9))
			}
		}
	}
	fmt.Fprintf(b, "\n  Allowable torque in each speed, %s\n", quantity.Unit(quantity.Torque, o.Units))
	splitTable(b, c, items, heads, ends, o)
}

// mostSplit is how many quantities of a speed stand beside each other.
const mostSplit = 7

// splitSpeed shows what bends, tilts and strains in one speed.
func splitSpeed(b *bytes.Buffer, c *study.CauseSplit, speed int, ends [2]string, o Options) {
	s := &c.Speeds[speed]
	var items []*study.ItemSplit
	var heads []string
	for _, k := range picked(s.Items) {
		it := &s.Items[k]
		if it.Key == "allowable_torque" || len(items) == mostSplit {
			continue
		}
		items = append(items, it)
		heads = append(heads, splitHead(it, o))
	}
	fmt.Fprintf(b, "\n  In %s, which runs out first\n", harmless(s.Name))
	splitTable(b, c, items, heads, ends, o)
}

func splitHead(it *study.ItemSplit, o Options) string {
	name := map[string]string{"largest_deflection": "bends", "tilt": "tilts", "face_factor": "K_Hβ", "root_stress": "σ_F", "mass": "mass", "flank_stress": "σ_H"}[it.Key]
	part := shorten(strings.TrimSuffix(harmless(it.Part), " shaft"), 14)
	return strings.TrimRight(name+"\n"+part+"\n"+quantity.Unit(it.Dimension, o.Units), "\n")
}

// picked picks the quantities of a speed that are told in words, from the answer down: what it allows, how shafts bend, how the first mesh tilts and what that does to its teeth.
func picked(items []study.ItemSplit) (all []int) {
	mesh := ""
	for i, it := range items {
		if it.Key == "tilt" && mesh == "" {
			mesh = it.Part
		}
		switch it.Key {
		case "allowable_torque", "largest_deflection", "mass":
			all = append(all, i)
		case "tilt", "face_factor", "flank_stress":
			if it.Part == mesh {
				all = append(all, i)
			}
		case "root_stress":
			if it.Part == mesh+", driver" {
				all = append(all, i)
			}
		}
	}
	return all
}

// SplitSentence says in words what makes the difference in one quantity of one speed; "" when there is none.
func SplitSentence(c *study.CauseSplit, speed, item int, o Options) string {
	return strings.ReplaceAll(splitSentence(c, speed, item, o), noBreak, " ")
}

// negligible is the share of the largest part below which a part isn't told in words.
const negligible = 0.05

func splitSentence(c *study.CauseSplit, speed, item int, o Options) string {
	it := &c.Speeds[speed].Items[item]
	most := largest(it.Shares)
	if most == 0 {
		return ""
	}
	name := harmless(it.Name)
	if it.Part != "" {
		name = harmless(it.Part) + ", " + name
	}
	in := " in " + harmless(c.Speeds[speed].Name)
	if it.Key == "mass" {
		in = "" // in every speed the same
	}
	text := fmt.Sprintf("%s%s: %s → %s. ", capital(name), in, with(it.From, it.Dimension, o.Units), with(it.To, it.Dimension, o.Units))
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
		part := causeWords(c.Causes[i], it, o) + " " + with(math.Abs(it.Shares[i]), it.Dimension, o.Units)
		if it.Shares[i]*way > 0 {
			along = append(along, part)
		} else {
			against = append(against, part)
		}
	}
	does, undoes := "Added by ", "; taken back by "
	if way < 0 {
		does, undoes = "Taken off by ", "; given back by "
	}
	switch {
	case len(along) == 0: // can't be, but for rounding
		return ""
	case len(against) == 0:
		return text + does + list(along) + "."
	}
	return text + does + list(along) + undoes + list(against) + "."
}

// capital makes the first letter a large one.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// causeWords names a cause as it differs: "the shorter span (227 → 184 mm)".
func causeWords(c study.SplitCause, it *study.ItemSplit, o Options) string {
	if len(c.Groups) > 1 {
		return causeName(c)
	}
	var own *study.Fact
	grows, shrinks := 0, 0
	for i := range c.Facts {
		f := &c.Facts[i]
		if f.To > f.From {
			grows++
		} else {
			shrinks++
		}
		if gearbox.ShaftTitle(f.Part) == it.Part {
			own = f
		}
	}
	word := func(more, less string) string {
		switch {
		case own != nil && own.To > own.From, own == nil && shrinks == 0:
			return more
		}
		return less
	}
	if own == nil && (grows > 0) == (shrinks > 0) {
		return causeName(c)
	}
	numbers := ""
	if own != nil {
		numbers = fmt.Sprintf(" (%s → %s)", strings.TrimSuffix(with(own.From, own.Dimension, o.Units), noBreak+quantity.Unit(own.Dimension, o.Units)), with(own.To, own.Dimension, o.Units))
	}
	switch g := c.Groups[0]; {
	case g == study.Span && own != nil:
		return "its " + word("longer", "shorter") + " span" + numbers
	case g == study.Span:
		return word("longer", "shorter") + " spans"
	case g == study.Sections && own != nil:
		return fmt.Sprintf("its %s section %d%s", word("thicker", "thinner"), own.Section, numbers)
	case g == study.Sections:
		return word("thicker", "thinner") + " shafts"
	case g == study.Faces:
		return word("wider", "narrower") + " faces"
	case g == study.Ratios:
		return word("more", "fewer") + " teeth"
	}
	return causeName(c)
}

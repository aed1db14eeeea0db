package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// SplitWords says how a difference was shared out, or why it can't be: a paragraph each on the way, on what differs and what is the same, on
// what is joined, on parts of other names, and on what is left out.
func SplitWords(s *study.Split, o Options) (words []string) {
	c := s.Causes
	if c == nil {
		return []string{"It can't be shared out over dimensions: " + Clean(s.Why) + "."}
	}
	var differ, untold, same, joined []string
	moved := false
	for i := range c.Causes {
		cause := &c.Causes[i]
		if cause.Same {
			same = append(same, CauseName(cause))
			continue
		}
		moved = moved || cause.Gears || cause.Steps
		if facts := factWords(cause, o); facts != "" {
			differ = append(differ, "What differs in "+CauseName(cause)+": "+facts+".")
		} else {
			untold = append(untold, CauseName(cause))
		}
		if cause.Why != "" {
			joined = append(joined, fmt.Sprintf("Some groups can't be swapped alone and go together: %s (else: %s).", CauseName(cause),
				strings.TrimRight(Clean(firstLine(cause.Why)), ".")))
		}
	}
	if c.Mixed == 0 {
		words = append(words, "Nothing does: in what both boxes have, all dimensions are the same.")
	} else {
		way := "Each group of dimensions is swapped from one box to the other, in every order, and its mean effect is shown (Shapley's value), " +
			"so the parts add up to the whole difference. Places that are equal in both files stay where they are."
		if moved {
			way += " What stands elsewhere moves along in proportion when the bearings move."
		}
		words = append(append(words, fmt.Sprintf("%s %d mixed boxes were solved.", way, c.Mixed)), differ...)
		if len(untold) > 0 {
			words = append(words, "What differs in other ways: "+strings.Join(untold, "; ")+".")
		}
		if len(same) > 0 {
			words = append(words, "The same in both: "+List(same)+".")
		}
	}
	words = append(words, joined...)
	if len(c.Renamed) > 0 {
		words = append(words, "Under another name: "+renames(c.Renamed, Clean(c.To))+".")
	}
	if len(c.Alone) > 0 {
		names := [2]string{Clean(c.From), Clean(c.To)}
		words = append(words, "Without a partner in the other box: "+strings.Join(Each(c.Alone, func(u study.Unpaired) string {
			return partName(u.Sort, u.Name, u.On) + " of " + names[u.Box]
		}), "; ")+".")
	}
	if len(c.Left) > 0 {
		words = append(words, "Not shared out: "+strings.Join(Each(c.Left, func(l study.LeftOut) string {
			return Clean(l.Speed) + " (" + Clean(l.Why) + ")"
		}), "; ")+"; and its part of the duty.")
	}
	return words
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}

// renames says what parts are called in the other box.
func renames(all []study.Rename, box string) string {
	return strings.Join(Each(all, func(r study.Rename) string {
		return partName(r.Sort, r.First, r.On) + " is called " + Clean(r.Second) + " in " + box
	}), "; ")
}

// partName is a part by its sort and name.
func partName(sort study.PartSort, name, on string) string {
	switch sort {
	case study.ShaftSort:
		return gearbox.ShaftTitle(Clean(name))
	case study.MeshSort:
		return "mesh " + Clean(name)
	case study.BearingSort:
		return "bearing " + Clean(name) + " of the " + gearbox.ShaftTitle(Clean(on))
	}
	return Clean(name)
}

// CauseName names the groups of dimensions of a cause.
func CauseName(c *study.SplitCause) string {
	return List(Each(c.Groups, study.Group.String))
}

// mostFacts is how many dimensions of a group are listed; of spans, faces and teeth all are. mostSections is how many
// sections of one shaft are.
const (
	mostFacts    = 6
	mostSections = 3
)

// factWords lists dimensions that differ: "input shaft: span 170 → 140 mm". Parts of the same numbers are named together.
func factWords(c *study.SplitCause, o Options) string {
	type entry struct {
		of    []string // parts
		shaft string   // whose section it is
		text  string
	}
	var all []entry
	for i := range c.Facts {
		f := &c.Facts[i]
		e := entry{text: fromTo(f, o)}
		if f.What != CauseName(c) {
			e.text = f.What + " " + e.text
		}
		if f.Sections != [2]int{} {
			e.text, e.shaft = section(f)+" "+e.text, f.Part
		}
		part := factPart(f)
		k := slices.IndexFunc(all, func(other entry) bool { return other.text == e.text && other.shaft == e.shaft })
		switch {
		case k < 0:
			e.of = []string{part}
			all = append(all, e)
		case !slices.Contains(all[k].of, part):
			all[k].of = append(all[k].of, part)
		}
	}
	var words []string
	for from, to := 0, 0; from < len(all); from = to {
		for to = from; to < len(all) && all[to].shaft == all[from].shaft; to++ {
		}
		most, between := to-from, "; "
		switch {
		case all[from].shaft != "":
			most, between = mostSections, ", "
		case len(c.Groups) > 1 || !slices.Contains([]study.Group{study.Span, study.Faces, study.Ratios}, c.Groups[0]):
			most = mostFacts
		}
		if most+1 >= to-from { // one more takes no more room than to say so
			most = to - from
		}
		var run []string
		for i := from; i < from+most; i++ {
			text := all[i].text
			if of := List(few(all[i].of)); of != "" && (i == from || all[i].shaft == "") {
				text = of + ": " + text
			}
			run = append(run, text)
		}
		if more := to - from - most; more > 0 {
			run = append(run, fmt.Sprintf("and %d more", more))
		}
		words = append(words, strings.Join(run, between))
	}
	if len(c.Aside) > 0 {
		words = append(words, "steps of the "+List(Each(c.Aside, func(s string) string { return gearbox.ShaftTitle(Clean(s)) }))+
			" moved along with the bearings, but not quite in proportion")
	}
	if c.More {
		words = append(words, "and more")
	}
	if len(words) == 1 && c.More {
		return "" // nothing can be told of it
	}
	return strings.Join(words, "; ")
}

// few leaves out names where there are many.
func few(names []string) []string {
	if len(names) <= mostFacts {
		return names
	}
	return append(slices.Clone(names[:mostSections]), fmt.Sprintf("%d more", len(names)-mostSections))
}

// section names a section by its number in the file, and by that in the other file where it is another.
func section(f *study.Fact) string {
	text := fmt.Sprintf("section %d", f.Sections[0])
	if f.Sections[1] != f.Sections[0] {
		text += fmt.Sprintf(" (there %d)", f.Sections[1])
	}
	return text
}

// factPart is the part that a dimension belongs to, in words; "" = the box.
func factPart(f *study.Fact) string {
	switch f.What {
	case "span", "diameter", "bore", "length", "start":
		return gearbox.ShaftTitle(Clean(f.Part))
	}
	return Clean(f.Part)
}

// fromTo is a dimension in both boxes: "170 → 140 mm".
func fromTo(f *study.Fact, o Options) string {
	side := func(i int, v float64) string {
		switch {
		case f.Names[i] != "":
			return Clean(f.Names[i])
		case math.IsNaN(v):
			return "not given"
		case math.IsInf(v, 0):
			return "rigid"
		}
		return Trimmed(quantity.Convert(v, f.Dimension, o.Units))
	}
	text := side(0, f.From) + " → " + side(1, f.To)
	if unit := quantity.Unit(f.Dimension, o.Units); unit != "" && !math.IsNaN(f.To) && f.Names[1] == "" {
		text += NoBreak + unit
	}
	return text
}

// CauseWords names a cause as it differs: "shorter spans". A direction is told when every dimension that differs goes that
// way, a dimension when it differs alone.
func CauseWords(c *study.SplitCause, o Options) string {
	return causeWay(c, o) + alongWords(c)
}

func causeWay(c *study.SplitCause, o Options) string {
	way := c.Way()
	if len(c.Groups) > 1 || len(c.Facts) == 0 || c.More || len(c.Aside) > 0 {
		return CauseName(c)
	}
	one := ""
	if len(c.Facts) == 1 {
		f := &c.Facts[0]
		if one = fromTo(f, o); f.Sections != [2]int{} {
			one = section(f) + ": " + one
		}
		one = " (" + one + ")"
	}
	of := ""
	if part := factPart(&c.Facts[0]); one != "" && part != "" {
		of = " of " + part
		if c.Groups[0] == study.Asked || strings.HasPrefix(part, "bearing ") || part != Clean(c.Facts[0].Part) {
			of = " of the " + part
		}
	} else if one != "" && c.Groups[0] == study.Case && way == 0 {
		of = " of the housing"
	}
	if way == 0 && one != "" {
		return "the " + c.Facts[0].What + of + one
	}
	if way == 0 {
		return CauseName(c)
	}
	word := func(more, less string) string {
		if way > 0 {
			return more
		}
		return less
	}
	// plural is the name of several dimensions, singular that of one.
	plural, singular := "", ""
	switch c.Groups[0] {
	case study.Span:
		plural, singular = word("longer", "shorter")+" spans", word("longer", "shorter")+" span"
		of = " of the " + factPart(&c.Facts[0])
	case study.Sections:
		plural, singular = word("thicker", "thinner")+" shafts", word("thicker", "thinner")+" "+factPart(&c.Facts[0])
		if of = ""; c.Facts[0].What == "bore" && one != "" {
			singular = word("narrower", "wider") + " bore of the " + factPart(&c.Facts[0])
		}
	case study.Faces:
		plural, singular = word("wider", "narrower")+" faces", word("wider", "narrower")+" face"
	case study.Ratios:
		plural, singular = word("more", "fewer")+" teeth", word("larger", "smaller")+" number of teeth"
	case study.Seats:
		plural, singular, of = word("stiffer", "softer")+" bearings", word("stiffer", "softer")+" "+factPart(&c.Facts[0]), ""
	case study.Case:
		plural, singular = word("stiffer", "softer")+" housing", word("stiffer", "softer")+" housing"
	}
	switch {
	case one == "" && c.Groups[0] == study.Sections && !slices.ContainsFunc(c.Facts, func(f study.Fact) bool { return f.Part != c.Facts[0].Part }):
		return "the " + word("thicker", "thinner") + " " + factPart(&c.Facts[0])
	case one == "":
		return plural
	}
	return "the " + singular + of + one
}

// alongWords says what moves along with the bearings.
func alongWords(c *study.SplitCause) string {
	switch {
	case c.Gears && c.Steps:
		return ", with gears and steps moved along,"
	case c.Gears:
		return ", with gears moved along,"
	case c.Steps:
		return ", with steps moved along,"
	}
	return ""
}

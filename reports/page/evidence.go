package page

import (
	"fmt"
	"html/template"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// lessons is what service history says of the steels of one box.
type lessons struct {
	Box   int
	Name  string
	Told  []string
	Grids []template.HTML
}

func (s *set) lessons() (all []lessons) {
	for b, r := range s.results {
		if len(r.Box.Lessons) == 0 {
			continue
		}
		l := lessons{Box: look(b), Name: s.names[b]}
		loads := grid{Caption: "The load that counts of it, as input torque, " + s.unit(quantity.Torque), Heads: []string{"History", "Speed", "Peak", "limited by", "Continuous", "limited by"}}
		bounds := grid{Caption: "Strength required of parts, and implied strength of the steel, " + s.unit(quantity.Stress), Heads: []string{"History", "Strength", "What decides", "Strength required", "Implied strength"}}
		for i, lesson := range r.Box.Lessons {
			l.Told = append(l.Told, s.told(lesson))
			for _, c := range lesson.Loads {
				loads.Rows = append(loads.Rows, gridRow{Head: fmt.Sprint(i + 1), Cells: []gridCell{
					word(view.Clean(c.Speed)), digit(s.number(c.Peak.Torque, quantity.Torque, 3)), word(string(c.Peak.By)),
					digit(s.number(c.Running.Torque, quantity.Torque, 3)), word(string(c.Running.By)),
				}})
			}
			for _, bound := range lesson.Bounds {
				bounds.Rows = append(bounds.Rows, s.boundRow(fmt.Sprint(i+1), bound))
			}
		}
		if len(loads.Rows) > 0 {
			l.Grids = append(l.Grids, loads.html())
		}
		if len(bounds.Rows) > 0 {
			l.Grids = append(l.Grids, bounds.html())
		}
		narrowed := grid{Caption: "None of it narrows a band: the steel was taken to be at least that strong already"}
		if len(r.Box.Narrowed) > 0 {
			narrowed = grid{Caption: "Bands that rest on it: low, typical, high, " + s.unit(quantity.Stress), Heads: []string{"Steel", "Strength", "Low", "Typical", "High", "Was: low", "typical", "high"}}
		}
		for _, n := range r.Box.Narrowed {
			row := gridRow{Head: view.Clean(n.Steel), Cells: []gridCell{word(n.Strength.String())}}
			for _, band := range []material.Band{n.Now, n.Was} {
				for level := material.Low; level <= material.High; level++ {
					row.Cells = append(row.Cells, digit(s.number(band.At(level), quantity.Stress, 4)))
				}
			}
			narrowed.Rows = append(narrowed.Rows, row)
		}
		l.Grids = append(l.Grids, narrowed.html())
		all = append(all, l)
	}
	return all
}

func (s *set) boundRow(number string, b gearbox.StrengthBound) gridRow {
	says := "≥ "
	if b.Upper {
		says = "≤ "
	}
	says += s.number(b.Counted, quantity.Stress, 4)
	if b.Aside {
		says = "(" + says + ")"
	}
	return gridRow{Head: number, Cells: []gridCell{
		word(b.Strength.String() + " of " + view.Clean(b.Steel)), word(view.Clean(b.Kind.Of(b.Item)) + " in " + view.Clean(b.Speed)),
		digit(s.number(b.Needed, quantity.Stress, 4)), digit(says),
	}}
}

// told is one piece of service history in words, with what stands in the way of a bound.
func (s *set) told(l gearbox.Lesson) string {
	e := l.Evidence
	text, joint := view.Clean(l.Box)+" survived ", " for"
	if e.Broke {
		text, joint = view.Clean(l.Box)+" broke at ", " after"
	}
	text += s.text(e.Torque, quantity.Torque, 3)
	if e.Peak > 0 {
		text += " with a peak of " + s.text(e.Peak, quantity.Torque, 3)
	}
	if e.Passes > 0 {
		text += joint + " " + e.PassWords()
	}
	if e.Speed != "" {
		text += " in " + view.Clean(e.Speed)
	}
	opened := ""
	if e.Opened {
		opened = "opened and found sound"
	}
	for _, what := range []string{view.Clean(e.Gear), string(e.By), opened, view.Clean(strings.Join(strings.Fields(e.Note), " "))} {
		if what != "" {
			text += "; " + what
		}
	}
	text = strings.TrimRight(text, ".") + "."
	if l.Why != "" {
		text += " " + view.Clean(l.Why)
	}
	return text
}

// equal is the answer of each box at the steel of the first one, and whether it is the same as with its own; empty when their steels are alike.
func (s *set) equal(c *study.Comparison, o Options) (all []card, same bool) {
	if c == nil || c.Equal == nil {
		return nil, false
	}
	at := newSet(c.Equal, s.system)
	same = true
	for b := range c.Equal {
		all = append(all, at.card(b, o))
		same = same && all[b] == s.card(b, o)
	}
	return all, same
}

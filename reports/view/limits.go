package view

import (
	"fmt"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// placed is a limit together with the speed it belongs to.
type placed struct {
	speed  string
	margin *gearbox.Margin
}

// sooner tells whether limit a is reached before limit b. One whose margin is not a number comes last.
func sooner(a, b *gearbox.Margin) bool {
	if math.IsNaN(a.Margin) || math.IsNaN(b.Margin) {
		return !math.IsNaN(a.Margin) && math.IsNaN(b.Margin)
	}
	return a.Margin < b.Margin
}

// worstOfKind is, for each kind of limit that there is, the one that is reached first.
func worstOfKind(r *gearbox.Result) (worst []placed) {
	for _, kind := range gearbox.Kinds() {
		var p placed
		for i := range r.Speeds {
			s := &r.Speeds[i]
			for k := range s.Margins {
				if m := &s.Margins[k]; m.Kind == kind && (p.margin == nil || sooner(m, p.margin)) {
					p = placed{s.Name, m}
				}
			}
		}
		if p.margin != nil {
			worst = append(worst, p)
		}
	}
	return worst
}

// worstOf is, for each part of the given limits of all speeds, the one that is reached first at an end of its band, in the order of kinds.
func worstOf(r *gearbox.Result, limits func(*gearbox.SpeedResult) []gearbox.Margin, level material.Level) (all []placed) {
	for _, kind := range gearbox.Kinds() {
		at := map[string]int{}
		for i := range r.Speeds {
			s := &r.Speeds[i]
			margins := limits(s)
			for k := range margins {
				m := &margins[k]
				if m.Kind != kind {
					continue
				}
				n, ok := at[m.Item]
				switch {
				case !ok:
					at[m.Item] = len(all)
					all = append(all, placed{s.Name, m})
				case m.Allowable[level] < all[n].margin.Allowable[level]:
					all[n] = placed{s.Name, m}
				}
			}
		}
	}
	return all
}

// hiddenNotes are the notes of a speed's limits that stand at no other row of a report.
func hiddenNotes(s *gearbox.SpeedResult, worst []placed) (hidden []string) {
	shown := map[string]bool{}
	show := func(notes []string) {
		for _, n := range notes {
			shown[n] = true
		}
	}
	show(s.Notes)
	for i := range s.Meshes {
		show(s.Meshes[i].Notes)
	}
	for i := range s.Shafts {
		show(s.Shafts[i].Notes)
	}
	if len(s.Margins) > 0 {
		show(s.Margins[0].Notes)
	}
	for i := range s.Margins {
		for _, p := range worst {
			if p.margin == &s.Margins[i] {
				show(p.margin.Notes)
			}
		}
	}
	for i := range s.Margins {
		for _, n := range s.Margins[i].Notes {
			if !shown[n] {
				hidden = append(hidden, n)
			}
		}
	}
	return hidden
}

// KindTable has one row per kind of limit: the one of all speeds that is reached first.
func KindTable(r *gearbox.Result, o Options) *Table {
	whole := ""
	if transmits(r) {
		whole = ", if all of the torque arrived"
	}
	t := o.table("Each kind of limit where it is reached first"+whole, wrapped("limit", 5), words("speed", 5), right("actual", ""), right("allowable", ""),
		words("unit", 0), words("state", 0), right("left", "%"))
	for _, p := range worstOfKind(r) {
		m := p.margin
		// Demand and limit share their decimals, so that they can be compared at a glance.
		pair := AlikeIn([]float64{m.Demand, m.Limit.At(m.Level)}, m.Kind.Dimension(), o.Units)
		t.add(word(limitIn(m, p.speed)).of(m), word(p.speed), word(pair[0]), word(pair[1]), word(quantity.Unit(m.Kind.Dimension(), o.Units)),
			state(m.State), Cell{Text: Percent(m.Margin)})
	}
	t.say("What is left is in input torque: so much more brings the part to its limit. Stresses and angles need not grow in step with torque.", lifeWords(r))
	return t.done()
}

// SpeedTables are the limits of one speed: those that decide, guides, wear where no duty is given, and second opinions.
func SpeedTables(s *gearbox.SpeedResult, o Options) []*Table {
	return []*Table{
		marginTable("Every limit that decides, the one reached first on top; of the sections of a shaft only the worst", worstSections(s.Margins), o),
		marginTable("Guides, the one passed first on top: they warn and don't decide", s.Guides, o),
		marginTable("Wear, for endless life, since no duty is given: it doesn't decide", s.Endless, o),
		marginTable("Second opinions by other methods, for reference only: they decide nothing. AGMA is for 10⁷ load cycles, whatever the duty", s.References, o),
	}
}

// marginTable has a row for each of some limits of a speed.
func marginTable(caption string, margins []gearbox.Margin, o Options) *Table {
	t := o.table(caption, wrapped("limit", 5), words("part", 5), words("state", 0), right("left", "%"), numbers("allowable", quantity.Torque).alike(1),
		numbers("low to high", quantity.Torque).alike(1), right("actual", ""), right("allowable", ""), words("unit", 0))
	lives := false
	for i := range margins {
		lives = lives || margins[i].Life > 0
	}
	if lives {
		t.columns(right("repeats of\nthe duty", ""))
	}
	for i := range margins {
		m := &margins[i]
		judged := state(m.State)
		if m.Kind.Reference() {
			judged = word(OpinionSign + " decides nothing")
		}
		d := m.Kind.Dimension()
		values := AlikeIn([]float64{m.Demand, m.Limit.At(m.Level), m.Limit.Low, m.Limit.High}, d, o.Units)
		limit := values[1]
		if m.Limit.Low != m.Limit.High {
			limit += fmt.Sprintf(" (%s)", ends(values[2], values[3]))
		}
		row := []Cell{word(m.Kind.String()).of(m), word(m.Item), judged, Cell{Text: Percent(m.Margin)}, limitTorque(m.Allowable[m.Level]),
			between(m.Allowable[material.Low], m.Allowable[material.High]), word(values[0]), word(limit), word(quantity.Unit(d, o.Units))}
		if lives {
			row = append(row, Cell{Text: Repeats(m.Life)})
		}
		t.add(row...)
	}
	return t.done()
}

// OpinionSign stands where the state of a limit would stand: a second opinion has none.
const OpinionSign = "○"

// worstSections leaves out the yield of all sections of a shaft but the one that is reached first. A section names its shaft in front of a comma.
func worstSections(margins []gearbox.Margin) (kept []gearbox.Margin) {
	seen := map[string]bool{}
	for _, m := range margins {
		if m.Kind == gearbox.ShaftYield {
			if i := strings.LastIndex(m.Item, ","); i >= 0 {
				if seen[m.Item[:i]] {
					continue
				}
				seen[m.Item[:i]] = true
			}
		}
		kept = append(kept, m)
	}
	return kept
}

// ends is a range from one text to another, or one where they are alike.
func ends(low, high string) string {
	if low == high {
		return low
	}
	return low + " … " + high
}

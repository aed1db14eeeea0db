package view

import (
	"slices"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

// FirstTables have one row per speed and box of a comparison: what limits it. Where it is known what clutch and tyres let through, that
// comes first, as in the report about one box.
func FirstTables(c *study.Comparison, o Options) (all []*Table) {
	at, whole := "What limits each speed", ""
	if slices.ContainsFunc(c.Results, transmits) {
		all = append(all, firstTable(at+" at the torque transmitted", c, true, o))
		whole = " at the input, if all of the torque arrived"
	}
	t := firstTable(at+whole, c, false, o)
	if t != nil {
		for _, r := range c.Results {
			if text := SumWords(r); text != "" {
				t.say(text)
				break
			}
		}
	}
	return append(all, t)
}

// firstTable is one of them: at the torque transmitted, or at the input.
func firstTable(caption string, c *study.Comparison, transmitted bool, o Options) *Table {
	names := BoxNames(c.Results)
	torque := numbers("allowable", quantity.Torque)
	if transmitted {
		torque = numbers("arrives", quantity.Torque)
	}
	t := o.table(caption, once("speed", 3), words("box", 3), wrapped("limited by", 5), torque, right("left", "%"), words("state", 0))
	for _, row := range c.Speeds {
		for i, s := range row.Boxes {
			r := []Cell{word(row.Name), word(names[i])}
			switch {
			case s == nil:
				r = append(r, word("has no such speed"), absent(), absent(), absent())
			case len(s.Margins) == 0:
				r[1] = r[1].noting(speedRemarks(s))
				r = append(r, unlimited(4)...)
			default:
				m, left, judged := s.Governing(), s.Governing().Margin, s.Governing().State
				at := number(m.Allowable[m.Level])
				if transmitted {
					m = s.Deciding()
					left, judged, at = m.Left(), m.Judged(), comes(s, m)
					at.after = " (" + Bounded(s, m) + ")"
				}
				elsewhere := remarks("", nil, m.Notes)
				r[1] = r[1].noting(slices.DeleteFunc(speedRemarks(s), func(r Remark) bool { return slices.Contains(elsewhere, r) }))
				r = append(r, firstLimit(m, left, s.Name), at, percent(left), state(judged))
			}
			t.add(r...)
		}
	}
	return t.done()
}

// equalSteel is the key of the allowable torques at the steel of the first box.
const equalSteel = "allowable_torque_equal_steel"

// SameAtEqualSteel reports whether boxes of unlike steel bear the same at equal steel as with their own.
func SameAtEqualSteel(c *study.Comparison, o Options) bool {
	for _, row := range c.Speeds {
		find := func(key string) []float64 {
			if i := slices.IndexFunc(row.Items, func(d study.Difference) bool { return d.Key == key }); i >= 0 {
				return row.Items[i].Values
			}
			return nil
		}
		if !slices.Equal(AlikeIn(find(equalSteel), quantity.Torque, o.Units), AlikeIn(find("allowable_torque"), quantity.Torque, o.Units)) {
			return false
		}
	}
	return Headline(c.Equal, o) == Headline(c.Results, o)
}

// BoxTables have one row per box: what is asked of it and how it stands, and what it bears, at equal steel and of its own.
func BoxTables(c *study.Comparison, o Options) []*Table {
	first := BoxNames(c.Results)[0]
	switch {
	case c.Equal == nil:
		return []*Table{boxTable("Each box", c.Results, o)}
	case SameAtEqualSteel(c, o):
		return []*Table{boxTable("Each box, at equal steel (that of "+first+") and of its own", c.Results, o)}
	}
	return []*Table{boxTable("Each box, at equal steel: that of "+first, c.Equal, o), boxTable("Each box, of its own steel", c.Results, o)}
}

func boxTable(caption string, results []*gearbox.Result, o Options) *Table {
	names := BoxNames(results)
	t := o.table(caption, words("box", 3), numbers("asked", quantity.Torque).alike(1), words("sense", 0), words("state", 0), right("left", "%"),
		numbers("allowable", quantity.Torque).alike(1), numbers("poorest … best", quantity.Torque).alike(1))
	doubtful, arrives, broke, levels := false, false, false, []string(nil)
	for i, r := range results {
		v := study.Judge(r)
		sense := "drive"
		if r.Torque < 0 {
			sense = "coast"
		}
		stands, left, allowable, ends := absent(), absent(), absent(), absent()
		if v.Least != nil {
			low, high := v.Bears[0].Torque, v.Bears[len(v.Bears)-1].Torque
			stands, left, allowable, ends = state(v.State), percent(v.Least.Left), limitTorque(v.Bears[v.Level].Torque), poorestToBest(low, high)
			if !v.Arrives && Doubtful(v.State, low, r.Torque) {
				stands.Text, doubtful = stands.Text+doubt, true
			}
		}
		if v.Record.BrokeAt != nil {
			stands, left, broke = state(gearbox.Over), word("broke"), true
		}
		arrives = arrives || v.Arrives
		asked := number(max(r.Torque, -r.Torque))
		t.add(word(names[i]).noting(BoxRemarks(r)), asked, word(sense), stands, left, allowable, ends)
		levels = append(levels, names[i]+" is judged by "+levelName(r.Box.Limits.Strength)+".")
	}
	text := rangeWords(doubtful)
	if arrives {
		text += " State and left go by what clutch and tyres let through, the allowable torque by what comes to the input."
	}
	if broke {
		text += " Broke: at no more than the asked torque, by the service history."
	}
	t.say(text)
	if slices.ContainsFunc(results, func(r *gearbox.Result) bool { return r.Box.Limits.Strength != results[0].Box.Limits.Strength }) {
		t.say(levels...)
	}
	return t.done()
}

// limitTorque is the torque of a limit, in words where no torque reaches it.
func limitTorque(torque float64) Cell {
	if torque > 0 && !Finite(torque) {
		return word(NotReached)
	}
	return number(torque)
}

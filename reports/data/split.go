package data

import (
	"strings"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type splitJSON struct {
	From    string           `json:"from_box"`
	To      string           `json:"to_box"`
	Why     string           `json:"why_not"`
	Words   []string         `json:"words"`
	Mixed   int              `json:"mixed_boxes"`
	Left    []leftJSON       `json:"speeds_left_out"`
	Renamed []renameJSON     `json:"under_another_name"`
	Alone   []unpairedJSON   `json:"without_partner"`
	Causes  []splitCauseJSON `json:"causes"`
	Speeds  []splitSpeedJSON `json:"speeds"`
	Decides string           `json:"decided_in_speed"`
}

type leftJSON struct {
	Speed string `json:"speed"`
	Why   string `json:"why"`
}

type renameJSON struct {
	Sort   string `json:"sort"`
	On     string `json:"on_shaft"`
	First  string `json:"in_from_box"`
	Second string `json:"in_to_box"`
}

type unpairedJSON struct {
	Box  string `json:"box"`
	Sort string `json:"sort"`
	On   string `json:"on_shaft"`
	Name string `json:"name"`
}

type splitCauseJSON struct {
	Groups []string   `json:"groups"`
	Words  string     `json:"words"`
	Same   bool       `json:"same_in_both"`
	Why    string     `json:"joined_because"`
	Gears  bool       `json:"gears_move_along"`
	Steps  bool       `json:"steps_move_along"`
	Facts  []factJSON `json:"facts"`
	Aside  []string   `json:"steps_not_in_proportion_of_shafts"`
	More   bool       `json:"differs_in_more"`
}

type factJSON struct {
	Part   string   `json:"part"`
	What   string   `json:"what"`
	First  int      `json:"section_in_from_box"`
	Second int      `json:"section_in_to_box"`
	Unit   string   `json:"unit"`
	From   number   `json:"from_in_unit"`
	To     number   `json:"to_in_unit"`
	Names  []string `json:"names"` // of what has a name instead of a number
}

type splitSpeedJSON struct {
	Name  string          `json:"name"`
	Items []splitItemJSON `json:"items"`
}

type splitItemJSON struct {
	Name    string   `json:"name"`
	Key     string   `json:"key"`
	Part    string   `json:"part"`
	Kind    string   `json:"limit_kind"`
	First   []string `json:"first_limit_of"`
	Decides bool     `json:"of_what_decides"`
	Words   string   `json:"words"`
	Unit    string   `json:"unit"`
	From    number   `json:"from_in_unit"`
	To      number   `json:"to_in_unit"`
	Shares  []number `json:"shares_in_unit"`
}

func newSplits(c *study.Comparison, o view.Options) []splitJSON {
	names := view.BoxNames(c.Results)
	return view.Each(c.Splits, func(s study.Split) splitJSON {
		ends := [2]string{names[0], names[s.Box]}
		j := splitJSON{
			From: ends[0], To: ends[1], Why: s.Why, Words: []string{}, Left: []leftJSON{}, Renamed: []renameJSON{}, Alone: []unpairedJSON{},
			Causes: []splitCauseJSON{}, Speeds: []splitSpeedJSON{},
		}
		k := s.Causes
		if k == nil {
			return j
		}
		j.Mixed, j.Words, j.Decides = k.Mixed, view.Each(view.SplitWords(&s, o), plain), k.Decides
		j.Left = view.Each(k.Left, func(l study.LeftOut) leftJSON { return leftJSON(l) })
		j.Renamed = view.Each(k.Renamed, func(r study.Rename) renameJSON { return renameJSON{string(r.Sort), r.On, r.First, r.Second} })
		j.Alone = view.Each(k.Alone, func(u study.Unpaired) unpairedJSON { return unpairedJSON{ends[u.Box], string(u.Sort), u.On, u.Name} })
		j.Causes = view.Each(k.Causes, func(cause study.SplitCause) splitCauseJSON { return newSplitCause(&cause, o) })
		for i := range k.Speeds {
			j.Speeds = append(j.Speeds, newSplitSpeed(k, i, ends, o))
		}
		return j
	})
}

func newSplitCause(c *study.SplitCause, o view.Options) splitCauseJSON {
	words := strings.TrimSuffix(plain(view.CauseWords(c, o)), ",")
	return splitCauseJSON{view.Each(c.Groups, study.Group.Key), words, c.Same, c.Why, c.Gears, c.Steps, view.Each(c.Facts, func(f study.Fact) factJSON {
		factor, unit := inUnit(f.Dimension)
		return factJSON{f.Part, f.What, f.Sections[0], f.Sections[1], unit, number(f.From * factor), number(f.To * factor), f.Names[:]}
	}), view.Each(c.Aside, unchanged), c.More}
}

func newSplitSpeed(c *study.CauseSplit, speed int, ends [2]string, o view.Options) splitSpeedJSON {
	s := splitSpeedJSON{c.Speeds[speed].Name, []splitItemJSON{}}
	for k := range c.Speeds[speed].Items {
		it := &c.Speeds[speed].Items[k]
		factor, unit := inUnit(it.Dimension)
		j := splitItemJSON{
			Name: it.Name, Key: it.Key, Part: it.Part, First: []string{}, Decides: it.Decides, Words: plain(view.SplitSentence(c, speed, k, o)),
			Unit: unit, From: number(it.From * factor), To: number(it.To * factor), Shares: view.Each(it.Shares, scaled(factor)),
		}
		if it.Limit != nil {
			j.Kind = it.Limit.Kind.Key()
		}
		for i, first := range it.First {
			if first {
				j.First = append(j.First, ends[i])
			}
		}
		s.Items = append(s.Items, j)
	}
	return s
}

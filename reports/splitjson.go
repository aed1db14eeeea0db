package reports

import "layshaft/gearbox/study"

type splitJSON struct {
	From   string           `json:"from_box"`
	To     string           `json:"to_box"`
	Why    string           `json:"why_not"`
	Mixed  int              `json:"mixed_boxes"`
	Left   []string         `json:"speeds_left_out"`
	Causes []splitCauseJSON `json:"causes"`
	Speeds []splitSpeedJSON `json:"speeds"`
}

type splitCauseJSON struct {
	Groups []string   `json:"groups"`
	Same   bool       `json:"same_in_both"`
	Why    string     `json:"joined_because"`
	Facts  []factJSON `json:"facts"`
}

type factJSON struct {
	Part    string `json:"part"`
	Section int    `json:"section"`
	Unit    string `json:"unit"`
	From    number `json:"from_in_unit"`
	To      number `json:"to_in_unit"`
}

type splitSpeedJSON struct {
	Name  string          `json:"name"`
	Items []splitItemJSON `json:"items"`
}

type splitItemJSON struct {
	Name   string   `json:"name"`
	Key    string   `json:"key"`
	Part   string   `json:"part"`
	Unit   string   `json:"unit"`
	From   number   `json:"from_in_unit"`
	To     number   `json:"to_in_unit"`
	Shares []number `json:"shares_in_unit"`
}

func newSplits(c *study.Comparison) []splitJSON {
	names := boxNames(c.Results)
	return each(c.Splits, func(s study.Split) splitJSON {
		j := splitJSON{From: names[0], To: names[s.Box], Why: s.Why, Left: []string{}, Causes: []splitCauseJSON{}, Speeds: []splitSpeedJSON{}}
		if s.Causes != nil {
			j.Mixed, j.Left = s.Causes.Mixed, each(s.Causes.Left, unchanged)
			j.Causes, j.Speeds = each(s.Causes.Causes, newSplitCause), each(s.Causes.Speeds, newSplitSpeed)
		}
		return j
	})
}

func newSplitCause(c study.SplitCause) splitCauseJSON {
	return splitCauseJSON{each(c.Groups, study.Group.Key), c.Same, c.Why, each(c.Facts, func(f study.Fact) factJSON {
		factor, unit := inUnit(f.Dimension)
		return factJSON{f.Part, f.Section, unit, number(f.From * factor), number(f.To * factor)}
	})}
}

func newSplitSpeed(s study.SpeedSplit) splitSpeedJSON {
	return splitSpeedJSON{s.Name, each(s.Items, func(it study.ItemSplit) splitItemJSON {
		factor, unit := inUnit(it.Dimension)
		return splitItemJSON{it.Name, it.Key, it.Part, unit, number(it.From * factor), number(it.To * factor), each(it.Shares, scaled(factor))}
	})}
}

package data

import (
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

type rankingJSON struct {
	Box    string       `json:"box"`
	First  string       `json:"against"`
	Words  string       `json:"words"`
	Steels []string     `json:"steels"`
	Common bool         `json:"steel_drawn_once"`
	Batch  bool         `json:"batch_given"`
	Speeds []rankedJSON `json:"speeds"`
	Alone  [][]string   `json:"speeds_of_one_box"` // of the first box, of this one
}

type rankedJSON struct {
	Name    string `json:"name"`
	Low     number `json:"ratio_low"`
	Typical number `json:"ratio_typical"`
	High    number `json:"ratio_high"`
	Least   number `json:"least_ratio"`
	Most    number `json:"most_ratio"`
	Holds   bool   `json:"order_holds"`
	Same    bool   `json:"same_within_half_a_percent"`
}

func newRankings(c *study.Comparison) []rankingJSON {
	names := view.BoxNames(c.Results)
	return view.Each(c.Ranking, func(r study.Ranking) rankingJSON {
		j := rankingJSON{Box: names[r.Box], First: names[0], Steels: view.Each(r.Steels, unchanged), Common: r.Common, Batch: r.Batch}
		one := study.Comparison{Results: c.Results, Equal: c.Equal, Ranking: []study.Ranking{r}}
		for _, words := range view.RankingWords(&one) {
			j.Words = plain(words)
		}
		j.Speeds = view.Each(r.Speeds, func(s study.RankedSpeed) rankedJSON {
			return rankedJSON{
				s.Name, number(s.Ratio[material.Low]), number(s.Ratio[material.Typical]), number(s.Ratio[material.High]),
				number(s.Least), number(s.Most), s.Holds, s.Same(),
			}
		})
		for _, alone := range r.Alone {
			j.Alone = append(j.Alone, view.Each(alone, unchanged))
		}
		return j
	})
}

package data

import (
	"io"

	"layshaft/gearbox/chance"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type spreadJSON struct {
	reportHead
	Headline string            `json:"headline"`
	Samples  int               `json:"samples"`
	Wanted   int               `json:"samples_wanted"`
	Seed     uint64            `json:"seed"`
	Stated   bool              `json:"laws_stated_by_the_file"`
	Unknowns []unknownJSON     `json:"unknowns"`
	Boxes    []boxSpreadJSON   `json:"boxes"`
	Ratio    []ratioSpreadJSON `json:"second_over_first"`
	Ranking  []measureNextJSON `json:"what_to_measure_next"`
}

type unknownJSON struct {
	Group string `json:"group"`
	Words string `json:"what"`
	Law   string `json:"law"`
	Boxes []int  `json:"boxes"`
}

type boxSpreadJSON struct {
	Name    string             `json:"name"`
	Asked   number             `json:"torque_nm"`
	Bears   bandJSON           `json:"allowable_torque_nm"`
	Short   *chanceJSON        `json:"chance_of_less_than_asked"`
	Over    *chanceJSON        `json:"chance_that_a_limit_is_exceeded"`
	Speeds  []speedSpreadJSON  `json:"speeds"`
	First   []oftenJSON        `json:"first_limits"`
	Margins []marginSpreadJSON `json:"margins"`
	Gaps    int                `json:"samples_not_buildable"`
	Gap     string             `json:"why_not_buildable"`
}

type bandJSON struct {
	Low    intervalJSON `json:"quantile_05"`
	Middle intervalJSON `json:"quantile_50"`
	High   intervalJSON `json:"quantile_95"`
	Least  number       `json:"least_drawn"`
	Most   number       `json:"most_drawn"`
}

type intervalJSON struct {
	Value number `json:"value"`
	From  number `json:"from"`
	To    number `json:"to"`
}

type chanceJSON = intervalJSON

type speedSpreadJSON struct {
	Name  string      `json:"name"`
	Bears bandJSON    `json:"allowable_torque_nm"`
	Short *chanceJSON `json:"chance_of_less_than_asked"`
}

type oftenJSON struct {
	Speed string `json:"speed"`
	Kind  string `json:"kind"`
	Item  string `json:"item"`
	Share number `json:"share_fraction"`
}

type marginSpreadJSON struct {
	Speed string      `json:"speed"`
	Kind  string      `json:"kind"`
	Item  string      `json:"item"`
	Left  bandJSON    `json:"margin_fraction"`
	Over  *chanceJSON `json:"chance_that_it_is_exceeded"`
}

type ratioSpreadJSON struct {
	Speed string      `json:"speed"`
	Ratio bandJSON    `json:"ratio"`
	Less  *chanceJSON `json:"chance_that_the_second_bears_less"`
}

type measureNextJSON struct {
	Group string `json:"group"`
	Total number `json:"total_effect_fraction"`
	Alone number `json:"effect_alone_fraction"`
	Left  number `json:"width_left_fraction"`
}

// SpreadJSON writes a spread as JSON. Chances are null where no file says how what isn't known spreads.
func SpreadJSON(w io.Writer, s *study.Spread, o view.Options) error {
	if err := view.ReportableSpread(s); err != nil {
		return err
	}
	o.Units = quantity.Metric
	chances := func(c chance.Interval) *chanceJSON {
		if !s.Stated {
			return nil
		}
		j := newInterval(c, 1)
		return &j
	}
	j := spreadJSON{reportHead: newHead("spread", o), Headline: plain(view.Joined(view.SpreadWords(s, o))), Samples: s.Samples, Wanted: s.Wanted, Seed: s.Seed, Stated: s.Stated,
		Unknowns: view.Each(s.Unknowns, func(u study.Unknown) unknownJSON { return unknownJSON{u.Group, u.Words, u.Law, u.Boxes} }),
		Boxes: view.Each(s.Boxes, func(b study.BoxSpread) boxSpreadJSON {
			return boxSpreadJSON{
				Name: b.Box.Name, Asked: number(b.Asked * toNm), Bears: newBand(b.Bears, toNm), Short: chances(b.Short), Over: chances(b.Over), Gaps: b.Gaps, Gap: b.Gap,
				Speeds: view.Each(b.Speeds, func(v study.SpeedSpread) speedSpreadJSON {
					return speedSpreadJSON{v.Name, newBand(v.Bears, toNm), chances(v.Short)}
				}),
				First: view.Each(b.First, func(f study.Often) oftenJSON {
					kind := ""
					if f.Speed != "" {
						kind = f.Kind.Key()
					}
					return oftenJSON{f.Speed, kind, f.Item, number(f.Share)}
				}),
				Margins: view.Each(b.Margins, func(m study.MarginSpread) marginSpreadJSON {
					return marginSpreadJSON{m.Speed, m.Kind.Key(), m.Item, newBand(m.Left, 1), chances(m.Over)}
				}),
			}
		}),
		Ratio: view.Each(s.Ratio, func(r study.RatioSpread) ratioSpreadJSON {
			return ratioSpreadJSON{r.Speed, newBand(r.Ratio, 1), chances(r.Less)}
		}),
		Ranking: view.Each(s.Ranking, func(r study.Ranked) measureNextJSON {
			return measureNextJSON{r.Group, number(r.Effect.Total), number(r.Effect.Alone), number(r.Left)}
		}),
	}
	return writeJSON(w, j)
}

func newBand(b study.Band90, scale float64) bandJSON {
	return bandJSON{newInterval(b.Low, scale), newInterval(b.Middle, scale), newInterval(b.High, scale), number(b.Least * scale), number(b.Most * scale)}
}

func newInterval(i chance.Interval, scale float64) intervalJSON {
	return intervalJSON{number(i.Value * scale), number(i.From * scale), number(i.To * scale)}
}

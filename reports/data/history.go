package data

import (
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

type lessonJSON struct {
	Box      string      `json:"box"`
	Broke    bool        `json:"broke"`
	Torque   number      `json:"torque_nm"`
	Peak     number      `json:"peak_torque_nm"`
	Passes   number      `json:"passes"`
	Speed    string      `json:"speed"`
	Gear     string      `json:"gear"`
	By       string      `json:"by"`
	Opened   bool        `json:"opened"`
	Note     string      `json:"note"`
	Place    string      `json:"place"`
	Loads    []loadJSON  `json:"loads"`
	Bounds   []boundJSON `json:"bounds"`
	NoBounds string      `json:"why_not"`
}

// loadJSON is the load of one speed that counts of a piece of service history.
type loadJSON struct {
	Speed     string `json:"speed"`
	Peak      number `json:"peak_torque_nm"`
	PeakBy    string `json:"peak_bounded_by"`
	Running   number `json:"running_torque_nm"`
	RunningBy string `json:"running_bounded_by"`
}

type boundJSON struct {
	Steel    string `json:"steel"`
	Strength string `json:"strength"`
	Bound    string `json:"bound"`
	Kind     string `json:"kind"`
	Item     string `json:"item"`
	Speed    string `json:"speed"`
	Needed   number `json:"needed_mpa"`
	Counted  number `json:"counted_mpa"`
	Aside    bool   `json:"put_aside"`
}

type narrowedJSON struct {
	Steel      string   `json:"steel"`
	Strength   string   `json:"strength"`
	WasLow     number   `json:"was_low_mpa"`
	WasTypical number   `json:"was_typical_mpa"`
	WasHigh    number   `json:"was_high_mpa"`
	Low        number   `json:"low_mpa"`
	Typical    number   `json:"typical_mpa"`
	High       number   `json:"high_mpa"`
	Moved      bool     `json:"typical_moved"`
	Rests      []string `json:"rests_on"`
}

func newLesson(l gearbox.Lesson) lessonJSON {
	e := l.Evidence
	return lessonJSON{
		Box: l.Box, Broke: e.Broke, Torque: number(e.Torque * toNm), Peak: told(e.Peak * toNm), Passes: told(e.Passes), Speed: e.Speed, Gear: e.Gear, By: string(e.By), Opened: e.Opened, Note: e.Note,
		Place: l.Place.String(), NoBounds: l.Why,
		Loads: view.Each(l.Loads, func(c gearbox.CountedLoad) loadJSON {
			return loadJSON{c.Speed, number(c.Peak.Torque * toNm), string(c.Peak.By), number(c.Running.Torque * toNm), string(c.Running.By)}
		}),
		Bounds: view.Each(l.Bounds, func(b gearbox.StrengthBound) boundJSON {
			bound := "at_least"
			if b.Upper {
				bound = "at_most"
			}
			return boundJSON{b.Steel, b.Strength.Key(), bound, b.Kind.Key(), b.Item, b.Speed, number(b.Needed), number(b.Counted), b.Aside}
		}),
	}
}

// survivedJSON is the most of what a guide warns of that a box survived and was sound after.
type survivedJSON struct {
	Kind   string `json:"kind"`
	Item   string `json:"item"`
	Speed  string `json:"speed"`
	Torque number `json:"torque_nm"`
	Unit   string `json:"unit"`
	Demand number `json:"demand_in_unit"`
}

func newSurvived(s gearbox.Survived) survivedJSON {
	factor, unit := inUnit(s.Kind.Dimension())
	return survivedJSON{s.Kind.Key(), s.Item, s.Speed, number(s.Torque * toNm), unit, number(s.Demand * factor)}
}

// recordJSON is the asked torque against the history of the box itself.
type recordJSON struct {
	Survived number `json:"survived_torque_nm"`
	Passes   number `json:"survived_passes"`
	Ratio    number `json:"asked_over_survived_ratio"`
	BrokeAt  number `json:"broke_at_torque_nm"`
}

func newRecord(r *gearbox.Result) recordJSON {
	j := recordJSON{told(0), told(0), told(0), told(0)}
	record := study.Judge(r).Record
	if e := record.Survived; e != nil {
		j.Survived, j.Passes, j.Ratio = number(e.Torque*toNm), told(e.Passes), number(record.Ratio)
	}
	if e := record.BrokeAt; e != nil {
		j.BrokeAt = number(e.Torque * toNm)
	}
	return j
}

func newNarrowed(n gearbox.Narrowed) narrowedJSON {
	return narrowedJSON{
		n.Steel, n.Strength.Key(), number(n.Was.Low), number(n.Was.Typical), number(n.Was.High),
		number(n.Now.Low), number(n.Now.Typical), number(n.Now.High), n.Moved(), view.Each(n.Rests, unchanged),
	}
}

// equalJSON is what limits each box at the steel of the first one.
type equalJSON struct {
	Steel    string         `json:"steel_of"`
	Headline string         `json:"headline"`
	Boxes    []equalBoxJSON `json:"boxes"`
}

type equalBoxJSON struct {
	Name   string           `json:"name"`
	Speeds []equalSpeedJSON `json:"speeds"`
}

type equalSpeedJSON struct {
	Name             string `json:"name"`
	State            string `json:"state"`
	Kind             string `json:"kind"`
	Item             string `json:"item"`
	Margin           number `json:"margin_fraction"`
	AllowableLow     number `json:"allowable_torque_low_nm"`
	AllowableTypical number `json:"allowable_torque_typical_nm"`
	AllowableHigh    number `json:"allowable_torque_high_nm"`
}

func newEqual(c *study.Comparison, o view.Options) *equalJSON {
	if c.Equal == nil {
		return nil
	}
	o.Units = quantity.Metric // the sentence goes with the numbers
	return &equalJSON{Steel: c.Equal[0].Box.Name, Headline: plain(view.Headline(c.Equal, o)), Boxes: view.Each(c.Equal, func(r *gearbox.Result) equalBoxJSON {
		b := equalBoxJSON{Name: r.Box.Name, Speeds: []equalSpeedJSON{}}
		for i := range r.Speeds {
			s := &r.Speeds[i]
			if len(s.Margins) == 0 {
				continue
			}
			m := s.Governing()
			b.Speeds = append(b.Speeds, equalSpeedJSON{
				s.Name, m.State.String(), m.Kind.Key(), m.Item, number(m.Margin), number(m.Allowable[material.Low] * toNm),
				number(m.Allowable[material.Typical] * toNm), number(m.Allowable[material.High] * toNm),
			})
		}
		return b
	})}
}

package data

import (
	"io"
	"math"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type sweepJSON struct {
	reportHead
	Headline string      `json:"headline"`
	Box      string      `json:"box"`
	Axes     []axisJSON  `json:"axes"`
	Target   *targetJSON `json:"target"`
	Met      []metJSON   `json:"target_met"`
	Points   []pointJSON `json:"points"`
}

type axisJSON struct {
	Key    string   `json:"key"`
	Unit   string   `json:"unit"`
	Now    number   `json:"now_in_unit"`
	Values []number `json:"values_in_unit"`
}

type targetJSON struct {
	Torque number `json:"allowable_torque_nm"`
	Margin number `json:"margin_fraction"`
}

type metJSON struct {
	At     number `json:"first_axis_in_unit"`
	Within number `json:"found_within_in_unit"`
	Other  number `json:"second_axis_in_unit"`
	Onward bool   `json:"met_above"`
	Jump   bool   `json:"jumps"`
}

type pointJSON struct {
	Values []number         `json:"values_in_unit"`
	Gap    string           `json:"gap"`
	Asked  number           `json:"torque_nm"`
	Worst  string           `json:"least_speed"`
	Speeds []speedPointJSON `json:"speeds"`
}

type speedPointJSON struct {
	Name       string `json:"name"`
	Allowable  number `json:"allowable_torque_nm"`
	Margin     number `json:"margin_fraction"`
	Kind       string `json:"kind"`
	Item       string `json:"item"`
	FaceFactor number `json:"largest_face_factor"`
	FaceMesh   string `json:"largest_face_factor_mesh"`
}

// axisUnit is the unit of an axis in JSON and CSV: that in which the file gives it.
func axisUnit(a *study.Axis) string {
	if a.Unit != "" || a.Whole {
		return a.Unit
	}
	return quantity.Unit(a.Dimension, quantity.Metric)
}

// axisNumber is a value of an axis in its unit.
func axisNumber(a *study.Axis, v float64) float64 {
	if unit := axisUnit(a); unit != "" {
		return quantity.In(v, a.Dimension, unit)
	}
	return v
}

// SweepJSON writes a sweep as JSON.
func SweepJSON(w io.Writer, s *study.Sweep, o view.Options) error {
	if err := view.ReportableSweep(s); err != nil {
		return err
	}
	o.Units = quantity.Metric
	j := sweepJSON{reportHead: newHead("sweep", o), Headline: plain(view.SweepHeadline(s, o)), Box: s.Box.Name, Axes: view.Each(s.Axes, newAxis)}
	if t := s.Target; t != nil {
		j.Target = &targetJSON{number(t.Torque * toNm), number(t.Margin)}
		if t.Torque > 0 {
			j.Target.Margin = number(math.NaN())
		} else {
			j.Target.Torque = number(math.NaN())
		}
	}
	first, second := &s.Axes[0], &s.Axes[len(s.Axes)-1]
	j.Met = view.Each(s.Met, func(m study.Met) metJSON {
		within := axisNumber(first, m.Within) - axisNumber(first, 0)
		return metJSON{number(axisNumber(first, m.At)), number(within), number(axisNumber(second, m.Other)), m.Rising, m.Jump}
	})
	j.Points = view.Each(s.Points, func(p study.Point) pointJSON { return newPoint(s, &p) })
	return writeJSON(w, j)
}

func newAxis(a study.Axis) axisJSON {
	return axisJSON{a.Key, axisUnit(&a), number(axisNumber(&a, a.Now)), view.Each(a.Values, func(v float64) number { return number(axisNumber(&a, v)) })}
}

func newPoint(s *study.Sweep, p *study.Point) pointJSON {
	j := pointJSON{Gap: p.Gap, Asked: number(p.Asked * toNm), Values: []number{}, Speeds: []speedPointJSON{}}
	for k := range p.Values {
		j.Values = append(j.Values, number(axisNumber(&s.Axes[k], p.Values[k])))
	}
	if p.Gap != "" {
		j.Asked = number(math.NaN())
		return j
	}
	j.Worst = s.Speeds[p.Worst]
	for k, sp := range p.Speeds {
		j.Speeds = append(j.Speeds, speedPointJSON{s.Speeds[k], number(sp.First.Torque * toNm), number(sp.Margin), sp.First.Kind.Key(), sp.First.Item, number(sp.FaceFactor), sp.FaceMesh})
	}
	return j
}

// SweepCSV writes one row for each point and speed; a gap has one row with its reason.
func SweepCSV(w io.Writer, s *study.Sweep, _ view.Options) error {
	if err := view.ReportableSweep(s); err != nil {
		return err
	}
	var head []string
	for i := range s.Axes {
		unit := axisUnit(&s.Axes[i])
		name := s.Axes[i].Key
		if unit != "" {
			name += " [" + unit + "]"
		}
		head = append(head, word(name))
	}
	rows := [][]string{append(head, "torque_nm", "speed", "allowable_torque_nm", "margin_fraction", "kind", "item", "largest_face_factor", "largest_face_factor_mesh", "least_of_all", "gap")}
	for i := range s.Points {
		p := &s.Points[i]
		var at []string
		for k, v := range p.Values {
			at = append(at, digits(axisNumber(&s.Axes[k], v)))
		}
		if p.Gap != "" {
			rows = append(rows, append(at, "", "", "", "", "", "", "", "", "", word(p.Gap)))
			continue
		}
		for k, sp := range p.Speeds {
			least := "no"
			if k == p.Worst {
				least = "yes"
			}
			rows = append(rows, append(append([]string{}, at...), digits(p.Asked*toNm), word(s.Speeds[k]), digits(sp.First.Torque*toNm), digits(sp.Margin), sp.First.Kind.Key(), word(sp.First.Item), digits(sp.FaceFactor), word(sp.FaceMesh), least, ""))
		}
	}
	return writeCSV(w, rows)
}

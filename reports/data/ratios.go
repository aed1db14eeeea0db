package data

import (
	"io"
	"math"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type ratiosJSON struct {
	reportHead
	Headline string         `json:"headline"`
	Boxes    []ratioBoxJSON `json:"boxes"`
}

type ratioBoxJSON struct {
	Name   string         `json:"name"`
	Revs   number         `json:"engine_speed_rpm"`
	Torque number         `json:"engine_torque_nm"`
	Radius number         `json:"tyre_radius_mm"`
	Speeds []ratioRowJSON `json:"speeds"`
}

type ratioRowJSON struct {
	Name     string `json:"name"`
	Reverse  bool   `json:"reverse"`
	Box      number `json:"box_ratio"`
	Total    number `json:"total_ratio"`
	Thousand number `json:"at_1000_rpm_km_per_h"`
	Ground   number `json:"at_engine_speed_km_per_h"`
	Next     string `json:"next"`
	Step     number `json:"step_ratio"`
	After    number `json:"engine_after_shift_rpm"`
	Drop     number `json:"drop_rpm"`
	Lost     number `json:"drop_fraction"`
	Wheels   number `json:"torque_at_wheels_nm"`
	Pull     number `json:"pull_n"`
	Holds    number `json:"tyres_hold_n"`
	Used     number `json:"pull_over_hold_ratio"`
}

// toKmh takes mm/s to km/h.
const toKmh = 3600.0 / 1e6

// RatiosJSON writes the ratio tables for programs, in fixed units.
func RatiosJSON(w io.Writer, tables []*study.RatioTable, o view.Options) error {
	if len(tables) == 0 {
		return view.ErrNoRatios
	}
	return writeJSON(w, ratiosJSON{newHead("ratios", o), plain(view.RatiosHeadline(tables, view.Options{})), view.Each(tables, func(t *study.RatioTable) ratioBoxJSON {
		radius := math.NaN()
		if t.Box.Car != nil {
			radius = t.Box.Car.TyreRadius
		}
		return ratioBoxJSON{t.Box.Name, told(t.Revs * toRpm), number(t.Torque * toNm), number(radius), view.Each(t.Speeds, func(s study.RatioRow) ratioRowJSON {
			return ratioRowJSON{
				s.Name, s.Reverse, number(s.Box), number(s.Total), number(s.Thousand * toKmh), number(s.Ground * toKmh), s.Next, number(s.Step),
				number(s.After * toRpm), number(s.Drop * toRpm), number(s.Lost()), number(s.Wheels * toNm), number(s.Pull), number(s.Holds), number(s.Used),
			}
		})}
	})})
}

// RatiosCSV writes one row for each speed of each box, in fixed units.
func RatiosCSV(w io.Writer, tables []*study.RatioTable, _ view.Options) error {
	if len(tables) == 0 {
		return view.ErrNoRatios
	}
	rows := [][]string{{"box", "engine_speed_rpm", "engine_torque_nm", "speed", "reverse", "box_ratio", "total_ratio", "at_1000_rpm_km_per_h", "at_engine_speed_km_per_h",
		"next", "step_ratio", "engine_after_shift_rpm", "drop_rpm", "drop_fraction", "torque_at_wheels_nm", "pull_n", "tyres_hold_n", "pull_over_hold_ratio"}}
	names := view.RatioNames(tables)
	for i, t := range tables {
		for _, s := range t.Speeds {
			reverse := "no"
			if s.Reverse {
				reverse = "yes"
			}
			rows = append(rows, []string{
				word(names[i]), digits(float64(told(t.Revs * toRpm))), digits(t.Torque * toNm), word(s.Name), reverse, digits(s.Box), digits(s.Total), digits(s.Thousand * toKmh), digits(s.Ground * toKmh),
				word(s.Next), digits(s.Step), digits(s.After * toRpm), digits(s.Drop * toRpm), digits(s.Lost()), digits(s.Wheels * toNm), digits(s.Pull), digits(s.Holds), digits(s.Used),
			})
		}
	}
	return writeCSV(w, rows)
}

package data

import (
	"io"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type weighJSON struct {
	reportHead
	Boxes []weighedJSON `json:"boxes"`
}

type weighedJSON struct {
	Name   string      `json:"name"`
	Basis  string      `json:"mass_of"`
	Mass   number      `json:"mass_kg"`
	Shafts number      `json:"shafts_kg"`
	Gears  number      `json:"gears_kg"`
	Others number      `json:"other_parts_kg"`
	Whole  number      `json:"whole_box_weighed_kg"`
	Rest   number      `json:"rest_of_whole_box_kg"`
	Parts  []partJSON  `json:"parts"`
	Pieces []pieceJSON `json:"weighings"`
	Speeds []pullJSON  `json:"speeds"`
	Notes  []string    `json:"notes"`
}

type partJSON struct {
	Name     string `json:"name"`
	Kind     string `json:"kind"`
	On       string `json:"on_shaft"`
	Cut      bool   `json:"cut_into_shaft"`
	Mass     number `json:"mass_kg"`
	Weighed  bool   `json:"weighed"`
	Computed number `json:"mass_by_dimensions_kg"`
	Inertia  number `json:"inertia_kg_m2"`
}

type pieceJSON struct {
	Names      []string `json:"names"`
	Weighed    number   `json:"weighed_kg"`
	Computed   number   `json:"mass_by_dimensions_kg"`
	Difference number   `json:"difference_fraction"`
}

type pullJSON struct {
	Name         string            `json:"name"`
	Allowable    number            `json:"allowable_torque_nm"`
	PerMass      number            `json:"allowable_torque_nm_per_kg"`
	Synchroniser *synchroniserJSON `json:"synchroniser"`
}

type synchroniserJSON struct {
	Gear    string     `json:"free_gear"`
	Shaft   string     `json:"joined_to_shaft"`
	Ratio   number     `json:"turns_per_input_turn_ratio"`
	Inertia number     `json:"inertia_kg_m2"`
	Unknown string     `json:"why_not_known"`
	Shares  []spinJSON `json:"shares"`
	Up      *shiftJSON `json:"up"`
	Down    *shiftJSON `json:"down"`
}

type spinJSON struct {
	Part    string `json:"part"`
	Ratio   number `json:"turns_per_turn_ratio"`
	Inertia number `json:"inertia_kg_m2"`
}

type shiftJSON struct {
	From       string `json:"from_speed"`
	Difference number `json:"difference_rpm"`
	TorqueTime number `json:"torque_time_nm_s"`
	Heat       number `json:"heat_j"`
}

// WeighJSON writes everything that Weigh tells as JSON.
func WeighJSON(w io.Writer, boxes []study.WeighedBox, o view.Options) error {
	if err := view.ReportableWeights(boxes); err != nil {
		return err
	}
	return writeJSON(w, weighJSON{newHead("weigh", o), view.Each(boxes, newWeighed)})
}

func newWeighed(box study.WeighedBox) weighedJSON {
	w := box.Result.Weights
	j := weighedJSON{
		Name: w.Box.Name, Basis: "shafts and gears", Mass: number(box.Mass), Shafts: number(w.Shafts), Gears: number(w.Gears), Others: number(w.Others),
		Whole: told(w.Box.Weighed.Box), Rest: number(w.Rest()), Notes: view.Each(w.Notes, unchanged),
	}
	if box.Whole {
		j.Basis = "whole box"
	}
	j.Parts = view.Each(w.Parts, func(p gearbox.Weight) partJSON {
		return partJSON{p.Name, string(p.Kind), p.On, p.Cut, number(p.Mass), p.Weighed, number(p.Computed), number(p.Inertia * toKgM2)}
	})
	j.Pieces = view.Each(w.Pieces, func(p gearbox.Piece) pieceJSON {
		return pieceJSON{view.Each(p.Names, unchanged), number(p.Weighed), number(p.Computed), number(p.Difference())}
	})
	j.Speeds = []pullJSON{}
	for i := range box.Result.Speeds {
		s := &box.Result.Speeds[i]
		p := pullJSON{Name: s.Name, Allowable: number(s.First.Torque * toNm), PerMass: number(box.PerMass[i] * toNm)}
		if y := box.Synchroniser(s.Name); y != nil {
			p.Synchroniser = &synchroniserJSON{
				y.Gear, y.Shaft, told(y.Ratio), number(y.Inertia * toKgM2), y.Unknown,
				view.Each(y.Shares, func(s gearbox.InertiaShare) spinJSON {
					return spinJSON{s.Part, number(s.Ratio), number(s.Inertia * toKgM2)}
				}),
				newShift(y.Up), newShift(y.Down),
			}
		}
		j.Speeds = append(j.Speeds, p)
	}
	return j
}

func newShift(s *gearbox.Shift) *shiftJSON {
	if s == nil {
		return nil
	}
	return &shiftJSON{s.From, number(s.Difference * toRpm), number(s.TorqueTime * toNm), number(s.Heat * toNm)}
}

// WeighCSV writes one row for every number that Weigh tells.
func WeighCSV(w io.Writer, boxes []study.WeighedBox, _ view.Options) error {
	if err := view.ReportableWeights(boxes); err != nil {
		return err
	}
	names := view.BoxNames(view.WeighedResults(boxes))
	rows := [][]string{{"box", "of", "name", "on", "quantity", "unit", "value_in_unit", "by"}}
	for i, box := range boxes {
		add := func(of, name, on, quantity, unit string, v float64, by string) {
			if !math.IsNaN(v) {
				rows = append(rows, []string{word(names[i]), of, word(name), word(on), quantity, unit, digits(v), by})
			}
		}
		weights := box.Result.Weights
		for _, p := range weights.Parts {
			by := "dimensions"
			switch {
			case p.Weighed:
				by = "scales"
			case p.Kind == gearbox.OtherPart:
				by = "told"
			}
			add(string(p.Kind), p.Name, p.On, "mass", "kg", p.Mass, by)
			add(string(p.Kind), p.Name, p.On, "moment of inertia", "kg·m²", p.Inertia*toKgM2, by)
		}
		for _, p := range weights.Pieces {
			add("weighing", strings.Join(p.Names, " | "), "", "mass", "kg", p.Weighed, "scales")
			add("weighing", strings.Join(p.Names, " | "), "", "mass", "kg", p.Computed, "dimensions")
		}
		add("box", weights.Box.Name, "", "mass of shafts and gears", "kg", weights.Turning(), "")
		if weights.Box.Weighed.Box > 0 {
			add("box", weights.Box.Name, "", "mass of the whole box", "kg", weights.Box.Weighed.Box, "scales")
		}
		for k := range box.Result.Speeds {
			s := &box.Result.Speeds[k]
			add("speed", s.Name, "", "allowable torque", "N·m", s.First.Torque*toNm, "")
			add("speed", s.Name, "", "allowable torque over mass", "N·m/kg", box.PerMass[k]*toNm, "")
			y := box.Synchroniser(s.Name)
			if y == nil {
				continue
			}
			add("speed", s.Name, y.Shaft, "moment of inertia at the synchroniser", "kg·m²", y.Inertia*toKgM2, "")
			for _, way := range []struct {
				name  string
				shift *gearbox.Shift
			}{{"up", y.Up}, {"down", y.Down}} {
				if way.shift != nil {
					add("speed", s.Name, y.Shaft, "torque × time, "+way.name, "N·m·s", way.shift.TorqueTime*toNm, "")
					add("speed", s.Name, y.Shaft, "heat, "+way.name, "J", way.shift.Heat*toNm, "")
				}
			}
		}
	}
	return writeCSV(w, rows)
}

type caseJSON struct {
	Lighter string       `json:"lighter_box"`
	Other   string       `json:"other_box"`
	Basis   string       `json:"mass_of"`
	Mass    []number     `json:"masses_kg"`
	Head    string       `json:"in_short"`
	For     []reasonJSON `json:"for"`
	Against []reasonJSON `json:"against"`
	Shared  []reasonJSON `json:"same_in_both"`
	Unknown []string     `json:"not_known"`
}

type reasonJSON struct {
	Kind     string   `json:"kind"`
	Sentence string   `json:"sentence"`
	Speeds   []string `json:"speeds"`
	Unit     string   `json:"unit"`
	Lighter  []number `json:"lighter_in_unit"`
	Other    []number `json:"other_in_unit"`
}

// newCases are the cases for and against the lighter box.
func newCases(c *study.Comparison, o view.Options) []caseJSON {
	names := view.BoxNames(c.Results)
	return view.Each(c.Lighter, func(k study.LighterCase) caseJSON {
		o.Units = quantity.Metric // the sentences go with the numbers
		w := view.CaseOf(c, &k, o)
		j := caseJSON{
			Lighter: names[k.Lighter], Other: names[k.Other], Basis: "shafts and gears", Mass: []number{number(k.Mass[0].Value), number(k.Mass[1].Value)}, Head: plain(w.Head), Unknown: view.Each(w.Unknown, plain),
		}
		if k.Mass[0].Whole {
			j.Basis = "whole box"
		}
		reasons := func(all []study.Reason, words []string) []reasonJSON {
			out := make([]reasonJSON, len(all))
			for i, r := range all {
				factor, unit := inUnit(r.Dimension)
				out[i] = reasonJSON{string(r.Kind), plain(words[i]), view.Each(r.Speeds, unchanged), unit, []number{}, []number{}}
				if r.Kind == study.ByState {
					continue
				}
				for _, v := range r.Values {
					out[i].Lighter, out[i].Other = append(out[i].Lighter, number(v[0]*factor)), append(out[i].Other, number(v[1]*factor))
				}
			}
			return out
		}
		j.For, j.Against, j.Shared = reasons(k.For, w.For), reasons(k.Against, w.Against), reasons(k.Shared, w.Shared)
		return j
	})
}

package data

import (
	"io"

	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

type preloadJSON struct {
	reportHead
	Headline    string           `json:"headline"`
	Box         string           `json:"box"`
	Shaft       string           `json:"shaft"`
	Arrangement string           `json:"arrangement"`
	Rib         number           `json:"rib_lever_mm"`
	Grown       number           `json:"end_play_gained_warm_um"`
	Rows        []preloadRowJSON `json:"shims"`
	Shim        *shimJSON        `json:"shim_for_torque"`
	Notes       []string         `json:"notes"`
}

type preloadRowJSON struct {
	Shim   number          `json:"shim_um"`
	Own    bool            `json:"as_set"`
	Wanted bool            `json:"wanted"`
	Cold   settingStateRow `json:"cold"`
	Hot    settingStateRow `json:"warm"`
}

type settingStateRow struct {
	Play     number    `json:"end_play_um"`
	Preload  number    `json:"preload_n"`
	Torque   [3]number `json:"torque_nm"`
	Outside  number    `json:"stiffness_against_force_n_per_um"`
	Shim     number    `json:"stiffness_against_shim_n_per_um"`
	Pressure number    `json:"pressure_mpa"`
	Beyond   bool      `json:"model_left_its_range"`
}

type shimJSON struct {
	Shim   number    `json:"shim_um"`
	Unsure number    `json:"standard_uncertainty_um"`
	Range  [3]number `json:"sampled_5_50_95_percent_um"`
	Slope  number    `json:"torque_per_shim_nm_per_um"`
	Steps  number    `json:"past_the_readings_ratio"`
	Curve  bool      `json:"from_zero_clearance"`
	Notes  []string  `json:"notes"`
}

// PreloadJSON writes it for programs, in fixed units.
func PreloadJSON(w io.Writer, t *study.PreloadTable, o view.Options) error {
	if t == nil {
		return view.ErrNoPreload
	}
	state := func(s study.PreloadState) settingStateRow {
		return settingStateRow{
			number(s.Play * toMicro), number(s.Preload), [3]number{number(s.Torque[0] * toNm), number(s.Torque[1] * toNm), number(s.Torque[2] * toNm)},
			number(s.Outside / toMicro), number(s.AtRest.Shim / toMicro), number(s.Pressure), s.Beyond(),
		}
	}
	out := preloadJSON{
		reportHead: newHead("preload", o), Headline: plain(view.PreloadHeadline(t, view.Options{})), Box: t.Box.Name, Shaft: t.Shaft, Arrangement: t.Arrangement.String(),
		Rib: number(t.Rib), Grown: number(t.Grown * toMicro), Notes: view.Each(t.Notes, unchanged),
		Rows: view.Each(t.Rows, func(r study.PreloadRow) preloadRowJSON {
			return preloadRowJSON{number(r.Shim * toMicro), r.Own, r.Wanted, state(r.Cold), state(r.Hot)}
		}),
	}
	if a := t.Shim; a != nil {
		out.Shim = &shimJSON{
			number(a.Shim * toMicro), number(a.Unsure * toMicro), [3]number{number(a.Range[0] * toMicro), number(a.Range[1] * toMicro), number(a.Range[2] * toMicro)},
			number(a.Slope * toNm / toMicro), number(a.Steps), a.Curve, view.Each(a.Notes, unchanged),
		}
	}
	return writeJSON(w, out)
}

// PreloadCSV writes one row for each shim, in fixed units.
func PreloadCSV(w io.Writer, t *study.PreloadTable, _ view.Options) error {
	if t == nil {
		return view.ErrNoPreload
	}
	rows := [][]string{{"box", "shaft", "shim_um", "state", "end_play_um", "preload_n", "torque_nm", "stiffness_against_force_n_per_um", "stiffness_against_shim_n_per_um", "pressure_mpa"}}
	for i := range t.Rows {
		r := &t.Rows[i]
		for _, c := range []struct {
			name string
			at   *study.PreloadState
		}{{"cold", &r.Cold}, {"warm", &r.Hot}} {
			rows = append(rows, []string{
				word(t.Box.Name), word(t.Shaft), digits(r.Shim * toMicro), c.name, digits(c.at.Play * toMicro), digits(c.at.Preload), digits(c.at.Torque[1] * toNm),
				digits(c.at.Outside / toMicro), digits(c.at.AtRest.Shim / toMicro), digits(c.at.Pressure),
			})
		}
	}
	return writeCSV(w, rows)
}

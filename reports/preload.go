package reports

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
)

var errNoPreload = errors.New("there is no pair on the bench to report: set one up")

// Preload writes a tapered pair on the bench: what each shim does, cold and hot, and the shim for a wanted torque.
func Preload(w io.Writer, t *study.PreloadTable, o Options) error {
	if t == nil {
		return errNoPreload
	}
	var b bytes.Buffer
	paragraph(&b, o.width(), "", PreloadHeadline(t, o))
	b.WriteByte('\n')
	title(&b, o.width(), harmless(t.Box.Name)+", "+harmless(gearbox.ShaftTitle(t.Shaft)), "")
	paragraph(&b, o.width(), indent, preloadInput(t, o))
	settingTables(&b, t, o)
	shimWords(&b, t, o)
	for _, n := range t.Notes {
		paragraph(&b, o.width(), indent, n)
	}
	foot(&b, o)
	return write(w, &b)
}

// PreloadHeadline answers in a sentence or two: how the pair is set, what that is when warm, and the shim that was asked for.
func PreloadHeadline(t *study.PreloadTable, o Options) string {
	text := ""
	for _, r := range t.Rows {
		if r.Own {
			text = fmt.Sprintf("%s is set with %s cold; warm it has %s.", capital(gearbox.ShaftTitle(harmless(t.Shaft))), settingOf(r.Cold, o), settingOf(r.Hot, o))
		}
	}
	for _, r := range t.Rows {
		if r.Wanted {
			text += fmt.Sprintf(" For %s warm it takes a shim %s than that of zero clearance, and cold it then has %s.",
				with(t.Question.Preload, quantity.Force, o.Units), thicker(r.Shim, o), settingOf(r.Cold, o))
		}
	}
	if a := t.Shim; a != nil {
		text += fmt.Sprintf(" The shim for %s is %s ± %s (standard uncertainty), 90 %% of what the readings allow lies from %s to %s.",
			with(t.Question.Want, quantity.Torque, o.Units), with(a.Shim, quantity.Deflection, o.Units), with(a.Unsure, quantity.Deflection, o.Units),
			with(a.Range[0], quantity.Deflection, o.Units), with(a.Range[2], quantity.Deflection, o.Units))
	}
	return text
}

// settingOf is play or preload in words.
func settingOf(s study.PreloadState, o Options) string {
	switch {
	case s.Preload > 0:
		return with(s.Preload, quantity.Force, o.Units) + " of preload"
	case s.Play > 0:
		return with(s.Play, quantity.Deflection, o.Units) + " of end play"
	}
	return "neither play nor preload"
}

func thicker(shim float64, o Options) string {
	if shim < 0 {
		return with(-shim, quantity.Deflection, o.Units) + " thinner"
	}
	return with(shim, quantity.Deflection, o.Units) + " thicker"
}

// preloadInput is what was taken for the question.
func preloadInput(t *study.PreloadTable, o Options) string {
	q := &t.Question
	text := fmt.Sprintf("Two tapered bearings %s. From cold to warm the case gets %.3g K and the shaft %.3g K warmer over %s: the end play grows by %s",
		t.Arrangement, q.Warm.CaseRise, q.Warm.ShaftRise, with(q.Warm.Span, quantity.Length, o.Units), with(t.Grown, quantity.Deflection, o.Units))
	if t.Grown < 0 {
		text = fmt.Sprintf("Two tapered bearings %s. From cold to warm the case gets %.3g K and the shaft %.3g K warmer over %s: the end play shrinks by %s",
			t.Arrangement, q.Warm.CaseRise, q.Warm.ShaftRise, with(q.Warm.Span, quantity.Length, o.Units), with(-t.Grown, quantity.Deflection, o.Units))
	}
	if q.Warm.Cup > 0 {
		text += fmt.Sprintf(", with outer rings that grow by %s on the radius", with(q.Warm.Cup, quantity.Deflection, o.Units))
	}
	text += ". The case is "
	if math.IsInf(q.Case, 1) {
		text += "rigid along the shaft."
	} else {
		text += "as stiff as " + with(q.Case, quantity.RadialStiffness, o.Units) + " along the shaft."
	}
	if q.Seen.Turns != 1 || q.Seen.Drag > 0 {
		text += fmt.Sprintf(" The torque is that at a shaft in hand that drags %s by itself and turns the pair's shaft %.3g times per turn.", with(q.Seen.Drag, quantity.Torque, o.Units), q.Seen.Turns)
	}
	return text
}

// settingTables have one row per shim, cold and warm.
func settingTables(b *bytes.Buffer, t *study.PreloadTable, o Options) {
	settingTable(b, t, "Cold: shims counted from that of zero clearance, thicker loads the rows more", func(r *study.PreloadRow) *study.PreloadState { return &r.Cold }, o)
	settingTable(b, t, "Warm, with the same shims", func(r *study.PreloadRow) *study.PreloadState { return &r.Hot }, o)
	paragraph(b, o.width(), indent, fmt.Sprintf("To turn: slowly by hand, with a friction of 0.15 at the ribs; from %.2g of it, well oiled, to %.2g, dry: without the oil a torque says little about the preload. "+
		"A force on the shaft meets both rows side by side; a shim meets rows and case one behind the other, about a quarter. "+
		"✗: the rollers press with more than %.0f MPa from the preload alone, and the model has left its range.", 0.05/0.15, 0.20/0.15, bearing.MostPressure))
}

func settingTable(b *bytes.Buffer, t *study.PreloadTable, heading string, state func(*study.PreloadRow) *study.PreloadState, o Options) {
	of := func(d quantity.Dimension, value func(*study.PreloadState) float64) []string {
		var all []float64
		for i := range t.Rows {
			all = append(all, value(state(&t.Rows[i])))
		}
		return column(all, d, o.Units)
	}
	var shims []float64
	for _, r := range t.Rows {
		shims = append(shims, r.Shim)
	}
	columns := [][]string{
		column(shims, quantity.Deflection, o.Units),
		of(quantity.Deflection, func(s *study.PreloadState) float64 { return s.Play }), of(quantity.Force, func(s *study.PreloadState) float64 { return s.Preload }),
		of(quantity.Torque, func(s *study.PreloadState) float64 { return s.Torque[1] }),
		of(quantity.RadialStiffness, func(s *study.PreloadState) float64 { return s.Outside }), of(quantity.RadialStiffness, func(s *study.PreloadState) float64 { return s.AtRest.Shim }),
	}
	var rows [][]cell
	for i := range t.Rows {
		r, about := &t.Rows[i], ""
		switch {
		case r.Own:
			about = "as set"
		case r.Wanted:
			about = "wanted"
		}
		if state(r).Beyond() {
			about = strings.TrimLeft(about+" ✗", " ")
		}
		var row []cell
		for _, c := range columns {
			row = append(row, cell{text: c[i]})
		}
		rows = append(rows, append(row, cell{text: about}))
	}
	micro, stiff := quantity.Unit(quantity.Deflection, o.Units), quantity.Unit(quantity.RadialStiffness, o.Units)
	b.WriteString("\n  " + heading + "\n")
	table(b, o.width(), []head{
		{text: "shim\n" + micro, right: true}, {text: "play\n" + micro, right: true}, {text: "preload\n" + quantity.Unit(quantity.Force, o.Units), right: true},
		{text: "to turn\n" + quantity.Unit(quantity.Torque, o.Units), right: true},
		{text: "stiffness\nagainst a\nforce\n" + stiff, right: true}, {text: "against\na shim\n" + stiff, right: true}, {text: ""},
	}, rows)
}

// shimWords tell of the shim that was asked for.
func shimWords(b *bytes.Buffer, t *study.PreloadTable, o Options) {
	a := t.Shim
	if a == nil {
		return
	}
	by := "a straight line through the readings"
	if a.Curve {
		by = "the shim of zero clearance and the law of the rollers"
	}
	b.WriteByte('\n')
	paragraph(b, o.width(), indent, fmt.Sprintf("The shim for %s, by %s: %s, counted as the shims of the readings are. Readings drawn anew within their uncertainty give %s at the middle; one in twenty lies below %s, one in twenty above %s.",
		with(t.Question.Want, quantity.Torque, o.Units), by, with(a.Shim, quantity.Deflection, o.Units), with(a.Range[1], quantity.Deflection, o.Units),
		with(a.Range[0], quantity.Deflection, o.Units), with(a.Range[2], quantity.Deflection, o.Units)))
	for _, n := range a.Notes {
		paragraph(b, o.width(), indent, n)
	}
}

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
func PreloadJSON(w io.Writer, t *study.PreloadTable, o Options) error {
	if t == nil {
		return errNoPreload
	}
	state := func(s study.PreloadState) settingStateRow {
		return settingStateRow{
			number(s.Play * toMicro), number(s.Preload), [3]number{number(s.Torque[0] * toNm), number(s.Torque[1] * toNm), number(s.Torque[2] * toNm)},
			number(s.Outside / toMicro), number(s.AtRest.Shim / toMicro), number(s.Pressure), s.Beyond(),
		}
	}
	out := preloadJSON{
		reportHead: newHead("preload", o), Headline: PreloadHeadline(t, Options{}), Box: t.Box.Name, Shaft: t.Shaft, Arrangement: t.Arrangement.String(),
		Rib: number(t.Rib), Grown: number(t.Grown * toMicro), Notes: each(t.Notes, unchanged),
		Rows: each(t.Rows, func(r study.PreloadRow) preloadRowJSON {
			return preloadRowJSON{number(r.Shim * toMicro), r.Own, r.Wanted, state(r.Cold), state(r.Hot)}
		}),
	}
	if a := t.Shim; a != nil {
		out.Shim = &shimJSON{
			number(a.Shim * toMicro), number(a.Unsure * toMicro), [3]number{number(a.Range[0] * toMicro), number(a.Range[1] * toMicro), number(a.Range[2] * toMicro)},
			number(a.Slope * toNm / toMicro), number(a.Steps), a.Curve, each(a.Notes, unchanged),
		}
	}
	return writeJSON(w, out)
}

// PreloadCSV writes one row for each shim, in fixed units.
func PreloadCSV(w io.Writer, t *study.PreloadTable, _ Options) error {
	if t == nil {
		return errNoPreload
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

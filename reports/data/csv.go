package data

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// CheckCSV writes one row for every limit of every speed of every box, and two for every loaded gear: deflection and slope of its shaft there. What decides nothing (guides, endless
// life, second opinions) has no state.
func CheckCSV(w io.Writer, results []*gearbox.Result, _ view.Options) error {
	if err := view.Reportable(results); err != nil {
		return err
	}
	rows := [][]string{{
		"box", "torque_nm", "speed", "kind", "class", "decides", "item", "mesh", "unit", "demand_in_unit", "limit_low_in_unit", "limit_typical_in_unit", "limit_high_in_unit",
		"allowable_torque_low_nm", "allowable_torque_typical_nm", "allowable_torque_high_nm", "judged_by_end_of_band", "margin_fraction", "state",
		"survived_in_unit", "limit_source", "notes",
	}}
	names := view.BoxNames(results)
	for i, r := range results {
		for _, s := range r.Speeds {
			for k, m := range slices.Concat(s.All(), s.References) {
				factor, unit := inUnit(m.Kind.Dimension())
				survived := math.NaN()
				if m.Class() == gearbox.Guide {
					survived = view.SurvivedOf(r.Box, &m)
				}
				decides, state := "yes", m.State.String()
				if k >= len(s.Margins) {
					decides, state = "no", ""
				}
				rows = append(rows, []string{
					word(names[i]), digits(r.Torque * toNm), word(s.Name), m.Kind.Key(), m.Class().Key(), decides, word(m.Item), word(m.Mesh), unit, digits(m.Demand * factor),
					digits(m.Limit.Low * factor), digits(m.Limit.Typical * factor), digits(m.Limit.High * factor),
					digits(m.Allowable[material.Low] * toNm), digits(m.Allowable[material.Typical] * toNm), digits(m.Allowable[material.High] * toNm),
					m.Level.String(), digits(m.Margin), state, digits(survived * factor), word(m.Limit.Source), word(strings.Join(m.Notes, " | ")),
				})
			}
			for _, sh := range s.Shafts {
				for _, g := range sh.Gears {
					rows = append(rows, gearRow(rows[0], names[i], r.Torque, s.Name, "shaft_deflection_at_gear", &g, "µm", g.Deflection*toMicro),
						gearRow(rows[0], names[i], r.Torque, s.Name, "shaft_slope_at_gear", &g, "mrad", g.Slope*toMilli))
				}
			}
		}
	}
	return writeCSV(w, rows)
}

// gearRow is a row about the shaft at a gear: a quantity without a limit.
func gearRow(head []string, box string, torque float64, speed, kind string, g *gearbox.GearSeat, unit string, value float64) []string {
	row := make([]string, len(head))
	for name, text := range map[string]string{
		"box": word(box), "torque_nm": digits(torque * toNm), "speed": word(speed), "kind": kind, "decides": "no", "item": word(g.Name), "mesh": word(g.Mesh), "unit": unit, "demand_in_unit": digits(value),
	} {
		row[slices.Index(head, name)] = text
	}
	return row
}

// CompareCSV writes one row for every quantity that was set side by side: first the value of each box, then the change of each against the first, then what each group of dimensions
// makes of the difference.
func CompareCSV(w io.Writer, c *study.Comparison, _ view.Options) error {
	if err := view.ReportableComparison(c); err != nil {
		return err
	}
	head := []string{"speed", "quantity", "part", "unit"}
	names := view.BoxNames(c.Results)
	for _, name := range names {
		head = append(head, word(name))
	}
	for _, name := range names[1:] {
		head = append(head, word(name+" change_fraction"))
	}
	for _, split := range c.Splits {
		if split.Causes != nil {
			for _, cause := range split.Causes.Causes {
				head = append(head, word(names[split.Box]+" "+strings.Join(view.Each(cause.Groups, study.Group.Key), "+")+" share_in_unit"))
			}
		}
	}
	rows := [][]string{head}
	for _, s := range c.Speeds {
		for _, d := range s.Items {
			factor, unit := inUnit(d.Dimension)
			row := []string{word(s.Name), word(d.Name), word(d.Part), unit}
			for _, v := range d.Values {
				row = append(row, digits(v*factor))
			}
			for _, v := range d.Change[1:] {
				row = append(row, digits(v))
			}
			rows = append(rows, append(row, shareCells(c, s.Name, &d)...))
		}
		rows = append(rows, limitRows(c, s.Name)...)
	}
	return writeCSV(w, rows)
}

// limitRows are the torques of the limits of a speed that are shared out: of the two boxes that the limit was followed in.
func limitRows(c *study.Comparison, speed string) (rows [][]string) {
	shares := 0
	for _, split := range c.Splits {
		if split.Causes != nil {
			shares += len(split.Causes.Causes)
		}
	}
	before := 0 // columns of shares of the splits in front
	for _, split := range c.Splits {
		if split.Causes == nil {
			continue
		}
		for _, s := range split.Causes.Speeds {
			for _, it := range s.Items {
				if it.Limit == nil || s.Name != speed {
					continue
				}
				boxes, changes, parts := make([]string, len(c.Results)), make([]string, len(c.Results)-1), make([]string, shares)
				boxes[0], boxes[split.Box] = digits(it.From*toNm), digits(it.To*toNm)
				changes[split.Box-1] = digits(it.To/it.From - 1)
				for i, share := range it.Shares {
					parts[before+i] = digits(share * toNm)
				}
				_, unit := inUnit(it.Dimension)
				row := []string{word(speed), "allowable torque by " + it.Limit.Kind.Key(), word(it.Part), unit}
				rows = append(rows, slices.Concat(row, boxes, changes, parts))
			}
		}
		before += len(split.Causes.Causes)
	}
	return rows
}

// shareCells are the shares of a quantity of a speed, for each other box; empty where it isn't shared out.
func shareCells(c *study.Comparison, speed string, d *study.Difference) (cells []string) {
	factor, _ := inUnit(d.Dimension)
	for _, split := range c.Splits {
		if split.Causes == nil {
			continue
		}
		row := make([]string, len(split.Causes.Causes))
		if it := split.Causes.Item(speed, d.Key, d.Part, nil); it != nil {
			for i, share := range it.Shares {
				row[i] = digits(share * factor)
			}
		}
		cells = append(cells, row...)
	}
	return cells
}

// MaterialsCSV writes one row for every strength of every steel.
func MaterialsCSV(w io.Writer, steels []material.Steel, _ view.Options) error {
	if len(steels) == 0 {
		return view.ErrNoSteel
	}
	rows := [][]string{{"steel", "group", "strength", "unit", "low_in_unit", "typical_in_unit", "high_in_unit", "source"}}
	for _, s := range steels {
		for _, b := range view.Bands(&s) {
			rows = append(rows, []string{word(s.Name), s.Group.Symbol(), b.Key, b.Unit(quantity.Metric), digits(b.Low), digits(b.Typical), digits(b.High), word(b.Source)})
		}
	}
	return writeCSV(w, rows)
}

// word is a text cell. A spreadsheet runs a cell that begins with = + - or @, also behind blanks, as a formula; a ' in front makes it text.
func word(s string) string {
	s = view.Clean(s)
	if t := strings.TrimSpace(s); t != "" && strings.ContainsRune("=+-@", []rune(t)[0]) {
		return "'" + s
	}
	return s
}

// digits is a number cell of twelve digits at most: empty for what is not a number, "inf" for what has no end.
func digits(v float64) string {
	switch {
	case math.IsNaN(v):
		return ""
	case math.IsInf(v, 1):
		return "inf"
	case math.IsInf(v, -1):
		return "-inf"
	}
	// Changes of units leave rounding in the last places, 2080.000000000246; nobody measures twelve digits.
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	return strconv.FormatFloat(v, 'g', -1, 64)
}

func writeCSV(w io.Writer, rows [][]string) error {
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		panic("data: a report can't be written as CSV: " + err.Error())
	}
	return write(w, &b)
}

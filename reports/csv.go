package reports

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
)

// CheckCSV writes one row for every limit of every speed of every box. What decides nothing (guides, endless life, second opinions) has no state.
func CheckCSV(w io.Writer, results []*gearbox.Result, _ Options) error {
	if err := checkResults(results); err != nil {
		return err
	}
	rows := [][]string{{
		"box", "torque_nm", "speed", "kind", "class", "decides", "item", "unit", "demand_in_unit", "limit_low_in_unit", "limit_typical_in_unit", "limit_high_in_unit",
		"allowable_torque_low_nm", "allowable_torque_typical_nm", "allowable_torque_high_nm", "judged_by_end_of_band", "margin_fraction", "state",
		"limit_source", "notes",
	}}
	names := boxNames(results)
	for i, r := range results {
		for _, s := range r.Speeds {
			for k, m := range slices.Concat(s.Margins, s.Guides, s.Endless, s.References) {
				factor, unit := inUnit(m.Kind.Dimension())
				decides, state := "yes", m.State.String()
				if k >= len(s.Margins) {
					decides, state = "no", ""
				}
				rows = append(rows, []string{
					word(names[i]), digits(r.Torque * toNm), word(s.Name), m.Kind.Key(), m.Class().Key(), decides, word(m.Item), unit, digits(m.Demand * factor),
					digits(m.Limit.Low * factor), digits(m.Limit.Typical * factor), digits(m.Limit.High * factor),
					digits(m.Allowable[material.Low] * toNm), digits(m.Allowable[material.Typical] * toNm), digits(m.Allowable[material.High] * toNm),
					m.Level.String(), digits(m.Margin), state, word(m.Limit.Source), word(strings.Join(m.Notes, " | ")),
				})
			}
		}
	}
	return writeCSV(w, rows)
}

// CompareCSV writes one row for every quantity that was set side by side: first the value of each box, then the change of each against the first, then what each group of dimensions
// makes of the difference.
func CompareCSV(w io.Writer, c *study.Comparison, _ Options) error {
	if err := checkComparison(c); err != nil {
		return err
	}
	head := []string{"speed", "quantity", "part", "unit"}
	names := boxNames(c.Results)
	for _, name := range names {
		head = append(head, word(name))
	}
	for _, name := range names[1:] {
		head = append(head, word(name+" change_fraction"))
	}
	for _, split := range c.Splits {
		if split.Causes != nil {
			for _, cause := range split.Causes.Causes {
				head = append(head, word(names[split.Box]+" "+strings.Join(each(cause.Groups, study.Group.Key), "+")+" share_in_unit"))
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
	}
	return writeCSV(w, rows)
}

// shareCells are the shares of a quantity of a speed, for each other box; empty where it isn't shared out.
func shareCells(c *study.Comparison, speed string, d *study.Difference) (cells []string) {
	factor, _ := inUnit(d.Dimension)
	for _, split := range c.Splits {
		if split.Causes == nil {
			continue
		}
		row := make([]string, len(split.Causes.Causes))
		if it := split.Causes.Item(speed, d.Key, d.Part); it != nil {
			for i, share := range it.Shares {
				row[i] = digits(share * factor)
			}
		}
		cells = append(cells, row...)
	}
	return cells
}

// MaterialsCSV writes one row for every strength of every steel.
func MaterialsCSV(w io.Writer, steels []material.Steel, _ Options) error {
	if len(steels) == 0 {
		return errNoSteel
	}
	rows := [][]string{{"steel", "group", "strength", "unit", "low_in_unit", "typical_in_unit", "high_in_unit", "source"}}
	for _, s := range steels {
		for _, b := range bands(&s) {
			rows = append(rows, []string{word(s.Name), s.Group.Symbol(), b.key, b.unit(quantity.Metric), digits(b.Low), digits(b.Typical), digits(b.High), word(b.Source)})
		}
	}
	return writeCSV(w, rows)
}

// word is a text cell. A spreadsheet runs a cell that begins with = + - or @, also behind blanks, as a formula; a ' in front makes it text.
func word(s string) string {
	s = harmless(s)
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
		panic("reports: a report can't be written as CSV: " + err.Error())
	}
	return write(w, &b)
}

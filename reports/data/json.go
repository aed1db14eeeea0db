package data

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/view"
)

// schemaVersion is that of the JSON reports; it grows when a key changes its meaning or goes.
const schemaVersion = 2

//go:embed json.md
var jsonKeys string

// JSONKeys is the description of every key of the JSON reports, a Markdown text.
func JSONKeys() string { return jsonKeys }

// number is a float64 whose infinite values and NaN are null, which is all that JSON has for them.
type number float64

// MarshalJSON writes the shortest digits that read back as the same number.
func (n number) MarshalJSON() ([]byte, error) {
	if !view.Finite(float64(n)) {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// Factors from inner units to those of JSON and CSV.
const (
	toNm      = 1e-3          // N·mm → N·m
	toMetres  = 1e-3          // mm → m
	toMicro   = 1e3           // mm → µm
	toMilli   = 1e3           // rad → mrad
	toDegrees = 180 / math.Pi // rad → °
	toPerM3   = 1e9           // kg/mm³ → kg/m³
	toRpm     = 30 / math.Pi  // rad/s → turns a minute
	toKgM2    = 1e-6          // kg·mm² → kg·m²
)

// inUnit is the factor from the inner unit of a dimension to that of JSON and CSV, and the name of the latter.
func inUnit(d quantity.Dimension) (factor float64, unit string) {
	switch d {
	case quantity.Torque:
		return toNm, "N·m"
	case quantity.Deflection:
		return toMicro, "µm"
	case quantity.Slope:
		return toMilli, "mrad"
	case quantity.Angle:
		return toDegrees, "°"
	case quantity.Density:
		return toPerM3, "kg/m³"
	case quantity.RotationalSpeed:
		return 1, "rad/s"
	case quantity.MomentOfInertia:
		return toKgM2, "kg·m²"
	case quantity.TorquePerMass:
		return toNm, "N·m/kg"
	}
	return quantity.Convert(1, d, quantity.Metric), quantity.Unit(d, quantity.Metric)
}

// reportHead is what every JSON report begins with.
type reportHead struct {
	Schema  int    `json:"layshaft_report"`
	Kind    string `json:"kind"`
	Version string `json:"program_version"`
	Caution string `json:"caution"`
}

func newHead(kind string, o view.Options) reportHead {
	return reportHead{schemaVersion, kind, o.Version, view.Caution()}
}

type checkJSON struct {
	reportHead
	Headline string    `json:"headline"`
	Worst    string    `json:"worst_state"`
	Boxes    []boxJSON `json:"boxes"`
}

type compareJSON struct {
	checkJSON
	Equal   *equalJSON    `json:"equal_steel"`
	Speeds  []rowJSON     `json:"speeds"`
	Ranking []rankingJSON `json:"ranking"`
	Splits  []splitJSON   `json:"differences_shared_out"`
	Cases   []caseJSON    `json:"lighter_box_cases"`
}

type rowJSON struct {
	Name  string     `json:"name"`
	Has   []bool     `json:"boxes_have_it"`
	Items []itemJSON `json:"items"`
}

type itemJSON struct {
	Name   string   `json:"name"`
	Key    string   `json:"key"`
	Part   string   `json:"part"`
	Unit   string   `json:"unit"`
	Values []number `json:"values_in_unit"`
	Change []number `json:"change_fraction"`
}

type steelsJSON struct {
	reportHead
	Steels []steelJSON `json:"steels"`
}

type steelJSON struct {
	Name          string         `json:"name"`
	Title         string         `json:"title"`
	About         string         `json:"about"`
	Young         number         `json:"young_modulus_mpa"`
	Poisson       number         `json:"poisson_ratio"`
	Density       number         `json:"density_kg_per_m3"`
	ElasticSource string         `json:"elastic_source"`
	Group         string         `json:"group"`
	GroupSymbol   string         `json:"group_symbol"`
	Strengths     []strengthJSON `json:"strengths"`
}

type strengthJSON struct {
	Key     string `json:"key"`
	Name    string `json:"name"`
	Unit    string `json:"unit"`
	Low     number `json:"low_in_unit"`
	Typical number `json:"typical_in_unit"`
	High    number `json:"high_in_unit"`
	Source  string `json:"source"`
}

func newStrength(b view.Band) strengthJSON {
	return strengthJSON{b.Key, b.Title, b.Unit(quantity.Metric), number(b.Low), number(b.Typical), number(b.High), b.Source}
}

// CheckJSON writes everything in the results as JSON.
func CheckJSON(w io.Writer, results []*gearbox.Result, o view.Options) error {
	if err := view.Reportable(results); err != nil {
		return err
	}
	return writeJSON(w, newCheck("check", results, o))
}

func newCheck(kind string, results []*gearbox.Result, o view.Options) checkJSON {
	o.Units = quantity.Metric // the sentence goes with the numbers
	boxes := make([]boxJSON, len(results))
	for i, r := range results {
		boxes[i] = newBox(r, o.EffectsOf(i), o)
	}
	return checkJSON{newHead(kind, o), plain(view.Headline(results, o)), view.Worst(results).String(), boxes}
}

// CompareJSON writes everything in the results, and the differences, as JSON.
func CompareJSON(w io.Writer, c *study.Comparison, o view.Options) error {
	if err := view.ReportableComparison(c); err != nil {
		return err
	}
	o.Units = quantity.Metric // the sentences go with the numbers
	return writeJSON(w, compareJSON{newCheck("compare", c.Results, o), newEqual(c, o), view.Each(c.Speeds, newRow), newRankings(c), newSplits(c, o), newCases(c, o)})
}

func newRow(r study.SpeedRow) rowJSON {
	return rowJSON{r.Name, view.Each(r.Boxes, func(s *gearbox.SpeedResult) bool { return s != nil }), view.Each(r.Items, newItem)}
}

func newItem(d study.Difference) itemJSON {
	factor, unit := inUnit(d.Dimension)
	return itemJSON{d.Name, d.Key, d.Part, unit, view.Each(d.Values, scaled(factor)), view.Each(d.Change, scaled(1))}
}

// MaterialsJSON writes the steels as JSON.
func MaterialsJSON(w io.Writer, steels []material.Steel, o view.Options) error {
	if len(steels) == 0 {
		return view.ErrNoSteel
	}
	return writeJSON(w, steelsJSON{newHead("materials", o), view.Each(steels, newSteel)})
}

func newSteel(s material.Steel) steelJSON {
	return steelJSON{
		Name: s.Name, Title: s.Title, About: s.About,
		Young: number(s.Young), Poisson: number(s.Poisson), Density: number(s.Density * toPerM3), ElasticSource: s.ElasticSource,
		Group: s.Group.String(), GroupSymbol: s.Group.Symbol(), Strengths: view.Each(view.Bands(&s), newStrength),
	}
}

func scaled(factor float64) func(float64) number {
	return func(v float64) number { return number(v * factor) }
}

// plain is a sentence without blanks that keep a number and its unit together.
func plain(sentence string) string { return strings.ReplaceAll(sentence, view.NoBreak, " ") }

// unchanged copies texts, so that nil becomes an empty list.
func unchanged(s string) string { return s }

// write hands a finished report over in one piece, so that an error before it leaves nothing half written.
func write(w io.Writer, b *bytes.Buffer) error {
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("the report could not be written: %w", err)
	}
	return nil
}

func writeJSON(w io.Writer, report any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(report); err != nil {
		panic("data: a report can't be written as JSON: " + err.Error())
	}
	return write(w, &b)
}

package reports_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports/data"
	"layshaft/reports/view"
)

func jsonOf(t *testing.T, report func(io.Writer) error) any {
	t.Helper()
	var b bytes.Buffer
	if err := report(&b); err != nil {
		t.Fatal(err)
	}
	var v any
	if err := json.Unmarshal(b.Bytes(), &v); err != nil {
		t.Fatalf("not JSON: %v", err)
	}
	return v
}

// paths collects the path of every value below v.
func paths(v any, path string, into map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for k, below := range v {
			next := strings.TrimPrefix(path+"."+k, ".")
			into[next] = true
			paths(below, next, into)
		}
	case []any:
		for _, below := range v {
			// A list itself has the path of its elements: the document has one row for both.
			delete(into, path)
			into[path+"[]"] = true
			paths(below, path+"[]", into)
		}
	}
}

// documented are the keys that the sections of the document with these titles list. A deeper title belongs to the one above it.
func documented(t *testing.T, titles ...string) map[string]bool {
	t.Helper()
	row := regexp.MustCompile("^\\| `([^`]+)` \\| ([^|]+) \\| ([^|]+) \\|$")
	keys := map[string]bool{}
	in := false
	for _, line := range strings.Split(data.JSONKeys(), "\n") {
		if title, ok := strings.CutPrefix(line, "## "); ok {
			in = slices.Contains(titles, title)
		}
		if !in || !strings.HasPrefix(line, "| `") {
			continue
		}
		m := row.FindStringSubmatch(line)
		if m == nil {
			t.Errorf("a row of the document is not | `key` | unit | meaning |: %s", line)
			continue
		}
		if keys[m[1]] {
			t.Errorf("%s is documented twice", m[1])
		}
		keys[m[1]] = true
	}
	return keys
}

func TestEveryJSONKeyIsDocumentedAndEveryDocumentedKeyExists(t *testing.T) {
	r := []*gearbox.Result{alder(), birch()}
	both := [][]study.Effect{nil, effects()}
	r[1].Speeds[0].Beside = r[1].Speeds[1].Margins
	r[1].Speeds[0].Margins[2].Bad = [2]float64{481e3, 533e3}
	r[1].Speeds[0].Tried = &gearbox.Tried{Boxes: 2, Variant: "clockwise", Least: 156.1e3, Most: 190e3}
	for _, c := range []struct {
		report   func(io.Writer) error
		sections []string
	}{
		{func(w io.Writer) error { return data.CheckJSON(w, r, view.Options{Effects: both}) }, []string{"Every report", "Check and compare"}},
		{func(w io.Writer) error {
			return data.CompareJSON(w, withCase(shared(atEqualSteel(r...))), view.Options{Effects: both})
		}, []string{"Every report", "Check and compare", "Compare alone"}},
		{func(w io.Writer) error { return data.WeighJSON(w, weighed(r...), view.Options{}) }, []string{"Every report", "Weigh"}},
		{func(w io.Writer) error { return data.RatiosJSON(w, ratios(), view.Options{}) }, []string{"Every report", "Ratios"}},
		{func(w io.Writer) error { return data.SweepJSON(w, second(sampleSweeps()), view.Options{}) }, []string{"Every report", "Sweep"}},
		{func(w io.Writer) error { return data.HeadroomJSON(w, sampleHeadrooms(), view.Options{}) }, []string{"Every report", "Headroom"}},
		{func(w io.Writer) error { return data.MaterialsJSON(w, steels(), view.Options{}) }, []string{"Every report", "Materials"}},
		{func(w io.Writer) error { return data.GaugeJSON(w, gauged(t), view.Options{}) }, []string{"Every report", "Gauge"}},
		{func(w io.Writer) error { return data.SpreadJSON(w, sampleSpread(), view.Options{}) }, []string{"Every report", "Spread"}},
	} {
		found := map[string]bool{}
		paths(jsonOf(t, c.report), "", found)
		// What the document describes once for two places.
		for p := range maps.Clone(found) {
			once := strings.NewReplacer(".guides[].survived_in_unit", ".guides[].survived_in_unit", ".references[].", ".margins[].", ".guides[].", ".margins[].", ".endless_life[].", ".margins[].", ".beside_the_chosen[].", ".margins[].", ".peak_rating.", ".rating.", ".scuffing_screen.integral.", ".scuffing_screen.flash.", ".variants[].speeds[].", ".speeds[].").Replace(p)
			for _, as := range []string{"boxes[].speeds[].what_reaches_the_teeth", "boxes[].speeds[].least_against_what_reaches_them"} { // of headroom, as in check
				if strings.HasPrefix(once, as+".") && slices.Contains(c.sections, "Headroom") {
					once = as
				}
			}
			if once != p {
				delete(found, p)
				found[once] = true
			}
		}
		// An empty list shows its path without "[]" beside a filled one elsewhere.
		for p := range maps.Clone(found) {
			if found[p+"[]"] {
				delete(found, p)
			}
		}
		keys := documented(t, c.sections...)
		if len(keys) < 4 {
			t.Fatalf("the document lists %d keys under %q", len(keys), c.sections)
		}
		for _, p := range slices.Sorted(maps.Keys(found)) {
			if !keys[p] {
				t.Errorf("%s: in the report, not in the document", p)
			}
		}
		for _, p := range slices.Sorted(maps.Keys(keys)) {
			if !found[p] {
				t.Errorf("%s: in the document, not in the report", p)
			}
		}
	}
}

// Keys of numbers say their unit.
func TestJSONNumbersNameTheirUnit(t *testing.T) {
	units := []string{"_nm", "_n", "_mpa", "_mm", "_um", "_mrad", "_deg", "_modules", "_fraction", "_in_unit", "_ratio", "_factor", "_cycles", "_rpm", "_n_per_mm", "_n_per_mm2", "_m_per_s", "_mm2_per_s", "_kg_per_mm", "_kg_per_m3", "_deg_c", "_mpa_s", "_w", "_passes", "_kg", "_s", "_km_per_h"}
	counts := []string{"layshaft_report", "ratio", "teeth", "virtual_teeth", "number", "passes", "input_shaft_turns", "face_load_factor_by_method_c", "friction_coefficient", "launches_per_pass", "first_limit_number", "tool_index", "life_turns_of_input_shaft"}
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, below := range v {
				walk(k, below)
			}
		case []any:
			for _, below := range v {
				walk(key, below)
			}
		case float64:
			if !slices.Contains(counts, key) && !slices.ContainsFunc(units, func(u string) bool { return strings.HasSuffix(key, u) }) {
				t.Errorf("the number %s has no unit in its key", key)
			}
		}
	}
	walk("", jsonOf(t, func(w io.Writer) error { return data.CompareJSON(w, compared(alder(), birch()), view.Options{}) }))
	walk("", jsonOf(t, func(w io.Writer) error { return data.RatiosJSON(w, ratios(), view.Options{}) }))
	walk("", jsonOf(t, func(w io.Writer) error { return data.HeadroomJSON(w, sampleHeadrooms(), view.Options{}) }))
	walk("", jsonOf(t, func(w io.Writer) error { return data.SweepJSON(w, first(sampleSweeps()), view.Options{}) }))
	walk("", jsonOf(t, func(w io.Writer) error { return data.MaterialsJSON(w, steels(), view.Options{}) }))
	walk("", jsonOf(t, func(w io.Writer) error { return data.GaugeJSON(w, gauged(t), view.Options{}) }))
}

// at follows a path of keys and indices.
func at(t *testing.T, v any, path ...any) any {
	t.Helper()
	for _, step := range path {
		switch s := step.(type) {
		case string:
			v = v.(map[string]any)[s]
		case int:
			v = v.([]any)[s]
		}
	}
	return v
}

// Numbers come back in the documented unit to the last digit but one, whatever units the text would use.
func TestJSONRoundTrip(t *testing.T) {
	r := birch()
	v := jsonOf(t, func(w io.Writer) error {
		return data.CheckJSON(w, []*gearbox.Result{r}, view.Options{Units: quantity.US})
	})
	box, speed := []any{"boxes", 0}, []any{"boxes", 0, "speeds", 0}
	m, mesh, sh := r.Speeds[0].Margins[0], r.Speeds[0].Meshes[0], r.Speeds[0].Shafts[0]
	for _, c := range []struct {
		base []any
		path []any
		want float64
	}{
		{box, []any{"torque_nm"}, r.Torque / 1000},
		{box, []any{"wanted_reserve_fraction"}, 0.1},
		{speed, []any{"ratio"}, -3.077},
		{speed, []any{"output_torque_nm"}, -515.2},
		{speed, []any{"margins", 0, "demand_in_unit"}, m.Demand},
		{speed, []any{"margins", 0, "limit_high_in_unit"}, m.Limit.High},
		{speed, []any{"margins", 0, "allowable_torque_low_nm"}, 156.1},
		{speed, []any{"margins", 0, "allowable_torque_typical_nm"}, 191.3},
		{speed, []any{"margins", 0, "allowable_torque_high_nm"}, 260.3},
		{speed, []any{"margins", 0, "margin_fraction"}, m.Margin},
		{speed, []any{"margins", 1, "demand_in_unit"}, 1.32},
		{speed, []any{"meshes", 0, "tangential_force_n"}, mesh.Tangential},
		{speed, []any{"meshes", 0, "axial_force_on_driver_n"}, mesh.Axial},
		{speed, []any{"meshes", 0, "separation_um"}, 85.3},
		{speed, []any{"meshes", 0, "tilt_in_action_mrad"}, -0.81},
		{speed, []any{"meshes", 0, "gears", 1, "torque_nm"}, -523.09},
		{speed, []any{"meshes", 0, "geometry", "helix_angle_deg"}, 22},
		{speed, []any{"meshes", 0, "geometry", "rack_pressure_angle_deg"}, 20},
		{speed, []any{"meshes", 0, "geometry", "gears", 1, "teeth"}, 40},
		{box, []any{"input_shaft_speed_rpm"}, 9000},
		{box, []any{"peak_over_torque_ratio"}, 1.5},
		{box, []any{"duty", "steps", 1, "share_of_torque_fraction"}, -0.25},
		{speed, []any{"references", 0, "allowable_torque_low_nm"}, 110.5},
		{speed, []any{"meshes", 0, "causes", 1, "tilt_in_action_mrad"}, -1.15},
		{speed, []any{"meshes", 0, "face_load_factor"}, 1.337},
		{speed, []any{"meshes", 0, "line_load_n_per_mm", 2}, 301},
		{speed, []any{"meshes", 0, "stations_mm", 0}, -10},
		{speed, []any{"meshes", 0, "rating", "velocity_m_per_s"}, 4.25},
		{speed, []any{"meshes", 0, "rating", "factors", 3, "driver_in_unit"}, 1.337},
		{speed, []any{"meshes", 0, "rating", "gears", 0, "root", "stress_mpa"}, 653.2},
		{speed, []any{"meshes", 0, "rating", "gears", 0, "root", "life_cycles"}, 2.5e5},
		{speed, []any{"meshes", 0, "rating", "gears", 1, "flank", "strength_mpa"}, 1450},
		{speed, []any{"meshes", 0, "rating", "dynamic", "pinion_speed_at_resonance_rpm"}, 150000},
		{speed, []any{"meshes", 0, "rating", "deviation", "base_pitch_um"}, 7.1},
		{speed, []any{"meshes", 0, "peak_rating", "gears", 0, "root", "stress_mpa"}, 980},
		{speed, []any{"meshes", 0, "agma_rating", "gears", 0, "flank", "allowable_stress_number_mpa"}, 1240},
		{speed, []any{"meshes", 0, "growth", 2, "input_torque_nm"}, 170},
		{speed, []any{"meshes", 0, "growth", 2, "load_acts_at_mm"}, -0.74},
		{speed, []any{"meshes", 0, "scuffing_screen", "largest_sliding_m_per_s"}, 3.125},
		{speed, []any{"meshes", 0, "scuffing_screen", "friction_power_w"}, 812},
		{speed, []any{"meshes", 0, "scuffing_screen", "needed_tip_relief_um"}, 20.5},
		{speed, []any{"meshes", 0, "scuffing_screen", "path", 0, "specific_sliding_driver_ratio"}, -1.5},
		{speed, []any{"meshes", 0, "scuffing_screen", "flash", "scuffing_temperature_deg_c"}, 391},
		{speed, []any{"meshes", 0, "scuffing_screen", "integral", "contact_temperature_deg_c"}, 187},
		{speed, []any{"shafts", 0, "largest_deflection_um"}, 55.2},
		{speed, []any{"shafts", 0, "bearings", 0, "slope_mrad"}, 1.31},
		{speed, []any{"shafts", 0, "gears", 0, "deflection_um"}, 43.7},
		{speed, []any{"shafts", 0, "gears", 0, "slope_mrad"}, 0.62},
		{speed, []any{"guides", 0, "survived_in_unit"}, 1.2},
		{speed, []any{"shafts", 0, "bearings", 0, "force_z_n"}, sh.Bearings[0].Force[2]},
		{speed, []any{"shafts", 0, "sections", 0, "von_mises_stress_mpa"}, 201},
	} {
		got, ok := at(t, v, append(slices.Clone(c.base), c.path...)...).(float64)
		if !ok || math.Abs(got-c.want) > 4e-16*math.Abs(c.want) {
			t.Errorf("%v: %v, want %v", c.path, got, c.want)
		}
	}
	if got := at(t, v, "headline").(string); !strings.HasPrefix(got, "Just: at 170 N·m, Birch") {
		t.Errorf("the headline of JSON isn't metric: %s", got)
	}
	for _, path := range [][]any{
		{"boxes", 0, "speeds", 1, "guides", 0, "allowable_torque_low_nm"}, {"boxes", 0, "speeds", 1, "guides", 0, "margin_fraction"},
		{"boxes", 0, "speeds", 0, "meshes", 0, "gears", 1, "root_stress_real_tooth_mpa"},
		{"boxes", 0, "speeds", 0, "meshes", 0, "rating", "gears", 0, "flank", "life_cycles"},
	} {
		if got := at(t, v, path...); got != nil {
			t.Errorf("%v is %v, want null: it is infinite or not a number", path, got)
		}
	}
}

// Names come back from JSON as they were, apart from bytes that are no text.
func TestJSONKeepsNames(t *testing.T) {
	r := hostile()
	v := jsonOf(t, func(w io.Writer) error { return data.CheckJSON(w, []*gearbox.Result{r}, view.Options{}) })
	if got := at(t, v, "boxes", 0, "name"); got != r.Box.Name {
		t.Errorf("%q, want %q", got, r.Box.Name)
	}
	if got := at(t, v, "boxes", 0, "about"); got != strings.ToValidUTF8(r.Box.About, "�") {
		t.Errorf("%q, want %q", got, r.Box.About)
	}
}

// No cell of a CSV is a formula for a spreadsheet, unless it is a number.
func TestCSVHasNoFormula(t *testing.T) {
	bad := []string{"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "  =1", "\r-2+3", "\u00a0=1", "\u200b=1"}
	for _, name := range bad {
		r := birch()
		r.Box.Name, r.Speeds[0].Name, r.Speeds[0].Margins[0].Item = name, name, name
		r.Speeds[0].Margins[0].Limit.Source, r.Speeds[0].Margins[0].Notes = name, []string{name}
		c := compared(r, r)
		c.Speeds[0].Items[0].Name = name
		s := steels()
		s[0].Name, s[0].Yield.Source = name, name
		for kind, report := range map[string]func(io.Writer) error{
			"check":     func(w io.Writer) error { return data.CheckCSV(w, []*gearbox.Result{r}, view.Options{}) },
			"compare":   func(w io.Writer) error { return data.CompareCSV(w, c, view.Options{}) },
			"materials": func(w io.Writer) error { return data.MaterialsCSV(w, s, view.Options{}) },
		} {
			var b bytes.Buffer
			if err := report(&b); err != nil {
				t.Fatal(err)
			}
			rows, err := csv.NewReader(&b).ReadAll()
			if err != nil {
				t.Fatal(err)
			}
			for _, row := range rows {
				for _, cell := range row {
					trimmed := strings.TrimSpace(cell)
					if _, err := strconv.ParseFloat(cell, 64); err != nil && trimmed != "" && strings.ContainsAny(trimmed[:1], "=+-@") {
						t.Errorf("%s, name %q: cell %q is a formula", kind, name, cell)
					}
				}
			}
		}
	}
}

// CSV numbers have twelve digits at most, without what changes of units leave in the last places; nothing is known is empty, and without end is inf.
func TestCSVRoundTrip(t *testing.T) {
	r := birch()
	r.Speeds[0].Margins[0].Demand = math.NaN()
	r.Speeds[0].Margins[0].Allowable[material.Typical] = 2080000.000000246
	var b bytes.Buffer
	if err := data.CheckCSV(&b, []*gearbox.Result{r}, view.Options{Units: quantity.US}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	// First: root fatigue, misalignment and yield, two guides, two second opinions, two rows for the gear of each of its two shafts; second: one limit, one guide, two rows for a gear.
	if len(rows) != 1+3+2+2+4+1+1+2 {
		t.Fatalf("%d rows, want one for the head, one a limit and two a gear", len(rows))
	}
	column := func(name string) int { return slices.Index(rows[0], name) }
	for _, c := range []struct {
		row        int
		name, want string
	}{
		{1, "demand_in_unit", ""}, {1, "unit", "MPa"}, {1, "allowable_torque_high_nm", "260.3"}, {1, "torque_nm", "170"},
		{1, "margin_fraction", "-0.0817647058824"}, {1, "allowable_torque_typical_nm", "2080"}, // 156.1/170 − 1 = −0.08176470588235…
		{2, "demand_in_unit", "1.32"}, {2, "unit", "mrad"}, {2, "state", "clear"},
		{1, "decides", "yes"}, {1, "class", "wears_out"}, {2, "class", "guide"}, {2, "decides", "yes"}, // the file sets it
		{4, "kind", "bearing_slope"}, {4, "decides", "no"}, {4, "state", ""}, {4, "survived_in_unit", "1.2"}, {5, "survived_in_unit", ""},
		{6, "decides", "no"}, {6, "kind", "flank_hertz"}, {6, "state", ""}, {6, "allowable_torque_low_nm", "110.5"},
		{8, "kind", "shaft_deflection_at_gear"}, {8, "item", "first pinion"}, {8, "mesh", "first"}, {8, "demand_in_unit", "43.7"}, {8, "unit", "µm"}, {8, "decides", "no"},
		{9, "kind", "shaft_slope_at_gear"}, {9, "demand_in_unit", "0.62"}, {9, "unit", "mrad"},
		{13, "kind", "mesh_separation"}, {13, "allowable_torque_low_nm", "inf"}, {13, "margin_fraction", "inf"}, {13, "limit_low_in_unit", "130"}, {13, "unit", "µm"},
	} {
		if i := column(c.name); i < 0 || rows[c.row][i] != c.want {
			t.Errorf("row %d, %s: %q, want %q", c.row, c.name, rows[c.row], c.want)
		}
	}
}

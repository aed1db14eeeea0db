package reports_test

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"layshaft/beam/bearing"
	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// benched is an invented shaft on a tapered pair, set up on the bench, with two readings and a wanted torque.
func benched() *study.PreloadTable {
	rollers := &bearing.Elements{Kind: bearing.Tapered, Count: 17, Diameter: 8, Length: 12, Pitch: 55, ContactAngle: 14 * math.Pi / 180}
	b := &gearbox.Box{Name: "Alder", Shafts: []gearbox.Shaft{{
		Name: "output", Sections: []gearbox.Section{{Length: 240, Outer: 50}}, Pair: &gearbox.BearingPair{Arrangement: bearing.FaceToFace, EndPlay: -0.03},
		Bearings: []gearbox.Bearing{{Name: "left", At: 20, Type: gearbox.TaperedRoller, Elements: rollers}, {Name: "right", At: 220, Type: gearbox.TaperedRoller, Elements: rollers}},
	}}}
	t, err := study.Bench(b, study.PreloadQuestion{
		Warm: bearing.Warmth{Case: bearing.AluminiumGrowth, Shaft: bearing.SteelGrowth, CaseRise: 60, ShaftRise: 60}, Case: 250e3, Preload: 1500,
		Seen: study.SeenAt{Turns: 0.5, Efficiency: 0.98, Drag: 200}, Readings: []bearing.Reading{{Shim: 0.05, Torque: 400}, {Shim: 0.06, Torque: 620}}, Unsure: 80, Want: 1600, Zero: math.NaN(),
	})
	if err != nil {
		panic(err)
	}
	return t
}

func TestPreloadText(t *testing.T) {
	for _, c := range []struct {
		o    text.Options
		most int
		says []string
	}{
		{text.Options{}, 100, []string{"Output shaft is set with", "face to face (X)", "the end play grows by 144 µm", "as set", "wanted", "✗", "one in twenty lies below", "says little", "left its range", "250 N/µm"}},
		{text.Options{Options: view.Options{Units: quantity.US}, Width: 80}, 80, []string{"lbf", "thou", "lbf·ft"}},
	} {
		var b bytes.Buffer
		if err := text.Preload(&b, benched(), c.o); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(b.String()), " ")
		text = strings.ReplaceAll(text, " ", " ")
		for _, want := range c.says {
			if !strings.Contains(text, want) {
				t.Errorf("it doesn't say %q:\n%s", want, b.String())
			}
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if n := utf8.RuneCountInString(line); n > c.most {
				t.Errorf("%d columns, at most %d wanted: %q", n, c.most, line)
			}
		}
	}
	for _, report := range []func(io.Writer, *study.PreloadTable, view.Options) error{data.PreloadJSON, data.PreloadCSV,
		func(w io.Writer, t *study.PreloadTable, o view.Options) error {
			return text.Preload(w, t, text.Options{Options: o})
		}} {
		if err := report(io.Discard, nil, view.Options{}); err == nil {
			t.Error("nothing is reported without an error")
		}
	}
}

// Numbers of JSON and CSV are those of the table, in fixed units.
func TestPreloadNumbers(t *testing.T) {
	table := benched()
	var b bytes.Buffer
	if err := data.PreloadCSV(&b, table, view.Options{}); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	if len(lines) != 1+2*len(table.Rows) {
		t.Errorf("%d lines for %d shims, cold and warm", len(lines), len(table.Rows))
	}
	got := jsonOf(t, func(w io.Writer) error { return data.PreloadJSON(w, table, view.Options{Units: quantity.US}) }).(map[string]any)
	for i, row := range got["shims"].([]any) {
		cold := row.(map[string]any)["cold"].(map[string]any)
		if want := table.Rows[i].Cold.Preload; math.Abs(cold["preload_n"].(float64)-want) > 1e-9*want {
			t.Errorf("preload %v N, want %g", cold["preload_n"], want)
		}
		if want := table.Rows[i].Cold.Outside / 1e3; math.Abs(cold["stiffness_against_force_n_per_um"].(float64)-want) > 1e-9*want {
			t.Errorf("stiffness %v N/µm, want %g", cold["stiffness_against_force_n_per_um"], want)
		}
	}
}

package boxfile

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"layshaft/gearbox/chance"
)

func withLines(t *testing.T, replace ...string) []byte {
	t.Helper()
	text := string(Starter())
	for i := 0; i < len(replace); i += 2 {
		if strings.Count(text, replace[i]) == 0 {
			t.Fatalf("the starter has no %q", replace[i])
		}
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return []byte(text)
}

// Readings carry their own ±, that of the instrument behind it, or that of the file's instrument; the file read with the values that it has is the file.
func TestReadings(t *testing.T) {
	text := append(withLines(t), []byte("\nuncertainty: {instrument: rule, steel: even}\n")...)
	f, box, list := Open("a.yaml", text)
	if list.HasErrors() {
		t.Fatal(list)
	}
	if u := box.Uncertainty; u.Steel != chance.Even || u.Readings != chance.Normal || u.Flanks != chance.Normal || u.Instrument != "rule" {
		t.Errorf("%+v", u)
	}
	readings := f.Readings()
	if len(readings) < 10 {
		t.Fatalf("%d readings", len(readings))
	}
	values := make([]float64, len(readings))
	for i, r := range readings {
		want := 0.5
		if r.Path == "gears.pinion.face" { // it has one of its own
			want = 0.1
		}
		if values[i] = r.Value; r.Plus != want {
			t.Errorf("%s", r.String())
		}
	}
	same, list := f.WithReadings(values)
	if list.HasErrors() {
		t.Fatal(list)
	}
	if !reflect.DeepEqual(same.Shafts, box.Shafts) || !reflect.DeepEqual(same.Gears, box.Gears) || !reflect.DeepEqual(same.Meshes, box.Meshes) || !reflect.DeepEqual(same.Centres, box.Centres) {
		t.Error("read with its own values the box is another")
	}
	for i, r := range readings {
		if strings.HasSuffix(r.Path, "sections.1.outer") {
			values[i] += 0.125
			moved, list := f.WithReadings(values)
			if list.HasErrors() {
				t.Fatal(list)
			}
			shaft, _, _ := strings.Cut(strings.TrimPrefix(r.Path, "shafts."), ".")
			for k, s := range moved.Shafts {
				want := box.Shafts[k].Sections[0].Outer
				if s.Name == shaft {
					want += 0.125
				}
				if math.Abs(s.Sections[0].Outer-want) > 1e-12 {
					t.Errorf("%s of %s is %g, want %g", r.Path, s.Name, s.Sections[0].Outer, want)
				}
			}
			values[i] -= 0.125
		}
	}
}

func TestInstrumentBehindPlusMinus(t *testing.T) {
	for text, plus := range map[string]float64{"34 mm by caliper": 0.03, "34 mm ± caliper": 0.03, "34 mm +/- micrometer": 0.01, "34 mm ± 0.2 mm": 0, "caliper": 0, "1 in ± rule": 0.5} {
		rest, got := byInstrument(text, 1)
		if got != plus || plus > 0 && strings.ContainsAny(rest, "±/by") {
			t.Errorf("%q: %q ± %g", text, rest, got)
		}
	}
}

func TestUncertaintyIsReadStrictly(t *testing.T) {
	for text, want := range map[string]string{
		"uncertainty: {instrument: calliper}": `did you mean "caliper"`,
		"uncertainty: {steel: gauss}":         "triangular, even, normal",
		"uncertainty: {reading: even}":        `did you mean "readings"`,
	} {
		_, list := Read("a.yaml", append(withLines(t), []byte("\n"+text+"\n")...))
		if !list.HasErrors() || !strings.Contains(strings.ToLower(list.Error()), strings.ToLower(want)) {
			t.Errorf("%s: %v", text, list)
		}
	}
}

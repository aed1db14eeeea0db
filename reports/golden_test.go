package reports_test

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/material"
	"layshaft/reports"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGolden(t *testing.T) {
	one := func(r ...*gearbox.Result) []*gearbox.Result { return r }
	metric := reports.Options{Version: "0.0.0-test"}
	assumed, assumedUS := metric, reports.Options{Units: quantity.US, Width: 80}
	assumed.Effects, assumedUS.Effects = [][]study.Effect{effects()}, [][]study.Effect{effects()[3:]}
	us := reports.Options{Units: quantity.US}
	colour := reports.Options{Colour: true, Width: 80}
	third := birch()
	third.Box.Name = "Birch, second casting"
	empty := &gearbox.Result{Box: &gearbox.Box{Name: "Empty"}, Torque: 1000}
	for name, report := range map[string]func(io.Writer) error{
		"check_one.txt":        func(w io.Writer) error { return reports.Check(w, one(alder()), metric) },
		"check_assumed.txt":    func(w io.Writer) error { return reports.Check(w, one(alder()), assumed) },
		"check_assumed_us.txt": func(w io.Writer) error { return reports.Check(w, one(alder()), assumedUS) },
		"check_two.txt":        func(w io.Writer) error { return reports.Check(w, one(alder(), birch()), metric) },
		"check_many.txt":       func(w io.Writer) error { return reports.Check(w, fiveSpeeds()[1:], metric) },
		"check_us.txt":         func(w io.Writer) error { return reports.Check(w, one(birch()), us) },
		"check_coast.txt":      func(w io.Writer) error { return reports.Check(w, one(coast()), metric) },
		"check_hostile.txt":    func(w io.Writer) error { return reports.Check(w, one(hostile()), metric) },
		"check_colour.txt":     func(w io.Writer) error { return reports.Check(w, one(birch()), colour) },
		"check_empty.txt":      func(w io.Writer) error { return reports.Check(w, one(empty), metric) },
		"check_two.json":       func(w io.Writer) error { return reports.CheckJSON(w, one(alder(), birch()), us) },
		"check_hostile.json":   func(w io.Writer) error { return reports.CheckJSON(w, one(hostile()), metric) },
		"check_two.csv":        func(w io.Writer) error { return reports.CheckCSV(w, one(alder(), birch()), us) },
		"check_hostile.csv":    func(w io.Writer) error { return reports.CheckCSV(w, one(hostile()), metric) },
		"compare_two.txt":      func(w io.Writer) error { return reports.Compare(w, compared(alder(), birch()), metric) },
		"compare_steel.txt":    func(w io.Writer) error { return reports.Compare(w, atEqualSteel(alder(), birch()), metric) },
		"compare_three.txt":    func(w io.Writer) error { return reports.Compare(w, compared(alder(), birch(), third), us) },
		"compare_five.txt": func(w io.Writer) error {
			return reports.Compare(w, compared(alder(), birch(), third, birch(), coast()), metric)
		},
		"compare_hostile.txt": func(w io.Writer) error { return reports.Compare(w, compared(hostile(), hostile()), metric) },
		"compare_two.json":    func(w io.Writer) error { return reports.CompareJSON(w, compared(alder(), birch()), metric) },
		"compare_hostile.csv": func(w io.Writer) error { return reports.CompareCSV(w, compared(alder(), hostile()), metric) },
		"compare_shared.txt":  func(w io.Writer) error { return reports.Compare(w, shared(compared(alder(), birch())), metric) },
		"compare_shared.csv":  func(w io.Writer) error { return reports.CompareCSV(w, shared(compared(alder(), birch())), metric) },
		"compare_three.csv":   func(w io.Writer) error { return reports.CompareCSV(w, compared(alder(), birch(), birch()), metric) },
		"gauge.txt":           func(w io.Writer) error { return reports.Gauge(w, gauged(t), metric) },
		"gauge_us.txt": func(w io.Writer) error {
			return reports.Gauge(w, gauged(t), reports.Options{Units: quantity.US, Width: 80})
		},
		"gauge.csv":  func(w io.Writer) error { return reports.GaugeCSV(w, gauged(t), metric) },
		"ratios.txt": func(w io.Writer) error { return reports.Ratios(w, ratios(), metric) },
		"ratios_us.txt": func(w io.Writer) error {
			return reports.Ratios(w, ratios()[:1], reports.Options{Units: quantity.US, Width: 80})
		},
		"ratios.json":         func(w io.Writer) error { return reports.RatiosJSON(w, ratios(), us) },
		"ratios.csv":          func(w io.Writer) error { return reports.RatiosCSV(w, ratios(), us) },
		"materials.txt":       func(w io.Writer) error { return reports.Materials(w, steels(), metric) },
		"materials_us.txt":    func(w io.Writer) error { return reports.Materials(w, steels(), us) },
		"materials.json":      func(w io.Writer) error { return reports.MaterialsJSON(w, steels(), metric) },
		"materials.csv":       func(w io.Writer) error { return reports.MaterialsCSV(w, steels(), metric) },
		"compare_weighed.txt": func(w io.Writer) error { return reports.Compare(w, withCase(compared(alder(), birch())), metric) },
		"compare_same_mass.txt": func(w io.Writer) error {
			c := withCase(compared(alder(), birch()))
			c.Lighter = nil
			return reports.Compare(w, c, us)
		},
		"weigh_two.txt":     func(w io.Writer) error { return reports.Weigh(w, weighed(alder(), birch()), metric) },
		"weigh_us.txt":      func(w io.Writer) error { return reports.Weigh(w, weighed(birch()), us) },
		"weigh_hostile.txt": func(w io.Writer) error { return reports.Weigh(w, weighed(hostile()), metric) },
		"weigh_two.json":    func(w io.Writer) error { return reports.WeighJSON(w, weighed(alder(), birch()), us) },
		"weigh_two.csv":     func(w io.Writer) error { return reports.WeighCSV(w, weighed(alder(), birch()), us) },
		"headroom.txt":      func(w io.Writer) error { return reports.Headroom(w, sampleHeadrooms(), metric) },
		"headroom_us.txt":   func(w io.Writer) error { return reports.Headroom(w, sampleHeadrooms()[:1], us) },
		"headroom.csv":      func(w io.Writer) error { return reports.HeadroomCSV(w, sampleHeadrooms(), us) },
		"sweep.txt":         func(w io.Writer) error { return reports.Sweep(w, first(sampleSweeps()), metric) },
		"sweep_two_us.txt":  func(w io.Writer) error { return reports.Sweep(w, second(sampleSweeps()), us) },
		"sweep.csv":         func(w io.Writer) error { return reports.SweepCSV(w, first(sampleSweeps()), us) },
		"sweep_two.json":    func(w io.Writer) error { return reports.SweepJSON(w, second(sampleSweeps()), us) },
	} {
		t.Run(name, func(t *testing.T) {
			var got bytes.Buffer
			if err := report(&got); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join("testdata", name)
			if *update {
				if err := os.WriteFile(path, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatalf("%v: write it with go test ./reports -update, then read it", err)
			}
			if d := difference(string(want), got.String()); d != "" {
				t.Errorf("%s differs (- wanted, + got):\n%s", path, d)
			}
		})
	}
}

// difference shows the lines between the common start and the common end of two texts.
func difference(want, got string) string {
	if want == got {
		return ""
	}
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	start := 0
	for start < len(a) && start < len(b) && a[start] == b[start] {
		start++
	}
	for len(a) > start && len(b) > start && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	var text strings.Builder
	fmt.Fprintf(&text, "line %d\n", start+1)
	for _, line := range a[start:] {
		fmt.Fprintf(&text, "- %q\n", line)
	}
	for _, line := range b[start:] {
		fmt.Fprintf(&text, "+ %q\n", line)
	}
	return text.String()
}

func TestNothingToReportIsAnError(t *testing.T) {
	bad := compared(alder(), birch())
	bad.Speeds[0].Items[0].Change = nil
	for name, report := range map[string]func(io.Writer) error{
		"no results":        func(w io.Writer) error { return reports.Check(w, nil, reports.Options{}) },
		"no results, JSON":  func(w io.Writer) error { return reports.CheckJSON(w, nil, reports.Options{}) },
		"no results, CSV":   func(w io.Writer) error { return reports.CheckCSV(w, nil, reports.Options{}) },
		"nil result":        func(w io.Writer) error { return reports.Check(w, []*gearbox.Result{nil}, reports.Options{}) },
		"no comparison":     func(w io.Writer) error { return reports.Compare(w, nil, reports.Options{}) },
		"uneven comparison": func(w io.Writer) error { return reports.Compare(w, bad, reports.Options{}) },
		"no ratio table":    func(w io.Writer) error { return reports.Ratios(w, nil, reports.Options{}) },
		"no ratios, JSON":   func(w io.Writer) error { return reports.RatiosJSON(w, nil, reports.Options{}) },
		"no ratios, CSV":    func(w io.Writer) error { return reports.RatiosCSV(w, nil, reports.Options{}) },
		"nothing weighed":   func(w io.Writer) error { return reports.Weigh(w, nil, reports.Options{}) },
		"no weights, JSON":  func(w io.Writer) error { return reports.WeighJSON(w, nil, reports.Options{}) },
		"no weights, CSV":   func(w io.Writer) error { return reports.WeighCSV(w, nil, reports.Options{}) },
		"no headroom":       func(w io.Writer) error { return reports.Headroom(w, nil, reports.Options{}) },
		"nil headroom":      func(w io.Writer) error { return reports.HeadroomJSON(w, []*study.Headroom{nil}, reports.Options{}) },
		"no sweep":          func(w io.Writer) error { return reports.Sweep(w, nil, reports.Options{}) },
		"sweep of nothing":  func(w io.Writer) error { return reports.SweepCSV(w, &study.Sweep{}, reports.Options{}) },
		"no steels":         func(w io.Writer) error { return reports.Materials(w, []material.Steel{}, reports.Options{}) },
	} {
		var w bytes.Buffer
		if err := report(&w); err == nil || w.Len() > 0 {
			t.Errorf("%s: error %v, %d bytes written; want an error and nothing written", name, err, w.Len())
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestWriteErrorIsReported(t *testing.T) {
	for name, err := range map[string]error{
		"text": reports.Check(full{}, []*gearbox.Result{alder()}, reports.Options{}),
		"JSON": reports.CheckJSON(full{}, []*gearbox.Result{alder()}, reports.Options{}),
		"CSV":  reports.CheckCSV(full{}, []*gearbox.Result{alder()}, reports.Options{}),
	} {
		if err == nil {
			t.Errorf("%s: no error from a writer that is full", name)
		}
	}
}

func first(s, _ *study.Sweep) *study.Sweep  { return s }
func second(_, s *study.Sweep) *study.Sweep { return s }

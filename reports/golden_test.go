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
	"layshaft/reports/data"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGolden(t *testing.T) {
	one := func(r ...*gearbox.Result) []*gearbox.Result { return r }
	metric := text.Options{Options: view.Options{Version: "0.0.0-test"}}
	assumed, assumedUS := metric, text.Options{Options: view.Options{Units: quantity.US}, Width: 80}
	assumed.Effects, assumedUS.Effects = [][]study.Effect{effects()}, [][]study.Effect{effects()[3:]}
	us := text.Options{Options: view.Options{Units: quantity.US}}
	colour := text.Options{Colour: true, Width: 80}
	third := birch()
	third.Box.Name = "Birch, second casting"
	empty := &gearbox.Result{Box: &gearbox.Box{Name: "Empty"}, Torque: 1000}
	for name, report := range map[string]func(io.Writer) error{
		"check_one.txt":        func(w io.Writer) error { return text.Check(w, one(alder()), metric) },
		"check_assumed.txt":    func(w io.Writer) error { return text.Check(w, one(alder()), assumed) },
		"check_assumed_us.txt": func(w io.Writer) error { return text.Check(w, one(alder()), assumedUS) },
		"check_two.txt":        func(w io.Writer) error { return text.Check(w, one(alder(), birch()), metric) },
		"check_many.txt":       func(w io.Writer) error { return text.Check(w, fiveSpeeds()[1:], metric) },
		"check_us.txt":         func(w io.Writer) error { return text.Check(w, one(birch()), us) },
		"check_coast.txt":      func(w io.Writer) error { return text.Check(w, one(coast()), metric) },
		"check_hostile.txt":    func(w io.Writer) error { return text.Check(w, one(hostile()), metric) },
		"check_colour.txt":     func(w io.Writer) error { return text.Check(w, one(birch()), colour) },
		"check_empty.txt":      func(w io.Writer) error { return text.Check(w, one(empty), metric) },
		"check_two.json":       func(w io.Writer) error { return data.CheckJSON(w, one(alder(), birch()), us.Options) },
		"check_hostile.json":   func(w io.Writer) error { return data.CheckJSON(w, one(hostile()), metric.Options) },
		"check_two.csv":        func(w io.Writer) error { return data.CheckCSV(w, one(alder(), birch()), us.Options) },
		"check_hostile.csv":    func(w io.Writer) error { return data.CheckCSV(w, one(hostile()), metric.Options) },
		"compare_two.txt":      func(w io.Writer) error { return text.Compare(w, compared(alder(), birch()), metric) },
		"compare_steel.txt":    func(w io.Writer) error { return text.Compare(w, atEqualSteel(alder(), birch()), metric) },
		"compare_three.txt":    func(w io.Writer) error { return text.Compare(w, compared(alder(), birch(), third), us) },
		"compare_five.txt": func(w io.Writer) error {
			return text.Compare(w, compared(alder(), birch(), third, birch(), coast()), metric)
		},
		"gauge.txt": func(w io.Writer) error { return text.Gauge(w, gauged(t), metric) },
		"gauge_us.txt": func(w io.Writer) error {
			return text.Gauge(w, gauged(t), text.Options{Options: view.Options{Units: quantity.US}, Width: 80})
		},
		"spread.txt": func(w io.Writer) error { return text.Spread(w, sampleSpread(), metric) },
		"spread_us.txt": func(w io.Writer) error {
			s := sampleSpread()
			s.Boxes, s.Ratio, s.Stated = s.Boxes[:1], nil, false
			return text.Spread(w, s, text.Options{Options: view.Options{Units: quantity.US}, Width: 80})
		},
		"gauge.csv":           func(w io.Writer) error { return data.GaugeCSV(w, gauged(t), metric.Options) },
		"compare_hostile.txt": func(w io.Writer) error { return text.Compare(w, compared(hostile(), hostile()), metric) },
		"compare_two.json":    func(w io.Writer) error { return data.CompareJSON(w, compared(alder(), birch()), metric.Options) },
		"compare_hostile.csv": func(w io.Writer) error { return data.CompareCSV(w, compared(alder(), hostile()), metric.Options) },
		"compare_shared.txt":  func(w io.Writer) error { return text.Compare(w, shared(compared(alder(), birch())), metric) },
		"compare_shared.csv":  func(w io.Writer) error { return data.CompareCSV(w, shared(compared(alder(), birch())), metric.Options) },
		"compare_three.csv": func(w io.Writer) error {
			return data.CompareCSV(w, compared(alder(), birch(), birch()), metric.Options)
		},
		"ratios.txt": func(w io.Writer) error { return text.Ratios(w, ratios(), metric) },
		"ratios_us.txt": func(w io.Writer) error {
			return text.Ratios(w, ratios()[:1], text.Options{Options: view.Options{Units: quantity.US}, Width: 80})
		},
		"ratios.json":         func(w io.Writer) error { return data.RatiosJSON(w, ratios(), us.Options) },
		"ratios.csv":          func(w io.Writer) error { return data.RatiosCSV(w, ratios(), us.Options) },
		"materials.txt":       func(w io.Writer) error { return text.Materials(w, steels(), metric) },
		"materials_us.txt":    func(w io.Writer) error { return text.Materials(w, steels(), us) },
		"materials.json":      func(w io.Writer) error { return data.MaterialsJSON(w, steels(), metric.Options) },
		"materials.csv":       func(w io.Writer) error { return data.MaterialsCSV(w, steels(), metric.Options) },
		"compare_weighed.txt": func(w io.Writer) error { return text.Compare(w, withCase(compared(alder(), birch())), metric) },
		"compare_same_mass.txt": func(w io.Writer) error {
			c := withCase(compared(alder(), birch()))
			c.Lighter = nil
			return text.Compare(w, c, us)
		},
		"weigh_two.txt":     func(w io.Writer) error { return text.Weigh(w, weighed(alder(), birch()), metric) },
		"weigh_us.txt":      func(w io.Writer) error { return text.Weigh(w, weighed(birch()), us) },
		"weigh_hostile.txt": func(w io.Writer) error { return text.Weigh(w, weighed(hostile()), metric) },
		"weigh_two.json":    func(w io.Writer) error { return data.WeighJSON(w, weighed(alder(), birch()), us.Options) },
		"weigh_two.csv":     func(w io.Writer) error { return data.WeighCSV(w, weighed(alder(), birch()), us.Options) },
		"headroom.txt":      func(w io.Writer) error { return text.Headroom(w, sampleHeadrooms(), metric) },
		"headroom_us.txt":   func(w io.Writer) error { return text.Headroom(w, sampleHeadrooms()[:1], us) },
		"headroom.csv":      func(w io.Writer) error { return data.HeadroomCSV(w, sampleHeadrooms(), us.Options) },
		"sweep.txt":         func(w io.Writer) error { return text.Sweep(w, first(sampleSweeps()), metric) },
		"sweep_two_us.txt":  func(w io.Writer) error { return text.Sweep(w, second(sampleSweeps()), us) },
		"sweep.csv":         func(w io.Writer) error { return data.SweepCSV(w, first(sampleSweeps()), us.Options) },
		"sweep_two.json":    func(w io.Writer) error { return data.SweepJSON(w, second(sampleSweeps()), us.Options) },
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
		"no results":        func(w io.Writer) error { return text.Check(w, nil, text.Options{}) },
		"no results, JSON":  func(w io.Writer) error { return data.CheckJSON(w, nil, view.Options{}) },
		"no results, CSV":   func(w io.Writer) error { return data.CheckCSV(w, nil, view.Options{}) },
		"nil result":        func(w io.Writer) error { return text.Check(w, []*gearbox.Result{nil}, text.Options{}) },
		"no comparison":     func(w io.Writer) error { return text.Compare(w, nil, text.Options{}) },
		"uneven comparison": func(w io.Writer) error { return text.Compare(w, bad, text.Options{}) },
		"no ratio table":    func(w io.Writer) error { return text.Ratios(w, nil, text.Options{}) },
		"no ratios, JSON":   func(w io.Writer) error { return data.RatiosJSON(w, nil, view.Options{}) },
		"no ratios, CSV":    func(w io.Writer) error { return data.RatiosCSV(w, nil, view.Options{}) },
		"nothing weighed":   func(w io.Writer) error { return text.Weigh(w, nil, text.Options{}) },
		"no weights, JSON":  func(w io.Writer) error { return data.WeighJSON(w, nil, view.Options{}) },
		"no weights, CSV":   func(w io.Writer) error { return data.WeighCSV(w, nil, view.Options{}) },
		"no headroom":       func(w io.Writer) error { return text.Headroom(w, nil, text.Options{}) },
		"nil headroom":      func(w io.Writer) error { return data.HeadroomJSON(w, []*study.Headroom{nil}, view.Options{}) },
		"no sweep":          func(w io.Writer) error { return text.Sweep(w, nil, text.Options{}) },
		"sweep of nothing":  func(w io.Writer) error { return data.SweepCSV(w, &study.Sweep{}, view.Options{}) },
		"no steels":         func(w io.Writer) error { return text.Materials(w, []material.Steel{}, text.Options{}) },
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
		"text": text.Check(full{}, []*gearbox.Result{alder()}, text.Options{}),
		"JSON": data.CheckJSON(full{}, []*gearbox.Result{alder()}, view.Options{}),
		"CSV":  data.CheckCSV(full{}, []*gearbox.Result{alder()}, view.Options{}),
	} {
		if err == nil {
			t.Errorf("%s: no error from a writer that is full", name)
		}
	}
}

func first(s, _ *study.Sweep) *study.Sweep  { return s }
func second(_, s *study.Sweep) *study.Sweep { return s }

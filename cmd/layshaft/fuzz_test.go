package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/data"
	"layshaft/reports/page"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// broken is what no answer may hold.
var broken = regexp.MustCompile(`\bNaN\b|[+-]Inf\b|%!|<nil>`)

// FuzzWholeWay: whatever a file of one speed says, it is refused with places, or answered in every form without a number that is none. Boxes of more speeds, or of which
// much is unknown, are left out, so that a pass is cheap.
func FuzzWholeWay(f *testing.F) {
	for _, data := range oneSpeed(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if broken.Match(data) {
			return // the file's own words come back
		}
		box, found := boxfile.Read("box.yaml", data)
		if box == nil {
			placed(t, found)
			return
		}
		const mostMeshes, mostUnknown = 3, 1
		if len(box.Speeds) != 1 || len(box.Meshes) > mostMeshes || len(box.Unknown) > mostUnknown {
			return
		}
		wholeWay(t, box)
	})
}

// FuzzNumbers: two numbers of a box, each taken times anything, lead the same way. Nearly every pass is solved or refused for its numbers.
func FuzzNumbers(f *testing.F) {
	type number struct {
		change boxfile.Change
		value  float64
	}
	type known struct {
		file    *boxfile.File
		numbers []number
	}
	var all []known
	for _, data := range oneSpeed(f) {
		file, box, list := boxfile.Open("box.yaml", data)
		if file == nil {
			f.Fatal(list)
		}
		k := known{file: file}
		for _, path := range slices.Sorted(maps.Keys(box.Places)) {
			c, list := file.Change("typed", 1, fromOne(path)+"=1")
			text, ok := "", false
			if list == nil && c.Key.Number {
				text, ok = file.Value(c)
			}
			if q, err := quantity.Parse(text, c.Key.Dimension); ok && err == nil && q.Scale == "" {
				k.numbers = append(k.numbers, number{c, q.Value})
			}
		}
		all = append(all, k)
	}
	for i, k := range all {
		for j := i; j < len(k.numbers); j += 11 { // some of them in every run of the tests; the fuzzer comes to the rest
			f.Add(uint8(i), uint8(j), uint8(j+1), 1000.0, 1.0)
			f.Add(uint8(i), uint8(j), uint8(j+7), 1e-3, 1.5)
		}
	}
	f.Fuzz(func(t *testing.T, which, one, two uint8, times, also float64) {
		k := all[int(which)%len(all)]
		var changes []boxfile.Change
		for i, factor := range []float64{times, also} {
			n := k.numbers[int([]uint8{one, two}[i])%len(k.numbers)]
			v := n.value * factor
			if v == n.value || math.IsNaN(v) || math.IsInf(v, 0) || i == 1 && len(changes) == 1 && changes[0].Path == n.change.Path {
				continue
			}
			axis := study.Axis{Dimension: n.change.Key.Dimension, Whole: n.change.Key.Whole}
			changes = append(changes, n.change.WithValue(written(&axis, v)))
		}
		box, found := k.file.With(changes...)
		if box == nil {
			placed(t, found)
			return
		}
		wholeWay(t, box)
	})
}

// fromOne is a path with the places in lists counted from 1, as people count them.
func fromOne(path string) string {
	steps := strings.Split(path, ".")
	for i, s := range steps {
		if n, err := strconv.Atoi(s); err == nil {
			steps[i] = strconv.Itoa(n + 1)
		}
	}
	return strings.Join(steps, ".")
}

// oneSpeed are box files of one speed each.
func oneSpeed(f *testing.F) [][]byte {
	all := [][]byte{boxfile.Starter()}
	files, err := filepath.Glob("testdata/onespeed/*.yaml")
	if err != nil || len(files) == 0 {
		f.Fatal(files, err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		all = append(all, data)
	}
	return all
}

// wholeWay solves a box and gives every answer about it, or has it refused with places.
func wholeWay(t *testing.T, box *gearbox.Box) {
	result, err := gearbox.Solve(box, gearbox.Load{})
	if err != nil {
		list, ok := errors.AsType[diag.List](err)
		if !ok {
			t.Fatalf("an error without a place: %v", err)
		}
		placed(t, list)
		return
	}
	answered(t, []*gearbox.Result{result})
	table, err := study.TableOfRatios(box, 0, 0)
	if list, ok := errors.AsType[diag.List](err); ok {
		placed(t, list)
	} else if err != nil {
		t.Fatal(err)
	} else {
		var o output
		tables := []*study.RatioTable{table}
		inForms(t, &o, writers{
			text: func(w io.Writer) error { return text.Ratios(w, tables, text.Options{}) },
			json: func(w io.Writer) error { return data.RatiosJSON(w, tables, view.Options{}) },
			csv:  func(w io.Writer) error { return data.RatiosCSV(w, tables, view.Options{}) },
			page: func(w io.Writer) error { return page.Ratios(w, tables, view.Options{}) },
		}, o.write)
	}
}

// answered writes what check and weigh say of a box, in every form.
func answered(t *testing.T, results []*gearbox.Result) {
	var o output
	deliver := func(e env, w writers) error {
		_, err := o.deliver(results, e, w)
		return err
	}
	inForms(t, &o, writers{
		text: func(w io.Writer) error { return text.Check(w, results, text.Options{}) },
		json: func(w io.Writer) error { return data.CheckJSON(w, results, view.Options{}) },
		csv:  func(w io.Writer) error { return data.CheckCSV(w, results, view.Options{}) },
		page: func(w io.Writer) error { return page.Check(w, results, view.Options{}) },
	}, deliver)
	boxes := study.Weigh(results)
	inForms(t, &o, writers{
		text: func(w io.Writer) error { return text.Weigh(w, boxes, text.Options{}) },
		json: func(w io.Writer) error { return data.WeighJSON(w, boxes, view.Options{}) },
		csv:  func(w io.Writer) error { return data.WeighCSV(w, boxes, view.Options{}) },
	}, deliver)
}

// inForms writes an answer as text, JSON and CSV, with its page if it has one, and looks through all of it.
func inForms(t *testing.T, o *output, w writers, deliver func(env, writers) error) {
	t.Helper()
	for _, form := range []string{"text", "json", "csv"} {
		o.format, o.html = choice{value: form}, ""
		file := filepath.Join(t.TempDir(), "page.html")
		if form == "text" && w.page != nil {
			o.html = pageFile(file)
		}
		var out, said bytes.Buffer
		if err := deliver(env{stdout: &out, stderr: &said, variable: func(string) string { return "" }}, w); err != nil {
			t.Fatalf("%s: %v", form, err)
		}
		if form == "json" && !json.Valid(out.Bytes()) {
			t.Fatal("not JSON")
		}
		if o.html != "" {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			out.Write(scripts.ReplaceAll(text, nil))
		}
		if at := broken.FindIndex(out.Bytes()); at != nil {
			t.Fatalf("%s says …%s…", form, out.Bytes()[max(0, at[0]-80):min(out.Len(), at[1]+40)])
		}
	}
}

// scripts are the parts of a page that are the same in every page.
var scripts = regexp.MustCompile(`(?s)<script>.*?</script>`)

// placed wants findings in the words of the file, each with its place.
func placed(t *testing.T, found diag.List) {
	t.Helper()
	for _, d := range found {
		if d.Summary == "" || d.Detail == "" || d.Severity == diag.Error && d.Place.File == "" {
			t.Fatalf("a finding without words or place: %#v", d)
		}
		if words := d.Summary + " " + d.Detail; broken.MatchString(words) && !strings.Contains(words, `"`) {
			t.Fatalf("a finding says %s", words)
		}
	}
}

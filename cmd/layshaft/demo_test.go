package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden files of the demonstration")

func demonstration(t testing.TB, args ...string) []byte {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code := run(args, env{stdin: bytes.NewReader(nil), stdout: &stdout, stderr: &stderr, variable: func(string) string { return "" }})
	if code != exitHolds {
		t.Fatalf("%v: exit code %d\n%s", args, code, stderr.String())
	}
	return stdout.Bytes()
}

const alder, birch = "../../testdata/alder.yaml", "../../testdata/birch.yaml"

// What the demonstration prints, word for word.
func TestDemonstrationText(t *testing.T) {
	t.Parallel()
	for name, args := range map[string][]string{
		"check.txt":   {"check", alder},
		"speed.txt":   {"check", birch, "--speed", "1st", "--method", "agma", "--method", "lewis"},
		"compare.txt": {"compare", alder, birch},
		"weigh.txt":   {"weigh", alder, birch},
		"show.txt":    {"show", birch},
		"inline.txt":  {"show", "../../gearbox/boxfile/inline.yaml", "--units", "us"},
		"gauge.txt":   {"gauge", "../../testdata/birch-bench.yaml"},
		"us.txt":      {"check", alder, "--units", "us", "--speed", "1st"},
	} {
		got := demonstration(t, args...)
		file := filepath.Join("testdata", "demo", name)
		if *update {
			save(t, file, got)
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			save(t, file+".got", got)
			t.Errorf("%v prints something else than %s; see %s.got", args, file, file)
		}
	}
}

// The numbers of the demonstration, as JSON, to one part in a million: processors may round differently in the last places.
func TestDemonstrationNumbers(t *testing.T) {
	t.Parallel()
	got := demonstration(t, "compare", alder, birch, "--speed", "1st", "--format", "json")
	file := filepath.Join("testdata", "demo", "compare.json")
	if *update {
		save(t, file, got)
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var a, b any
	if err := json.Unmarshal(want, &a); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(got, &b); err != nil {
		t.Fatal(err)
	}
	if where := differs("", a, b); where != "" {
		save(t, file+".got", got)
		t.Errorf("the numbers differ at %s; see %s.got", where, file)
	}
}

// differs names the first place at which two JSON values differ, numbers by more than a millionth.
func differs(at string, a, b any) string {
	switch x := a.(type) {
	case map[string]any:
		y, ok := b.(map[string]any)
		if !ok || len(x) != len(y) {
			return at
		}
		for k, v := range x {
			if where := differs(at+"."+k, v, y[k]); where != "" {
				return where
			}
		}
		return ""
	case []any:
		y, ok := b.([]any)
		if !ok || len(x) != len(y) {
			return at
		}
		for i, v := range x {
			if where := differs(fmt.Sprintf("%s[%d]", at, i), v, y[i]); where != "" {
				return where
			}
		}
		return ""
	case float64:
		y, ok := b.(float64)
		if !ok || math.Abs(x-y) > 1e-6*math.Abs(x)+1e-9 {
			return at
		}
		return ""
	}
	if a != b {
		return at
	}
	return ""
}

func save(t testing.TB, file string, content []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, content, 0o644); err != nil {
		t.Fatal(err)
	}
}

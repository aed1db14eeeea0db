package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// allowed says which packages each package may import beyond the standard library. An edge that is not here is a decision: draw it here with
// open eyes or don't draw it. The data flow one way: box file → gearbox → reports → cmd.
var allowed = map[string][]string{
	"beam":                {"gonum.org/v1/gonum/blas", "gonum.org/v1/gonum/blas/blas64", "gonum.org/v1/gonum/lapack/lapack64", "gonum.org/v1/gonum/interp"},
	"beam/bearing":        {"gonum.org/v1/gonum/integrate/quad"},
	"beam/strength":       {"layshaft/material"},
	"material":            nil,
	"gearstress/involute": nil,
	"gearstress/gauge":    {"layshaft/gearstress/involute"},
	"gearstress/lewis":    {"layshaft/gearstress/involute"},
	"gearstress/contact":  {"layshaft/gearstress/involute"},
	"gearstress/faceload": {"gonum.org/v1/gonum/blas", "gonum.org/v1/gonum/blas/blas64", "gonum.org/v1/gonum/lapack/lapack64"},
	"gearstress/iso6336":  {"layshaft/gearstress/involute", "layshaft/material"},
	"gearstress/agma2001": {"layshaft/gearstress/involute", "layshaft/material"},
	"gearstress/scuffing": {"layshaft/gearstress/contact", "layshaft/gearstress/involute"},
	"gearbox/diag":        nil,
	"gearbox/quantity":    nil,
	"gearbox/chance":      {"gonum.org/v1/gonum/mat", "gonum.org/v1/gonum/stat", "gonum.org/v1/gonum/stat/distmv", "gonum.org/v1/gonum/stat/distuv", "gonum.org/v1/gonum/stat/samplemv"},
	"gearbox": {"layshaft/beam", "layshaft/beam/bearing", "layshaft/gearbox/chance", "layshaft/gearbox/diag", "layshaft/gearbox/quantity", "layshaft/gearstress/agma2001", "layshaft/gearstress/contact",
		"layshaft/gearstress/faceload", "layshaft/gearstress/gauge", "layshaft/gearstress/involute", "layshaft/gearstress/iso6336", "layshaft/gearstress/lewis", "layshaft/gearstress/scuffing",
		"layshaft/material"},
	"gearbox/boxfile": {"golang.org/x/text/unicode/norm", "gopkg.in/yaml.v3", "layshaft/beam/bearing", "layshaft/gearbox", "layshaft/gearbox/chance", "layshaft/gearbox/diag",
		"layshaft/gearbox/quantity", "layshaft/gearstress/gauge", "layshaft/gearstress/involute", "layshaft/material"},
	"gearbox/study": {"layshaft/gearbox", "layshaft/gearbox/chance", "layshaft/gearbox/diag", "layshaft/gearbox/quantity", "layshaft/gearstress/iso6336", "layshaft/material"},
	"reports/view": {"layshaft/gearbox", "layshaft/gearbox/chance", "layshaft/gearbox/quantity", "layshaft/gearbox/study", "layshaft/gearstress/agma2001", "layshaft/gearstress/gauge", "layshaft/gearstress/involute",
		"layshaft/gearstress/iso6336", "layshaft/gearstress/scuffing", "layshaft/material"},
	"reports":      nil,
	"reports/text": {"layshaft/gearbox", "layshaft/gearbox/study", "layshaft/material", "layshaft/reports/view"},
	"reports/data": {"layshaft/gearbox", "layshaft/gearbox/chance", "layshaft/gearbox/quantity", "layshaft/gearbox/study", "layshaft/gearstress/agma2001", "layshaft/gearstress/gauge", "layshaft/gearstress/involute",
		"layshaft/gearstress/iso6336", "layshaft/gearstress/scuffing", "layshaft/material", "layshaft/reports/view"},
	"reports/page": {"github.com/go-echarts/go-echarts/v2/charts", "github.com/go-echarts/go-echarts/v2/opts", "layshaft/gearbox", "layshaft/gearbox/quantity", "layshaft/gearbox/study",
		"layshaft/gearstress/involute", "layshaft/gearstress/iso6336", "layshaft/material", "layshaft/reports/view"},
	"testdata/draws": {"pgregory.net/rapid"},
	"cmd/layshaft": {"github.com/spf13/pflag", "golang.org/x/term", "layshaft/gearbox", "layshaft/gearbox/boxfile", "layshaft/gearbox/diag", "layshaft/gearbox/quantity", "layshaft/gearbox/study",
		"layshaft/gearstress/gauge", "layshaft/material", "layshaft/reports/data", "layshaft/reports/page", "layshaft/reports/text", "layshaft/reports/view"},
}

// alone names the imports that only one file of each of these packages may have.
var alone = map[string][]string{
	"gonum.org/v1/gonum/lapack/lapack64":         {"beam", "gearstress/faceload"},
	"github.com/go-echarts/go-echarts/v2/charts": {"reports/page"},
}

func TestImportsKeepToTheHouse(t *testing.T) {
	users := map[string][]string{}
	eachGoFile(t, func(dir, name string) {
		if strings.HasSuffix(name, "_test.go") {
			return
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("../..", dir, name), nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		edges, known := allowed[dir]
		if !known {
			t.Errorf("package %s is not in the plan of the house", dir)
			return
		}
		for _, spec := range file.Imports {
			to, _ := strconv.Unquote(spec.Path.Value)
			if first, _, _ := strings.Cut(to, "/"); !strings.Contains(first, ".") && first != "layshaft" {
				continue // standard library
			}
			if !slices.Contains(edges, to) {
				t.Errorf("%s/%s imports %s, which the plan of the house doesn't show", dir, name, to)
			}
			users[to] = append(users[to], dir+"/"+name)
		}
	})
	for path, dirs := range alone {
		var got []string
		for _, file := range users[path] {
			got = append(got, filepath.Dir(file))
		}
		slices.Sort(got)
		if !slices.Equal(got, dirs) {
			t.Errorf("%s is imported by %v; one file each of %v should be alone in that", path, users[path], dirs)
		}
	}
}

// The top of the repository stays as it was agreed. Pages, box files and a program that somebody who follows the README makes there are his own, and git ignores them.
func TestTopOfTheRepository(t *testing.T) {
	names := []string{"beam", "cmd", "gearbox", "gearstress", "material", "reports", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	entries, err := os.ReadDir("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if own := filepath.Ext(e.Name()); !e.IsDir() && (own == ".html" || own == ".yaml" || e.Name() == "layshaft") {
			continue
		}
		if !slices.Contains(names, e.Name()) && !strings.HasPrefix(e.Name(), ".") {
			t.Errorf("%s lies at the top", e.Name())
		}
	}
}

func eachGoFile(t *testing.T, do func(dir, name string)) {
	t.Helper()
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && strings.HasPrefix(d.Name(), ".") && d.Name() != ".." {
			return filepath.SkipDir
		}
		if !d.IsDir() && strings.HasSuffix(path, ".go") {
			dir, err := filepath.Rel("../..", filepath.Dir(path))
			if err != nil {
				return err
			}
			do(filepath.ToSlash(dir), d.Name())
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

package main

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// unit is one that stands in a comment: a dash for plain numbers, else a symbol apart from other words.
var unit = regexp.MustCompile(`–|plain number|(^|[^\p{L}])(mm|µm|N|MPa|rad|kg|s|K|°C|HV|HBW|HB|HRC|mPa·s|√MPa|mm/s|rad/s|°|in|1/min|modules?|inner units?)([^\p{L}]|$)`)

// Every exported field of the mechanics that holds numbers says their unit, in its own comment or, without one, in that of its
// struct; "–" stands for a plain number.
func TestEveryExportedFloatSaysItsUnit(t *testing.T) {
	eachGoFile(t, func(dir, name string) {
		if strings.HasSuffix(name, "_test.go") || !(strings.HasPrefix(dir, "beam") || strings.HasPrefix(dir, "gearstress") || dir == "material") {
			return
		}
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, filepath.Join("../..", dir, name), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok {
				continue
			}
			for _, spec := range g.Specs {
				s, ok := spec.(*ast.TypeSpec)
				if !ok || !s.Name.IsExported() {
					continue
				}
				body, ok := s.Type.(*ast.StructType)
				if !ok {
					continue
				}
				for _, f := range body.Fields.List {
					if len(f.Names) == 0 || !f.Names[0].IsExported() || !holdsFloats(f.Type) {
						continue
					}
					said := f.Doc.Text() + " " + f.Comment.Text()
					if said == " " {
						said = g.Doc.Text() + s.Doc.Text()
					}
					if !unit.MatchString(said) {
						t.Errorf("%s: %s.%s doesn't say its unit", files.Position(f.Pos()), s.Name.Name, f.Names[0].Name)
					}
				}
			}
		}
	})
}

// holdsFloats reports whether a type is float64, or an array or slice of it.
func holdsFloats(e ast.Expr) bool {
	for {
		a, ok := e.(*ast.ArrayType)
		if !ok {
			break
		}
		e = a.Elt
	}
	id, ok := e.(*ast.Ident)
	return ok && id.Name == "float64"
}

// Every package of the mechanics that a reader would call shows how in an example that is executed.
func TestEveryPackageOfTheMechanicsHasAnExample(t *testing.T) {
	shown := map[string]bool{}
	eachGoFile(t, func(dir, name string) {
		if !strings.HasSuffix(name, "_test.go") {
			if _, known := shown[dir]; !known {
				shown[dir] = false
			}
			return
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("../..", dir, name), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range doc.Examples(file) {
			shown[dir] = shown[dir] || e.Output != "" || e.EmptyOutput
		}
	})
	for dir, yes := range shown {
		if (strings.HasPrefix(dir, "beam") || strings.HasPrefix(dir, "gearstress") || dir == "material" || dir == "gearbox/quantity") && !yes {
			t.Errorf("%s has no executed example", dir)
		}
	}
}

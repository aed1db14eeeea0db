package diag

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Place is where something stands in a file. Line and Column count from 1, Column and Width in runes. The zero Place means "not from a file".
type Place struct {
	File                string
	Line, Column, Width int
}

// String is "file:line:column", as far as the parts are known; "" for the zero Place.
func (p Place) String() string {
	s := clean(p.File)
	if p.Line > 0 {
		s = fmt.Sprintf("%s:%d", s, p.Line)
		if p.Column > 0 {
			s = fmt.Sprintf("%s:%d", s, p.Column)
		}
	}
	return s
}

// Severity tells an error, with which nothing is computed, from a warning, with which it is.
type Severity int

// The severities.
const (
	Error Severity = iota
	Warning
)

// String is "error" or "warning".
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// Diagnostic is one finding.
type Diagnostic struct {
	Severity Severity
	Place    Place
	Path     string // path of the value in the box, "gears.first pinion.teeth"
	Summary  string // short, the same words for the same kind of mistake: "unknown key"
	Detail   string // what was found, what was expected, what to do; "\n" starts a new line
}

// String is the finding on one line: "file:line:column: summary: detail". A warning says that it is one.
func (d Diagnostic) String() string {
	var parts []string
	if place := d.Place.String(); place != "" {
		parts = append(parts, place)
	}
	if d.Severity == Warning {
		parts = append(parts, "warning")
	}
	parts = append(parts, clean(d.Summary))
	if d.Detail != "" {
		parts = append(parts, clean(strings.ReplaceAll(d.Detail, "\n", " ")))
	}
	return strings.Join(parts, ": ")
}

// List is several findings; it is an error when it holds at least one of severity Error (see Err).
type List []Diagnostic

// Error is every finding, one a line, in the order of the list.
func (l List) Error() string {
	lines := make([]string, len(l))
	for i, d := range l {
		lines[i] = d.String()
	}
	return strings.Join(lines, "\n")
}

// HasErrors reports whether at least one finding is of severity Error.
func (l List) HasErrors() bool {
	return slices.ContainsFunc(l, func(d Diagnostic) bool { return d.Severity == Error })
}

// Err is the list when it has errors and nil when it has none, for functions that return an error.
func (l List) Err() error {
	if l.HasErrors() {
		return l
	}
	return nil
}

// Sort puts the findings in the order of their places: file, line, column. Findings at one place keep their order.
func (l List) Sort() {
	slices.SortStableFunc(l, func(a, b Diagnostic) int {
		return cmp.Or(
			cmp.Compare(a.Place.File, b.Place.File),
			cmp.Compare(a.Place.Line, b.Place.Line),
			cmp.Compare(a.Place.Column, b.Place.Column),
		)
	})
}

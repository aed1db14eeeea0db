package text

import (
	"runtime"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/reports/view"
)

import _ "layshaft/testdata/draws"

func TestSuperscript(t *testing.T) {
	for _, c := range []struct {
		numbers []int
		want    string
	}{
		{nil, ""}, {[]int{1}, "¹"}, {[]int{1, 2}, "¹,²"}, {[]int{1, 2, 3}, "¹⁻³"}, {[]int{1, 3, 4, 5, 9}, "¹,³⁻⁵,⁹"},
		{[]int{10, 12, 14}, "¹⁰,¹²…"}, {[]int{98, 99, 100, 101}, "⁹⁸⁻¹⁰¹"}, {[]int{1, 3, 5, 7}, "¹,³,⁵,⁷"}, {[]int{1, 3, 5, 7, 9}, "¹,³,⁵…"},
	} {
		if got := superscript(c.numbers, 7); got != c.want {
			t.Errorf("%v: %q, want %q", c.numbers, got, c.want)
		}
	}
}

func TestMarkIsNeverWide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		numbers := rapid.SliceOfDistinct(rapid.IntRange(1, 500), rapid.ID).Draw(t, "numbers")
		slices.Sort(numbers)
		widest := rapid.IntRange(4, 20).Draw(t, "widest")
		if mark := superscript(numbers, widest); view.Width(mark) > widest {
			t.Fatalf("%v: %q has %d columns, at most %d wanted", numbers, mark, view.Width(mark), widest)
		}
	})
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
		want []string
	}{
		{"one two three", 7, []string{"one two", "three"}},
		{"  one \n two ", 20, []string{"one two"}},
		{"at 170\u00a0N·m now", 9, []string{"at", "170 N·m", "now"}},
		{"abcdefghij", 4, []string{"abcd", "efgh", "ij"}},
		{"ab abcdefghij", 4, []string{"ab", "abcd", "efgh", "ij"}},
		{"", 10, nil},
	} {
		if got := wrap(c.text, c.n); !slices.Equal(got, c.want) {
			t.Errorf("%q at %d: %q, want %q", c.text, c.n, got, c.want)
		}
	}
}

// What doesn't fit into a column that wraps goes on below it; nothing is lost.
func TestTableWraps(t *testing.T) {
	p := printer{notes: &view.Notes{}}
	t1 := &view.Table{
		Columns: []view.Column{{Head: "words", Least: 6, Wrap: true}, {Head: "value", Right: true}},
		Rows:    [][]view.Cell{{{Text: "tangential load at the operating pitch circle"}, {Text: "1"}}, {{Text: "short"}, {Text: "2"}}},
	}
	columns, rows := p.laid(t1)
	columns[0].width = 21
	p.part(columns, func(row []cell) []cell { return row }, rows)
	want := "  words                  value\n  ─────────────────────  ─────\n  tangential load at         1\n  the operating pitch\n  circle\n  short                      2\n"
	if p.String() != want {
		t.Errorf("got\n%s\nwant\n%s", p.String(), want)
	}
}

// A word without an end is broken in a time that grows with its length: what is allocated tells, without a clock.
func TestWrapIsLinear(t *testing.T) {
	allocated := func(letters int) uint64 {
		word := strings.Repeat("x", letters)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		wrap(word, 80)
		runtime.ReadMemStats(&after)
		return after.TotalAlloc - before.TotalAlloc
	}
	short, long := allocated(10_000), allocated(100_000)
	if long > 30*short {
		t.Errorf("ten times the letters take %.0f times the memory", float64(long)/float64(short))
	}
}

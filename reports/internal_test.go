package reports

import (
	"bytes"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"

	_ "layshaft/testdata/draws"
)

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

func TestSideOnWhichTheLoadActs(t *testing.T) {
	for middle, want := range map[float64]string{0.74: "right", -0.74: "left", 0.004: "neither", -0.004: "neither", 0: "neither"} {
		if got := sideOf(middle); got != want {
			t.Errorf("a load %v mm off the middle acts to the %q, want %q", middle, got, want)
		}
	}
	if got := sideOf(math.NaN()); got != view.Absent {
		t.Errorf("a load at no known place acts to the %q, want %q", got, view.Absent)
	}
}

// What leaves least torque need not be what the duty wears out first.
func TestShortestLifeIsTold(t *testing.T) {
	margin := func(kind gearbox.Kind, item string, margin, life float64) gearbox.Margin {
		return gearbox.Margin{Kind: kind, Item: item, Margin: margin, Life: life}
	}
	r := &gearbox.Result{Speeds: []gearbox.SpeedResult{
		{Margins: []gearbox.Margin{margin(gearbox.FlankFatigue, "tight", 0.9, 180000), margin(gearbox.FlankFatigue, "short-lived", 1.2, 33000), margin(gearbox.RootFatigue, "root", 2, math.Inf(1))}},
		{Margins: []gearbox.Margin{margin(gearbox.FlankFatigue, "other", 1, 47000), margin(gearbox.ShaftYield, "shaft", 0.1, 0)}},
	}}
	if got, want := lifeWords(r), "What the duty wears out first at this torque, and after how many repeats, by calculation with steel at the low end of its range and 1 failure in 100: "+
		"tooth root fatigue endless; flank fatigue of short-lived after 33\u00a0000. "+LifeOrMargin(); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := lifeWords(&gearbox.Result{}); got != "" {
		t.Errorf("without a duty the life is told as %q", got)
	}
}

// Per cent of a number with a sign, or of one too small to matter, misleads: the difference is told instead.
func TestChange(t *testing.T) {
	g := &group{dimension: quantity.Deflection}
	add := func(from, to float64) *study.Difference {
		d := &study.Difference{Values: []float64{from, to}, Change: []float64{0, to/from - 1}}
		if from*to < 0 {
			d.Change[1] = math.NaN()
		}
		g.rows = append(g.rows, groupRow{difference: d})
		return d
	}
	for _, c := range []struct {
		d    *study.Difference
		want string
	}{
		{add(0.0400, 0.0500), "+25.0"},
		{add(0.0400, 0.0400), "0.0"},
		{add(-0.00213, -0.00470), "-2.57 µm"},
		{add(-0.001, 0.003), "+4.00 µm"},
		{add(0.0005, 0.0015), "+1.00 µm"}, // less than a twentieth of the largest, 50 µm
		{add(0.0041, 0.0500), "×12.2"},
		{add(math.NaN(), 0.0500), view.Absent},
	} {
		if got := g.change(c.d, 1, Options{}); got != c.want {
			t.Errorf("%v: %q, want %q", c.d.Values, got, c.want)
		}
	}
}

// What doesn't fit into a column that wraps goes on below it; nothing is lost.
func TestTableWraps(t *testing.T) {
	var b bytes.Buffer
	table(&b, 30, []head{{text: "words", least: 6, wrap: true}, {text: "value", right: true}}, [][]cell{texts("tangential load at the operating pitch circle", "1"), texts("short", "2")})
	want := "  words                  value\n  ─────────────────────  ─────\n  tangential load at         1\n  the operating pitch\n  circle\n  short                      2\n"
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
}

package reports

import (
	"bytes"
	"math"
	"runtime"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

func TestShorten(t *testing.T) {
	for _, c := range []struct {
		text string
		n    int
		want string
	}{
		{"first pinion", 12, "first pinion"},
		{"first pinion", 11, "first…inion"},
		{"first pinion", 8, "firs…ion"},
		{"first pinion", 1, "…"},
		{"first pinion", 0, ""},
		{"ü†ß≠∂ƒ", 4, "ü†…ƒ"},
	} {
		if got := shorten(c.text, c.n); got != c.want {
			t.Errorf("%q to %d: %q, want %q", c.text, c.n, got, c.want)
		}
	}
}

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
		if mark := superscript(numbers, widest); count(mark) > widest {
			t.Fatalf("%v: %q has %d columns, at most %d wanted", numbers, mark, count(mark), widest)
		}
	})
}

func TestHarmless(t *testing.T) {
	for text, want := range map[string]string{
		"first pinion": "first pinion", "a\x1b[31mb": "a␛[31mb", "a\nb\tc\rd": "a b c d", "a\x00b\x7f": "a␀b␡", "\u202eabc\u2066": "�abc�",
		"a\u0085b\u009bc": "a�b�c", "a\u2028b": "a b", "a\xffb": "a�b", "zero\u200bwidth": "zero�width", "Größe 3 µm": "Größe 3 µm",
	} {
		if got := harmless(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Expected texts are by hand: three digits for all that is worth comparing, one number of decimals a column.
func TestFixedColumn(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		values []float64
		want   []string
	}{
		{[]float64{182.4, 201.6}, []string{"182", "202"}},
		{[]float64{182.4, 20.16}, []string{"182.4", "20.2"}},
		{[]float64{99.96, 12}, []string{"100.0", "12.0"}},
		{[]float64{99.96}, []string{"100"}},
		{[]float64{812, 0.0123}, []string{"812", "0"}},
		{[]float64{0, 0}, []string{"0", "0"}},
		{[]float64{-1e-12, 5}, []string{"0.00", "5.00"}},
		{[]float64{nan, inf, 1.5}, []string{"n/a", "–", "1.50"}},
		{[]float64{1.234e9, 5}, []string{"1.23e+09", "5.00"}},
		{[]float64{-1e300}, []string{"-1e+300"}},
		{[]float64{1.234e-9}, []string{"1.23e-09"}},
		{nil, []string{}},
	} {
		if got := fixedColumn(c.values); !slices.Equal(got, c.want) {
			t.Errorf("%v: %q, want %q", c.values, got, c.want)
		}
	}
}

// A column has one number of decimals; its largest number keeps three digits, and no number is wider than nine columns.
func TestColumnProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1e4, 1e4)), 1, 8).Draw(t, "values")
		decimalsSeen := map[int]bool{}
		for i, text := range fixedColumn(values) {
			if n := utf8.RuneCountInString(text); n > 9 {
				t.Fatalf("%v is %q: %d columns", values[i], text, n)
			}
			if !strings.ContainsAny(text, "e/–") {
				_, after, _ := strings.Cut(text, ".")
				decimalsSeen[len(after)] = true
			}
		}
		if len(decimalsSeen) > 1 {
			t.Fatalf("%v: %q has several numbers of decimals", values, fixedColumn(values))
		}
	})
}

func TestPercent(t *testing.T) {
	for _, c := range []struct {
		fraction float64
		want     string
	}{
		{0.071, "+7.1"}, {-0.3875, "-38.8"}, {0, "0.0"}, {-0.0001, "-0.0"}, {0.0001, "+0.0"}, {math.Inf(1), "not reached"}, {math.Inf(-1), "–"},
		{math.NaN(), "n/a"}, {12.3456, "> 1000"}, {1e8, "> 1000"},
	} {
		if got := percent(c.fraction); got != c.want {
			t.Errorf("%v: %q, want %q", c.fraction, got, c.want)
		}
	}
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

func TestPassesHaveTwoDigitsInGroups(t *testing.T) {
	for v, want := range map[float64]string{0.0312: "0.031", 0.96: "0.96", 7.46: "7.5", 9.7: "10", 96.4: "96", 9613: "9\u00a0600", 998: "1\u00a0000", 183456: "180\u00a0000", 12345678: "12\u00a0000\u00a0000"} {
		if got := passes(v); got != want {
			t.Errorf("%v passes are shown as %q, want %q", v, got, want)
		}
	}
}

func TestSideOnWhichTheLoadActs(t *testing.T) {
	for middle, want := range map[float64]string{0.74: "right", -0.74: "left", 0.004: "neither", -0.004: "neither", 0: "neither"} {
		if got := sideOf(middle); got != want {
			t.Errorf("a load %v mm off the middle acts to the %q, want %q", middle, got, want)
		}
	}
	if got := sideOf(math.NaN()); got != none {
		t.Errorf("a load at no known place acts to the %q, want %q", got, none)
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
		{add(math.NaN(), 0.0500), none},
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

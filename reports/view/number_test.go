package view

import (
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

import _ "layshaft/testdata/draws"

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
		if got := Shorten(c.text, c.n); got != c.want {
			t.Errorf("%q to %d: %q, want %q", c.text, c.n, got, c.want)
		}
	}
}

func TestHiddenCharactersAreShown(t *testing.T) {
	for text, want := range map[string]string{
		"first pinion": "first pinion", "a\x1b[31mb": "a‹U+001B›[31mb", "a\nb\tc\rd": "a b c d", "a\x00b\x7f": "a‹U+0000›b‹U+007F›", "\u202eabc\u2066": "‹U+202E›abc‹U+2066›",
		"a\u0085b\u009bc": "a‹U+0085›b‹U+009B›c", "a\u2028b": "a b", "a\xffb": "a�b", "zero\u200bwidth": "zero‹U+200B›width", "Größe 3 µm": "Größe 3 µm",
	} {
		if got := Clean(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Expected texts are by hand: three digits for all that is worth comparing, one number of decimals a column.
func TestAlike(t *testing.T) {
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
		if got := Alike(c.values); !slices.Equal(got, c.want) {
			t.Errorf("%v: %q, want %q", c.values, got, c.want)
		}
	}
}

// A column has one number of decimals; its largest number keeps three digits, and no number is wider than nine columns.
func TestColumnProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1e4, 1e4)), 1, 8).Draw(t, "values")
		decimalsSeen := map[int]bool{}
		for i, text := range Alike(values) {
			if n := utf8.RuneCountInString(text); n > 9 {
				t.Fatalf("%v is %q: %d columns", values[i], text, n)
			}
			if !strings.ContainsAny(text, "e/–") {
				_, after, _ := strings.Cut(text, ".")
				decimalsSeen[len(after)] = true
			}
		}
		if len(decimalsSeen) > 1 {
			t.Fatalf("%v: %q has several numbers of decimals", values, Alike(values))
		}
	})
}

func TestPercent(t *testing.T) {
	for _, c := range []struct {
		fraction float64
		want     string
	}{
		{0.071, "+7.1"}, {-0.3875, "-38.8"}, {0, "0.0"}, {-0.0001, "-0.01"}, {0.0001, "+0.01"}, {-3e-7, "0.0"}, {-0.00051, "-0.1"},
		{0.0996, "+10.0"}, {9.99, "+999.0"}, {math.Inf(1), "not reached"}, {math.Inf(-1), "–"},
		{math.NaN(), "n/a"}, {12.3456, "> 1000"}, {1e8, "> 1000"},
	} {
		if got := Percent(c.fraction); got != c.want {
			t.Errorf("%v: %q, want %q", c.fraction, got, c.want)
		}
	}
}

func TestRepeatsHaveTwoDigitsInGroups(t *testing.T) {
	for v, want := range map[float64]string{0.0312: "0.031", 0.96: "0.96", 7.46: "7.5", 9.7: "10", 96.4: "96", 9613: "9\u00a0600", 998: "1\u00a0000", 183456: "180\u00a0000", 12345678: "12\u00a0000\u00a0000"} {
		if got := Repeats(v); got != want {
			t.Errorf("%v passes are shown as %q, want %q", v, got, want)
		}
	}
}

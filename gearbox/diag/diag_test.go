package diag

import (
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

func TestListIsAnErrorOnlyWithErrors(t *testing.T) {
	warning := Diagnostic{Severity: Warning, Place: Place{"a.yaml", 2, 3, 1}, Summary: "unused gear", Detail: "No mesh\nuses it."}
	fault := Diagnostic{Place: Place{File: "a.yaml", Line: 4}, Summary: "missing unit"}
	for _, c := range []struct {
		list   List
		errors bool
		text   string
	}{
		{nil, false, ""},
		{List{warning}, false, "a.yaml:2:3: warning: unused gear: No mesh uses it."},
		{List{warning, fault}, true, "a.yaml:2:3: warning: unused gear: No mesh uses it.\na.yaml:4: missing unit"},
		{List{{Summary: "no\x1bplace"}}, true, "no␛place"},
	} {
		if got := c.list.HasErrors(); got != c.errors {
			t.Errorf("%v.HasErrors() = %v", c.list, got)
		}
		if err := c.list.Err(); (err != nil) != c.errors {
			t.Errorf("%v.Err() = %v", c.list, err)
		}
		if got := c.list.Error(); got != c.text {
			t.Errorf("got  %q\nwant %q", got, c.text)
		}
	}
	if got, ok := errors.AsType[List](List{fault}.Err()); !ok || len(got) != 1 {
		t.Error("the list can't be had back from the error")
	}
}

func TestSortIsByPlaceAndStable(t *testing.T) {
	at := func(file string, line, column int, summary string) Diagnostic {
		return Diagnostic{Place: Place{file, line, column, 1}, Summary: summary}
	}
	l := List{at("b", 1, 1, "6"), at("a", 2, 1, "4"), at("a", 10, 1, "5"), at("a", 1, 9, "2"), at("a", 1, 9, "3"), at("a", 1, 2, "1")}
	l.Sort()
	var order string
	for _, d := range l {
		order += d.Summary
	}
	if order != "123456" {
		t.Error(order)
	}
}

func TestNearest(t *testing.T) {
	keys := []string{"at", "face", "shaft", "shift", "steel", "teeth", "tip_diameter"}
	for _, c := range []struct{ word, want string }{
		{"theeth", "teeth"}, // one more
		{"teth", "teeth"},   // one less
		{"tetehe", "teeth"}, // a swap and one more
		{"shfit", "shift"},  // a swap is one slip
		{"TEETH", "teeth"},  // case
		{"tip diameter", "tip_diameter"},
		{"tip-diametre", "tip_diameter"}, // two slips: a sign and a swap
		{"shaft", "shaft"},
		{"shxft", "shaft"}, // equally far from shift: the first wins
		{"fce", "face"},
		{"fc", ""}, // two slips in so short a word
		{"x", ""},  // would lose all its letters
		{"colour", ""},
		{"", ""},
	} {
		if got, ok := Nearest(c.word, keys); got != c.want || ok != (c.want != "") {
			t.Errorf("Nearest(%q) = %q, %v; want %q", c.word, got, ok, c.want)
		}
	}
	if _, ok := Nearest("teeth", nil); ok {
		t.Error("found a word among none")
	}
}

// One swap, one letter more, one less, one other: whatever of these is done to a long word, it is found again.
func TestNearestFindsAnySingleSlip(t *testing.T) {
	known := []string{"diametral", "efficiency", "separation", "clockwise"}
	rapid.Check(t, func(t *rapid.T) {
		word := []rune(rapid.SampledFrom(known).Draw(t, "word"))
		want := string(word)
		i := rapid.IntRange(0, len(word)-2).Draw(t, "place")
		letter := rapid.Rune().Draw(t, "letter")
		switch rapid.IntRange(0, 3).Draw(t, "slip") {
		case 0:
			word[i], word[i+1] = word[i+1], word[i]
		case 1:
			word = slices.Insert(word, i, letter)
		case 2:
			word = slices.Delete(word, i, i+1)
		default:
			word[i] = letter
		}
		if got, _ := Nearest(string(word), known); got != want {
			t.Fatalf("%q → %q, want %q", string(word), got, want)
		}
	})
}

func TestSlipsIsADistance(t *testing.T) {
	word := rapid.StringMatching(`[abc]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := []rune(word.Draw(t, "a")), []rune(word.Draw(t, "b"))
		d := slips(a, b)
		if d != slips(b, a) {
			t.Fatal("depends on the order")
		}
		if (d == 0) != slices.Equal(a, b) {
			t.Fatal("zero and equal must go together")
		}
		if d < max(len(a), len(b))-min(len(a), len(b)) || d > max(len(a), len(b)) {
			t.Fatalf("%d slips between %d and %d letters", d, len(a), len(b))
		}
	})
}

func TestLines(t *testing.T) {
	for _, c := range []struct {
		source string
		want   []string
	}{
		{"", []string{""}},
		{"a", []string{"a"}},
		{"a\n", []string{"a", ""}},
		{"a\r\nb\rc\n\nd", []string{"a", "b", "c", "", "d"}},
		{"\uFEFFa\u0085b\u2028c\u2029d", []string{"a", "b", "c", "d"}},
	} {
		if got := Lines([]byte(c.source)); !slices.Equal(got, c.want) {
			t.Errorf("%q: %q", c.source, got)
		}
	}
}

func BenchmarkNearest(b *testing.B) {
	keys := []string{"about", "centres", "gears", "input", "layshaft", "limits", "meshes", "name", "output", "shafts", "side", "speeds", "steel", "steels"}
	for b.Loop() {
		Nearest("shaftts", keys)
	}
}

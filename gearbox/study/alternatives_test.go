package study

import (
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/material"
)

const sideOfBirch = "side:\n  diff: positive         # clockwise from the line input → output, looking along the shafts from the left\n"

// Each side is narrowed by what the box survived if it lay there; the least of both, solved with their own steels, is reported.
func TestHistoryIsReadOncePerAlternative(t *testing.T) {
	past := []gearbox.Evidence{survived(330, 400)}
	open := changed(t, "birch", sideOfBirch, "")
	open.Evidence, open.Clutch, open.Car = past, nil, nil // with a clutch and tyres that slip, the history says nothing of the steel
	known, found, err := Known([]*gearbox.Box{open}, gearbox.Method{})
	if err != nil || found.HasErrors() {
		t.Fatal(err, found)
	}
	r, err := gearbox.Solve(known[0], gearbox.Load{})
	if err != nil {
		t.Fatal(err)
	}
	var least [material.High + 1]float64
	differ := map[float64]bool{}
	for k, side := range []string{"positive", "negative"} {
		b := changed(t, "birch", "diff: positive", "diff: "+side)
		b.Evidence, b.Clutch, b.Car = past, nil, nil
		b = narrow(t, b)[0]
		differ[b.Narrowed[0].Now.Low] = true
		one, err := gearbox.Solve(b, gearbox.Load{})
		if err != nil {
			t.Fatal(err)
		}
		for level := range least {
			if a := one.Allowable(material.Level(level)); k == 0 || a < least[level] {
				least[level] = a
			}
		}
	}
	if len(differ) < 2 {
		t.Error("both sides say the same of the steel: the test says nothing")
	}
	for level := range least {
		if got := r.Allowable(material.Level(level)); got != least[level] {
			t.Errorf("%s: %g N·mm, want %g", material.Level(level), got, least[level])
		}
	}
}

// A steel with which it couldn't have broken is left out, and the report says so.
func TestHistoryRulesAnAlternativeOut(t *testing.T) {
	open := changed(t, "birch", "steel: case-carburised", "steel: unknown")
	open.Evidence = []gearbox.Evidence{broke(170, "first pinion", gearbox.BrokenRoot)}
	known, found, err := Known([]*gearbox.Box{open}, gearbox.Method{})
	if err != nil {
		t.Fatal(err)
	}
	switch {
	case found.HasErrors():
		t.Fatal(found)
	case len(known[0].Alternatives) != 1 || known[0].Alternatives[0].Variant != "through-hardened":
		t.Fatalf("left: %d boxes, %q", len(known[0].Alternatives), known[0].Tried)
	}
	r, err := gearbox.Solve(known[0], gearbox.Load{})
	if err != nil {
		t.Fatal(err)
	}
	if said := strings.Join(r.Checks, "\n"); !strings.Contains(said, "rules out case-carburised") {
		t.Errorf("said %q", said)
	}
}

// What all is known of is narrowed as ever, and without evidence nothing is done.
func TestKnownIsNarrow(t *testing.T) {
	b := lived(t, "one", survived(330, 100))
	known, _, err := Known([]*gearbox.Box{b}, gearbox.Method{})
	if err != nil {
		t.Fatal(err)
	}
	if bands(t, known[0]) != bands(t, narrow(t, b)[0]) || known[0].Alternatives != nil {
		t.Error("another band than by Narrow")
	}
	open := changed(t, "birch", sideOfBirch, "")
	if known, _, _ = Known([]*gearbox.Box{open}, gearbox.Method{}); known[0] != open {
		t.Error("a box without evidence was changed")
	}
}

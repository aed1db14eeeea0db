package reports_test

import (
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/diag"
	"layshaft/reports/view"
)

// Whoever reads a page must be able to tell which file, which state of it, which steel and which work it is about.
func TestTold(t *testing.T) {
	got := map[string]string{}
	for _, fact := range view.Given(birch(), view.Options{}) {
		got[fact[0]] = strings.ReplaceAll(fact[1], "\u00a0", " ")
	}
	for head, want := range map[string]string{
		"File":                     "birch.yaml, written on 17 May 2020 at 09:30, SHA-256 begins 001122334455",
		"Steel":                    "case-carburised: first pinion, input shaft and output shaft; club steel (narrowed by its service history): first wheel",
		"Duty":                     "1200 passes, each of: 1st 400 turns at 90 %, 1st 35 turns of coast at 25 %, 2nd 12 s at 6000 rpm",
		"Speed of the input shaft": "9000 rpm",
		"Shock":                    "the peak is 1.50 times the torque",
		"Oil":                      "90.0 mm²/s at 40 °C",
		"Mesh first":               "13 and 40 teeth, module 2.5 mm, pressure angle 20°, helix 22°, distance 72.3 mm, face 20 mm",
	} {
		if got[head] != want {
			t.Errorf("%s:\n got %q\nwant %q", head, got[head], want)
		}
	}
}

// What was assumed stands apart, and never under what was given.
func TestWhatWasAssumedIsNotAmongWhatWasGiven(t *testing.T) {
	box := &gearbox.Box{Gears: []gearbox.Gear{{Name: "pinion"}, {Name: "wheel", Steel: "nitrided"}}, Shock: 1, Places: map[string]diag.Place{"": {Line: 1}, "gears.wheel.steel": {Line: 7}}}
	r := &gearbox.Result{Box: box}
	told := func() map[string]string {
		got := map[string]string{}
		for _, fact := range view.Given(r, view.Options{}) {
			got[fact[0]] = strings.ReplaceAll(fact[1], "\u00a0", " ")
		}
		return got
	}
	if got := told(); len(got) != 1 || got["Steel"] != "nitrided: wheel" {
		t.Errorf("given: %q", got)
	}
	box.Places["steel"] = diag.Place{Line: 2}
	if got := told(); got["Steel"] != "case-carburised: pinion; nitrided: wheel" {
		t.Errorf("with the steel of the box given: %q", got)
	}
	box.Unknown = map[string]bool{"steel": true}
	if got := told(); got["Steel"] != "nitrided: wheel" {
		t.Errorf("with it unknown: %q", got)
	}
}

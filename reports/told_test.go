package reports_test

import (
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/reports"
)

// Whoever reads a page must be able to tell which file, which state of it, which steel and which work it is about.
func TestTold(t *testing.T) {
	got := map[string]string{}
	for _, fact := range reports.Told(birch(), reports.Options{}) {
		got[fact[0]] = strings.ReplaceAll(fact[1], "\u00a0", " ")
	}
	for head, want := range map[string]string{
		"File":                     "birch.yaml, written on 17 May 2020 at 09:30, SHA-256 begins 001122334455",
		"Steel":                    "case-carburised: first pinion, input shaft and output shaft; club steel (narrowed by its service history): first wheel",
		"Duty":                     "1200 passes, each of: 1st 400 turns at 90 %, 1st 35 turns of coast at 25 %, 2nd 12 s at 6000 rpm",
		"Speed of the input shaft": "9000 rpm",
		"Shock":                    "the peak is 1.50 times the torque",
		"Oil":                      "90.0 mm²/s at 40 °C",
		"Case":                     "rigid, but for bearings that have their own",
		"Mesh first":               "13 and 40 teeth, module 2.5 mm, pressure angle 20°, helix 22°, distance 72.3 mm, face 20 mm",
	} {
		if got[head] != want {
			t.Errorf("%s:\n got %q\nwant %q", head, got[head], want)
		}
	}
}

func TestWhatIsNotToldIsSaid(t *testing.T) {
	r := &gearbox.Result{Box: &gearbox.Box{Gears: []gearbox.Gear{{Name: "pinion"}}}}
	got := map[string]string{}
	for _, fact := range reports.Told(r, reports.Options{}) {
		got[fact[0]] = strings.ReplaceAll(fact[1], "\u00a0", " ")
	}
	for head, want := range map[string]string{"Duty": "endless life", "Speed of the input shaft": "no dynamic load", "Shock": "not told", "Oil": "not told", "Steel": gearbox.DefaultSteel} {
		if !strings.Contains(got[head], want) {
			t.Errorf("%s: %q, want %q in it", head, got[head], want)
		}
	}
	if file, ok := got["File"]; ok {
		t.Errorf("a box that was read from no file has %q", file)
	}
}

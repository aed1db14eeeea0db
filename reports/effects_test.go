package reports_test

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

func TestEffectWords(t *testing.T) {
	plain := func(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }
	all := effects()
	for _, c := range []struct {
		name    string
		effects []study.Effect
		want    string
	}{
		{"left out", all, "What the answer hangs on most: case (3 parts), taken as rigid under the bearings. If it is 300 N/µm under each bearing, the allowable torque is 71.5 N·m instead of 156 N·m: measure this first."},
		{"unknown", all[1:], "What the answer hangs on most: sense of rotation, unknown: tried clockwise and anticlockwise, the least counts. If it is clockwise, the allowable torque is 190 N·m instead of 156 N·m: measure this first."},
		{"too little to measure", all[3:], ""},
		{"nothing assumed", nil, ""},
	} {
		if got := plain(view.EffectWords(c.effects, view.Options{})); got != c.want {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
	none := all[0]
	none.After.Torque = math.Inf(1)
	if got := view.EffectWords([]study.Effect{none}, view.Options{}); !strings.Contains(got, "no limit is reached instead of") {
		t.Errorf("without a limit: %q", got)
	}
}

// Every assumption is told once: in the table or below it.
func TestEffectRestLeavesNothingOut(t *testing.T) {
	rest := strings.Join(view.EffectTable(effects(), view.Options{}).Foot, "\n")
	for words, want := range map[string]int{"case (3 parts)": 0, "sense of rotation": 0, "(tried: 17.5°)": 1, "(14.5°) the box can't be worked out: these gears can't run together": 1, "thrust faces, none": 1} {
		if n := strings.Count(rest, words); n != want {
			t.Errorf("%q stands there %d times, want %d:\n%s", words, n, want, rest)
		}
	}
	idle := effects()[1:3]
	idle[0].After = idle[0].Before
	if rest := strings.Join(view.EffectTable(idle, view.Options{}).Foot, "\n"); strings.Count(rest, "sense of rotation") != 1 || strings.Contains(rest, "(tried") {
		t.Errorf("what was tried and moves nothing: %q", rest)
	}
}

func TestSenseWords(t *testing.T) {
	r := birch()
	const want = "Seen from the left end, the input shaft turns clockwise; in 1st the first pinion pushes its shaft to the left, and the right flanks of its teeth carry."
	if got := view.SenseWords(r); got != want {
		t.Errorf("got %q", got)
	}
	r.Box.Unknown = map[string]bool{"input.turns": true}
	if got := view.SenseWords(r); !strings.Contains(got, "clockwise (assumed)") {
		t.Errorf("assumed: %q", got)
	}
	r.Speeds[0].Meshes[0].Axial = 0
	if got := view.SenseWords(r); strings.Contains(got, "pushes") {
		t.Errorf("spur: %q", got)
	}
	if got := view.SenseWords(&gearbox.Result{Box: &gearbox.Box{}, Speeds: []gearbox.SpeedResult{{Name: "top"}}}); got != "" {
		t.Errorf("without a pair: %q", got)
	}
}

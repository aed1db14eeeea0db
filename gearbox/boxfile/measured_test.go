package boxfile

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
)

// A pair of 17 and 44 teeth, 77.5 mm apart, was made with module 2.25 mm at 17.5° and 27° (own computation, see the
// test of the same pair in gearstress/gauge). A file made by tip ÷ (teeth + 2), and the helix
// that the distance then asks for, can be worked out, but both tips miss: it is asked about, with the sets that fit.
func TestMeasuredTipsTellAWrongModule(t *testing.T) {
	replaced := func(pairs ...string) string {
		text := string(Starter())
		for i := 0; i < len(pairs); i += 2 {
			if !strings.Contains(text, pairs[i]) {
				t.Fatalf("the starter has no %q", pairs[i])
			}
			text = strings.Replace(text, pairs[i], pairs[i+1], 1)
		}
		return text
	}
	gears := []string{"torque: 60 N·m", "torque: 120 N·m",
		"teeth: 18, face: 22 ± 0.1 mm",
		"teeth: 17, face: 22 mm, tip_diameter: 48.30 mm, root_diameter: 38.2 mm, spans: {3: 17.6 mm, 4: 24.34 mm}",
		"teeth: 36, face: 20 mm", "teeth: 44, face: 20 mm, tip_diameter: 115.66 mm", "distance: 67.5 mm", "distance: 77.5 mm",
	}
	wrong, list := Read("x.yaml", []byte(replaced(append(gears, "    pressure_angle: 20°\n",
		"    pressure_angle: 20°\n    helix: 10.3°\n    hand: right\n")...)))
	if list.HasErrors() {
		t.Fatal(list)
	}
	r, err := gearbox.Solve(wrong, gearbox.Load{})
	if err != nil {
		t.Fatal(err)
	}
	said := r.Warnings.Error()
	for _, want := range []string{"measured sizes that these data don't make", `tip diameter of "wheel" is 115.66 mm`,
		"base pitch by spans over 3 and 4", "likeliest first: module 2.25 mm at 17.5° and helix 27°"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is not said: %s", want, said)
		}
	}
	right, list := Read("x.yaml", []byte(replaced(append(gears, "module: 2.5 mm ", "module: 2.25 mm",
		"    pressure_angle: 20°\n", "    pressure_angle: 17.5°\n    helix: 27°\n    hand: right\n")...)))
	if list.HasErrors() {
		t.Fatal(list)
	}
	if r, err = gearbox.Solve(right, gearbox.Load{}); err != nil {
		t.Fatal(err)
	}
	if len(r.Warnings) > 0 {
		t.Errorf("asked about what fits: %v", r.Warnings)
	}
	for _, m := range r.Measured {
		t.Logf("%s, %s: read %.3f, made %.3f", m.Gear, m.What, m.Read, m.Made)
	}
	if len(r.Measured) != 6 || r.Measured[0].What != "tip diameter" || math.Abs(r.Measured[0].Read-r.Measured[0].Made) > 0.4 {
		t.Errorf("measured: %+v", r.Measured)
	}
}

func TestSpansOfABoxFile(t *testing.T) {
	for old, says := range map[string]string{"spans: {3: 19 mm, 10: 60 mm}": "a span over too many teeth",
		"spans: {3: 19}": "missing unit", "spans: {three: 19 mm}": "not a key here", "spans: {}": "missing value",
		"spans: 19 mm": "wrong kind of value"} {
		_, list := Read("x.yaml", []byte(strings.Replace(string(Starter()), "teeth: 18", "teeth: 18, "+old, 1)))
		if len(list) != 1 || list[0].Summary != says || list[0].Place.Line == 0 {
			t.Errorf("%s: %v, want %s", old, list, says)
		}
	}
}

package material

import (
	"math"
	"strings"
	"testing"
)

func TestFileTest(t *testing.T) {
	for _, c := range []struct {
		skates, bites float64
		want          HardnessBracket
	}{
		{55, 58, HardnessBracket{53, 60}},
		{0, 50, HardnessBracket{0, 52}},
		{65, 0, HardnessBracket{63, 0}},
	} {
		if got, err := FileTest(c.skates, c.bites); err != nil || got != c.want {
			t.Errorf("skates %v, bites %v: %v, %v; want %v", c.skates, c.bites, got, err, c.want)
		}
	}
	for _, c := range []struct {
		skates, bites float64
		want          string
	}{
		{58, 55, "softer file can't cut"}, {55, 55, "softer file can't cut"}, {0, 0, "no file was tried"}, {580, 0, "no test file of 580"}, {math.NaN(), 60, "no test file"},
	} {
		if got, err := FileTest(c.skates, c.bites); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("skates %v, bites %v: %v, %v; want an error with %q", c.skates, c.bites, got, err, c.want)
		}
	}
	for _, f := range UsualFiles() {
		if _, err := FileTest(f, 0); err != nil {
			t.Errorf("a file of the usual set is refused: %v", err)
		}
	}
}

func TestCaseDepth(t *testing.T) {
	for _, c := range []struct {
		depth, module float64
		want          CaseVerdict
		warns         string
	}{
		{0.30, 2, CaseUsual, ""}, {0.40, 2, CaseUsual, ""}, {0.45, 2, CaseDeep, ""}, {0.50, 2, CaseDeep, ""},
		{0.25, 2, CaseThin, "crushed"}, {0.6, 2, CaseExcessive, "chip"}, {0.15, 1, CaseUsual, "0.2 to 1.5 mm"}, {1.8, 10, CaseUsual, "0.2 to 1.5 mm"},
	} {
		verdict, warning, err := CaseDepth(c.depth, c.module)
		if err != nil || verdict != c.want || (c.warns == "") != (warning == "") || !strings.Contains(warning, c.warns) {
			t.Errorf("%v mm on module %v: %v, %q, %v; want %v, %q", c.depth, c.module, verdict, warning, err, c.want, c.warns)
		}
	}
	for _, bad := range [][2]float64{{0, 2}, {0.3, 0}, {-1, 2}, {math.NaN(), 2}, {0.3, math.Inf(1)}} {
		if _, _, err := CaseDepth(bad[0], bad[1]); err == nil {
			t.Errorf("%v mm on module %v: no error", bad[0], bad[1])
		}
	}
	if least, most := UsualCaseDepth(2); math.Abs(least-0.3) > 1e-12 || math.Abs(most-0.4) > 1e-12 {
		t.Errorf("usual case on module 2: %v to %v mm", least, most)
	}
}

func TestFactorsHaveSources(t *testing.T) {
	r := ReversedBending()
	if r.Value != 0.7 || r.Source == "" {
		t.Errorf("reversed bending: %+v", r)
	}
	for l, want := range map[Level]float64{Low: 1, Typical: 1.1, High: 1.05} {
		if f, err := Peening(l); err != nil || f.Value != want || !strings.Contains(f.Source, "fatigue only") {
			t.Errorf("peening, %v: %+v, %v", l, f, err)
		}
	}
	if f, err := Peening(Level(7)); err == nil {
		t.Errorf("peening of no quality: %+v", f)
	}
}

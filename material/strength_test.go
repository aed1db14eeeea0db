package material

import (
	"math"
	"strings"
	"testing"
)

func TestQualitiesRise(t *testing.T) {
	for g := GroupNormalised; g.Known(); g++ {
		for _, of := range []func(Group, Level) (Line, error){FlankLine, RootLine} {
			last := 0.0
			for l := Low; l <= High; l++ {
				line, err := of(g, l)
				if err != nil {
					t.Fatal(err)
				}
				if v := line.at((line.Least + line.Most) / 2); v < last {
					t.Errorf("%s: %v is below the quality before, %v", line.Source, v, last)
				} else {
					last = v
				}
				if line.Source == "" || (line.Scale == "HBW") != (g == GroupNormalised) {
					t.Errorf("%v %v: source %q, scale %q", g, l, line.Source, line.Scale)
				}
			}
		}
	}
}

func TestLinesRefuseWhatTheyDoNotCover(t *testing.T) {
	line, _ := RootLine(GroupCaseHardened, Typical)
	for _, bad := range []float64{60, 900, math.NaN()} {
		if v, err := line.At(bad); err == nil || !strings.Contains(err.Error(), "660 to 800 HV") {
			t.Errorf("%v HV: %v, %v", bad, v, err)
		}
	}
	for what, err := range map[string]error{
		"unknown group": errorOf(FlankLine(GroupUnknown, Low)),
		"no quality":    errorOf(RootLine(GroupCaseHardened, Level(3))),
		"no grade":      errorOf(AGMARootLine(3)),
	} {
		if err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}

func errorOf(_ Line, err error) error { return err }

// The treatments behind the symbols of ISO 6336-5: St and V have one hardness throughout, NT and NV are nitrided.
func TestGroupsByTreatment(t *testing.T) {
	for g, want := range map[Group][3]bool{ // through-hardened, hard surface, nitrided
		GroupUnknown: {}, Group(99): {}, GroupNormalised: {true, false, false}, GroupCarbonHardened: {true, false, false}, GroupAlloyHardened: {true, false, false},
		GroupCaseHardened: {false, true, false}, GroupSurfaceHardened: {false, true, false}, GroupNitridingSteel: {false, true, true},
		GroupNitridedAlloy: {false, true, true}, GroupNitrocarburised: {false, true, true},
	} {
		if got := [3]bool{g.ThroughHardened(), g.SurfaceHardened(), g.Nitrided()}; got != want {
			t.Errorf("%v: through-hardened, hard surface, nitrided: %v, want %v", g, got, want)
		}
	}
}

func TestGroupWords(t *testing.T) {
	seen := map[string]bool{}
	for g := GroupUnknown; int(g) < len(groups); g++ {
		if seen[g.String()] || seen[g.Symbol()] || g.String() == "" || g.Symbol() == "" {
			t.Errorf("group %d: %q, %q", int(g), g.String(), g.Symbol())
		}
		seen[g.String()], seen[g.Symbol()] = true, true
	}
	if Group(99).Symbol() != "?" || Group(99).String() == GroupUnknown.String() {
		t.Errorf("group 99 is %q, %v", Group(99).Symbol(), Group(99))
	}
}

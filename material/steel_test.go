package material

import (
	"slices"
	"strings"
	"testing"
)

func TestEverySteelIsCompleteAndSourced(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range Steels() {
		if s.Name == "" || s.Title == "" || s.About == "" || s.ElasticSource == "" {
			t.Errorf("%+v: name, title, description or source of the elastic values is missing", s)
		}
		if seen[s.Name] || strings.ToLower(s.Name) != s.Name || strings.ContainsAny(s.Name, " _") {
			t.Errorf("name %q is double, or not in lower case with hyphens", s.Name)
		}
		seen[s.Name] = true
		if s.Young < 190e3 || s.Young > 220e3 || s.Poisson < 0.27 || s.Poisson > 0.31 || s.Density < 7.7e-6 || s.Density > 7.9e-6 {
			t.Errorf("%s: E %v MPa, ν %v, density %v kg/mm³ are not those of a steel", s.Name, s.Young, s.Poisson, s.Density)
		}
		for what, b := range map[string]Band{"yield": s.Yield, "tensile": s.Tensile, "contact": s.Contact,
			"core hardness": s.CoreHardness, "surface hardness": s.SurfaceHardness, "flank limit": s.FlankLimit, "root limit": s.RootLimit,
			"AGMA flank": s.AGMAFlank, "AGMA root": s.AGMARoot} {
			if !(0 < b.Low && b.Low <= b.Typical && b.Typical <= b.High) {
				t.Errorf("%s, %s: %v, %v, %v do not rise", s.Name, what, b.Low, b.Typical, b.High)
			}
			if b.Low < 100 || b.High > 2500 {
				t.Errorf("%s, %s: %v to %v MPa is not in MPa (or HV)", s.Name, what, b.Low, b.High)
			}
			if b.Source == "" || !b.Known() {
				t.Errorf("%s, %s: no source", s.Name, what)
			}
		}
		if !s.Group.Known() {
			t.Errorf("%s: no group", s.Name)
		}
		for l := Low; l <= High; l++ {
			// A skin is not softer than its core, give or take the conversion.
			if s.SurfaceHardness.At(l) < s.CoreHardness.At(l)*(1-HardnessDoubt) {
				t.Errorf("%s, %v: surface of %v HV is softer than its core of %v HV", s.Name, l, s.SurfaceHardness.At(l), s.CoreHardness.At(l))
			}
			if s.Yield.At(l) >= s.Tensile.At(l) {
				t.Errorf("%s: %v yield %v is not below tensile %v", s.Name, l, s.Yield.At(l), s.Tensile.At(l))
			}
		}
	}
}

func TestFindAndNames(t *testing.T) {
	names := Names()
	if names[0] != "case-carburised" {
		t.Errorf("first steel is %q: the one to take when nothing is known comes first", names[0])
	}
	for _, n := range names {
		if s, ok := Find(n); !ok || s.Name != n {
			t.Errorf("Find(%q) = %q, %v", n, s.Name, ok)
		}
	}
	if s, ok := Find("cheese"); ok {
		t.Errorf("Find found %q", s.Name)
	}
	// A caller that changes its copy changes nobody else's.
	Steels()[0].Name = "changed"
	if !slices.Equal(Names(), names) {
		t.Error("Steels hands out the list itself")
	}
}

// The unknown carburised steel must cover the known ones.
func TestUnknownCarburisedSteelCoversTheKnownOnes(t *testing.T) {
	unknown, _ := Find("case-carburised")
	for _, n := range []string{"carburised-cr-mn", "carburised-ni-cr-mo"} {
		s, ok := Find(n)
		if !ok {
			t.Fatalf("no steel %q", n)
		}
		for what, b := range map[string][2]Band{"yield": {unknown.Yield, s.Yield}, "tensile": {unknown.Tensile, s.Tensile}, "contact": {unknown.Contact, s.Contact},
			"flank limit": {unknown.FlankLimit, s.FlankLimit}, "root limit": {unknown.RootLimit, s.RootLimit}, "AGMA root": {unknown.AGMARoot, s.AGMARoot},
			"surface hardness": {unknown.SurfaceHardness, s.SurfaceHardness}, "core hardness": {unknown.CoreHardness, s.CoreHardness}} {
			if b[1].Low < b[0].Low || b[1].High > b[0].High {
				t.Errorf("%s of %s, %v to %v, lies outside %v to %v", what, n, b[1].Low, b[1].High, b[0].Low, b[0].High)
			}
		}
	}
}

func TestLevelsAndWords(t *testing.T) {
	b := Band{1, 2, 3, "test"}
	for l := Low; l <= High; l++ {
		if b.At(l) != float64(l)+1 {
			t.Errorf("%v of the band is %v", l, b.At(l))
		}
		if got, err := ParseLevel(l.String()); err != nil || got != l {
			t.Errorf("ParseLevel(%q) = %v, %v", l.String(), got, err)
		}
	}
	if _, err := ParseLevel("middling"); err == nil || !strings.Contains(err.Error(), "low, typical or high") {
		t.Errorf("error %v does not say what to write", err)
	}
}

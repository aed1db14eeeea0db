package agma2001

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"

	"layshaft/gearstress/involute"
)

// The parabola by brute force on the outline that package involute draws, which is made
// by other code: of all parabolas with their top at the apex that pass through a point of
// the outline, the narrowest touches. Spur teeth, not thinned: there the equivalent gears
// are the same.
func TestCriticalSectionOnTheDrawnTooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := involute.Spec{
			Module: rapid.Float64Range(1, 5).Draw(t, "module"), Rack: involute.StandardRack,
			Teeth: [2]int{rapid.IntRange(15, 90).Draw(t, "z1"), rapid.IntRange(20, 90).Draw(t, "z2")},
			Shift: [2]float64{rapid.Float64Range(0.1, 0.5).Draw(t, "x1"), 0}, ShiftKnown: [2]bool{true, true}, Face: 20,
		}
		p, err := involute.New(s)
		if err != nil {
			t.Skip(err.Error())
		}
		f, err := NewForm(p, ToolOf(s.Rack))
		if err != nil {
			t.Fatal(err)
		}
		outline, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		got := f.Tooth[0]
		apex := outline.Base / 2 / math.Cos(got.LoadAngle)
		least, at := math.Inf(1), involute.Point{}
		for k := range 4001 {
			q := outline.Fillet(float64(k) / 4000)
			if w := q.X * q.X / (apex - q.Y); w < least {
				least, at = w, q
			}
		}
		if math.Abs(2*at.X-got.Thickness) > 2e-3*s.Module || math.Abs(apex-at.Y-got.Height) > 2e-3*s.Module {
			t.Fatalf("s_F %.5f, h_F %.5f mm; on the drawn tooth %.5f and %.5f", got.Thickness, got.Height, 2*at.X, apex-at.Y)
		}
		if w := got.Thickness * got.Thickness / (4 * got.Height); math.Abs(w-least) > 1e-6*s.Module {
			t.Fatalf("parabola %.8f, on the drawn tooth %.8f", w, least)
		}
	})
}

// The load angle by construction: pressure angle at the point of load, less the angle
// that half the tooth fills there. The point is the highest of single contact: one base
// pitch above the start of contact.
func TestLoadAngleOnTheDrawnTooth(t *testing.T) {
	p := pair(t, involute.Spec{Module: 3, Rack: involute.StandardRack, Teeth: [2]int{23, 41}, Shift: [2]float64{0.2, -0.1}})
	f := form(t, p, ToolOf(p.Rack))
	for i := range p.Teeth {
		outline, err := p.Tooth(i)
		if err != nil {
			t.Fatal(err)
		}
		start := math.Sqrt(p.Start[i]*p.Start[i]-p.Base[i]*p.Base[i]) / 2
		d := 2 * math.Hypot(p.Base[i]/2, start+math.Pi*p.Module*math.Cos(p.Rack.PressureAngle))
		near(t, "φ_nL", f.Tooth[i].LoadAngle, math.Acos(outline.Base/d)-outline.HalfAngle(d), 1e-12)
	}
}

func TestGeometryFactorsDoNotDependOnSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := drawSpec(t), error(nil)
		k := rapid.Float64Range(0.2, 5).Draw(t, "scale")
		big := s
		big.Module, big.Face, big.CentreDistance = s.Module*k, s.Face*k, 0
		var p, q *involute.Pair
		if p, err = involute.New(s); err != nil {
			t.Skip(err.Error())
		}
		if q, err = involute.New(big); err != nil {
			t.Skip(err.Error())
		}
		f, err1 := NewForm(p, ToolOf(s.Rack))
		g, err2 := NewForm(q, ToolOf(s.Rack))
		if (err1 == nil) != (err2 == nil) {
			t.Fatalf("one size is refused: %v, %v", err1, err2)
		}
		if err1 != nil {
			t.Skip(err1.Error())
		}
		// Rounding may bring an overlap at a whole number, or at 1, to its other side.
		if math.Abs(p.OverlapRatio-math.Round(p.OverlapRatio)) < 1e-9 {
			t.Skip("overlap at a whole number")
		}
		for _, v := range [][2]float64{{f.I, g.I}, {f.J[0], g.J[0]}, {f.J[1], g.J[1]}} {
			if math.Abs(v[0]-v[1]) > 1e-8*v[0] {
				t.Fatalf("%v at module %v, %v at %v", v[0], s.Module, v[1], big.Module)
			}
		}
	})
}

func TestGeometryFactorsOfAPairTurnedRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t)
		back := s
		back.Teeth = [2]int{s.Teeth[1], s.Teeth[0]}
		back.Shift = [2]float64{s.Shift[1], s.Shift[0]}
		if s.Teeth[0] == s.Teeth[1] {
			t.Skip("the pinion is then the driver by convention")
		}
		p, err := involute.New(s)
		if err != nil {
			t.Skip(err.Error())
		}
		q, err := involute.New(back)
		if err != nil {
			t.Fatal(err)
		}
		tool := ToolOf(s.Rack)
		tool.Thinning = [2]float64{0.02, 0.03}
		turned := tool
		turned.Thinning = [2]float64{0.03, 0.02}
		f, err := NewForm(p, tool)
		if err != nil {
			t.Skip(err.Error())
		}
		g, err := NewForm(q, turned)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(f.I-g.I) > 1e-12 || math.Abs(f.J[0]-g.J[1]) > 1e-12 || math.Abs(f.J[1]-g.J[0]) > 1e-12 {
			t.Fatalf("I %v, J %v; turned round I %v, J %v", f.I, f.J, g.I, g.J)
		}
	})
}

// drawSpec is any pair that may be given.
func drawSpec(t *rapid.T) involute.Spec {
	s := involute.Spec{
		Module: rapid.Float64Range(0.5, 8).Draw(t, "module"),
		Helix:  rapid.SampledFrom([]float64{0, 1, 8, 20, 33, 45}).Draw(t, "helix") * deg,
		Rack:   involute.Rack{PressureAngle: rapid.Float64Range(14.5, 25).Draw(t, "angle") * deg, Addendum: 1, Dedendum: 1.25, TipRadius: 0.25},
		Teeth:  [2]int{rapid.IntRange(10, 120).Draw(t, "z1"), rapid.IntRange(10, 120).Draw(t, "z2")},
		Shift:  [2]float64{rapid.Float64Range(-0.3, 0.8).Draw(t, "x1"), rapid.Float64Range(-0.3, 0.8).Draw(t, "x2")}, ShiftKnown: [2]bool{true, true},
		Face: rapid.Float64Range(2, 60).Draw(t, "face"),
	}
	return s
}

// As the helix goes to nothing, I and J become those of the spur pair.
func TestSpurIsTheLimitOfHelical(t *testing.T) {
	s := involute.Spec{Module: 2.5, Rack: involute.StandardRack, Teeth: [2]int{19, 37}, Shift: [2]float64{0.3, 0.1}}
	spur := form(t, pair(t, s), ToolOf(s.Rack))
	last := math.Inf(1)
	for _, helix := range []float64{1e-2, 1e-4, 1e-6} {
		s.Helix = helix
		f := form(t, pair(t, s), ToolOf(s.Rack))
		off := max(math.Abs(f.I/spur.I-1), math.Abs(f.J[0]/spur.J[0]-1), math.Abs(f.J[1]/spur.J[1]-1))
		if off > 3*helix || off >= last {
			t.Errorf("helix %v rad: I or J is off by %v of the spur value", helix, off)
		}
		last = off
	}
}

// C_ψ is made so that I does not jump where the overlap passes 1. J does.
func TestIIsContinuousAtFullOverlap(t *testing.T) {
	at := func(overlap float64) *Form {
		helix := 20 * deg
		s := involute.Spec{Module: 2, Rack: involute.StandardRack, Helix: helix, Teeth: [2]int{21, 34}, Shift: [2]float64{0.2, 0}}
		s.Face = overlap * math.Pi * s.Module / math.Sin(helix)
		return form(t, pair(t, s), ToolOf(s.Rack))
	}
	below, above := at(1-1e-9), at(1+1e-9)
	near(t, "I below and above an overlap of 1", below.I, above.I, 1e-7)
	if below.Contact.MeanUsed || !above.Contact.MeanUsed || below.Tooth[0].AtTip || !above.Tooth[0].AtTip {
		t.Error("the point of contact does not change at an overlap of 1")
	}
}

// Without profile shift the middle of the tooth height is the pitch point: there the two
// definitions of I meet.
func TestHelicalIWithoutShiftIsThatOfThePitchPoint(t *testing.T) {
	p := pair(t, involute.Spec{Module: 2, Rack: involute.StandardRack, Helix: 25 * deg, Teeth: [2]int{22, 51}, Face: 40})
	f := form(t, p, ToolOf(p.Rack))
	near(t, "I", f.I, pitchPointI(p, f.Contact.Sharing), 1e-12)
}

func TestTipLoadLowersJ(t *testing.T) {
	p := pair(t, involute.Spec{Module: 2, Rack: involute.StandardRack, Teeth: [2]int{22, 51}})
	shared := form(t, p, ToolOf(p.Rack))
	tip, err := newForm(p, ToolOf(p.Rack), true)
	if err != nil {
		t.Fatal(err)
	}
	for i := range tip.J {
		if !(tip.J[i] < 0.85*shared.J[i]) || tip.I != shared.I {
			t.Errorf("gear %d: J %v at the tip, %v shared; I %v and %v", i, tip.J[i], shared.J[i], tip.I, shared.I)
		}
	}
}

func TestProtuberanceAndThinningWeakenTheTooth(t *testing.T) {
	p := pair(t, involute.Spec{Module: 2, Rack: involute.StandardRack, Teeth: [2]int{22, 51}})
	tool := ToolOf(p.Rack)
	plain := form(t, p, tool).J
	for what, change := range map[string]func(*Tool){
		"thinning":     func(o *Tool) { o.Thinning = [2]float64{0.05, 0.05} },
		"protuberance": func(o *Tool) { o.Protuberance = 0.03 },
		"sharp corner": func(o *Tool) { o.TipRadius = 0.2 },
	} {
		o := tool
		change(&o)
		if j := form(t, p, o).J; !(j[0] < plain[0] && j[1] < plain[1]) {
			t.Errorf("%s: J %v is not below %v", what, j, plain)
		}
	}
}

func TestFormRefusals(t *testing.T) {
	p := pair(t, involute.Spec{Module: 2, Rack: involute.StandardRack, Teeth: [2]int{22, 51}})
	for what, c := range map[string]struct {
		tool Tool
		want []string
	}{
		"empty tool":       {Tool{}, []string{"tool addendum is 0"}},
		"all wrong":        {Tool{Addendum: 12.5, TipRadius: -1, Protuberance: 3, Thinning: [2]float64{-1, math.NaN()}}, []string{"tool addendum is 12.5", "tip radius of the tool is -1", "protuberance of the tool is 3", "driver: tooth thinning is -1", "driven gear: tooth thinning is NaN"}},
		"corners overlap":  {Tool{Addendum: 1.5, TipRadius: 0.4}, []string{"overlap"}},
		"no straight part": {Tool{Addendum: 0.3, TipRadius: 0.6}, []string{"no straight flank"}},
	} {
		_, err := NewForm(p, c.tool)
		for _, want := range c.want {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: error lacks %q: %v", what, want, err)
			}
		}
	}
	if _, err := NewForm(nil, Tool{}); err == nil {
		t.Error("no pair was accepted")
	}
	// Deep teeth with a contact ratio of 2 or more and no overlap.
	deep := involute.Rack{PressureAngle: 17 * deg, Addendum: 1.3, Dedendum: 1.5, TipRadius: 0.2}
	if _, err := NewForm(pair(t, involute.Spec{Rack: deep, Teeth: [2]int{45, 60}}), ToolOf(deep)); err == nil || !strings.Contains(err.Error(), "only below 2") {
		t.Errorf("deep spur teeth: %v", err)
	}
	f := form(t, pair(t, involute.Spec{Rack: deep, Teeth: [2]int{45, 60}, Helix: 20 * deg, Face: 30}), ToolOf(deep))
	if len(f.Notes) == 0 || !strings.Contains(f.Notes[0], "covers less than 2") {
		t.Errorf("deep helical teeth: notes %q", f.Notes)
	}
}

func TestUndercutIsNoted(t *testing.T) {
	f := form(t, pair(t, involute.Spec{Rack: involute.StandardRack, Teeth: [2]int{12, 40}}), ToolOf(involute.StandardRack))
	if len(f.Notes) == 0 || !strings.Contains(f.Notes[0], "undercut") {
		t.Errorf("notes %q", f.Notes)
	}
}

func BenchmarkNewForm(b *testing.B) {
	p := pair(b, involute.Spec{Module: 2.5, Rack: involute.StandardRack, Helix: 25 * deg, Teeth: [2]int{23, 35}, Shift: [2]float64{0.2, 0.2}, Face: 20})
	for b.Loop() {
		if _, err := NewForm(p, ToolOf(p.Rack)); err != nil {
			b.Fatal(err)
		}
	}
}

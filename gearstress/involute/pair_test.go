package involute

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// numbers lists every number of a pair with its name, in an order that does not
// depend on which gear drives.
func numbers(p *Pair) map[string]float64 {
	m := map[string]float64{
		"α_t": p.TransversePressureAngle, "α_wt": p.WorkingPressureAngle, "β_b": p.BaseHelix, "β_w": p.WorkingHelix,
		"a": p.Centre, "a_0": p.ReferenceCentre, "ε_α": p.TransverseContactRatio, "ε_β": p.OverlapRatio, "j_bn": p.Backlash,
	}
	for i := range 2 {
		for name, v := range map[string]float64{
			"d": p.Reference[i], "d_b": p.Base[i], "d_w": p.Working[i], "d_a": p.Tip[i], "d_f": p.Root[i], "d_Ff": p.Form[i],
			"d_Nf": p.Start[i], "c": p.Clearance[i], "s_an": p.TipThickness[i], "z_v": p.VirtualTeeth[i], "x": p.X[i],
		} {
			m[fmt.Sprintf("%s%d", name, i+1)] = v
		}
	}
	return m
}

// anySpec draws gears that look like gears, most of which can run.
func anySpec(t *rapid.T) Spec {
	s := Spec{
		Module: rapid.Float64Range(0.8, 6).Draw(t, "module"),
		Helix:  rad(rapid.Float64Range(0, 40).Draw(t, "helix")),
		Rack: Rack{
			PressureAngle: rad(rapid.SampledFrom([]float64{14.5, 17.5, 20, 22.5, 25}).Draw(t, "angle")),
			Addendum:      rapid.Float64Range(0.8, 1.2).Draw(t, "addendum"),
			Dedendum:      rapid.Float64Range(1.157, 1.5).Draw(t, "dedendum"),
			TipRadius:     rapid.Float64Range(0, 0.3).Draw(t, "tip radius"),
		},
		Face: rapid.Float64Range(5, 40).Draw(t, "face"),
	}
	s.Rack.Protuberance = rapid.SampledFrom([]float64{0, 0, 0, 0.1, 0.25}).Draw(t, "residual undercut") * s.Rack.TipRadius
	for i := range 2 {
		s.Teeth[i] = rapid.IntRange(8, 90).Draw(t, "teeth")
		s.Shift[i] = rapid.Float64Range(-0.5, 0.9).Draw(t, "shift")
		s.ShiftKnown[i] = rapid.Bool().Draw(t, "known")
	}
	a0 := float64(s.Teeth[0]+s.Teeth[1]) * s.Module / (2 * math.Cos(s.Helix))
	if rapid.Bool().Draw(t, "centre known") {
		s.CentreDistance = a0 + s.Module*rapid.Float64Range(-0.5, 1.5).Draw(t, "y")
	}
	for i := range 2 {
		if rapid.Bool().Draw(t, "tip known") {
			s.TipDiameter[i] = float64(s.Teeth[i])*s.Module/math.Cos(s.Helix) + 2*s.Module*rapid.Float64Range(0.7, 1.7).Draw(t, "tip")
		}
	}
	return s
}

func runnable(t *rapid.T) *Pair {
	p, err := New(anySpec(t))
	if err != nil {
		t.Skip(err.Error())
	}
	return p
}

// wild draws numbers that no gear has as well.
func wild(t *rapid.T, name string, usual float64) float64 {
	return rapid.OneOf(
		rapid.Float64Range(0.2*usual, 3*usual),
		rapid.Float64(),
		rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 5e-324, math.MaxFloat64, usual}),
	).Draw(t, name)
}

func TestAnySpecGivesNumbersOrAnError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Spec{
			Module: wild(t, "module", 2), Helix: wild(t, "helix", 0.3),
			Rack: Rack{PressureAngle: wild(t, "angle", 0.35), Addendum: wild(t, "addendum", 1), Dedendum: wild(t, "dedendum", 1.25), TipRadius: wild(t, "radius", 0.3)},
			Face: wild(t, "face", 15), CentreDistance: wild(t, "centre", 60),
		}
		for i := range 2 {
			s.Teeth[i] = rapid.OneOf(rapid.IntRange(5, 100), rapid.Int()).Draw(t, "teeth")
			s.Shift[i] = wild(t, "shift", 0.4)
			s.ShiftKnown[i] = rapid.Bool().Draw(t, "known")
			s.TipDiameter[i] = wild(t, "tip", 50)
			s.Thinning[i] = wild(t, "thinning", 0.05)
		}
		checkNumbersOrError(t, s)
	})
	rapid.Check(t, func(t *rapid.T) { checkNumbersOrError(t, anySpec(t)) })
}

func checkNumbersOrError(t *rapid.T, s Spec) {
	p, err := New(s)
	if err != nil {
		if p != nil || err.Error() == "" {
			t.Fatalf("error %q together with pair %v", err, p)
		}
		return
	}
	signed := map[string]bool{"x1": true, "x2": true}
	zeroable := map[string]bool{"β_b": true, "β_w": true, "ε_β": true, "j_bn": true}
	for name, v := range numbers(p) {
		switch {
		case math.IsNaN(v) || math.IsInf(v, 0):
			t.Fatalf("%s = %v", name, v)
		case signed[name], zeroable[name] && v == 0:
		case v <= 0:
			t.Fatalf("%s = %v is not positive", name, v)
		}
	}
	for i := range 2 {
		if !(p.Root[i] < p.Form[i] && p.Base[i] <= p.Form[i] && p.Form[i] <= p.Start[i]+1e-9*p.Tip[i] && p.Start[i] < p.Tip[i]) {
			t.Fatalf("gear %d: root %v, base %v, form %v, start %v and tip %v do not follow each other", i, p.Root[i], p.Base[i], p.Form[i], p.Start[i], p.Tip[i])
		}
		tooth, err := p.Tooth(i)
		if err != nil {
			t.Fatalf("New is content, but the tooth: %v", err)
		}
		if end, start := tooth.Fillet(1), tooth.Flank(0); math.Hypot(end.X-start.X, end.Y-start.Y) > 1e-7*p.Tip[i] {
			t.Fatalf("gear %d: the fillet ends at %v, the flank begins at %v", i, end, start)
		}
		for _, q := range tooth.Outline(8) {
			if math.IsNaN(q.X) || math.IsNaN(q.Y) || math.Hypot(q.X, q.Y) > tooth.Tip/2*(1+1e-12) || math.Hypot(q.X, q.Y) < tooth.Root/2*(1-1e-12) {
				t.Fatalf("outline point %v outside root %v to tip %v", q, tooth.Root/2, tooth.Tip/2)
			}
		}
	}
}

func TestSwappedGearsGiveTheMirroredPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := runnable(t)
		s := p.Spec
		s.Teeth = [2]int{s.Teeth[1], s.Teeth[0]}
		s.Shift = [2]float64{s.Shift[1], s.Shift[0]}
		s.ShiftKnown = [2]bool{s.ShiftKnown[1], s.ShiftKnown[0]}
		s.TipDiameter = [2]float64{s.TipDiameter[1], s.TipDiameter[0]}
		q, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		if len(said(p)) != len(said(q)) {
			t.Fatalf("%d notes one way, %d the other:\n%q\n%q", len(said(p)), len(said(q)), said(p), said(q))
		}
		other := numbers(q)
		for name, v := range numbers(p) {
			mirrored := strings.NewReplacer("1", "2", "2", "1").Replace(name)
			if w := other[mirrored]; math.Abs(v-w) > 1e-9*math.Max(1, math.Abs(v)) {
				t.Fatalf("%s = %v but mirrored %v", name, v, w)
			}
		}
	})
}

// The line of action is a common tangent of both base circles:
// r_b1 tan α_wt + r_b2 tan α_wt = a sin α_wt; and the working circles touch.
func TestLineOfActionTouchesBothBaseCircles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := runnable(t)
		sum := (p.Base[0] + p.Base[1]) / 2 * math.Tan(p.WorkingPressureAngle)
		if line := p.Centre * math.Sin(p.WorkingPressureAngle); math.Abs(sum-line) > 1e-9*p.Centre {
			t.Fatalf("tangents add up to %v, line of action is %v", sum, line)
		}
		if sum := (p.Working[0] + p.Working[1]) / 2; math.Abs(sum-p.Centre) > 1e-9*p.Centre {
			t.Fatalf("working radii add up to %v, centre distance is %v", sum, p.Centre)
		}
	})
}

func TestShiftsFromCentreDistanceGiveItBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := runnable(t)
		if p.CentreDistance == 0 || p.ShiftKnown[0] && p.ShiftKnown[1] {
			t.Skip("shifts were not derived")
		}
		if min(p.Clearance[0], p.Clearance[1]) < 1e-9*p.Centre || p.TransverseContactRatio < 1+1e-9 {
			t.Skip("so near to impossible that rounding decides")
		}
		s := p.Spec
		s.Shift, s.ShiftKnown, s.CentreDistance, s.TipDiameter = p.X, [2]bool{true, true}, 0, p.Tip
		q, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		// The involute function is flat near zero: allow for its lost digits.
		if math.Abs(q.Centre-p.Centre) > 1e-9*p.Centre {
			t.Fatalf("centre distance %v became %v", p.Centre, q.Centre)
		}
		if math.Abs(q.Backlash) != 0 {
			t.Fatalf("backlash %v", q.Backlash)
		}
	})
}

// Backlash by its meaning: the gap left between the two tooth thicknesses and the
// pitch on the working circles, measured along the normal of the flank.
func TestBacklashIsTheGapOnTheWorkingCircles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		s.ShiftKnown = [2]bool{true, true}
		s.CentreDistance = float64(s.Teeth[0]+s.Teeth[1])*s.Module/(2*math.Cos(s.Helix)) + s.Module*(s.Shift[0]+s.Shift[1]+0.02)
		p, err := New(s)
		if err != nil {
			t.Skip(err.Error())
		}
		gap := math.Pi * p.Working[0] / float64(p.Teeth[0])
		for i := range 2 {
			// Transverse thickness at the reference circle, carried to the working circle.
			s := p.Module / math.Cos(p.Helix) * (math.Pi/2 + 2*p.X[i]*math.Tan(p.Rack.PressureAngle))
			gap -= p.Working[i] * (s/p.Reference[i] + Involute(p.TransversePressureAngle) - Involute(p.WorkingPressureAngle))
		}
		normal := gap * math.Cos(p.WorkingPressureAngle) * math.Cos(p.BaseHelix)
		if math.Abs(normal-p.Backlash) > 1e-9*p.Centre {
			t.Fatalf("backlash %v, gap %v", p.Backlash, normal)
		}
	})
}

func TestInverseInvoluteUndoesInvolute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(0.01, 1.55).Draw(t, "angle")
		got, err := InverseInvolute(Involute(angle))
		if err != nil {
			t.Fatal(err)
		}
		// tan α − α loses about 3/α² digits' worth of rounding at small angles.
		if math.Abs(got-angle) > 1e-15/(angle*angle)+1e-13 {
			t.Fatalf("%v became %v", angle, got)
		}
	})
	for _, bad := range []float64{-1e-9, math.Inf(1), math.NaN()} {
		if v, err := InverseInvolute(bad); err == nil {
			t.Errorf("InverseInvolute(%v) = %v without an error", bad, v)
		}
	}
	if v, err := InverseInvolute(0); v != 0 || err != nil {
		t.Errorf("InverseInvolute(0) = %v, %v", v, err)
	}
}

func BenchmarkNew(b *testing.B) {
	s := Spec{Module: 2.5, Helix: rad(25), Rack: StandardRack, Teeth: [2]int{23, 35}, Shift: [2]float64{0.2, 0}, ShiftKnown: [2]bool{true, false}, CentreDistance: 81, Face: 20}
	for b.Loop() {
		if _, err := New(s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTooth(b *testing.B) {
	for name, teeth := range map[string]int{"plain": 23, "undercut": 9} {
		b.Run(name, func(b *testing.B) {
			p := mustNew(b, Spec{Module: 2.5, Rack: StandardRack, Teeth: [2]int{teeth, 60}, ShiftKnown: [2]bool{true, true}, Shift: [2]float64{0.2, 0}, Face: 20})
			for b.Loop() {
				if _, err := p.Tooth(0); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

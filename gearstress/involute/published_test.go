package involute

import (
	"math"
	"testing"
)

// Numbers of this file come from outside: each case names its source and whether
// the page was read ("seen"), recalled ("from memory") or worked out by an
// independent calculation that is not this code ("computed").

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.7g, want %.7g ± %.2g", what, got, want, tolerance)
	}
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

func mustNew(t testing.TB, s Spec) *Pair {
	t.Helper()
	p, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Profile-shifted spur pair of the gear-trade handbook "Elements of Metric Gear
// Technology" (profile-shifted spur gear table). From memory; the digits were
// confirmed by an independent calculation. The book shortens both tips by
// x1 + x2 − y, which is what New does where the centre distance is given.
func TestShiftedSpurPair12And24(t *testing.T) {
	rack := StandardRack
	s := Spec{Module: 3, Rack: rack, Teeth: [2]int{12, 24}, Shift: [2]float64{0.6, 0.36}, ShiftKnown: [2]bool{true, true}, Face: 20}
	free := mustNew(t, s)
	near(t, "a", free.Centre, 56.4999, 0.0001)
	near(t, "inv α_w", Involute(free.WorkingPressureAngle), 0.034316, 5e-7)
	near(t, "α_w", degrees(free.WorkingPressureAngle), 26.0886, 0.0001)
	near(t, "y", (free.Centre-free.ReferenceCentre)/3, 0.83329, 1e-5)

	s.CentreDistance = 56.4999
	p := mustNew(t, s)
	for i, want := range []struct{ d, db, dw, da, df float64 }{
		{36, 33.8289, 37.667, 44.84, 32.1},
		{72, 67.6579, 75.333, 79.4, 66.66},
	} {
		near(t, "d", p.Reference[i], want.d, 1e-9)
		near(t, "d_b", p.Base[i], want.db, 0.0001)
		near(t, "d_w", p.Working[i], want.dw, 0.0006)
		near(t, "d_a", p.Tip[i], want.da, 0.0006)
		near(t, "d_f", p.Root[i], want.df, 1e-9)
	}
	near(t, "ε_α", p.TransverseContactRatio, 1.202, 0.0006)
	near(t, "whole depth", (p.Tip[0]-p.Root[0])/2, 6.37, 0.0006)
}

// Norton, Machine Design, 4th ed., solutions to problems 12-1 and 12-2 (seen).
// Inch gears with dedendum 1.25.
func TestNortonProblems12_1And12_2(t *testing.T) {
	for _, c := range []struct {
		teeth             int
		pitch             float64 // diametral, 1/in
		d, a, b, outer, p float64 // in
	}{
		{27, 5, 5.4, 0.2, 0.25, 5.8, 0.628},
		{43, 8, 5.375, 0.125, 0.15625, 5.625, 0.393},
	} {
		m := 25.4 / c.pitch
		p := mustNew(t, Spec{Module: m, Rack: StandardRack, Teeth: [2]int{c.teeth, c.teeth}, ShiftKnown: [2]bool{true, true}, Face: 25.4})
		near(t, "d", p.Reference[0]/25.4, c.d, 1e-9)
		near(t, "addendum", (p.Tip[0]-p.Reference[0])/2/25.4, c.a, 1e-9)
		near(t, "dedendum", (p.Reference[0]-p.Root[0])/2/25.4, c.b, 1e-9)
		near(t, "outside diameter", p.Tip[0]/25.4, c.outer, 1e-9)
		near(t, "circular pitch", math.Pi*p.Reference[0]/float64(c.teeth)/25.4, c.p, 0.0005)
	}
}

// ISO/TR 6336-30:2017, example 1, geometry (from memory; the shift, to the digits
// of the recalled centre distance, was confirmed by an independent calculation).
// The report does not shorten the tips: d_a = d + 2 m_n (1 + x). New does the same
// where the centre distance follows from the shifts; where it is given, its tips
// are 2 m_n (x1 + x2 − y) = 0.019 mm smaller here.
func TestReportExample1Geometry(t *testing.T) {
	s := Spec{
		Module: 8, Helix: rad(15.8), Rack: StandardRack, Teeth: [2]int{17, 103},
		Shift: [2]float64{0, 0}, ShiftKnown: [2]bool{false, true}, CentreDistance: 500, Face: 100,
	}
	p := mustNew(t, s)
	near(t, "x1", p.X[0], 0.145, 0.0005)
	near(t, "d_a1 shortened", p.Tip[0], 159.66, 0.006+0.019)

	s.Shift, s.ShiftKnown, s.CentreDistance = p.X, [2]bool{true, true}, 0
	p = mustNew(t, s)
	near(t, "a", p.Centre, 500, 1e-9)
	near(t, "d_a1", p.Tip[0], 159.66, 0.006)
	near(t, "d_a2", p.Tip[1], 872.35, 0.006)
}

// Same pair, contact ratios by an independent calculation (computed).
func TestContactRatios17And103(t *testing.T) {
	p := mustNew(t, Spec{
		Module: 8, Helix: rad(15.8), Rack: Rack{PressureAngle: rad(20), Addendum: 1, Dedendum: 1.4, TipRadius: 0.39}, Teeth: [2]int{17, 103},
		ShiftKnown: [2]bool{false, true}, TipDiameter: [2]float64{159.66, 872.35}, CentreDistance: 500, Face: 100,
	})
	near(t, "x1", p.X[0], 0.14522, 0.00001)
	near(t, "ε_α", p.TransverseContactRatio, 1.5491, 0.0001)
	near(t, "ε_β", p.OverlapRatio, 1.0834, 0.0001)
}

// Vehicle-size helical pair, independent calculation (computed).
func TestVehiclePair23And35(t *testing.T) {
	p := mustNew(t, Spec{
		Module: 2.5, Helix: rad(25), Rack: StandardRack, Teeth: [2]int{23, 35},
		Shift: [2]float64{0.2, 0}, ShiftKnown: [2]bool{true, false}, CentreDistance: 81, Face: 20,
	})
	near(t, "x1 + x2", p.X[0]+p.X[1], 0.41713, 0.00001)
	near(t, "α_wt", degrees(p.WorkingPressureAngle), 23.58749, 0.00001)
	near(t, "d_a1", p.Tip[0], 69.3688, 0.0001)
	near(t, "d_a2", p.Tip[1], 102.5558, 0.0001)
	near(t, "ε_α", p.TransverseContactRatio, 1.3538, 0.0001)
	near(t, "ε_β", p.OverlapRatio, 1.0762, 0.0001)
}

// Helical pair of a public course-design document (seen; its tip diameter and
// contact ratio are wrong and are left out), tolerance 0.3 % or printed digits.
// The contact ratio for standard tips is an independent calculation (computed).
func TestHelicalPair35And117(t *testing.T) {
	p := mustNew(t, Spec{
		Module: 2, Helix: math.Acos(2 * 152 / (2 * 155.0)), Rack: StandardRack, Teeth: [2]int{35, 117},
		ShiftKnown: [2]bool{true, true}, CentreDistance: 155, Face: 55,
	})
	near(t, "β", degrees(p.Helix), 11.2911, 0.0001)
	near(t, "α_t", degrees(p.TransversePressureAngle), 20.363, 0.0005)
	near(t, "β_b", degrees(p.BaseHelix), 10.602, 0.0005)
	near(t, "ε_β", p.OverlapRatio, 1.714, 0.0005)
	near(t, "z_v1", p.VirtualTeeth[0], 37.114, 0.0006)
	near(t, "z_v2", p.VirtualTeeth[1], 124.065, 0.0006)
	near(t, "ε_α", p.TransverseContactRatio, 1.726, 0.0005)
	near(t, "backlash", p.Backlash, 0, 1e-9)
}

// Virtual tooth numbers of a public course-design document (seen).
func TestVirtualTeeth23And87(t *testing.T) {
	p := mustNew(t, Spec{Module: 2, Helix: rad(14), Rack: StandardRack, Teeth: [2]int{23, 87}, ShiftKnown: [2]bool{true, true}, Face: 20})
	near(t, "z_v1", p.VirtualTeeth[0], 25.18, 0.005)
	near(t, "z_v2", p.VirtualTeeth[1], 95.24, 0.005)
}

// Contact ratios of standard spur pairs, independent calculation (computed).
func TestContactRatioOfStandardSpurPairs(t *testing.T) {
	for _, c := range []struct {
		teeth [2]int
		eps   float64
	}{{[2]int{20, 40}, 1.6352}, {[2]int{28, 28}, 1.638}} {
		p := mustNew(t, Spec{Module: 3, Rack: StandardRack, Teeth: c.teeth, ShiftKnown: [2]bool{true, true}, Face: 30})
		near(t, "ε_α", p.TransverseContactRatio, c.eps, 0.00006)
	}
}

// Chordal tooth thickness, "Elements of Metric Gear Technology", Table 10-1 (seen):
// m = 10, z = 12, x = 0.3, addendum 13. Arc thickness s and half angle at the
// reference circle, chord and height over it.
func TestChordalThicknessSpur(t *testing.T) {
	p := mustNew(t, Spec{Module: 10, Rack: StandardRack, Teeth: [2]int{12, 40}, Shift: [2]float64{0.3, 0}, ShiftKnown: [2]bool{true, true}, Face: 50})
	tooth, err := p.Tooth(0)
	if err != nil {
		t.Fatal(err)
	}
	half := tooth.HalfAngle(tooth.Reference)
	near(t, "s", half*tooth.Reference, 17.8918, 6e-5)
	near(t, "θ", degrees(half), 8.5427, 6e-5)
	near(t, "chord", tooth.Reference*math.Sin(half), 17.8256, 6e-5)
	near(t, "height", (tooth.Tip-tooth.Reference*math.Cos(half))/2, 13.6657, 6e-5)
}

// Chordal thickness of a helical gear in the transverse system, same book, Table
// 10-4 (seen): m_t = 4, α_t = 20°, β = 22.5°, z = 20, x_t = 0.3. Its normal
// thickness and half angle are those of the gear with z/cos³β teeth.
func TestChordalThicknessHelical(t *testing.T) {
	beta := rad(22.5)
	module := 4 * math.Cos(beta)
	shift := 0.3 / math.Cos(beta) // same distance in mm, in normal modules
	rack := StandardRack
	rack.PressureAngle = math.Atan(math.Tan(rad(20)) * math.Cos(beta))
	p := mustNew(t, Spec{Module: module, Helix: beta, Rack: rack, Teeth: [2]int{20, 40}, Shift: [2]float64{shift, 0}, ShiftKnown: [2]bool{true, true}, Face: 30})
	near(t, "α_t", degrees(p.TransversePressureAngle), 20, 1e-9)
	tooth, err := p.Tooth(0)
	if err != nil {
		t.Fatal(err)
	}
	sn := tooth.HalfAngle(tooth.Reference) * tooth.Reference
	near(t, "s_n", sn, 6.6119, 6e-5)
	near(t, "z_v", p.VirtualTeeth[0], 25.362, 0.0006)
	near(t, "θ", degrees(sn/(p.VirtualTeeth[0]*module)), 4.04196, 6e-6)
}

// NASA Lewis fatigue test gear, data table of the reports (from memory): 28 teeth,
// 8 per inch of diameter, 20°.
func TestFatigueTestGear28(t *testing.T) {
	p := mustNew(t, Spec{Module: 25.4 / 8, Rack: StandardRack, Teeth: [2]int{28, 28}, ShiftKnown: [2]bool{true, true}, Face: 6.35})
	near(t, "pitch diameter", p.Reference[0]/25.4, 3.5, 0.0005)
	near(t, "outside diameter", p.Tip[0]/25.4, 3.75, 0.0005)
	near(t, "circular pitch", math.Pi*p.Reference[0]/28/25.4, 0.3927, 0.0005)
}

// Tip-load form factor Y_Fa of GB/T 3480 and DIN 3990 (handbook table, whole page
// seen, read off charts: ±0.017) and the same by an independent trochoid construction
// (computed, ±0.0002). Y_Fa = 6 h_F cos α_Fa / (s_F² cos α) at the section where the
// fillet leans 30° to the middle of the tooth; that section is found here on
// the outline itself, by its slope.
func TestOutlineGivesTipFormFactors(t *testing.T) {
	published := map[int]float64{17: 2.97, 19: 2.85, 21: 2.76, 23: 2.69, 25: 2.62, 27: 2.57, 29: 2.53, 35: 2.45, 45: 2.35, 60: 2.28, 80: 2.22, 100: 2.18, 200: 2.12}
	computed := map[int]float64{17: 2.9575, 20: 2.8, 25: 2.6336, 30: 2.529, 50: 2.333, 100: 2.1953}
	check := func(teeth int, want, tolerance float64) {
		p := mustNew(t, Spec{Module: 1, Rack: StandardRack, Teeth: [2]int{teeth, 60}, ShiftKnown: [2]bool{true, true}, Face: 10})
		tooth, err := p.Tooth(0)
		if err != nil {
			t.Fatal(err)
		}
		root := steepest(tooth, 30)
		load := math.Acos(tooth.Base/tooth.Tip) - tooth.HalfAngle(tooth.Tip)
		height := tooth.Base/2/math.Cos(load) - root.Y
		section := 2 * root.X
		got := 6 * height * math.Cos(load) / (section * section * math.Cos(rad(20)))
		near(t, "Y_Fa", got, want, tolerance)
	}
	for z, want := range published {
		check(z, want, 0.017)
	}
	for z, want := range computed {
		check(z, want, 0.0002)
	}
}

// steepest is the fillet point whose tangent leans by so many degrees to the middle
// of the tooth, by bisection on finite differences.
func steepest(t *Tooth, lean float64) Point {
	lo, hi := 0.0, 1.0
	const h = 1e-5
	for range 60 {
		mid := (lo + hi) / 2
		a, b := t.Fillet(mid-h), t.Fillet(mid+h)
		if math.Atan2(a.X-b.X, b.Y-a.Y) > rad(lean) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return t.Fillet((lo + hi) / 2)
}

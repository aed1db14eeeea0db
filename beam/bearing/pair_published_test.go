package bearing

import (
	"math"
	"testing"
)

// Source: Shigley's Mechanical Engineering Design, 10th edition, problem 11-44, published solution
// (forces in lbf). That book induces 0.47 F_r/K where catalogues say 0.5 F_r/Y, so its own induced
// forces go in; tolerance from the printed digits. F_eA is printed with the rounded 203: the
// unrounded value is 1028.9.
func TestTextbookPair(t *testing.T) {
	induced := func(radial, k float64) float64 { return 0.47 * radial / k }
	ia, ib := induced(875, 1.5), induced(625, 1.5)
	near(t, "induced A", ia, 274, 0.5/274)
	near(t, "induced B", ib, 196, 0.5/196)
	near(t, "rating B", RequiredRating(Tapered, 625, 90000*150*60/90e6), 1208, 0.5/1208)
	ib = induced(625, 1.45)
	near(t, "induced B, selected bearing", ib, 203, 0.5/203)
	// The thrust of 250 comes to A: towards −x face to face, towards +x back to back.
	for _, c := range []struct {
		arrangement Arrangement
		axial       float64
	}{{FaceToFace, -250}, {BackToBack, 250}} {
		a, b := PairAxial(c.arrangement, ia, ib, c.axial)
		p := must[float64](t)(Rating{Kind: Tapered, E: 1e-9, Y: 1.5}.Equivalent(875, a))
		near(t, "load of A", p, 1030, 1.5/1030)
		near(t, "axial B", b, ib, 1e-15)
	}
}

// Source: computed outside this program from equilibrium with the catalogue rule 0.5 F_r/Y, life
// exponent 10/3, 2500 rpm; tolerance 1e-4.
func TestPairAxialLoadsAndLives(t *testing.T) {
	const fra, frb, n = 6347.937, 12378.55, 2500
	ra := Rating{Kind: Tapered, Dynamic: 78000, E: 0.37, Y: 1.6}
	rb := Rating{Kind: Tapered, Dynamic: 108000, E: 0.35, Y: 1.7}
	for _, c := range []struct {
		arrangement                                Arrangement
		axial, faa, fab, pa, pb, la, lb, lha, lhbh float64
	}{
		{FaceToFace, -2030, 5670.75, 3640.75, 11612.37, 12378.55, 571.801, 1367.25, 3812.01, 9114.98},
		{FaceToFace, 0, 3640.75, 3640.75, 8364.374, 12378.55, 1706.88, 1367.25, 11379.2, 9114.98},
		{BackToBack, -2030, 1983.73, 4013.73, 6347.937, 12378.55, 4280.95, 1367.25, 28539.7, 9114.98},
		{BackToBack, 0, 3640.75, 3640.75, 8364.374, 12378.55, 1706.88, 1367.25, 11379.2, 9114.98},
	} {
		a, b := PairAxial(c.arrangement, Induced(fra, ra.Y), Induced(frb, rb.Y), c.axial)
		near(t, "F_aA", a, c.faa, 1e-5)
		near(t, "F_aB", b, c.fab, 1e-5)
		pa, pb := must[float64](t)(ra.Equivalent(fra, a)), must[float64](t)(rb.Equivalent(frb, b))
		near(t, "P_A", pa, c.pa, 1e-5)
		near(t, "P_B", pb, c.pb, 1e-5)
		la, lb := must[float64](t)(ra.Life(fra, a)), must[float64](t)(rb.Life(frb, b))
		near(t, "L10_A", la, c.la, 1e-4)
		near(t, "L10_B", lb, c.lb, 1e-4)
		near(t, "L10h_A", Hours(la, n), c.lha, 1e-4)
		near(t, "L10h_B", Hours(lb, n), c.lhbh, 1e-4)
	}
}

// Without preload and external thrust two equal rows under equal radial loads settle where half of
// each ring carries. Then F_a = 1.258 F_r tan α (Sjövall's integrals), and the catalogue rule with
// Y = 0.4 cot α gives 1.25 F_r tan α. 24 rollers are up to 0.4 % off the integral, one way with a
// roller under the load and the other with the load between two; the mean is within 0.1 %.
func TestPairSettlesAsTheCatalogueSays(t *testing.T) {
	e := Elements{Kind: Tapered, Count: 24, Diameter: 6, Length: 12, Pitch: 50, ContactAngle: 0.25}
	_, y, _ := TaperedFactors(e.ContactAngle)
	on := must[PairState](t)(Pair{Arrangement: BackToBack, A: e, B: e}.Settle(5000, 5000, 0))
	turned := e
	turned.Turn = math.Pi / 24
	between := must[PairState](t)(Pair{Arrangement: BackToBack, A: turned, B: turned}.Settle(5000, 5000, 0))
	jr, ja := LoadIntegrals(10./9, 0.5)
	near(t, "integral", (on.AxialA+between.AxialA)/2, 5000*math.Tan(0.25)*ja/jr, 1e-3)
	near(t, "catalogue", on.AxialA, Induced(5000, y), 0.01)

	// With unequal loads the lighter bearing must take what the other induces: here the rule is
	// rough, since the lighter one is then pushed past half its ring and the other short of it.
	s := must[PairState](t)(Pair{Arrangement: BackToBack, A: e, B: e}.Settle(2000, 6000, 0))
	_, b := PairAxial(BackToBack, Induced(2000, y), Induced(6000, y), 0)
	near(t, "unequal", s.AxialB, b, 0.15)
	if s.AxialA != s.AxialB && math.Abs(s.AxialA/s.AxialB-1) > 1e-6 {
		t.Errorf("no balance: %g against %g N", s.AxialA, s.AxialB)
	}
}

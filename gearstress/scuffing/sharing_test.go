package scuffing

import (
	"math"
	"testing"
)

func sharingOf(t *testing.T, in Input) sharing {
	t.Helper()
	w, err := newPath(in.Pair, in.Speed)
	if err != nil {
		t.Fatal(err)
	}
	return newSharing(w, or(in.Grade, 7), 0)
}

// Of grade 7 and finer the pairs in contact together carry just the whole load.
func TestSharesOfASpurPairAddUpToOne(t *testing.T) {
	h := sharingOf(t, inputOf(pairOf(t, spurSpec())))
	w := h.path
	for k := range 100 {
		s := w.a + (float64(k)+0.5)/100*w.pitch
		sum := h.at(s, s)
		if s+w.pitch < w.e {
			sum += h.at(s+w.pitch, s+w.pitch)
		}
		near(t, "sum of shares", sum, 1, 1e-9)
	}
	near(t, "X_Γ at A", h.at(w.a, w.a), 1.0/3, 1e-12)
	near(t, "X_Γ at B, two pairs", h.at(w.b, w.a), 2.0/3, 1e-12)
	near(t, "X_Γ at B, one pair", h.at(w.b, 0), 1, 0)
}

// Coarser teeth share less evenly, and never more than all falls on one.
func TestCoarseTeethShareLess(t *testing.T) {
	in := inputOf(pairOf(t, spurSpec()))
	last := 0.0
	for _, grade := range []int{7, 8, 9, 10, 11, 12} {
		in.Grade = grade
		h := sharingOf(t, in)
		if x := h.at(h.path.a, h.path.a); !(x > last && x <= 1) {
			t.Errorf("grade %d: X_Γ at A is %v after %v", grade, x, last)
		} else {
			last = x
		}
		if x := h.at(h.path.b, h.path.a); x > 1 {
			t.Errorf("grade %d: X_Γ at B is %v", grade, x)
		}
	}
}

// Between narrow and wide, all along the helix, the share changes without a jump.
func TestHelicalSharesJoin(t *testing.T) {
	spec := helicalSpec()
	var last float64
	for k := range 400 {
		spec.Face = 1 + 0.1*float64(k)
		h := sharingOf(t, inputOf(pairOf(t, spec)))
		x := h.at(h.path.e, h.path.e)
		if k > 0 && math.Abs(x-last) > 0.05 {
			t.Errorf("ε_β %.3f: X_Γ at E jumps from %.4f to %.4f", h.path.pair.OverlapRatio, last, x)
		}
		last = x
		if h.path.pair.OverlapRatio >= 1.2 {
			near(t, "X_Γ at E of a wide pair", x, 1.3/h.path.contactRatio(), 1e-12)
			near(t, "X_Γ in the middle", h.at(0, 0), 1/h.path.contactRatio(), 1e-12)
		}
	}
}

func TestApproachFactor(t *testing.T) {
	in := inputOf(pairOf(t, spurSpec()))
	in.TipRelief = [2]float64{}
	r := screen(t, in)
	first, last := r.Flash.Stations[0], r.Flash.Stations[len(r.Flash.Stations)-1]
	part := -r.A.Distance / (r.E.Distance - r.A.Distance)
	near(t, "X_J at A", first.Approach, 1+1000*r.NeededRelief/50*part*part*part, 1e-12)
	near(t, "X_J at E", last.Approach, 1, 0)
	// C_eff: 225 N·m at a base radius of 28.19 mm over 25 mm, 20 N/(mm·µm).
	p := in.Pair
	near(t, "C_eff", r.NeededRelief, 1.25*180000/(p.Working[0]/2)/25/20000/math.Cos(radians(20)), 1e-12)
	if in.TipRelief[1] = r.NeededRelief; screen(t, in).Flash.Stations[0].Approach != 1 {
		t.Error("full relief of the driven gear leaves an approach factor")
	}
}

// The branches of X_ε must meet; they do so only with all their constants right.
func TestBranchesOfTheContactRatioFactorMeet(t *testing.T) {
	const h = 1e-9
	value := func(e1, e2 float64) float64 {
		x, ok := contactRatioFactor(e1, e2)
		if !ok {
			t.Fatalf("no X_ε at %v, %v", e1, e2)
		}
		return x
	}
	for _, other := range []float64{0.05, 0.3, 0.6, 0.9} {
		near(t, "ε_1 = 1", value(1-h, other), value(1+h, other), 1e-6)
		near(t, "ε_2 = 1", value(other, 1-h), value(other, 1+h), 1e-6/other)
	}
	for _, e1 := range []float64{0.4, 0.8, 1, 1.2, 1.6} {
		near(t, "ε_α = 2", value(e1, 2-e1-h), value(e1, 2-e1+h), 1e-6)
	}
	near(t, "ε_1 = ε_2", value(1.2, 1.2-h), value(1.2, 1.2+h), 1e-6)
	for _, bad := range [][2]float64{{0, 1.5}, {1.2, -0.1}, {1.5, 1.5}, {0.4, 0.5}} {
		if x, ok := contactRatioFactor(bad[0], bad[1]); ok {
			t.Errorf("X_ε of %v is %v; expected none", bad, x)
		}
	}
}

// X_ε against its meaning, which settles every constant below ε_α = 2: the mean along the path of
// a flash that grows in a straight line from C to the tip under full load. Between B and D
// it is all there; at B and D with two pairs in contact there is (⅔)^¾ of it, at A and E (⅓)^¾, and straight
// lines (through zero at C) between. The standard rounds 0.738 and 0.439 to 0.74 and 0.44: 0.6 %.
func TestContactRatioFactorIsTheMeanOfALinearFlash(t *testing.T) {
	shared, ends := math.Pow(2.0/3, 0.75), math.Pow(1.0/3, 0.75)
	worst := 0.0
	for e1 := 0.15; e1 < 1.8; e1 += 0.05 {
		for e2 := 0.15; e2 < 1.8; e2 += 0.05 {
			sum := e1 + e2
			if sum < 1.01 || sum > 1.99 {
				continue
			}
			b, d := e1-1, 1-e2
			// Twice the area of each straight piece, from outside in, for the stretch beyond
			// single contact on one side: from flash k2·tip at the tip to k1·inner at its edge.
			outside := func(tip, inner float64) float64 {
				if inner >= 0 {
					return (tip - inner) * (ends*tip + shared*inner)
				}
				return tip*ends*tip + inner*shared*inner // beyond C
			}
			area := outside(e1, d) + outside(e2, -b)
			inside := (d*math.Abs(d) - b*math.Abs(b)) / 2
			want := (area/2 + inside) / (sum * e1)
			x, ok := contactRatioFactor(e1, e2)
			if !ok {
				t.Fatalf("no X_ε at %v, %v", e1, e2)
			}
			worst = max(worst, math.Abs(x/want-1))
			near(t, "X_ε", x, want, 0.006*want)
		}
	}
	t.Logf("largest difference %.2f %%", 100*worst)
}

func TestFactorsOfTheIntegralMethodMeet(t *testing.T) {
	near(t, "K_Bγ at 2", helicalFactor(2+1e-12), 1, 1e-5)
	near(t, "K_Bγ at 3.5", helicalFactor(3.5-1e-12), 1.3, 1e-9)
	near(t, "X_Q at 1.5", approachFactor(1.5, 1), 1, 1e-12)
	near(t, "X_Q at 3", approachFactor(3, 1), 0.6, 1e-12)
	near(t, "X_Q at 2", approachFactor(2, 1), 1.4-8.0/15, 1e-12)
	near(t, "X_Q without recess", approachFactor(1, 0), 0.6, 0)
}

func TestFactorsByHand(t *testing.T) {
	near(t, "X_Ca", tipReliefFactor(0.8, 30), 1+0.0155*0.4096*30, 1e-12)
	near(t, "K_Bγ", helicalFactor(2.5), 1+0.2*math.Sqrt(1.25), 1e-12)
	if k := screen(t, inputOf(pairOf(t, spurSpec()))).Integral.KBg; k != 1 {
		t.Errorf("K_Bγ of a spur pair is %v", k)
	}
	p := pairOf(t, helicalSpec())
	n := screen(t, inputOf(p)).Integral
	near(t, "K_Bγ of a helical pair", n.KBg, helicalFactor(p.TransverseContactRatio+p.OverlapRatio), 1e-12)
	// It stands in friction (0.2) and in the flash (¾).
	w, err := newPath(p, 300)
	if err != nil {
		t.Fatal(err)
	}
	b := Steel.ThermalContact()
	c := &mesh{path: w, load: 1.25 * 1.1 * 1.3 * 1.1 * 2 * 180000 / p.Working[0] / p.Face / w.cos, thermal: [2]float64{b, b}, ze: steelOnSteel}
	near(t, "Θ_flaE", n.Tip*n.XQ*n.XCa, c.station(w.e, 1, 1, n.Friction).Flash*math.Pow(n.KBg, 0.75), 1e-9*n.Tip)
}

// Half way between narrow and wide the share is the mean of both.
func TestShareBetweenNarrowAndWide(t *testing.T) {
	spec := helicalSpec()
	spec.Face = math.Pi * spec.Module / math.Sin(spec.Helix)
	h := sharingOf(t, inputOf(pairOf(t, spec)))
	near(t, "X_Γ at C", h.at(0, 0), (1+1/h.path.contactRatio())/2, 1e-9)
	near(t, "X_Γ at A", h.at(h.path.a, h.path.a), 1.3*(1.0/3+1/h.path.contactRatio())/2, 1e-9)
	spec.Face *= 0.9
	h = sharingOf(t, inputOf(pairOf(t, spec)))
	near(t, "X_Γ at C, ε_β 0.9", h.at(0, 0), 0.75+0.25/h.path.contactRatio(), 1e-9)
}

// Above a contact ratio of 2 two thirds all along; the integral method still has its factor.
func TestTallSpurTeethNeverCarryAll(t *testing.T) {
	spec := spurSpec()
	spec.Rack.Addendum, spec.Rack.Dedendum, spec.Rack.TipRadius, spec.Teeth = 1.35, 1.6, 0.2, [2]int{60, 70}
	for _, s := range screen(t, inputOf(pairOf(t, spec))).Flash.Stations {
		near(t, "X_Γ", s.Share, 2.0/3, 1e-12)
	}
}

// Below 150 N/mm the friction of the integral method no longer falls with the load.
func TestLeastLoadOfTheIntegralMethod(t *testing.T) {
	in := inputOf(pairOf(t, spurSpec()))
	in.Torque = 10000
	low := screen(t, in)
	in.Torque = 5000
	lower := screen(t, in)
	near(t, "μ_mC", lower.Integral.Friction, low.Integral.Friction, 0)
	near(t, "μ_m", lower.Flash.Friction, low.Flash.Friction*math.Pow(0.5, 0.2), 1e-12)
}

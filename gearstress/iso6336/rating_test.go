package iso6336

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"layshaft/gearstress/involute"
	"layshaft/material"
)

// Hertz on two rollers with the radii of curvature at the pitch point, the normal
// load spread along lines of length b/cos β_b (K. L. Johnson, Contact Mechanics, 1985, eq. 4.45 for
// line contact).
func TestPitchPointStressIsPlainHertz(t *testing.T) {
	for _, spec := range []involute.Spec{spurSpec(), helicalSpec()} {
		f := formOf(t, spec, Edition2019)
		p := f.Pair
		in := inputOf(t)
		in.Gear[1].Strength.Young, in.Gear[1].Strength.Poisson = 173000, 0.28
		r := rate(t, f, in)
		normal := 2 * in.Torque / p.Base[0] / math.Cos(p.BaseHelix)
		length := p.Face / math.Cos(p.BaseHelix)
		curvature := 0.0
		for i := range sides {
			curvature += math.Cos(p.BaseHelix) / (p.Working[i] / 2 * math.Sin(p.WorkingPressureAngle))
		}
		a, b := in.Gear[0].Strength, in.Gear[1].Strength
		modulus := 1 / ((1-a.Poisson*a.Poisson)/a.Young + (1-b.Poisson*b.Poisson)/b.Young)
		want := math.Sqrt(normal / length * curvature * modulus / math.Pi)
		near(t, "σ_H0/(Z_ε Z_β)", r.Pitting/(r.ZEps*r.ZBeta), want, 1e-9*want)
	}
}

// The contact stress at the inner point of single contact, worked out from the path of contact.
func TestSingleContactFactorIsHertzThere(t *testing.T) {
	p := pairOf(t, spurSpec())
	line := p.Centre * math.Sin(p.WorkingPressureAngle)
	pitch := math.Pi * p.Module * math.Cos(p.Rack.PressureAngle)
	// Contact of the driver runs from where the driven tip meets the line of action; it carries alone one pitch before its end.
	end := math.Sqrt(p.Tip[0]*p.Tip[0]-p.Base[0]*p.Base[0]) / 2
	own := end - pitch
	atPitch := p.Working[0] / 2 * math.Sin(p.WorkingPressureAngle)
	want := math.Sqrt(atPitch * (line - atPitch) / (own * (line - own)))
	m, err := singleContactFactor(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "M_1", m, want, 1e-12)
}

func TestFactorsMakeTheSum(t *testing.T) {
	for _, edition := range []Edition{Edition2019, Edition2006} {
		for _, turns := range []float64{0, 1e3, 3e4, 2e6, 3e9} {
			f := formOf(t, helicalSpec(), edition)
			in := inputOf(t)
			in.Turns = turns
			in.Gear[1].Reversal = Reversal{Share: 1}
			in.Gear[1].Strength = steel(t, material.GroupAlloyHardened, 300)
			in.Gear[1].Strength.Hardness = 285
			in.Gear[0].FlankRoughness = 0.002
			in.Gear[1].Body = Body{Rim: 4, Web: 10}
			r := rate(t, f, in)
			p := f.Pair
			for i := range sides {
				fl, ro, s := r.Flank[i], r.Root[i], in.Gear[i].Strength
				k := r.K
				near(t, "σ_F0", ro.Nominal, r.Tangential/(p.Face*p.Module)*ro.YF*ro.YS*ro.YBeta*ro.YB*ro.YDT, 1e-9*ro.Nominal)
				near(t, "σ_F", ro.Stress, ro.Nominal*k.A*k.Gamma*k.V*k.FBeta*k.FAlpha, 1e-9*ro.Stress)
				near(t, "σ_H", fl.Stress, fl.ZBD*r.Pitting*math.Sqrt(k.A*k.Gamma*k.V*k.HBeta*k.HAlpha), 1e-9*fl.Stress)
				near(t, "σ_FG", ro.Limit, 2*s.Bending*ro.YM*ro.YNT*ro.YDelta*ro.YR*ro.YX, 1e-9*ro.Limit)
				near(t, "σ_HG", fl.Limit, s.Contact*fl.ZNT*fl.ZL*fl.ZV*fl.ZR*fl.ZW*fl.ZX, 1e-9*fl.Limit)
				near(t, "S_F", ro.Safety, ro.Limit/ro.Stress, 1e-12)
				near(t, "S_H", fl.Safety, fl.Limit/fl.Stress, 1e-12)
				near(t, "cycles", ro.Cycles, turns*[2]float64{1, 17.0 / 38}[i], 1e-6*turns)
				if turns == 0 {
					near(t, "static root", ro.Limit, ro.Static, 1e-9)
					near(t, "static flank", fl.Limit, fl.Static, 1e-9)
					if ro.YR != 1 || ro.YX != 1 || fl.ZL != 1 || fl.ZV != 1 || fl.ZR != 1 {
						t.Errorf("static: Y_RrelT, Y_X, Z_L, Z_V, Z_R must be 1: %+v %+v", ro, fl)
					}
				}
			}
			if r.Flank[1].ZW <= 1 || r.Root[1].YM >= 1 || r.Root[1].YB <= 1 || r.Stiffness.Body >= 1 {
				t.Errorf("Z_W %.3f, Y_M %.3f, Y_B %.3f, C_R %.3f: soft wheel, idler, thin rim and web left no trace",
					r.Flank[1].ZW, r.Root[1].YM, r.Root[1].YB, r.Stiffness.Body)
			}
		}
	}
}

func TestEveryFactorIsListed(t *testing.T) {
	r := rate(t, formOf(t, helicalSpec(), Edition2019), inputOf(t))
	var symbols []string
	for _, f := range r.Factors() {
		symbols = append(symbols, f.Symbol)
		if f.Words == "" || f.Clause == "" || !(f.Value[0] > 0 && f.Value[1] > 0) {
			t.Errorf("incomplete: %+v", f)
		}
	}
	want := "K_A K_γ K_v K_Hβ K_Fβ K_Hα K_Fα Z_H Z_E Z_ε Z_β Z_B, Z_D Z_NT Z_L Z_V Z_R Z_W Z_X f_ε Y_F Y_S Y_β Y_B Y_DT Y_NT Y_δrelT Y_RrelT Y_X Y_M"
	if got := strings.Join(symbols, " "); got != want {
		t.Errorf("factors\n%s\nwant\n%s", got, want)
	}
}

func TestStressesFollowTheTorqueWhenFactorsAreHeld(t *testing.T) {
	f := formOf(t, helicalSpec(), Edition2019)
	in := inputOf(t)
	in.KV, in.KHa, in.KFa = 1.1, 1.2, 1.3
	one := rate(t, f, in)
	in.Torque *= 4
	four := rate(t, f, in)
	for i := range sides {
		near(t, "σ_F", four.Root[i].Stress/one.Root[i].Stress, 4, 1e-12)
		near(t, "σ_H", four.Flank[i].Stress/one.Flank[i].Stress, 2, 1e-12)
		near(t, "σ_FG", four.Root[i].Limit, one.Root[i].Limit, 1e-9)
	}
	if one.Dynamic.Regime != Given || one.K.V != 1.1 || one.K.HAlpha != 1.2 || one.K.FAlpha != 1.3 {
		t.Errorf("the factors given were not taken: %+v", one.K)
	}
}

// The more torque, the more stress, down to next to nothing: dynamic and transverse parts don't outgrow the load that they belong to. With speed and coarse teeth, in all regimes. Where the
// regime changes the standard itself jumps.
func TestMoreTorqueIsMoreStress(t *testing.T) {
	for _, speed := range []float64{10, 100, 300, 800, 2000} {
		for _, grade := range []int{5, 7, 10} {
			f := formOf(t, helicalSpec(), Edition2019)
			in := inputOf(t)
			in.Speed = speed
			in.Gear[0].Grade, in.Gear[1].Grade = grade, grade
			last, regime := [4]float64{}, Regime("")
			for in.Torque = 1e-3; in.Torque < 1e7; in.Torque *= 1.1 {
				r := rate(t, f, in)
				now := [4]float64{r.Root[0].Stress, r.Root[1].Stress, r.Flank[0].Stress, r.Flank[1].Stress}
				for k := range now {
					if now[k] <= last[k] && r.Dynamic.Regime == regime {
						t.Fatalf("grade %d at %g rad/s: stress %d is %g MPa at %.4g N·mm and %g at a tenth less", grade, speed, k, now[k], in.Torque, last[k])
					}
				}
				last, regime = now, r.Dynamic.Regime
			}
		}
	}
}

// Towards no load K_v and K_Hα stay what they are at 50 N/mm or less: carried on, their parts would grow beyond all bounds.
func TestDynamicPartsAreHeldAtLowLoad(t *testing.T) {
	f := formOf(t, helicalSpec(), Edition2019)
	in := inputOf(t)
	in.Torque = leastLoad * f.Pair.Face * f.Pair.Reference[0] / 2
	held := rate(t, f, in)
	in.Torque *= 1e-6
	low := rate(t, f, in)
	if low.Dynamic.PitchPart > held.Dynamic.PitchPart || low.Dynamic.ProfilePart > held.Dynamic.ProfilePart || low.K.HAlpha > held.K.HAlpha*(1+1e-12) {
		t.Errorf("at a millionth of %d N/mm B_p = %g, B_f = %g, K_Hα = %g; at that load %g, %g, %g", leastLoad,
			low.Dynamic.PitchPart, low.Dynamic.ProfilePart, low.K.HAlpha, held.Dynamic.PitchPart, held.Dynamic.ProfilePart, held.K.HAlpha)
	}
	if held.Dynamic.PitchPart == 0 {
		t.Error("these teeth have no dynamic part to hold")
	}
}

// Not knowing the speed leaves the oil film as in the standard's own tests: Z_V is 1 at 10 m/s.
func TestUnknownSpeedLeavesTheFilmAlone(t *testing.T) {
	in := inputOf(t)
	f := formOf(t, helicalSpec(), Edition2019)
	in.Speed = 0
	still := rate(t, f, in)
	in.Speed = 2 * testVelocity / f.Pair.Reference[0]
	tested := rate(t, f, in)
	for i := range sides {
		near(t, "σ_HG", still.Flank[i].Limit, tested.Flank[i].Limit, 1e-12)
	}
	near(t, "Z_V for endless life", velocityFactor(1500, testVelocity), 1, 1e-12)
}

func TestSwappedEqualGearsChangeNothing(t *testing.T) {
	spec := helicalSpec()
	spec.Teeth, spec.Shift = [2]int{25, 25}, [2]float64{0.2, 0.2}
	f := formOf(t, spec, Edition2019)
	r := rate(t, f, inputOf(t))
	if r.Root[0] != r.Root[1] || r.Flank[0] != r.Flank[1] {
		t.Errorf("equal gears differ:\n%+v\n%+v", r.Root[0], r.Root[1])
	}
}

// With the wheel driving, at the torque and speed it has when driven, the stresses are the same.
func TestSwappedDriverGivesTheSameMesh(t *testing.T) {
	for _, edition := range []Edition{Edition2019, Edition2006} {
		spec, back := helicalSpec(), helicalSpec()
		back.Teeth = [2]int{spec.Teeth[1], spec.Teeth[0]}
		back.Shift = [2]float64{spec.Shift[1], spec.Shift[0]}
		in := inputOf(t)
		in.Gear[1].Strength = steel(t, material.GroupAlloyHardened, 300)
		in.Gear[1].Strength.Hardness = 285
		in.Gear[1].Body.Rim = 6
		u := float64(spec.Teeth[1]) / float64(spec.Teeth[0])
		rev := in
		rev.Gear = [2]Gear{in.Gear[1], in.Gear[0]}
		rev.Torque, rev.Speed, rev.Turns = in.Torque*u, in.Speed/u, in.Turns/u
		a, b := rate(t, formOf(t, spec, edition), in), rate(t, formOf(t, back, edition), rev)
		near(t, "K_v", b.K.V, a.K.V, 1e-9)
		near(t, "K_Hα", b.K.HAlpha, a.K.HAlpha, 1e-9)
		near(t, "N", b.Dynamic.Ratio, a.Dynamic.Ratio, 1e-9)
		for i := range sides {
			near(t, "σ_F", b.Root[1-i].Stress, a.Root[i].Stress, 1e-7)
			near(t, "σ_H", b.Flank[1-i].Stress, a.Flank[i].Stress, 1e-7)
			near(t, "σ_HG", b.Flank[1-i].Limit, a.Flank[i].Limit, 1e-7)
			near(t, "σ_FG", b.Root[1-i].Limit, a.Root[i].Limit, 1e-7)
		}
	}
}

// A vanishing helix must join the spur gear without a jump, in every factor and stress.
func TestVanishingHelixJoinsSpur(t *testing.T) {
	for _, edition := range []Edition{Edition2019, Edition2006} {
		spec := spurSpec()
		spur := rate(t, formOf(t, spec, edition), inputOf(t))
		spec.Helix = 1e-7
		helical := rate(t, formOf(t, spec, edition), inputOf(t))
		a, b := spur.Factors(), helical.Factors()
		for k := range a {
			for i := range sides {
				near(t, edition.String()+" "+a[k].Symbol, b[k].Value[i], a[k].Value[i], 1e-5*a[k].Value[i])
			}
		}
	}
}

// Likewise an overlap ratio that reaches 1.
func TestFullOverlapIsReachedWithoutJump(t *testing.T) {
	spec := helicalSpec()
	full := math.Pi * spec.Module / math.Sin(spec.Helix)
	for _, edition := range []Edition{Edition2019, Edition2006} {
		var f [2]*Form
		for k, part := range []float64{1 - 1e-9, 1 + 1e-9} {
			spec.Face = full * part
			f[k] = formOf(t, spec, edition)
		}
		near(t, "Z_ε", f[1].ZEps, f[0].ZEps, 1e-8)
		near(t, "Y_β", f[1].YBeta, f[0].YBeta, 1e-8)
		for i := range sides {
			near(t, "Y_F", f[1].Tooth[i].YF, f[0].Tooth[i].YF, 1e-8)
			near(t, "Z_B,D", tipContactFactor(edition, f[1].M[i], f[1].Pair.OverlapRatio, NoRelief),
				tipContactFactor(edition, f[0].M[i], f[0].Pair.OverlapRatio, NoRelief), 1e-8)
		}
	}
}

func TestEditionsDifferWhereTheyShould(t *testing.T) {
	f19, f06 := formOf(t, helicalSpec(), Edition2019), formOf(t, helicalSpec(), Edition2006)
	in := inputOf(t)
	r19, r06 := rate(t, f19, in), rate(t, f06, in)
	differ := map[string]bool{"Z_B, Z_D": true, "f_ε": true, "Y_F": true, "Y_β": true}
	a, b := r19.Factors(), r06.Factors()
	for k := range a {
		if got := a[k].Value != b[k].Value; got != differ[a[k].Symbol] {
			t.Errorf("%s: 2019 %v, 2006 %v", a[k].Symbol, a[k].Value, b[k].Value)
		}
	}
	c := math.Cos(helicalSpec().Helix)
	near(t, "Y_β ratio", f19.YBeta/f06.YBeta, 1/(c*c*c), 1e-12)
	near(t, "Y_F ratio", f19.Tooth[0].YF/f06.Tooth[0].YF, f19.Tooth[0].LoadSharing, 1e-12)
	if _, err := NewForm(f19.Pair, 5, [2]float64{}); err == nil {
		t.Error("an unknown edition was taken")
	}
}

func TestStaticIsThePeakAlone(t *testing.T) {
	f := formOf(t, spurSpec(), Edition2019)
	in := inputOf(t)
	in.Speed, in.KA, in.Turns = 0, 1, 0
	r := rate(t, f, in)
	if r.K.A != 1 || r.K.V != 1 || r.Dynamic.Regime != Standing {
		t.Errorf("K_A %g, K_v %g, %s", r.K.A, r.K.V, r.Dynamic.Regime)
	}
	s, tooth := in.Gear[0].Strength, f.Tooth[0]
	near(t, "σ_FG static", r.Root[0].Limit, 2*s.Bending*2.5*(0.44*tooth.YS+0.12), 1e-9)
	near(t, "σ_HG static", r.Flank[0].Limit, 1.6*s.Contact, 1e-9)
	again := in
	again.Turns = 1
	if once := rate(t, f, again); !reflect.DeepEqual(once.Root[0].Limit, r.Root[0].Limit) {
		t.Errorf("one turn bears %g, the static strength is %g", once.Root[0].Limit, r.Root[0].Limit)
	}
}

func TestMissingInputIsNamedAllAtOnce(t *testing.T) {
	f := formOf(t, spurSpec(), Edition2019)
	_, err := f.Rate(Input{})
	if err == nil {
		t.Fatal("an empty input was taken")
	}
	for _, want := range []string{"torque", "K_A", "K_Hβ is 0", "K_Hβ has no origin", "driver: group of steels", "driven gear: σ", "viscosity", "driver: accuracy grade", "driven gear: roughness R_z of the fillet"} {
		if want == "driven gear: σ" {
			want = "driven gear: allowable contact stress"
		}
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the error does not name %q:\n%v", want, err)
		}
	}
	in := inputOf(t)
	in.Gear[0].Strength = steel(t, material.GroupAlloyHardened, 300)
	in.Gear[0].Strength.Yield = 0
	if _, err := f.Rate(in); err == nil || !strings.Contains(err.Error(), "yield strength") {
		t.Errorf("missing yield strength: %v", err)
	}
	if _, err := NewForm(nil, Edition2019, [2]float64{}); err == nil {
		t.Error("no pair was taken")
	}
	if _, err := NewForm(f.Pair, Edition2019, [2]float64{-1, 9}); err == nil || strings.Count(err.Error(), "residual undercut") != 2 {
		t.Errorf("residual undercut: %v", err)
	}
}

func TestNotesWhereTheRangeIsLeft(t *testing.T) {
	with := func(change func(*involute.Spec, *Input)) []string {
		spec, in := spurSpec(), inputOf(t)
		change(&spec, &in)
		r := rate(t, formOf(t, spec, Edition2019), in)
		return slices.Concat(r.Notes, r.Assumed)
	}
	for _, row := range []struct {
		want   string
		change func(*involute.Spec, *Input)
	}{
		{"helix angle is 35.00°", func(s *involute.Spec, _ *Input) { s.Helix = radians(35) }},
		{"pressure angle is 27", func(s *involute.Spec, _ *Input) {
			s.Rack = involute.Rack{PressureAngle: radians(27), Addendum: 0.9, Dedendum: 1.1, TipRadius: 0.2}
		}},
		{"more than the 2.5", func(s *involute.Spec, _ *Input) {
			s.Rack = involute.Rack{PressureAngle: radians(14.5), Addendum: 1.35, Dedendum: 1.6, TipRadius: 0.2}
			s.Teeth = [2]int{60, 90}
		}},
		{"at least two pairs", func(s *involute.Spec, _ *Input) {
			s.Rack.PressureAngle = radians(17)
			s.Teeth, s.Rack.Addendum, s.Rack.Dedendum, s.Rack.TipRadius = [2]int{50, 60}, 1.15, 1.4, 0.2
		}},
		{"is undercut", func(s *involute.Spec, _ *Input) { s.Teeth[0], s.Shift[1] = 12, 0.4 }},
		{"q_s", func(s *involute.Spec, _ *Input) { s.Rack.TipRadius = 0.03; s.Shift[0], s.Shift[1] = 0.9, 0 }},
		{"tooth heights thick", func(_ *involute.Spec, in *Input) { in.Gear[1].Body.Rim = 2 }},
		{"at its resonance", func(_ *involute.Spec, in *Input) { in.Speed = 2250 }},
		{"straight line between", func(_ *involute.Spec, in *Input) { in.Speed = 2900 }},
		{"lift off", func(_ *involute.Spec, in *Input) { in.Torque = 9000 }},
		{"beyond the 40 µm", func(_ *involute.Spec, in *Input) { in.Gear[0].RootRoughness = 0.05 }},
		{"beyond the 10^10", func(_ *involute.Spec, in *Input) { in.Turns = 2e10 }},
		{"hardness in HBW not known", func(_ *involute.Spec, in *Input) {
			in.Gear[1].Strength = steel(t, material.GroupAlloyHardened, 300)
		}},
		{"x1 ≥ x2", func(s *involute.Spec, _ *Input) { s.Shift = [2]float64{0, 0.3} }},
		{"f_ZCa = 1.2", func(s *involute.Spec, _ *Input) { s.Helix = radians(20) }},
	} {
		if notes := strings.Join(with(row.change), "\n"); !strings.Contains(notes, row.want) {
			t.Errorf("no note says %q; notes are:\n%s", row.want, notes)
		}
	}
	if notes := with(func(*involute.Spec, *Input) {}); len(notes) != 0 {
		t.Errorf("an ordinary pair has notes: %v", notes)
	}
}

// A nitrocarburised tooth with a mild notch may come out stronger in long life than once; the static strength then caps the curve.
func TestStaticStrengthCapsLongLife(t *testing.T) {
	st := newStrength(500, 0, bendingLife(material.GroupNitrocarburised, 0.85), [4]float64{0.88, 1, 1, 1}, [4]float64{1.02, 1, 1, 1})
	st.reach(3e6)
	var r Rating
	r.sayOf(&st, "driver", "root")
	near(t, "static", st.curve.Static(), 500*1.1*0.88, 1e-9)
	near(t, "limit", st.limit, st.curve.Static(), 1e-9)
	if len(r.Notes) != 0 || len(r.Assumed) != 1 || !strings.Contains(r.Assumed[0], "above the static strength") {
		t.Errorf("notes: %v, assumed: %v", r.Notes, r.Assumed)
	}
}

func ExampleForm_Rate() {
	pair, err := involute.New(involute.Spec{Module: 2.5, Helix: 22 * math.Pi / 180, Rack: involute.StandardRack,
		Teeth: [2]int{17, 38}, Shift: [2]float64{0.3, 0.1}, ShiftKnown: [2]bool{true, true}, Face: 20})
	if err != nil {
		fmt.Println(err)
		return
	}
	form, err := NewForm(pair, Edition2019, [2]float64{})
	if err != nil {
		fmt.Println(err)
		return
	}
	steel, _ := material.Find("case-carburised")
	strength, err := StrengthOf(&steel, material.Typical)
	if err != nil {
		fmt.Println(err)
		return
	}
	gear := Gear{Strength: strength, FlankRoughness: 0.004, RootRoughness: 0.012, Grade: 7}
	r, err := form.Rate(Input{Torque: 150e3, Speed: 300, Turns: 1e6, KA: 1.25, KHb: 1.3, KHbOrigin: "an example",
		Gear: [2]Gear{gear, gear}, Viscosity: 100, Relief: UsualRelief})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("driver: root %.0f MPa, S_F %.2f; flank %.0f MPa, S_H %.2f\n", r.Root[0].Stress, r.Root[0].Safety, r.Flank[0].Stress, r.Flank[0].Safety)
	// Output: driver: root 487 MPa, S_F 2.14; flank 1665 MPa, S_H 1.18
}

package iso6336

import (
	"math"
	"testing"

	"layshaft/gearstress/involute"
	"layshaft/material"

	"pgregory.net/rapid"

	"layshaft/testdata/draws"
)

// drawUsualForm is a pair as gearboxes have them; few draws are refused.
func drawUsualForm(t *rapid.T) *Form {
	f64 := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	spec := involute.Spec{
		Module: f64("module", 1, 8),
		Helix:  radians(rapid.SampledFrom([]float64{0, 0, 5, 12, 20, 28, 35}).Draw(t, "helix")),
		Rack: involute.Rack{PressureAngle: radians(f64("pressure angle", 17, 23)), Addendum: f64("addendum", 0.9, 1.1),
			Dedendum: f64("dedendum", 1.25, 1.45), TipRadius: f64("tip radius", 0.15, 0.3)},
		Teeth:      [2]int{rapid.IntRange(15, 70).Draw(t, "z1"), rapid.IntRange(15, 70).Draw(t, "z2")},
		Shift:      [2]float64{f64("x1", 0, 0.4), f64("x2", 0, 0.4)},
		ShiftKnown: [2]bool{true, true},
	}
	spec.Face = spec.Module * f64("b/m", 4, 16)
	p, err := involute.New(spec)
	if err != nil {
		t.Skip(err)
	}
	f, err := NewForm(p, Edition(rapid.IntRange(0, 1).Draw(t, "edition")), [2]float64{})
	if err != nil {
		t.Skip(err)
	}
	return f
}

// drawUsualInput is a load of 1 to 3000 N/mm.
func drawUsualInput(t *rapid.T, f *Form) Input {
	in := drawInput(t)
	in.Torque = math.Pow(10, rapid.Float64Range(0, 3.5).Draw(t, "log line load")) * f.Pair.Face * f.Pair.Reference[0] / 2
	in.Gear[0].Contacts = rapid.IntRange(0, 3).Draw(t, "contacts")
	in.KGamma = rapid.SampledFrom([]float64{0, 1.15}).Draw(t, "K_γ")
	in.TipRelief = rapid.SampledFrom([]float64{0, 0.003, 0.02, 0.05}).Draw(t, "tip relief")
	in.Relief = Relief(rapid.IntRange(int(NoRelief), int(VerifiedRelief)).Draw(t, "relief"))
	return in
}

// speeds, of the driver over that of the resonance at full stiffness, reach all regimes; 0 is unknown.
var speeds = []float64{0, 0.05, 0.3, 0.6, 0.8, 0.84, 0.86, 1.1, 1.2, 1.4, 1.6, 3}

// resonance is the speed of the driver, rad/s, at which N is 1 from 100 N/mm on.
func resonance(f *Form, in Input) float64 {
	c := new(Compiled)
	c.compile(f, in)
	return c.dynamic(&c.stiffness, softLoad).Resonance * f.Pair.Reference[f.pinion] / f.Pair.Reference[0]
}

// straight is the rating of gear i written down from the top, factor by factor as the standard has them, with nothing settled before.
func straight(f *Form, in Input, i int) (s Stresses) {
	p, g, mate, t := f.Pair, in.Gear[i], in.Gear[1-i], f.Tooth[i]
	ft := 2 * in.Torque / p.Reference[0]
	v := in.Speed * p.Reference[0] / 2
	kA := in.KA * or(in.KGamma, 1)
	w := kA * ft / p.Face

	// Part 1.
	c := MeshStiffness(p, [2]float64{in.Gear[0].Strength.Young, in.Gear[1].Strength.Young}, [2]Body{in.Gear[0].Body, in.Gear[1].Body}, w)
	dev := f.effective(&in, v)
	resonance := math.Sqrt(1000*c.Mean/f.reducedMass(&in)) / float64(p.Teeth[f.pinion])
	n := in.Speed * p.Reference[0] / p.Reference[f.pinion] / resonance
	held := max(w, 50)
	bp, bf, bk := c.Single*dev.Pitch/held, c.Single*dev.Profile/held, 1.0
	if in.Gear[0].Grade < 6 && in.Gear[1].Grade < 6 {
		bk = math.Abs(1 - c.Single*in.TipRelief/held)
	}
	cv := coefficients(p.TransverseContactRatio + p.OverlapRatio)
	main, above := 1+cv[1]*bp+cv[2]*bf+cv[4]*bk, cv[5]*bp+cv[6]*bf+cv[7]
	kv := 1.0
	switch lower := 0.5 + 0.35*math.Sqrt(min(1, w/100)); {
	case in.KV != 0:
		kv = in.KV
	case in.Speed == 0:
	case n <= lower:
		kv = 1 + n*(cv[1]*bp+cv[2]*bf+cv[3]*bk)
	case n <= 1.15:
		kv = main
	case n < 1.5:
		kv = main + (above-main)*(n-1.15)/0.35
	default:
		kv = above
	}
	kv = max(1, kv)
	kFb := math.Pow(in.KHb, rootFaceExponent(p.Face, max(f.Height[0], f.Height[1])))
	kHa, kFa := f.transverse(&c, dev, w*kv*in.KHb)
	kHa, kFa = or(in.KHa, kHa), or(in.KFa, kFa)

	// Part 2.
	u := float64(p.Teeth[1]) / float64(p.Teeth[0])
	nominal := f.ZH * elasticityFactor(g.Strength, mate.Strength) * f.ZEps * f.ZBeta * math.Sqrt(ft/(p.Reference[0]*p.Face)*(u+1)/u)
	s.Flank[i].Stress = tipContactFactor(f.Edition, f.M[i], p.OverlapRatio, in.Relief) * nominal * math.Sqrt(kA*kv*in.KHb*kHa)
	soft, film := min(g.Strength.Contact, mate.Strength.Contact), v
	if film == 0 {
		film = 10e3
	}
	zw, zwStatic, _ := workHardening(wear{g.Strength, mate.Strength, i != f.pinion, max(u, 1/u), g.FlankRoughness, mate.FlankRoughness, f.relativeRadius, in.Viscosity, film})
	long := lubricantFactor(soft, in.Viscosity) * velocityFactor(soft, film) * flankRoughnessFactor(soft, (g.FlankRoughness+mate.FlankRoughness)/2, f.relativeRadius) * zw
	cycles := in.Turns * float64(max(1, g.Contacts))
	if i == 1 {
		cycles /= u
	}
	s.Flank[i].Limit, s.Flank[i].Static = borne(contactLife(g.Strength.Group, in.LimitedPitting, 0.85), g.Strength.Contact*zwStatic, g.Strength.Contact*long, cycles)

	// Part 3.
	grade := max(in.Gear[0].Grade, in.Gear[1].Grade)
	s.Root[i].Stress = ft / (p.Face * p.Module) * t.YF * t.YS * f.YBeta * rimFactor(g.Body.Rim, f.Height[i]) * deepToothFactor(f.NormalContact, grade) * kA * kv * kFb * kFa
	group := g.Strength.Group
	once := 2 * g.Strength.Bending * staticNotchSensitivity(g.Strength, t.YS) * meanStressFactor(group, g.Reversal, t.YS, true)
	ever := 2 * g.Strength.Bending * notchSensitivity(g.Strength, t.Notch) * rootSurfaceFactor(group, g.RootRoughness) * rootSizeFactor(group, p.Module) * meanStressFactor(group, g.Reversal, t.YS, false)
	s.Root[i].Limit, s.Root[i].Static = borne(bendingLife(group, 0.85), once, ever, cycles)
	return s
}

// borne draws straight lines through the corners of life on double-logarithmic paper, never rising.
func borne(life material.Curve, once, ever, cycles float64) (limit, static float64) {
	corners := life.Corners()
	static = once * corners[0].Factor
	n, last := corners[0].Cycles, static
	if cycles <= n {
		return static, static
	}
	for _, p := range corners[1:] {
		next := min(last, ever*p.Factor)
		if cycles <= p.Cycles {
			return last * math.Pow(next/last, math.Log(cycles/n)/math.Log(p.Cycles/n)), static
		}
		n, last = p.Cycles, next
	}
	return last, static
}

// What is compiled at another speed and for other turns, and put to a torque and K_Hβ, is what the formulas give from the top, and so is Rate.
func TestCompiledIsTheRating(t *testing.T) {
	regimes := map[Regime]int{}
	rapid.Check(t, func(t *rapid.T) {
		f := drawUsualForm(t)
		in := drawUsualInput(t, f)
		base, once := resonance(f, in), in
		once.Speed, once.Turns, once.Torque, once.KHb = 77, 1e5, 0, 0 // neither torque nor K_Hβ is read
		first := int(in.Gear[0].Strength.Group)
		for k, n := range append(speeds, -1) {
			in.Speed, in.KV = n*base, 0
			if n < 0 {
				in.Speed, in.KV = base, 1.3
			}
			group := material.Group(1 + (first+k)%int(material.GroupNitrocarburised))
			in.Gear[0].Strength.Group, once.Gear[0].Strength.Group, once.KV = group, group, in.KV
			c, err := f.Compile(once)
			if err != nil {
				t.Fatal(err)
			}
			if c, err = c.With(in.Speed, in.Turns); err != nil {
				t.Fatal(err)
			}
			r, err := f.Rate(in)
			if err != nil {
				t.Fatal(err)
			}
			regimes[r.Dynamic.Regime]++
			got := c.At(in.Torque, in.KHb)
			for i := range sides {
				want := straight(f, in, i)
				same := func(what string, u, want Utilisation, o *Outcome) {
					for _, v := range [][2]float64{
						{u.Stress, want.Stress}, {u.Limit, want.Limit}, {u.Static, want.Static},
						{o.Stress, want.Stress}, {o.Limit, want.Limit}, {o.Static, want.Static},
					} {
						if !(math.Abs(v[0]/v[1]-1) <= 1e-12) {
							t.Fatalf("%s, %s: %+v and %+v, straight %+v; %s, N = %v", sides[i], what, u, o, want, r.Dynamic.Regime, r.Dynamic.Ratio)
						}
					}
				}
				same("flank", got.Flank[i], want.Flank[i], &r.Flank[i].Outcome)
				same("root", got.Root[i], want.Root[i], &r.Root[i].Outcome)
			}
		}
	})
	for _, want := range []Regime{Standing, Subcritical, MainResonance, Intermediate, Supercritical, Given} {
		if regimes[want] == 0 {
			t.Errorf("no draw was %s", want)
		}
	}
}

// A step's part of the Miner sum is its cycles over those that its stress is borne for, as the drawn curve has them.
func TestCompiledDamageIsCyclesOverLife(t *testing.T) {
	worn := 0
	rapid.Check(t, func(t *rapid.T) {
		f := drawUsualForm(t)
		in := drawUsualInput(t, f)
		c, err := f.Compile(in)
		if err != nil {
			t.Fatal(err)
		}
		r, err := f.Rate(in)
		if err != nil {
			t.Fatal(err)
		}
		for i := range sides {
			for _, row := range []struct {
				what string
				got  float64
				of   *Outcome
			}{{"flank", c.FlankDamage(i, r.Flank[i].Stress), &r.Flank[i].Outcome}, {"root", c.RootDamage(i, r.Root[i].Stress), &r.Root[i].Outcome}} {
				want := row.of.Cycles / slowLife(&row.of.Curve, row.of.Stress)
				if row.of.Cycles == 0 {
					want = 0
				}
				if row.got != want && !(math.Abs(row.got/want-1) <= 1e-9) {
					t.Fatalf("%s of the %s: %v, want %v", row.what, sides[i], row.got, want)
				}
				if want > 0 && !math.IsInf(want, 1) {
					worn++
				}
			}
		}
	})
	if draws.Full() && worn < 10 {
		t.Errorf("only %d draws wear anything out", worn)
	}
}

// slowLife halves the axis of the cycles until the curve has the stress there.
func slowLife(c *material.Curve, stress float64) float64 {
	corners := c.Corners()
	last := corners[len(corners)-1]
	low, high := math.Log(corners[0].Cycles), math.Log(last.Cycles)
	switch {
	case stress > corners[0].Factor:
		return 0
	case stress <= last.Factor:
		return math.Inf(1)
	}
	for range 200 {
		if mid := (low + high) / 2; c.At(math.Exp(mid)) >= stress {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Exp(low)
}

func TestCompiledNeedsNoMemory(t *testing.T) {
	c := compiled(t, helicalSpec(), inputOf(t))
	sum := 0.0
	if n := testing.AllocsPerRun(100, func() {
		s := c.At(180000, 1.3)
		sum += c.FlankDamage(0, s.Flank[0].Stress) + c.RootDamage(1, s.Root[1].Stress)
	}); n != 0 {
		t.Errorf("%g allocations a load", n)
	}
}

// Good input is checked without making words.
func TestGoodInputCostsNoWords(t *testing.T) {
	in := inputOf(t)
	if n := testing.AllocsPerRun(100, func() {
		if err := in.validate(); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations to check a good input", n)
	}
}

func TestCompileRefuses(t *testing.T) {
	f := formOf(t, helicalSpec(), Edition2019)
	in := inputOf(t)
	in.Viscosity = 0
	if _, err := f.Compile(in); err == nil {
		t.Error("an oil without viscosity was taken")
	}
	c := compiled(t, helicalSpec(), inputOf(t))
	if _, err := c.With(-1, 0); err == nil {
		t.Error("a negative speed was taken")
	}
	if _, err := c.With(1, math.NaN()); err == nil {
		t.Error("turns that are no number were taken")
	}
}

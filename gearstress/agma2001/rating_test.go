package agma2001

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/gearstress/involute"
	"layshaft/material"
)

// sample is a helical pair of a first speed; all numbers invented.
func sample(t testing.TB) Input {
	t.Helper()
	p := pair(t, involute.Spec{Module: 2.5, Rack: involute.StandardRack, Helix: 25 * deg, Teeth: [2]int{14, 41}, Shift: [2]float64{0.35, 0}, Face: 22})
	steel, _ := material.Find("case-carburised")
	s, err := StrengthOf(steel, material.Typical)
	if err != nil {
		t.Fatal(err)
	}
	return Input{Form: form(t, p, ToolOf(p.Rack)), Torque: 180e3, Speed: 300, Turns: 2e6, Quality: 10, FaceLoad: 1.3, FaceLoadOrigin: "load along the face",
		Gear: [2]Gear{{Strength: s}, {Strength: s}}}
}

func rate(t testing.TB, in Input) *Rating {
	t.Helper()
	r, err := Rate(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A pair k times as large under k³ times the torque at the same pitch line speed is stressed the same.
func TestStressDoesNotDependOnSize(t *testing.T) {
	in := sample(t)
	small := rate(t, in)
	const k = 2.3
	s := in.Form.Pair.Spec
	s.Module, s.Face = k*s.Module, k*s.Face
	in.Form = form(t, pair(t, s), in.Form.Tool)
	in.Torque, in.Speed = in.Torque*k*k*k, in.Speed/k
	big := rate(t, in)
	for i := range sides {
		near(t, "s_t", big.Root[i].Stress, small.Root[i].Stress, 1e-9*small.Root[i].Stress)
		near(t, "s_c", big.Flank[i].Stress, small.Flank[i].Stress, 1e-9*small.Flank[i].Stress)
		near(t, "torque", big.Root[i].Torque, small.Root[i].Torque*k*k*k, 1e-9*big.Root[i].Torque)
	}
}

// The same mesh seen from its other gear.
func TestDriverAndDrivenChangePlaces(t *testing.T) {
	in := sample(t)
	in.Gear[0].Backup, in.Gear[1].Reversed = 1, true
	there := rate(t, in)
	s := in.Form.Pair.Spec
	ratio := float64(s.Teeth[1]) / float64(s.Teeth[0])
	s.Teeth[0], s.Teeth[1] = s.Teeth[1], s.Teeth[0]
	s.Shift[0], s.Shift[1] = s.Shift[1], s.Shift[0]
	in.Gear[0], in.Gear[1] = in.Gear[1], in.Gear[0]
	in.Form = form(t, pair(t, s), in.Form.Tool)
	in.Torque, in.Speed, in.Turns = in.Torque*ratio, in.Speed/ratio, in.Turns/ratio
	back := rate(t, in)
	for i := range sides {
		j := 1 - i
		near(t, "s_t", back.Root[j].Stress, there.Root[i].Stress, 1e-9*there.Root[i].Stress)
		near(t, "S_F", back.Root[j].Safety, there.Root[i].Safety, 1e-9*there.Root[i].Safety)
		near(t, "s_c", back.Flank[j].Stress, there.Flank[i].Stress, 1e-9*there.Flank[i].Stress)
		near(t, "S_H", back.Flank[j].Safety, there.Flank[i].Safety, 1e-9*there.Flank[i].Safety)
	}
}

func TestStressIsAFunctionOfTorque(t *testing.T) {
	in := sample(t)
	r := rate(t, in)
	for i := range sides {
		near(t, "s_t at the torque rated", r.RootStress(i, in.Torque), r.Root[i].Stress, 0)
		near(t, "s_t at twice the torque", r.RootStress(i, 2*in.Torque), 2*r.Root[i].Stress, 1e-9*r.Root[i].Stress)
		near(t, "s_c at four times the torque", r.FlankStress(i, 4*in.Torque), 2*r.Flank[i].Stress, 1e-9*r.Flank[i].Stress)
		near(t, "s_t at the torque of safety 1", r.RootStress(i, r.Root[i].Torque), r.Root[i].Permissible, 1e-9*r.Root[i].Permissible)
		near(t, "s_c at the torque of safety 1", r.FlankStress(i, r.Flank[i].Torque), r.Flank[i].Permissible, 1e-9*r.Flank[i].Permissible)
	}
	// Rated at that torque, each limit is just reached, and the life is the one asked for.
	in.Torque = r.Root[0].Torque
	again := rate(t, in)
	near(t, "S_F", again.Root[0].Safety, 1, 1e-9)
	near(t, "life, cycles", again.Root[0].Life, again.Root[0].Cycles, 1e-6*again.Root[0].Cycles)
	in.Torque = r.Flank[0].Torque
	again = rate(t, in)
	near(t, "S_H", again.Flank[0].Safety, 1, 1e-9)
	near(t, "life, cycles", again.Flank[0].Life, again.Flank[0].Cycles, 1e-6*again.Flank[0].Cycles)
}

func TestEveryFactorMovesItsStress(t *testing.T) {
	plain := rate(t, sample(t))
	for what, c := range map[string]struct {
		change                func(*Input)
		root, flank           float64 // factor on stresses of the driver
		rootLimit, flankLimit float64 // factor on what is permissible
	}{
		"K_o":          {func(in *Input) { in.Overload = 1.5 }, 1.5, math.Sqrt(1.5), 1, 1},
		"K_v":          {func(in *Input) { in.Dynamic = 2 * plain.Kv }, 2, math.Sqrt2, 1, 1},
		"K_m":          {func(in *Input) { in.FaceLoad *= 1.2 }, 1.2, math.Sqrt(1.2), 1, 1},
		"K_s":          {func(in *Input) { in.Gear[0].Size = 1.1 }, 1.1, math.Sqrt(1.1), 1, 1},
		"K_B":          {func(in *Input) { in.Gear[0].Backup = 0.8 }, 1.6 * math.Log(2.242/0.8), 1, 1, 1},
		"C_f":          {func(in *Input) { in.SurfaceCondition = 1.2 }, 1, math.Sqrt(1.2), 1, 1},
		"C_p":          {func(in *Input) { in.ElasticCoefficient = 0.9 * SteelElasticCoefficient }, 1, 0.9, 1, 1},
		"K_T":          {func(in *Input) { in.Temperature = 1.25 }, 1, 1, 0.8, 0.8},
		"reversed":     {func(in *Input) { in.Gear[0].Reversed = true }, 1, 1, 0.7, 1},
		"reliability":  {func(in *Input) { in.Reliability = 0.999 }, 1, 1, 0.8, 0.8},
		"two contacts": {func(in *Input) { in.Gear[0].Contacts = 2 }, 1, 1, plain.Root[0].Curve.At(4e6) / plain.Root[0].Curve.At(2e6), plain.Flank[0].Curve.At(4e6) / plain.Flank[0].Curve.At(2e6)},
	} {
		in := sample(t)
		c.change(&in)
		r := rate(t, in)
		near(t, what+", s_t", r.Root[0].Stress, plain.Root[0].Stress*c.root, 1e-9*r.Root[0].Stress)
		near(t, what+", s_c", r.Flank[0].Stress, plain.Flank[0].Stress*c.flank, 1e-9*r.Flank[0].Stress)
		near(t, what+", root limit", r.Root[0].Permissible, plain.Root[0].Permissible*c.rootLimit, 1e-9*r.Root[0].Permissible)
		near(t, what+", flank limit", r.Flank[0].Permissible, plain.Flank[0].Permissible*c.flankLimit, 1e-9*r.Flank[0].Permissible)
	}
}

func TestBranchesDifferOnlyAboveTheKnee(t *testing.T) {
	in := sample(t)
	in.Turns = 1e9
	low := rate(t, in)
	in.Branch = UpperBranch
	high := rate(t, in)
	if !(low.Root[0].LifeFactor < high.Root[0].LifeFactor && low.Flank[0].LifeFactor < high.Flank[0].LifeFactor) {
		t.Errorf("critical service %v, %v; general %v, %v", low.Root[0].LifeFactor, low.Flank[0].LifeFactor, high.Root[0].LifeFactor, high.Flank[0].LifeFactor)
	}
	in.Turns = 1e5
	high = rate(t, in)
	in.Branch = LowerBranch
	low = rate(t, in)
	near(t, "Y_N at 10⁵", low.Root[0].LifeFactor, high.Root[0].LifeFactor, 1e-4)
	near(t, "Z_N at 10⁵", low.Flank[0].LifeFactor, high.Flank[0].LifeFactor, 1e-4)
	in.Turns = 1e12
	if r := rate(t, in); !strings.Contains(strings.Join(r.Notes, "\n"), "beyond the 10^10") {
		t.Errorf("notes %q do not say that the curves end", r.Notes)
	}
}

func TestSoftLifeCurvesLieBetweenTheirNeighbours(t *testing.T) {
	at := func(hb float64) float64 {
		c, err := BendingLife(ThroughHardened, hb, UpperBranch)
		if err != nil {
			t.Fatal(err)
		}
		return c.At(1e4)
	}
	for hb, last := 120.0, 0.0; hb <= 480; hb += 10 {
		v := at(hb)
		if v < last || v < at(160) || v > at(400) {
			t.Errorf("%v HB: Y_N %v after %v", hb, v, last)
		}
		last = v
	}
	near(t, "Y_N beyond the figure", at(480), at(400), 0)
}

func TestHardnessRatio(t *testing.T) {
	// Limits and a value in use: 1.005 at 240/200 HB and 52/17 (Shigley, Example 14-4).
	near(t, "C_H", WorkHardeningThrough(240, 200, 52.0/17), 1.005, 0.0005)
	near(t, "C_H below 1.2", WorkHardeningThrough(230, 200, 5), 1, 0)
	near(t, "C_H above 1.7", WorkHardeningThrough(400, 200, 3), 1+0.00698*2, 1e-12)
	near(t, "C_H joins at 1.7", 8.98e-3*1.7-8.29e-3, 0.00698, 1e-5)
	near(t, "C_H of a hard, smooth pinion", WorkHardeningSurface(0, 250), 1.15, 1e-12)
	near(t, "C_H at 450 HB", WorkHardeningSurface(0.001, 450), 1, 0)

	in := sample(t)
	soft := Strength{Root: 230, Flank: 800, Treatment: ThroughHardened, Hardness: 250, Source: "test"}
	in.Gear[1].Strength = soft
	near(t, "C_H, roughness not known", rate(t, in).Flank[1].CH, 1, 0)
	in.PinionRoughness = 0.0004
	r := rate(t, in)
	near(t, "C_H, hard pinion", r.Flank[1].CH, WorkHardeningSurface(0.0004, 250), 0)
	near(t, "C_H of the pinion", r.Flank[0].CH, 1, 0)
	in.Gear[0].Strength = soft
	in.Gear[0].Strength.Hardness = 350
	near(t, "C_H, both soft", rate(t, in).Flank[1].CH, WorkHardeningThrough(350, 250, 41.0/14), 0)
}

func TestRateNamesEverythingWrong(t *testing.T) {
	in := sample(t)
	in.Torque, in.Speed, in.Turns, in.Overload, in.FaceLoad = -1, math.NaN(), 0, 0.5, 0
	in.Gear[0].Strength.Root, in.Gear[1].Strength.Source = 0, ""
	_, err := Rate(in)
	for _, want := range []string{"torque on the driver is -1", "speed of the driver is NaN", "makes 0 turns", "K_o is 0.5", "K_m is 0", "driver: allowable", "driven gear: the allowable stress numbers must say"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error lacks %q:\n%v", want, err)
		}
	}
	in = sample(t)
	in.Quality, in.Reliability, in.Gear[0].Backup, in.Branch, in.Gear[1].Strength.Treatment = 12, 2, 0.3, 7, 0
	_, err = Rate(in)
	for _, want := range []string{"Q_v is 12", "reliability is 2", "0.3 tooth heights", "branch 7", "driven gear, root"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error lacks %q:\n%v", want, err)
		}
	}
	if _, err := Rate(Input{}); err == nil {
		t.Error("nothing was rated")
	}
	in = sample(t)
	in.Gear[0].Strength.Treatment = ThroughHardened
	if _, err := Rate(in); err == nil || !strings.Contains(err.Error(), "needs their Brinell hardness") {
		t.Errorf("through-hardened without hardness: %v", err)
	}
}

func TestEverySteelOfTheListCanBeRated(t *testing.T) {
	for _, steel := range material.Steels() {
		last := 0.0
		for l := material.Low; l <= material.High; l++ {
			s, err := StrengthOf(steel, l)
			if err != nil {
				t.Fatal(err)
			}
			in := sample(t)
			in.Gear = [2]Gear{{Strength: s}, {Strength: s}}
			r := rate(t, in)
			if r.Root[0].Torque < last {
				t.Errorf("%s, %v: root bears %v N·mm, one level below %v", steel.Name, l, r.Root[0].Torque, last)
			}
			last = r.Root[0].Torque
		}
	}
	if _, err := StrengthOf(material.Steel{Name: "mine"}, material.Low); err == nil || !strings.Contains(err.Error(), `"mine"`) {
		t.Errorf("steel without numbers: %v", err)
	}
}

func TestFactorsListEverything(t *testing.T) {
	r := rate(t, sample(t))
	seen := map[string]bool{}
	for _, f := range r.Factors() {
		if seen[f.Symbol] || f.Words == "" || f.Source == "" || !(f.Value[0] > 0 && f.Value[1] > 0) {
			t.Errorf("%+v", f)
		}
		seen[f.Symbol] = true
	}
	for _, want := range []string{"K_o", "K_v", "K_s", "K_m (K_H)", "K_B", "K_f", "C_p (Z_E)", "I (Z_I)", "J (Y_J)", "Y_N", "Z_N", "K_R (Y_Z)", "K_T (Y_θ)", "C_H (Z_W)", "S_F", "S_H"} {
		if !seen[want] {
			t.Errorf("%s is missing", want)
		}
	}
}

// Whatever is given, a rating is finite or an error.
func TestFiniteOrError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := involute.New(drawSpec(t))
		if err != nil {
			t.Skip(err.Error())
		}
		wild := func(name string, low, high float64) float64 {
			return rapid.OneOf(rapid.Float64Range(low, high), rapid.Float64Range(low, high), rapid.Float64Range(low, high), rapid.Float64()).Draw(t, name)
		}
		tool := Tool{Addendum: wild("tool addendum", 1, 1.5), TipRadius: wild("tip radius", 0, 0.4), Protuberance: wild("protuberance", 0, 0.1), Thinning: [2]float64{wild("thinning", 0, 0.1), 0.02}}
		f, err := NewForm(p, tool)
		if err != nil {
			return
		}
		in := Input{Form: f, Torque: wild("torque", 1, 1e7), Speed: wild("speed", 0, 1e3), Turns: wild("turns", 1, 1e11), Quality: wild("quality", 5, 11),
			Overload: wild("K_o", 1, 2), FaceLoad: wild("K_m", 1, 3), FaceLoadOrigin: "drawn", Reliability: wild("reliability", 0.5, 0.9999),
			SurfaceCondition: wild("C_f", 1, 2), Temperature: wild("K_T", 1, 2), PinionRoughness: wild("roughness", 0, 0.01),
			Branch: rapid.SampledFrom([]Branch{LowerBranch, UpperBranch}).Draw(t, "branch")}
		for i := range in.Gear {
			in.Gear[i] = Gear{Size: wild("K_s", 1, 2), Backup: wild("m_B", 0.5, 3), Contacts: rapid.IntRange(0, 4).Draw(t, "contacts"), Reversed: rapid.Bool().Draw(t, "reversed"),
				Strength: Strength{Root: wild("s_at", 100, 600), Flank: wild("s_ac", 500, 2000), Hardness: wild("HB", 150, 700), Source: "drawn",
					Treatment: Treatment(rapid.IntRange(1, 4).Draw(t, "treatment"))}}
		}
		r, err := Rate(in)
		if err != nil {
			return
		}
		for _, v := range r.Factors() {
			for _, x := range v.Value {
				if !(x > 0) || math.IsInf(x, 0) {
					t.Fatalf("%s = %v", v.Symbol, x)
				}
			}
		}
		for i := range sides {
			for _, o := range []Outcome{r.Root[i].Outcome, r.Flank[i].Outcome} {
				if !(o.Torque > 0) || math.IsInf(o.Torque, 0) || math.IsNaN(o.Life) || o.Life < 0 {
					t.Fatalf("%+v", o)
				}
				// Safety and life say the same.
				if (o.Safety > 1.0001 && o.Life < o.Cycles*0.999) || (o.Safety < 0.9999 && o.Life > o.Cycles*1.001) {
					t.Fatalf("safety %v, but %v of %v cycles", o.Safety, o.Life, o.Cycles)
				}
			}
		}
	})
}

func BenchmarkRate(b *testing.B) {
	in := sample(b)
	for b.Loop() {
		if _, err := Rate(in); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleDynamicFactor() {
	kv, err := DynamicFactor(10, 12000) // Q_v = 10, 12 m/s
	fmt.Printf("K_v = %.3f, %v\n", kv, err)
	// Output: K_v = 1.199, <nil>
}

// A_v counts downwards from the best, Q_v upwards: 6 and 11 are the same gear.
func TestQualityOfAccuracy(t *testing.T) {
	near(t, "Q_v of A_v 6", QualityOfAccuracy(6), 11, 0)
	near(t, "Q_v of A_v 11", QualityOfAccuracy(11), 6, 0)
	near(t, "finer than K_v has a formula for", QualityOfAccuracy(3), 11, 0)
	near(t, "coarser", QualityOfAccuracy(13), 5, 0)
}

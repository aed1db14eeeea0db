package material

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

// curve draws any curve that NewCurve accepts.
func curve(t *rapid.T) Curve {
	n := rapid.IntRange(1, 5).Draw(t, "corners")
	cycles, factor := 1.0, rapid.Float64Range(1, 10).Draw(t, "static")
	var points []LifePoint
	for range n {
		cycles *= rapid.Float64Range(1.5, 1e3).Draw(t, "step in cycles")
		points = append(points, LifePoint{cycles, factor})
		factor *= rapid.SampledFrom([]float64{1, 0.9, 0.5, 0.2}).Draw(t, "step in factor")
	}
	c, err := NewCurve(points, rapid.SampledFrom([]float64{0, 0.02, 0.1}).Draw(t, "tail"), "drawn")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestCurveNeverRisesNorJumps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := curve(t)
		n := math.Pow(10, rapid.Float64Range(0, 16).Draw(t, "lg N"))
		here, next := c.At(n), c.At(n*(1+1e-9))
		if next > here*(1+1e-12) || here-next > 1e-6*here {
			t.Fatalf("from %v to %v at %v cycles", here, next, n)
		}
		if here > c.Static() || here < c.Endurance() {
			t.Fatalf("%v at %v cycles is not between %v and %v", here, n, c.Endurance(), c.Static())
		}
		for _, p := range c.points {
			if math.Abs(c.At(p.Cycles)-p.Factor) > 1e-12*p.Factor {
				t.Fatalf("corner %v gives %v", p, c.At(p.Cycles))
			}
		}
	})
}

func TestCyclesIsTheReverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := curve(t)
		n := math.Pow(10, rapid.Float64Range(0, 16).Draw(t, "lg N"))
		f := c.At(n)
		life := c.Cycles(f)
		// On a level stretch the end of it comes back.
		if !(life >= n*(1-1e-6)) {
			t.Fatalf("factor %v of %v cycles is borne %v cycles", f, n, life)
		}
		if !math.IsInf(life, 1) && math.Abs(c.At(life)-f) > 1e-9*f {
			t.Fatalf("factor %v, borne %v cycles, comes back as %v", f, life, c.At(life))
		}
		if c.Cycles(c.Static()*1.001) != 0 {
			t.Fatal("a factor above the static one is borne")
		}
		if e := c.Endurance(); e > 0 && !math.IsInf(c.Cycles(e), 1) {
			t.Fatal("the endurance is not borne for ever")
		}
	})
}

// Case-carburised root, ISO 6336-3: 2.5 to 10³ cycles, 1 from 3·10⁶ on (from memory). In
// between 2.5 · (10³/N)^0.1144.
func TestCurveOfAKnownLaw(t *testing.T) {
	c, err := NewCurve([]LifePoint{{1e3, 2.5}, {3e6, 1}}, 0, "ISO 6336-3, Y_NT (from memory)")
	if err != nil {
		t.Fatal(err)
	}
	slope := math.Log(2.5) / math.Log(3e3)
	for n, want := range map[float64]float64{
		0: 2.5, 1: 2.5, 1e3: 2.5, 1e4: 2.5 * math.Pow(0.1, slope), 1e5: 2.5 * math.Pow(0.01, slope), 3e6: 1, 1e12: 1,
	} {
		if got := c.At(n); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v cycles: %v, want %v", n, got, want)
		}
	}
	if got := c.Cycles(1.5); math.Abs(c.At(got)-1.5) > 1e-12 {
		t.Errorf("1.5 is borne %v cycles", got)
	}
	if !math.IsNaN(c.At(math.NaN())) || !math.IsNaN(c.Cycles(math.NaN())) {
		t.Error("not a number in, a number out")
	}
}

func TestNewCurveNamesEverythingWrong(t *testing.T) {
	_, err := NewCurve([]LifePoint{{10, 2}, {5, 3}, {0, 1}, {100, math.NaN()}}, -1, "")
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{"corner 2", "corner 3", "corner 4", "exponent -1", "where it comes from"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error lacks %q:\n%v", want, err)
		}
	}
	if _, err := NewCurve(nil, 0, "nothing"); err == nil {
		t.Error("a curve without corners was accepted")
	}
}

func TestMiner(t *testing.T) {
	c, err := NewCurve([]LifePoint{{1e3, 2.5}, {3e6, 1}}, 0, "ISO 6336-3, Y_NT (from memory)")
	if err != nil {
		t.Fatal(err)
	}
	n1, n2 := c.Cycles(1.5), c.Cycles(2)
	got, err := c.Damage(400, []Bin{{600, n1 / 4}, {800, n2 / 2}, {399, 1e12}, {5000, 0}, {0, 1e9}})
	if err != nil || math.Abs(got-0.75) > 1e-12 {
		t.Errorf("damage %v, %v; want a quarter and a half", got, err)
	}
	if got, err := c.Damage(400, []Bin{{1001, 1}}); err != nil || !math.IsInf(got, 1) {
		t.Errorf("above the static strength: %v, %v", got, err)
	}
	_, err = c.Damage(0, []Bin{{-1, 1}, {1, math.NaN()}})
	for _, want := range []string{"strength is 0", "step 1", "step 2"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error lacks %q: %v", want, err)
		}
	}
}

func TestMinerAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := curve(t)
		stress := rapid.SliceOfN(rapid.Float64Range(0, 900), 1, 5).Draw(t, "stress")
		var bins []Bin
		sum := 0.0
		for _, s := range stress {
			b := Bin{s, rapid.Float64Range(0, 1e6).Draw(t, "cycles")}
			one, err := c.Damage(400, []Bin{b})
			if err != nil {
				t.Fatal(err)
			}
			sum += one
			bins = append(bins, b)
		}
		all, err := c.Damage(400, bins)
		if err != nil || !(all == sum || math.Abs(all-sum) <= 1e-12*sum) {
			t.Fatalf("together %v, one by one %v, %v", all, sum, err)
		}
	})
}

func BenchmarkMiner(b *testing.B) {
	c, err := NewCurve([]LifePoint{{1e3, 2.5}, {3e6, 1}, {1e10, 0.85}}, 0, "ISO 6336-3, Y_NT (from memory)")
	if err != nil {
		b.Fatal(err)
	}
	var bins []Bin
	for k := range 20 {
		bins = append(bins, Bin{300 + 20*float64(k), 1e4})
	}
	for b.Loop() {
		if _, err := c.Damage(400, bins); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSteels(b *testing.B) {
	for b.Loop() {
		if len(Steels()) == 0 {
			b.Fatal("no steels")
		}
	}
}

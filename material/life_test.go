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
	c, err := NewCurve(points, rapid.SampledFrom([]float64{0, 0.02, 0.1}).Draw(t, "tail"))
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
		for _, p := range c.Corners() {
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
	c, err := NewCurve([]LifePoint{{1e3, 2.5}, {3e6, 1}}, 0)
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
	_, err := NewCurve([]LifePoint{{10, 2}, {5, 3}, {0, 1}, {100, math.NaN()}}, -1)
	if err == nil {
		t.Fatal("accepted")
	}
	for _, want := range []string{"corner 2", "corner 3", "corner 4", "exponent -1"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error lacks %q:\n%v", want, err)
		}
	}
	if _, err := NewCurve(nil, 0); err == nil {
		t.Error("a curve without corners was accepted")
	}
}

func TestMiner(t *testing.T) {
	c, err := NewCurve([]LifePoint{{1e3, 2.5}, {3e6, 1}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	n1, n2 := c.Cycles(1.5), c.Cycles(2)
	if got := c.Damage(1.5, n1/4) + c.Damage(2, n2/2) + c.Damage(0.9975, 1e12) + c.Damage(12.5, 0) + c.Damage(0, 1e9); math.Abs(got-0.75) > 1e-12 {
		t.Errorf("damage %v; want a quarter and a half", got)
	}
	if got := c.Damage(2.5025, 1); !math.IsInf(got, 1) {
		t.Errorf("above the static strength: %v", got)
	}
}

// The ordinate may be a factor or the strength itself: the damage of a stress is that of its share.
func TestCurveInFactorsOrStresses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := curve(t)
		strength := rapid.Float64Range(50, 2000).Draw(t, "strength")
		d := Curve{tail: c.tail}
		for _, p := range c.Corners() {
			d.Add(p.Cycles, p.Factor*strength)
		}
		factor, cycles := rapid.Float64Range(0, 12).Draw(t, "factor"), rapid.Float64Range(0, 1e9).Draw(t, "cycles")
		if a, b := c.At(cycles)*strength, d.At(cycles); math.Abs(a-b) > 1e-9*a {
			t.Fatalf("%v MPa at %v cycles, by factors %v", b, cycles, a)
		}
		for _, p := range c.Corners() {
			if math.Abs(factor/p.Factor-1) < 1e-9 {
				return // rounding decides on which side of a level stretch it is
			}
		}
		if a, b := c.Damage(factor, cycles), d.Damage(factor*strength, cycles); a != b && !(math.Abs(a-b) <= 1e-9*a) && a > 1e-250 {
			t.Fatalf("damage %v, by factors %v", b, a)
		}
	})
}

func TestAddNeverRises(t *testing.T) {
	var c Curve
	c.Add(1e3, 2)
	c.Add(1e6, 3)
	if got := c.At(1e6); got != 2 {
		t.Errorf("%v at a corner that would lie above the one before; want 2", got)
	}
}

func BenchmarkSteels(b *testing.B) {
	for b.Loop() {
		if len(Steels()) == 0 {
			b.Fatal("no steels")
		}
	}
}

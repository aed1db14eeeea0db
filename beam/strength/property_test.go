package strength

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "layshaft/testdata/draws"
)

func load(t *rapid.T) Load {
	draw := func(what string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, what) }
	return Load{Moment: draw("M", 5e5), Torque: rapid.Float64Range(-9e5, 9e5).Draw(t, "T"), Normal: rapid.Float64Range(-2e4, 2e4).Draw(t, "N"), Shear: draw("V", 3e4)}
}

// drawn is any notch that there can be, with sizes of a gearbox shaft.
func drawn(t *rapid.T) Notch {
	outer := rapid.Float64Range(15, 80).Draw(t, "outer")
	bore := outer * rapid.SampledFrom([]float64{0, 0.2, 0.5}).Draw(t, "bore")
	bottom := bore + (outer-bore)*rapid.Float64Range(0.6, 0.97).Draw(t, "bottom")
	return Notch{
		Kind: rapid.SampledFrom(Kinds()).Draw(t, "kind"), Outer: outer, Bottom: bottom, Bore: bore,
		Radius: rapid.Float64Range(0.1, 3).Draw(t, "radius"), Hole: outer * rapid.Float64Range(0.02, 0.5).Draw(t, "hole"), Depth: (outer - bore) * rapid.Float64Range(0, 0.4).Draw(t, "depth"),
	}
}

func ready(t *rapid.T) *Fatigue {
	tensile := rapid.Float64Range(450, 1500).Draw(t, "tensile")
	f, err := drawn(t).Fatigue(Steel{tensile, tensile * rapid.Float64Range(0.5, 0.95).Draw(t, "yield")}, Rules{
		rapid.SampledFrom(Surfaces()).Draw(t, "surface"), rapid.SampledFrom(Criteria()).Draw(t, "criterion"), rapid.SampledFrom(Torsions()).Draw(t, "torsion"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestFactorsAreNeverLessThanOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := ready(t)
		for _, k := range []float64{f.Shape.Bending, f.Shape.Tension, f.Felt.Bending, f.Felt.Tension} {
			if !(k >= 1 && k < 30) {
				t.Fatalf("%+v, felt %+v", f.Shape, f.Felt)
			}
		}
		if f.Felt.Bending > f.Shape.Bending+1e-12 || f.Felt.Tension > f.Shape.Tension+1e-12 {
			t.Fatalf("fatigue feels more than there is: %+v, %+v", f.Shape, f.Felt)
		}
		if f.Shape.Source == "" || !strings.Contains(f.Source(), string(f.rules.Criterion)) {
			t.Fatal("no source")
		}
	})
}

// Whatever the criterion: at its safety the loads are worth the endurance limit and no more.
func TestUsedAndReversedAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := ready(t)
		w := f.Swing(load(t))
		used := f.Used(w)
		if used == 0 {
			return
		}
		if w.Amplitude < 1e-3*w.Mean {
			return // nothing swings: the limit is that of the mean alone
		}
		at := Swing{w.Amplitude / used, w.Mean / used}
		if got := f.rules.Criterion.Reversed(at, f.steel); math.Abs(got-f.Endurance) > 1e-6*f.Endurance {
			t.Fatalf("%s: %+v reversed is %g, endurance %g", f.rules.Criterion, at, got, f.Endurance)
		}
	})
}

// What a duty uses up grows like its loads; more turns use up more; endless turns what an endless life does.
func TestUsedUpGrowsLikeTheLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := ready(t)
		var bins, double, endless, longer []Bin
		least := 0.0
		for range rapid.IntRange(1, 4).Draw(t, "bins") {
			b := Bin{f.Swing(load(t)), math.Pow(10, rapid.Float64Range(0.5, 8).Draw(t, "turns"))}
			bins = append(bins, b)
			double = append(double, Bin{Swing{2 * b.Amplitude, 2 * b.Mean}, b.Turns})
			endless = append(endless, Bin{b.Swing, 1e30})
			longer = append(longer, Bin{b.Swing, 3 * b.Turns})
			least = max(least, f.Used(b.Swing))
		}
		u := f.UsedUp(bins)
		if got := f.UsedUp(double); math.Abs(got-2*u) > 1e-9*u {
			t.Fatalf("twice the loads use up %g, not twice %g", got, u)
		}
		if got := f.UsedUp(longer); got < u*(1-1e-9) {
			t.Fatalf("three times the turns use up %g, less than %g", got, u)
		}
		if got := f.UsedUp(endless); math.Abs(got-least) > 1e-9*least {
			t.Fatalf("endless turns use up %g, an endless life %g", got, least)
		}
	})
}

// The life ends where Miner's sum is 1: just below that load it isn't, just above it is, from any number of bins.
func TestUsedUpIsWhereTheSumIsOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := ready(t)
		var bins []Bin
		for range rapid.IntRange(1, 20).Draw(t, "bins") { // 2 turns and more: one alone ends at what is borne once
			bins = append(bins, Bin{f.Swing(load(t)), 2 * math.Pow(10, rapid.Float64Range(0, 8).Draw(t, "turns"))})
		}
		used := f.UsedUp(bins)
		if used == 0 {
			return
		}
		sum := func(growth float64) (d float64) {
			for _, b := range bins {
				d += f.Damage(Swing{b.Amplitude * growth / used, b.Mean * growth / used}, b.Turns)
			}
			return d
		}
		if below, above := sum(1-1e-9), sum(1+1e-9); !(below < 1 && above >= 1) {
			t.Fatalf("%g of the life is used up, where Miner's sum goes from %.12g to %.12g", used, below, above)
		}
	})
}

// A transverse force makes 4/3 of its mean at the axis of a solid section and twice the mean in a thin tube, and the sum
// of τ over a section is the force.
func TestTransverseShear(t *testing.T) {
	near(t, "solid", Ring(30, 0).Uneven, 4./3, 1e-12)
	near(t, "thin", Ring(30, 29.999).Uneven, 2, 1e-3)
	near(t, "equivalent stress of shear alone", Ring(30, 0).Under(Load{Shear: 1e4}).VonMises(), math.Sqrt(3)*4/3*1e4/(math.Pi*225), 1e-9)
}

// Where there is no moment and no torque a notch makes no difference.
func TestNotchWithoutLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		if used := ready(t).Used(ready(t).Swing(Load{})); used != 0 {
			t.Fatalf("nothing uses up %g", used)
		}
	})
}

func TestImpossibleNotches(t *testing.T) {
	steel := Steel{900, 700}
	for _, c := range []struct {
		notch Notch
		want  string
	}{
		{Notch{}, "needs the diameter"},
		{Notch{Kind: Shoulder, Outer: 30, Bottom: 31, Radius: 1}, "must lie between"},
		{Notch{Kind: Shoulder, Outer: 30, Bottom: 28}, "measure the radius"},
		{Notch{Kind: CirclipGroove, Outer: 30, Bottom: 28, Radius: 1, Width: 1.3}, "don't fit"},
		{Notch{Kind: CrossHole, Outer: 30, Hole: 30}, "cross hole"},
		{Notch{Kind: Keyway, Outer: 30, Bore: 20, Depth: 5}, "doesn't fit into a wall"},
		{Notch{Kind: SplineRoot, Outer: 30, Bottom: 31}, "root circle"},
		{Notch{Kind: "dent", Outer: 30}, "no notch of kind"},
	} {
		if _, err := c.notch.Fatigue(steel, UsualRules); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.notch, err, c.want)
		}
	}
	if _, err := (Notch{Kind: Keyway, Outer: 30}).Fatigue(Steel{100, 700}, UsualRules); err == nil {
		t.Error("a steel of 100 MPa was taken")
	}
}

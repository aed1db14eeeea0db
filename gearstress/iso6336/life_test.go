package iso6336

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/material"
	_ "layshaft/testdata/draws"
)

// Source: ISO 6336-2 and -3, tables of life factors: corners and exponents as printed; from memory.
// An exponent may be off by one in its last
// printed digit: the standard rounds them by hand (0.115 for 0.1145).
func TestLifeFactorCorners(t *testing.T) {
	for _, row := range []struct {
		name     string
		curve    material.Curve
		cycles   []float64
		factor   []float64
		exponent []string
	}{
		{"Z_NT Eh", contactLife(material.GroupCaseHardened, false, 0.85), []float64{1, 1e5, 5e7, 1e10}, []float64{1.6, 1.6, 1, 0.85}, []string{"0", "0.0756", "0.0306"}},
		{"Z_NT Eh, limited pitting", contactLife(material.GroupCaseHardened, true, 0.85), []float64{1, 6e5, 1e7, 1e9, 1e10}, []float64{1.6, 1.6, 1.3, 1, 0.85}, []string{"0", "0.0738", "0.0570", "0.0706"}},
		{"Z_NT V", contactLife(material.GroupAlloyHardened, false, 1), []float64{1e5, 5e7, 1e10, 1e12}, []float64{1.6, 1, 1, 1}, []string{"0.0756", "0", "0"}},
		{"Z_NT NT", contactLife(material.GroupNitridingSteel, true, 0.85), []float64{1e5, 2e6, 1e10}, []float64{1.3, 1, 0.85}, []string{"0.0875", "0.0191"}},
		{"Z_NT NV nitrocar.", contactLife(material.GroupNitrocarburised, false, 0.85), []float64{1e5, 2e6}, []float64{1.1, 1}, []string{"0.0318"}},
		{"Y_NT Eh", bendingLife(material.GroupCaseHardened, 0.85), []float64{1, 1e3, 3e6, 1e10}, []float64{2.5, 2.5, 1, 0.85}, []string{"0", "0.115", "0.02"}},
		{"Y_NT V", bendingLife(material.GroupCarbonHardened, 0.85), []float64{1e4, 3e6}, []float64{2.5, 1}, []string{"0.16"}},
		{"Y_NT St", bendingLife(material.GroupNormalised, 0.85), []float64{1e4, 3e6}, []float64{2.5, 1}, []string{"0.16"}},
		{"Y_NT NT", bendingLife(material.GroupNitridingSteel, 0.85), []float64{1e3, 3e6}, []float64{1.6, 1}, []string{"0.059"}},
		{"Y_NT NV nitrocar.", bendingLife(material.GroupNitrocarburised, 0.85), []float64{1e3, 3e6}, []float64{1.1, 1}, []string{"0.012"}},
	} {
		for i, n := range row.cycles {
			near(t, row.name, row.curve.At(n), row.factor[i], 1e-12)
			// No jump at a corner.
			near(t, row.name+" just before", row.curve.At(n*(1-1e-9)), row.factor[i], 1e-8)
			near(t, row.name+" just after", row.curve.At(n*(1+1e-9)), row.factor[i], 1e-8)
			if i > 0 {
				slope := -math.Log(row.factor[i]/row.factor[i-1]) / math.Log(n/row.cycles[i-1])
				text := row.exponent[i-1]
				want, err := strconv.ParseFloat(text, 64)
				if err != nil {
					t.Fatal(err)
				}
				_, decimals, _ := strings.Cut(text, ".")
				near(t, row.name+" exponent", slope, want, math.Pow(10, -float64(len(decimals))))
			}
		}
	}
}

func TestInverseLifeGivesTheCyclesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		group := material.Group(rapid.IntRange(int(material.GroupNormalised), int(material.GroupNitrocarburised)).Draw(t, "group"))
		c := bendingLife(group, rapid.Float64Range(0.85, 0.99).Draw(t, "tail"))
		if rapid.Bool().Draw(t, "flank") {
			c = contactLife(group, rapid.Bool().Draw(t, "pitting"), 0.9)
		}
		n := math.Pow(10, rapid.Float64Range(math.Log10(c.Corners()[0].Cycles), 9.999).Draw(t, "log n"))
		if back := c.Cycles(c.At(n)); math.Abs(back/n-1) > 1e-9 {
			t.Fatalf("%g cycles came back as %g", n, back)
		}
		if u := c.Damage(c.At(n), n); math.Abs(u-1) > 1e-9 {
			t.Fatalf("damage at the life itself is %g, want 1", u)
		}
	})
}

func TestEndsOfTheCurve(t *testing.T) {
	c := bendingLife(material.GroupCaseHardened, 0.85)
	for _, row := range []struct{ stress, want float64 }{
		{2.5000001, 0}, {2.5, 1e3}, {1, 3e6}, {0.85, math.Inf(1)}, {0.1, math.Inf(1)},
	} {
		if got := c.Cycles(row.stress); got != row.want && !(math.Abs(got/row.want-1) < 1e-12) {
			t.Errorf("cycles for %g = %g, want %g", row.stress, got, row.want)
		}
	}
	for _, row := range []struct{ stress, cycles, want float64 }{{3, 1, math.Inf(1)}, {0.5, 1e12, 0}, {3, 0, 0}} {
		if u := c.Damage(row.stress, row.cycles); u != row.want {
			t.Errorf("damage of %g cycles at %g is %g, want %g", row.cycles, row.stress, u, row.want)
		}
	}
}

func TestDamageIsOneAtTheLifeOfTheRating(t *testing.T) {
	f := formOf(t, helicalSpec(), Edition2019)
	in := inputOf(t)
	in.Torque = 200000
	for i := range in.Gear {
		in.Gear[i].Strength.Contact, in.Gear[i].Strength.Bending = 1600, 280
	}
	r := rate(t, f, in)
	for i := range sides {
		for _, o := range []Outcome{r.Root[i].Outcome, r.Flank[i].Outcome} {
			life := o.Curve.Cycles(o.Stress)
			near(t, "Life", o.Life, life, 0)
			if life == 0 || math.IsInf(life, 1) {
				t.Fatalf("the load should wear out both: life %g", life)
			}
			near(t, "U", o.Curve.Damage(o.Stress, o.Life), 1, 1e-9)
		}
	}
}

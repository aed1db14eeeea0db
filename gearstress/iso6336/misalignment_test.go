package iso6336

import (
	"math"
	"testing"

	"layshaft/material"
)

// Source: ISO 1328-1:2013, 5.3, formula for f_HβT (from memory), by hand; a grade is a factor of √2.
func TestHelixSlopeTolerance(t *testing.T) {
	for _, c := range []struct {
		d, face float64
		grade   int
		want    float64 // µm
	}{
		{100, 25, 5, 0.5 + 1.75 + 4},
		{100, 25, 7, 2 * 6.25},
		{64, 16, 6, math.Sqrt2 * (0.4 + 1.4 + 4)},
		{400, 100, 1, (1 + 3.5 + 4) / 4},
	} {
		got, err := HelixSlopeTolerance(c.d, c.face, c.grade)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "f_HβT, µm", got*1000, c.want, 1e-9)
	}
	for _, c := range []struct {
		d, face float64
		grade   int
	}{{100, 25, 0}, {100, 25, 12}, {0, 25, 7}, {100, math.NaN(), 7}, {math.Inf(1), 25, 7}} {
		if got, err := HelixSlopeTolerance(c.d, c.face, c.grade); err == nil {
			t.Errorf("%+v: %g mm, want a refusal", c, got)
		}
	}
}

// f_ma is the root of the sum of squares (ISO 6336-1, from memory), half with the pattern checked.
func TestManufacturingMisalignment(t *testing.T) {
	near(t, "f_ma", ManufacturingMisalignment([2]float64{0.009, -0.012}, false), 0.015, 1e-15)
	near(t, "f_ma, pattern checked", ManufacturingMisalignment([2]float64{0.009, -0.012}, true), 0.0075, 1e-15)
	near(t, "one gear without fault", ManufacturingMisalignment([2]float64{0, 0.012}, false), 0.012, 1e-15)
}

// Source: ISO 6336-1:2006, 7.4, running-in allowance y_β by kind and speed (from memory): shares, and the caps that the
// standard ties to F_βx of 80 µm above 5 m/s and 40 µm above 10 m/s.
func TestHelixRunningIn(t *testing.T) {
	for _, c := range []struct {
		what         string
		group        material.Group
		contact      float64 // σ_Hlim, MPa
		misalignment float64 // µm
		v            float64 // m/s
		want         float64 // µm
	}{
		{"case hardened", material.GroupCaseHardened, 1500, 20, 3, 3},
		{"case hardened, capped", material.GroupCaseHardened, 1500, 60, 3, 6},
		{"induction hardened, capped", material.GroupSurfaceHardened, 1200, 50, 30, 6},
		{"nitrided", material.GroupNitridingSteel, 1250, 10, 12, 1.5},
		{"nitrocarburised, capped", material.GroupNitrocarburised, 900, 41, 1, 6},
		{"through-hardened, slow", material.GroupAlloyHardened, 640, 200, 5, 100},
		{"through-hardened above 5 m/s, below the cap", material.GroupAlloyHardened, 640, 70, 8, 35},
		{"through-hardened above 5 m/s: 25600/640", material.GroupAlloyHardened, 640, 200, 8, 40},
		{"through-hardened above 10 m/s: 12800/640", material.GroupAlloyHardened, 640, 200, 12, 20},
		{"a soft steel wears off all of it", material.GroupNormalised, 300, 30, 2, 30},
	} {
		s := Strength{Group: c.group, Contact: c.contact}
		near(t, c.what, 1000*HelixRunningIn([2]Strength{s, s}, c.misalignment/1000, 1000*c.v), c.want, 1e-9)
	}
	hard, soft := Strength{Group: material.GroupCaseHardened, Contact: 1500}, Strength{Group: material.GroupAlloyHardened, Contact: 640}
	near(t, "mean of both", 1000*HelixRunningIn([2]Strength{hard, soft}, 0.02, 1000), (3.0+10)/2, 1e-9)
}

// What wears off is never negative and never more than what is there.
func TestHelixRunningInLimits(t *testing.T) {
	for group := material.GroupNormalised; group <= material.GroupNitrocarburised; group++ {
		for _, v := range []float64{0, 4000, 6000, 20000} {
			for _, f := range []float64{0, 0.001, 0.04, 0.2} {
				s := Strength{Group: group, Contact: 310}
				y := HelixRunningIn([2]Strength{s, s}, f, v)
				if y < 0 || y > f {
					t.Errorf("%v, %g mm at %g mm/s: %g mm wear off", group, f, v, y)
				}
			}
		}
	}
}

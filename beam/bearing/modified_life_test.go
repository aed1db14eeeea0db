package bearing

import (
	"math"
	"testing"
)

// Source: ISO 281:2007, clauses 9.3.3.3 and 9.3.3.4 and table 12, all from memory, worked out once more outside this
// program; nothing published was at hand. Tolerance 1e-6 (ν₁), 1e-4 (a_ISO).
func TestReferenceViscosity(t *testing.T) {
	for _, c := range []struct{ speed, pitch, want float64 }{
		{1450, 62.5, 14.94819}, {999.999, 80, 16.28051}, {1000, 80, 15.9099}, {300, 55, 53.33601}, {6500, 47.5, 8.098583},
	} {
		near(t, "ν₁", ReferenceViscosity(c.speed, c.pitch), c.want, 1e-6)
	}
}

func TestSystemFactor(t *testing.T) {
	for _, c := range []struct {
		kind           Kind
		ratio, q, want float64
	}{
		{Tapered, 0.25, 0.05, 0.1241088}, {Tapered, 0.8, 0.1, 0.318139}, {Cylindrical, 2, 0.3, 1.47382}, {Tapered, 7, 0.5, 5.586904},
		{Ball, 0.4, 0.1, 0.3118798}, {Ball, 1, 0.3, 15.56668}, {Ball, 4, 0.5, 50}, {Tapered, 2, 5, 50}, {Ball, 0.05, 1, 0.1},
	} {
		near(t, "a_ISO", SystemFactor(c.kind, c.ratio, c.q), c.want, 1e-4)
	}
	for _, kind := range []Kind{Ball, Tapered} {
		for _, at := range []float64{0.4, 1} {
			// c/κ^g meets within 0.02 %, and the power makes twice as much of it.
			near(t, "a_ISO across a branch", SystemFactor(kind, at*(1-1e-12), 0.1), SystemFactor(kind, at, 0.1), 5e-4)
		}
		if SystemFactor(kind, 4, 0.2) != SystemFactor(kind, 40, 0.2) {
			t.Error("κ counts beyond 4")
		}
	}
}

// All values come out of one formula: 99 % is 0.25 in this edition and was 0.21 before.
func TestReliabilityFactor(t *testing.T) {
	for _, c := range []struct{ percent, table, want float64 }{
		{90, 1, 1}, {95, .64, .6379117}, {96, .55, .5548951}, {97, .47, .4653531}, {98, .37, .3658964}, {99, .25, .2483317}, {99.2, .22, .2208023},
		{99.4, .19, .1908997}, {99.6, .16, .1574546}, {99.8, .12, .1176469}, {99.9, .093, .09260068}, {99.92, .087, .0867097}, {99.94, .08, .08030117}, {99.95, .077, .07683227},
	} {
		got := StandardScatter.LifeFactor(c.percent / 100)
		near(t, "a₁", got, c.want, 1e-6)
		if math.Abs(got-c.table) > 0.0055 {
			t.Errorf("a₁ at %g %%: %.4f, the table has %g", c.percent, got, c.table)
		}
	}
}

// Source: worked out outside this program from the formulas of ISO 281 and Miner's sum over turns; tolerance 1e-5.
func TestLifeOverADuty(t *testing.T) {
	c := Rating{Kind: Tapered, Dynamic: 78000, E: 0.37, Y: 1.6}
	const limit, clean, pitch, viscosity = 10500, 0.5, 55, 18.46573
	var plain, modified []Stage
	turns := 0.0
	for _, b := range []struct{ time, speed, radial, axial, p, l10, nu, kappa, a, share float64 }{
		{.05, 1800, 9800, 2600, 9800, 1006.688, 14.30194, 1.291135, 2.354131, .02319588},
		{.15, 2600, 7200, 2900, 7520, 2433.637, 11.89993, 1.551751, 4.376, .1005155},
		{.3, 3600, 5100, 2400, 5880, 5525.746, 10.113, 1.82594, 8.748767, .2783505},
		{.35, 4400, 3600, 1100, 3600, 28355.7, 9.147551, 2.018653, 39.79104, .3969072},
		{.15, 5200, 2600, 700, 2600, 83895.28, 8.414523, 2.194507, 50, .2010309},
	} {
		p := must[float64](t)(c.Equivalent(b.radial, b.axial))
		near(t, "P", p, b.p, 1e-5)
		near(t, "L10", BasicLife(Tapered, c.Dynamic, p), b.l10, 1e-5)
		nu := ReferenceViscosity(b.speed, pitch)
		near(t, "ν₁", nu, b.nu, 1e-5)
		near(t, "κ", viscosity/nu, b.kappa, 1e-5)
		a := SystemFactor(Tapered, viscosity/nu, clean*limit/p)
		near(t, "a_ISO", a, b.a, 1e-5)
		near(t, "share of turns", b.time*b.speed/3880, b.share, 1e-5)
		plain = append(plain, Stage{b.time * b.speed, p, 1})
		modified = append(modified, Stage{b.time * b.speed, p, a})
		turns += b.time * b.speed
	}
	near(t, "mean speed", turns, 3880, 1e-9)
	mean := MeanLoad(Tapered, plain)
	near(t, "P_m", mean, 5338.1, 1e-5)
	life := StagedLife(Tapered, c.Dynamic, plain)
	near(t, "L10", life, 7627.104, 1e-5)
	near(t, "L10h", Hours(life, turns), 32762.47, 1e-5)
	near(t, "L10 of the mean load", BasicLife(Tapered, c.Dynamic, mean), life, 1e-12)
	life = StagedLife(Tapered, c.Dynamic, modified)
	near(t, "L_nm", life, 39395.37, 1e-5)
	near(t, "L_nmh", Hours(life, turns), 169224.1, 1e-5)
}

// Source: product of Weibull distributions, worked out outside this program; tolerance 1e-6.
func TestSystemLife(t *testing.T) {
	lives := []float64{3812, 9115, 15200, 21000}
	near(t, "e 1.5", SystemLife(1.5, lives), 2944.027, 1e-6)
	near(t, "e 10/9", SystemLife(1.111111, lives), 2309.793, 1e-6)
	near(t, "one alone", SystemLife(1.5, lives[:1]), 3812, 1e-12)
}

package faceload

import (
	"math"
	"testing"
)

func TestStripsIntegrate(t *testing.T) {
	for _, slices := range []int{4, 5, 6, 21, 40} {
		const face = 2.0
		x, w := Stations(slices, face), Widths(slices, face)
		near(t, "first station", x[0], -1, 0)
		near(t, "last station", x[slices-1], 1, 0)
		var moment [4]float64
		for i := range x {
			for j := range moment {
				moment[j] += w[i] * math.Pow(x[i], float64(j))
			}
		}
		h := face / float64(slices-1)
		near(t, "∫1", moment[0], 2, 1e-14)
		near(t, "∫ξ", moment[1], 0, 1e-14)
		near(t, "∫ξ³", moment[3], 0, 1e-14)
		// The rule replaces h f' at each end by a difference, short of it by h² f''/2: h³ f''/24 at each end.
		near(t, "∫ξ²", moment[2], 2.0/3+h*h*h/6, 1e-14)
	}
}

func TestProfiles(t *testing.T) {
	const b = 20.0
	relief := EndRelief(b, Relief{Length: 4, Amount: 0.02}, Relief{Length: 5, Amount: 0.03, Power: 2})
	for _, c := range []struct {
		name     string
		profile  Profile
		xi, want float64
	}{
		{"crowning, left end", Crowning(b, 0.008), -10, 0.008},
		{"crowning, middle", Crowning(b, 0.008), 0, 0},
		{"crowning, half way", Crowning(b, 0.008), 5, 0.002},
		{"lead, left end", LeadError(b, 0.01), -10, 0},
		{"lead, middle", LeadError(b, 0.01), 0, 0.005},
		{"lead, right end", LeadError(b, 0.01), 10, 0.01},
		{"lead, other way", LeadError(b, -0.01), 10, -0.01},
		{"relief, left end", relief, -10, 0.02},
		{"relief, half way in", relief, -8, 0.01},
		{"relief, inner edge", relief, -6, 0},
		{"relief, middle", relief, 0, 0},
		{"relief, right end", relief, 10, 0.03},
		{"relief, right, 2/5 of its length", relief, 7, 0.03 * 0.16},
		{"relief of nothing", EndRelief(b, Relief{}, Relief{}), -10, 0},
	} {
		near(t, c.name, c.profile(c.xi), c.want, 1e-16)
	}
	g := Gap(5, b, Crowning(b, 0.008), LeadError(b, 0.01))
	for i, want := range []float64{0.008, 0.0045, 0.005, 0.0095, 0.018} {
		near(t, "sum of profiles", g[i], want, 1e-16)
	}
	for _, v := range Gap(5, b) {
		near(t, "no profile", v, 0, 0)
	}
}

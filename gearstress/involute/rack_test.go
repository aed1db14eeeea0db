package involute

import (
	"math"
	"strings"
	"testing"
)

// Full radii, from the formula of E in ISO 6336-3 set to zero (computed by hand calculation, 20°): with 1.25 modules
// 0.4719 is left, with 1.4 0.3939.
func TestFullRadius(t *testing.T) {
	near(t, "dedendum 1.25", StandardRack.FullRadius().TipRadius, 0.4719, 6e-5)
	near(t, "dedendum 1.4", RackD.FullRadius().TipRadius, 0.3939, 5e-4)
	for _, r := range []Rack{StandardRack, RackB, RackC, RackD} {
		r.Protuberance = 0.03
		full := r.FullRadius()
		if err := full.Validate(); err != nil {
			t.Errorf("full radius of %+v: %v", r, err)
		}
		full.TipRadius += 1e-6
		if err := full.Validate(); err == nil {
			t.Errorf("%+v fits too", full)
		}
		// A line along the flank, s_pr inside the tooth, touches the round; the round has its centre in the middle of
		// the cutter tooth.
		s, c := math.Sincos(r.PressureAngle)
		rho := r.FullRadius().TipRadius
		onLine := (math.Pi/4-(r.Dedendum-rho)*s/c)*c + r.Protuberance
		near(t, "distance of the centre from that line", onLine, rho, 1e-12)
	}
}

// A tool of 1.4 and 0.40 fits only with a protuberance: it makes room for the corner.
func TestProtuberanceMakesRoom(t *testing.T) {
	r := RackD
	r.TipRadius = 0.40
	if err := r.Validate(); err == nil || !strings.Contains(err.Error(), "the largest that fits is 0.39") {
		t.Errorf("without protuberance: %v", err)
	}
	r.Protuberance = 0.02
	if err := r.Validate(); err != nil {
		t.Error(err)
	}
}

func TestRacksOfTheStandardAreValid(t *testing.T) {
	for _, r := range []Rack{StandardRack, RackB, RackC, RackD} {
		if err := r.Validate(); err != nil {
			t.Errorf("%+v: %v", r, err)
		}
	}
	for want, change := range map[string]func(*Rack){
		"residual undercut of the rack (s_pr) is -0.01": func(r *Rack) { r.Protuberance = -0.01 },
		"residual undercut of the rack (s_pr) is 0.5":   func(r *Rack) { r.Protuberance = 0.5 },
		"the rounded corner that leaves it":             func(r *Rack) { r.TipRadius, r.Protuberance = 0.02, 0.05 },
		"residual undercut of the rack (s_pr) is NaN":   func(r *Rack) { r.Protuberance = math.NaN() },
	} {
		r := StandardRack
		change(&r)
		if err := r.Validate(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want it to say %q", r, err, want)
		}
	}
}

// ISO 53:1998, Table 2 (from memory): α_P, h_aP, h_fP, ρ_fP of the profiles A to D.
func TestRacksOfISO53(t *testing.T) {
	for name, c := range map[string]struct {
		rack Rack
		want [4]float64 // °, modules
	}{
		"A": {StandardRack, [4]float64{20, 1, 1.25, 0.38}}, "B": {RackB, [4]float64{20, 1, 1.25, 0.30}},
		"C": {RackC, [4]float64{20, 1, 1.25, 0.25}}, "D": {RackD, [4]float64{20, 1, 1.40, 0.39}},
	} {
		r := c.rack
		for k, got := range [4]float64{r.PressureAngle * 180 / math.Pi, r.Addendum, r.Dedendum, r.TipRadius} {
			near(t, "profile "+name, got, c.want[k], 1e-12)
		}
	}
}

package iso6336

import (
	"math"
	"strings"
	"testing"
)

func TestImpossibleToothIsRefusedWithItsReason(t *testing.T) {
	good := cutTooth{angle: radians(20), dedendum: 1.25, tipRadius: 0.38, teeth: 20, tipDiameter: 22, contact: 1.6}
	if _, err := good.form(1); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		want   string
		change func(*cutTooth)
	}{
		{"no point of the fillet has a tangent of 30°", func(c *cutTooth) { c.teeth, c.shift = 5, 4 }},
		{"beyond the tool's corner radius", func(c *cutTooth) { c.angle, c.teeth, c.shift, c.tipDiameter = radians(35), 300, -1, 299 }},
		{"undercut goes through the tooth", func(c *cutTooth) { c.teeth, c.shift = 6, -1.2 }},
		{"radius of the fillet is zero", func(c *cutTooth) { c.tipRadius, c.shift = 0, 1.25 }},
		{"no involute is left", func(c *cutTooth) { c.tipDiameter = 18 }},
		{"below the base circle", func(c *cutTooth) { c.contact = 4 }},
		{"too short for this calculation", func(c *cutTooth) {
			c.contact, c.shift, c.dedendum, c.tipRadius, c.tipDiameter = 2.3, 0.6, 0.7, 0.2, 22.5
		}},
	} {
		c := good
		row.change(&c)
		if _, err := c.form(1); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%+v: error %v, want it to say %q", c, err, row.want)
		}
	}
}

// A Pair may be made by hand; what does not fit together must come back as an error too, for both gears at once.
func TestBrokenPairIsRefused(t *testing.T) {
	p := *pairOf(t, spurSpec())
	p.Tip = [2]float64{p.Base[0] + 0.01, p.Base[1] + 0.01}
	_, err := NewForm(&p, Edition2019, [2]float64{})
	if err == nil || !strings.Contains(err.Error(), "driver: ") || !strings.Contains(err.Error(), "driven gear: ") || !strings.Contains(err.Error(), "single contact would begin") {
		t.Errorf("tips at the base circle: %v", err)
	}
	p = *pairOf(t, spurSpec())
	p.TransverseContactRatio = 6
	if _, err := NewForm(&p, Edition2019, [2]float64{}); err == nil || !strings.Contains(err.Error(), "contact ratio ε_α is 6.000") {
		t.Errorf("a contact ratio of 6: %v", err)
	}
}

// A sharp notch is far outside the range of Y_S, and said to be.
func TestSharpToolIsRatedWithANote(t *testing.T) {
	spec := spurSpec()
	spec.Rack.TipRadius = 0
	f := formOf(t, spec, Edition2019)
	if f.Tooth[0].RootRadius <= 0 || math.IsInf(f.Tooth[0].YS, 0) {
		t.Errorf("tooth %+v", f.Tooth[0])
	}
}

func TestWordsOfWhatIsUnknown(t *testing.T) {
	if Edition(9).String() != "edition 9 of ISO 6336" {
		t.Errorf("unknown: %v", Edition(9))
	}
}

func TestProtuberanceWeakensTheTooth(t *testing.T) {
	spec := spurSpec()
	spec.Rack.Dedendum, spec.Rack.TipRadius = 1.4, 0.39
	p := pairOf(t, spec)
	plain, err := NewForm(p, Edition2019, [2]float64{})
	if err != nil {
		t.Fatal(err)
	}
	cut, err := NewForm(p, Edition2019, [2]float64{0.06, 0})
	if err != nil {
		t.Fatal(err)
	}
	if !(cut.Tooth[0].Chord < plain.Tooth[0].Chord && cut.Tooth[0].YF > plain.Tooth[0].YF) {
		t.Errorf("chord %.4f mm with residual undercut, %.4f mm without", cut.Tooth[0].Chord, plain.Tooth[0].Chord)
	}
	if cut.Tooth[1] != plain.Tooth[1] {
		t.Error("the other gear changed")
	}
}

// A residual undercut named in the rack counts like one given by hand, and the critical section then lies on the drawn fillet.
func TestProtuberanceOfTheRack(t *testing.T) {
	for _, residual := range []float64{0.02, 0.05} {
		spec := helicalSpec()
		spec.Rack.Dedendum, spec.Rack.TipRadius = 1.4, 0.37
		byHand, err := NewForm(pairOf(t, spec), Edition2019, [2]float64{residual * spec.Module, residual * spec.Module})
		if err != nil {
			t.Fatal(err)
		}
		spec.Rack.Protuberance = residual
		f := formOf(t, spec, Edition2019)
		for i := range sides {
			near(t, "chord", f.Tooth[i].Chord, byHand.Tooth[i].Chord, 1e-12)
			near(t, "radius of the fillet", f.Tooth[i].RootRadius, byHand.Tooth[i].RootRadius, 1e-12)
			tooth, err := f.Pair.Tooth(i)
			if err != nil {
				t.Fatal(err)
			}
			low, high := 0.0, 1.0
			for range 60 {
				mid := (low + high) / 2
				if p := tooth.Fillet(mid); math.Hypot(p.X, p.Y) < f.Tooth[i].sectionRadius {
					low = mid
				} else {
					high = mid
				}
			}
			near(t, "chord on the drawn fillet", 2*tooth.Fillet(low).X, f.Tooth[i].Chord, 1e-9)
		}
	}
}

// Thinned by no more than 0.05 modules the root is that of the full tooth; thinned by more, that of a tooth generated with x_E on the same blank.
func TestThinningInTheFormFactor(t *testing.T) {
	spec := spurSpec()
	full := formOf(t, spec, Edition2019)
	spec.Thinning[0] = 0.05 * spec.Module
	if f := formOf(t, spec, Edition2019); f.Tooth != full.Tooth {
		t.Errorf("thinned by 0.05 modules: %+v, want %+v", f.Tooth, full.Tooth)
	}
	spec.Thinning[0] = 0.08 * spec.Module
	thin := formOf(t, spec, Edition2019)
	same := spurSpec()
	same.CentreDistance, same.TipDiameter = thin.Pair.Centre, thin.Pair.Tip
	same.Shift[0] = -0.08 / 2 / math.Tan(radians(20))
	want := formOf(t, same, Edition2019)
	near(t, "Y_F", thin.Tooth[0].YF, want.Tooth[0].YF, 1e-12)
	near(t, "Y_S", thin.Tooth[0].YS, want.Tooth[0].YS, 1e-12)
	near(t, "tooth height", thin.Height[0], want.Height[0], 1e-12)
	if !(thin.Tooth[0].YF > full.Tooth[0].YF) || thin.Tooth[1] != full.Tooth[1] {
		t.Errorf("Y_F %.4f, full %.4f", thin.Tooth[0].YF, full.Tooth[0].YF)
	}
	t.Logf("Y_F Y_S grows by %.2f %% with 0.08 modules taken off", 100*(thin.Tooth[0].YF*thin.Tooth[0].YS/(full.Tooth[0].YF*full.Tooth[0].YS)-1))
}

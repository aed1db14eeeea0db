package involute

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func standard(teeth1, teeth2 int) Spec {
	return Spec{Module: 2, Rack: StandardRack, Teeth: [2]int{teeth1, teeth2}, ShiftKnown: [2]bool{true, true}, Face: 20}
}

func TestImpossiblePairsAreRefusedWithTheReason(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Spec)
		want   []string // all in the same error
	}{
		{"nothing given", func(s *Spec) { *s = Spec{} }, []string{"module is 0 mm; expected 0.05 to 100 mm", "common face width is 0 mm", "driver has 0 teeth", "driven gear has 0 teeth", "pressure angle 0°", "rack addendum 0", "rack dedendum 0"}},
		{"not a number", func(s *Spec) { s.Module, s.Helix, s.CentreDistance = math.NaN(), math.NaN(), math.NaN() }, []string{"module is NaN", "helix angle is NaN", "centre distance is NaN"}},
		{"degrees for radians", func(s *Spec) { s.Helix, s.Rack.PressureAngle = 25, 20 }, []string{"helix angle is 1432°", "pressure angle 1146° (20 rad)"}},
		{"shift in mm", func(s *Spec) { s.Shift[1] = 12 }, []string{"driven gear has a profile shift of 12 modules"}},
		{"centre distance below the base circles", func(s *Spec) { s.CentreDistance = 50 }, []string{"centre distance 50 mm is not above 56.3", "expect about 60 mm"}},
		{"centre distance too large", func(s *Spec) { s.CentreDistance = 64 }, []string{"transverse contact ratio"}},
		{"no backlash left", func(s *Spec) { s.CentreDistance, s.Shift = 60, [2]float64{0.3, 0} }, []string{"backlash would be -0.41", "may add up to 0.0000 at most", "up to 0.3000"}},
		{"pointed tip", func(s *Spec) { s.Teeth[0], s.Shift[0] = 10, 0.95 }, []string{"driver: the tooth comes to a point", "10 teeth, x = 0.95"}},
		{"tips hit roots", func(s *Spec) { s.TipDiameter = [2]float64{45.1, 85.2} }, []string{"tip of the driver (diameter 45.1 mm) runs 0.05", "tip of the driven gear (diameter 85.2 mm) runs 0.1"}},
		{"tip below base circle", func(s *Spec) { s.TipDiameter[0] = 36 }, []string{"driver: tip diameter 36 mm is not above the root circle (35 mm) and the base circle (37.588 mm)"}},
		{"short tips", func(s *Spec) { s.TipDiameter = [2]float64{42, 82} }, []string{"transverse contact ratio is 0.8"}},
		{"shifts that leave no tooth", func(s *Spec) { s.Shift = [2]float64{-2, -2} }, []string{"the teeth are too thin to touch"}},
		{"root below the axis", func(s *Spec) { s.Teeth[0], s.Shift = 5, [2]float64{-3, 3} }, []string{"root diameter would be"}},
		{"pointed rack", func(s *Spec) { s.Rack.PressureAngle, s.Rack.Addendum = rad(35), 1.3 }, []string{"rack tooth comes to a point"}},
		{"rack radius too large", func(s *Spec) { s.Rack.TipRadius = 0.6 }, []string{"overlap", "the largest that fits is 0.47"}},
		{"numbers beyond reason", func(s *Spec) { s.Module, s.Face, s.Teeth[0] = 1e308, 1e308, 1<<40 }, []string{"module is 1e+308 mm", "face width is 1e+308 mm", "has 1099511627776 teeth"}},
	} {
		s := standard(20, 40)
		c.change(&s)
		p, err := New(s)
		if err == nil {
			t.Errorf("%s: accepted, contact ratio %v", c.name, p.TransverseContactRatio)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: error lacks %q:\n%v", c.name, want, err)
			}
		}
	}
}

func TestNotesSayWhatWasAssumedAndWhatIsUnusual(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Spec)
		want   []string
		count  int
	}{
		{"all known", func(s *Spec) {}, nil, 0},
		{"nothing known", func(s *Spec) { s.ShiftKnown = [2]bool{} }, []string{"driver: profile shift not known", "driven gear: profile shift not known"}, 2},
		{"one shift from the other", func(s *Spec) { s.ShiftKnown[1], s.CentreDistance = false, 60.8 }, []string{"profile shift of the driven gear (x = 0.4", "shortened by k = -0.01"}, 2},
		{"even split", func(s *Spec) { s.ShiftKnown, s.CentreDistance = [2]bool{}, 60 }, []string{"shared evenly, which is a guess"}, 1},
		{"split by tips", func(s *Spec) {
			s.ShiftKnown, s.CentreDistance, s.TipDiameter = [2]bool{}, 60, [2]float64{44.8, 83.2}
		}, []string{"shared as 0.2000 and -0.2000 by the measured tip diameters"}, 1},
		{"undercut", func(s *Spec) { s.Teeth[0] = 14 }, []string{"driver: undercut (14 teeth, x = 0.000; free of it from x = 0.1"}, 2},
		{"rounded shifts", func(s *Spec) { s.CentreDistance, s.Shift[0] = 60, 0.002 }, []string{"within rounding, taken as 0"}, 1},
		{"small clearance", func(s *Spec) { s.TipDiameter[0] = 44.7 }, []string{"clearance between the tip of the driver and the root of the driven gear is only 0.150 mm (0.075 modules)"}, 1},
		{"thin tip and large shift", func(s *Spec) { s.Teeth[0], s.Shift[0] = 30, 1.2 }, []string{"tip is only 0.2", "profile shift 1.200 modules is unusually large"}, 3},
		{"low contact ratio", func(s *Spec) { s.TipDiameter = [2]float64{42.5, 82.3} }, []string{"transverse contact ratio is only 1.0"}, 1},
	} {
		s := standard(20, 40)
		c.change(&s)
		p, err := New(s)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		all := strings.Join(said(p), "\n")
		for _, want := range c.want {
			if !strings.Contains(all, want) {
				t.Errorf("%s: notes lack %q:\n%s", c.name, want, all)
			}
		}
		if len(said(p)) != c.count {
			t.Errorf("%s: %d notes, want %d:\n%s", c.name, len(said(p)), c.count, all)
		}
	}
}

// Gears of old and unusual racks must come through without a warning when they
// are ordinary gears of their kind.
func TestUnusualRacksAreAccepted(t *testing.T) {
	for _, c := range []struct {
		name  string
		rack  Rack
		teeth [2]int
		shift float64
	}{
		{"14.5 degrees full depth", Rack{PressureAngle: rad(14.5), Addendum: 1, Dedendum: 1.157, TipRadius: 0.209}, [2]int{34, 51}, 0},
		{"17.5 degrees high contact", Rack{PressureAngle: rad(17.5), Addendum: 1.1, Dedendum: 1.45, TipRadius: 0.3}, [2]int{25, 38}, 0.15},
		{"20 degrees stub", Rack{PressureAngle: rad(20), Addendum: 0.8, Dedendum: 1, TipRadius: 0.3}, [2]int{14, 39}, 0},
		{"22.5 degrees", Rack{PressureAngle: rad(22.5), Addendum: 1, Dedendum: 1.25, TipRadius: 0.3}, [2]int{17, 40}, 0},
		{"25 degrees", Rack{PressureAngle: rad(25), Addendum: 1, Dedendum: 1.25, TipRadius: 0.25}, [2]int{14, 40}, 0},
		{"25 degrees, big shift", Rack{PressureAngle: rad(25), Addendum: 0.9, Dedendum: 1.25, TipRadius: 0.25}, [2]int{13, 40}, 0.35},
	} {
		p, err := New(Spec{Module: 2.5, Rack: c.rack, Teeth: c.teeth, Shift: [2]float64{c.shift, 0}, ShiftKnown: [2]bool{true, true}, Face: 18})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if len(said(p)) != 0 {
			t.Errorf("%s: %q", c.name, said(p))
		}
	}
}

// said is everything a pair says of itself.
func said(p *Pair) []string { return slices.Concat(p.Derived, p.Notes) }

// Closing says the same of a pair as the pair that is worked out, and goes on to say it where no pair can be.
func TestClosingNeedsNoPossiblePair(t *testing.T) {
	s := standard(20, 40)
	s.ShiftKnown, s.CentreDistance = [2]bool{}, 60.5
	p, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	if reference, sum := s.Closing(); reference != p.ReferenceCentre || math.Abs(sum-(p.X[0]+p.X[1])) > 1e-12 {
		t.Errorf("closing gives %v and %v, the pair %v and %v", reference, sum, p.ReferenceCentre, p.X[0]+p.X[1])
	}
	s.CentreDistance = 70 // the teeth would be all fillet
	if reference, sum := s.Closing(); reference != 60 || !(sum > 5) {
		t.Errorf("closing gives %v and %v far apart", reference, sum)
	}
	s.CentreDistance = 50
	if reference, sum := s.Closing(); reference != 60 || !math.IsNaN(sum) {
		t.Errorf("closing gives %v and %v inside the base circles", reference, sum)
	}
}

// A tip rubs where there is metal below the involute, not where undercut has taken it.
func TestTipsRubOnFilletsThatAreLeft(t *testing.T) {
	pair := func(teeth1, teeth2 int, tip float64) *Pair {
		s := standard(teeth1, teeth2)
		s.TipDiameter[1] = tip
		p, err := New(s)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	// The involute of 20 teeth of module 2 begins where the straight flank of the rack ends, 1 module below the
	// reference line: ρ = 20 sin α − 2/sin α = 0.993 mm. A wheel of a radius of 42.2 mm reaches to 60 sin α − √(42.2²
	// − (40 cos α)²) = 1.34 mm, one of 42.45 mm to 0.80 mm.
	if p := pair(20, 40, 84.4); p.Rub != [2]float64{} {
		t.Errorf("tips rub by %v mm, want none", p.Rub)
	}
	sin, cos := math.Sincos(20 * math.Pi / 180)
	want := 20*sin - 2*standard(20, 40).Rack.straightDepth()/sin - (60*sin - math.Sqrt(42.45*42.45-40*cos*40*cos))
	if p := pair(20, 40, 84.9); math.Abs(p.Rub[0]-want) > 1e-9 || want < 0.05 || p.Rub[1] != 0 {
		t.Errorf("tips rub by %v mm, want %v on the driver", p.Rub, want)
	}
	p := pair(12, 40, 84)
	if !slices.ContainsFunc(p.Notes, func(n string) bool { return strings.Contains(n, "the undercut has taken the flank there") }) || p.Rub != [2]float64{} {
		t.Errorf("an undercut pinion: rubs by %v, notes %q", p.Rub, p.Notes)
	}
}

package gearbox

import (
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/beam/bearing"
	"layshaft/material"
)

// onRatings is the sample box with ratings in all bearings, its last shaft on a tapered pair of which the axial factors alone
// are known, and a duty that drives and brakes.
func onRatings(x bearing.Arrangement) *Box {
	b := threeShafts()
	for i := range b.Shafts {
		b.Shafts[i].Bearings[0].Rating = &bearing.Rating{Kind: bearing.Ball, Dynamic: 33000, Static: 22000, F0: 13}
		b.Shafts[i].Bearings[1].Rating = &bearing.Rating{Kind: bearing.Cylindrical, Dynamic: 52000, Static: 48000}
	}
	last := &b.Shafts[2]
	for j, y := range []float64{1.6, 1.4} {
		last.Bearings[j].Type, last.Bearings[j].Axial = TaperedRoller, 0
		last.Bearings[j].Rating = &bearing.Rating{Kind: bearing.Tapered, Dynamic: 78000, Static: 90000, E: 0.6 / y, Y: y, Y0: 0.55 * y}
	}
	last.Pair = &BearingPair{Arrangement: x}
	b.Shock = 1.5
	b.Duty = &Duty{Passes: 200, Steps: []DutyStep{{Speed: "only", Turns: 3000, Share: 1}, {Speed: "only", Turns: 1000, Share: 0.6}, {Speed: "only", Turns: 2000, Share: -0.4}}}
	return b
}

// marginOf is a limit of a solved speed.
func marginOf(t *testing.T, s *SpeedResult, kind Kind, item string) Margin {
	t.Helper()
	for _, m := range s.All() {
		if m.Kind == kind && m.Item == item {
			return m
		}
	}
	t.Fatalf("no limit of %s for %s", kind, item)
	return Margin{}
}

// The balance of a pair of which the axial factors are known, by hand from the radial forces that the box shows: face to face
// the left bearing pushes the shaft to the right, back to back to the left; each with at least 0.5 F_r/Y. Both senses
// of the thrust.
func TestRatedPairSharesThrust(t *testing.T) {
	for _, x := range []bearing.Arrangement{bearing.FaceToFace, bearing.BackToBack} {
		for _, torque := range []float64{200e3, -200e3} {
			s := mustSolve(t, onRatings(x), Load{Torque: torque}).Speeds[0]
			thrust := -s.Meshes[1].Axial // on the driven gear
			l, r := s.Shafts[2].Bearings[0], s.Shafts[2].Bearings[1]
			induced := [2]float64{0.5 * l.Radial / 1.6, 0.5 * r.Radial / 1.4}
			left, right := l.Force[0], -r.Force[0] // face to face both push the shaft inwards
			if x == bearing.BackToBack {
				left, right = -left, -right
			}
			if math.Abs(l.Force[0]+r.Force[0]+thrust) > 1e-6*math.Abs(thrust) {
				t.Errorf("%v, %g N·mm: %g and %g N don't balance %g N", x, torque, l.Force[0], r.Force[0], thrust)
			}
			if left < induced[0]*(1-1e-9) || right < induced[1]*(1-1e-9) || min(left-induced[0], right-induced[1]) > 1e-6*max(left, right) {
				t.Errorf("%v, %g N·mm: %g and %g N, induced %v: one has no more than it induces, and neither has less", x, torque, left, right, induced)
			}
			// The shaft carries between the bearings what the left one pushes: its section 1 ends before the gear.
			between := s.Shafts[2].Solution.At(30, 0).Normal
			if math.Abs(between+l.Force[0]) > 1e-6*math.Abs(l.Force[0]) {
				t.Errorf("%v: the shaft carries %g N along it behind a bearing that pushes with %g N", x, between, l.Force[0])
			}
		}
	}
}

// On elements the two of a pair give what their rows give at that place (settle_test.go), and near what the rule of catalogues
// says: without play, α 14°, within a quarter, since one row is pushed past half its ring.
func TestPairOnElementsComesNearTheRule(t *testing.T) {
	b := onTapered(0)
	for _, torque := range []float64{200e3, -200e3} {
		s := mustSolve(t, b, Load{Torque: torque}).Speeds[0]
		l, r := s.Shafts[2].Bearings[0], s.Shafts[2].Bearings[1]
		_, y, _ := bearing.TaperedFactors(14 * math.Pi / 180)
		wantA, wantB := bearing.PairAxial(bearing.FaceToFace, bearing.Induced(l.Radial, y), bearing.Induced(r.Radial, y), -s.Meshes[1].Axial)
		if math.Abs(l.Force[0]-wantA) > 0.25*wantA || math.Abs(-r.Force[0]-wantB) > 0.25*wantB {
			t.Errorf("%g N·mm: %g and %g N, the rule has %g and %g N", torque, l.Force[0], r.Force[0], wantA, -wantB)
		}
		if !(l.Heaviest > 0) || l.Preload != 0 || math.IsNaN(l.Ring) {
			t.Errorf("heaviest %g N, preload %g N, ring at %g mm", l.Heaviest, l.Preload, l.Ring)
		}
	}
	tight := mustSolve(t, onTapered(-0.02), Load{}).Speeds[0].Shafts[2].Bearings[0]
	bench, _ := onTapered(-0.02).Shafts[2].Bench(math.Inf(1))
	rest, err := bench.At(-0.02)
	if err != nil || math.Abs(tight.Preload-rest.Preload) > 1e-9*rest.Preload || !(rest.Preload > 100) {
		t.Errorf("preload %g N, on the bench %g N (%v)", tight.Preload, rest.Preload, err)
	}
}

// What a result shows of all bearings, forces and couples at their places, holds the case still.
func TestShownBearingsHoldTheCase(t *testing.T) {
	for _, b := range []*Box{onRatings(bearing.FaceToFace), onTapered(-0.01), onRollers(0.02)} {
		r := mustSolve(t, b, Load{})
		s := &r.Speeds[0]
		var force, moment [3]float64
		moment[0] = r.Torque*float64(b.Turns) - s.OutputTorque
		largest := 0.0
		for i, shaft := range s.Shafts {
			for _, br := range shaft.Bearings {
				at := [3]float64{shaft.Start + br.At, b.Shafts[i].Axis[0], b.Shafts[i].Axis[1]}
				for k := range 3 {
					force[k] += br.Force[k]
					moment[k] += at[(k+1)%3]*br.Force[(k+2)%3] - at[(k+2)%3]*br.Force[(k+1)%3]
					largest = max(largest, math.Abs(br.Force[k]))
				}
				moment[1] += br.Couple[0]
				moment[2] += br.Couple[1]
			}
		}
		for k := range 3 {
			if math.Abs(force[k]) > 1e-7*largest || math.Abs(moment[k]) > 1e-5*largest*10 {
				t.Errorf("%v and %v are left over of forces up to %g N", force, moment, largest)
			}
		}
	}
}

// Both limits of every bearing by hand: forces from boxes that are asked for the torque of each step, equivalent loads by the
// package of bearings, turns by the teeth, lives by L10 = (C/P)^p.
func TestBearingLimitsByHand(t *testing.T) {
	b := onRatings(bearing.BackToBack)
	b.Limits.Strength = material.Typical
	s := mustSolve(t, b, Load{}).Speeds[0]
	turns := map[int]float64{0: 1, 1: 21. / 39, 2: 21. / 39 * 17 / 71}
	at := map[float64]SpeedResult{}
	for _, share := range []float64{1, 0.6, -0.4, 1.5} {
		at[share] = mustSolve(t, b, Load{Torque: share * b.Torque}).Speeds[0]
	}
	for i, shaft := range b.Shafts {
		for j, br := range shaft.Bearings {
			item := ShaftTitle(shaft.Name) + ", bearing " + br.Name
			load := func(share float64) (radial, axial float64) {
				f := at[share].Shafts[i].Bearings[j]
				if br.Rating.Kind == bearing.Cylindrical {
					return f.Radial, 0
				}
				return f.Radial, f.Force[0]
			}
			p0, err := br.Rating.StaticEquivalent(load(1.5))
			if err != nil {
				t.Fatal(err)
			}
			static := marginOf(t, &s, BearingStatic, item)
			if math.Abs(static.Demand-p0) > 1e-9*p0 || static.Limit.Typical != br.Rating.Static || static.Class() != Breaks {
				t.Errorf("%s: P₀ %g N of %g N, want %g of %g N", item, static.Demand, static.Limit.Typical, p0, br.Rating.Static)
			}
			used := 0.0
			for _, d := range b.Duty.Steps {
				l10, err := br.Rating.Life(load(d.Share))
				if err != nil {
					t.Fatal(err)
				}
				used += d.Turns * turns[i] / 1e6 / l10
			}
			life := marginOf(t, &s, BearingLife, item)
			if math.Abs(life.Life*used-1) > 1e-7 || life.Class() != WearsOut || life.Step != "only" {
				t.Errorf("%s: lasts %g passes, want %g (%s)", item, life.Life, 1/used, life.Step)
			}
			// The mean load of all turns against the one that would use them up.
			p := 10. / 3
			if br.Rating.Kind == bearing.Ball {
				p = 3
			}
			if got, want := life.Demand/life.Limit.Typical, math.Pow(used*b.Duty.Passes, 1/p); math.Abs(got/want-1) > 1e-7 {
				t.Errorf("%s: %g of what it bears, want %g", item, got, want)
			}
		}
	}
}

// Every bearing limit put back has no margin, on ratings and on elements, with play and with preload.
func TestBearingLimitsPutBack(t *testing.T) {
	for name, make := range map[string]func() *Box{
		"ratings": func() *Box { return onRatings(bearing.FaceToFace) },
		"play":    func() *Box { return onRollers(0.02) },
		"preload": func() *Box { return onTapered(-0.01) },
	} {
		b := make()
		b.Duty = onRatings(bearing.FaceToFace).Duty
		s := mustSolve(t, b, Load{}).Speeds[0]
		for _, m := range s.Margins {
			if m.Kind != BearingStatic && m.Kind != BearingLife || math.IsInf(m.Allowable[m.Level], 1) {
				continue
			}
			b := make()
			b.Duty = onRatings(bearing.FaceToFace).Duty
			again := mustSolve(t, b, Load{Torque: m.Allowable[m.Level]}).Speeds[0]
			if n := marginOf(t, &again, m.Kind, m.Item); math.Abs(n.Margin) > 1e-8 || math.Abs(n.Demand/n.Limit.At(n.Level)-1) > 1e-7 {
				t.Errorf("%s, %s of %s: margin %g at its allowable torque", name, m.Kind, m.Item, n.Margin)
			}
		}
	}
}

// The oil enters by κ and e_C at each step: the modified life by hand for one bearing, and a reliability of 95 % by a₁ 0.6379.
func TestOilAndReliabilityOfBearings(t *testing.T) {
	b := onRatings(bearing.BackToBack)
	b.Limits.BearingReliability, b.Revs = 0.95, 400
	b.Oil = Oil{Viscosity: 100, Temperature: 100, Cleanliness: 0.4}
	for i := range b.Shafts {
		for j := range b.Shafts[i].Bearings {
			b.Shafts[i].Bearings[j].Rating.Mean = 50
		}
	}
	s := mustSolve(t, b, Load{}).Speeds[0]
	rating := b.Shafts[0].Bearings[1].Rating
	nu := 11.1 // of an oil VG 100 of viscosity index 95 at 100 °C, from memory
	found := marginOf(t, &s, BearingLife, "in shaft, bearing right")
	lives := [2]float64{}
	for k, grown := range []float64{0.97, 1.03} {
		used := 0.0
		for _, d := range b.Duty.Steps {
			p := mustSolve(t, b, Load{Torque: d.Share * b.Torque}).Speeds[0].Shafts[0].Bearings[1].Radial
			kappa := nu * grown / bearing.ReferenceViscosity(400*30/math.Pi, 50)
			a := 0.6379117 * bearing.SystemFactor(bearing.Cylindrical, kappa, 0.4*rating.Static/8.2/p)
			used += d.Turns / 1e6 / (a * bearing.BasicLife(bearing.Cylindrical, rating.Dynamic, p))
		}
		lives[k] = 1 / used
	}
	if !(found.Life > lives[0] && found.Life < lives[1]) || !strings.Contains(found.Limit.Source, "modified life") || !strings.Contains(found.Limit.Source, "95 %") {
		t.Errorf("lasts %g passes, between %v is expected; %s", found.Life, lives, found.Limit.Source)
	}
}

// The rings of a pilot turn against each other by the difference of their shafts; in a direct speed they stand still.
func TestTurnsOfPilots(t *testing.T) {
	b := inline()
	p := prepare(b, Method{})
	third, fourth := p.solverFor(b.Speeds[0], p.layouts[0][0], b.Torque), p.solverFor(b.Speeds[1], p.layouts[1][0], b.Torque)
	ratio := 24. / 34 * 26 / 32
	for _, c := range []struct {
		v        *solver
		shaft, j int
		want     float64
	}{{third, 0, 0, 1}, {third, 1, 0, 1 - ratio}, {third, 1, 1, ratio}, {third, 2, 0, 24. / 34}, {fourth, 1, 0, 0}, {fourth, 1, 1, 1}, {fourth, 2, 0, 0}} {
		if got := c.v.ringTurns(c.shaft, c.j); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s, shaft %d, bearing %d: %g turns, want %g", c.v.speed.Name, c.shaft, c.j, got, c.want)
		}
	}
}

// What a shaft leans in its play is no slope by load: the lightest torque leaves none, though the shaft leans.
func TestPlayIsNoSlope(t *testing.T) {
	const play, count = 0.04, 60
	b := inline()
	for i := range b.Shafts {
		for j := range b.Shafts[i].Bearings {
			b.Shafts[i].Bearings[j].Elements = &bearing.Elements{Kind: bearing.Needle, Count: count, Diameter: 2.5, Length: 10, Pitch: 50, Clearance: play}
		}
	}
	// The lightest touch presses the shaft between two needles, and so up to half their angle beside the force.
	beside := func(span float64) float64 { return 2 * play / 2 * math.Tan(math.Pi/count) / span }
	b.Speeds = b.Speeds[:1]
	light, heavy := mustSolve(t, b, Load{Torque: 100}).Speeds[0], mustSolve(t, b, Load{Torque: 300e3}).Speeds[0]
	leans := false
	for i := range light.Shafts {
		for j, br := range light.Shafts[i].Bearings {
			whole := slopeAt(light.Shafts[i].Solution, br.At).norm()
			leans = leans || whole > 1e-4
			most := beside(light.Shafts[i].Span) + beside(light.Shafts[0].Span)
			if br.Slope > 0.01*heavy.Shafts[i].Bearings[j].Slope+most || most > 0.2*play/light.Shafts[i].Span {
				t.Errorf("%s, %s: slope %g rad under 0.1 N·m, %g rad under 300 N·m", light.Shafts[i].Name, br.Name, br.Slope, heavy.Shafts[i].Bearings[j].Slope)
			}
		}
	}
	if !leans {
		t.Error("no shaft leans in its play; this test would pass without it")
	}
}

// Squeeze is never rewarded: what its rows bear falls with it, and so does what the box bears.
func TestSqueezeIsNotRewarded(t *testing.T) {
	last := math.Inf(1)
	for _, squeeze := range []float64{0.01, 0.03, 0.06} {
		b := onRollers(-squeeze)
		s := mustSolve(t, b, Load{}).Speeds[0]
		least := math.Inf(1)
		for _, m := range s.Margins {
			if m.Kind == BearingStatic {
				least = min(least, m.Allowable[m.Level])
			}
		}
		if !(least < last) {
			t.Errorf("squeezed by %g mm its bearings bear %g N·mm, less squeezed %g", squeeze, least, last)
		}
		last = least
		r := mustSolve(t, b, Load{})
		if !slices.ContainsFunc(r.Checks, func(c string) bool { return strings.Contains(c, "squeezed") }) {
			t.Errorf("squeezed by %g mm: nobody asks: %q", squeeze, r.Checks)
		}
	}
}

package gearbox

import (
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/gearstress/iso6336"
	"layshaft/material"
)

// twoSpeeds is threeShafts with a second speed over the same final drive, and a duty.
func twoSpeeds(passes float64, steps ...DutyStep) *Box {
	b := threeShafts()
	b.Gears = append(b.Gears,
		Gear{Name: "p3", Shaft: "in", At: 120, Teeth: 25, Face: 20}, Gear{Name: "w3", Shaft: "out", At: 120, Teeth: 35, Face: 20})
	third := b.Meshes[0]
	third.Name, third.Driver, third.Driven = "c", "p3", "w3"
	b.Meshes = append(b.Meshes, third)
	b.Speeds = append(b.Speeds, Speed{Name: "higher", Path: []string{"c", "b"}})
	if len(steps) > 0 {
		b.Duty = &Duty{Passes: passes, Steps: steps}
	}
	return b
}

func limitOf(t *testing.T, r *Result, speed string, kind Kind, item string) Margin {
	t.Helper()
	for _, s := range r.Speeds {
		for _, m := range s.All() {
			if s.Name == speed && m.Kind == kind && m.Item == item {
				return m
			}
		}
	}
	t.Fatalf("speed %s has no %s of %s", speed, kind, item)
	return Margin{}
}

// With one step the duty is a number of load cycles: at the allowable torque the tooth lives exactly that long.
func TestDutyOfOneStepIsALife(t *testing.T) {
	const turns, passes = 40.0, 20000.0
	b := twoSpeeds(passes, DutyStep{Speed: "only", Turns: turns, Share: 1})
	for _, c := range []struct {
		kind Kind
		item string
		step int
		life func(*iso6336.Rating) float64
		want float64 // load cycles of that gear
	}{
		{RootFatigue, "p1", 0, func(r *iso6336.Rating) float64 { return r.Root[0].Life }, turns * passes},
		{RootFatigue, "w1", 0, func(r *iso6336.Rating) float64 { return r.Root[1].Life }, turns * passes * 21 / 39},
		{FlankFatigue, "p2", 1, func(r *iso6336.Rating) float64 { return r.Flank[0].Life }, turns * passes * 21 / 39},
		{FlankFatigue, "w2", 1, func(r *iso6336.Rating) float64 { return r.Flank[1].Life }, turns * passes * 21 / 39 * 17 / 71},
	} {
		at := limitOf(t, mustSolve(t, b, Load{}), "only", c.kind, c.item).Allowable[material.Low]
		again := mustSolve(t, b, Load{Torque: at}).Speeds[0]
		if got := c.life(again.Meshes[c.step].Rating); math.Abs(got-c.want) > 1e-5*c.want {
			t.Errorf("%s of %s: %.6g load cycles at its allowable torque, want %.6g", c.kind, c.item, got, c.want)
		}
		for _, m := range again.Margins {
			if m.Kind == c.kind && m.Item == c.item && math.Abs(m.Margin) > 1e-8 {
				t.Errorf("%s of %s: margin %g at its allowable torque", c.kind, c.item, m.Margin)
			}
		}
	}
}

// More to do never allows more torque. Next to nothing to do wears nothing out before the static strength ends it, which is a limit of its own.
func TestDutyAndTorque(t *testing.T) {
	last := math.Inf(1)
	for _, passes := range []float64{1e-2, 1, 100, 1e4, 1e6, 1e9} {
		r := mustSolve(t, twoSpeeds(passes, DutyStep{Speed: "only", Turns: 50, Share: 1}), Load{})
		at := limitOf(t, r, "only", RootFatigue, "p2").Allowable[material.Typical]
		if at > last*(1+1e-9) {
			t.Errorf("%g passes allow %g, fewer passes allowed %g", passes, at, last)
		}
		peak := limitOf(t, r, "only", RootPeak, "p2").Allowable[material.Typical]
		if at > peak*(1+1e-9) && !math.IsInf(at, 1) || math.IsInf(at, 1) != (passes < 10) {
			t.Errorf("%g passes allow %g N·mm; the peak strength %g", passes, at, peak)
		}
		last = at
	}
}

// A mesh that is loaded in two speeds wears in both.
func TestDutyAddsUpOverSpeeds(t *testing.T) {
	first, second := DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "higher", Turns: 200, Share: 1}
	allowed := func(steps ...DutyStep) float64 {
		return limitOf(t, mustSolve(t, twoSpeeds(1e4, steps...), Load{}), "only", FlankFatigue, "p2").Allowable[material.Low]
	}
	both, one, other := allowed(first, second), allowed(first), allowed(second)
	if !(both < one && both < other) {
		t.Errorf("both speeds allow %g, one alone %g and %g", both, one, other)
	}
	// Told in two parts it is the same duty.
	if halves := allowed(DutyStep{Speed: "only", Turns: 25, Share: 1}, second, DutyStep{Speed: "only", Turns: 25, Share: 1}); math.Abs(halves-both) > 1e-8*both {
		t.Errorf("the same duty in two parts allows %g, in one %g", halves, both)
	}
	// A speed that isn't wanted still wears the mesh.
	r := mustSolve(t, twoSpeeds(1e4, first, second), Load{Speeds: []string{"only"}})
	if got := limitOf(t, r, "only", FlankFatigue, "p2").Allowable[material.Low]; math.Abs(got-both) > 1e-9*both {
		t.Errorf("asked for one speed alone the mesh allows %g, want %g", got, both)
	}
}

// Coast bends the same root but loads the other flank.
func TestCoastWearsTheOtherFlank(t *testing.T) {
	drive, coast := DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "only", Turns: 500, Share: -1}
	r0, r1 := mustSolve(t, twoSpeeds(1e4, drive), Load{}), mustSolve(t, twoSpeeds(1e4, drive, coast), Load{})
	if a, b := limitOf(t, r0, "only", FlankFatigue, "p1").Allowable[0], limitOf(t, r1, "only", FlankFatigue, "p1").Allowable[0]; math.Abs(a-b) > 1e-9*a {
		t.Errorf("coast changes the drive flank from %g to %g", a, b)
	}
	if a, b := limitOf(t, r0, "only", RootFatigue, "p1").Allowable[0], limitOf(t, r1, "only", RootFatigue, "p1").Allowable[0]; !(b < a) {
		t.Errorf("coast leaves the root at %g of %g", b, a)
	}
}

// The shock factor stands on what a single load decides: the peaks of the teeth and the yield of shafts.
func TestShockCountsForThePeak(t *testing.T) {
	plain := mustSolve(t, threeShafts(), Load{})
	b := threeShafts()
	b.Shock = 2
	shocked := mustSolve(t, b, Load{})
	for _, m := range plain.Speeds[0].Margins {
		want := m.Allowable[0]
		if m.Kind.Static() {
			want /= 2
		}
		if got := limitOf(t, shocked, "only", m.Kind, m.Item).Allowable[0]; math.Abs(got-want) > 1e-7*want {
			t.Errorf("%s of %s: %g with a shock factor of 2, want %g", m.Kind, m.Item, got, want)
		}
	}
}

// How many passes it lasts: as many as the duty asks for when the torque is the allowable one, and as many whatever number of passes the duty asks for.
func TestLifeInPasses(t *testing.T) {
	b := twoSpeeds(1e4, DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "higher", Turns: 200, Share: 0.8})
	m := limitOf(t, mustSolve(t, b, Load{}), "only", FlankFatigue, "p2")
	again := limitOf(t, mustSolve(t, b, Load{Torque: m.Allowable[m.Level]}), "only", FlankFatigue, "p2")
	if math.Abs(again.Life-1e4) > 1e-4*1e4 {
		t.Errorf("at its allowable torque it lasts %g passes, want 10 000", again.Life)
	}
	b.Duty.Passes = 100
	if few := limitOf(t, mustSolve(t, b, Load{}), "only", FlankFatigue, "p2"); math.Abs(few.Life-m.Life) > 1e-9*m.Life {
		t.Errorf("it lasts %g passes when 100 are asked for, %g when 10 000 are", few.Life, m.Life)
	}
	if peak := limitOf(t, mustSolve(t, b, Load{}), "only", FlankPeak, "p2"); peak.Life != 0 {
		t.Errorf("the peak limit counts %g passes", peak.Life)
	}
}

// The coast flank wears by itself: what coast steps do to it is what a box that only coasts does to the flank it carries on.
func TestCoastFlankHasItsOwnSum(t *testing.T) {
	drive, coast := DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "only", Turns: 500, Share: -0.6}
	both := mustSolve(t, twoSpeeds(1e4, drive, coast), Load{})
	alone := mustSolve(t, twoSpeeds(1e4, DutyStep{Speed: "only", Turns: 500, Share: 0.6}), Load{Torque: -200e3})
	for _, gear := range []string{"p1", "w1", "p2", "w2"} {
		a, b := limitOf(t, both, "only", FlankFatigue, gear+", coast flank"), limitOf(t, alone, "only", FlankFatigue, gear+", coast flank")
		if a.Flank != CoastFlank || math.Abs(a.Allowable[0]-b.Allowable[0]) > 1e-8*b.Allowable[0] || math.Abs(a.Life-b.Life) > 1e-8*b.Life {
			t.Errorf("%s: the coast flank allows %g and lasts %g passes, in a box that only coasts %g and %g", gear, a.Allowable[0], a.Life, b.Allowable[0], b.Life)
		}
		if d := limitOf(t, both, "only", FlankFatigue, gear); d.Flank != DriveFlank || d.Life == a.Life {
			t.Errorf("%s: drive and coast flank both last %g passes", gear, a.Life)
		}
	}
	// In a speed that doesn't coast the other gears have no coast flank to judge, the final drive has.
	for _, m := range both.Speeds[1].Margins {
		if m.Flank == CoastFlank && (m.Gear == "p3" || m.Gear == "w3") {
			t.Errorf("%s is judged though nothing loads it", m.Item)
		}
	}
	limitOf(t, both, "higher", FlankFatigue, "p2, coast flank")
	// Put back, the allowable torque uses the flank up: what it shows and what it may show are one.
	m := limitOf(t, both, "only", FlankFatigue, "p1, coast flank")
	again := limitOf(t, mustSolve(t, twoSpeeds(1e4, drive, coast), Load{Torque: m.Allowable[0]}), "only", FlankFatigue, "p1, coast flank")
	if math.Abs(again.Margin) > 1e-8 || math.Abs(again.Demand-m.Limit.Low) > 1e-6*m.Limit.Low {
		t.Errorf("put back: margin %g, %g MPa of %g", again.Margin, again.Demand, m.Limit.Low)
	}
}

// Backwards the final drive pulls on the flank on which it coasts forwards: both wear that flank, and neither the other.
func TestReverseWearsTheCoastFlankOfTheFinalDrive(t *testing.T) {
	const drive, coast = "p2", "p2, coast flank"
	lasts := func(item string, steps ...DutyStep) float64 {
		b := withReverse()
		b.Duty = &Duty{Passes: 1, Steps: steps}
		return limitOf(t, mustSolve(t, b, Load{}), "reverse", FlankFatigue, item).Life
	}
	forwards, back, brakes := DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "reverse", Turns: 20, Share: 1}, DutyStep{Speed: "only", Turns: 80, Share: -0.9}
	if a, b := lasts(drive, forwards, back, brakes), lasts(drive, forwards); math.Abs(a-b) > 1e-8*b {
		t.Errorf("the drive flank lasts %g passes, without reverse and coast %g", a, b)
	}
	a, b, c := lasts(coast, forwards, back, brakes), lasts(coast, back), lasts(coast, brakes)
	if sum := 1 / (1/b + 1/c); math.Abs(a-sum) > 1e-8*sum {
		t.Errorf("the coast flank lasts %g passes; reverse alone leaves it %g, coast alone %g, together %g", a, b, c, sum)
	}
	// The gears of reverse itself drive as they always do.
	bx := withReverse()
	bx.Duty = &Duty{Passes: 1, Steps: []DutyStep{back}}
	if m := limitOf(t, mustSolve(t, bx, Load{}), "reverse", FlankFatigue, "pr"); m.Flank != DriveFlank {
		t.Errorf("the reverse pinion wears its %s flank", m.Flank)
	}
}

// A time at a speed of the input shaft is a number of turns; the speed counts for the dynamic load of its step alone.
func TestDutyByTime(t *testing.T) {
	allowed := func(revs float64, d DutyStep) float64 {
		b := twoSpeeds(1e4, d)
		b.Revs = revs
		return limitOf(t, mustSolve(t, b, Load{}), "only", RootFatigue, "p1").Allowable[material.Low]
	}
	const revs, slow = 600.0, 60.0 // rad/s
	turns := allowed(revs, DutyStep{Speed: "only", Turns: 30 * revs / (2 * math.Pi), Share: 1})
	for name, got := range map[string]float64{
		"at the speed of the input": allowed(revs, DutyStep{Speed: "only", Time: 30, Share: 1}),
		"at a speed of its own":     allowed(slow, DutyStep{Speed: "only", Time: 30, Revs: revs, Share: 1}),
	} {
		if math.Abs(got-turns) > 1e-12*turns {
			t.Errorf("30 s %s allow %g N·mm, as many turns %g", name, got, turns)
		}
	}
	if calm := allowed(revs, DutyStep{Speed: "only", Turns: 30 * revs / (2 * math.Pi), Revs: slow, Share: 1}); !(calm > turns*(1+1e-6)) {
		t.Errorf("as many turns at a tenth of the speed allow %g N·mm, at full speed %g", calm, turns)
	}
}

// Lives by gear are the worst of its limits; where the clutch holds everything at one torque, they are those at that torque.
func TestLivesOfGears(t *testing.T) {
	b := twoSpeeds(1e3, DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "higher", Turns: 200, Share: 1}, DutyStep{Speed: "higher", Turns: 100, Share: -1})
	b.Clutch = &Clutch{Torque: 170e3}
	r, plain := mustSolve(t, b, Load{}), mustSolve(t, b, Load{Torque: 170e3})
	if len(r.Lives) != 6 {
		t.Fatalf("%d gears", len(r.Lives))
	}
	same := func(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-6*b }
	for i, g := range r.Lives {
		want := plain.Lives[i]
		if !same(g.Root.Reached, want.Root.Asked) || !same(g.Drive.Reached, want.Drive.Asked) || !same(g.Coast.Reached, want.Coast.Asked) {
			t.Errorf("%s: with a clutch of 170 N·m %+v, asked 170 N·m %+v", g.Gear, g, want)
		}
		root, drive := limitOf(t, r, g.Speeds[0], RootFatigue, g.Gear), limitOf(t, r, g.Speeds[0], FlankFatigue, g.Gear)
		if g.Root.Asked != root.Life || g.Drive.Asked != drive.Life || g.Root.Asked == 0 {
			t.Errorf("%s: %+v, its limits last %g and %g passes", g.Gear, g, root.Life, drive.Life)
		}
		if coasts := g.Gear != "p1" && g.Gear != "w1"; coasts != (g.Coast.Asked > 0) {
			t.Errorf("%s: the coast flank lasts %g passes", g.Gear, g.Coast.Asked)
		}
		if s := g.Shortest(); s.Asked > g.Root.Asked || s.Asked > g.Drive.Asked || s.Asked == 0 || s.Reached < s.Asked {
			t.Errorf("%s: %+v of %+v", g.Gear, s, g)
		}
	}
	if s := r.Lives[2].Speeds; len(s) != 2 || s[0] != "only" || s[1] != "higher" {
		t.Errorf("the final pinion is loaded in %v", s)
	}
}

// besides is threeShafts with a second way from in to diff, over a shaft beside the first: both ways share the first pinion and the last wheel.
func besides() *Box {
	b := threeShafts()
	in, out, diff := *b.Shafts[0].Axis, *b.Shafts[1].Axis, *b.Shafts[2].Axis
	// The mirror image of out in the line through in and diff.
	along := point{diff[0] - in[0], diff[1] - in[1]}
	along = along.scaled(1 / along.norm())
	to := point{out[0] - in[0], out[1] - in[1]}
	foot := along.scaled(2 * to.dot(along)).minus(to)
	b.Shafts = append(b.Shafts, shaftsOf(parallel{"beside", in[0] + foot[0], in[1] + foot[1], 204})...)
	for _, g := range []Gear{b.Gears[1], b.Gears[2]} {
		g.Name, g.Shaft = g.Name+" beside", "beside"
		b.Gears = append(b.Gears, g)
	}
	first, last := b.Meshes[0], b.Meshes[1]
	first.Name, first.Driven = "a beside", "w1 beside"
	last.Name, last.Driver = "b beside", "p2 beside"
	b.Meshes = append(b.Meshes, first, last)
	b.Speeds = append(b.Speeds, Speed{Name: "beside", Path: []string{"a beside", "b beside"}})
	return b
}

// A gear that meshes with several others wears by the sum of them all, on the flank that carries in each.
func TestAGearInTwoMeshesWearsByBoth(t *testing.T) {
	one, other := DutyStep{Speed: "only", Turns: 50, Share: 1}, DutyStep{Speed: "beside", Turns: 70, Share: 0.95}
	life := func(kind Kind, gear, speed string, steps ...DutyStep) float64 {
		b := besides()
		b.Duty = &Duty{Passes: 1, Steps: steps}
		return limitOf(t, mustSolve(t, b, Load{}), speed, kind, gear).Life
	}
	for _, gear := range []string{"p1", "w2"} {
		for _, kind := range []Kind{RootFatigue, FlankFatigue} {
			a, c := life(kind, gear, "only", one), life(kind, gear, "beside", other)
			both, again := life(kind, gear, "only", one, other), life(kind, gear, "beside", one, other)
			if sum := 1 / (1/a + 1/c); math.Abs(both-sum) > 1e-8*sum || both != again {
				t.Errorf("%s of %s lasts %g and %g passes of both steps; of each alone %g and %g, so together %g", kind, gear, both, again, a, c, sum)
			}
		}
	}
}

// An idler's teeth are bent to and fro once a turn: one load cycle, told alike in both its meshes; each of its flanks wears by one mesh.
func TestAnIdlerWearsOnceATurn(t *testing.T) {
	b := withReverse()
	b.Duty = &Duty{Passes: 1, Steps: []DutyStep{{Speed: "reverse", Turns: 50, Share: 1}}}
	var roots, flanks []float64
	for _, m := range mustSolve(t, b, Load{}).Speeds[1].Margins {
		if m.Gear == "ir" && m.Kind == RootFatigue {
			roots = append(roots, m.Life)
		}
		if m.Gear == "ir" && m.Kind == FlankFatigue {
			flanks = append(flanks, m.Life)
		}
	}
	if len(roots) != 2 || roots[0] != roots[1] {
		t.Errorf("the root of the idler lasts %v passes in its two meshes", roots)
	}
	if len(flanks) < 2 {
		t.Errorf("flanks of the idler: %v", flanks)
	}
	p := prepare(b, Method{})
	solvers, _ := p.choose(b.Torque, nil)
	v := solvers[work{"reverse", false}]
	all := v.trials(0, p.mesh["c"], solvers)
	root := all[slices.IndexFunc(all, func(t trial) bool { return t.kind == RootFatigue && t.owner == p.gear["ir"] })]
	wears := func(shares ...share) float64 {
		one := root
		one.shares = shares
		w, err := one.worn(material.Typical, func(s *share) float64 { return 2 * b.Torque * s.torque }, nil)
		if err != nil {
			t.Fatal(err)
		}
		return w.sum
	}
	if first, second, both := wears(root.shares[0]), wears(root.shares[1]), wears(root.shares...); len(root.shares) != 2 || !(first > 0 && second > 0) || both != max(first, second) {
		t.Errorf("one mesh wears the idler's root by %g, the other by %g, both by %g", first, second, both)
	}
	if p.idler(p.gear["pr"], b.Speeds[1]) || !p.idler(p.gear["ir"], b.Speeds[1]) || p.idler(p.gear["ir"], b.Speeds[0]) {
		t.Error("which gear is an idler in which speed is mistaken")
	}
}

// What no step of the duty loads isn't judged for fatigue, and that is said.
func TestWhatTheDutyLeavesOut(t *testing.T) {
	b := withReverse()
	b.Duty = &Duty{Passes: 1, Steps: []DutyStep{{Speed: "only", Turns: 50, Share: 1}}}
	s := mustSolve(t, b, Load{}).Speeds[1]
	for _, m := range s.All() {
		if (m.Kind == RootFatigue || m.Kind == FlankFatigue) && m.Gear != "p2" && m.Gear != "w2" {
			t.Errorf("%s of %s is judged though the duty has no reverse", m.Kind, m.Item)
		}
	}
	if !slices.ContainsFunc(s.Meshes[0].Checks, func(n string) bool { return strings.Contains(n, "no step of the duty loads it") }) {
		t.Errorf("nothing is said: %q", s.Meshes[0].Notes)
	}
}

// What the duty allows is the same whatever torque is asked about, also where the search begins far beyond the static strength.
func TestDutyAllowsTheSameWhateverIsAsked(t *testing.T) {
	b := twoSpeeds(200, DutyStep{Speed: "only", Turns: 300, Share: 1}, DutyStep{Speed: "higher", Turns: 700, Share: 1})
	base := mustSolve(t, b, Load{Torque: 100e3})
	for torque := 150e3; torque < 1500e3; torque *= 1.15 {
		again := mustSolve(t, b, Load{Torque: torque})
		for _, item := range []string{"p1", "w1", "p2", "w2"} {
			for _, kind := range []Kind{RootFatigue, FlankFatigue} {
				want, got := limitOf(t, base, "only", kind, item).Allowable, limitOf(t, again, "only", kind, item).Allowable
				for level := range got {
					if math.Abs(got[level]-want[level]) > 1e-3*want[level] {
						t.Errorf("%s of %s, asked at %.4g N·m: %.6g N·m allowed, %.6g when asked at 100 N·m", kind, item, torque/1e3, got[level]/1e3, want[level]/1e3)
					}
				}
			}
		}
	}
}

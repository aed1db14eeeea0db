package study

import (
	"math"
	"slices"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
)

// solved reads and solves a demonstration box, changed.
func solved(t *testing.T, name string, torque float64, change func(b *gearbox.Box)) *gearbox.Result {
	t.Helper()
	box, _, found := boxfile.ReadFile("../../testdata/" + name + ".yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	if change != nil {
		change(box)
	}
	r, err := gearbox.Solve(box, gearbox.Load{Torque: torque})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func reasons(t *testing.T, list []Reason, kind ReasonKind) (found []Reason) {
	t.Helper()
	for _, r := range list {
		if r.Kind == kind {
			found = append(found, r)
		}
	}
	return found
}

// Every number of the case is one of the results', and stands on the right side.
func TestTheCaseHoldsWhatTheResultsSay(t *testing.T) {
	alder, birch := demo(t)
	c := Compare([]*gearbox.Result{alder, birch})
	if len(c.Lighter) != 1 {
		t.Fatalf("%d cases, want one", len(c.Lighter))
	}
	k := c.Lighter[0]
	if k.Lighter != 1 || k.Other != 0 || !k.Mass[0].Whole || k.Mass[0].Value != birch.Box.Weighed.Box || k.Mass[1].Value != alder.Box.Weighed.Box {
		t.Errorf("%+v", k)
	}
	told := map[string]bool{}
	for side, list := range [][]Reason{k.For, k.Against} {
		for _, r := range reasons(t, list, ByTorque) {
			for i, speed := range r.Speeds {
				told[speed] = true
				a, b := speedNamed(t, birch, speed).First, speedNamed(t, alder, speed).First
				if r.Values[i] != [2]float64{a.Torque, b.Torque} || r.Limits[i] != (LimitPair{a, b}) || (a.Torque > b.Torque) != (side == 0) {
					t.Errorf("%s: %+v; the results say %+v and %+v", speed, r, a, b)
				}
			}
		}
		for _, r := range reasons(t, list, ByPerMass) {
			// By the least torque of all speeds: that is what a box bears.
			a, b := birch.Allowable(birch.Box.Limits.Strength)/birch.Box.Weighed.Box, alder.Allowable(alder.Box.Limits.Strength)/alder.Box.Weighed.Box
			if v := r.Values[0]; len(r.Values) != 1 || math.Abs(v[0]/a-1) > 1e-12 || math.Abs(v[1]/b-1) > 1e-12 || (a > b) != (side == 0) {
				t.Errorf("per kilogram: %v on side %d, want %g and %g", r.Values, side, a, b)
			}
		}
		for _, r := range reasons(t, list, ByState) {
			a, b := speedNamed(t, birch, r.Speeds[0]).Deciding().Judged(), speedNamed(t, alder, r.Speeds[0]).Deciding().Judged()
			if a == b || (a > b) != (side == 0) {
				t.Errorf("states %v and %v on side %d", a, b, side)
			}
		}
	}
	for _, s := range alder.Speeds {
		if a, b := speedNamed(t, birch, s.Name).First.Torque, s.First.Torque; told[s.Name] != differs(a, b) {
			t.Errorf("%s: %g against %g N·mm told: %v", s.Name, a, b, told[s.Name])
		}
	}
	spin := append(reasons(t, k.For, BySpin), reasons(t, k.Against, BySpin)...)
	if len(spin) != 1 || !spin[0].Every || spin[0].Values[1][0] != birch.Weights.Synchronisers[1].Inertia {
		t.Errorf("inertia: %+v", spin)
	}
	for _, r := range k.Shared {
		for i, speed := range r.Speeds {
			if a, b := speedNamed(t, birch, speed).First, speedNamed(t, alder, speed).First; a.Kind != b.Kind || a.Item != b.Item {
				t.Errorf("%s is said to run out of the same: %+v", speed, r.Limits[i])
			}
		}
	}
	// The least and the most that the lighter box bears, drags along and bears for its mass, against the other: by hand.
	want := map[ReasonKind][2]float64{}
	put := func(kind ReasonKind, light, heavy float64) {
		change := light/heavy - 1
		if w, ok := want[kind]; ok {
			want[kind] = [2]float64{min(w[0], change), max(w[1], change)}
		} else {
			want[kind] = [2]float64{change, change}
		}
	}
	for i, s := range birch.Speeds {
		put(ByTorque, s.First.Torque, speedNamed(t, alder, s.Name).First.Torque)
		put(BySpin, birch.Weights.Synchronisers[i].Inertia, alder.Weights.Synchronisers[i].Inertia)
	}
	put(ByPerMass, birch.Allowable(birch.Box.Limits.Strength)/birch.Box.Weighed.Box, alder.Allowable(alder.Box.Limits.Strength)/alder.Box.Weighed.Box)
	for kind, w := range want {
		i := slices.IndexFunc(k.Balance, func(b Balance) bool { return b.Kind == kind })
		if i < 0 {
			t.Errorf("no balance of %s", kind)
		} else if b := k.Balance[i]; math.Abs(b.Least-w[0]) > 1e-9 || math.Abs(b.Most-w[1]) > 1e-9 || b.More != (kind != BySpin) {
			t.Errorf("balance %+v, want %v", b, w)
		}
	}
	for _, b := range k.Balance {
		if !(b.Least <= b.Most) || b.Kind == ByMass && math.Abs(b.Most-(birch.Box.Weighed.Box/alder.Box.Weighed.Box-1)) > 1e-12 {
			t.Errorf("balance %+v", b)
		}
	}
	if len(k.Balance) != 8 || len(k.Gaps) != 0 {
		t.Errorf("balance %+v, gaps %+v", k.Balance, k.Gaps)
	}
	// The other way round it is the same case.
	other := Compare([]*gearbox.Result{birch, alder}).Lighter[0]
	if other.Lighter != 0 || other.Other != 1 || len(other.For) != len(k.For) || len(other.Against) != len(k.Against) {
		t.Errorf("the other way round: %+v", other)
	}
}

func speedNamed(t *testing.T, r *gearbox.Result, name string) *gearbox.SpeedResult {
	t.Helper()
	i := slices.IndexFunc(r.Speeds, func(s gearbox.SpeedResult) bool { return s.Name == name })
	if i < 0 {
		t.Fatalf("no speed %q", name)
	}
	return &r.Speeds[i]
}

// A box of the same mass has no case; without weights there is nothing to tell.
func TestNoCase(t *testing.T) {
	alder, birch := demo(t)
	c := Compare([]*gearbox.Result{alder, alder})
	if len(c.Lighter) != 0 || len(c.Weighed) != 2 {
		t.Errorf("a box against itself: %+v", c.Lighter)
	}
	if d := item(t, c.Speeds[0], "mass", ""); d.Values[0] != alder.Weights.ByDimensions() || d.Change[1] != 0 {
		t.Errorf("mass: %+v", d)
	}
	birch.Weights = nil
	if c = Compare([]*gearbox.Result{alder, birch}); c.Weighed != nil || c.Lighter != nil {
		t.Error("masses without weights")
	}
	for _, d := range c.Speeds[0].Items {
		if d.Key == "mass" {
			t.Errorf("mass without weights: %+v", d)
		}
	}
}

// Three boxes: the lightest against each heavier one. What isn't known is said.
func TestGaps(t *testing.T) {
	heavy := solved(t, "alder", 0, func(b *gearbox.Box) { b.Weighed.Box, b.Name = 0, "heavy" })
	odd := solved(t, "birch", 150e3, func(b *gearbox.Box) {
		b.Parts, b.Gears[1].Seat = nil, nil
		b.Gears[0].Steel, b.Limits.Strength = "through-hardened", 0
		b.Speeds = b.Speeds[:4]
		b.Duty = nil
	})
	alike := solved(t, "alder", 0, nil)
	c := Compare([]*gearbox.Result{heavy, odd, alike})
	if len(c.Lighter) != 2 || c.Lighter[0].Lighter != 1 || c.Lighter[0].Other != 0 || c.Lighter[1].Other != 2 || c.Weighed[0].Whole {
		t.Fatalf("%+v", c.Lighter)
	}
	got := map[GapKind][]int{}
	for _, g := range c.Lighter[0].Gaps {
		got[g.Kind] = append(got[g.Kind], g.Boxes...)
		switch g.Kind {
		case MissingSpeed:
			if !slices.Equal(g.Names, []string{"5th"}) {
				t.Errorf("missing %v", g.Names)
			}
		case NoSynchroniser:
			if !slices.Equal(g.Names, []string{"1st"}) {
				t.Errorf("no synchroniser of %v", g.Names)
			}
		}
	}
	for kind, want := range map[GapKind][]int{
		NotWeighed: {0}, NoClutchDisc: {1}, NoSynchroniser: {1}, MissingSpeed: {1}, OtherTorque: {1, 0}, OtherSteel: {1, 0}, OtherLevel: {1, 0},
	} {
		if !slices.Equal(got[kind], want) {
			t.Errorf("%s: boxes %v, want %v", kind, got[kind], want)
		}
	}
	for _, list := range [][]Reason{c.Lighter[0].For, c.Lighter[0].Against} {
		for _, r := range list {
			if r.Kind == ByDeflection || r.Kind == ByRoot || r.Kind == ByFlank {
				t.Errorf("set against each other at different torques: %+v", r)
			}
			if r.Kind == BySpin && slices.Contains(r.Speeds, "1st") {
				t.Error("an inertia that isn't known is compared")
			}
		}
	}
}

func TestPerMass(t *testing.T) {
	alder, birch := demo(t)
	all := Weigh([]*gearbox.Result{alder, birch})
	if w := all[0]; !w.Whole || w.PerMassOf("1st") != alder.Speeds[0].First.Torque/alder.Box.Weighed.Box || w.Least != 0 || !math.IsNaN(w.PerMassOf("none")) || w.Synchroniser("none") != nil {
		t.Errorf("%+v", w)
	}
	alder.Box.Weighed.Box = 0
	if w := Weigh([]*gearbox.Result{alder, birch})[1]; w.Whole || w.Mass != birch.Weights.Turning() {
		t.Error("boxes on two bases")
	}
}

// What arrives, the life and the wheels are told where they can be set against each other.
func TestWhatArrivesAndTheWheels(t *testing.T) {
	alder, birch := demo(t)
	c := Compare([]*gearbox.Result{alder, birch})
	k := c.Lighter[0]
	told := 0
	for side, list := range [][]Reason{k.For, k.Against} {
		for _, r := range reasons(t, list, ByTransmitted) {
			for i, speed := range r.Speeds {
				told++
				a, b := speedNamed(t, birch, speed), speedNamed(t, alder, speed)
				want := [2]float64{1 + a.Margins[a.Reach.First].Reached, 1 + b.Margins[b.Reach.First].Reached}
				if r.Values[i] != want || (want[0] > want[1]) != (side == 0) {
					t.Errorf("%s: %v on side %d, want %v", speed, r.Values[i], side, want)
				}
			}
		}
	}
	if told != 5 {
		t.Errorf("%d speeds with the torque transmitted, want 5", told)
	}
	lives := [2]float64{math.Inf(1), math.Inf(1)}
	for i, r := range []*gearbox.Result{birch, alder} {
		for _, g := range r.Lives {
			if l := g.Shortest().Reached; l > 0 {
				lives[i] = min(lives[i], l)
			}
		}
	}
	if r := reasons(t, k.Against, ByLife); len(r) != 1 || r[0].Values[0] != lives || lives[0] >= lives[1] {
		t.Errorf("lives %+v, want %v", r, lives)
	}
	if len(reasons(t, append(k.For, k.Against...), ByWheels)) > 0 {
		t.Error("the wheels are told of boxes of the same ratios")
	}
	for _, d := range c.Speeds[0].Items {
		if d.Key == "wheel_torque" {
			t.Error("the torque at the wheels stands beside that at the input where the ratios are the same")
		}
	}
	// Another final drive: what is more at the input may be less at the wheels.
	short := solved(t, "birch", 0, func(b *gearbox.Box) { b.Car.AxleRatio = 1.3; b.Duty.Passes++ })
	c = Compare([]*gearbox.Result{alder, short})
	for i, row := range c.Speeds {
		d := item(t, row, "wheel_torque", "")
		for n, r := range []*gearbox.Result{alder, short} {
			s, axle := &r.Speeds[i], []float64{1, 1.3}[n]
			efficiency := 1.0
			if r.Box.Car.AxleEfficiency > 0 {
				efficiency = r.Box.Car.AxleEfficiency
			}
			if want := s.First.Torque * math.Abs(s.Ratio) * axle * s.Efficiency * efficiency; math.Abs(d.Values[n]/want-1) > 1e-12 {
				t.Errorf("%s: %g at the wheels, want %g", row.Name, d.Values[n], want)
			}
		}
	}
	k = c.Lighter[0]
	if len(reasons(t, append(k.For, k.Against...), ByWheels)) == 0 || len(reasons(t, append(k.For, k.Against...), ByLife)) > 0 {
		t.Error("the wheels aren't told, or lives of different duties are")
	}
	if !slices.ContainsFunc(k.Gaps, func(g Gap) bool { return g.Kind == OtherDuty }) {
		t.Errorf("gaps %+v", k.Gaps)
	}
}

// Masses in a cause split go by the dimensions, and its parts add up.
func TestSplitSharesMass(t *testing.T) {
	alder, birch := demo(t)
	split, _ := demoSplit(t)
	it := split.Item("1st", "mass", "", nil)
	if it == nil {
		t.Fatal("no mass in the split")
	}
	sum := it.From
	for _, s := range it.Shares {
		sum += s
	}
	alder.Box.Weighed, birch.Box.Weighed = gearbox.Weighed{}, gearbox.Weighed{}
	a, err1 := gearbox.Weigh(alder.Box)
	b, err2 := gearbox.Weigh(birch.Box)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	if math.Abs(it.From-a.Turning()) > 1e-9 || math.Abs(it.To-b.Turning()) > 1e-9 || math.Abs(sum-it.To) > 1e-9 {
		t.Errorf("from %g to %g, parts add up to %g; the boxes weigh %g and %g", it.From, it.To, sum, a.Turning(), b.Turning())
	}
}

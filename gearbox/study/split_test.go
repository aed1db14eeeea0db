package study

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
)

// demoSplit is what makes the difference between the demonstration boxes, there and back; it must not be changed.
func demoSplit(t *testing.T) (there, back *CauseSplit) {
	t.Helper()
	both, err := splitDemo()
	if err != nil {
		t.Fatal(err)
	}
	return both[0], both[1]
}

func split(t *testing.T, a, b *gearbox.Result) *CauseSplit {
	t.Helper()
	c, err := SplitCauses(context.Background(), a, b, gearbox.Load{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func solve(t *testing.T, b *gearbox.Box) *gearbox.Result {
	t.Helper()
	r, err := gearbox.Solve(b, gearbox.Load{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// altered is a copy of a box whose lists can be changed without touching the original.
func altered(b *gearbox.Box, change func(*gearbox.Box)) *gearbox.Box {
	c := *b
	c.Shafts, c.Gears, c.Meshes = slices.Clone(b.Shafts), slices.Clone(b.Gears), slices.Clone(b.Meshes)
	for i := range c.Shafts {
		c.Shafts[i].Sections, c.Shafts[i].Bearings = slices.Clone(c.Shafts[i].Sections), slices.Clone(c.Shafts[i].Bearings)
	}
	change(&c)
	return &c
}

func (c *CauseSplit) cause(g Group) int {
	return slices.IndexFunc(c.Causes, func(x SplitCause) bool { return slices.Contains(x.Groups, g) })
}

// With no group swapped the mixed box is the first one, with all of them the second.
func TestTheEndsOfTheMixAreTheBoxes(t *testing.T) {
	alder, birch := demo(t)
	both, err := common([2]*gearbox.Result{alder, birch})
	if err != nil || len(both.left) > 0 || len(both.renamed) > 0 {
		t.Fatal(both.left, both.renamed, err)
	}
	for i, taken := range []mask{0, every} {
		mixed, err := swap{both.boxes, taken}.mixed()
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(both.boxes[i], mixed) {
			t.Errorf("mix %b differs from box %d:\n%+v\n%+v", taken, i, mixed, both.boxes[i])
		}
	}
}

// The shares of every quantity add up to its difference, which is that of the two boxes as they were solved in full.
func TestSharesAddUpToTheDifference(t *testing.T) {
	alder, birch := demo(t)
	c, _ := demoSplit(t)
	whole := Compare([]*gearbox.Result{alder, birch})
	for s, speed := range c.Speeds {
		for _, it := range speed.Items {
			want := [2]float64{}
			if it.Limit == nil {
				d := item(t, whole.Speeds[s], it.Key, it.Part)
				want = [2]float64{d.Values[0], d.Values[1]}
			} else {
				for i, r := range []*gearbox.Result{alder, birch} {
					want[i] = math.Inf(1)
					for _, m := range r.Speeds[s].All() {
						if limitOf(m.Kind, m.Item) == *it.Limit {
							want[i] = min(want[i], m.Allowable[m.Level])
						}
					}
				}
			}
			for i, got := range []float64{it.From, it.To} {
				if math.Abs(got-want[i]) > 1e-9*math.Abs(want[i]) {
					t.Errorf("%s, %s of %q: box %d has %.12g, in the comparison %.12g", speed.Name, it.Key, it.Part, i, got, want[i])
				}
			}
			addsUp(t, c, speed.Name, it)
		}
		for i, r := range []*gearbox.Result{alder, birch} {
			first := limitOf(r.Speeds[s].First.Kind, r.Speeds[s].First.Item)
			if !slices.ContainsFunc(speed.Items, func(it ItemSplit) bool { return it.Limit != nil && *it.Limit == first && it.First[i] }) {
				t.Errorf("%s: %v, first in box %d, isn't shared out", speed.Name, first, i)
			}
		}
	}
	for _, g := range []Group{Teeth, Ratios, Bodies, Losses, Case, Oil, Sense, Asked, Judging} {
		if !c.Causes[c.cause(g)].Same {
			t.Errorf("%s should be the same in both demonstration boxes", g)
		}
	}
	if c.Mixed != 32 {
		t.Errorf("%d mixed boxes, want 2⁵", c.Mixed)
	}
}

// addsUp holds the shares of a quantity against its difference, and those of what is the same against nothing.
func addsUp(t interface{ Errorf(string, ...any) }, c *CauseSplit, speed string, it ItemSplit) {
	if it.Shares == nil {
		t.Errorf("%s, %s of %q isn't shared out", speed, it.Key, it.Part)
		return
	}
	sum := it.From
	for i, share := range it.Shares {
		sum += share
		if c.Causes[i].Same && share != 0 {
			t.Errorf("%s, %s of %q: %v is the same in both and has %g", speed, it.Key, it.Part, c.Causes[i].Groups, share)
		}
	}
	if !(math.Abs(sum-it.To) <= 1e-9*math.Max(math.Abs(it.From), math.Abs(it.To))) {
		t.Errorf("%s, %s of %q: shares lead from %g to %g, want %g", speed, it.Key, it.Part, it.From, sum, it.To)
	}
}

// When the boxes change sides every share changes its sign.
func TestTheOtherWayRound(t *testing.T) {
	t.Parallel()
	there, back := demoSplit(t)
	for _, speed := range there.Speeds {
		for _, it := range speed.Items {
			for i, share := range it.Shares {
				other := back.Item(speed.Name, it.Key, it.Part, it.Limit)
				if other := other.Shares[i]; math.Abs(share+other) > 1e-9*math.Max(math.Abs(it.From), math.Abs(it.To)) {
					t.Errorf("%s, %s of %q, %v: %g there, %g back", speed.Name, it.Key, it.Part, there.Causes[i].Groups, share, other)
				}
			}
		}
	}
}

// Boxes that differ in one group alone owe it everything.
func TestOneGroupAloneTakesAll(t *testing.T) {
	t.Parallel()
	alder, _ := demo(t)
	for _, w := range []struct {
		group  Group
		change func(*gearbox.Box)
	}{
		{Span, func(b *gearbox.Box) { b.Shafts[1].Bearings[1].At -= 10; b.Shafts[1].Sections[5].Length -= 10 }},
		{Sections, func(b *gearbox.Box) { b.Shafts[1].Sections[3].Outer = 47 }},
		{Positions, func(b *gearbox.Box) { b.Gears[0].At += 4; b.Gears[1].At += 4 }},
		{Faces, func(b *gearbox.Box) { b.Gears[0].Face = 20 }},
		{Teeth, func(b *gearbox.Box) { b.Gears[0].Crowning = 0.012 }},
		{Seats, func(b *gearbox.Box) { b.Shafts[1].Bearings[0].Radial *= 2 }},
		{Case, func(b *gearbox.Box) { b.Housing.Radial = 2e5 }},
		{Steel, func(b *gearbox.Box) { b.Gears[0].Steel = "nitrided" }},
		{Asked, func(b *gearbox.Box) { b.Torque *= 1.2 }},
		{Losses, func(b *gearbox.Box) { b.Meshes[0].Efficiency = 0.95 }},
		{Sense, func(b *gearbox.Box) { b.Turns = -b.Turns }},
		{Bodies, func(b *gearbox.Box) { b.Gears[1].Rim = 5 }},
		{Oil, func(b *gearbox.Box) { b.Oil.Viscosity = 60 }},
		{Judging, func(b *gearbox.Box) { b.Meshes[0].TiltLimit = 0.0003 }},
	} {
		other := solve(t, altered(alder.Box, w.change))
		c := split(t, alder, other)
		for _, cause := range c.Causes {
			if alone := cause.Groups[0] == w.group; cause.Same == alone {
				t.Errorf("%v changed: %v same: %v", w.group, cause.Groups, cause.Same)
			}
		}
		for _, speed := range c.Speeds[:1] {
			for _, it := range speed.Items {
				if share := it.Shares[c.cause(w.group)]; math.Abs(share-(it.To-it.From)) > 1e-9*math.Abs(it.From) {
					t.Errorf("%v changed: %s of %q moves by %g, its share is %g", w.group, it.Key, it.Part, it.To-it.From, share)
				}
			}
		}
	}
}

// A uniform shaft scaled along its length alone: the span explains the whole of it, by the closed form w ∝ L³.
func TestSpanOfAUniformShaft(t *testing.T) {
	make := func(length float64) *gearbox.Box {
		shaft := func(name string, y float64, outer float64) gearbox.Shaft {
			return gearbox.Shaft{Name: name, Axis: &[2]float64{y, 0}, Sections: []gearbox.Section{{Length: length, Outer: outer}}, Bearings: []gearbox.Bearing{
				{Name: "left", Type: gearbox.SelfAligning, At: 0, Radial: math.Inf(1), Axial: math.Inf(1)}, {Name: "right", Type: gearbox.SelfAligning, At: length, Radial: math.Inf(1)}}}
		}
		b := &gearbox.Box{Name: "uniform", Input: gearbox.Port{Shaft: "a", At: 0}, Output: gearbox.Port{Shaft: "b", At: 0}, Torque: 1e4, Turns: 1,
			Shafts: []gearbox.Shaft{shaft("a", 0, 20), shaft("b", 75, 20)},
			Gears:  []gearbox.Gear{{Name: "p", Shaft: "a", At: length / 2, Teeth: 25, Face: 10}, {Name: "w", Shaft: "b", At: length / 2, Teeth: 25, Face: 10}},
			Meshes: []gearbox.Mesh{{Name: "m", Driver: "p", Driven: "w", Module: 3, Efficiency: 1}},
			Speeds: []gearbox.Speed{{Name: "only", Path: []string{"m"}}}}
		b.Meshes[0].Rack.PressureAngle = 20 * math.Pi / 180
		b.Meshes[0].Rack.Addendum, b.Meshes[0].Rack.Dedendum, b.Meshes[0].Rack.TipRadius = 1, 1.25, 0.38
		b.Limits.Tilt = gearbox.TextbookSpur
		return b
	}
	long, short := make(200), make(100)
	load := gearbox.Load{Method: gearbox.Method{NoShear: true, NoShoulder: true, NoTwist: true}}
	var results []*gearbox.Result
	for _, b := range []*gearbox.Box{long, short} {
		r, err := gearbox.Solve(b, load)
		if err != nil {
			t.Fatal(err)
		}
		results = append(results, r)
	}
	c, err := SplitCauses(context.Background(), results[0], results[1], load, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, cause := range c.Causes {
		if cause.Same == (cause.Groups[0] == Span) {
			t.Errorf("%v same: %v", cause.Groups, cause.Same)
		}
	}
	for _, it := range c.Speeds[0].Items {
		if it.Key == "largest_deflection" {
			// The load stands on 10 mm of face, not at a point: less than 1 %.
			if ratio := it.To / it.From; math.Abs(ratio-1./8) > 0.002 {
				t.Errorf("half the span leaves %g of the deflection, want 1/8", ratio)
			}
			if it.Shares[c.cause(Span)] != it.To-it.From {
				t.Errorf("the span explains %g of %g", it.Shares[c.cause(Span)], it.To-it.From)
			}
		}
	}
}

// Groups that can't be swapped alone are joined, with the reason: other tooth numbers at another centre distance.
func TestGroupsThatNeedEachOtherAreJoined(t *testing.T) {
	alder, _ := demo(t)
	other := solve(t, altered(alder.Box, func(b *gearbox.Box) {
		b.Centres = slices.Clone(b.Centres)
		b.Centres[0].Distance += 6
		b.Centres[2].Distance += 2
		for _, name := range []string{"first wheel", "second wheel", "third wheel", "fourth wheel", "fifth wheel"} {
			g := gearOf(b, name)
			g.Teeth += 4
			g.Shift = nil
		}
		for _, name := range []string{"first pinion", "second pinion", "third pinion", "fourth pinion", "fifth pinion"} {
			gearOf(b, name).Shift = nil
		}
	}))
	c := split(t, alder, other)
	joined := c.Causes[c.cause(Teeth)]
	if !slices.Equal(joined.Groups, []Group{Teeth, Ratios}) || joined.Why == "" {
		t.Fatalf("tooth geometry stands with %v, because %q; want it joined with the ratios", joined.Groups, joined.Why)
	}
	for _, speed := range c.Speeds {
		for _, it := range speed.Items {
			if it.Shares == nil {
				t.Errorf("%s, %s of %q isn't split", speed.Name, it.Key, it.Part)
			}
		}
	}
}

func TestBoxesThatCantBeMixed(t *testing.T) {
	alder, _ := demo(t)
	for _, w := range []struct {
		change func(*gearbox.Box)
		want   string
	}{
		{func(b *gearbox.Box) { b.Input.Shaft = "output" }, "enters or leaves by another shaft"},
		{func(b *gearbox.Box) {
			for i := range b.Speeds {
				b.Speeds[i].Name += "!"
			}
		}, "no speed in common"},
	} {
		box := altered(alder.Box, func(b *gearbox.Box) { b.Speeds = slices.Clone(b.Speeds); b.Duty = nil; w.change(b) })
		_, err := SplitCauses(context.Background(), alder, &gearbox.Result{Box: box, Speeds: alder.Speeds}, gearbox.Load{}, nil)
		if err == nil || !strings.Contains(err.Error(), w.want) {
			t.Errorf("error is %v, want one with %q", err, w.want)
		}
	}
}

// A speed that only one box has is left out and named; the others are split.
func TestSpeedsOfOneBoxAreLeftOut(t *testing.T) {
	t.Parallel()
	alder, birch := demo(t)
	fewer := solve(t, altered(birch.Box, func(b *gearbox.Box) {
		b.Speeds = b.Speeds[:4]
		b.Duty = nil
	}))
	c := split(t, alder, fewer)
	if !slices.Equal(c.Left, []LeftOut{{"5th", birch.Box.Name + " has no speed of that name"}}) || len(c.Speeds) != 4 {
		t.Errorf("left out %v, %d speeds split", c.Left, len(c.Speeds))
	}
}

func TestSplitCanBeCancelled(t *testing.T) {
	alder, birch := demo(t)
	ctx, cancel := context.WithCancel(context.Background())
	seen := 0
	_, err := SplitCauses(ctx, alder, birch, gearbox.Load{}, func(done, all int) {
		if seen = done; done == 3 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) || seen >= 32 {
		t.Errorf("error %v after %d boxes", err, seen)
	}
}

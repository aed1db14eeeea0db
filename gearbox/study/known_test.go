package study

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/quantity"
	"layshaft/material"
)

// pairBox is one make of the box with a single pair of gears. The short one has its right bearings at 155 mm for 185.
func pairBox(t testing.TB, make string) *gearbox.Box {
	t.Helper()
	b, _, found := boxfile.ReadFile("testdata/pair-" + make + ".yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	return b
}

// Pairs of boxes that differ in one thing: that group takes everything, and every other one has exactly nothing. The
// numbers are those that were changed.
func TestKnownAnswers(t *testing.T) {
	length := func(what, part string, from, to float64) Fact {
		return Fact{Part: part, What: what, Dimension: quantity.Length, From: from, To: to}
	}
	at := func(f Fact, sections ...int) Fact {
		f.Sections = [2]int(sections)
		return f
	}
	named := func(what, part, from, to string) Fact {
		return Fact{Part: part, What: what, Names: [2]string{from, to}}
	}
	for _, w := range []struct {
		name   string
		change func(*gearbox.Box)
		groups []Group // none = the boxes are the same
		way    int
		facts  []Fact
	}{
		{"right bearings moved", func(b *gearbox.Box) { b.Shafts[0].Bearings[1].At, b.Shafts[1].Bearings[1].At = 155, 155 },
			[]Group{Span}, -1, []Fact{length("span", "input", 170, 140), length("span", "output", 170, 140)}},
		{"one span longer, one shorter", func(b *gearbox.Box) { b.Shafts[0].Bearings[1].At, b.Shafts[1].Bearings[1].At = 155, 190 },
			[]Group{Span}, 0, []Fact{length("span", "input", 170, 140), length("span", "output", 170, 175)}},
		{"one diameter", func(b *gearbox.Box) { b.Shafts[0].Sections[1].Outer = 30 },
			[]Group{Sections}, -1, []Fact{at(length("diameter", "input", 32, 30), 2, 2)}},
		{"one bore", func(b *gearbox.Box) { b.Shafts[0].Sections[1].Bore = 10 },
			[]Group{Sections}, -1, []Fact{at(length("bore", "input", 0, 10), 2, 2)}},
		{"three sections thicker, one thinner", func(b *gearbox.Box) {
			b.Shafts[0].Sections[0].Outer, b.Shafts[0].Sections[1].Outer = 28, 36
			b.Shafts[1].Sections[0].Outer, b.Shafts[1].Sections[1].Outer = 34, 34
		}, []Group{Sections}, 0, []Fact{
			at(length("diameter", "input", 32, 36), 2, 2), at(length("diameter", "input", 25, 28), 1, 1),
			at(length("diameter", "output", 38, 34), 2, 2), at(length("diameter", "output", 30, 34), 1, 1),
		}},
		{"a step moved", func(b *gearbox.Box) { b.Shafts[0].Sections[0].Length, b.Shafts[0].Sections[1].Length = 45, 155 },
			[]Group{Sections}, 0, []Fact{at(length("length", "input", 50, 45), 1, 1), at(length("length", "input", 150, 155), 2, 2)}},
		{"a groove", func(b *gearbox.Box) {
			b.Shafts[0].Sections = []gearbox.Section{{Length: 50, Outer: 25}, {Length: 50, Outer: 32}, {Length: 10, Outer: 28}, {Length: 90, Outer: 32}}
		}, []Group{Sections}, -1, []Fact{at(length("diameter", "input", 32, 28), 2, 3)}},
		{"one diameter of a shaft that is cut otherwise", func(b *gearbox.Box) {
			b.Shafts[0].Sections = []gearbox.Section{{Length: 20, Outer: 25}, {Length: 30, Outer: 25}, {Length: 150, Outer: 36}}
		}, []Group{Sections}, 1, []Fact{at(length("diameter", "input", 32, 36), 2, 3)}},
		{"steps moved against the bearings", func(b *gearbox.Box) {
			s := &b.Shafts[1]
			s.Start, s.Bearings[0].At, s.Bearings[1].At, b.Gears[1].At, b.Output.At = 4, 11, 181, 56, 196
		}, []Group{Sections}, 0, []Fact{length("start", "output", 0, 4)}},
		{"a longer overhang", func(b *gearbox.Box) { b.Shafts[1].Sections[1].Length = 160 },
			[]Group{Sections}, 0, []Fact{at(length("length", "output", 150, 160), 2, 2)}},
		{"one face", func(b *gearbox.Box) { b.Gears[0].Face = 16 }, []Group{Faces}, -1, []Fact{length("face", "pinion", 20, 16)}},
		{"steel", func(b *gearbox.Box) { b.Gears[0].Steel = "nitrided" }, []Group{Steel}, 0,
			[]Fact{named("steel", "pinion", "case-carburised", "nitrided")}},
		{"stiffness of a bearing", func(b *gearbox.Box) { b.Shafts[0].Bearings[0].Radial = 8e4 }, []Group{Seats}, -1,
			[]Fact{{Part: "bearing left of the input shaft", What: "stiffness", Dimension: quantity.RadialStiffness, From: math.Inf(1), To: 8e4}}},
		{"position", func(b *gearbox.Box) { b.Gears[0].At, b.Gears[1].At = 70, 70 },
			[]Group{Positions}, 0, []Fact{length("place", "pinion", 60, 70), length("place", "wheel", 60, 70)}},
		{"crowning", func(b *gearbox.Box) { b.Gears[0].Crowning = 0.01 }, []Group{Teeth}, 0,
			[]Fact{{Part: "pinion", What: "crowning", Dimension: quantity.Deflection, From: 0, To: 0.01}}},
		{"lead error", func(b *gearbox.Box) { b.Gears[1].LeadError = 0.008 }, []Group{Teeth}, 0,
			[]Fact{{Part: "wheel", What: "lead error", Dimension: quantity.Deflection, From: 0, To: 0.008}}},
		{"tooth thinning", func(b *gearbox.Box) { b.Gears[0].Thinning = 0.04 }, []Group{Teeth}, 0,
			[]Fact{{Part: "pinion", What: "tooth thinning", Dimension: quantity.Deflection, From: 0, To: 0.04}}},
		{"a bearing of another type and stiffness", func(b *gearbox.Box) {
			b.Shafts[0].Bearings[0].Radial, b.Shafts[0].Bearings[0].Type = 8e4, gearbox.SelfAligning
		}, []Group{Seats}, 0, []Fact{
			{Part: "bearing left of the input shaft", What: "stiffness", Dimension: quantity.RadialStiffness, From: math.Inf(1), To: 8e4},
			named("type", "bearing left of the input shaft", "deep groove ball", "self-aligning"),
		}},
		{"case", func(b *gearbox.Box) { b.Housing.Radial = 2e5 }, []Group{Case}, -1,
			[]Fact{{What: "stiffness", Dimension: quantity.RadialStiffness, From: math.Inf(1), To: 2e5}}},
		{"efficiency", func(b *gearbox.Box) { b.Meshes[0].Efficiency = 0.9 }, []Group{Losses}, 0,
			[]Fact{{Part: "mesh only pair", What: "efficiency", Dimension: quantity.Number, From: 1, To: 0.9}}},
		{"sense of rotation", func(b *gearbox.Box) { b.Turns = -b.Turns }, []Group{Sense}, 0,
			[]Fact{named("sense of rotation", "", "clockwise", "anticlockwise")}},
		{"a limit of the file", func(b *gearbox.Box) { b.Shafts[0].Bearings[0].SlopeLimit = 1e-4 }, []Group{Judging}, 0, nil},
		{"torque", func(b *gearbox.Box) { b.Torque = 50e3 }, []Group{Asked}, 0,
			[]Fact{{What: "torque", Dimension: quantity.Torque, From: 60e3, To: 50e3}}},
		{"clutch", func(b *gearbox.Box) { b.Clutch = &gearbox.Clutch{Torque: 70e3} }, []Group{Asked}, 0, nil},
		{"history alone", func(b *gearbox.Box) { b.Survived = []gearbox.Survived{{}} }, nil, 0, nil},
		{"name alone", func(b *gearbox.Box) { b.Name, b.About = "other", "another" }, nil, 0, nil},
		{"sections cut", func(b *gearbox.Box) {
			b.Shafts[0].Sections = []gearbox.Section{{Length: 20, Outer: 25}, {Length: 30, Outer: 25}, {Length: 150, Outer: 32}}
		}, nil, 0, nil},
		{"another zero of the ruler", func(b *gearbox.Box) { b.Shafts[0].Start, b.Shafts[1].Start = 33, 33 }, nil, 0, nil},
		{"a shaft written from another end of its own", func(b *gearbox.Box) {
			b.Shafts[0].Start, b.Shafts[0].Sections[0].Length, b.Shafts[0].Sections[1].Length = 5, 45, 150
			b.Shafts[0].Bearings[0].At, b.Shafts[0].Bearings[1].At, b.Gears[0].At = 10, 180, 55
		}, []Group{Sections, Positions}, 0, nil}, // the end of the shaft, and with it where torque enters
		{"the usual steel by its name", func(b *gearbox.Box) { b.Gears[0].Steel = gearbox.DefaultSteel }, nil, 0, nil},
	} {
		a := pairBox(t, "long")
		c := split(t, solve(t, a), solve(t, altered(a, w.change)))
		var differ []Group
		var facts []Fact
		for i := range c.Causes {
			if cause := &c.Causes[i]; !cause.Same {
				differ, facts = append(differ, cause.Groups...), append(facts, cause.Facts...)
				if len(w.groups) == 1 && cause.Way() != w.way {
					t.Errorf("%s: direction %d, want %d", w.name, cause.Way(), w.way)
				}
			}
		}
		if !slices.Equal(differ, w.groups) {
			t.Errorf("%s: %v differ, want %v", w.name, differ, w.groups)
			continue
		}
		if len(w.groups) != 1 {
			continue
		}
		for i := range facts {
			if facts[i].size = 0; facts[i].Names != [2]string{} {
				facts[i].From, facts[i].To = 0, 0 // not a number
			}
		}
		if !reflect.DeepEqual(facts, w.facts) {
			t.Errorf("%s: facts %+v, want %+v", w.name, facts, w.facts)
		}
		for _, it := range c.Speeds[0].Items {
			for i, share := range it.Shares {
				want := 0.0
				if !c.Causes[i].Same {
					want = it.To - it.From
				}
				if math.Abs(share-want) > 1e-12*math.Abs(it.From) || want == 0 && math.Abs(share) > 1e-12*math.Abs(it.From) {
					t.Errorf("%s: %s of %q moves by %g, the share of %v is %g", w.name, it.Key, it.Part, it.To-it.From, c.Causes[i].Groups, share)
				}
			}
		}
	}
}

// The two makes as files: the span takes it all.
func TestTheSpanTakesItAll(t *testing.T) {
	long, short := solve(t, pairBox(t, "long")), solve(t, pairBox(t, "short"))
	c := split(t, long, short)
	it := &c.Speeds[0].Items[0]
	if it.Limit == nil || !it.First[0] || math.Abs(it.From-long.Speeds[0].First.Torque) > 1e-9*it.From {
		t.Fatalf("%+v", it)
	}
	for i, cause := range c.Causes {
		want := 0.0
		if cause.Groups[0] == Span {
			want = it.To - it.From
			if cause.Gears || cause.Steps {
				t.Error("something is said to move along")
			}
		}
		if it.Shares[i] != want || cause.Same != (want == 0) {
			t.Errorf("%v has %g, want %g", cause.Groups, it.Shares[i], want)
		}
	}
}

// Places that differ move along with the bearings, and it is said.
func TestWhatMovesAlongIsTold(t *testing.T) {
	a := pairBox(t, "long")
	b := altered(pairBox(t, "short"), func(b *gearbox.Box) { b.Gears[0].At, b.Gears[1].At = 70, 70 })
	c := split(t, solve(t, a), solve(t, b))
	cause := c.Causes[c.cause(Span)]
	if !cause.Gears || cause.Steps {
		t.Errorf("gears %v, steps %v; the gears alone move along", cause.Gears, cause.Steps)
	}
	both, err := common([2]*gearbox.Result{solve(t, a), solve(t, b)})
	if err != nil {
		t.Fatal(err)
	}
	mixed, err := swap{both.boxes, maskOf(Span)}.mixed()
	if err != nil {
		t.Fatal(err)
	}
	// 45 of 170 mm to the right of the left bearing at 15 mm become 45·140/170.
	if want := 15 + 45*140./170; math.Abs(mixed.Gears[0].At-want) > 1e-8 || mixed.Shafts[0].Sections[0].Length != 50 {
		t.Errorf("pinion at %g, want %g; step at %g, want 50", mixed.Gears[0].At, want, mixed.Shafts[0].Sections[0].Length)
	}
}

// Parts of other names are known by where they are and by their teeth.
func TestRenamedPartsAreTheSame(t *testing.T) {
	a := pairBox(t, "long")
	b := altered(a, func(b *gearbox.Box) {
		b.Shafts[0].Name, b.Input.Shaft, b.Gears[0].Shaft = "clutch", "clutch", "clutch"
		b.Centres = slices.Clone(b.Centres)
		b.Centres[0].Between = [2]string{"output", "clutch"}
		b.Shafts[1].Bearings[1].Name = "rear"
		b.Gears[0].Name, b.Meshes[0].Driver = "gear B", "gear B"
		b.Meshes[0].Name = "pair"
		b.Speeds = []gearbox.Speed{{Name: "only", Path: []string{"pair"}}}
	})
	c := split(t, solve(t, a), solve(t, b))
	for _, cause := range c.Causes {
		if !cause.Same {
			t.Errorf("%v differ", cause.Groups)
		}
	}
	want := []Rename{{ShaftSort, "input", "clutch", ""}, {GearSort, "pinion", "gear B", ""}, {MeshSort, "only pair", "pair", ""}, {BearingSort, "right", "rear", "output"}}
	if !slices.Equal(c.Renamed, want) || len(c.Alone) > 0 || len(c.Left) > 0 {
		t.Errorf("renamed %v, alone %v, left %v; want %v", c.Renamed, c.Alone, c.Left, want)
	}
	// Of another number of teeth it is another gear, and the speed is not dropped in silence.
	other := altered(b, func(b *gearbox.Box) { b.Gears[0].Teeth++ })
	if _, err := SplitCauses(t.Context(), solve(t, a), solve(t, other), gearbox.Load{}, nil); err == nil {
		t.Error("a gear of another name and other teeth is taken for the same")
	}
}

// A bearing more is told, and places and bearings go together.
func TestABearingMore(t *testing.T) {
	a := pairBox(t, "long")
	b := altered(a, func(b *gearbox.Box) {
		b.Shafts[1].Bearings = append(b.Shafts[1].Bearings, gearbox.Bearing{Name: "middle", Type: gearbox.CylindricalRoller, At: 110, Radial: 2e5})
	})
	c := split(t, solve(t, a), solve(t, b))
	if !slices.Equal(c.Alone, []Unpaired{{1, BearingSort, "middle", "output"}}) {
		t.Errorf("alone: %v", c.Alone)
	}
	joined := c.Causes[c.cause(Span)]
	if !slices.Equal(joined.Groups, []Group{Span, Seats}) || joined.Why == "" {
		t.Errorf("%v go together, because %q", joined.Groups, joined.Why)
	}
	for _, it := range c.Speeds[0].Items {
		addsUp(t, c, "only", it)
	}
}

// Every group that is swapped for itself doubles the work, so the last ones go together when many differ.
func TestManyGroupsGoTogether(t *testing.T) {
	a := pairBox(t, "long")
	b := altered(pairBox(t, "short"), func(b *gearbox.Box) {
		b.Shafts[0].Sections[1].Outer, b.Gears[1].At, b.Gears[1].Face, b.Gears[0].Crowning, b.Gears[1].Teeth, b.Gears[1].Rim = 34, 62, 18, 0.01, 37, 6
		b.Meshes[0].Efficiency, b.Shafts[0].Bearings[0].Radial, b.Housing.Radial, b.Gears[0].Steel = 0.98, 2e5, 3e5, "nitrided"
		b.Turns, b.Torque = -b.Turns, 55e3
	})
	both, err := common([2]*gearbox.Result{{Box: a, Speeds: []gearbox.SpeedResult{{Name: "only"}}}, {Box: b, Speeds: []gearbox.SpeedResult{{Name: "only"}}, Case: 3e5}})
	if err != nil {
		t.Fatal(err)
	}
	causes, players := differing(both.boxes)
	all := mask(0)
	for _, c := range causes {
		if !c.Same {
			all |= maskOf(c.Groups...)
		}
	}
	if len(players) != mostPlayers || union(players) != all || all.has(Oil) || all.has(Judging) {
		t.Fatalf("%d players of %b, want %b", len(players), union(players), all)
	}
	c := &CauseSplit{}
	sets := c.join(causes, players, nil)
	if union(sets) != all {
		t.Errorf("causes of %b, want %b", union(sets), all)
	}
	last := c.Causes[c.cause(Case)]
	if !slices.Equal(last.Groups, []Group{Case, Steel, Sense, Asked}) || last.Why == "" {
		t.Errorf("%v go together, because %q", last.Groups, last.Why)
	}
}

// A steel that both files define with the same strengths is one steel, whatever they leave unknown and wherever it is from.
func TestOneSteelOfTwoFiles(t *testing.T) {
	made := func(source string, root float64) *gearbox.Result {
		return solve(t, altered(pairBox(t, "long"), func(b *gearbox.Box) {
			steel, _ := material.Find(gearbox.DefaultSteel)
			steel.Name, steel.CoreHardness, steel.RootLimit.Source = "ours", material.Band{Low: math.NaN(), Typical: math.NaN(), High: math.NaN()}, source
			steel.RootLimit.Low += root
			b.Steels, b.Gears[0].Steel = []material.Steel{steel}, "ours"
		}))
	}
	a := made("one book", 0)
	for _, w := range []struct {
		other *gearbox.Result
		same  bool
	}{{made("another book", 0), true}, {made("one book", 10), false}} {
		if c := split(t, a, w.other); c.Causes[c.cause(Steel)].Same != w.same {
			t.Errorf("steel same: %v, want %v", !w.same, w.same)
		}
	}
}

// Random pairs: the way back has the opposite shares, what is the same has none, the shares add up; and the split of two
// boxes seen in a mirror is the split of the boxes.
func TestRandomPairs(t *testing.T) {
	t.Parallel()
	base := pairBox(t, "long")
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high int) float64 { return float64(rapid.IntRange(low, high).Draw(t, name)) }
		make := func(n string) *gearbox.Box {
			return altered(base, func(b *gearbox.Box) {
				pick := func(what string, f func()) {
					if rapid.Bool().Draw(t, n+" changes "+what) {
						f()
					}
				}
				pick("the span", func() { b.Shafts[0].Bearings[1].At = draw("right bearing", 120, 190) })
				pick("the other span", func() { b.Shafts[1].Bearings[0].At = draw("left bearing", 5, 40) })
				pick("a step", func() {
					x := draw("step", 20, 90)
					b.Shafts[0].Sections[0].Length, b.Shafts[0].Sections[1].Length = x, 200-x
				})
				pick("a diameter", func() { b.Shafts[1].Sections[1].Outer = draw("diameter", 30, 45) })
				pick("the place", func() { b.Gears[0].At = draw("place", 60, 100); b.Gears[1].At = b.Gears[0].At })
				pick("a face", func() { b.Gears[1].Face = draw("face", 12, 24) })
				pick("the case", func() { b.Housing.Radial = 1e4 * draw("case", 10, 40) })
			})
		}
		boxes := [2]*gearbox.Box{make("a"), make("b")}
		var results, mirrored [2]*gearbox.Result
		for i, b := range boxes {
			var err error
			if results[i], err = gearbox.Solve(b, gearbox.Load{Loose: true}); err != nil {
				t.Skip(err)
			}
			if mirrored[i], err = gearbox.Solve(mirror(b), gearbox.Load{Loose: true}); err != nil {
				t.Fatal(err)
			}
		}
		shares := func(a, b *gearbox.Result) *CauseSplit {
			c, err := SplitCauses(t.Context(), a, b, gearbox.Load{}, nil)
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		there, back, seen := shares(results[0], results[1]), shares(results[1], results[0]), shares(mirrored[0], mirrored[1])
		for _, speed := range there.Speeds {
			for _, it := range speed.Items {
				addsUp(t, there, speed.Name, it)
				other, image := back.Item(speed.Name, it.Key, it.Part, it.Limit), seen.Item(speed.Name, it.Key, it.Part, it.Limit)
				if other == nil || image == nil {
					t.Fatalf("%s of %q isn't there on the way back or in the mirror", it.Key, it.Part)
				}
				for i, share := range it.Shares {
					size := math.Max(math.Abs(it.From), math.Abs(it.To))
					if math.Abs(share+other.Shares[i]) > 1e-9*size {
						t.Errorf("%s of %q, %v: %g there, %g back", it.Key, it.Part, there.Causes[i].Groups, share, other.Shares[i])
					}
					if math.Abs(share-image.Shares[i]) > 1e-6*size {
						t.Errorf("%s of %q, %v: %g, in the mirror %g", it.Key, it.Part, there.Causes[i].Groups, share, image.Shares[i])
					}
				}
			}
		}
	})
}

// mirror is a box of spur gears with left and right exchanged; it turns the other way, as seen from its new left end.
func mirror(b *gearbox.Box) *gearbox.Box {
	return altered(b, func(b *gearbox.Box) {
		const whole = 200 // the length of both shafts, mm
		for i := range b.Shafts {
			s := &b.Shafts[i]
			slices.Reverse(s.Sections)
			for j := range s.Bearings {
				s.Bearings[j].At = whole - s.Bearings[j].At
			}
		}
		for i := range b.Gears {
			b.Gears[i].At = whole - b.Gears[i].At
		}
		b.Input.At, b.Output.At = whole-b.Input.At, whole-b.Output.At
	})
}

// Between bearings places go in proportion, beyond them along with the outermost.
func TestPlacesMoveAlong(t *testing.T) {
	shaft := func(start, left, right float64) *gearbox.Shaft {
		return &gearbox.Shaft{Start: start, Bearings: []gearbox.Bearing{{Name: "right", At: right}, {Name: "left", At: left}}}
	}
	s := between(shaft(0, 20, 120), shaft(10, 20, 70)) // 20 → 30, 120 → 80
	for _, w := range [][2]float64{{5, 15}, {20, 30}, {40, 40}, {70, 55}, {120, 80}, {130, 90}} {
		if got := s.at(w[0]); math.Abs(got-w[1]) > 1e-9 {
			t.Errorf("%g goes to %g, want %g", w[0], got, w[1])
		}
	}
	if s = between(shaft(0, 20, 120), shaft(10, 10, 110)); s.moves() || s.at(33) != 33 {
		t.Error("bearings that stay move something")
	}
}

// Gears of a train move by the mean of what each would move, so that a place may agree with that of the other box at the
// span of the one and not at that of the other. It differs then, whichever box is the first.
func TestAPlaceThatAgreesAtOneSpanAlone(t *testing.T) {
	a := pairBox(t, "long")
	b := altered(a, func(b *gearbox.Box) {
		b.Shafts[0].Bearings[1].At = 155
		b.Gears[0].At = rounded(15 + 45/(1+15./140)) // half of what the pinion alone would move from here leads back to 60
		b.Gears[1].At = b.Gears[0].At
	})
	there, back := split(t, solve(t, a), solve(t, b)), split(t, solve(t, b), solve(t, a))
	for i := range there.Causes {
		if there.Causes[i].Same != back.Causes[i].Same {
			t.Errorf("%v is the same one way and not the other", there.Causes[i].Groups)
		}
	}
	if there.Causes[there.cause(Positions)].Same {
		t.Error("the gears are said to stay")
	}
}

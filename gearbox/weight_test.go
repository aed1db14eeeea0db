package gearbox

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/gearstress/involute"
)

func mustWeigh(t testing.TB, b *Box) *Weights {
	t.Helper()
	w, err := Weigh(b)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func weightOf(t testing.TB, w *Weights, name string) Weight {
	t.Helper()
	for _, p := range w.Parts {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no part %q", name)
	return Weight{}
}

func close1(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

const steelDensity = 7.85e-6 // kg/mm³, of every steel here that says nothing else

// A round bar of 100 mm × 100 mm at 7850 kg/m³: 785 398 mm³, 6.1654 kg, m r²/2 = 7.7067·10⁻³ kg·m². Of a thin ring all mass turns at its radius.
func TestRing(t *testing.T) {
	bar := ring(100, 0, 100, steelDensity)
	close1(t, "mass", bar.mass, 6.16537558, 1e-8)
	close1(t, "inertia", bar.inertia, 7706.71947, 1e-8)
	thin := ring(100, 99.999, 50, steelDensity)
	close1(t, "thin ring", thin.inertia/thin.mass, 50*50, 1e-4)
	if gone := bar.plus(ring(100, 0, -100, steelDensity)); gone != (body{}) {
		t.Errorf("taken away, %+v is left", gone)
	}
}

// Random hollow stepped shafts against sums over thin tubes. The middle of a tube is exact for r dr; for r³ dr it is off by (Δr)² r/4 Δr, which over the whole
// wall is less than (wall/n)²/(d² + D²) of the sum, below 1/n².
func TestShaftAgainstThinTubes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const n = 400
		b := threeShafts()
		var mass, inertia float64
		b.Shafts[0].Sections = nil
		for range rapid.IntRange(1, 6).Draw(t, "sections") {
			s := Section{Length: rapid.Float64Range(30, 60).Draw(t, "length"), Outer: rapid.Float64Range(20, 38).Draw(t, "outer")}
			s.Bore = s.Outer * rapid.Float64Range(0, 0.95).Draw(t, "bore")
			b.Shafts[0].Sections = append(b.Shafts[0].Sections, s)
			step := (s.Outer - s.Bore) / 2 / n
			for k := range n {
				r := s.Bore/2 + (float64(k)+0.5)*step
				mass += steelDensity * s.Length * 2 * math.Pi * r * step
				inertia += steelDensity * s.Length * 2 * math.Pi * r * r * r * step
			}
		}
		p := &prepared{box: b, lines: make([]shaftLine, 3)}
		p.lines[0].steel.Density = steelDensity
		got := p.shaftBody(0)
		if math.Abs(got.mass/mass-1) > 1e-12 || math.Abs(got.inertia/inertia-1) > 1.0/n/n {
			t.Fatalf("%+v, thin tubes have %.9g kg and %.9g kg·mm²", got, mass, inertia)
		}
	})
}

// slicesOf sums shaft and gear of one shaft over thin slices across the axis, from what is filled at each place.
func slicesOf(shaft Shaft, g Gear, section involute.Section, root float64, n int) (sum body, step float64) {
	length := 0.0
	for _, s := range shaft.Sections {
		length += s.Length
	}
	// The shaft with what stands out at its ends.
	from, to := -50.0, length+50
	step = (to - from) / float64(n)
	for k := range n {
		x := from + (float64(k)+0.5)*step
		outer, bore, at := 0.0, 0.0, 0.0
		first, last := shaft.Sections[0], shaft.Sections[len(shaft.Sections)-1]
		hole := first.Outer // in the gear, where the shaft has ended
		if x > length {
			hole = last.Outer
		}
		for _, s := range shaft.Sections {
			if x >= at && x < at+s.Length {
				outer, bore, hole = s.Outer, s.Bore, s.Outer
			}
			at += s.Length
		}
		if g.Bore > 0 {
			hole = g.Bore
		}
		slice := ring(outer, bore, step, steelDensity)
		aside := math.Abs(x - g.At)
		filled, inFace, inHub := 0.0, aside < g.Face/2, g.Hub != nil && aside < g.Hub.Length/2
		inside := root - 2*g.Rim
		dished := g.Rim > 0 && g.Web > 0 && g.Web < g.Face && inside > hole
		switch {
		case inFace && (!dished || aside < g.Web/2):
			slice = slice.plus(body{section.Area * steelDensity * step, section.Polar * steelDensity * step}).plus(ring(0, hole, step, steelDensity))
		case inFace:
			slice = slice.plus(body{section.Area * steelDensity * step, section.Polar * steelDensity * step}).plus(ring(0, inside, step, steelDensity))
			if inHub {
				filled = min(g.Hub.Outer, inside)
			}
		case inHub:
			filled = g.Hub.Outer
		}
		if filled > hole {
			slice = slice.plus(ring(filled, hole, step, steelDensity))
		}
		sum = sum.plus(slice)
	}
	return sum, step
}

// Gears of all makes on stepped shafts: solid, cut into the shaft, over a step, beyond its end, with bore, rim, web and hub. What shaft and gear weigh together is held against thin
// slices: each edge along the axis may be off by half a slice of the largest difference there.
func TestGearAgainstThinSlices(t *testing.T) {
	hub := func(l, d float64) *Hub { return &Hub{l, d} }
	for name, change := range map[string]func(b *Box, g *Gear){
		"solid":                        func(_ *Box, _ *Gear) {},
		"cut into the shaft":           func(b *Box, _ *Gear) { b.Shafts[1].Sections[0].Outer, b.Shafts[1].Sections[1].Outer = 81, 82 },
		"over a step":                  func(b *Box, g *Gear) { g.At = 100 },
		"over the end":                 func(b *Box, g *Gear) { g.At = 4 },
		"bored":                        func(_ *Box, g *Gear) { g.Bore = 47 },
		"hub":                          func(_ *Box, g *Gear) { g.Hub = hub(31, 52) },
		"hub shorter than the face":    func(_ *Box, g *Gear) { g.Hub = hub(15, 52) },
		"rim and web":                  func(_ *Box, g *Gear) { g.Rim, g.Web = 6, 7 },
		"rim, web and hub":             func(_ *Box, g *Gear) { g.Rim, g.Web, g.Hub = 6, 7, hub(31, 52) },
		"rim, web and short hub":       func(_ *Box, g *Gear) { g.Rim, g.Web, g.Hub = 6, 7, hub(15, 52) },
		"bored, rim, web and hub":      func(_ *Box, g *Gear) { g.Bore, g.Rim, g.Web, g.Hub = 44, 6, 7, hub(31, 52) },
		"hub wider than inside":        func(_ *Box, g *Gear) { g.Rim, g.Web, g.Hub = 6, 7, hub(31, 75) },
		"rim without web":              func(_ *Box, g *Gear) { g.Rim = 6 },
		"web wider than the face":      func(_ *Box, g *Gear) { g.Rim, g.Web = 6, 25 },
		"rim that reaches to the bore": func(_ *Box, g *Gear) { g.Rim, g.Web = 30, 7 },
	} {
		t.Run(name, func(t *testing.T) {
			b := threeShafts()
			b.Gears = b.Gears[:2]
			b.Meshes, b.Speeds = b.Meshes[:1], []Speed{{Name: "only", Path: []string{"a"}}}
			b.Output = Port{"out", 60}
			change(b, &b.Gears[1])
			b.Gears[0].At = b.Gears[1].At // they must meet
			w := mustWeigh(t, b)
			geometry := prepareTeeth(b, Method{}).pairs[0].geometry
			section, err := geometry.Section(1)
			if err != nil {
				t.Fatal(err)
			}
			const n = 60000
			want, step := slicesOf(b.Shafts[1], b.Gears[1], section, geometry.Root[1], n)
			shaft, wheel := weightOf(t, w, "out"), weightOf(t, w, "w1")
			// Two ends of shaft, of face, of web and of hub, one step: nine edges.
			edges := 9 * step / 2 * steelDensity
			if off := math.Abs(shaft.Mass + wheel.Mass - want.mass); off > edges*section.Area {
				t.Errorf("shaft %.6g + gear %.6g kg, thin slices have %.6g", shaft.Mass, wheel.Mass, want.mass)
			}
			if off := math.Abs(shaft.Inertia + wheel.Inertia - want.inertia); off > edges*section.Polar {
				t.Errorf("shaft %.6g + gear %.6g kg·mm², thin slices have %.6g", shaft.Inertia, wheel.Inertia, want.inertia)
			}
			if wheel.Cut != (name == "cut into the shaft") {
				t.Errorf("cut: %v", wheel.Cut)
			}
		})
	}
}

// All lengths times λ: mass by λ³, inertia by λ⁵.
func TestWeightsScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		factor := rapid.Float64Range(0.3, 4).Draw(t, "factor")
		small, large := threeShafts(), threeShafts()
		for i := range large.Shafts {
			s := &large.Shafts[i]
			s.Start *= factor
			s.Axis[0], s.Axis[1] = s.Axis[0]*factor, s.Axis[1]*factor
			for k := range s.Sections {
				s.Sections[k] = Section{s.Sections[k].Length * factor, s.Sections[k].Outer * factor, s.Sections[k].Bore * factor}
			}
			for k := range s.Bearings {
				s.Bearings[k].At *= factor
			}
		}
		for i := range large.Gears {
			large.Gears[i].At *= factor
			large.Gears[i].Face *= factor
		}
		for i := range large.Meshes {
			large.Meshes[i].Module *= factor
		}
		large.Input.At *= factor
		large.Output.At *= factor
		a, err1 := Weigh(small)
		b, err2 := Weigh(large)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for i := range a.Parts {
			m, j := b.Parts[i].Mass/a.Parts[i].Mass, b.Parts[i].Inertia/a.Parts[i].Inertia
			if math.Abs(m/math.Pow(factor, 3)-1) > 1e-9 || math.Abs(j/math.Pow(factor, 5)-1) > 1e-9 {
				t.Fatalf("%s: mass × %g, inertia × %g for lengths × %g", a.Parts[i].Name, m, j, factor)
			}
		}
	})
}

// A section cut in two weighs what it weighed.
func TestCuttingASectionChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(0.001, 0.999).Draw(t, "share")
		whole, parts := threeShafts(), threeShafts()
		s := &parts.Shafts[1]
		first := s.Sections[0]
		a, b := first, first
		a.Length, b.Length = share*first.Length, (1-share)*first.Length
		s.Sections = append([]Section{a, b}, s.Sections[1:]...)
		w, err1 := Weigh(whole)
		v, err2 := Weigh(parts)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for i := range w.Parts {
			if math.Abs(w.Parts[i].Mass-v.Parts[i].Mass) > 1e-12 || math.Abs(w.Parts[i].Inertia-v.Parts[i].Inertia) > 1e-9 {
				t.Fatalf("%s: %+v whole, %+v cut", w.Parts[i].Name, w.Parts[i], v.Parts[i])
			}
		}
	})
}

func TestDensityIsThatOfTheSteel(t *testing.T) {
	b := threeShafts()
	heavy := mustWeigh(t, b)
	steel, _ := (&prepared{steels: prepareTeeth(b, Method{}).steels}).steelNamed("")
	steel.Name, steel.Density = "light", steelDensity/2
	b.Steels = append(b.Steels, steel)
	b.Shafts[0].Steel, b.Gears[1].Steel = "light", "light"
	light := mustWeigh(t, b)
	for i, p := range light.Parts {
		want := heavy.Parts[i].Mass
		if p.Name == "in" || p.Name == "w1" {
			want /= 2
		}
		close1(t, p.Name, p.Mass, want, 1e-12)
	}
}

func TestWeighedGoesBeforeComputed(t *testing.T) {
	b := threeShafts()
	plain := mustWeigh(t, b)
	if !math.IsNaN(plain.Rest()) {
		t.Error("a box that wasn't weighed has a rest")
	}
	in, p1, w1 := weightOf(t, plain, "in"), weightOf(t, plain, "p1"), weightOf(t, plain, "w1")
	b.Weighed = Weighed{Box: 40, Pieces: []Weighing{{Shaft: "in", Gears: []string{"p1"}, Mass: 1.2 * (in.Mass + p1.Mass)}, {Gears: []string{"w1"}, Mass: w1.Mass}}}
	b.Parts = []Part{{Name: "case", Mass: 9}, {Name: "disc", Inertia: 5000, TurnsWith: "in"}}
	w := mustWeigh(t, b)
	for _, name := range []string{"in", "p1"} {
		before, after := weightOf(t, plain, name), weightOf(t, w, name)
		close1(t, name+" mass", after.Mass, 1.2*before.Mass, 1e-12)
		close1(t, name+" inertia", after.Inertia, 1.2*before.Inertia, 1e-12)
		close1(t, name+" computed", after.Computed, before.Mass, 0)
		if !after.Weighed {
			t.Errorf("%s isn't said to be weighed", name)
		}
	}
	if got := weightOf(t, w, "w2"); got != weightOf(t, plain, "w2") {
		t.Errorf("a gear that wasn't weighed: %+v", got)
	}
	if len(w.Pieces) != 2 || strings.Join(w.Pieces[0].Names, " ") != "in shaft p1" {
		t.Fatalf("%+v", w.Pieces)
	}
	close1(t, "difference", w.Pieces[0].Difference(), 0.2, 1e-12)
	close1(t, "no difference", 1+w.Pieces[1].Difference(), 1, 1e-12)
	close1(t, "turning", w.Turning(), plain.Turning()+0.2*(in.Mass+p1.Mass), 1e-12)
	close1(t, "rest", w.Rest(), 40-w.Turning()-9, 1e-12)
	if notes := strings.Join(w.Notes, "\n"); !strings.Contains(notes, "in shaft with p1: weighed") || strings.Contains(notes, "w1: weighed") {
		t.Errorf("notes:\n%s", notes)
	}
}

// A shaft brings the gears along that are cut into it.
func TestACutGearIsWeighedWithItsShaft(t *testing.T) {
	b := threeShafts()
	b.Shafts[0].Sections[0].Outer = 42 // wider than the root of p1, 21 × 2 / cos 24° − 5 = 41 mm
	plain := mustWeigh(t, b)
	if !weightOf(t, plain, "p1").Cut || weightOf(t, plain, "w1").Cut {
		t.Fatal("what is cut into its shaft is not seen")
	}
	b.Weighed.Pieces = []Weighing{{Shaft: "in", Mass: 2}}
	w := mustWeigh(t, b)
	close1(t, "together", weightOf(t, w, "in").Mass+weightOf(t, w, "p1").Mass, 2, 1e-12)
}

// What can't be is said with its place, and left out; the box is solved with it.
func TestWhatCannotBeWeighed(t *testing.T) {
	for _, c := range []struct {
		summary string
		change  func(b *Box)
	}{
		{"bore wider than the gear", func(b *Box) { b.Gears[1].Bore = 90 }},
		{"bore narrower than the shaft", func(b *Box) { b.Gears[1].Bore = 20 }},
		{"weighed twice", func(b *Box) {
			b.Weighed.Pieces = []Weighing{{Gears: []string{"w1"}, Mass: 1}, {Gears: []string{"w1"}, Mass: 7}}
		}},
		{"nothing on the scales", func(b *Box) { b.Weighed.Pieces = []Weighing{{Mass: 1}} }},
		{"a gear that can't be weighed apart", func(b *Box) {
			b.Shafts[0].Sections[0].Outer = 42
			b.Weighed.Pieces = []Weighing{{Gears: []string{"p1"}, Mass: 1}}
		}},
	} {
		b := threeShafts()
		c.change(b)
		r := mustSolve(t, b, Load{})
		if len(r.Warnings) != 1 || r.Warnings[0].Summary != c.summary {
			t.Errorf("%s: %v", c.summary, r.Warnings)
		}
		b.Weighed.Pieces = nil
		want := mustWeigh(t, b)
		c.change(b)
		got := mustWeigh(t, b)
		for _, name := range []string{"p1", "w1"} {
			p, q := weightOf(t, got, name), weightOf(t, want, name)
			if c.summary == "weighed twice" && name == "w1" {
				close1(t, c.summary, p.Mass, 1, 1e-12)
			} else if p != q {
				t.Errorf("%s: %+v, want %+v", c.summary, p, q)
			}
		}
	}
	b := threeShafts()
	b.Parts = []Part{{Name: "disc", TurnsWith: "nowhere"}}
	b.Weighed.Pieces = []Weighing{{Shaft: "none", Gears: []string{"nor this"}, Mass: 1}}
	if _, err := Weigh(b); err == nil || strings.Count(err.Error(), "There is no") != 3 {
		t.Errorf("unknown names: %v", err)
	}
}

func TestWeightNotes(t *testing.T) {
	b := threeShafts()
	b.Gears = append(b.Gears, Gear{Name: "spare", Shaft: "in", At: 30, Teeth: 20, Face: 10})
	b.Gears[1].Web = 5
	b.Gears[3].Rim, b.Gears[3].Web = 8, 6
	b.Parts = []Part{{Name: "disc", Mass: 1, TurnsWith: "in"}}
	b.Weighed.Box = 3
	w := mustWeigh(t, b)
	if !math.IsNaN(weightOf(t, w, "spare").Mass) || math.IsNaN(w.Turning()) {
		t.Error("a gear without a mesh is counted")
	}
	notes := strings.Join(w.Notes, "\n")
	for _, want := range []string{"no mesh tells the size of their teeth: spare", "web is told without its rim: w1", "since no hub is told: w2", "more than the whole box weighs", "disc turns with the in shaft, but its inertia isn't told"} {
		if !strings.Contains(notes, want) {
			t.Errorf("not said: %s\n%s", want, notes)
		}
	}
	b.Weighed.Pieces = []Weighing{{Gears: []string{"spare"}, Mass: 0.3}}
	close1(t, "spare on the scales", weightOf(t, mustWeigh(t, b), "spare").Mass, 0.3, 0)
}

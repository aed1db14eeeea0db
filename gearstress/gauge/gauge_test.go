package gauge

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"layshaft/gearstress/involute"

	"pgregory.net/rapid"
)

// failer is a test of either kind.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func near(t failer, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.10g, want %.10g ± %.1g", what, got, want, within)
	}
}

// truth is a gear that is known.
type truth struct {
	involute.Gauge
	x, tip, root, face float64
}

func (g truth) flank() flank { return flankOf(g.Gauge, g.x) }

// full has tips and roots of a full tooth.
func full(module, angle, helix float64, teeth int, x float64) truth {
	g := involute.Gauge{Module: module, PressureAngle: angle * degree, Helix: helix * degree, Teeth: teeth}
	d := float64(teeth) * module / math.Cos(g.Helix)
	return truth{g, x, d + 2*module*(1+x), d - 2*module*(1.25-x), 0}
}

// bench are the readings of a gear, exactly.
func (g truth) bench(kinds ...Kind) (all []Reading) {
	f := g.flank()
	k := g.SpanTeeth(g.x)
	ball := math.Ceil(2*1.7*g.Module) / 2
	for _, kind := range kinds {
		switch kind {
		case Span:
			// Two spans whose jaws touch below the tips.
			k = max(1, k-1)
			all = append(all, Reading{Kind: Span, Teeth: k, Value: f.span(k)}, Reading{Kind: Span, Teeth: k + 1, Value: f.span(k + 1)})
		case OverBalls:
			all = append(all, Reading{Kind: OverBalls, Size: ball, Value: f.overBalls(ball)})
		case Tip:
			v := g.tip
			if g.Teeth%2 == 1 {
				v = f.acrossTips(g.tip)
			}
			all = append(all, Reading{Kind: Tip, Value: v})
		case Root:
			all = append(all, Reading{Kind: Root, Value: g.root})
		case TipHelix:
			if g.Helix > 0 {
				all = append(all, Reading{Kind: TipHelix, Value: f.helixAt(g.tip)})
			}
		case Lead:
			if g.Helix > 0 {
				all = append(all, Reading{Kind: Lead, Value: f.lead()})
			}
		case Depth:
			all = append(all, Reading{Kind: Depth, Value: (g.tip - g.root) / 2})
		case Chord:
			all = append(all, Reading{Kind: Chord, Size: g.Module, Value: f.chord(g.Module, g.tip)})
		}
	}
	return all
}

func (g truth) gear(readings []Reading) Gear {
	return Gear{Name: "gear", Teeth: g.Teeth, Spur: g.Helix == 0, Face: g.face, Readings: readings}
}

func alone(t failer, g Gear) *Result {
	t.Helper()
	r, err := Solve(Set{Gears: []Gear{g}})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// anyGear is a random gear of a standard tool and a whole helix.
type drawn interface{ IntN(n int) int }

func anyGear(r drawn) truth {
	between := func(low, high float64) float64 { return low + (high-low)*float64(r.IntN(10001))/10000 }
	angle := []float64{20, 20, 20, 17.5, 14.5, 22.5, 25}[r.IntN(7)]
	module := []float64{1.5, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.5, 4, inch / 7, inch / 8, inch / 10, inch / 12}[r.IntN(13)]
	helix := 0.0
	if r.IntN(3) > 0 {
		helix = float64(15 + r.IntN(18))
	}
	teeth := 13 + r.IntN(60)
	x := between(-0.2, 0.3)
	if teeth < 25 {
		x = between(0.05, 0.4)
	}
	return full(module, angle, helix, teeth, x)
}

// holds reports whether a label is the one of the gear.
func (l Label) holds(g truth) bool {
	return math.Abs(l.Module-g.Module) < 1e-9 && math.Abs(l.PressureAngle-g.PressureAngle) < 1e-9 && (!l.Snapped || math.Abs(l.Helix.Value-g.Helix) < 1e-9)
}

type byRapid struct{ *rapid.T }

func (r byRapid) IntN(n int) int { return rapid.IntRange(0, n-1).Draw(r.T, "draw") }

// Exact readings give the flank back, whichever of them are taken, and the true label is among the candidates.
func TestExactReadingsGiveTheFlank(t *testing.T) {
	ways := [][]Kind{{Span, Tip, TipHelix}, {Span, OverBalls, Tip, Root, TipHelix}, {Span, Lead}, {Span, Chord, Tip, Depth, Lead}}
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(byRapid{t})
		f := g.flank()
		r := alone(t, g.gear(g.bench(ways[rapid.IntRange(0, len(ways)-1).Draw(t, "way")]...)))
		group := r.Groups[0]
		if !group.Fixed {
			t.Fatalf("not fixed: %v", group.Missing)
		}
		near(t, "base diameter", group.Flanks[0].Base.Value, f.base(), 1e-9*f.base())
		near(t, "base helix", group.BaseHelix.Value, f.helix, 1e-9)
		near(t, "base thickness", group.Flanks[0].Thickness.Value, f.transverseThick(), 1e-9*f.base())
		i := slices.IndexFunc(group.Labels, func(l Label) bool { return l.holds(g) && (l.Snapped || g.Helix == 0) })
		if i < 0 {
			t.Fatalf("%+v is not among %d labels", g, len(group.Labels))
		}
		near(t, "profile shift", group.Labels[i].Gears[0].Cut.Value, g.x, 1e-8)
		for _, res := range group.Labels[i].Residual {
			near(t, res.Reading.Name(), res.Off(), 0, 1e-8)
		}
	})
}

// A second size of ball fixes the flank, one does not.
func TestBallsAlone(t *testing.T) {
	g := full(2.5, 20, 0, 28, 0.1)
	f := g.flank()
	one := []Reading{{Kind: OverBalls, Size: 4.5, Value: f.overBalls(4.5)}, {Kind: Tip, Value: g.tip}}
	r := alone(t, g.gear(one))
	if r.Groups[0].Fixed {
		t.Error("one size of ball is said to fix the flank")
	}
	if len(r.Groups[0].Missing) != 1 {
		t.Errorf("missing: %v", r.Groups[0].Missing)
	}
	if !slices.ContainsFunc(r.Groups[0].Labels, func(l Label) bool { return l.holds(g) }) {
		t.Error("the true label is not listed")
	}
	r = alone(t, g.gear(append(one, Reading{Kind: OverBalls, Size: 6, Value: f.overBalls(6)})))
	if !r.Groups[0].Fixed {
		t.Fatal("two sizes of ball do not fix the flank")
	}
	near(t, "base diameter", r.Groups[0].Flanks[0].Base.Value, f.base(), 1e-7)
	t.Logf("base pitch ± %.4f mm", r.Groups[0].BasePitch.Tolerance)
}

// Two labels of one flank: own computation from equal base diameter, base helix and base thickness (independent of
// this package, six digits).
func TestSameFlankOtherName(t *testing.T) {
	for _, c := range []struct {
		teeth                                       int
		module, angle, helix, x                     float64
		otherAngle, otherModule, otherHelix, otherX float64
		base, baseHelix                             float64
		span                                        map[int]float64
	}{
		{17, 2.5, 20, 0, 0.3, 17.5, 2.463238, 0, 0.4821328, 39.93694, 0, map[int]float64{3: 19.55909, 4: 26.93942}},
		{17, 2.25, 17.5, 28, 0.2, 20, 2.28358, 28.45563, 0.001204164, 40.7976, 26.59897, map[int]float64{3: 17.63907, 4: 24.3805}},
	} {
		g := full(c.module, c.angle, c.helix, c.teeth, c.x)
		f := g.flank()
		near(t, "base diameter", f.base(), c.base, 1e-6*c.base)
		near(t, "base helix", f.helix/degree, c.baseHelix, 6e-6)
		for k, w := range c.span {
			near(t, "span", f.span(k), w, 1e-6*w)
		}
		other, x := f.label(c.otherAngle * degree)
		near(t, "module", other.Module, c.otherModule, 1e-6*c.otherModule)
		near(t, "helix", other.Helix/degree, c.otherHelix, 6e-6)
		near(t, "shift", x, c.otherX, 1e-6)

		r := alone(t, g.gear(g.bench(Span, OverBalls, Tip, TipHelix)))
		i := slices.IndexFunc(r.Groups[0].Others, func(n Name) bool { return math.Abs(n.PressureAngle-c.otherAngle*degree) < 1e-9 })
		if i < 0 {
			t.Fatal("the other name is not listed")
		}
		near(t, "module of the other name", r.Groups[0].Others[i].Module, c.otherModule, 1e-6*c.otherModule)
	}
}

// Readings of odd counts: own computation with pointed teeth, and with the land brute force over the corners of the tips.
func TestOddCounts(t *testing.T) {
	for _, c := range []struct{ teeth int }{{13}, {17}, {21}, {35}} {
		g := full(2.5, 20, 0, c.teeth, 0.2)
		f := g.flank()
		var corners []float64 // angles
		for k := range c.teeth {
			middle := 2 * math.Pi * float64(k) / float64(c.teeth)
			corners = append(corners, middle-f.half(g.tip), middle+f.half(g.tip))
		}
		widest, top, low := 0.0, 0.0, 0.0
		for _, a := range corners {
			for _, b := range corners {
				widest = max(widest, g.tip*math.Abs(math.Sin((a-b)/2)))
			}
		}
		near(t, "across two tips", f.acrossTips(g.tip), widest, 1e-12*widest)
		// Flat jaws lie across a tooth that points straight up and the two at the bottom.
		top = g.tip / 2
		for _, a := range corners {
			low = min(low, g.tip/2*math.Cos(a))
		}
		near(t, "between flat jaws", f.betweenJaws(g.tip), top-low, 1e-12*widest)
	}
	pointed := flank{teeth: 13, pitch: 1, thick: 0}
	near(t, "two tips, pointed", pointed.acrossTips(39.25), 38.96382, 1e-6*39)
	near(t, "flat jaws, pointed", pointed.betweenJaws(39.25), 38.67973, 1e-6*39)
	pointed.teeth = 17
	near(t, "two tips, pointed", pointed.acrossTips(48.7208), 48.51297, 1e-6*49)
	near(t, "flat jaws, pointed", pointed.betweenJaws(48.7208), 48.30602, 1e-6*49)
}

// The flank reads as the gear of involute does, in everything that both know.
func TestFlankReadsAsTheGear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGear(byRapid{t})
		f := g.flank()
		near(t, "span", f.span(3), g.Span(3, g.x), 1e-12*g.tip)
		balls, err := g.OverBalls(1.8*g.Module, g.x)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "over balls", f.overBalls(1.8*g.Module), balls, 1e-11*g.tip)
		chord, height := g.Chord(g.x, g.tip/2-float64(g.Teeth)*g.Module/math.Cos(g.Helix)/2)
		near(t, "chord", f.chord(height, g.tip), chord, 1e-9*g.tip)
		other, x := f.label(g.PressureAngle)
		near(t, "module", other.Module, g.Module, 1e-12)
		near(t, "helix", other.Helix, g.Helix, 1e-9)
		near(t, "shift", x, g.x, 1e-9)
	})
}

// Standard tools of nearly one base pitch: own computation over modules 1.75 to 3.5, pitches 7 to 14 and five angles.
func TestNearTwins(t *testing.T) {
	var got []string
	in := func(v, low, high float64) bool { return v >= low && v <= high }
	for _, a := range Tools {
		for _, b := range Tools {
			if a.Pitch != 0 || b.Pitch == 0 || !in(a.Module, 1.75, 3.5) || !in(b.Pitch, 7,
				14) || b.Pitch == 13 || math.Mod(4*a.Module, 1) != 0 {
				continue
			}
			if off := math.Abs(a.basePitch() - b.basePitch()); off < 0.012 {
				got = append(got, fmt.Sprintf("m%g/%.3g - %gDP/%.3g %.4g µm", a.Module, a.PressureAngle/degree,
					b.Pitch, b.PressureAngle/degree, off*1000))
			}
		}
	}
	slices.Sort(got)
	want := []string{"m1.75/20 - 14DP/25 0.5052 µm", "m2.5/14.5 - 10DP/17.5 6.509 µm", "m2.5/17.5 - 10DP/20 7.938 µm",
		"m2.5/20 - 10DP/22.5 8.098 µm", "m3.5/20 - 7DP/25 1.01 µm"}
	if !slices.Equal(got, want) {
		t.Errorf("twins %q, want %q", got, want)
	}
}

// A gear and its near twin: by caliper they can't be told apart, which is said with what would.
func TestTwinIsNamed(t *testing.T) {
	g := full(2.5, 17.5, 0, 42, 0.1)
	readings := g.bench(Span)
	for i := range readings {
		readings[i].By = Caliper
	}
	r := alone(t, g.gear(append(readings, Reading{Kind: Tip, Value: g.tip})))
	group := r.Groups[0]
	// Either may come first: a module is more usual than a pitch, 20° more than 17.5°.
	tool := func(l Label) string { return fmt.Sprintf("%.4g/%.4g", l.Module, l.PressureAngle/degree) }
	want := []string{"2.5/17.5", "2.54/20"}
	i := slices.IndexFunc(group.Twins, func(w Twin) bool {
		got := []string{tool(group.Labels[0]), tool(group.Labels[w.Label])}
		slices.Sort(got)
		return slices.Equal(got, want)
	})
	if i < 0 {
		t.Fatalf("%v are not twins: %+v", want, group.Twins)
	}
	w := group.Twins[i]
	near(t, "difference of base pitch", math.Abs(w.Pitch), 0.007938427, 1e-8)
	if w.Next.Value == 0 {
		t.Error("no further reading is proposed")
	}
}

// Lead and ink roll: own computation, z 16, module 2.75, helix 25°, x 0.25.
func TestLeadAndRoll(t *testing.T) {
	g := full(2.75, 20, 25, 16, 0.25)
	near(t, "lead", g.flank().lead(), 327.0802, 1e-6*327)
	near(t, "helix at the tips", g.flank().helixAt(g.tip)/degree, 28.02824, 6e-6)
}

// Round trips with noise written down beforehand (seeded, elsewhere): the true gear is in the list; exact readings
// give it back.
func TestRoundTripsWrittenDown(t *testing.T) {
	for _, c := range []struct {
		teeth, k              int
		angle, helix, x       float64
		exact, noisy          [5]float64 // W_k, W_k+1, over balls of 4.05, tip, helix at the tips in degrees
		basePitch, faceNeeded float64
	}{
		{14, 3, 17.5, 32, 0.38, [5]float64{17.84355, 24.58498, 44.37734, 43.35412, 36.10474}, [5]float64{17.83092,
			24.58814, 44.38015, 43.29564, 35.78713}, 6.741428, 12.42508},
		{37, 6, 17.5, 32, -0.05, [5]float64{38.2676, 45.00903, 104.0343, 102.4416, 33.10762}, [5]float64{38.26148,
			45.02362, 104.0302, 102.4725, 33.39634}, 6.741428, 22.74725},
		{71, 12, 20, 29, 0.1, [5]float64{79.81265, 86.45494, 189.1424, 187.6008, 29.65421}, [5]float64{79.80573,
			86.45131, 189.1405, 187.6162, 29.88631}, 6.642296, 39.38645},
	} {
		g := full(2.25, c.angle, c.helix, c.teeth, c.x)
		f := g.flank()
		for i, v := range []float64{f.span(c.k), f.span(c.k + 1), f.overBalls(4.05), g.tip, f.helixAt(g.tip) / degree} {
			near(t, fmt.Sprint("exact reading ", i), v, c.exact[i], 1e-6*c.exact[i])
		}
		near(t, "base pitch", f.pitch, c.basePitch, 1e-6*7)
		near(t, "face needed", f.span(c.k+1)*math.Sin(f.helix), c.faceNeeded, 1e-6*40)
		r := alone(t, Gear{Name: "gear", Teeth: c.teeth, Across: Round, Readings: []Reading{
			{Kind: Span, Teeth: c.k, Value: c.noisy[0], Tolerance: wide * 0.008}, {Kind: Span, Teeth: c.k + 1,
				Value: c.noisy[1], Tolerance: wide * 0.008},
			{Kind: OverBalls, Size: 4.05, Value: c.noisy[2], Tolerance: wide * 0.005}, {Kind: Tip, Value: c.noisy[3],
				Tolerance: wide * 0.02},
			{Kind: TipHelix, Value: c.noisy[4] * degree, Tolerance: wide * 0.5 * degree},
		}})
		if !slices.ContainsFunc(r.Groups[0].Labels, func(l Label) bool { return l.holds(g) && l.Snapped }) {
			t.Errorf("the true gear of %d teeth is not among %d labels", c.teeth, len(r.Groups[0].Labels))
		}
	}
}

// A narrow helical gear can't be spanned: the reading is put aside, in words.
func TestNarrowGear(t *testing.T) {
	g := full(2.25, 17.5, 32, 37, -0.05)
	g.face = 16
	r := alone(t, g.gear(g.bench(Span, OverBalls, Tip, TipHelix)))
	if len(r.Notes) < 2 || r.Groups[0].Fixed {
		t.Errorf("spans of a narrow gear count: %v", r.Notes)
	}
}

// A pair: backlash and centre distance fix the helix better than the ink roll alone, and full-tooth shifts close the pair.
func TestPair(t *testing.T) {
	const a, helix = 80.0, 20.0
	one, other := full(2.75, 20, helix, 13, 0.38), full(2.75, 20, helix, 41, 0)
	spec := involute.Spec{Module: 2.75, Helix: helix * degree, Rack: involute.StandardRack, Teeth: [2]int{13, 41},
		Shift: [2]float64{0.38, 0}, ShiftKnown: [2]bool{true, false},
		CentreDistance: a, Face: 20, Thinning: [2]float64{0.06, 0.06}}
	p, err := involute.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	along := p.Backlash / math.Cos(p.WorkingPressureAngle) / math.Cos(p.BaseHelix)
	gears := []Gear{}
	for i, g := range []truth{one, other} {
		g.x = p.GeneratingShift(i)
		g.tip, g.root = p.Tip[i], p.Root[i]
		gears = append(gears, g.gear(g.bench(Span, Tip, Root, TipHelix)))
	}
	m := mesh{flankOf(p.Gauge(0), p.GeneratingShift(0)), flankOf(p.Gauge(1), p.GeneratingShift(1))}
	near(t, "backlash", m.backlash(a), along, 1e-9)
	near(t, "centre distance", m.centre(along), a, 1e-8)
	without, err := Solve(Set{Gears: gears, Pairs: []Pair{{Name: "pair", Gears: [2]int{0, 1}, Centre: -1}}})
	if err != nil {
		t.Fatal(err)
	}
	with, err := Solve(Set{Gears: gears, Pairs: []Pair{{Name: "pair", Gears: [2]int{0, 1},
		Backlash: Reading{Kind: Backlash, Value: along}}}, Centres: []Centre{{Name: "shafts",
		Reading: Reading{Kind: Distance, Value: a, By: Plugs}}}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "base helix", with.Groups[0].BaseHelix.Value, p.BaseHelix, 1e-8)
	if got, was := with.Groups[0].BaseHelix.Tolerance, without.Groups[0].BaseHelix.Tolerance; got > was/2 {
		t.Errorf("± of the helix %.3f°, without the pair %.3f°", got/degree, was/degree)
	}
	best := with.Groups[0].Labels[0]
	if best.Module != 2.75 || !best.Snapped || math.Abs(best.Helix.Value-20*degree) > 1e-9 || math.Abs(best.PressureAngle-20*degree) > 1e-9 {
		t.Errorf("best label: module %g, %.4g°, %.4g°", best.Module, best.PressureAngle/degree, best.Helix.Value/degree)
	}
	for i := range best.Gears {
		near(t, "shift of the full tooth", best.Gears[i].Shift.Value, p.X[i], 1e-7)
		near(t, "thinning", best.Gears[i].Thinning.Value, 0.06, 1e-7)
	}
	if len(with.Closes) != 1 || math.Abs(with.Closes[0].Own.Value-a) > 1e-6 {
		t.Errorf("closes at %+v", with.Closes)
	}
	// The spans alone, with no backlash, stand too near by j_bt/(2 sin α_wt), the angle taken half-way.
	off := a - m.centre(0)
	near(t, "too near", off, p.Backlash/math.Cos(p.BaseHelix)/(2*math.Sin(m.working(a-off/2))), 1e-3*off)
}

// One reading out of line is named.
func TestContradictionIsNamed(t *testing.T) {
	g := full(2.5, 20, 0, 30, 0.2)
	readings := g.bench(Span, OverBalls, Tip)
	f := g.flank()
	readings = append(readings, Reading{Kind: Span, Teeth: 3, Value: f.span(3)}, Reading{Kind: OverBalls, Size: 5.5,
		Value: f.overBalls(5.5) + 0.3})
	r := alone(t, g.gear(readings))
	if !slices.ContainsFunc(r.Notes,
		func(n Note) bool { return n.About == "gear" && len(n.Args) == 3 && n.Args[0] == "over 5.5 mm balls" }) {
		t.Errorf("notes: %v", r.Notes)
	}
}

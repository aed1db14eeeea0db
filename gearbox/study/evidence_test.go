package study

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/diag"
	"layshaft/material"
)

// lived is the demonstration box Alder under another name, with another history than its file has, and with nothing between engine and teeth
// that would bound the torque.
func lived(t testing.TB, name string, evidence ...gearbox.Evidence) *gearbox.Box {
	t.Helper()
	box, _, found := boxfile.ReadFile("../../testdata/alder.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	box.Name, box.Evidence, box.Clutch, box.Car = name, evidence, nil, nil
	for i := range box.Gears {
		box.Gears[i].LeadKnown = true // flanks true, so that both ends of the bands meet the same load
	}
	for i := range evidence {
		for k, key := range []string{"survived", "broke"} {
			box.Places[fmt.Sprintf("history.%d.%s", i, key)] = diag.Place{File: name + ".yaml", Line: 100 + i, Column: 5 + k, Width: 7}
		}
	}
	return box
}

func narrow(t testing.TB, boxes ...*gearbox.Box) []*gearbox.Box {
	t.Helper()
	out, found, err := Narrow(boxes, gearbox.Method{})
	if err != nil || found.HasErrors() {
		t.Fatal(found, err)
	}
	return out
}

// survived is with a peak of 1.6 times the torque.
func survived(nm, passes float64) gearbox.Evidence {
	return gearbox.Evidence{Torque: nm * 1e3, Peak: 1.6 * nm * 1e3, Passes: passes, Opened: true}
}

func broke(nm float64, gear string, by gearbox.Failure) gearbox.Evidence {
	return gearbox.Evidence{Torque: nm * 1e3, Broke: true, Gear: gear, By: by}
}

func steelOf(t testing.TB, b *gearbox.Box) *material.Steel {
	t.Helper()
	s, ok := b.Steel(b.Gears[0].Steel)
	if !ok {
		t.Fatal("no steel")
	}
	return &s
}

// bands are the three that evidence bounds, of the one steel of a box, without what they rest on.
func bands(t testing.TB, b *gearbox.Box) (all [5]material.Band) {
	t.Helper()
	s := steelOf(t, b)
	for i, strength := range gearbox.Strengths() {
		all[i] = strength.Band(s)
		all[i].Source = ""
	}
	return all
}

func inside(t *testing.T, what string, inner, outer [5]material.Band) {
	t.Helper()
	for i := range inner {
		if in, out := inner[i], outer[i]; in.Low < out.Low || in.High > out.High || !(in.Low <= in.Typical && in.Typical <= in.High) {
			t.Errorf("%s: %s %v to %v to %v isn't inside %v to %v", what, gearbox.Strength(i), in.Low, in.Typical, in.High, out.Low, out.High)
		}
	}
}

// With the strength that a survivor needed, before scatter is allowed for, the box that lives its passes has exactly no margin at its torque, and the one that
// bears its peak none at that.
func TestNeededStrengthPutBackLeavesNoMargin(t *testing.T) {
	t.Parallel()
	kinds := map[gearbox.Strength]gearbox.Kind{
		gearbox.RootStrength: gearbox.RootFatigue, gearbox.RootStatic: gearbox.RootPeak, gearbox.FlankStrength: gearbox.FlankFatigue, gearbox.FlankStatic: gearbox.FlankPeak,
	}
	for _, steel := range []string{"case-carburised", "through-hardened", "nitrided"} {
		for _, e := range []gearbox.Evidence{survived(290, 40), survived(140, 4000), {Torque: 260e3, Passes: 300, Speed: "1st"}} {
			box := lived(t, "Alder", e)
			for i := range box.Gears {
				box.Gears[i].Steel = steel
			}
			needs := must(gearbox.BorneBy(box, e, gearbox.Method{})).Needs
			for strength, of := range kinds {
				needed := 0.0
				for _, n := range needs {
					if n.Strength == strength && n.Steel == steel {
						needed = max(needed, n.Least)
					}
				}
				s, _ := material.Find(steel)
				same := func(of gearbox.Strength, v float64) {
					*of.Of(&s) = material.Band{Low: v, Typical: v, High: v}
				}
				if fatigue, static := strength.Fatigue(); static {
					same(fatigue, needed)
				} else {
					static, _ := strength.Static()
					same(static, 100*needed) // passes prove no static strength, so it mustn't be in the way
				}
				same(strength, needed)
				back := *box
				back.Steels, back.Evidence, back.Shock = []material.Steel{s}, nil, max(1, e.Peak/e.Torque)
				duty := gearbox.Duty{Passes: e.Passes}
				for _, step := range box.Duty.Steps {
					if e.Speed == "" || step.Speed == e.Speed {
						duty.Steps = append(duty.Steps, step)
					}
				}
				back.Duty = &duty
				r, err := gearbox.Solve(&back, gearbox.Load{Torque: e.Torque})
				if err != nil {
					t.Fatal(err)
				}
				least := math.Inf(1)
				for _, sp := range r.Speeds {
					if e.Speed != "" && sp.Name != e.Speed {
						continue
					}
					for _, m := range sp.Margins {
						if m.Kind == of {
							least = min(least, m.Margin)
						}
					}
				}
				// The other strengths of a soft steel change what its notches and flanks bear a little; the need takes the end that asks for least, so margins may be less than none.
				within := 1e-6
				if steel == "through-hardened" {
					within = 0.05
				}
				if !(least <= 1e-6 && least >= -within) {
					t.Errorf("%s, %s, %s %.5g MPa: least margin %.3g at the torque survived, want 0", steel, e.String(), strength, needed, least)
				}
			}
		}
	}
}

// A shaft survived its own nominal stress at the peak.
func TestShaftsNeedTheirStress(t *testing.T) {
	e := survived(290, 0)
	box := lived(t, "Alder", e)
	borne, err := gearbox.BorneBy(box, e, gearbox.Method{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := gearbox.Solve(box, gearbox.Load{Torque: e.Torque * box.Shock, Speeds: []string{"1st"}})
	if err != nil {
		t.Fatal(err)
	}
	for _, sh := range r.Speeds[0].Shafts {
		for _, sec := range sh.Sections {
			item := fmt.Sprintf("%s, section %d", gearbox.ShaftTitle(sh.Name), sec.Number)
			i := slices.IndexFunc(borne.Needs, func(n gearbox.Need) bool { return n.Item == item && n.Speed == "1st" })
			if sec.Stress.VonMises == 0 {
				continue
			}
			if i < 0 || math.Abs(borne.Needs[i].Least-sec.Stress.VonMises) > 1e-9*sec.Stress.VonMises {
				t.Errorf("%s: need %d of %d, want its stress of %g MPa", item, i, len(borne.Needs), sec.Stress.VonMises)
			}
		}
	}
}

// The root's limit is in step with its strength, so the need for a peak is in step with the stress.
func TestRootNeedIsStressOverStaticStrength(t *testing.T) {
	e := survived(290, 0)
	e.Peak = 0
	box := lived(t, "Alder", e)
	box.Shock = 1 // so that the peak is at the asked torque
	borne, err := gearbox.BorneBy(box, e, gearbox.Method{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := gearbox.Solve(box, gearbox.Load{Torque: e.Torque})
	if err != nil {
		t.Fatal(err)
	}
	limit := steelOf(t, box).RootLimit.Typical
	checked := 0
	for _, sp := range r.Speeds[:4] { // 5th has a share of the torque in the duty
		for _, m := range sp.Meshes {
			for k, name := range m.Gears {
				i := slices.IndexFunc(borne.Needs, func(n gearbox.Need) bool { return n.Kind == gearbox.RootPeak && n.Item == name && n.Speed == sp.Name })
				want := limit * m.Peak.Root[k].Stress / m.Peak.Root[k].Static
				if i < 0 || math.Abs(borne.Needs[i].Least-want) > 1e-9*want || borne.Needs[i].Least != borne.Needs[i].Most && borne.Needs[i].Most-borne.Needs[i].Least > 1e-9*want {
					t.Errorf("%s in %s: need %d of %d, want %g MPa", name, sp.Name, i, len(borne.Needs), want)
				}
				checked++
			}
		}
	}
	if checked != 16 {
		t.Errorf("%d gears checked", checked)
	}
}

// After narrowing, what a broken part needed is what its steel has at most: no margin is left at that torque at the high end.
func TestBrokenPartHasNoMarginAtTheHighEnd(t *testing.T) {
	e := gearbox.Evidence{Torque: 700e3, Broke: true, Gear: "third pinion", By: gearbox.BrokenRoot, Speed: "3rd", Passes: 400}
	box := narrow(t, lived(t, "Alder", e))[0]
	before := bands(t, lived(t, "Alder"))
	if now := bands(t, box); now[0].High >= before[0].High || now[0].Low != before[0].Low || !reflect.DeepEqual(now[gearbox.FlankStrength:], before[gearbox.FlankStrength:]) {
		t.Fatalf("bands %v after a broken root, %v before", now, before)
	}
	r, err := gearbox.Solve(box, gearbox.Load{Torque: e.Torque})
	if err != nil {
		t.Fatal(err)
	}
	least := math.Inf(1)
	for _, m := range r.Speeds[2].Margins {
		if m.Item == "third pinion" && (m.Kind == gearbox.RootFatigue || m.Kind == gearbox.RootPeak) {
			least = min(least, m.Allowable[material.High]/e.Torque-1)
			if len(m.Notes) == 0 || !strings.Contains(m.Notes[0], "rests on service history") {
				t.Errorf("%s of %s doesn't say that it rests on service history: %q", m.Kind, m.Item, m.Notes)
			}
		}
	}
	if !(math.Abs(least) < 1e-6) {
		t.Errorf("margin at the high end is %g at the torque at which it broke, want 0", least)
	}
}

// random evidence that can be true of the demonstration box: nothing broke below what lives.
func random(r *rand.Rand, broken bool) gearbox.Evidence {
	speeds := []string{"", "1st", "2nd", "3rd", "4th", "5th"}
	e := gearbox.Evidence{Torque: 1e3 * (220 + 120*r.Float64()), Passes: math.Floor(500 * r.Float64()), Speed: speeds[r.IntN(len(speeds))], Opened: r.IntN(4) > 0}
	if r.IntN(4) > 0 {
		e.Peak = e.Torque * (1 + r.Float64())
	}
	if broken {
		e = gearbox.Evidence{Broke: true, Passes: 10 * float64(r.IntN(2))}
		from := 600.0
		switch r.IntN(4) {
		case 0:
			e.Gear, e.By, from = "final pinion", gearbox.PittedFlank, 240
		case 1:
			e.Gear, e.By, from = "final pinion", gearbox.BrokenRoot, 350
		case 2:
			e.Gear = "third wheel"
		}
		e.Torque = 1e3 * from * (1 + r.Float64()/2)
	}
	return e
}

// Survivors never lower the high end, what broke never raises the low one, more evidence never widens a band, and the order of it changes nothing; twice is as good as once.
func TestEvidenceNarrows(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	whole := bands(t, lived(t, "Alder"))
	moved := 0
	for range 30 {
		var all []gearbox.Evidence
		for range 1 + r.IntN(4) {
			all = append(all, random(r, r.IntN(3) == 0))
		}
		last := whole
		var now *gearbox.Box
		for k := 1; k <= len(all); k++ {
			now = narrow(t, lived(t, "Alder", all[:k]...))[0]
			inside(t, fmt.Sprintf("%v", all[:k]), bands(t, now), last)
			last = bands(t, now)
		}
		if last != whole {
			moved++
		}
		for i, b := range last {
			lived := !slices.ContainsFunc(all, func(e gearbox.Evidence) bool { return e.Broke })
			dead := !slices.ContainsFunc(all, func(e gearbox.Evidence) bool { return !e.Broke })
			if lived && b.High != whole[i].High || dead && b.Low != whole[i].Low {
				t.Errorf("%v: %s became %v", all, gearbox.Strength(i), b)
			}
		}
		backwards := slices.Clone(all)
		slices.Reverse(backwards)
		if other := bands(t, narrow(t, lived(t, "Alder", backwards...))[0]); other != last {
			t.Errorf("%v: %v, backwards %v", all, last, other)
		}
		again := narrow(t, now)[0]
		if !reflect.DeepEqual(again.Narrowed, now.Narrowed) || bands(t, again) != last || !reflect.DeepEqual(again.Lessons, now.Lessons) {
			t.Errorf("%v: narrowed twice it says something else", all)
		}
	}
	if moved < 4 {
		t.Errorf("only %d of 30 moved a band: the test says little", moved)
	}
}

// Narrow leaves the boxes it is given alone, and hands back the very same where there is nothing to learn.
func TestNarrowLeavesItsBoxesAlone(t *testing.T) {
	a, before := lived(t, "Alder", survived(290, 40)), lived(t, "Alder", survived(290, 40))
	narrow(t, a)
	if !reflect.DeepEqual(a, before) {
		t.Error("the box was changed")
	}
	plain := lived(t, "Alder")
	if got := narrow(t, plain)[0]; got != plain {
		t.Error("a box without evidence became another one")
	}
}

func TestTypicalGivesWayToAnEnd(t *testing.T) {
	box := narrow(t, lived(t, "Alder", broke(330, "final pinion", gearbox.PittedFlank), gearbox.Evidence{Torque: 250e3, Peak: 620e3, Speed: "1st", Opened: true}))[0]
	n := box.Narrowed
	if len(n) == 0 {
		t.Fatal("nothing was narrowed")
	}
	for _, n := range n {
		if n.Now.Typical != min(max(n.Was.Typical, n.Now.Low), n.Now.High) || n.Moved() != (n.Now.Typical != n.Was.Typical) || n.Moved() != strings.Contains(n.String(), "moved") {
			t.Errorf("%+v: %s", n, n.String())
		}
		if !strings.Contains(n.Now.Source, "narrowed by service history") || !strings.HasPrefix(n.Now.Source, n.Was.Source) {
			t.Errorf("source %q", n.Now.Source)
		}
	}
}

// What one box says counts for another only where both say that they are of one batch: a family that they share makes no one steel of theirs.
func TestEvidenceKeepsToItsSteel(t *testing.T) {
	batch := func(b *gearbox.Box, lot string) *gearbox.Box {
		s, _ := material.Find("case-carburised")
		s.Name, s.Batch = "club stock", lot
		b.Steels = []material.Steel{s}
		for i := range b.Shafts {
			b.Shafts[i].Steel = s.Name
		}
		for i := range b.Gears {
			b.Gears[i].Steel = s.Name
		}
		return b
	}
	whole := bands(t, lived(t, "x"))
	e := survived(290, 40)
	for _, c := range []struct {
		what   string
		other  *gearbox.Box
		first  *gearbox.Box
		learns bool
	}{
		{"the same family", lived(t, "Birch"), lived(t, "Alder", e), false},
		{"the same name without a batch", batch(lived(t, "Birch"), ""), batch(lived(t, "Alder", e), ""), false},
		{"another batch", batch(lived(t, "Birch"), "lot 8"), batch(lived(t, "Alder", e), "lot 7"), false},
		{"the same batch", batch(lived(t, "Birch"), "lot 7"), batch(lived(t, "Alder", e), "lot 7"), true},
	} {
		for _, order := range [][]*gearbox.Box{{c.first, c.other}, {c.other, c.first}} {
			out := narrow(t, order...)
			alder, birch := out[slices.Index(order, c.first)], out[slices.Index(order, c.other)]
			if bands(t, alder) == whole || len(alder.Lessons) != 1 {
				t.Errorf("%s: Alder learnt nothing", c.what)
			}
			if got := bands(t, birch) != whole; got != c.learns || (len(birch.Lessons) == 1) != c.learns || (len(birch.Narrowed) > 0) != c.learns {
				t.Errorf("%s: Birch learnt: %v, %v", c.what, got, birch.Lessons)
			}
		}
	}
	a, b := batch(lived(t, "Alder", e), "lot 7"), batch(lived(t, "Birch"), "lot 7")
	b.Steels[0].RootLimit.High = 600
	if _, found, err := Narrow([]*gearbox.Box{a, b}, gearbox.Method{}); err != nil || !found.HasErrors() || !strings.Contains(found.Error(), `Batch "lot 7" has another root limit`) {
		t.Errorf("one batch told in two ways: %v, %v", found, err)
	}
	// Contradictions are found across boxes of one batch, and name both lines.
	a, b = batch(lived(t, "Alder", e), "lot 7"), batch(lived(t, "Birch", broke(185, "final pinion", gearbox.PittedFlank)), "lot 7")
	b.Evidence[0].Passes = 1
	_, found, err := Narrow([]*gearbox.Box{a, b}, gearbox.Method{})
	if text := found.Error(); err != nil || !found.HasErrors() || !strings.Contains(text, "contradictory service history") || !strings.Contains(text, "Birch.yaml:100:6") || !strings.Contains(text, "Alder.yaml:100:5") {
		t.Errorf("%v, %v", found, err)
	}
}

func TestEvidenceThatCantBe(t *testing.T) {
	for _, c := range []struct {
		what     string
		evidence []gearbox.Evidence
		error    bool
		says     []string
	}{
		{"contradiction in one file", []gearbox.Evidence{{Torque: 185e3, Broke: true, Gear: "final pinion", By: gearbox.PittedFlank, Passes: 1}, survived(290, 40)}, true,
			[]string{"contradictory service history", "Alder.yaml:100:6", "Alder.yaml:101:5", "final pinion", "flank limit", "--without history"}},
		{"broke below the steel", []gearbox.Evidence{{Torque: 100e3, Broke: true, Gear: "final pinion", By: gearbox.BrokenRoot, Passes: 1}}, true,
			[]string{"broke below what this steel bears", "Alder.yaml:100:6", "case-carburised has 312 MPa at least"}},
		{"nothing in that speed can have broken", []gearbox.Evidence{{Torque: 60e3, Broke: true, Speed: "5th", Passes: 1}}, true,
			[]string{"broke below what this steel bears", "Alder.yaml:100:6"}},
		{"survived beyond the steel", []gearbox.Evidence{survived(450, 40)}, false,
			[]string{"more than this steel can bear", "Alder.yaml:100:5", "case-carburised has 1650 MPa at most", "static flank strength"}},
		{"survivor put aside against what broke", []gearbox.Evidence{survived(450, 40), {Torque: 250e3, Broke: true, Gear: "final pinion", By: gearbox.PittedFlank, Passes: 1}}, true,
			[]string{"contradictory service history", "Alder.yaml:100:5", "Alder.yaml:101:6"}},
	} {
		_, found, err := Narrow([]*gearbox.Box{lived(t, "Alder", c.evidence...)}, gearbox.Method{})
		if err != nil || found.HasErrors() != c.error || len(found) == 0 {
			t.Errorf("%s: %v, %v", c.what, found, err)
		}
		for _, says := range c.says {
			if !strings.Contains(found.Error(), says) {
				t.Errorf("%s: %q isn't in %s", c.what, says, found.Error())
			}
		}
	}
	box := narrow(t, lived(t, "Alder", survived(450, 40)))[0]
	if got, whole := bands(t, box), bands(t, lived(t, "x")); got[gearbox.FlankStrength] != whole[gearbox.FlankStrength] || got[gearbox.YieldStrength] != whole[gearbox.YieldStrength] {
		t.Errorf("a survivor beyond the steel made its bands %v", got)
	}
}

// What broke without a name bounds a strength only when all others can be ruled out.
func TestWhatBrokeWithoutAName(t *testing.T) {
	some := gearbox.Evidence{Torque: 900e3, Broke: true, Speed: "3rd"}
	box := narrow(t, lived(t, "Alder", some))[0]
	if bands(t, box) != bands(t, lived(t, "x")) || len(box.Lessons[0].Bounds) > 0 || !strings.Contains(box.Lessons[0].Why, "No single strength follows") {
		t.Errorf("%v: %+v", bands(t, box), box.Lessons)
	}
	// At little torque roots and shafts hold at their lowest; the flanks alone may have given way.
	flank := gearbox.Evidence{Torque: 230e3, Broke: true, Speed: "1st", Passes: 100}
	box = narrow(t, lived(t, "Alder", flank))[0]
	l := box.Lessons[0]
	if len(l.Bounds) != 1 || !l.Bounds[0].Upper || l.Bounds[0].Strength != gearbox.FlankStatic || l.Why != "" {
		t.Fatalf("%+v", l)
	}
	if b, all := l.Bounds[0], bands(t, box); b.Needed != b.Counted || all[gearbox.FlankStatic].High != b.Counted || all[gearbox.FlankStrength].High != b.Counted {
		t.Errorf("what broke counts in full, and no limit of fatigue is above the static strength: %+v, %v", b, all)
	}
	// It was the gear of that speed, or the final drive: no other can have broken there.
	for _, n := range must(gearbox.BorneBy(lived(t, "Alder"), flank, gearbox.Method{})).Needs {
		if strings.HasPrefix(n.Item, "second pinion") || strings.HasPrefix(n.Item, "second wheel") || strings.HasPrefix(n.Item, "fifth") {
			t.Errorf("%s is asked about in 1st", n.Item)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// A single survivor is counted by the strength of the luckiest part in a hundred against the weakest: two quantiles of the normal distribution.
func TestSurvivorCountsByItsQuantile(t *testing.T) {
	for _, strength := range gearbox.Strengths() {
		v := scatter[strength.Failure()]
		share := Survivor(strength)
		// With the mean such that a part of the strength 1 is the best of a hundred, the weakest of a hundred has that share of it.
		mean := 1 / (1 + onePercent*v)
		below := func(x float64) float64 { return 0.5 * math.Erfc((mean-x)/(v*mean)/math.Sqrt2) }
		if lucky, weak := 1-below(1), below(share); math.Abs(lucky-0.01) > 1e-5 || math.Abs(weak-0.01) > 1e-5 {
			t.Errorf("%s: share %g, %.4g of parts are better than the survivor, %.4g weaker than the line; want 0.01 both", strength, share, lucky, weak)
		}
	}
}

// With its roots peened a steel may owe a tenth of its strength to that, so a survivor says less of it, and what broke no less.
func TestPeenedRootsSayLess(t *testing.T) {
	e := survived(290, 100000)
	need := func(box *gearbox.Box) gearbox.Need {
		for _, n := range must(gearbox.BorneBy(box, e, gearbox.Method{})).Needs {
			if n.Kind == gearbox.RootFatigue && n.Item == "final pinion" {
				return n
			}
		}
		t.Fatal("no such need")
		return gearbox.Need{}
	}
	box := lived(t, "Alder")
	bare := need(box)
	for i := range box.Gears {
		box.Gears[i].Peened = true
	}
	peened := need(box)
	if math.Abs(peened.Most-bare.Most) > 1e-9*bare.Most || math.Abs(peened.Least*1.1-bare.Least) > 1e-9*bare.Least {
		t.Errorf("peened %+v, bare %+v", peened, bare)
	}
}

// Without passes a survivor says nothing of fatigue; what broke may have been driven for ever.
func TestPassesThatAreNotTold(t *testing.T) {
	fatigue := func(e gearbox.Evidence) (all []gearbox.Need) {
		for _, n := range must(gearbox.BorneBy(lived(t, "Alder"), e, gearbox.Method{})).Needs {
			if n.Kind == gearbox.RootFatigue || n.Kind == gearbox.FlankFatigue {
				all = append(all, n)
			}
		}
		return all
	}
	if got := fatigue(survived(290, 0)); len(got) > 0 {
		t.Errorf("%v", got)
	}
	told, ever := fatigue(gearbox.Evidence{Torque: 420e3, Broke: true, Passes: 200}), fatigue(gearbox.Evidence{Torque: 420e3, Broke: true})
	if len(told) < 24 || len(ever) != 24 { // the duty coasts too, on flanks of its own
		t.Fatalf("%d and %d needs", len(told), len(ever))
	}
	for _, a := range told {
		for _, b := range ever {
			if a.Kind == b.Kind && a.Item == b.Item && a.Most > b.Most*(1+1e-9) {
				t.Errorf("%s of %s needs %g MPa after 200 passes and %g for ever", a.Kind, a.Item, a.Most, b.Most)
			}
		}
	}
}

// A box that wasn't opened may have pits and a bent shaft: it tells of its roots alone.
func TestUnopenedBoxTellsOfItsRootsAlone(t *testing.T) {
	shut := survived(420, 40)
	shut.Opened = false
	box := narrow(t, lived(t, "Alder", shut))[0]
	l := box.Lessons[0]
	if len(l.Bounds) != 2 || l.Bounds[0].Strength != gearbox.RootStrength || l.Bounds[1].Strength != gearbox.RootStatic || !strings.Contains(l.Why, "nothing follows for flanks and shafts") {
		t.Errorf("%+v", l)
	}
	if got, whole := bands(t, box), bands(t, lived(t, "x")); !reflect.DeepEqual(got[gearbox.FlankStrength:], whole[gearbox.FlankStrength:]) {
		t.Errorf("%v", got)
	}
}

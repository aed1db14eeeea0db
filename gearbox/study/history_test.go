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
	"layshaft/material"
)

// onItsTyres is Alder with the clutch and the car of its file, and another history.
func onItsTyres(t testing.TB, history ...gearbox.Evidence) *gearbox.Box {
	t.Helper()
	alder, _ := demoBoxes(t)
	box := lived(t, "Alder", history...)
	box.Clutch, box.Car = alder.Clutch, alder.Car
	return box
}

// What survived counts by what clutch and tyres let through of it, as the box itself says it when it is asked for that torque; what broke by all that may have come.
func TestTheLoadThatCounts(t *testing.T) {
	asked, err := gearbox.Solve(onItsTyres(t), gearbox.Load{Torque: 290e3})
	if err != nil {
		t.Fatal(err)
	}
	engine := func(nm float64) gearbox.Reached { return gearbox.Reached{Torque: nm * 1e3, By: gearbox.ByEngine} }
	all := map[string][2]gearbox.Reached{} // peak and continuous
	for _, s := range asked.Speeds {
		all[s.Name] = [2]gearbox.Reached{s.Reach.Running, s.Reach.Running} // without shock
	}
	all["5th"] = [2]gearbox.Reached{engine(0.8 * 290), engine(0.8 * 290)} // its share in the duty
	with := func(change func(map[string][2]gearbox.Reached)) map[string][2]gearbox.Reached {
		c := map[string][2]gearbox.Reached{}
		for k, v := range all {
			c[k] = v
		}
		change(c)
		return c
	}
	if got := all["1st"][0]; got.By != gearbox.ByTyres || math.Abs(got.Torque-118e3) > 1e3 {
		t.Fatalf("in 1st the tyres let %+v through", got)
	}
	for _, c := range []struct {
		what    string
		history gearbox.Evidence
		change  func(*gearbox.Box)
		want    map[string][2]gearbox.Reached
	}{
		{"survived", gearbox.Evidence{Torque: 290e3, Passes: 40}, nil, all},
		{"with a peak", gearbox.Evidence{Torque: 200e3, Peak: 290e3}, nil, with(func(c map[string][2]gearbox.Reached) {
			for name, v := range c {
				v[0] = asked.Speeds[slices.IndexFunc(asked.Speeds, func(s gearbox.SpeedResult) bool { return s.Name == name })].Reach.Running
				v[1].Torque = min(v[1].Torque, 200e3)
				if v[1].Torque == 200e3 {
					v[1].By = gearbox.ByEngine
				}
				c[name] = v
			}
			c["5th"] = [2]gearbox.Reached{c["5th"][0], engine(160)}
		})},
		{"in one speed", gearbox.Evidence{Torque: 290e3, Speed: "2nd"}, nil, map[string][2]gearbox.Reached{"2nd": all["2nd"]}},
		{"a speed that the duty leaves out", gearbox.Evidence{Torque: 290e3}, func(b *gearbox.Box) { b.Duty.Steps = b.Duty.Steps[1:] }, with(func(c map[string][2]gearbox.Reached) { delete(c, "1st") })},
		{"a speed that only coasts", gearbox.Evidence{Torque: 290e3}, func(b *gearbox.Box) {
			b.Duty.Steps = []gearbox.DutyStep{{Speed: "3rd", Turns: 100, Share: -0.5}, {Speed: "4th", Turns: 100, Share: 1}}
		}, map[string][2]gearbox.Reached{"4th": all["4th"]}},
		{"broke", gearbox.Evidence{Torque: 290e3, Broke: true}, nil, map[string][2]gearbox.Reached{
			"1st": {engine(464), engine(290)}, "2nd": {engine(464), engine(290)}, "3rd": {engine(464), engine(290)}, "4th": {engine(464), engine(290)}, "5th": {engine(464), engine(290)},
		}},
		{"broke at a peak", gearbox.Evidence{Torque: 290e3, Peak: 330e3, Broke: true, Speed: "1st"}, nil, map[string][2]gearbox.Reached{"1st": {engine(330), engine(290)}}},
	} {
		box := onItsTyres(t, c.history)
		if c.change != nil {
			duty := *box.Duty
			box.Duty = &duty
			c.change(box)
		}
		got := map[string][2]gearbox.Reached{}
		for _, l := range must(gearbox.BorneBy(box, c.history, gearbox.Method{})).Loads {
			got[l.Speed] = [2]gearbox.Reached{l.Peak, l.Running}
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: loads %v, want %v", c.what, got, c.want)
		}
		for name, want := range c.want {
			for k := range want {
				if g := got[name][k]; g.By != want[k].By || math.Abs(g.Torque-want[k].Torque) > 1e-9*want[k].Torque {
					t.Errorf("%s, %s: %v, want %v", c.what, name, got[name], want)
				}
			}
		}
	}
}

// Nothing is proven by what never arrived: on its tyres the demonstration box has bands that its history leaves alone.
func TestTyresTakeTheirShareOfAHistory(t *testing.T) {
	e := survived(290, 40)
	if got, whole := bands(t, narrow(t, onItsTyres(t, e))[0]), bands(t, lived(t, "x")); got != whole {
		t.Errorf("%v", got)
	}
	if got, whole := bands(t, narrow(t, lived(t, "Alder", e))[0]), bands(t, lived(t, "x")); got[gearbox.FlankStatic].Low <= whole[gearbox.FlankStatic].Low {
		t.Errorf("with nothing in between %v", got)
	}
}

// What passes and peaks ask for behind the tyres is what they ask for at the torque that the tyres let through.
func TestTheNeedBehindTheTyres(t *testing.T) {
	e := gearbox.Evidence{Torque: 290e3, Passes: 1e5, Speed: "1st", Opened: true}
	box := onItsTyres(t, e)
	r, err := gearbox.Solve(box, gearbox.Load{Torque: e.Torque, Speeds: []string{"1st"}})
	if err != nil {
		t.Fatal(err)
	}
	less := e
	less.Torque = r.Speeds[0].Reach.Running.Torque
	got, want := must(gearbox.BorneBy(box, e, gearbox.Method{})).Needs, must(gearbox.BorneBy(lived(t, "Alder"), less, gearbox.Method{})).Needs
	if len(got) != len(want) {
		t.Fatalf("%d needs, want %d", len(got), len(want))
	}
	for i, n := range got {
		if w := want[i]; n.Kind != w.Kind || n.Item != w.Item || math.Abs(n.Least-w.Least) > 1e-7*w.Least {
			t.Errorf("%+v, want %+v", n, w)
		}
	}
}

// A peak proves static strength and no limit of fatigue; passes prove the limit of fatigue as far as there were enough of them.
func TestAPeakIsNoFatigue(t *testing.T) {
	whole := bands(t, lived(t, "x"))
	peak := bands(t, narrow(t, lived(t, "Alder", gearbox.Evidence{Torque: 320e3, Peak: 512e3, Passes: 1, Opened: true}))[0])
	if peak[gearbox.FlankStatic].Low < 1450 || peak[gearbox.FlankStrength] != whole[gearbox.FlankStrength] || peak[gearbox.RootStrength] != whole[gearbox.RootStrength] {
		t.Errorf("one pass with a peak: %v, before %v", peak, whole)
	}
	last := 0.0
	for _, passes := range []float64{100, 1e4, 1e5, 1e6} {
		box := lived(t, "Alder", gearbox.Evidence{Torque: 190e3, Passes: passes, Opened: true})
		need := 0.0
		for _, n := range must(gearbox.BorneBy(box, box.Evidence[0], gearbox.Method{})).Needs {
			if n.Kind == gearbox.FlankFatigue {
				need = max(need, n.Least)
			}
		}
		if need <= last {
			t.Errorf("%g passes ask for %g MPa, fewer for %g", passes, need, last)
		}
		last = need
		got := bands(t, narrow(t, box)[0])
		if want := min(max(whole[gearbox.FlankStrength].Low, need*Survivor(gearbox.FlankStrength)), whole[gearbox.FlankStrength].High); math.Abs(got[gearbox.FlankStrength].Low-want) > 1e-9*want {
			t.Errorf("%g passes: flank limit %v, want at least %g", passes, got[gearbox.FlankStrength], want)
		}
		if got[gearbox.FlankStatic].Low < got[gearbox.FlankStrength].Low {
			t.Errorf("%g passes: a static strength below the limit of fatigue: %v", passes, got)
		}
	}
	if last*Survivor(gearbox.FlankStrength) <= whole[gearbox.FlankStrength].Low {
		t.Errorf("a million passes prove no more than %g MPa: the test says little", last)
	}
	// Where only the peak moves a band, all limits of fatigue stay where they were unless the static strength had cut them short, and none of them falls.
	before, after := solve(t, lived(t, "Alder")), solve(t, narrow(t, lived(t, "Alder", gearbox.Evidence{Torque: 320e3, Peak: 512e3, Opened: true}))[0])
	moved := false
	for i := range before.Speeds {
		for _, a := range before.Speeds[i].Margins {
			k := slices.IndexFunc(after.Speeds[i].Margins, func(b gearbox.Margin) bool { return b.Kind == a.Kind && b.Item == a.Item })
			b := after.Speeds[i].Margins[k]
			if a.Life != b.Life {
				t.Errorf("%s of %s: life went from %g to %g by a single peak", a.Kind, a.Item, a.Life, b.Life)
			}
			moved = moved || a.Kind == gearbox.FlankPeak && b.Allowable[material.Low] > a.Allowable[material.Low]
		}
	}
	if !moved {
		t.Error("the peak left the static limit where it was")
	}
}

// More survived never weakens a box: no end of any band falls, and so no allowable torque, whether or not all of it is possible.
func TestMoreSurvivedNeverWeakensABox(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 4))
	speeds := []string{"", "", "1st", "3rd"}
	one := func() gearbox.Evidence {
		e := gearbox.Evidence{Torque: 1e3 * (100 + 400*r.Float64()), Speed: speeds[r.IntN(len(speeds))], Opened: r.IntN(4) > 0}
		if r.IntN(3) > 0 {
			e.Passes = math.Exp(14 * r.Float64())
		}
		if r.IntN(2) > 0 {
			e.Peak = e.Torque * (1 + r.Float64())
		}
		return e
	}
	weaker := func(what string, less, more *gearbox.Box) {
		t.Helper()
		for i, a := range bands(t, less) {
			b := bands(t, more)[i]
			if b.Low < a.Low*(1-1e-9) || b.Typical < a.Typical*(1-1e-9) || b.High < a.High*(1-1e-9) {
				t.Errorf("%s: %s went from %v to %v", what, gearbox.Strength(i), a, b)
			}
		}
	}
	aside := 0
	for n := range 25 {
		history := []gearbox.Evidence{one()}
		if r.IntN(2) > 0 {
			history = append(history, one())
		}
		less := narrow(t, lived(t, "Alder", history...))[0]
		for _, l := range less.Lessons {
			if slices.ContainsFunc(l.Bounds, func(b gearbox.StrengthBound) bool { return b.Aside }) {
				aside++
			}
		}
		grown := slices.Clone(history)
		switch e := &grown[0]; r.IntN(4) {
		case 0:
			e.Torque *= 1 + r.Float64()
			if e.Peak > 0 {
				e.Peak = max(e.Peak, e.Torque)
			}
		case 1:
			e.Passes = max(1, e.Passes*math.Exp(6*r.Float64()))
		case 2:
			e.Peak = max(e.Peak, e.Torque) * (1 + r.Float64())
		case 3:
			grown = append(grown, one())
		}
		more := narrow(t, lived(t, "Alder", grown...))[0]
		what := fmt.Sprintf("%v → %v", history, grown)
		weaker(what, less, more)
		if n%8 > 0 {
			continue
		}
		a, b := solve(t, less), solve(t, more)
		for i := range a.Speeds {
			for level := material.Low; level <= material.High; level++ {
				if x, y := a.Speeds[i].Allowable(level), b.Speeds[i].Allowable(level); y < x*(1-1e-6) {
					t.Errorf("%s: %s, %v end: %g N·mm became %g", what, a.Speeds[i].Name, level, x, y)
				}
			}
		}
	}
	if aside < 3 {
		t.Errorf("only %d of the histories were put aside: the test says little", aside)
	}
}

// What is impossible for one strength counts for none: in its place counts as much of it as every strength could have borne, so that it says the same however far beyond it is.
func TestWhatIsImpossibleIsPutAsideAsAWhole(t *testing.T) {
	t.Parallel()
	peak := func(nm float64) *gearbox.Box { return narrow(t, lived(t, "Alder", survived(nm, 0)))[0] }
	far, further := peak(450), peak(800)
	a, b := bands(t, far), bands(t, further)
	for i := range a {
		for _, ends := range [][2]float64{{a[i].Low, b[i].Low}, {a[i].High, b[i].High}} {
			if math.Abs(ends[0]-ends[1]) > 1e-9*ends[0] {
				t.Errorf("%s: %v of 450 N·m, %v of 800", gearbox.Strength(i), a[i], b[i])
			}
		}
	}
	if got := a[gearbox.FlankStatic]; math.Abs(got.Low-got.High) > 1e-9*got.High {
		t.Errorf("the strength that runs out first isn't at its high end: %v", got)
	}
	l := further.Lessons[0]
	if !strings.Contains(l.Why, "It isn't counted, but what of it is possible: survived ") {
		t.Errorf("%q", l.Why)
	}
	// All bounds that count are those of the torque that is possible, as a box says that survived just that.
	loads := l.Loads
	possible := narrow(t, lived(t, "Alder", gearbox.Evidence{Torque: loads[0].Peak.Torque, Speed: "1st", Opened: true}))[0]
	for _, want := range possible.Lessons[0].Bounds {
		i := slices.IndexFunc(l.Bounds, func(b gearbox.StrengthBound) bool { return b.Strength == want.Strength && !b.Aside })
		if i < 0 || math.Abs(l.Bounds[i].Counted-want.Counted) > 1e-8*want.Counted {
			t.Errorf("%s: %+v, want %g MPa", want.Strength, l.Bounds, want.Counted)
		}
	}
	if n := len(slices.DeleteFunc(slices.Clone(l.Bounds), func(b gearbox.StrengthBound) bool { return !b.Aside })); n == 0 {
		t.Error("no row says what was put aside")
	}
	// Too many passes leave all that the torque proves by itself, and what passes prove up to the number that is possible.
	few, many := bands(t, narrow(t, lived(t, "Alder", survived(290, 40)))[0]), bands(t, narrow(t, lived(t, "Alder", survived(290, 1e9)))[0])
	if few[gearbox.FlankStatic].Low > many[gearbox.FlankStatic].Low || few[gearbox.YieldStrength] != many[gearbox.YieldStrength] || many[gearbox.FlankStrength].Low != many[gearbox.FlankStrength].High {
		t.Errorf("40 passes: %v, far too many: %v", few, many)
	}
}

// The most that guides warn of, at the load that counts, in the speed where it is largest; nothing where nobody looked.
func TestGuidesThatWereSurvived(t *testing.T) {
	e := gearbox.Evidence{Torque: 290e3, Passes: 40, Opened: true}
	box := narrow(t, onItsTyres(t, e))[0]
	slopes := map[string]float64{}
	tilts := map[string]float64{}
	for _, l := range box.Lessons[0].Loads {
		r, err := gearbox.Solve(box, gearbox.Load{Torque: l.Running.Torque, Speeds: []string{l.Speed}})
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range r.Speeds[0].All() {
			switch m.Kind {
			case gearbox.BearingSlope:
				slopes[m.Item] = max(slopes[m.Item], m.Demand)
			case gearbox.MeshTilt:
				tilts[m.Item] = max(tilts[m.Item], m.Demand)
			}
		}
	}
	for kind, want := range map[gearbox.Kind]map[string]float64{gearbox.BearingSlope: slopes, gearbox.MeshTilt: tilts} {
		for item, v := range want {
			if got, ok := box.SurvivedOf(kind, item); !ok || math.Abs(got.Demand-v) > 1e-9*v {
				t.Errorf("%s of %s: %+v, want %g", kind, item, got, v)
			}
		}
	}
	if len(slopes) != 6 || len(tilts) != 6 {
		t.Errorf("%d slopes, %d tilts", len(slopes), len(tilts))
	}
	e.Opened = false
	if got := narrow(t, onItsTyres(t, e))[0].Survived; len(got) > 0 {
		t.Errorf("unopened: %v", got)
	}
	if got := narrow(t, onItsTyres(t, gearbox.Evidence{Torque: 600e3, Broke: true}))[0].Survived; len(got) > 0 {
		t.Errorf("broken: %v", got)
	}
}

// A strength is no matter of the sense in which a shaft turns or of the side from which a box is looked at: the mirror image of a box proves the same.
func TestTheMirrorImageProvesTheSame(t *testing.T) {
	e := survived(290, 4000)
	box := lived(t, "Alder", e)
	want := must(gearbox.BorneBy(box, e, gearbox.Method{}))
	got := must(gearbox.BorneBy(mirrored(box), e, gearbox.Method{}))
	if !reflect.DeepEqual(got.Loads, want.Loads) || len(got.Needs) != len(want.Needs) {
		t.Fatalf("%v, %v", got.Loads, want.Loads)
	}
	for i, n := range got.Needs {
		w := want.Needs[i]
		if n.Kind != w.Kind || n.Item != w.Item || math.Abs(n.Least-w.Least) > 1e-7*w.Least || math.Abs(n.Most-w.Most) > 1e-7*w.Most {
			t.Errorf("%+v, want %+v", n, w)
		}
	}
}

// mirrored is a box seen in a mirror that stands along its shafts: hands, sides and senses change, and no place along the shafts does.
func mirrored(b *gearbox.Box) *gearbox.Box {
	c := *b
	c.Turns = -b.Turns
	c.Side = map[string]int{}
	for name, side := range b.Side {
		c.Side[name] = -side
	}
	c.Meshes = slices.Clone(b.Meshes)
	for i := range c.Meshes {
		switch m := &c.Meshes[i]; m.Hand {
		case gearbox.Right:
			m.Hand = gearbox.Left
		case gearbox.Left:
			m.Hand = gearbox.Right
		}
	}
	return &c
}

// leaning is a pair on two thin shafts, with a lead correction that their bending takes back: from 40 to 90 N·m its flanks see less the more torque there is. All
// numbers are invented.
const leaning = `layshaft: 1
name: leaning
input: {shaft: input, at: 0 mm, torque: 60 N·m, revs: 3000 rpm}
output: {shaft: output, at: 240 mm}
shafts:
  input:
    axis: {y: 0 mm, z: 0 mm}
    sections: [{length: 240 mm, outer: 32 mm}]
    bearings:
      left: {at: 10 mm, type: deep groove ball, axial: fixed, radial: rigid}
      right: {at: 230 mm, type: deep groove ball, radial: rigid}
  output:
    sections: [{length: 240 mm, outer: 32 mm}]
    bearings:
      left: {at: 10 mm, type: deep groove ball, axial: fixed, radial: rigid}
      right: {at: 230 mm, type: deep groove ball, radial: rigid}
centres: [{between: [input, output], distance: 82.5 mm}]
gears:
  pinion: {shaft: input, at: 54 mm, teeth: 20, face: 25 mm, lead_error: -25 µm}
  wheel: {shaft: output, at: 54 mm, teeth: 35, face: 25 mm, lead_error: 0 µm}
meshes:
  pair: {driver: pinion, driven: wheel, module: 3 mm, pressure_angle: 20°}
speeds: {only: [pair]}
`

// Whatever reached a torque went through all below it: where a lesser one asks for more, that counts.
func TestTheWayUpCounts(t *testing.T) {
	box, found := boxfile.Read("leaning.yaml", []byte(leaning))
	if found.HasErrors() {
		t.Fatal(found)
	}
	alone := func(nm float64) float64 { // what the torque asks for by itself, from a box solved at it
		r, err := gearbox.Solve(box, gearbox.Load{Torque: nm * 1e3})
		if err != nil {
			t.Fatal(err)
		}
		f := r.Speeds[0].Meshes[0].Peak.Flank[0]
		return f.Stress / f.Static * steelOf(t, box).FlankLimit.At(box.Limits.Strength)
	}
	if alone(40) <= alone(80) {
		t.Fatalf("%g MPa at 40 N·m, %g at 80: the test says nothing", alone(40), alone(80))
	}
	last := 0.0
	for nm := 20.0; nm < 150; nm += 6.5 {
		need := 0.0
		for _, n := range must(gearbox.BorneBy(box, gearbox.Evidence{Torque: nm * 1e3}, gearbox.Method{})).Needs {
			if n.Strength == gearbox.FlankStatic {
				need = max(need, n.Least)
			}
		}
		if need < last*(1-1e-3) || need < alone(nm)*(1-1e-9) { // the places that are looked at leave a thousandth
			t.Errorf("%g N·m ask for %g MPa, less for %g, by themselves %g", nm, need, last, alone(nm))
		}
		last = need
	}
}

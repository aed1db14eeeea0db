package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/boxfile"
	"layshaft/gearbox/chance"
	"layshaft/material"
)

// drawnFile is a demonstration box with changes, for a spread.
func drawnFile(t testing.TB, path string, changes ...string) Drawn {
	t.Helper()
	data, list := boxfile.Load(path)
	if list != nil {
		t.Fatal(list)
	}
	f, box, list := boxfile.Open(path, data)
	if box == nil {
		t.Fatal(list)
	}
	if len(changes) > 0 {
		t.Fatal("not here")
	}
	return drawnOf(f, box)
}

func drawnOf(f *boxfile.File, box *gearbox.Box) Drawn {
	d := Drawn{Box: box, Read: func(values []float64) (*gearbox.Box, error) {
		made, list := f.WithReadings(values)
		if made == nil {
			return nil, list
		}
		return made, nil
	}}
	for _, r := range f.Readings() {
		d.Readings = append(d.Readings, Reading{r.Path, r.Value, r.Plus, r.String(), r.Bounds()})
	}
	return d
}

func oneSpeed(*gearbox.Box) gearbox.Load { return gearbox.Load{Speeds: []string{"1st"}} }

func spreadOf(t testing.TB, q SpreadQuestion, boxes ...Drawn) *Spread {
	t.Helper()
	if q.Load == nil {
		q.Load = oneSpeed
	}
	s, err := FindSpread(context.Background(), boxes, q, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

const alder, birch = "../../testdata/alder.yaml", "../../testdata/birch.yaml"

// known is a box of which nothing is left open but what a test opens.
func known(d Drawn) Drawn {
	steels := map[string]float64{}
	for _, name := range d.Box.SteelNames() {
		steels[name] = 0.5
	}
	d.Box = gearbox.OneOf(d.Box, chance.Even, steels, make([]float64, len(d.Box.Meshes)))
	d.Readings = nil
	return d
}

// Where all is known there is nothing to spread: every sample is the box itself.
func TestSpreadOfWhatIsKnown(t *testing.T) {
	d := known(drawnFile(t, alder))
	s := spreadOf(t, SpreadQuestion{Samples: 32, Rank: true}, d)
	r, err := gearbox.Solve(d.Box, oneSpeed(nil))
	if err != nil {
		t.Fatal(err)
	}
	want := r.Speeds[0].First.Torque
	b := s.Boxes[0].Bears
	for _, got := range []float64{b.Low.Value, b.Middle.Value, b.High.Value, b.Least, b.Most} {
		if math.Abs(got/want-1) > 1e-9 {
			t.Errorf("bears %g, want %g", got, want)
		}
	}
	for i, m := range r.Speeds[0].Margins {
		at := slices.IndexFunc(s.Boxes[0].Margins, func(x MarginSpread) bool { return x.Kind == m.Kind && x.Item == m.Item })
		if at < 0 {
			t.Errorf("margin %d is missing", i)
		} else if got := s.Boxes[0].Margins[at].Left.Middle.Value; math.Abs(got-m.Left()) > 1e-8 && got > m.Left() {
			t.Errorf("%v %s: left %g, want %g", m.Kind, m.Item, got, m.Left())
		}
	}
	if len(s.Unknowns) != 0 || s.Ranking != nil || !s.Stated {
		t.Errorf("unknown: %v, of which %v moves the answer; stated: %v", s.Unknowns, s.Ranking, s.Stated)
	}
}

// More strength bears more: the quantiles of the torque are the torques of the quantiles of the steel.
func TestSpreadOfSteelAlone(t *testing.T) {
	d := drawnFile(t, alder)
	d.Readings = nil
	b := *d.Box
	b.Gears = slices.Clone(b.Gears)
	for i := range b.Gears {
		b.Gears[i].LeadKnown = true
	}
	d.Box = &b
	s := spreadOf(t, SpreadQuestion{Samples: 480, Brief: true}, d)
	for share, got := range map[float64]chance.Interval{0.05: s.Boxes[0].Bears.Low, 0.5: s.Boxes[0].Bears.Middle, 0.95: s.Boxes[0].Bears.High} {
		of := gearbox.OneOf(&b, chance.Triangular, map[string]float64{"case-carburised": share}, make([]float64, len(b.Meshes)))
		r, err := gearbox.Solve(of, oneSpeed(nil))
		if err != nil {
			t.Fatal(err)
		}
		want := r.Speeds[0].First.Torque
		if got.From > want || got.To < want || (got.To-got.From)/want > 0.05 {
			t.Errorf("%g: %.0f (%.0f … %.0f), want %.0f", share, got.Value, got.From, got.To, want)
		}
	}
}

// A torque that is known within a ± against a box that bears exactly so much: the chance is that of the normal distribution.
func TestSpreadOfTheTorqueAsked(t *testing.T) {
	d := known(drawnFile(t, alder))
	r, err := gearbox.Solve(d.Box, oneSpeed(nil))
	if err != nil {
		t.Fatal(err)
	}
	bears := r.Speeds[0].First.Torque
	box := *d.Box
	box.Uncertainty = &gearbox.Uncertainty{Readings: chance.Normal, Steel: chance.Triangular, Flanks: chance.Normal}
	box.Clutch, box.Car = nil, nil
	d.Box = &box
	d.Readings = []Reading{{Path: "input.torque", Value: 0.95 * bears, Plus: 0.1 * bears, Words: "input.torque"}}
	d.Read = func(values []float64) (*gearbox.Box, error) {
		c := box
		c.Torque = values[0]
		return &c, nil
	}
	s := spreadOf(t, SpreadQuestion{Samples: 960, Brief: true}, d)
	want := 0.5 * math.Erfc(0.5*1.959963984540054/math.Sqrt2) // half of ± above the middle
	got := s.Boxes[0].Short
	if got.From > want || got.To < want || got.To-got.From > 0.08 {
		t.Errorf("chance %v, want %.4f", got, want)
	}
	if !s.Stated {
		t.Error("the file states how it spreads")
	}
}

// A box against itself under another name bears the same in every sample, as long as what both share is drawn once; with measures of their own they differ.
func TestCommonUnknownsAreDrawnOnce(t *testing.T) {
	a := drawnFile(t, alder)
	a.Readings = nil
	lead := func(d Drawn) Drawn {
		b := *d.Box
		b.Gears = slices.Clone(b.Gears)
		for i := range b.Gears {
			b.Gears[i].LeadKnown = true
		}
		d.Box = &b
		return d
	}
	s := spreadOf(t, SpreadQuestion{Samples: 64, Brief: true}, lead(a), lead(a))
	if r := s.Ratio[0]; r.Ratio.Least != 1 || r.Ratio.Most != 1 || r.Less.Value != 0 {
		t.Errorf("%+v", r)
	}
	if r := spreadOf(t, SpreadQuestion{Samples: 64, Brief: true}, a, a).Ratio[0]; r.Ratio.Least == r.Ratio.Most {
		t.Error("each box has flanks of its own making")
	}
}

// The sample of points that fill the space against ten times as many plain random draws, in the spread of two boxes of which much is unknown.
func TestSpreadAgainstPlainDraws(t *testing.T) {
	boxes := []Drawn{drawnFile(t, alder), drawnFile(t, birch)}
	q := SpreadQuestion{Samples: 64, Brief: true, Load: oneSpeed}
	s := spreadOf(t, q, boxes...)
	l, err := newLot(boxes)
	if err != nil {
		t.Fatal(err)
	}
	draws := 10 * q.Samples
	torques := [2][]float64{make([]float64, draws), make([]float64, draws)}
	seed := uint64(12345)
	points := make([][]float64, draws)
	for i := range points {
		points[i] = make([]float64, len(l.unknowns))
		for j := range points[i] {
			seed = seed*6364136223846793005 + 1442695040888963407 // Knuth's linear congruence, apart from what is tested
			points[i][j] = (float64(seed>>11) + 0.5) / (1 << 53)
		}
	}
	if err := abreast(context.Background(), draws, nil, func(i int) error {
		for b := range boxes {
			torques[b][i] = l.least(b, points[i], q)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	for b := range boxes {
		slices.Sort(torques[b])
		for share, got := range map[float64]chance.Interval{0.05: s.Boxes[b].Bears.Low, 0.5: s.Boxes[b].Bears.Middle, 0.95: s.Boxes[b].Bears.High} {
			// The plain draws are uncertain too: their ranks that hold the quantile in 99 of 100 cases.
			n := float64(draws)
			half := 2.576 * math.Sqrt(n*share*(1-share))
			from, to := torques[b][int(n*share-half)], torques[b][int(n*share+half)]
			if got.To < from || got.From > to {
				t.Errorf("%s, %g: %.0f (%.0f … %.0f), plain draws %.0f … %.0f", s.Boxes[b].Box.Name, share, got.Value, got.From, got.To, from, to)
			}
		}
	}
}

func TestSpreadIsTheSameOnAnyNumberOfWorkers(t *testing.T) {
	var all []*Spread
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, workers := range []int{1, 2, 8} {
		runtime.GOMAXPROCS(workers)
		s := spreadOf(t, SpreadQuestion{Samples: 32, Seed: 3}, drawnFile(t, birch))
		for i := range s.Boxes {
			s.Boxes[i].Box = nil
		}
		all = append(all, s)
	}
	for _, s := range all[1:] {
		if fmt.Sprint(s) != fmt.Sprint(all[0]) {
			t.Error("another spread on other numbers of workers")
		}
	}
}

// The unknown that alone moves the answer has all of the effect.
func TestRankingFindsTheOneThatMatters(t *testing.T) {
	d := drawnFile(t, alder)
	d.Readings = []Reading{
		{Path: "gears.final pinion.face", Value: d.Box.Gears[0].Face, Plus: 1, Words: "a"},
		{Path: "about", Value: 0, Plus: 1, Words: "b"},
	}
	box := known(d).Box
	d.Box = box
	at := slices.IndexFunc(box.Gears, func(g gearbox.Gear) bool { return g.Name == "final pinion" })
	d.Readings[0].Value = box.Gears[at].Face
	d.Read = func(values []float64) (*gearbox.Box, error) {
		c := *box
		c.Gears = slices.Clone(box.Gears)
		c.Gears[at].Face = values[0]
		return &c, nil
	}
	s := spreadOf(t, SpreadQuestion{Samples: 64, Rank: true, Brief: true}, d)
	if len(s.Ranking) != 2 || s.Ranking[0].Group != "measures of gear final pinion" || math.Abs(s.Ranking[0].Effect.Total-1) > 1e-9 || s.Ranking[1].Effect.Total != 0 {
		t.Errorf("%+v", s.Ranking)
	}
	if s.Ranking[0].Left > 0.2 || s.Ranking[1].Left < 0.9 {
		t.Errorf("%+v", s.Ranking)
	}
}

// What is unknown by the file is drawn among the boxes that it may be, and the least of the sample is that of the worst of them.
func TestSpreadOfAnUnknownSense(t *testing.T) {
	d := known(drawnFile(t, alder))
	b := *d.Box
	b.Unknown = map[string]bool{"input.turns": true}
	d.Box = &b
	s := spreadOf(t, SpreadQuestion{Samples: 64, Brief: true}, d)
	worst, err := gearbox.Solve(&b, oneSpeed(nil))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := s.Boxes[0].Bears.Least, worst.Speeds[0].First.Torque; math.Abs(got/want-1) > 1e-9 {
		t.Errorf("the worst sample bears %g, the box %g", got, want)
	}
	if s.Boxes[0].Bears.Most <= s.Boxes[0].Bears.Least {
		t.Error("one of the two senses bears more")
	}
}

// Stopped early, what there is so far is the answer.
func TestSpreadStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	q := SpreadQuestion{Samples: 4000, Brief: true, Rank: true, Load: oneSpeed}
	s, err := FindSpread(ctx, []Drawn{drawnFile(t, birch)}, q, func(done, _ int) {
		if done == 200 {
			stop()
		}
	})
	if err != nil || s.Samples < 160 || s.Samples > 320 || s.Wanted != 4000 || s.Ranking != nil {
		t.Errorf("%v, %+v", err, s)
	}
	if _, err := FindSpread(ctx, []Drawn{drawnFile(t, birch)}, q, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("%v; nothing can be said of no samples", err)
	}
}

func TestSteelsWithoutABandAreNotDrawn(t *testing.T) {
	d := known(drawnFile(t, alder))
	if s, _ := d.Box.Steel(gearbox.DefaultSteel); s.Fixed(func(b material.Band) float64 { return b.Typical }) != s {
		t.Error("a steel of one strength has no band")
	}
}

func BenchmarkSpread(b *testing.B) {
	d := drawnFile(b, alder)
	for b.Loop() {
		spreadOf(b, SpreadQuestion{Samples: 160, Brief: true, Load: func(*gearbox.Box) gearbox.Load { return gearbox.Load{} }}, d)
	}
}

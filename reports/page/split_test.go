package page

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// shared adds a difference shared out by hand to two boxes.
func shared(c *study.Comparison) *study.Comparison {
	c.Splits = []study.Split{{Box: 1, Causes: &study.CauseSplit{Mixed: 4, Causes: []study.SplitCause{
		{Groups: []study.Group{study.Span}}, {Groups: []study.Group{study.Faces, study.Teeth}, Why: "<b>they need each other</b>"}, {Groups: []study.Group{study.Steel}, Same: true},
	}, Speeds: []study.SpeedSplit{{Name: c.Speeds[0].Name, Items: []study.ItemSplit{
		{Name: "allowable torque", Key: "allowable_torque", Dimension: quantity.Torque, From: 200e3, To: 180e3, Shares: []float64{10e3, -30e3, 0}},
		{Name: "tilt <i>", Key: "tilt", Part: "first & last", Dimension: quantity.Slope, From: 1e-3, To: 2e-3, Shares: []float64{5e-4, 5e-4, 0}},
		{Name: "ratio", Key: "ratio", Dimension: quantity.Number, From: 3, To: 3, Shares: []float64{0, 0, 0}},
		{Name: "separation", Key: "separation", Dimension: quantity.Deflection, From: 1, To: math.NaN()},
	}}}}}}
	return c
}

// Each bar of a waterfall begins where the one above it ends, the first at the first box and the last at the other; what doesn't change isn't drawn.
func TestWaterfallsHangTogether(t *testing.T) {
	c := shared(pair(t, plainNames, birch()))
	s := newSet(c.Results, view.Options{})
	_, figures := s.falls(c)
	if len(figures) != 1 || len(figures[0].Falls) != 2 {
		t.Fatalf("%d figures; want one with two waterfalls: %+v", len(figures), figures)
	}
	read := func(text string) float64 {
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, w := range figures[0].Falls {
		at := read(w.Steps[0].Line)
		for _, step := range w.Steps[1 : len(w.Steps)-1] {
			from, x, width := read(step.Line), read(step.X), read(step.W)
			if math.Abs(from-at) > 0.11 {
				t.Errorf("%s, %s begins at %g, the row above ends at %g", w.Title, step.Name, from, at)
			}
			if at = x + width; step.Side == "less" {
				at = x
			}
		}
		if last := w.Steps[len(w.Steps)-1]; math.Abs(read(last.Line)-at) > 0.11 {
			t.Errorf("%s ends at %g, the last bar at %s", w.Title, at, last.Line)
		}
	}
	torque := figures[0].Falls[0].Steps
	for i, want := range []string{"200", "+10", "−30", "180"} {
		if torque[i].Value != want {
			t.Errorf("row %d of the torque says %q, want %q", i, torque[i].Value, want)
		}
	}
}

func TestSplitIsShownHarmless(t *testing.T) {
	var b bytes.Buffer
	c := shared(pair(t, plainNames, birch()))
	c.Results[1].Box.Name = "<script>words</script>"
	if err := Compare(&b, c, testOptions); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, want := range []string{"What makes the difference", "tilt &lt;i&gt;", "first &amp; last", "&lt;b&gt;they need each other", "&lt;script&gt;words"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	c.Splits = []study.Split{{Box: 1, Why: "no <speed> in common"}}
	b.Reset()
	if err := Compare(&b, c, testOptions); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "no &lt;speed&gt; in common") {
		t.Error("the page doesn't say why nothing is shared out")
	}
}

// Drawings of one quantity have one scale: half the share is half as long a bar, in whichever speed.
func TestWaterfallsOfOneQuantityHaveOneScale(t *testing.T) {
	c := shared(pair(t, plainNames, birch()))
	causes := c.Splits[0].Causes
	causes.Speeds = append(causes.Speeds, study.SpeedSplit{Name: "another", Items: []study.ItemSplit{
		{Name: "allowable torque", Key: "allowable_torque", Dimension: quantity.Torque, From: 100e3, To: 95e3, Shares: []float64{10e3, -15e3, 0}},
	}})
	s := newSet(c.Results, view.Options{})
	_, figures := s.falls(c)
	width := func(figure, step int) float64 {
		v, err := strconv.ParseFloat(figures[figure].Falls[0].Steps[step].W, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	// +10 and −30 N·m in the one speed, which fill the drawing; +10 and −15 in the other
	if a, b := width(0, 1), width(1, 1); math.Abs(a-b) > 0.11 {
		t.Errorf("+10 N·m is %g wide in one speed and %g in the other", a, b)
	}
	if a, b := width(0, 2), width(1, 2); math.Abs(a-184) > 0.11 || math.Abs(a-2*b) > 0.3 {
		t.Errorf("−30 N·m is %g wide and −15 N·m %g", a, b)
	}
}

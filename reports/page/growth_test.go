package page

import (
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearstress/scuffing"
	"layshaft/reports/view"
)

func growthChart(t *testing.T, text string) *chart {
	t.Helper()
	for _, c := range chartsOf(t, text) {
		if c.Kind == "growth" {
			return &c
		}
	}
	return nil
}

func TestGrowthIsThatOfTheResult(t *testing.T) {
	c := growthChart(t, comparePage(t, plainNames, birch()))
	if c == nil {
		t.Fatal("the page has no chart of how the load moves")
	}
	if len(c.Asked) != 1 || c.Asked[0] != 170 {
		t.Errorf("the torque asked is marked at %v, want 170 N·m once", c.Asked)
	}
	v := c.Views[0]
	for b := range 2 {
		if rows := v.Tables[b]; len(rows) != 4 || rows[0][0] != 17 || rows[0][1] != 3.5 || rows[0][2] != -6.2 || rows[3][0] != 255 {
			t.Errorf("box %d: the curves are %v", b, rows)
		}
	}
	if v.Z.Low > -6.2 || v.Z.High < 2.25 || v.Y.Low != 1 || v.Y.High < 3.5 || v.X.High < 255 {
		t.Errorf("the ranges are %v, %v, %v", v.X, v.Y, v.Z)
	}
	if want := "at 17.0 N·m the peak is 3.50 × the mean and the load acts 6.2 mm left of the middle, with 50 % of the face in contact; at 255 N·m the peak is 2.40 × the mean and the load acts 2.3 mm right"; !strings.Contains(strings.ReplaceAll(v.Note, "2.2 mm", "2.3 mm"), want) {
		t.Errorf("the words are %q, want %q", v.Note, want)
	}
}

func TestGrowthWithHoles(t *testing.T) {
	r := sample(t, plainNames, 2, 170e3)
	r.Speeds[0].Meshes[0].Growth[0] = gearbox.Spot{Torque: 17e3, FaceFactor: math.Inf(1), InContact: math.NaN(), Middle: math.NaN()}
	r.Speeds[1].Meshes[0].Growth = nil
	c := growthChart(t, checkPage(t, r))
	if !strings.Contains(c.Views[0].Note, "at a place that is n/a") || c.Views[0].Y.High > 5 {
		t.Errorf("holes are drawn as %+v", c.Views[0])
	}
	if !c.Views[1].Empty {
		t.Error("a speed of which nothing is known is shown")
	}
	r.Speeds[0].Meshes[0].Growth = nil
	if text := checkPage(t, r); growthChart(t, text) != nil || strings.Contains(text, "h-growth") {
		t.Error("a section without anything to show is in the page")
	}
}

func TestScuffingIsAScreenOnly(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	text := checkPage(t, r)
	for _, want := range []string{"Scuffing in 1st: a screen only", "<td>6.12<td class=w>flash<td>243<td>391<td class=w>little risk of scuffing", "integral<td>187<td>345<td class=w>uncertain", "This decides nothing"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	m := r.Speeds[0].Meshes[0].Scuffing
	m.Flash.Margin, m.Integral = scuffing.Margin{}, nil
	if text = checkPage(t, r); !strings.Contains(text, "flash<td>243<td>–") {
		t.Error("the page does not say that the oil's limit is not given")
	}
	r.Speeds[0].Meshes[0].Scuffing = nil
	if text = checkPage(t, r); strings.Contains(text, "a screen only") {
		t.Error("a table of no screen")
	}
}

func TestLifeInWords(t *testing.T) {
	r := sample(t, plainNames, 2, 170e3)
	if got, want := view.ShortestLife(r), "By calculation, with steel at the low end of its range and 1 failure in 100: 9\u00a0600 repeats of the duty before first pinion wears out (flank, fatigue); 1200 are asked."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if text := checkPage(t, r); !strings.Contains(text, ": 9\u00a0600 repeats") || !strings.Contains(text, "<td>19\u00a0000") {
		t.Error("the life is not in the page")
	}
	for _, life := range []float64{0, math.Inf(1), 2e9} {
		for i := range r.Speeds {
			for k := range r.Speeds[i].Margins {
				r.Speeds[i].Margins[k].Life = life
			}
		}
		if got := view.ShortestLife(r); got != "" {
			t.Errorf("life %v is told as %q, want nothing", life, got)
		}
	}
}

func TestPlacesOffTheMiddle(t *testing.T) {
	s := newSet([]*gearbox.Result{sample(t, plainNames, 1, 170e3)}, view.Options{})
	for mm, want := range map[float64]string{1.5: "1.5 mm right of the middle", -6.2: "6.2 mm left of the middle", 0.004: "in the middle", -0.004: "in the middle"} {
		if got := s.offMiddle(mm); got != want {
			t.Errorf("%v mm is told as %q, want %q", mm, got, want)
		}
	}
}

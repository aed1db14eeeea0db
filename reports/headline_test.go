package reports_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports"
)

// only is a box with one limit in one speed; torques in N·m.
func only(name string, torque, low, high float64) *gearbox.Result {
	m := margin(gearbox.RootFatigue, "pinion", 500, yield, math.Abs(torque), low, (low+high)/2, high)
	return ended(&gearbox.Result{
		Box: &gearbox.Box{Name: name, Duty: &gearbox.Duty{Passes: 1}}, Torque: torque * 1000,
		Speeds: []gearbox.SpeedResult{{Name: "3rd", Margins: []gearbox.Margin{m}}},
	})
}

func judgedBy(l material.Level, r *gearbox.Result) *gearbox.Result {
	for i := range r.Speeds {
		for k := range r.Speeds[i].Margins {
			m := &r.Speeds[i].Margins[k]
			m.Level = l
			m.Margin, m.State = m.MarginAt(math.Abs(r.Torque)), gearbox.Clear
			if m.Margin < 0 {
				m.State = gearbox.Over
			}
		}
	}
	return r
}

func endless(r *gearbox.Result) *gearbox.Result {
	r.Box.Duty = nil
	return r
}

func broke(r *gearbox.Result, history ...gearbox.Evidence) *gearbox.Result {
	r.Box.Evidence = history
	return r
}

// A box that is asked for no less than broke it says so before all else, whatever its limits say, and is never clear.
func TestHeadlineOfABoxThatBroke(t *testing.T) {
	third := gearbox.Evidence{Torque: 150e3, Broke: true, Speed: "3rd", Gear: "pinion", By: gearbox.BrokenRoot, Passes: 12}
	const says = "At 170 N·m, Alder is asked for no less than broke it: it broke at 150 N·m after 12 passes in 3rd: pinion, tooth root. "
	const judged = " Judged by the low end of each range of limits and strengths. "
	for _, c := range []struct {
		name    string
		results []*gearbox.Result
		want    string
		worst   gearbox.State
	}{
		{"one box", []*gearbox.Result{broke(only("Alder", 170, 201, 260), third)},
			says + "By calculation alone it is limited at 201 N·m (3rd: tooth root fatigue of pinion)." + judged + "If everything sits at the high end it runs out at 260 N·m.", gearbox.Over},
		{"above the asked torque", []*gearbox.Result{broke(only("Alder", 149, 201, 260), third)},
			"At 149 N·m, Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion)." + judged + "If everything sits at the high end it runs out at 260 N·m.", gearbox.Clear},
		{"coast", []*gearbox.Result{broke(only("Alder", -170, 201, 260), third)},
			"At 170 N·m of coast (engine braking), Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion)." + judged +
				"If everything sits at the high end it runs out at 260 N·m.", gearbox.Clear},
		{"beside another", []*gearbox.Result{broke(only("Alder", 170, 201, 260), third), only("Birch", 170, 202, 260)},
			says + "At 170 N·m, Alder runs out first, at 201 N·m (3rd: tooth root fatigue of pinion); Birch at 202 N·m (3rd: tooth root fatigue of pinion). " +
				"Alder has broken at no more than that; Birch stays inside every limit with the wanted reserve." + judged + "If everything sits at the high end Alder runs out at 260 N·m and Birch at 260 N·m.", gearbox.Over},
	} {
		if got := reports.Headline(c.results, reports.Options{}); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
		if got := reports.ExitWorst(c.results); got != c.worst {
			t.Errorf("%s: worst state %v, want %v", c.name, got, c.worst)
		}
	}
}

func TestHeadline(t *testing.T) {
	inf := math.Inf(1)
	bare := &gearbox.Result{Box: &gearbox.Box{Name: "Bare"}, Torque: 170000, Speeds: []gearbox.SpeedResult{{Name: "1st"}}}
	for _, c := range []struct {
		name    string
		results []*gearbox.Result
		units   quantity.System
		want    string
	}{
		{"clear", []*gearbox.Result{only("Alder", 170, 201, 260)}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end it runs out at 260 N·m."},
		{"thin", []*gearbox.Result{only("Alder", 170, 182, 260)}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit, but by less than the wanted reserve; it runs out first at 182 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end it runs out at 260 N·m."},
		{"over", []*gearbox.Result{only("Alder", 170, 140, 180)}, quantity.Metric,
			"At 170 N·m, Alder is over its limits: it runs out at 140 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end it runs out at 180 N·m."},
		// 169.9 N·m rounds to the asked 170 N·m: more digits, or the sentence makes no sense.
		{"over by a hair", []*gearbox.Result{only("Alder", 170, 169.9, 180)}, quantity.Metric,
			"At 170 N·m, Alder is over its limits: it runs out at 169.9 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end it runs out at 180 N·m."},
		// 1 lbf·ft = 1.3558179483314004 N·m exactly (1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m): 170 N·m = 125.385…, 201 N·m = 148.249….
		{"US", []*gearbox.Result{only("Alder", 170, 201, 260)}, quantity.US,
			"At 125 lbf·ft, Alder stays inside every limit; it runs out first at 148 lbf·ft (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end it runs out at 192 lbf·ft."},
		{"coast", []*gearbox.Result{only("Alder", -60, 201, 260)}, quantity.Metric,
			"At 60.0 N·m of coast (engine braking), Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end it runs out at 260 N·m."},
		{"no limit in sight", []*gearbox.Result{only("Alder", 170, inf, inf)}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit, and no limit is in sight at any torque. " +
				"Judged by the low end of each range of limits and strengths."},
		{"nothing checked", []*gearbox.Result{bare}, quantity.Metric, "At 170 N·m, Bare has no limit that could be checked."},
		{"judged by the high end", []*gearbox.Result{judgedBy(material.High, only("Alder", 170, 140, 201))}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion). Judged by the high end of each range of limits and strengths. If everything sits at the low end it runs out at 140 N·m, below what was asked."},
		{"two, the weaker first", []*gearbox.Result{only("Alder", 170, 201, 260), only("Birch", 170, 182, 240)}, quantity.Metric,
			"At 170 N·m, Birch runs out first, at 182 N·m (3rd: tooth root fatigue of pinion); Alder at 201 N·m (3rd: tooth root fatigue of pinion). " +
				"Birch stays inside by less than the wanted reserve; Alder stays inside every limit with the wanted reserve. " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end Birch runs out at 240 N·m and Alder at 260 N·m."},
		{"three, one over, one of them bare", []*gearbox.Result{bare, only("Alder", 170, 140, 260), only("Birch", 170, 130, 240)}, quantity.Metric,
			"At 170 N·m, Birch runs out first, at 130 N·m (3rd: tooth root fatigue of pinion); Alder at 140 N·m (3rd: tooth root fatigue of pinion); " +
				"Bare has no limit that could be checked. Birch and Alder are over their limits. " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end Birch runs out at 240 N·m and Alder at 260 N·m."},
		{"different torques", []*gearbox.Result{only("Alder", 170, 201, 260), only("Birch", 100, 182, 240)}, quantity.Metric,
			"Alder (asked for 170 N·m) has the least margin and runs out at 201 N·m (3rd: tooth root fatigue of pinion); " +
				"Birch (asked for 100 N·m) runs out at 182 N·m (3rd: tooth root fatigue of pinion). " +
				"Alder and Birch stay inside every limit with the wanted reserve. " +
				"Judged by the low end of each range of limits and strengths. If everything sits at the high end Alder runs out at 260 N·m and Birch at 240 N·m."},
		{"both ends, the bad one first", []*gearbox.Result{judgedBy(material.Typical, only("Alder", 170, 140, 240))}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit; it runs out first at 190 N·m (3rd: tooth root fatigue of pinion). Judged by the typical value of each range of limits and strengths. " +
				"If everything sits at the low end it runs out at 140 N·m, below what was asked; at the high end at 240 N·m."},
		{"no end at the high end", []*gearbox.Result{judgedBy(material.Low, only("Alder", 170, 201, inf))}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion). Judged by the low end of each range of limits and strengths. " +
				"If everything sits at the high end no limit is in sight."},
		{"fatigue without a duty", []*gearbox.Result{endless(only("Alder", 170, 201, 201))}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion). Judged by the low end of each range of limits and strengths. " +
				"Fatigue decides, and it is judged for endless life, because no duty is told."},
		{"no results", nil, quantity.Metric, "Nothing was calculated."},
	} {
		if got := reports.Headline(c.results, reports.Options{Units: c.units}); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// At each end another limit may be the first: the sentence takes the least of the column that the table shows, not the end of the limit in front.
func TestHeadlineEndsAreTheLeastOfTheColumn(t *testing.T) {
	r := judgedBy(material.Typical, only("Alder", 170, 201, 400))
	r.Speeds[0].Margins = append(r.Speeds[0].Margins, margin(gearbox.MeshTilt, "mesh first", 0.001, flat(0.002, "file"), 170, 340, 340, 340))
	r.Speeds = append(r.Speeds, judgedBy(material.Typical, only("", 170, 188, 700)).Speeds[0])
	r.Speeds[1].Name = "4th"
	ended(r)
	o := reports.Options{}
	got := reports.Headline([]*gearbox.Result{r}, o)
	if !strings.HasSuffix(got, "at the low end it runs out at 188 N·m; at the high end at 340 N·m.") {
		t.Error(got)
	}
	var b bytes.Buffer
	if err := reports.Check(&b, []*gearbox.Result{r}, o); err != nil {
		t.Fatal(err)
	}
	for _, column := range []string{"201 … 340", "188 … 700"} {
		if !strings.Contains(b.String(), column) {
			t.Errorf("%q is nowhere in\n%s", column, b.String())
		}
	}
}

// A state that only holds because not everything is weak carries a mark, and the mark is explained.
func TestDoubtfulStatesAreMarked(t *testing.T) {
	for _, c := range []struct {
		name string
		low  float64
		want bool
	}{{"low end below what is asked", 169, true}, {"low end above", 171, false}} {
		r := judgedBy(material.Typical, only("Alder", 170, c.low, 400))
		var b bytes.Buffer
		if err := reports.Check(&b, []*gearbox.Result{r}, reports.Options{}); err != nil {
			t.Fatal(err)
		}
		if got := strings.Count(b.String(), "▾"); got != map[bool]int{true: 2}[c.want] {
			t.Errorf("%s: %d marks in\n%s", c.name, got, b.String())
		}
	}
}

func TestExitWorst(t *testing.T) {
	for _, c := range []struct {
		name    string
		results []*gearbox.Result
		want    gearbox.State
	}{
		{"nothing", nil, gearbox.Clear},
		{"clear", []*gearbox.Result{only("A", 100, 150, 150)}, gearbox.Clear},
		{"thin", []*gearbox.Result{only("A", 100, 150, 150), only("B", 100, 105, 150)}, gearbox.Thin},
		{"over in one of three", []*gearbox.Result{only("A", 100, 150, 150), only("B", 100, 99, 150), only("C", 100, 150, 150)}, gearbox.Over},
	} {
		if got := reports.ExitWorst(c.results); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

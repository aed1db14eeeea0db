package reports_test

import (
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
	return &gearbox.Result{
		Box: &gearbox.Box{Name: name}, Torque: torque * 1000,
		Speeds: []gearbox.SpeedResult{{Name: "3rd", Margins: []gearbox.Margin{m}}},
	}
}

func judgedBy(l material.Level, r *gearbox.Result) *gearbox.Result {
	for i := range r.Speeds {
		for k := range r.Speeds[i].Margins {
			m := &r.Speeds[i].Margins[k]
			m.Level = l
			m.Margin = m.MarginAt(math.Abs(r.Torque))
		}
	}
	return r
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
				"Judged by the low end of each steel band; with the high end: 260 N·m."},
		{"thin", []*gearbox.Result{only("Alder", 170, 182, 260)}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit, but by less than the wanted reserve; it runs out first at 182 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each steel band; with the high end: 260 N·m."},
		{"over", []*gearbox.Result{only("Alder", 170, 140, 180)}, quantity.Metric,
			"At 170 N·m, Alder is over its limits: it runs out at 140 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each steel band; with the high end: 180 N·m."},
		// 169.9 N·m rounds to the asked 170 N·m: more digits, or the sentence makes no sense.
		{"over by a hair", []*gearbox.Result{only("Alder", 170, 169.9, 180)}, quantity.Metric,
			"At 170 N·m, Alder is over its limits: it runs out at 169.9 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each steel band; with the high end: 180 N·m."},
		// 1 lbf·ft = 1.3558179483314004 N·m exactly (1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m): 170 N·m = 125.385…, 201 N·m = 148.249….
		{"US", []*gearbox.Result{only("Alder", 170, 201, 260)}, quantity.US,
			"At 125 lbf·ft, Alder stays inside every limit; it runs out first at 148 lbf·ft (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each steel band; with the high end: 192 lbf·ft."},
		{"coast", []*gearbox.Result{only("Alder", -60, 201, 260)}, quantity.Metric,
			"At 60.0 N·m of coast (engine braking), Alder stays inside every limit; it runs out first at 201 N·m (3rd: tooth root fatigue of pinion). " +
				"Judged by the low end of each steel band; with the high end: 260 N·m."},
		{"no limit in sight", []*gearbox.Result{only("Alder", 170, inf, inf)}, quantity.Metric,
			"At 170 N·m, Alder stays inside every limit, and no limit is in sight at any torque. " +
				"Judged by the low end of each steel band; with the high end: no limit in sight."},
		{"nothing checked", []*gearbox.Result{bare}, quantity.Metric, "At 170 N·m, Bare has no limit that could be checked."},
		{"judged by the high end", []*gearbox.Result{judgedBy(material.High, only("Alder", 170, 140, 201))}, quantity.Metric,
			"At 170 N·m, Alder is over its limits: it runs out at 201 N·m (3rd: tooth root fatigue of pinion). Judged by the high end of each steel band."},
		{"two, the weaker first", []*gearbox.Result{only("Alder", 170, 201, 260), only("Birch", 170, 182, 240)}, quantity.Metric,
			"At 170 N·m, Birch runs out first, at 182 N·m (3rd: tooth root fatigue of pinion); Alder at 201 N·m (3rd: tooth root fatigue of pinion). " +
				"Birch stays inside by less than the wanted reserve; Alder stays inside every limit with the wanted reserve. " +
				"Judged by the low end of each steel band; with the high end: Birch 240 N·m, Alder 260 N·m."},
		{"three, one over, one of them bare", []*gearbox.Result{bare, only("Alder", 170, 140, 260), only("Birch", 170, 130, 240)}, quantity.Metric,
			"At 170 N·m, Birch runs out first, at 130 N·m (3rd: tooth root fatigue of pinion); Alder at 140 N·m (3rd: tooth root fatigue of pinion); " +
				"Bare has no limit that could be checked. Birch and Alder are over their limits. " +
				"Judged by the low end of each steel band; with the high end: Birch 240 N·m, Alder 260 N·m."},
		{"different torques", []*gearbox.Result{only("Alder", 170, 201, 260), only("Birch", 100, 182, 240)}, quantity.Metric,
			"Alder (asked for 170 N·m) has the least margin and runs out at 201 N·m (3rd: tooth root fatigue of pinion); " +
				"Birch (asked for 100 N·m) runs out at 182 N·m (3rd: tooth root fatigue of pinion). " +
				"Alder and Birch stay inside every limit with the wanted reserve. " +
				"Judged by the low end of each steel band; with the high end: Alder 260 N·m, Birch 240 N·m."},
		{"no results", nil, quantity.Metric, "Nothing was calculated."},
	} {
		if got := reports.Headline(c.results, reports.Options{Units: c.units}); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The high end may run out elsewhere than the low end: the sentence takes the smallest of all limits, not that of the first limit.
func TestHeadlineHighEndIsTheSmallestOfAllLimits(t *testing.T) {
	r := only("Alder", 170, 201, 400)
	r.Speeds[0].Margins = append(r.Speeds[0].Margins, margin(gearbox.MeshTilt, "mesh first", 0.001, flat(0.002, "file"), 170, 340, 340, 340))
	if got := reports.Headline([]*gearbox.Result{r}, reports.Options{}); !strings.HasSuffix(got, "with the high end: 340 N·m.") {
		t.Error(got)
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

package reports_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports/text"
	"layshaft/reports/view"
)

// only is a box with one limit in one speed; torques in N·m.
func only(name string, torque, low, high float64) *gearbox.Result {
	m := margin(gearbox.RootFatigue, "pinion", 500, yield, math.Abs(torque), low, (low+high)/2, high)
	return ended(&gearbox.Result{
		Box: &gearbox.Box{Name: name, Duty: &gearbox.Duty{Passes: 1}, Limits: gearbox.Limits{Strength: material.Low, Reserve: 0.1}}, Torque: torque * 1000,
		Speeds: []gearbox.SpeedResult{{Name: "3rd", Margins: []gearbox.Margin{m}}},
	})
}

func judgedBy(l material.Level, r *gearbox.Result) *gearbox.Result {
	r.Box.Limits.Strength = l
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

// endless is a box of which no duty is given: what wears doesn't decide, and a peak does.
func endless(r *gearbox.Result) *gearbox.Result {
	r.Box.Duty = nil
	s := &r.Speeds[0]
	s.Endless = slices.Clone(s.Margins)
	s.Margins[0].Kind = gearbox.RootPeak
	for level := range s.Margins[0].Allowable {
		s.Margins[0].Allowable[level] *= 2
	}
	s.Margins[0].Margin, s.Margins[0].State = s.Margins[0].MarginAt(math.Abs(r.Torque)), gearbox.Clear
	return ended(r)
}

func broke(r *gearbox.Result, history ...gearbox.Evidence) *gearbox.Result {
	r.Box.Evidence = history
	return r
}

// A box that is asked for no less than broke it says so before all else, whatever its limits say, and is never clear.
func TestHeadlineOfABoxThatBroke(t *testing.T) {
	third := gearbox.Evidence{Torque: 150e3, Broke: true, Speed: "3rd", Gear: "pinion", By: gearbox.BrokenRoot, Passes: 12}
	const says = "No: at 170 N·m, Alder is asked for no less than broke it: it broke at 150 N·m after 12 passes in 3rd: pinion, tooth root. "
	const bears = " Alder bears 201 N·m at the input with the poorest steel that the file allows, limited by tooth root fatigue of pinion in 3rd; 231 N·m with typical steel; 261 N·m with the best steel."
	for _, c := range []struct {
		name    string
		results []*gearbox.Result
		want    string
		worst   gearbox.State
	}{
		{"one box", []*gearbox.Result{broke(only("Alder", 170, 201, 261), third)}, says + "By calculation alone it would be clear: 18.2 % left." + bears, gearbox.Over}, // 201/170 − 1
		{"above the asked torque", []*gearbox.Result{broke(only("Alder", 149, 201, 261), third)},
			"Yes: at 149 N·m, Alder stays inside every limit, with 34.9 % left where 10 % is wanted." + bears, gearbox.Clear}, // 201/149 − 1
		{"coast", []*gearbox.Result{broke(only("Alder", -170, 201, 261), third)},
			"Yes: at 170 N·m of coast (engine braking), Alder stays inside every limit, with 18.2 % left where 10 % is wanted." + bears, gearbox.Clear},
		{"beside another", []*gearbox.Result{broke(only("Alder", 170, 201, 261), third), only("Birch", 170, 200, 200)},
			says + "By calculation alone it would be clear: 18.2 % left." + bears +
				" Yes: at 170 N·m, Birch stays inside every limit, with 17.6 % left where 10 % is wanted. Birch bears 200 N·m at the input, limited by tooth root fatigue of pinion in 3rd.", gearbox.Over},
	} {
		if got := view.SameBlank(view.Headline(c.results, view.Options{})); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
		if got := view.Worst(c.results); got != c.worst {
			t.Errorf("%s: worst state %v, want %v", c.name, got, c.worst)
		}
	}
}

// The headline says yes, just or no, what is left, and what the box bears with which steel. Percentages are allowable over asked torque, less one.
func TestHeadline(t *testing.T) {
	inf := math.Inf(1)
	bare := &gearbox.Result{Box: &gearbox.Box{Name: "Bare"}, Torque: 170000, Speeds: []gearbox.SpeedResult{{Name: "1st"}}}
	const limit = "limited by tooth root fatigue of pinion in 3rd"
	const poorest = " N·m at the input with the poorest steel that the file allows, " + limit
	for _, c := range []struct {
		name    string
		results []*gearbox.Result
		units   quantity.System
		want    string
	}{
		{"clear", []*gearbox.Result{only("Alder", 170, 201, 261)}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit, with 18.2 % left where 10 % is wanted. Alder bears 201" + poorest + "; 231 N·m with typical steel; 261 N·m with the best steel."},
		{"thin", []*gearbox.Result{only("Alder", 170, 182, 262)}, quantity.Metric,
			"Just: at 170 N·m, Alder stays inside every limit, but with 7.06 % left where 10 % is wanted. Alder bears 182" + poorest + "; 222 N·m with typical steel; 262 N·m with the best steel."},
		{"over", []*gearbox.Result{only("Alder", 170, 140, 180)}, quantity.Metric,
			"No: at 170 N·m, Alder is over its limits: it bears 17.6 % less. Alder bears 140" + poorest + "; 160 N·m with typical steel; 180 N·m with the best steel."},
		// 169.9 N·m rounds to the asked 170 N·m: more digits, or the sentence makes no sense.
		{"over by a hair", []*gearbox.Result{only("Alder", 170, 169.9, 169.9)}, quantity.Metric,
			"No: at 170 N·m, Alder is over its limits: it bears 0.0588 % less. Alder bears 169.9 N·m at the input, " + limit + "."},
		// 1 lbf·ft = 1.3558179483314004 N·m exactly (1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m): 170 N·m = 125.385…, 201 N·m = 148.249….
		{"US", []*gearbox.Result{only("Alder", 170, 201, 201)}, quantity.US,
			"Yes: at 125 lbf·ft, Alder stays inside every limit, with 18.2 % left where 10 % is wanted. Alder bears 148 lbf·ft at the input, " + limit + "."},
		{"coast", []*gearbox.Result{only("Alder", -60, 201, 201)}, quantity.Metric,
			"Yes: at 60.0 N·m of coast (engine braking), Alder stays inside every limit, with 235 % left where 10 % is wanted. Alder bears 201 N·m at the input, " + limit + "."},
		{"no limit is reached", []*gearbox.Result{only("Alder", 170, inf, inf)}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit; none is reached at any torque."},
		{"nothing checked", []*gearbox.Result{bare}, quantity.Metric, "At 170 N·m, Bare has no limit that could be checked."},
		{"judged by the high end", []*gearbox.Result{judgedBy(material.High, only("Alder", 170, 140, 202))}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit, with 18.8 % left where 10 % is wanted. Alder bears 202 N·m at the input with the best steel, " + limit +
				"; 140 N·m with the poorest steel that the file allows; 171 N·m with typical steel."},
		{"two", []*gearbox.Result{only("Alder", 170, 201, 201), only("Birch", 100, 182, 182)}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit, with 18.2 % left where 10 % is wanted. Alder bears 201 N·m at the input, " + limit +
				". Yes: at 100 N·m, Birch stays inside every limit, with 82.0 % left where 10 % is wanted. Birch bears 182 N·m at the input, " + limit + "."},
		{"one of them bare", []*gearbox.Result{bare, only("Alder", 170, 140, 140)}, quantity.Metric,
			"At 170 N·m, Bare has no limit that could be checked. No: at 170 N·m, Alder is over its limits: it bears 17.6 % less. Alder bears 140 N·m at the input, " + limit + "."},
		{"no end at the high end", []*gearbox.Result{judgedBy(material.Low, only("Alder", 170, 201, inf))}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit, with 18.2 % left where 10 % is wanted. Alder bears 201" + poorest + "; with typical and with the best steel no limit is reached."},
		{"a limit at the low end alone", []*gearbox.Result{judgedBy(material.High, only("Alder", 170, 201, inf))}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit; none is reached at any torque. With the poorest steel that the file allows Alder bears 201 N·m at the input, " + limit + "; with the best steel no limit is reached."},
		{"fatigue without a duty", []*gearbox.Result{endless(only("Alder", 170, 101, 101))}, quantity.Metric,
			"Yes: at 170 N·m, Alder stays inside every limit, with 18.8 % left where 10 % is wanted. Alder bears 202 N·m at the input, limited by peak at tooth root of pinion in 3rd."},
		{"no results", nil, quantity.Metric, "Nothing was calculated."},
	} {
		if got := view.SameBlank(view.Headline(c.results, view.Options{Units: c.units})); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// At each end another limit may be the first: the sentence takes the least of the column that the table shows, not the end of the limit in front, and names it.
func TestHeadlineEndsAreTheLeastOfTheColumn(t *testing.T) {
	r := judgedBy(material.Typical, only("Alder", 170, 201, 401))
	r.Speeds[0].Margins = append(r.Speeds[0].Margins, margin(gearbox.ShaftYield, "input shaft, section 2", 400, flat(800, "file"), 170, 340, 340, 340))
	r.Speeds = append(r.Speeds, judgedBy(material.Typical, only("", 170, 188, 700)).Speeds[0])
	r.Speeds[1].Name = "4th"
	ended(r)
	o := text.Options{}
	got := view.SameBlank(view.Headline([]*gearbox.Result{r}, o.Options))
	want := "Alder bears 301 N·m at the input with typical steel, limited by tooth root fatigue of pinion in 3rd; 188 N·m with the poorest steel that the file allows, by tooth root fatigue of pinion in 4th; " +
		"340 N·m with the best steel, by yield of input shaft, section 2 in 3rd."
	if !strings.HasSuffix(got, want) {
		t.Error(got)
	}
	var b bytes.Buffer
	if err := text.Check(&b, []*gearbox.Result{r}, o); err != nil {
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
		if err := text.Check(&b, []*gearbox.Result{r}, text.Options{}); err != nil {
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
		if got := view.Worst(c.results); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

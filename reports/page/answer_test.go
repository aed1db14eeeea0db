package page

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// headroomSample is a headroom with invented numbers, with two changes.
func headroomSample(t testing.TB, n names) *study.Headroom {
	r := sample(t, n, 2, 170e3)
	h := &study.Headroom{Result: r, Before: 130e3, Added: 40e3}
	for i := range r.Speeds {
		s := &r.Speeds[i]
		res := study.Reserve{Speed: s.Name, FaceFactor: 1.3}
		for k := range s.Margins {
			if m := &s.Margins[k]; k < 3 {
				res.Limits = append(res.Limits, gearbox.FirstLimit{Kind: m.Kind, Item: m.Item, Torque: m.Allowable[m.Level]})
			}
		}
		res.Left, res.State, res.Holding = s.Margins[0].Margin, s.Margins[0].State, res.Allowable()/1.1
		h.Speeds = append(h.Speeds, res)
	}
	h.Variants = []study.Variant{{Changes: []string{n.box + "=24 mm", "b=2"}, Result: r, Speeds: h.Speeds}, {Changes: []string{n.box + "=24 mm"}, Result: r, Speeds: h.Speeds}, {Changes: []string{"b=2"}, Result: r, Speeds: h.Speeds[:1]}}
	return h
}

// sweepSample is a sweep of one number, or of two, with a gap. Its numbers are invented.
func sweepSample(n names, axes int) *study.Sweep {
	a := study.Axis{Key: "gears." + n.first + ".at", Dimension: quantity.Length, Values: []float64{180, 200, 220, 240}, Now: 212}
	z := study.Axis{Key: "gears." + n.mesh + ".teeth", Whole: true, Values: []float64{13, 14}, Now: math.NaN()}
	s := &study.Sweep{Box: &gearbox.Box{Name: n.box}, Axes: []study.Axis{a, z}[:axes], Speeds: []string{n.first, "2nd"}, Target: &study.Target{Torque: 210e3}, Met: []study.Met{{At: 211.2, Within: 1e-5, Other: 13, Rising: true}}}
	for i, x := range a.Values {
		for j := range axes { // two values of the second number, or none
			p := study.Point{Values: []float64{x, 13 + float64(j)}[:axes], Asked: 170e3}
			if i == 3 {
				p.Gap, p.Worst = n.note, -1
			} else {
				t := float64(180+20*i+5*j) * 1e3
				p.Speeds = []study.SpeedPoint{{First: gearbox.FirstLimit{Kind: gearbox.MeshTilt, Item: n.mesh, Torque: t}, Margin: t/170e3 - 1}, {First: gearbox.FirstLimit{Torque: math.Inf(1)}, Margin: math.Inf(1)}}
			}
			s.Points = append(s.Points, p)
		}
	}
	return s
}

func answerPage(t testing.TB, write func(b *bytes.Buffer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func answerPages(t testing.TB, n names) map[string]string {
	return map[string]string{
		"headroom": answerPage(t, func(b *bytes.Buffer) error {
			return Headroom(b, []*study.Headroom{headroomSample(t, n), headroomSample(t, birch())}, testOptions)
		}),
		"line": answerPage(t, func(b *bytes.Buffer) error { return Sweep(b, sweepSample(n, 1), testOptions) }),
		"map":  answerPage(t, func(b *bytes.Buffer) error { return Sweep(b, sweepSample(n, 2), testOptions) }),
	}
}

// The lines of a limit chart cross zero at the torques of the limits, and the torques asked are marked.
func TestLimitChart(t *testing.T) {
	h := headroomSample(t, plainNames)
	s := newSet([]*gearbox.Result{h.Result}, view.Options{})
	charts, f := s.limitChart(h, 0, "x")
	if len(charts) != 1 {
		t.Fatal(f.Note)
	}
	c := charts[0]
	data := c.Option["dataset"].(map[string]any)["source"].(table)
	for _, row := range data {
		for k, l := range h.Speeds[0].Limits {
			if want := 100 * (l.Torque/1e3/row[0] - 1); math.Abs(row[k+1]-want) > 1e-6*math.Abs(want)+1e-9 {
				t.Fatalf("at %g N·m limit %d has %g %% left, want %g", row[0], k, row[k+1], want)
			}
		}
	}
	crosses := c.Series[len(c.Series)-1]
	if crosses.Role != "cross" || len(crosses.Cross) == 0 || float64(crosses.Cross[0].X) != h.Speeds[0].Allowable()/1e3 {
		t.Errorf("%+v", crosses)
	}
	for _, want := range []string{"asked 170 N·m", "before 130 N·m"} {
		if text := answerPages(t, plainNames)["headroom"]; !strings.Contains(text, want) {
			t.Errorf("%q is not in the page", want)
		}
	}
}

// A map has a field for every point: a number and a letter, or why there is none.
func TestSweepMap(t *testing.T) {
	text := answerPages(t, plainNames)["map"]
	for want, n := range map[string]int{`<td class="gap"`: 2, `<b>a</b></td>`: 6, ` met" style`: 2} {
		if got := strings.Count(text, want); got != n {
			t.Errorf("%q is there %d times, want %d", want, got, n)
		}
	}
}

func TestAnswersRefuseNothing(t *testing.T) {
	var b bytes.Buffer
	for name, err := range map[string]error{
		"no headroom": Headroom(&b, nil, testOptions), "nil headroom": Headroom(&b, []*study.Headroom{nil}, testOptions), "no sweep": Sweep(&b, nil, testOptions), "no axis": Sweep(&b, &study.Sweep{Box: &gearbox.Box{}}, testOptions),
	} {
		if err == nil || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", name, err, b.Len())
		}
	}
}

// In a browser: every chart is drawn, on a phone too, and names are text.
func TestBrowserAnswers(t *testing.T) {
	t.Parallel()
	for _, n := range []names{plainNames, hostileNames(0)} {
		for name, text := range answerPages(t, n) {
			charts := map[string]int{"headroom": 4, "line": 1, "map": 0}[name]
			file := save(t, text)
			wantDrawn(t, open(t, file, "", 1280), charts)
			if data := rootData(t, open(t, file, "", 390)); data["width"] != "390" || data["overflow"] != "none" || data["drawn"] != data["charts"] || data["problems"] != "" || data["pwned"] != "" {
				t.Errorf("%s: on a phone the page reports %v", name, data)
			}
		}
	}
}

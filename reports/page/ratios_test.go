package page

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// ratioTable is a box of two forward speeds and a reverse. All its numbers are invented.
func ratioTable(n names) *study.RatioTable {
	nan := math.NaN()
	return &study.RatioTable{
		Box: &gearbox.Box{Name: n.box, Car: &gearbox.Car{TyreRadius: 287, AxleRatio: 3.9}}, Revs: 200 * math.Pi, Torque: 170000, Tyres: true, Grip: true,
		Speeds: []study.RatioRow{
			{Name: n.first, Box: 3.077, Total: 12, Ground: 15000, Thousand: 2500, Next: n.mesh, Step: 1.5, After: 400 * math.Pi / 3, Drop: 200 * math.Pi / 3, Wheels: 1.98e6, Pull: 6900, Holds: 4711, Used: 1.4647},
			{Name: n.mesh, Box: 2.051, Total: 8, Ground: 22500, Thousand: 3750, Step: nan, After: nan, Drop: nan, Wheels: 1.32e6, Pull: 4600, Holds: 4711, Used: 0.9764},
			{Name: "reverse", Reverse: true, Box: 3.2, Total: 12.48, Ground: 14400, Thousand: 2400, Step: nan, After: nan, Drop: nan, Wheels: 2.06e6, Pull: 7180, Holds: 3012, Used: 2.384},
		},
	}
}

func ratiosPage(t testing.TB, tables ...*study.RatioTable) string {
	t.Helper()
	var b bytes.Buffer
	if err := Ratios(&b, tables, view.Options{Version: "1"}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The run through the speeds goes up each line to the shift and straight down to the next, at the same speed over ground; reverse is no part of it.
func TestRunThroughTheSpeeds(t *testing.T) {
	s := newSet([]*gearbox.Result{{Box: ratioTable(plainNames).Box}}, view.Options{})
	lines := s.gearingLines([]*study.RatioTable{ratioTable(plainNames)})
	want := map[string]table{
		"run":  {{0, 0}, {54, 6000}, {54, 4000}, {81, 6000}},
		"pull": {{0, 6900}, {54, 6900}, {54, 4600}, {81, 4600}},
		"hold": {{0, 4711}, {54, 4711}, {54, 4711}, {81, 4711}},
	}
	gears := 0
	for _, l := range lines {
		if l.role == "gear" {
			gears++
			if first, last := l.data[0], l.data[len(l.data)-1]; first[0] != 0 || first[1] != 0 || math.Abs(last[1]-6000) > 1e-9 {
				t.Errorf("%s goes from %v to %v", l.name, first, last)
			}
			continue
		}
		near := func(a, b []float64) bool { return math.Abs(a[0]-b[0]) < 1e-9 && math.Abs(a[1]-b[1]) < 1e-9 }
		if !slices.EqualFunc(l.data, want[l.role], near) {
			t.Errorf("%s is %v, want %v", l.role, l.data, want[l.role])
		}
	}
	if gears != 3 || len(lines) != 6 {
		t.Errorf("%d lines, %d of them of speeds", len(lines), gears)
	}
}

func TestRatiosPage(t *testing.T) {
	text := ratiosPage(t, ratioTable(plainNames), ratioTable(birch()))
	if text != ratiosPage(t, ratioTable(plainNames), ratioTable(birch())) {
		t.Error("two calls write different pages")
	}
	for _, want := range []string{"54.0", "81.0", "146", "Alder and Birch: 81.0\u00a0km/h in", "With axle", "<td>–"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	bare := ratioTable(plainNames)
	bare.Box.Car, bare.Tyres, bare.Grip = nil, false, false
	if charts := chartsOf(t, ratiosPage(t, bare)); len(charts) != 0 {
		t.Errorf("%d charts of a box without a car", len(charts))
	}
	if err := Ratios(&bytes.Buffer{}, nil, view.Options{}); err == nil {
		t.Error("no error without a table")
	}
}

func TestHostileNamesInRatios(t *testing.T) {
	for i := range hostile {
		text := ratiosPage(t, ratioTable(hostileNames(i)), ratioTable(hostileNames(i+1)))
		if n := strings.Count(text, "<script"); n != strings.Count(echartsText, "<script")+3 {
			t.Errorf("names %d: the page has %d script elements, want 3", i, n)
		}
		for _, bad := range []string{"<img src=x", "\u2028", "\u202e", "\x07"} {
			if strings.Contains(strings.Replace(text, echartsText, "", 1), bad) {
				t.Errorf("names %d: the page holds %q unescaped", i, bad)
			}
		}
	}
}

func TestBrowserDrawsRatios(t *testing.T) {
	t.Parallel()
	wantDrawn(t, open(t, save(t, ratiosPage(t, ratioTable(plainNames), ratioTable(birch()))), "", 1280), 1)
	wantDrawn(t, open(t, save(t, ratiosPage(t, ratioTable(hostileNames(0)))), "", 500), 1)
}

// Under the pointer stands every speed of the box that goes so fast, with the engine's speed in it: they stand to each other like the speeds over ground at the shift, the other way round.
func TestBrowserTipOfRatios(t *testing.T) {
	t.Parallel()
	const asks = `<script>
addEventListener('load', () => setTimeout(() => echarts.getInstanceByDom(document.querySelector('.chart')).dispatchAction({ type: 'showTip', x: 300, y: 200 }), 200));
</script></body>`
	text := ratiosPage(t, ratioTable(hostileNames(0)))
	end := strings.LastIndex(text, "</body>")
	text = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`).ReplaceAllLiteralString(text[:end], "") + asks + text[end+len("</body>"):]
	dom := open(t, save(t, text), "", 1280)
	if data := rootData(t, dom); data["pwned"] != "" || data["problems"] != "" {
		t.Errorf("the tip made the page report %v", data)
	}
	tip := regexp.MustCompile(`(?s)<div class="tip">.*?</div>`).FindString(dom)
	var revs []float64
	for _, m := range regexp.MustCompile(`>(\d+) rpm<`).FindAllStringSubmatch(tip, -1) {
		v, _ := strconv.ParseFloat(m[1], 64)
		revs = append(revs, v)
	}
	if len(revs) != 3 || math.Abs(revs[0]/revs[1]-1.5) > 0.002 || math.Abs(revs[2]/revs[0]-54/51.84) > 0.002 || !strings.Contains(tip, "tyres hold") {
		t.Errorf("the tip tells %v: %s", revs, tip)
	}
}

// What the engine gives is hollow, what comes of it filled, and a bound beyond the drawing has no line.
func TestBarsOfWhatReaches(t *testing.T) {
	r := sample(t, plainNames, 2, 170000)
	f := newSet([]*gearbox.Result{r}, view.Options{}).reachFigures()
	if len(f) != 1 || len(f[0].Rows) != 2 {
		t.Fatalf("%+v", f)
	}
	row := f[0].Rows[0]
	if row.Engine != reachWidth || math.Abs(float64(row.Comes)-reachWidth*0.9/1.5) > 1e-9 || row.Tyres != row.Comes || math.Abs(float64(row.Clutch)-reachWidth*1.4/1.5) > 1e-9 {
		t.Errorf("%+v", row)
	}
	if f[0].Rows[1].Tyres != 0 {
		t.Errorf("tyres beyond the drawing are drawn at %v", f[0].Rows[1].Tyres)
	}
	for i := range r.Speeds {
		r.Speeds[i].Reach = nil
	}
	if f := newSet([]*gearbox.Result{r}, view.Options{}).reachFigures(); len(f) != 0 {
		t.Error("something reaches the teeth though nothing is told")
	}
}

package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"go/parser"
	"go/token"
	"io"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/material"
	"layshaft/reports/view"
)

var testOptions = view.Options{Version: "test"}

func comparePage(t testing.TB, a, b names) string {
	t.Helper()
	var w bytes.Buffer
	if err := Compare(&w, pair(t, a, b), testOptions); err != nil {
		t.Fatal(err)
	}
	return w.String()
}

func checkPage(t testing.TB, r ...*gearbox.Result) string {
	t.Helper()
	var w bytes.Buffer
	if err := Check(&w, r, testOptions); err != nil {
		t.Fatal(err)
	}
	return w.String()
}

func chartsOf(t testing.TB, text string) []chart {
	t.Helper()
	m := regexp.MustCompile(`(?s)<script type="application/json" id="charts">(.*?)</script>`).FindStringSubmatch(text)
	if m == nil {
		t.Fatal("the page holds no chart data")
	}
	var c []chart
	if err := json.Unmarshal([]byte(m[1]), &c); err != nil {
		t.Fatalf("chart data: %v", err)
	}
	return c
}

// The sum is that of dist/echarts.min.js in the npm package echarts 5.6.0.
func TestEChartsIsThePublishedFile(t *testing.T) {
	const want = "bf4a223524e40b77c304bec67e1222cf551f14880cf42c69dc046558e11c07b1"
	sum := sha256.Sum256([]byte(echartsText))
	if got := hex.EncodeToString(sum[:]); got != want {
		t.Errorf("SHA-256 of assets/echarts.min.js is %s, want %s", got, want)
	}
}

func TestOnlyOneFileImportsGoEcharts(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), f, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, im := range parsed.Imports {
			if strings.Contains(im.Path.Value, "go-echarts") && f != "chart.go" {
				t.Errorf("%s imports %s; only chart.go may", f, im.Path.Value)
			}
		}
	}
}

func TestSameResultsWriteTheSameBytes(t *testing.T) {
	first, second := comparePage(t, plainNames, birch()), comparePage(t, plainNames, birch())
	if first != second {
		t.Error("two pages of the same results differ")
	}
}

// Whatever the box is called, a page is known as one of ours by its first bytes.
func TestPageBeginsWithItsMark(t *testing.T) {
	for _, n := range []names{plainNames, hostileNames(0)} {
		text := comparePage(t, n, birch())
		if at := strings.Index(text, Mark); at < 0 || at+len(Mark) > MarkWithin {
			t.Errorf("the mark stands at byte %d, want it within %d", at, MarkWithin)
		}
	}
}

// The page says at its top what it is about and that it is an estimate.
func TestPageSaysWhatWasGiven(t *testing.T) {
	c := pair(t, plainNames, birch())
	for _, r := range c.Results {
		r.Box.Origin.File = r.Box.Name + "<b>.yaml"
	}
	var w bytes.Buffer
	if err := Compare(&w, c, testOptions); err != nil {
		t.Fatal(err)
	}
	top, _, _ := strings.Cut(w.String(), "<main>")
	for _, want := range []string{"Estimates for comparing and planning", "What was given", "Alder&lt;b&gt;.yaml", "Birch&lt;b&gt;.yaml"} {
		if !strings.Contains(top, want) {
			t.Errorf("%q doesn't stand at the top of the page", want)
		}
	}
}

func TestPolicyLetsOnlyTheTwoScriptsRun(t *testing.T) {
	text := comparePage(t, plainNames, birch())
	policy := regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(text)
	if policy == nil {
		t.Fatal("the page has no content security policy")
	}
	said := strings.NewReplacer("&#39;", "'", "&#43;", "+").Replace(policy[1])
	if !strings.HasPrefix(said, "default-src 'none';") {
		t.Errorf("policy is %q; it must begin by forbidding everything", said)
	}
	scripts := regexp.MustCompile(`(?s)<script>(.*?)</script>`).FindAllStringSubmatch(text, -1)
	if len(scripts) != 2 {
		t.Fatalf("%d scripts run in the page, want 2", len(scripts))
	}
	for i, s := range scripts {
		if !strings.Contains(said, sourceHash(s[1])) {
			t.Errorf("script %d of the page is not in its policy", i+1)
		}
	}
	if n := strings.Count(said, "sha256-"); n != 2 {
		t.Errorf("the policy lets %d scripts run, want 2", n)
	}
}

func TestPageLoadsNothing(t *testing.T) {
	text := strings.Replace(comparePage(t, plainNames, birch()), echartsText, "", 1)
	if found := regexp.MustCompile(`(?i)(\bsrc|<link|@import|url\()[^>]{0,60}`).FindString(strings.Replace(text, "img-src", "", 1)); found != "" && !strings.Contains(found, "-src") {
		t.Errorf("the page refers to something outside: %q", found)
	}
}

// hostile is names that would run, break or turn a page that trusts them.
var hostile = []string{
	`</script><script>document.documentElement.dataset.pwned="yes"</script>`,
	`"'><img src=x onerror='document.documentElement.dataset.pwned="yes"'>`,
	`__f__(document.documentElement.dataset.pwned="yes")__f__`,
	`{{.}} {b} {a|x} ${1} $box0`,
	"line\u2028end \u202Eturned\u202C \x07bell",
}

func hostileNames(i int) names {
	h := func(k int) string { return hostile[(i+k)%len(hostile)] }
	return names{box: h(0) + " box", about: h(1), first: h(2), input: h(3) + " in", output: h(4) + " out", pinion: h(0) + " p", wheel: h(1) + " w",
		mesh: h(2) + " m", left: h(3) + " l", right: h(4) + " r", note: h(0) + " note", source: h(1) + " source"}
}

func TestHostileNamesStayText(t *testing.T) {
	for i := range hostile {
		text := comparePage(t, hostileNames(i), hostileNames(i+1))
		if n := strings.Count(text, "<script"); n != strings.Count(echartsText, "<script")+3 {
			t.Errorf("names %d: the page has %d script elements, want 3", i, n)
		}
		for _, bad := range []string{"<img src=x", "\u2028", "\u202e", "\x07"} {
			if strings.Contains(strings.Replace(text, echartsText, "", 1), bad) {
				t.Errorf("names %d: the page holds %q unescaped", i, bad)
			}
		}
		for _, c := range chartsOf(t, text) {
			for _, name := range c.Boxes {
				if name != view.Clean(hostileNames(i).box) && name != view.Clean(hostileNames(i+1).box) {
					t.Errorf("names %d: chart %s calls a box %q", i, c.ID, name)
				}
			}
		}
	}
}

func TestWhatIsNotFiniteIsSaidInWords(t *testing.T) {
	r := sample(t, plainNames, 2, 170e3)
	r.Speeds[0].References = nil
	for i := range r.Speeds[0].Margins {
		m := &r.Speeds[0].Margins[i]
		m.Allowable, m.Margin, m.State = [material.High + 1]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, math.Inf(1), gearbox.Clear
	}
	r.Speeds[1].Margins[5].Margin = math.NaN()
	r.Speeds[1].Shafts[0].MaxDeflection = math.NaN()
	r.Speeds[1].Shafts[1].Solution = nil
	text := checkPage(t, r)
	for _, want := range []string{"not reached", "n/a", "no curves are known"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	for _, bad := range []string{"NaN", "Inf"} {
		if strings.Contains(strings.NewReplacer(echartsText, "", bootText, "").Replace(text), bad) {
			t.Errorf("the page says %q", bad)
		}
	}
	first := chartsOf(t, text)[0]
	for _, b := range first.Series[0].Bars {
		if !b.None || !strings.Contains(b.Text, view.NotReached) {
			t.Errorf("a limit that is not reached has the bar %+v", b)
		}
	}
}

func TestGapsAreCounted(t *testing.T) {
	rows := table{{0, 1}, {1, math.NaN()}, {2, math.Inf(-1)}}
	if rows.gaps() != 2 {
		t.Errorf("%d gaps counted, want 2", rows.gaps())
	}
	text, err := json.Marshal(rows)
	if err != nil || string(text) != `[[0,1],[1,null],[2,null]]` {
		t.Errorf("rows are written %s (%v)", text, err)
	}
}

func TestSpeedWithoutLimits(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	r.Speeds[0].Margins = nil
	if text := checkPage(t, r); !strings.Contains(text, "no limit could be checked") {
		t.Error("the page does not say that no limit could be checked")
	}
}

func TestCoastIsSaid(t *testing.T) {
	text := checkPage(t, sample(t, plainNames, 2, -60e3))
	if !strings.Contains(text, "in coast: the engine brakes") {
		t.Error("the page does not say that the engine brakes")
	}
	for _, c := range chartsOf(t, text) {
		if c.Kind == "torque" && len(c.Series) == 0 {
			t.Error("no line of margin against torque in coast")
		}
	}
}

func TestUSUnits(t *testing.T) {
	var w bytes.Buffer
	if err := Compare(&w, pair(t, plainNames, birch()), view.Options{Units: quantity.US}); err != nil {
		t.Fatal(err)
	}
	charts := chartsOf(t, w.String())
	for _, c := range charts {
		if c.Kind == "shaft" {
			if want := quantity.Unit(quantity.Length, quantity.US); c.XUnit != want {
				t.Errorf("x is in %s, want %s", c.XUnit, want)
			}
			x := c.Views[0].Tables[0]
			// 200 mm from x = −10 mm; 1 in = 25.4 mm exactly.
			if got := x[len(x)-1][0]; math.Abs(got-190/25.4) > 1e-3 {
				t.Errorf("the shaft ends at %v in, want %v", got, 190/25.4)
			}
		}
	}
	if !strings.Contains(w.String(), quantity.Unit(quantity.Torque, quantity.US)) {
		t.Error("no torque in US units on the page")
	}
}

func TestEverySpeedAndShaftIsThere(t *testing.T) {
	charts := chartsOf(t, comparePage(t, plainNames, birch()))
	kinds := map[string]int{}
	for _, c := range charts {
		kinds[c.Kind]++
		if c.Kind != "shaft" {
			continue
		}
		if len(c.Views) != 5 {
			t.Errorf("%s has %d views, want one for each of 5 speeds", c.ID, len(c.Views))
		}
		for k, v := range c.Views {
			for b, rows := range v.Tables {
				want := b == 0 || k < 4
				if got := len(rows) > curvePoints; got != want {
					t.Errorf("%s, %s, box %d: curves there: %v, want %v", c.ID, v.Title, b, got, want)
				}
			}
			if len(v.Parts[1]) == 0 {
				t.Errorf("%s, %s: the second box's shaft is not drawn", c.ID, v.Title)
			}
		}
		if last := c.Views[4]; !strings.Contains(last.Note, "Birch: carries no load in this speed") {
			t.Errorf("%s: a shaft without load is not mentioned: %q", c.ID, last.Note)
		}
	}
	if kinds["bars"] != 5 || kinds["torque"] != 1 || kinds["shaft"] != 2 {
		t.Errorf("charts by kind: %v, want 5 bars, 1 torque, 2 shaft", kinds)
	}
}

// Curves are shown where the box has them: Start plus the place on the shaft.
func TestCurvesCountXInTheBox(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	for _, c := range chartsOf(t, checkPage(t, r)) {
		if c.Kind != "shaft" {
			continue
		}
		rows := c.Views[0].Tables[0]
		if rows[0][0] != -10 || rows[len(rows)-1][0] != 190 {
			t.Errorf("%s runs from %v to %v, want −10 to 190", c.ID, rows[0][0], rows[len(rows)-1][0])
		}
		best := 0.0
		for _, row := range rows {
			best = max(best, row[3])
		}
		if want := 1000 * r.Speeds[0].Shafts[0].MaxDeflection; c.ID == "shaft-0" && math.Abs(best-want) > 0.01*want {
			t.Errorf("%s shows at most %v µm, the result says %v", c.ID, best, want)
		}
	}
}

func TestNotesAreMergedAndPlaced(t *testing.T) {
	_, notes := view.NotesOf(pair(t, plainNames, birch()).Results).List()
	for _, n := range notes {
		switch n.String() {
		case "No shock factor.":
			if n.Where() != "Alder" {
				t.Errorf("a note of the whole box is placed at %q", n.Where())
			}
		case "Mesh first: The short case is stiff. At the mesh.":
			if n.Where() != "Birch" {
				t.Errorf("a note of all speeds is placed at %q", n.Where())
			}
		}
	}
	if n := len(notes); n != 6 {
		t.Errorf("%d notes, want 6 different ones", n)
	}
}

// What is to be checked stands apart, once for all meshes that share it.
func TestChecksStandApart(t *testing.T) {
	r := sample(t, plainNames, 2, 170e3)
	r.Checks = []string{"The distance is a guess."}
	r.Speeds[0].Meshes[0].Checks = []string{"the tooth is undercut."}
	other := r.Speeds[1].Meshes[0]
	other.Name, other.Checks = "second", []string{"the tooth is undercut.", "tips rub."}
	r.Speeds[1].Meshes = append(r.Speeds[1].Meshes, other)
	listed, notes := view.NotesOf([]*gearbox.Result{r}).List()
	checks := view.Each(listed, func(n *view.Note) [2]string { return [2]string{n.String(), n.Where()} })
	want := [][2]string{{"The distance is a guess.", "Alder"}, {"Meshes first and second: the tooth is undercut.", "Alder"}, {"Mesh second: tips rub.", "Alder speed 2"}}
	if !slices.Equal(checks, want) {
		t.Errorf("to be checked: %q, want %q", checks, want)
	}
	for _, n := range notes {
		if strings.Contains(n.Text, "undercut") {
			t.Errorf("%q stands among the assumptions", n.Text)
		}
	}
	if text := checkPage(t, r); strings.Index(text, "Check these") > strings.Index(text, ">Assumptions<") || !strings.Contains(text, "tips rub.") {
		t.Error("the page doesn't tell what is to be checked, before what was assumed")
	}
}

func TestBadCallsAreErrors(t *testing.T) {
	if err := Check(io.Discard, nil, testOptions); err == nil {
		t.Error("no results: no error")
	}
	if err := Check(io.Discard, []*gearbox.Result{nil}, testOptions); err == nil {
		t.Error("an empty result: no error")
	}
	if err := Compare(io.Discard, nil, testOptions); err == nil {
		t.Error("no comparison: no error")
	}
}

func TestPageStaysSmall(t *testing.T) {
	n := len(comparePage(t, plainNames, birch())) - len(echartsText)
	if n > 500_000 {
		t.Errorf("beside ECharts the page has %d bytes, want less than 500000", n)
	}
}

func BenchmarkCompare(b *testing.B) {
	c := pair(b, plainNames, birch())
	for b.Loop() {
		if err := Compare(io.Discard, c, testOptions); err != nil {
			b.Fatal(err)
		}
	}
}

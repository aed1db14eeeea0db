package page

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/quantity"
	"layshaft/gearstress/iso6336"
	"layshaft/reports/view"
)

func faceChart(t *testing.T, text string) chart {
	t.Helper()
	for _, c := range chartsOf(t, text) {
		if c.Kind == "face" {
			return c
		}
	}
	t.Fatal("the page has no chart of the load along the face")
	return chart{}
}

// The sample's load falls in a straight line from 800 N/mm at the left end to nothing; its mean is 3/8 of that.
func TestLoadAlongTheFaceIsThatOfTheResult(t *testing.T) {
	v := faceChart(t, comparePage(t, plainNames, birch())).Views[0]
	for b := range 2 {
		rows := v.Tables[b]
		if len(rows) != 5 || rows[0][0] != -11 || rows[0][1] != 800 || rows[4][0] != 11 || rows[4][1] != 0 {
			t.Errorf("box %d: load along the face is %v", b, rows)
		}
		if f := v.Flanks[b]; f == nil || f.Mean != 300 {
			t.Errorf("box %d: flank is %+v, want a mean of 300 N/mm", b, f)
		}
	}
	for _, want := range []string{"at the left end, carries 800 N/mm: 2.67 times the mean of 300 (K_Hβ)", "The left end carries more", "Only 75 % of the face carries"} {
		if !strings.Contains(v.Note, want) {
			t.Errorf("the words %q do not say %q", v.Note, want)
		}
	}
}

// 1 lbf = 4.4482216152605 N and 1 in = 25.4 mm exactly (NIST Special Publication 811, 2008, appendix B.8).
func TestLineLoadInUSUnits(t *testing.T) {
	s := newSet(pair(t, plainNames, birch()).Results, view.Options{Units: quantity.US})
	if got, want := s.lineLoad(800), 800/4.4482216152605*25.4; math.Abs(got-want) > 1e-9*want || view.LineUnit(s.Options) != "lbf/in" {
		t.Errorf("800 N/mm is shown as %v %s, want %v lbf/in", got, view.LineUnit(s.Options), want)
	}
}

func TestPeakPlaceInWords(t *testing.T) {
	s := newSet(pair(t, plainNames, birch()).Results, view.Options{})
	for _, c := range []struct {
		load []float64
		want string
	}{
		{[]float64{3, 2, 1}, "at the left end"},
		{[]float64{1, 2, 3}, "at the right end"},
		{[]float64{1, 3, 1}, "in the middle"},
		{[]float64{2, 2, 2}, "everywhere alike"},
		{[]float64{1, 3, 2, 1, 1}, "5.5 mm left of the middle"},
		{[]float64{1, 1, 2, 3, 1}, "5.5 mm right of the middle"},
	} {
		m := gearbox.MeshResult{LineLoad: c.load, FaceFactor: 1.5}
		if c.want == "everywhere alike" {
			m.FaceFactor = 1
		}
		for i := range c.load {
			m.Stations = append(m.Stations, -11+22*float64(i)/float64(len(c.load)-1))
		}
		if got := s.peakPlace(&m); got != c.want {
			t.Errorf("load %v has its peak %q, want %q", c.load, got, c.want)
		}
	}
}

// Looking at the flank that presses, with +x to the right: a gear turned right-handed about +x has its tip on top. In coast, or turned the
// other way, it is below.
func TestFlankIsSeenFromWhereItPresses(t *testing.T) {
	for torque, down := range map[float64]bool{170e3: true, -60e3: false} { // the sample's driver takes a torque of the opposite sign
		v := faceChart(t, checkPage(t, sample(t, plainNames, 1, torque))).Views[0]
		if v.Flanks[0].Down != down {
			t.Errorf("input torque %v: tip below is %v, want %v", torque, v.Flanks[0].Down, down)
		}
	}
}

func TestMeshWithoutLoadAlongTheFaceIsSaid(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	m := &r.Speeds[0].Meshes[0]
	m.LineLoad, m.Stations, m.Causes, m.Rating, m.Peak = nil, nil, nil, nil, nil
	text := checkPage(t, r)
	if !strings.Contains(text, "the load along the face is n/a") {
		t.Error("the page does not say that the load along the face is not known")
	}
	if v := faceChart(t, text).Views[0]; v.Flanks[0] != nil {
		t.Errorf("a flank is drawn without a load: %+v", v.Flanks[0])
	}
}

func TestCausesAddUpToTheLastRow(t *testing.T) {
	s := newSet(pair(t, plainNames, birch()).Results, view.Options{})
	f := s.causeFigures()[0]
	if len(f.Rows) != 3 || !f.Rows[2].Total || f.Rows[0].Name != "input shaft bends" {
		t.Fatalf("rows are %+v, want two causes, the larger first, then their sum", f.Rows)
	}
	width := func(b causeBar) float64 {
		w, err := strconv.ParseFloat(b.W, 64)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(b.X, "-") {
			return -w
		}
		return w
	}
	for b := range 2 {
		if sum := width(f.Rows[0].Bars[b]) + width(f.Rows[1].Bars[b]); math.Abs(sum-width(f.Rows[2].Bars[b])) > 0.11 {
			t.Errorf("box %d: the bars add up to %v, the last is %v", b, sum, width(f.Rows[2].Bars[b]))
		}
	}
	if got := f.Rows[0].Values[0]; got != "−0.600" {
		t.Errorf("the input shaft's share is shown as %q mrad, want −0.600", got)
	}
	if !strings.Contains(f.Words[0], "loads the left end more heavily") {
		t.Errorf("the words are %q", f.Words[0])
	}
}

// Where the shape of the flanks turns the load round, the words must not say that the tilt crowds that end.
func TestTiltAgainstTheCrowdedEndIsSaid(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	r.Speeds[0].Meshes[0].TiltInAction = 0.0004
	s := newSet([]*gearbox.Result{r}, view.Options{})
	if w := s.causeFigures()[0].Words[0]; !strings.Contains(w, "loads the right end more heavily") || !strings.Contains(w, "outweigh it: the left end carries more") {
		t.Errorf("the words are %q", w)
	}
}

// The ends of the critical section lie on the fillet: the drawn chord must meet the drawn outline.
func TestCriticalSectionMeetsTheOutline(t *testing.T) {
	p, rating := rated(t)
	form, err := iso6336.NewForm(p, rating.Edition, [2]float64{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range 2 {
		tooth, err := p.Tooth(i)
		if err != nil {
			t.Fatal(err)
		}
		var w pencil
		w.scale, w.top = 1, tooth.Tip/2
		f := form.Tooth[i]
		w.section(tooth, &f)
		m := regexp.MustCompile(`class="chord" d="M([-\d.]+),([-\d.]+)L([-\d.]+),`).FindStringSubmatch(w.String())
		if m == nil {
			t.Fatal("no chord is drawn")
		}
		number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
		x, y := number(m[1])-toothWidth/2, tooth.Tip/2-(number(m[2])-toothAbove)
		best := math.Inf(1)
		for _, q := range tooth.Outline(400) {
			best = min(best, math.Hypot(q.X-x, q.Y-y))
		}
		if best > 0.1 { // drawn to 0.1 px at 1 px per mm
			t.Errorf("gear %d: the critical section ends %.3f mm away from the outline", i, best)
		}
		if wide := number(m[3]) - number(m[1]); math.Abs(wide-f.Chord) > 0.11 {
			t.Errorf("gear %d: the critical section is drawn %v mm wide, want %v", i, wide, f.Chord)
		}
	}
}

func TestToothIsDrawnOncePerMesh(t *testing.T) {
	text := comparePage(t, plainNames, birch())
	if n := strings.Count(text, `class="tooth"`); n != 4 { // one mesh name, two boxes, two gears
		t.Errorf("%d teeth are drawn, want 4", n)
	}
	if !strings.Contains(text, `<figure data-rows="0 1 2 3 4">`) {
		t.Error("the teeth do not say which speeds load them")
	}
}

func TestFactorsAndSecondOpinionsAreListed(t *testing.T) {
	text := checkPage(t, sample(t, plainNames, 1, 170e3))
	_, rating := rated(t)
	for _, f := range rating.Factors() {
		if !strings.Contains(text, f.Symbol+"<td class=w>"+f.Words) {
			t.Errorf("factor %s is not in the tables", f.Symbol)
		}
	}
	for _, want := range []string{"Second opinions by other methods, for reference only: they decide nothing", "tooth root, AGMA", "closed form of ISO 6336-1, method C", "root, stress at the peak", "What these factors make of the load in 1st"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// A second opinion never stands among the limits that decide.
func TestSecondOpinionsComeLastInTheBars(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	for i := range r.Speeds[0].References {
		m := &r.Speeds[0].References[i]
		m.Margin = -0.5
	}
	s := newSet([]*gearbox.Result{r}, view.Options{})
	kinds := s.kindsByUrgency()
	if !kinds[len(kinds)-1].Reference() {
		t.Errorf("no second opinion in the rows of the bars: %v", kinds)
	}
	for i := range len(kinds) - 1 {
		if kinds[i].Reference() && !kinds[i+1].Reference() {
			t.Errorf("a second opinion stands before a limit in the rows of the bars: %v", kinds)
		}
	}
	r.Speeds[0].References = nil
	for _, k := range s.kindsByUrgency() {
		if k.Reference() {
			t.Errorf("%v has a row although it was not asked for", k)
		}
	}
}

// Inside a loaded face the curves have one value at a place; where torque enters or leaves they jump.
func TestFaceIsDrawnWithoutStairs(t *testing.T) {
	r := sample(t, plainNames, 1, 170e3)
	sh := &r.Speeds[0].Shafts[0]
	r.Box.Input = gearbox.Port{Shaft: sh.Name, At: 4}
	s := newSet([]*gearbox.Result{r}, view.Options{})
	rows := s.curveTable(r.Box, sh)
	jumps := 0
	for i := 1; i < len(rows); i++ {
		if rows[i][0] == rows[i-1][0] {
			jumps++
			if at := rows[i][0] - sh.Start; at >= sh.Gears[0].From && at <= sh.Gears[0].To {
				t.Errorf("two values at %v mm, inside the face", at)
			}
		}
	}
	if jumps == 0 {
		t.Error("the curves have no jump where the torque enters")
	}
}

// A second opinion has no state, and its bar is seen even where it says that nothing is left though every limit holds.
func TestSecondOpinionsHaveBarsButNoState(t *testing.T) {
	r := sample(t, plainNames, 2, 100e3)
	for i := range r.Speeds {
		r.Speeds[i].Margins = r.Speeds[i].Margins[3:] // all that is left holds
	}
	m := &r.Speeds[0].References[0]
	m.Margin, m.State = -0.29, gearbox.Over
	s := newSet([]*gearbox.Result{r}, view.Options{})
	if span := s.barScale(); span.Low > -29 {
		t.Errorf("the bars begin at %g %%, so one of −29 %% can't be seen", span.Low)
	}
	b := s.bar(0, m.Kind, m, false, s.barScale())
	if strings.ContainsAny(b.Text+strings.Join(b.Tip, " "), "✗!✓") || !strings.HasPrefix(b.Text, view.OpinionSign) || math.Abs(float64(b.Value)+29) > 1e-9 {
		t.Errorf("a second opinion has the bar %+v", b)
	}
	html := string(s.tables(view.SpeedTables(&r.Speeds[0], view.Options{})...)[1])
	if strings.Contains(html, "over") || !strings.Contains(html, "decides nothing") {
		t.Errorf("the table gives a second opinion a state: %s", html)
	}
}

// What tilts one mesh is drawn to the scale of all others.
func TestCauseFiguresHaveOneScale(t *testing.T) {
	s := newSet(pair(t, plainNames, birch()).Results, view.Options{})
	perTilt := map[string]bool{}
	for k, r := range s.rows {
		for _, mesh := range s.meshes(r) {
			f := s.causeFigure(k, r.name, mesh, s.widestTilt())
			last := f.Rows[len(f.Rows)-1]
			for i, m := range mesh.boxes {
				if m == nil || i >= len(last.Bars) || m.TiltInAction == 0 {
					continue
				}
				w, err := strconv.ParseFloat(last.Bars[i].W, 64)
				if err != nil {
					t.Fatal(err)
				}
				if want := 96 * math.Abs(m.TiltInAction) / s.widestTilt(); math.Abs(w-want) > 0.06 {
					t.Errorf("%s in %s: the bar of %g rad is %g wide, want %g", mesh.name, r.name, m.TiltInAction, w, want)
				}
				perTilt[mesh.name] = true
			}
		}
	}
	if len(perTilt) == 0 {
		t.Error("nothing is drawn")
	}
}

package page

import (
	"bytes"
	"html"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// rootData is the data attributes of the root element, in which the page's script says how it went.
func rootData(t *testing.T, dom string) map[string]string {
	t.Helper()
	tag := regexp.MustCompile(`<html[^>]*>`).FindString(dom)
	if tag == "" {
		t.Fatal("the browser gave back no page")
	}
	data := map[string]string{}
	for _, m := range regexp.MustCompile(`data-([a-z]+)="([^"]*)"`).FindAllStringSubmatch(tag, -1) {
		data[m[1]] = html.UnescapeString(m[2])
	}
	return data
}

func wantDrawn(t *testing.T, dom string, charts int) {
	t.Helper()
	data := rootData(t, dom)
	if data["problems"] != "" {
		t.Errorf("the page reports: %s", data["problems"])
	}
	if want := strconv.Itoa(charts); data["charts"] != want || data["drawn"] != want {
		t.Errorf("%s charts, %s drawn, want %s of both", data["charts"], data["drawn"], want)
	}
	if n := len(regexp.MustCompile(`<svg[^>]*xmlns:xlink`).FindAllString(dom, -1)); n != charts {
		t.Errorf("%d charts in the page, want %d", n, charts)
	}
	if data["overflow"] != "none" {
		t.Errorf("at width %s the page is %s px too wide", data["width"], data["overflow"])
	}
	if data["pwned"] != "" {
		t.Error("code from a name has run")
	}
}

func TestBrowserDrawsEveryChart(t *testing.T) {
	t.Parallel()
	file := save(t, comparePage(t, plainNames, birch()))
	dom := open(t, file, "", 1280)
	wantDrawn(t, dom, 10)
	if data := rootData(t, dom); data["speed"] != "0" {
		t.Errorf("opens with speed %s, want 0: the one that runs out first", data["speed"])
	}
	dark := openIn(t, file, "", 1280, "dark")
	wantDrawn(t, dark, 10)
	if dark == dom {
		t.Error("the charts look the same on a dark screen")
	}
}

func TestBrowserPhoneWidth(t *testing.T) {
	t.Parallel()
	for _, names := range []names{plainNames, hostileNames(0)} {
		data := rootData(t, open(t, save(t, comparePage(t, names, birch())), "", 390))
		if data["width"] != "390" || data["overflow"] != "none" || data["charts"] == "" || data["drawn"] != data["charts"] || data["problems"] != "" {
			t.Errorf("on a phone the page reports %v", data)
		}
	}
}

func TestBrowserSpeedChooser(t *testing.T) {
	t.Parallel()
	file := save(t, comparePage(t, plainNames, birch()))
	first, fifth := open(t, file, "#speed=1", 1280), open(t, file, "#speed=5", 1280)
	wantDrawn(t, fifth, 10)
	if data := rootData(t, fifth); data["speed"] != "4" {
		t.Errorf("the address asks for the fifth speed, the page shows number %s", data["speed"])
	}
	if strings.Contains(first, "carries no load in this speed.</figcaption>") || !strings.Contains(fifth, "carries no load in this speed.</figcaption>") {
		t.Error("the words under the shafts do not follow the speed")
	}
	chart := regexp.MustCompile(`(?s)id="shaft-0".*?</figure>`)
	if chart.FindString(first) == chart.FindString(fifth) {
		t.Error("the drawing of the shaft does not follow the speed")
	}
}

func TestBrowserHostileNames(t *testing.T) {
	t.Parallel()
	for i := 0; i < len(hostile); i += 2 { // with i+1, each name is that of a box once
		text := comparePage(t, hostileNames(i), hostileNames(i+1))
		dom := open(t, save(t, text), "", 1280)
		wantDrawn(t, dom, len(chartsOf(t, text)))
		seen := html.UnescapeString(regexp.MustCompile(`(?s)<script.*?</script>`).ReplaceAllString(dom, ""))
		for _, name := range []string{hostileNames(i).box, hostileNames(i).first, hostileNames(i).mesh, hostileNames(i).note, hostileNames(i).source} {
			if !strings.Contains(seen, view.Clean(name)) {
				t.Errorf("names %d: %q is not shown as text", i, view.Clean(name))
			}
		}
	}
}

// Tooltips are drawn when the pointer moves; a copy of the page with a script of the test's own (so without the policy) asks for them.
func TestBrowserTooltipsAreText(t *testing.T) {
	t.Parallel()
	const asks = `<script>
addEventListener('load', () => setTimeout(() => {
  for (const e of document.querySelectorAll('.chart')) {
    const chart = echarts.getInstanceByDom(e);
    chart.dispatchAction(/^(torque|shaft|face|growth)/.test(e.id) ? { type: 'showTip', x: 250, y: /^(face|growth)/.test(e.id) ? 60 : chart.getHeight() - 100 } : { type: 'showTip', seriesIndex: 0, dataIndex: 0 });
  }
}, 200));
</script></body>`
	for i := 0; i < len(hostile); i += 2 { // with i+1, each name is that of a box once
		text := comparePage(t, hostileNames(i), hostileNames(i+1))
		policy := regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)
		end := strings.LastIndex(text, "</body>")
		text = policy.ReplaceAllLiteralString(text[:end], "") + asks + text[end+len("</body>"):]
		dom := open(t, save(t, text), "", 1280)
		if data := rootData(t, dom); data["pwned"] != "" || data["problems"] != "" {
			t.Errorf("names %d: tooltips made the page report %v", i, data)
		}
		tips := regexp.MustCompile(`(?s)<div class="tip">.*?</div>`).FindAllString(dom, -1)
		// The two shafts of the second box have names of their own and carry nothing in the speed shown, and its mesh is loaded in other speeds only,
		// so its two charts and they have no tooltip.
		if want := len(chartsOf(t, text)) - 4; len(tips) != want {
			t.Errorf("names %d: %d tooltips, want %d", i, len(tips), want)
		}
		if all := html.UnescapeString(strings.Join(tips, " ")); !strings.Contains(all, view.Clean(hostileNames(i).box)) {
			t.Errorf("names %d: no tooltip shows %q as text", i, view.Clean(hostileNames(i).box))
		}
	}
}

func TestBrowserUnreachedLimits(t *testing.T) {
	t.Parallel()
	r := sample(t, plainNames, 2, 170e3)
	r.Speeds[1].Shafts[1].Solution = nil
	r.Speeds[0].Margins = r.Speeds[0].Margins[:1]
	wantDrawn(t, open(t, save(t, checkPage(t, r)), "", 1280), 7)
}

// The drawings that follow the speed: those of the page's script and those that stand in the page.
func TestBrowserFacesFollowTheSpeed(t *testing.T) {
	t.Parallel()
	a, b := sample(t, plainNames, 2, 170e3), sample(t, birch(), 2, 170e3)
	for _, r := range []*gearbox.Result{a, b} {
		final := r.Speeds[0].Meshes[0]
		final.Name = "final"
		r.Speeds[1].Meshes = append(r.Speeds[1].Meshes, final)
	}
	var w bytes.Buffer
	if err := Compare(&w, study.Compare([]*gearbox.Result{a, b}), testOptions); err != nil {
		t.Fatal(err)
	}
	file := save(t, w.String())
	for speed, want := range []struct{ figures, faces, hidden int }{{2, 1, 1}, {4, 2, 0}} {
		dom := open(t, file, "#speed="+strconv.Itoa(speed+1), 1280)
		wantDrawn(t, dom, 9)
		if n := len(regexp.MustCompile(`<figure [^>]*class="on"`).FindAllString(dom, -1)); n != want.figures {
			t.Errorf("speed %d: %d figures of causes and teeth are shown, want %d", speed+1, n, want.figures)
		}
		faces := regexp.MustCompile(`(?s)<figure class="face"[^>]*>.*?</figure>`).FindAllString(dom, -1)
		shaded, bare, hidden := 0, 0, 0
		for _, f := range faces {
			if strings.Contains(f[:strings.Index(f, ">")], "data-empty") {
				hidden++
			}
			// The sample carries from the left end to 5.5 mm right of the middle, so both boxes' flanks are shaded in part.
			shaded += strings.Count(f, `fill="url(#`) / 2
			bare += strings.Count(f, ">bare<") / 2
		}
		if shaded != want.faces || bare != want.faces || hidden != want.hidden {
			t.Errorf("speed %d: %d meshes are shaded, %d have a bare end and %d figures are hidden, want %d, %[5]d and %d", speed+1, shaded, bare, hidden, want.faces, want.hidden)
		}
	}
}

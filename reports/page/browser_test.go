package page

import (
	"bytes"
	"context"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// browser finds a browser of the Chromium family: LAYSHAFT_BROWSER, or the usual names on PATH. Without one the test is skipped,
// unless LAYSHAFT_REQUIRE_BROWSER=1 says that it must not be.
func browser(t *testing.T) string {
	t.Helper()
	if path := os.Getenv("LAYSHAFT_BROWSER"); path != "" {
		return path
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("LAYSHAFT_REQUIRE_BROWSER") == "1" {
		t.Fatal("no browser found, and LAYSHAFT_REQUIRE_BROWSER=1 demands one; set LAYSHAFT_BROWSER to its path")
	}
	t.Skip("no browser found: page test skipped")
	return ""
}

// open shows a file in a browser that can reach nothing, and gives back the page as it stands after its script has run.
func open(t *testing.T, file, fragment string, width int, flags ...string) string {
	t.Helper()
	args := []string{browser(t), "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--hide-scrollbars", "--enable-logging=stderr",
		"--user-data-dir=" + t.TempDir(), "--virtual-time-budget=8000", "--window-size=" + strconv.Itoa(width) + ",900"}
	if exec.Command("unshare", "-rn", "true").Run() == nil {
		args = append([]string{"unshare", "-rn"}, args...)
	} else {
		args = append(args, "--host-resolver-rules=MAP * ~NOTFOUND")
	}
	args = append(append(args, flags...), "--dump-dom", "file://"+file+fragment)
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("browser: %v\n%s", err, errs.String())
	}
	for line := range strings.Lines(errs.String()) {
		if strings.Contains(line, ":CONSOLE") && strings.Contains(line, "source: file:") { // the browser's own pages talk too
			t.Errorf("the browser's console says: %s", strings.TrimSpace(line))
		}
	}
	return out.String()
}

func save(t *testing.T, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

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
	file := save(t, comparePage(t, plainNames, birch()))
	dom := open(t, file, "", 1280)
	wantDrawn(t, dom, 10)
	if data := rootData(t, dom); data["speed"] != "0" {
		t.Errorf("opens with speed %s, want 0: the one that runs out first", data["speed"])
	}
	dark := open(t, file, "", 1280, "--blink-settings=preferredColorScheme=0")
	wantDrawn(t, dark, 10)
	if dark == dom {
		t.Error("the charts look the same on a dark screen")
	}
}

// phone is a page that shows another one as a phone would, because a browser window may not be narrower than 500 px, and that takes
// over what the other page says of itself.
const phone = `<!doctype html><html><iframe id="f" src="page.html" style="width:390px;height:900px;border:0"></iframe><script>
const f = document.getElementById('f');
f.onload = () => setTimeout(() => Object.assign(document.documentElement.dataset, f.contentDocument.documentElement.dataset), 1500);
</script></html>`

func TestBrowserPhoneWidth(t *testing.T) {
	for _, names := range []names{plainNames, hostileNames(0)} {
		outer := filepath.Join(filepath.Dir(save(t, comparePage(t, names, birch()))), "phone.html")
		if err := os.WriteFile(outer, []byte(phone), 0o644); err != nil {
			t.Fatal(err)
		}
		data := rootData(t, open(t, outer, "", 800, "--allow-file-access-from-files"))
		if data["width"] != "390" || data["overflow"] != "none" || data["charts"] == "" || data["drawn"] != data["charts"] || data["problems"] != "" {
			t.Errorf("on a phone the page reports %v", data)
		}
	}
}

func TestBrowserSpeedChooser(t *testing.T) {
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
	r := sample(t, plainNames, 2, 170e3)
	r.Speeds[1].Shafts[1].Solution = nil
	r.Speeds[0].Margins = r.Speeds[0].Margins[:1]
	wantDrawn(t, open(t, save(t, checkPage(t, r)), "", 1280), 7)
}

// The drawings that follow the speed: those of the page's script and those that stand in the page.
func TestBrowserFacesFollowTheSpeed(t *testing.T) {
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

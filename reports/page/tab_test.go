package page

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// chromium is one browser for all tests of pages. It is spoken to by the DevTools protocol: JSON messages that end in a zero byte, over the
// two pipes of --remote-debugging-pipe. It ends with the tests however these end, because its pipe ends then.
type chromium struct {
	cmd    *exec.Cmd
	to     io.WriteCloser
	folder string // of its own, for what it keeps
	errs   bytes.Buffer

	mu     sync.Mutex
	last   int
	waits  map[int]chan message // for answers, by number
	tabs   map[string]*tab      // by session
	closed chan struct{}        // it can't be heard any longer
}

// message is what goes over the pipes, either way: a question, its answer, or an event.
type message struct {
	ID      int             `json:"id,omitempty"`
	Session string          `json:"sessionId,omitempty"`
	Method  string          `json:"method,omitempty"`
	Params  any             `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   json.RawMessage `json:"error,omitempty"`
}

// object is the parameters of a question.
type object map[string]any

// theBrowser starts the browser when the first test asks for it.
var theBrowser = sync.OnceValues(startChromium)

// started is the browser, if a test has started it.
var started *chromium

func TestMain(m *testing.M) {
	code := m.Run()
	if started != nil {
		started.end()
	}
	os.Exit(code)
}

// browserPath finds a browser of the Chromium family: LAYSHAFT_BROWSER, or the usual names on PATH; "" = there is none.
func browserPath() string {
	if path := os.Getenv("LAYSHAFT_BROWSER"); path != "" {
		return path
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// startChromium starts a browser that can reach nothing.
func startChromium() (*chromium, error) {
	folder, err := os.MkdirTemp("", "layshaft-browser-*")
	if err != nil {
		return nil, err
	}
	args := []string{browserPath(), "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--remote-debugging-pipe", "--user-data-dir=" + folder}
	if exec.Command("unshare", "-rn", "true").Run() == nil {
		args = append([]string{"unshare", "-rn"}, args...)
	} else {
		args = append(args, "--host-resolver-rules=MAP * ~NOTFOUND")
	}
	c := &chromium{cmd: exec.Command(args[0], args[1:]...), folder: folder, waits: map[int]chan message{}, tabs: map[string]*tab{}, closed: make(chan struct{})}
	hears, to, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	from, says, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	c.cmd.ExtraFiles, c.cmd.Stderr, c.to = []*os.File{hears, says}, &c.errs, to // files 3 and 4
	if err := c.cmd.Start(); err != nil {
		return nil, err
	}
	hears.Close()
	says.Close()
	started = c
	go c.listen(from)
	return c, nil
}

// end closes the browser and removes what it kept.
func (c *chromium) end() {
	c.to.Close()
	<-c.closed
	c.cmd.Wait()
	os.RemoveAll(c.folder)
}

// listen hands on what the browser says.
func (c *chromium) listen(from io.Reader) {
	defer close(c.closed)
	for r := bufio.NewReader(from); ; {
		text, err := r.ReadBytes(0)
		if err != nil {
			return
		}
		var params json.RawMessage
		m := message{Params: &params}
		if json.Unmarshal(text[:len(text)-1], &m) != nil {
			continue
		}
		c.mu.Lock()
		wait, tab := c.waits[m.ID], c.tabs[m.Session]
		delete(c.waits, m.ID)
		c.mu.Unlock()
		switch {
		case m.ID != 0 && wait != nil:
			wait <- m
		case m.ID == 0 && tab != nil:
			tab.hear(m.Method, params)
		}
	}
}

// ask asks the browser, or one of its tabs, for something and reads the answer into result, if that isn't nil.
func (c *chromium) ask(session, method string, params object, result any) error {
	wait := make(chan message, 1)
	c.mu.Lock()
	c.last++
	id := c.last
	c.waits[id] = wait
	text, err := json.Marshal(message{ID: id, Session: session, Method: method, Params: params})
	if err == nil {
		_, err = c.to.Write(append(text, 0))
	}
	c.mu.Unlock()
	if err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	select {
	case m := <-wait:
		if m.Error != nil {
			return fmt.Errorf("%s: %s", method, m.Error)
		}
		if result == nil {
			return nil
		}
		return json.Unmarshal(m.Result, result)
	case <-c.closed:
		return fmt.Errorf("%s: the browser has gone\n%s", method, c.errs.String())
	}
}

// tab is one page in the browser, apart from all others.
type tab struct {
	c                *chromium
	context, session string
	over             chan struct{} // closed when the time that the page was given is over

	mu      sync.Mutex
	console []string // what the page, or the browser about it, wrote there
}

// hear notes an event of the tab.
func (p *tab) hear(method string, params json.RawMessage) {
	switch method {
	case "Emulation.virtualTimeBudgetExpired":
		close(p.over)
	case "Log.entryAdded", "Runtime.consoleAPICalled", "Runtime.exceptionThrown":
		p.mu.Lock()
		defer p.mu.Unlock()
		p.console = append(p.console, string(params))
	}
}

// newTab opens a tab of the given width, px, with a profile and a process of its own.
func (c *chromium) newTab(width int, scheme string) (*tab, error) {
	p := &tab{c: c, over: make(chan struct{})}
	var made struct{ BrowserContextID, TargetID, SessionID string }
	if err := c.ask("", "Target.createBrowserContext", object{}, &made); err != nil {
		return nil, err
	}
	p.context = made.BrowserContextID
	if err := c.ask("", "Target.createTarget", object{"url": "about:blank", "browserContextId": p.context, "width": width, "height": 900}, &made); err != nil {
		return nil, errors.Join(err, p.close())
	}
	if err := c.ask("", "Target.attachToTarget", object{"targetId": made.TargetID, "flatten": true}, &made); err != nil {
		return nil, errors.Join(err, p.close())
	}
	p.session = made.SessionID
	c.mu.Lock()
	c.tabs[p.session] = p
	c.mu.Unlock()
	for _, set := range []struct {
		method string
		params object
	}{
		{"Page.enable", nil}, {"Runtime.enable", nil}, {"Log.enable", nil},
		{"Emulation.setDeviceMetricsOverride", object{"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": false}},
		{"Emulation.setEmulatedMedia", object{"features": []object{{"name": "prefers-color-scheme", "value": scheme}}}},
	} {
		if err := c.ask(p.session, set.method, set.params, nil); err != nil {
			return nil, errors.Join(err, p.close())
		}
	}
	return p, nil
}

// close closes the tab with all that is its own.
func (p *tab) close() error {
	p.c.mu.Lock()
	delete(p.c.tabs, p.session)
	p.c.mu.Unlock()
	return p.c.ask("", "Target.disposeBrowserContext", object{"browserContextId": p.context}, nil)
}

// patience is how long a page may take, also on a machine that has much else to do.
const patience = 5 * time.Minute

// show opens an address, lets eight seconds of the page's own time pass, which take as long as its script is busy, and gives back the page as
// it stands then.
func (p *tab) show(address string) (dom string, err error) {
	var went struct{ ErrorText string }
	if err := p.c.ask(p.session, "Page.navigate", object{"url": address}, &went); err != nil {
		return "", err
	}
	if went.ErrorText != "" {
		return "", fmt.Errorf("%s: %s", address, went.ErrorText)
	}
	if err := p.c.ask(p.session, "Emulation.setVirtualTimePolicy", object{"policy": "pauseIfNetworkFetchesPending", "budget": 8000}, nil); err != nil {
		return "", err
	}
	select {
	case <-p.over:
	case <-p.c.closed:
		return "", errors.New("the browser has gone\n" + p.c.errs.String())
	case <-time.After(patience):
		return "", fmt.Errorf("%s: nothing after %v", address, patience)
	}
	var said struct{ Result struct{ Value string } }
	err = p.c.ask(p.session, "Runtime.evaluate", object{"expression": "document.documentElement.outerHTML", "returnByValue": true}, &said)
	return said.Result.Value, err
}

// open shows a file in a browser that can reach nothing, and gives back the page as it stands after its script has run.
func open(t *testing.T, file, fragment string, width int) string {
	t.Helper()
	return openIn(t, file, fragment, width, "light")
}

// openIn is open on a screen that is light or dark.
func openIn(t *testing.T, file, fragment string, width int, scheme string) string {
	t.Helper()
	if browserPath() == "" {
		if os.Getenv("LAYSHAFT_REQUIRE_BROWSER") == "1" {
			t.Fatal("no browser found, and LAYSHAFT_REQUIRE_BROWSER=1 demands one; set LAYSHAFT_BROWSER to its path")
		}
		t.Skip("no browser found: page test skipped")
	}
	c, err := theBrowser()
	if err != nil {
		t.Fatalf("browser: %v", err)
	}
	p, err := c.newTab(width, scheme)
	if err != nil {
		t.Fatalf("browser: %v", err)
	}
	dom, err := p.show("file://" + file + fragment)
	if err := errors.Join(err, p.close()); err != nil {
		t.Fatalf("browser: %v", err)
	}
	for _, said := range p.console {
		t.Errorf("the browser's console says: %s", said)
	}
	return dom
}

func save(t *testing.T, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// What a page writes on the console, and what the browser says of it there, fails a test.
func TestBrowserConsoleIsHeard(t *testing.T) {
	t.Parallel()
	if browserPath() == "" {
		t.Skip("no browser found: page test skipped")
	}
	c, err := theBrowser()
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{
		`<script>console.log("said")</script>`,
		`<script>throw new Error("thrown")</script>`,
		`<meta http-equiv="Content-Security-Policy" content="script-src 'none'"><script>location</script>`,
		`<script>setTimeout(() => fetch("http://localhost/"), 5000)</script>`,
	} {
		p, err := c.newTab(800, "light")
		if err != nil {
			t.Fatal(err)
		}
		dom, err := p.show("file://" + save(t, "<!doctype html><html><head>"+bad+"</head></html>"))
		if err := errors.Join(err, p.close()); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(dom, "<script>") || len(p.console) == 0 {
			t.Errorf("%s: nothing on the console of %s", bad, dom)
		}
	}
}

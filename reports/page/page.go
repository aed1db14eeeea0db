package page

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"sync"

	"layshaft/gearbox"
	"layshaft/gearbox/study"
	"layshaft/reports/view"
)

// Mark stands within the first MarkWithin bytes of every page, whatever wrote it: so a page can be told from a file that somebody would miss.
const (
	Mark       = `<meta name="generator" content="layshaft `
	MarkWithin = 512
)

// Check writes a page about one or more boxes, each judged on its own.
func Check(w io.Writer, results []*gearbox.Result, o view.Options) error {
	if err := view.Reportable(results); err != nil {
		return err
	}
	return write(w, results, nil, o)
}

// Compare writes a page that sets boxes side by side.
func Compare(w io.Writer, c *study.Comparison, o view.Options) error {
	if err := view.ReportableComparison(c); err != nil {
		return err
	}
	return write(w, c.Results, c, o)
}

//go:embed assets/page.html
var pageText string

//go:embed assets/frame.html
var frameText string

//go:embed assets/ratios.html
var ratiosText string

//go:embed assets/page.css
var styleText string

//go:embed assets/boot.js
var bootText string

//go:embed assets/echarts.min.js
var echartsText string

//go:embed assets/echarts-LICENSE.txt
var echartsLicense string

//go:embed assets/echarts-NOTICE.txt
var echartsNotice string

//go:embed assets/echarts-LICENSE-d3.txt
var d3License string

// fixed is what is the same in every page; the hash of ECharts takes longer than the rest of a page, so it is made once.
var fixed = sync.OnceValue(func() (f struct {
	page   *template.Template
	policy string
}) {
	f.page = template.Must(template.New("page").Funcs(template.FuncMap{"inc": func(i int) int { return i + 1 }}).Parse(pageText))
	template.Must(f.page.New("frame").Parse(frameText))
	template.Must(f.page.New("ratios").Parse(ratiosText))
	template.Must(f.page.New("lighter").Parse(lighterText))
	template.Must(f.page.New("answer").Parse(answerText))
	f.policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; script-src " +
		sourceHash(bootText) + " " + sourceHash(echartsText)
	return f
})

// sourceHash is the source expression of a script in a content security policy (W3C Content Security Policy Level 3, section 2.3.1).
func sourceHash(script string) string {
	sum := sha256.Sum256([]byte(script))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// write has everything ready before the first byte leaves, so that an error of its own leaves nothing half-written.
func write(w io.Writer, results []*gearbox.Result, c *study.Comparison, o view.Options) error {
	content := newSet(results, o).content(c)
	content.Policy, content.Style, content.Licences = cover()
	return assemble(w, "page", content, content.Charts)
}

// cover is what every page has: its policy, its style, and the licences of what it carries.
func cover() (policy string, style template.CSS, licences []licence) {
	return fixed().policy, template.CSS(styleText), []licence{
		{"Apache ECharts 5.6.0: licence (Apache License 2.0)", echartsLicense},
		{"Apache ECharts 5.6.0: notice", echartsNotice},
		{"d3.js parts inside Apache ECharts: licence (BSD 3-Clause)", d3License},
	}
}

// assemble writes a page: the template of that name filled with content, then the scripts and the charts.
func assemble(w io.Writer, name string, content any, charts []chart) error {
	if charts == nil {
		charts = []chart{} // a list without entries, not null
	}
	data, err := json.Marshal(charts)
	if err != nil {
		return fmt.Errorf("page: chart data: %w", err)
	}
	var text bytes.Buffer
	text.Grow(1 << 20)
	if err := fixed().page.ExecuteTemplate(&text, name, content); err != nil {
		return fmt.Errorf("page: %w", err)
	}
	// The scripts are a megabyte, which a template would copy several times. json.Marshal has escaped <, > and & in the data.
	text.WriteString("<script>" + bootText + "</script>\n<script type=\"application/json\" id=\"charts\">")
	text.Write(data)
	text.WriteString("</script>\n<script>")
	if _, err := w.Write(text.Bytes()); err != nil {
		return err
	}
	if _, err := io.WriteString(w, echartsText); err != nil {
		return err
	}
	_, err = io.WriteString(w, "</script>\n</body>\n</html>\n")
	return err
}
